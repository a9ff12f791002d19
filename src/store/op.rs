//! The names of a person's operations, for undo and redo.

use crate::job::fields::{self, Field};

macro_rules! operations {
    ($( $(#[$doc:meta])* $op:ident = $word:literal, )*) => {
        /// What a person did, as an undo button names it. The data file keeps its word.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub enum Op {
            $( $(#[$doc])* $op, )*
            /// Changed a number: this field.
            Number(&'static Field),
        }

        impl Op {
            /// Every operation but the numbers.
            pub const ALL: &[Op] = &[ $( Op::$op ),* ];

            /// The id of its text; that of [`Op::Number`] takes the field's label.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $( Op::$op => concat!("undo-", $word), )*
                    Op::Number(_) => "undo-number",
                }
            }

            /// The word that the data file keeps.
            pub(super) fn word(self) -> String {
                match self {
                    $( Op::$op => $word.to_owned(), )*
                    Op::Number(field) => match field.only_for {
                        Some(goal_use) => format!("{NUMBER}{} {goal_use}", field.path),
                        None => format!("{NUMBER}{}", field.path),
                    },
                }
            }

            /// The operation that a word stands for.
            pub(super) fn from_word(word: &str) -> Option<Op> {
                if let Some(number) = word.strip_prefix(NUMBER) {
                    let field = match number.split_once(' ') {
                        Some((path, goal_use)) => fields::find_for(goal_use, path.strip_prefix("goal.")?),
                        None => fields::find(number),
                    };
                    return field.map(Op::Number);
                }
                match word {
                    $( $word => Some(Op::$op), )*
                    _ => None,
                }
            }
        }
    };
}

/// What the word of a number begins with.
const NUMBER: &str = "number ";

operations! {
    /// Started a job with typical values.
    StartJob = "new-job",
    /// Started a job with a donor's core.
    StartJobFromDonor = "start-job",
    /// Imported a job file.
    ImportJobFile = "job-file",
    /// Removed a job.
    RemoveJob = "remove-job",
    /// Renamed a job.
    RenameJob = "rename-job",
    /// Wrote a job's note.
    Note = "note",
    /// Set a job back until it can be evaluated.
    Repair = "repair",
    /// Chose another use.
    Use = "use",
    /// Changed who welds.
    Welder = "welder",
    /// Changed where is welded.
    Place = "place",
    /// Confirmed the warning of the plasma cutter.
    ConfirmPlasma = "confirm-plasma",
    /// Confirmed that only lead-acid batteries are charged.
    ConfirmBattery = "confirm-battery",
    /// Chose another outlet.
    Outlet = "outlet",
    /// Changed the primary's metal.
    PrimaryMetal = "primary-metal",
    /// Kept or pulled the shunts.
    Shunts = "shunts",
    /// Took lengths from a photo.
    Lengths = "lengths",
    /// Deleted the readings of a test.
    DeleteTest = "delete-test",
    /// Changed whether a number is wanted or all that the core gives.
    Target = "target",
    /// Changed whether aluminium is offered.
    Aluminium = "aluminium",
    /// Changed the grade of the laminations.
    Steel = "steel",
    /// Changed the class of the insulation.
    Insulation = "insulation",
    /// Changed how the diodes are joined.
    Diodes = "diodes",
    /// Changed the second core of a pair.
    SecondCore = "second-core",
    /// Changed what it takes to reach the target.
    Reach = "reach",
    /// Changed how a pair's windings are joined.
    Windings = "windings",
    /// Chose a winding.
    ChooseWinding = "choose-winding",
    /// Went back to the best winding that is found.
    BestWinding = "best-winding",
    /// Kept a winding for comparison.
    KeepWinding = "keep-winding",
    /// Removed a winding that was kept.
    RemoveWinding = "remove-winding",
    /// Put a wire on the shelf.
    AddWire = "add-wire",
    /// Kept a note on a step.
    AddNote = "add-note",
    /// Removed a wire from the shelf.
    RemoveWire = "remove-wire",
    /// Put a donor on the shelf.
    AddDonor = "find",
    /// Removed a donor.
    RemoveDonor = "remove-donor",
    /// Renamed a donor.
    RenameDonor = "rename-donor",
    /// Changed the frequency on a donor's label.
    Frequency = "frequency",
    /// Changed a sign seen on a donor.
    Seen = "seen",
    /// Changed a donor's kind.
    OvenKind = "kind",
    /// Changed a donor's rust.
    Rust = "rust",
    /// Changed a donor's damage.
    Damage = "damage",
    /// Changed whether a donor can be opened.
    Openable = "openable",
    /// Started a teardown again.
    RestartTeardown = "teardown",
    /// Put the demo on the shelf.
    OpenDemo = "demo",
    /// Removed the demo.
    RemoveDemo = "remove-demo",
    /// Imported a file from another device.
    Import = "arrival",
    /// Settled a conflict.
    Settle = "settle",
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_stands_for_one_operation() {
        let numbers = fields::ALL.iter().map(Op::Number);
        let mut words = std::collections::BTreeSet::new();
        for op in Op::ALL.iter().copied().chain(numbers) {
            let word = op.word();
            assert_eq!(Op::from_word(&word), Some(op), "{word}");
            assert!(words.insert(word.clone()), "{word} is there twice");
        }
        for strange in [
            "",
            "Change the note",
            "number core",
            "number goal.duty choke",
            "number goal.x",
        ] {
            assert_eq!(Op::from_word(strange), None, "{strange}");
        }
    }
}
