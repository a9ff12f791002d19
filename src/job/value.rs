//! One value of a record, judged by itself: by the rows of the field table that name its place, or
//! as the typed part that it must make up. Values from elsewhere come in one by one.

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::check::{Check, check_places, check_text};
use super::fields::{self, FieldError};
use super::look::Look;
use crate::words::{Explain, Message};

/// Why a value from elsewhere is not accepted.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum ValueError {
    /// The row of the field table refuses it.
    #[error(transparent)]
    Field(Box<FieldError>),
    /// It cannot be read as what its field holds; for the log, what the reader of JSON says.
    #[error("it cannot be read as what its field holds: {0}")]
    Unreadable(String),
    /// No text, or a long one.
    #[error("it must be a text of at most {0} characters")]
    Text(usize),
    /// No whole number, or outside the range that readers of JSON keep exactly.
    #[error("it must be a whole number from 0 to 9007199254740991")]
    Whole,
    /// No finite number.
    #[error("it must be a finite number")]
    Number,
    /// Neither true nor false.
    #[error("it must be true or false")]
    Flag,
    /// No id.
    #[error("it must be the id of a record: 32 hexadecimal digits with hyphens")]
    Id,
    /// Many parts, or a long text in one.
    #[error("it must have at most {parts} parts, and no text above {characters} characters")]
    Parts {
        /// The most parts.
        parts: usize,
        /// The most characters of each text.
        characters: usize,
    },
    /// No owner of a note or a measurement.
    #[error("it must be an object with one key of donor, core, job or design, and the id of one")]
    Owner,
    /// No list of texts, or a long one.
    #[error("it must be a list of at most {0} texts")]
    Lines(usize),
    /// Its kind of record has no such field.
    #[error("such a record has no such field")]
    UnknownField,
    /// Not there.
    #[error("it is missing")]
    Missing,
    /// The counts of a history are too high, or too many.
    #[error("counts go up to {highest}, for at most {sessions} sessions of devices")]
    Counts {
        /// The highest count.
        highest: u64,
        /// The most sessions.
        sessions: usize,
    },
    /// Two values of a measurement, which is written once.
    #[error("a measurement is written once, and has one value")]
    SecondValue,
    /// The origin of a number is none of the known ones.
    #[error("it must be one of the known origins")]
    Origin,
    /// A ± below zero.
    #[error("it must be at least 0")]
    Negative,
    /// No kind of picture that is kept.
    #[error("it must be image/jpeg or image/png")]
    PictureKind,
    /// Neither a plan of bench tests nor one of a winding.
    #[error("it must be a list of predictions with stage, of, value, low, high, or a winding's plan")]
    Plan,
    /// None of a job's procedures.
    #[error("it must be wind, wind-second or bench")]
    Procedure,
    /// No number of a device.
    #[error("a device is written with 16 digits from 0 to 9 and a to f")]
    Device,
    /// A picture of a record that has none, or of none in the file.
    #[error("no record of the file has this picture")]
    NoPicture,
    /// A large picture.
    #[error("it must have at most {0} MiB")]
    LargePicture(usize),
    /// Another picture than the one in its record.
    #[error("it is not the picture that its record describes, by its kind and its SHA-256")]
    OtherPicture,
}

impl Explain for ValueError {
    fn message(&self) -> Message {
        match self {
            ValueError::Field(error) => error.message(),
            ValueError::Unreadable(_) => Message::new("refused-value-unreadable"),
            ValueError::Text(most) => Message::new("refused-value-text").with("most", most),
            ValueError::Whole => Message::new("refused-value-whole"),
            ValueError::Number => Message::new("refused-value-number"),
            ValueError::Flag => Message::new("refused-value-flag"),
            ValueError::Id => Message::new("refused-value-id"),
            ValueError::Parts { parts, characters } => Message::new("refused-value-parts")
                .with("parts", parts)
                .with("characters", characters),
            ValueError::Owner => Message::new("refused-value-owner"),
            ValueError::Lines(most) => Message::new("refused-value-lines").with("most", most),
            ValueError::UnknownField => Message::new("refused-value-field"),
            ValueError::Missing => Message::new("refused-value-missing"),
            ValueError::Counts { highest, sessions } => Message::new("refused-value-counts")
                .with("highest", highest)
                .with("sessions", sessions),
            ValueError::SecondValue => Message::new("refused-value-second"),
            ValueError::Origin => Message::new("refused-value-origin"),
            ValueError::Negative => Message::new("refused-value-negative"),
            ValueError::PictureKind => Message::new("refused-value-picture-kind"),
            ValueError::Plan => Message::new("refused-value-plan"),
            ValueError::Procedure => Message::new("refused-value-procedure"),
            ValueError::Device => Message::new("refused-value-device"),
            ValueError::NoPicture => Message::new("refused-value-no-picture"),
            ValueError::LargePicture(most_mib) => Message::new("refused-value-large-picture").with("most", most_mib),
            ValueError::OtherPicture => Message::new("refused-value-other-picture"),
        }
    }
}

impl From<FieldError> for ValueError {
    fn from(error: FieldError) -> Self {
        ValueError::Field(Box::new(error))
    }
}

/// What the reader of JSON says of a value.
impl From<serde_json::Error> for ValueError {
    fn from(error: serde_json::Error) -> Self {
        ValueError::Unreadable(error.to_string())
    }
}

/// Judges a value by the row of the table for `path`: of a text, or of a number without ±. `[]` in the path
/// stands for a member of a list, as in `stock[].length_m`.
///
/// # Errors
/// [`FieldError`] with the place and the range.
pub fn check_at(path: &str, value: &Value) -> Result<(), FieldError> {
    let shown = path.replace("[]", "[0]");
    let number = fields::find(path).map(|field| field.check(&shown, value.as_f64().unwrap_or(f64::NAN), 0.0));
    let text = fields::TEXTS.iter().find(|(row, ..)| *row == path);
    match (number, text) {
        (Some(judged), _) => judged,
        (None, Some((_, most, one_line))) => check_text(&shown, value.as_str().unwrap_or_default(), *most, *one_line),
        (None, None) => Ok(()),
    }
}

/// Judges a value that must make up a whole part of a job file, such as a goal.
///
/// # Errors
/// [`ValueError::Unreadable`]; [`ValueError::Field`] with the place and the range.
pub fn check_as<T: DeserializeOwned + Check>(value: &Value) -> Result<(), ValueError> {
    let part: T = serde_json::from_value(value.clone())?;
    Ok(part.check()?)
}

/// Judges what was seen of a donor, or a part of it.
///
/// # Errors
/// As [`check_as`].
pub fn check_look(value: &Value) -> Result<(), ValueError> {
    let look: Look = serde_json::from_value(value.clone())?;
    Ok(check_places("donor.look", "donor.look", None, &look)?)
}
