//! An entry of the bench's history as one stored line.

use super::advance::{Entry, Event};
use super::amounts::Reading;
use super::causes::Cause;
use super::resistance::WarmRun;
use super::stage::Stage;
use crate::safety::{Item, LineError, Words};
use crate::wire::Metal;

impl Entry {
    /// The entry as one line: moment, event, and what belongs to it; SI units.
    #[must_use]
    pub fn to_line(&self) -> String {
        let event = match self.event {
            Event::Confirm { toward, item } => format!("confirm {} {}", toward.word(), item.word()),
            Event::Renew { toward } => format!("renew {}", toward.word()),
            Event::Doubt { toward } => format!("doubt {}", toward.word()),
            Event::CouldNot { item } => format!("could-not {}", item.word()),
            Event::Go(stage) => format!("go {}", stage.word()),
            Event::Read { of, reading } => format!("read {of} {}", reading_words(reading)),
            Event::Explain { of, cause } => format!("explain {of} {}", cause.word()),
            Event::Reopened { fixed } => format!("reopened {}", fixed.map_or("nothing", Cause::word)),
            Event::Lamp { value, low, high } => format!("lamp {} {} {}", value.si(), low.si(), high.si()),
            Event::Finish => "finish".to_owned(),
            Event::Again => "again".to_owned(),
            Event::Brought => "brought".to_owned(),
        };
        format!("{} {event}", self.at.words())
    }

    /// The entry that a line holds. Whether it can have happened is for
    /// [`Bench::replay`](super::Bench::replay) to say.
    ///
    /// # Errors
    /// [`LineError`] for a line that [`Entry::to_line`] never writes.
    pub fn from_line(line: &str) -> Result<Self, LineError> {
        read(line).ok_or_else(|| LineError::of(line))
    }
}

fn reading_words(reading: Reading) -> String {
    match reading {
        Reading::Winding { resistance, at, metal } => {
            format!("winding {} {} {}", resistance.si(), at.si(), metal.word())
        }
        Reading::Insulation(value) => format!("insulation {}", value.si()),
        Reading::Ratio(value) => format!("ratio {}", value.si()),
        Reading::Impedance { volts, amps } => format!("impedance {} {}", volts.si(), amps.si()),
        Reading::Current(value) => format!("current {}", value.si()),
        Reading::Voltage(value) => format!("voltage {}", value.si()),
        Reading::Warm(run) => format!(
            "warm {} {} {} {} {} {}",
            run.cold.si(),
            run.cold_at.si(),
            run.hot.si(),
            run.air.si(),
            run.current.si(),
            run.metal.word()
        ),
    }
}

fn read(line: &str) -> Option<Entry> {
    let mut words = Words::of(line);
    let at = words.moment()?;
    let event = match words.word()? {
        "confirm" => Event::Confirm {
            toward: Stage::from_word(words.word()?)?,
            item: Item::from_word(words.word()?)?,
        },
        "renew" => Event::Renew {
            toward: Stage::from_word(words.word()?)?,
        },
        "doubt" => Event::Doubt {
            toward: Stage::from_word(words.word()?)?,
        },
        "could-not" => Event::CouldNot {
            item: Item::from_word(words.word()?)?,
        },
        "go" => Event::Go(Stage::from_word(words.word()?)?),
        "read" => Event::Read {
            of: words.parse()?,
            reading: reading(&mut words)?,
        },
        "explain" => Event::Explain {
            of: words.parse()?,
            cause: Cause::from_word(words.word()?)?,
        },
        "reopened" => Event::Reopened {
            fixed: match words.word()? {
                "nothing" => None,
                cause => Some(Cause::from_word(cause)?),
            },
        },
        "lamp" => Event::Lamp {
            value: words.quantity()?,
            low: words.quantity()?,
            high: words.quantity()?,
        },
        "finish" => Event::Finish,
        "again" => Event::Again,
        "brought" => Event::Brought,
        _ => return None,
    };
    words.end(Entry { at, event })
}

fn reading(words: &mut Words<'_>) -> Option<Reading> {
    Some(match words.word()? {
        "winding" => Reading::Winding {
            resistance: words.quantity()?,
            at: words.quantity()?,
            metal: metal(words)?,
        },
        "insulation" => Reading::Insulation(words.quantity()?),
        "ratio" => Reading::Ratio(words.quantity()?),
        "impedance" => Reading::Impedance {
            volts: words.quantity()?,
            amps: words.quantity()?,
        },
        "current" => Reading::Current(words.quantity()?),
        "voltage" => Reading::Voltage(words.quantity()?),
        "warm" => Reading::Warm(WarmRun {
            cold: words.quantity()?,
            cold_at: words.quantity()?,
            hot: words.quantity()?,
            air: words.quantity()?,
            current: words.quantity()?,
            metal: metal(words)?,
        }),
        _ => return None,
    })
}

fn metal(words: &mut Words<'_>) -> Option<Metal> {
    let word = words.word()?;
    Metal::ALL.into_iter().find(|metal| metal.word() == word)
}

#[cfg(test)]
mod tests {
    use super::super::tests::{events, whole};
    use super::*;

    #[test]
    fn a_history_survives_being_stored() {
        let state = whole();
        let lines: Vec<String> = state.history().iter().map(Entry::to_line).collect();
        let back: Vec<Entry> = lines.iter().map(|line| Entry::from_line(line).unwrap()).collect();
        assert_eq!(
            super::super::Bench::replay(state.plan().clone(), &back),
            Ok(state.clone())
        );
        for event in events(state.plan()) {
            let entry = Entry {
                at: crate::safety::Moment {
                    unix_ms: 7,
                    local_day: -3,
                },
                event,
            };
            assert_eq!(Entry::from_line(&entry.to_line()), Ok(entry));
        }
        for line in [
            "",
            "1 1 read",
            "1 1 read 0 ratio",
            "1 1 read 300 ratio 1",
            "1 1 reopened",
            "1 1 go roof",
        ] {
            assert!(Entry::from_line(line).is_err(), "{line}");
        }
    }
}
