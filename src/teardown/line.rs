//! An entry of a teardown's history as one stored line.

use super::advance::{Entry, Event, Proof};
use super::findings::{Field, Finding, ShuntFate, Supply, Way, Winding};
use super::step::Step;
use crate::safety::{Item, LineError, TouchLimit, Words};
use crate::wire::Metal;

impl Entry {
    /// The entry as one line: moment, event, and what belongs to it; SI units.
    #[must_use]
    pub fn to_line(&self) -> String {
        let event = match self.event {
            Event::Confirm { toward, item } => format!("confirm {} {}", toward.word(), item.word()),
            Event::Renew { toward } => format!("renew {}", toward.word()),
            Event::Doubt { toward } => format!("doubt {}", toward.word()),
            Event::Prove(p) => format!(
                "prove {} {} {} {}",
                p.between.si(),
                p.first_to_chassis.si(),
                p.second_to_chassis.si(),
                p.limit.volts().si()
            ),
            Event::CouldNot { item } => format!("could-not {}", item.word()),
            Event::Go(step) => format!("go {}", step.word()),
            Event::Finish => "finish".to_owned(),
            Event::Found(finding) => format!("found {} {}", finding.field().word(), value(finding)),
            Event::PluggedIn => "plugged-in".to_owned(),
            Event::Again => "again".to_owned(),
            Event::Brought => "brought".to_owned(),
        };
        format!("{} {event}", self.at.words())
    }

    /// The entry that a line holds. Whether it can have happened is for
    /// [`Teardown::replay`](super::Teardown::replay) to say.
    ///
    /// # Errors
    /// [`LineError`] for a line that [`Entry::to_line`] never writes.
    pub fn from_line(line: &str) -> Result<Self, LineError> {
        read(line).ok_or_else(|| LineError::of(line))
    }
}

fn value(finding: Finding) -> String {
    match finding {
        Finding::Photo(id) => id.to_string(),
        Finding::Supply(supply) => supply.word().to_owned(),
        Finding::WireCount(count) | Finding::Terminals(count) => count.to_string(),
        Finding::TransformerMass(mass) => mass.si().to_string(),
        Finding::WindingAtBack(winding) => winding.word().to_owned(),
        Finding::PrimaryMetal(metal) => metal.word().to_owned(),
        Finding::SeamThickness(thickness) => thickness.si().to_string(),
        Finding::Way(way) => way.word().to_owned(),
        Finding::Shunts(fate) => fate.word().to_owned(),
    }
}

fn read(line: &str) -> Option<Entry> {
    let mut words = Words::of(line);
    let at = words.moment()?;
    let event = match words.word()? {
        "confirm" => Event::Confirm {
            toward: Step::from_word(words.word()?)?,
            item: Item::from_word(words.word()?)?,
        },
        "renew" => Event::Renew {
            toward: Step::from_word(words.word()?)?,
        },
        "doubt" => Event::Doubt {
            toward: Step::from_word(words.word()?)?,
        },
        "prove" => Event::Prove(Proof {
            between: words.quantity()?,
            first_to_chassis: words.quantity()?,
            second_to_chassis: words.quantity()?,
            limit: TouchLimit::new(words.quantity()?).ok()?,
        }),
        "could-not" => Event::CouldNot {
            item: Item::from_word(words.word()?)?,
        },
        "go" => Event::Go(Step::from_word(words.word()?)?),
        "finish" => Event::Finish,
        "found" => Event::Found(finding(&mut words)?),
        "plugged-in" => Event::PluggedIn,
        "again" => Event::Again,
        "brought" => Event::Brought,
        _ => return None,
    };
    words.end(Entry { at, event })
}

fn finding(words: &mut Words<'_>) -> Option<Finding> {
    Some(match Field::from_word(words.word()?)? {
        Field::Photo => Finding::Photo(words.parse()?),
        Field::Supply => Finding::Supply(Supply::from_word(words.word()?)?),
        Field::WireCount => Finding::WireCount(words.parse()?),
        Field::Terminals => Finding::Terminals(words.parse()?),
        Field::TransformerMass => Finding::TransformerMass(words.quantity()?),
        Field::WindingAtBack => Finding::WindingAtBack(Winding::from_word(words.word()?)?),
        Field::PrimaryMetal => {
            let word = words.word()?;
            Finding::PrimaryMetal(Metal::ALL.into_iter().find(|metal| metal.word() == word)?)
        }
        Field::SeamThickness => Finding::SeamThickness(words.quantity()?),
        Field::Way => Finding::Way(Way::from_word(words.word()?)?),
        Field::Shunts => Finding::Shunts(ShuntFate::from_word(words.word()?)?),
    })
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::super::tests::{events, whole};
    use super::*;

    #[test]
    fn a_history_survives_being_stored() {
        for &way in Way::ALL {
            let state = whole(way);
            let lines: Vec<String> = state.history().iter().map(Entry::to_line).collect();
            let back: Vec<Entry> = lines.iter().map(|line| Entry::from_line(line).unwrap()).collect();
            assert_eq!(super::super::Teardown::replay(&back), Ok(state));
        }
        for event in events() {
            let entry = Entry {
                at: crate::safety::Moment {
                    unix_ms: -5,
                    local_day: 3,
                },
                event,
            };
            assert_eq!(Entry::from_line(&entry.to_line()), Ok(entry));
        }
    }

    #[test]
    fn a_limit_can_not_be_forged() {
        let forged = "1000 1 prove 500 500 500 1000";
        assert_eq!(Entry::from_line(forged), Err(LineError::of(forged)));
        for line in [
            "",
            "1 1",
            "1 1 go",
            "1 1 go moon",
            "1 1 finish now",
            "x 1 finish",
            "1 1 confirm open",
        ] {
            assert!(Entry::from_line(line).is_err(), "{line}");
        }
    }

    proptest! {
        #[test]
        fn any_text_is_read_or_refused(line in ".{0,80}") {
            if let Ok(entry) = Entry::from_line(&line) {
                prop_assert_eq!(Entry::from_line(&entry.to_line()), Ok(entry));
            }
        }
    }
}
