//! Whether a record from elsewhere may come in at all: every value has the shape of its field.
//! Ranges of the numbers that a person enters are judged by the field table.

use serde_json::Value;
use uuid::Uuid;

use super::history::{REMOVED, RecordHistory, in_order};
use super::kind::{FieldShape, Kind};
use super::line::RecordLine;
use super::stamp::MAX_COUNT;
use super::validate::validate_value;
use crate::job::ValueError;
use crate::job::fields::{self, Shape as Row};
use crate::quantity::Origin;
use crate::words::{Explain, Message};

/// Why a record was refused: the record, the field, the reason.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{} {id}, {field}: {reason}", .kind.word())]
pub struct Refused {
    /// The kind of record.
    pub kind: Kind,
    /// Which record.
    pub id: Uuid,
    /// The field's key.
    pub field: String,
    /// What is wrong, and what is accepted.
    pub reason: ValueError,
}

impl Explain for Refused {
    fn message(&self) -> Message {
        Message::new("refused-record")
            .within("kind", self.kind.named())
            .with("field", &self.field)
            .within("reason", self.reason.message())
    }
}

/// The largest whole number accepted: JSON readers are exact up to here.
const LARGEST: f64 = 9_007_199_254_740_991.0;
/// Sessions of devices that one record's history may name.
const MOST_SESSIONS: usize = 20_000;

/// Judges a record, and brings its numbers and ids to the form in which the store compares them;
/// tells whether any had another one.
///
/// # Errors
/// [`Refused`] with the first field that is not accepted.
pub fn accept(line: &mut RecordLine) -> Result<bool, Refused> {
    let (kind, id) = (line.kind, line.id);
    let mut altered = false;
    let refused = |field: &str, reason: ValueError| Refused {
        kind,
        id,
        field: field.chars().take(120).collect(),
        reason,
    };
    if line.known.seen.highest() > MAX_COUNT || line.known.seen.stamps().count() > MOST_SESSIONS {
        return Err(refused(
            "seen",
            ValueError::Counts {
                highest: MAX_COUNT,
                sessions: MOST_SESSIONS,
            },
        ));
    }
    for (key, entries) in &mut line.known.fields {
        let mut changed = false;
        for entry in entries.iter_mut() {
            if key == REMOVED {
                if !entry.value.is_boolean() {
                    return Err(refused(key, ValueError::Flag));
                }
                continue;
            }
            let Some(field) = kind.field(key) else {
                return Err(refused(key, ValueError::UnknownField));
            };
            if entry.value.is_null() && field.optional {
                continue;
            }
            changed |= shape(field.shape, &mut entry.value).map_err(|reason| refused(key, reason))?;
            validate_value(field, key, &entry.value).map_err(|reason| refused(key, reason))?;
        }
        if changed {
            altered = true;
            entries.sort_by(in_order);
            entries.dedup();
        }
    }
    for field in kind.fields().iter().filter(|field| !field.optional) {
        if line.known.entries(field.key).is_empty() {
            return Err(refused(field.key, ValueError::Missing));
        }
    }
    if kind == Kind::Measurement {
        measurement(&line.known).map_err(|(field, reason)| refused(field, reason))?;
    }
    if kind.has_picture() {
        let media = line.known.shown("kind").and_then(Value::as_str);
        if !matches!(media, Some("image/jpeg" | "image/png")) {
            return Err(refused("kind", ValueError::PictureKind));
        }
    }
    Ok(altered)
}

/// Puts a value in the form wanted; tells whether it had another one.
fn put(value: &mut Value, wanted: Value) -> bool {
    let altered = *value != wanted;
    *value = wanted;
    altered
}

