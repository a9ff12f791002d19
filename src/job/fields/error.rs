//! What is wrong with one field.

use super::ALL;
use crate::words::{Explain, Message};

/// A field that cannot be accepted, with its path, what was given and what would be accepted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum FieldError {
    /// Outside the range.
    #[error("{path} is {}; it must be between {} and {}{}", plain(.value), plain(.min), plain(.max), spaced(.unit))]
    OutOfRange {
        /// Where.
        path: String,
        /// What was given.
        value: f64,
        /// Smallest accepted.
        min: f64,
        /// Largest accepted.
        max: f64,
        /// Symbol of the unit.
        unit: &'static str,
    },
    /// Infinite or not a number.
    #[error("{path} is not a number; it must be between {} and {}{}", plain(.min), plain(.max), spaced(.unit))]
    NotFinite {
        /// Where.
        path: String,
        /// Smallest accepted.
        min: f64,
        /// Largest accepted.
        max: f64,
        /// Symbol of the unit.
        unit: &'static str,
    },
    /// Not one of the few accepted.
    #[error("{path} is {}; it must be one of {}{}", plain(.value), listed(.accepted), spaced(.unit))]
    NotOneOf {
        /// Where.
        path: String,
        /// What was given.
        value: f64,
        /// All that is accepted.
        accepted: &'static [f64],
        /// Symbol of the unit.
        unit: &'static str,
    },
    /// Has a fraction.
    #[error("{path} is {value}; it must be a whole number")]
    NotWhole {
        /// Where.
        path: String,
        /// What was given.
        value: f64,
    },
    /// The ± is negative, not finite, or wider than the range.
    #[error("the ± of {path} is {}; it must be between 0 and {}{}", plain(.plus_minus), plain(.widest), spaced(.unit))]
    BadSpread {
        /// Where.
        path: String,
        /// What was given.
        plus_minus: f64,
        /// Largest accepted.
        widest: f64,
        /// Symbol of the unit.
        unit: &'static str,
    },
    /// Blank where there must be something.
    #[error("{path} is blank; give it a few words")]
    Blank {
        /// Where.
        path: String,
    },
    /// Too long.
    #[error("{path} has {characters} characters; it must have at most {most}")]
    TooLong {
        /// Where.
        path: String,
        /// How many there are.
        characters: usize,
        /// How many there may be.
        most: usize,
    },
    /// A character that no text should have.
    #[error("{path} has a control character in it; leave it out")]
    ControlCharacter {
        /// Where.
        path: String,
    },
    /// The pulses of a spot welder take more than the whole minute.
    #[error(
        "goal.pulses_per_minute is {pulses_per_minute} with pulses of {pulse_s} s: more than a minute of weld in a \
         minute; it must be at most {}", 60.0 / .pulse_s
    )]
    PulsesOverlap {
        /// Pulses in a minute.
        pulses_per_minute: f64,
        /// Length of each, in seconds.
        pulse_s: f64,
    },
}

impl FieldError {
    /// Where it is.
    #[must_use]
    pub fn path(&self) -> &str {
        match self {
            FieldError::OutOfRange { path, .. }
            | FieldError::NotFinite { path, .. }
            | FieldError::NotOneOf { path, .. }
            | FieldError::NotWhole { path, .. }
            | FieldError::BadSpread { path, .. }
            | FieldError::Blank { path }
            | FieldError::TooLong { path, .. }
            | FieldError::ControlCharacter { path } => path,
            FieldError::PulsesOverlap { .. } => "goal.pulses_per_minute",
        }
    }
}

/// A number without a tail of zeros that nobody can read.
#[allow(clippy::trivially_copy_pass_by_ref)] // The error's derive hands it so.
fn plain(value: &f64) -> String {
    if *value == 0.0 || (1e-6..1e9).contains(&value.abs()) {
        value.to_string()
    } else {
        format!("{value:e}")
    }
}

fn spaced(unit: &str) -> String {
    if unit.is_empty() {
        String::new()
    } else {
        format!(" {unit}")
    }
}

fn listed(values: &[f64]) -> String {
    values.iter().map(f64::to_string).collect::<Vec<_>>().join(", ")
}

/// The label of the field at a path; the path itself where the table has no such field.
fn label(path: &str) -> Message {
    // A member of a list stands in the table as `stock[]`.
    let (start, rest) = path.split_once('[').unwrap_or((path, ""));
    let end = rest.split_once(']').map_or("", |(_, end)| end);
    let row = ALL
        .iter()
        .find(|field| field.path == path || (!rest.is_empty() && field.path.split_once("[]") == Some((start, end))));
    match row {
        Some(field) => Message::new(format!("{}.label", field.text())),
        None => Message::new("refused-at").with("path", path),
    }
}

impl Explain for FieldError {
    fn message(&self) -> Message {
        let refused = |key: &'static str| Message::new(key).within("field", label(self.path()));
        match self {
            FieldError::OutOfRange {
                value, min, max, unit, ..
            } => refused("refused-range")
                .with("value", plain(value))
                .with("least", plain(min))
                .with("most", plain(max))
                .with("unit", spaced(unit)),
            FieldError::NotFinite { min, max, unit, .. } => refused("refused-not-finite")
                .with("least", plain(min))
                .with("most", plain(max))
                .with("unit", spaced(unit)),
            FieldError::NotOneOf {
                value, accepted, unit, ..
            } => refused("refused-one-of")
                .with("value", plain(value))
                .with("accepted", listed(accepted))
                .with("unit", spaced(unit)),
            FieldError::NotWhole { value, .. } => refused("refused-whole").with("value", plain(value)),
            FieldError::BadSpread {
                plus_minus,
                widest,
                unit,
                ..
            } => refused("refused-spread")
                .with("value", plain(plus_minus))
                .with("most", plain(widest))
                .with("unit", spaced(unit)),
            FieldError::Blank { .. } => refused("refused-blank"),
            FieldError::TooLong { characters, most, .. } => refused("refused-long")
                .with("characters", characters)
                .with("most", most),
            FieldError::ControlCharacter { .. } => refused("refused-control"),
            FieldError::PulsesOverlap {
                pulses_per_minute,
                pulse_s,
            } => Message::new("refused-pulses")
                .with("pulses", plain(pulses_per_minute))
                .with("seconds", plain(pulse_s))
                .with("most", plain(&(60.0 / pulse_s))),
        }
    }
}