fn shape(shape: FieldShape, value: &mut Value) -> Result<bool, ValueError> {
    let text = |value: &Value, most: usize| match value {
        Value::String(text) if text.len() <= most || text.chars().count() <= most => Ok(false),
        _ => Err(ValueError::Text(most)),
    };
    match shape {
        FieldShape::Text(most) => text(value, most),
        FieldShape::Whole => {
            let whole = value
                .as_f64()
                .filter(|v| v.fract() == 0.0 && (0.0..=LARGEST).contains(v));
            // The range fits.
            let whole = whole.ok_or(ValueError::Whole)? as u64;
            Ok(put(value, Value::from(whole)))
        }
        FieldShape::Number => {
            let number = value.as_f64().filter(|v| v.is_finite()).ok_or(ValueError::Number)?;
            Ok(put(value, Value::from(number)))
        }
        FieldShape::Flag => value.is_boolean().then_some(false).ok_or(ValueError::Flag),
        FieldShape::Id(_) => {
            let id = id_of(value).ok_or(ValueError::Id)?;
            Ok(!value.as_str().is_some_and(is_plain) && put(value, Value::from(id.to_string())))
        }
        FieldShape::Part => {
            let mut left = MOST_PARTS;
            (!value.is_null() && small(value, &mut left))
                .then_some(false)
                .ok_or(ValueError::Parts {
                    parts: MOST_PARTS,
                    characters: LONGEST_PART,
                })
        }
        FieldShape::Owner => owner_of(value).map(|_| false).ok_or(ValueError::Owner),
        FieldShape::Lines(most) => match value {
            Value::Array(lines) if lines.len() <= MOST_LINES => lines
                .iter()
                .try_for_each(|line| text(line, most).map(|_| ()))
                .map(|()| false),
            _ => Err(ValueError::Lines(MOST_LINES)),
        },
    }
}

fn id_of(value: &Value) -> Option<Uuid> {
    value.as_str()?.parse().ok()
}

/// Whether an id is written as this program writes it.
fn is_plain(id: &str) -> bool {
    id.len() == 36
        && id
            .bytes()
            .all(|b| b == b'-' || b.is_ascii_digit() || (b'a'..=b'f').contains(&b))
}

/// The owner of a note or measurement: its kind and id.
#[must_use]
pub fn owner_of(value: &Value) -> Option<(Kind, Uuid)> {
    let owner = value.as_object().filter(|owner| owner.len() == 1)?;
    let (word, id) = owner.iter().next()?;
    let kind = Kind::from_word(word).filter(|kind| kind.owns())?;
    Some((kind, id_of(id)?))
}

/// Parts of one value, and lines of a list, that are accepted.
const MOST_PARTS: usize = 2_000;
const MOST_LINES: usize = 10_000;
/// Characters of a text in a part.
const LONGEST_PART: usize = 4_000;

/// Whether a JSON value has at most so many parts, none of them a long text.
fn small(value: &Value, left: &mut usize) -> bool {
    if *left == 0 {
        return false;
    }
    *left -= 1;
    match value {
        Value::String(text) => text.len() <= LONGEST_PART,
        Value::Array(parts) => parts.iter().all(|part| small(part, left)),
        Value::Object(parts) => parts.iter().all(|(key, part)| key.len() <= 120 && small(part, left)),
        _ => true,
    }
}

/// A measurement's number is judged by the row of its field, where the table has one.
fn measurement(known: &RecordHistory) -> Result<(), (&str, ValueError)> {
    if let Some((field, _)) = known.conflicts().next() {
        return Err((field, ValueError::SecondValue));
    }
    let number = |key: &str| known.shown(key).and_then(Value::as_f64).unwrap_or(f64::NAN);
    let word = |key: &str| known.shown(key).and_then(Value::as_str).unwrap_or_default();
    if Origin::from_word(word("origin")).is_none() {
        return Err(("origin", ValueError::Origin));
    }
    if number("plus_minus") < 0.0 {
        return Err(("plus_minus", ValueError::Negative));
    }
    let root = match known.shown("owner").and_then(owner_of) {
        Some((Kind::Job, _)) => "mains",
        Some((Kind::Donor, _)) => "donor",
        Some((Kind::Core, _)) => "core",
        _ => return Ok(()),
    };
    let field = word("field");
    let of_row =
        |row: &&fields::Field| row.path.strip_prefix(root).and_then(|rest| rest.strip_prefix('.')) == Some(field);
    match fields::ALL.iter().find(of_row).filter(|row| row.shape == Row::Reading) {
        Some(row) => row
            .check(row.path, number("value"), number("plus_minus"))
            .map_err(|error| ("value", error.into())),
        None => Ok(()),
    }
}
