//! One walk over a document with the field table: fills in what was left out, and checks.

use serde::Serialize;
use serde_json::{Value, json};

use super::fields::{self, Field, FieldError, Shape};
use super::reading::Reading;
use super::{Choice, Conditions, Core, Design, Donor, Goal, Job, Mains, Note, ShelfCore, StockWire};
use crate::quantity::Origin;

/// A value found in a document: its JSON pointer and its path as a person reads it.
struct Found {
    pointer: String,
    path: String,
}

/// Whether `root` has anything where a pattern such as `stock[].length_m` begins.
fn begins_in(root: &Value, pattern: &str) -> bool {
    let first = pattern.split(['.', '[']).next().unwrap_or(pattern);
    root.get(first).is_some()
}

/// Every place in `root` that a pattern such as `stock[].length_m` names.
fn find_all(root: &Value, pattern: &str) -> Vec<Found> {
    let mut places = vec![(
        root,
        Found {
            pointer: String::new(),
            path: String::new(),
        },
    )];
    for part in pattern.split('.') {
        let (key, every) = part.strip_suffix("[]").map_or((part, false), |key| (key, true));
        places = places
            .into_iter()
            .filter_map(|(value, at)| Some((value.get(key)?, at)))
            .flat_map(|(value, at)| {
                let dot = if at.path.is_empty() { "" } else { "." };
                let (pointer, path) = (format!("{}/{key}", at.pointer), format!("{}{dot}{key}", at.path));
                match value.as_array().filter(|_| every) {
                    Some(members) => members
                        .iter()
                        .enumerate()
                        .map(|(i, member)| {
                            let (pointer, path) = (format!("{pointer}/{i}"), format!("{path}[{i}]"));
                            (member, Found { pointer, path })
                        })
                        .collect(),
                    None => vec![(value, Found { pointer, path })],
                }
            })
            .collect();
    }
    places.into_iter().map(|(_, found)| found).collect()
}

/// Whether a row applies to this document: where it has that part, except for a key of another use.
fn applies(field: &Field, root: &Value) -> bool {
    begins_in(root, field.path)
        && field
            .only_for
            .is_none_or(|goal_use| root.pointer("/goal/use").and_then(Value::as_str) == Some(goal_use))
}

/// Fills in the ± and origin of readings that came without, and writes 12.0 as 12 where the
/// field is whole. What has the wrong type is left for the typed reader to name.
pub(super) fn fill_in(root: &mut Value) {
    for field in fields::ALL {
        if !applies(field, root) {
            continue;
        }
        for found in find_all(root, field.path) {
            let Some(place) = root.pointer_mut(&found.pointer) else {
                continue;
            };
            match field.shape {
                Shape::Reading => complete(field, place),
                Shape::Whole | Shape::OneOf(_) => {
                    if let Some(whole) = place.as_f64().filter(|v| v.fract() == 0.0 && (0.0..=1e9).contains(v)) {
                        *place = json!(whole as u64);
                    }
                }
                Shape::Number => {}
            }
        }
    }
}

fn complete(field: &Field, place: &mut Value) {
    let value = match place {
        Value::Number(number) => number.as_f64(),
        Value::Object(object) => object.get("value").and_then(Value::as_f64),
        _ => None,
    };
    let Some(value) = value else { return };
    if place.is_number() {
        *place = json!({ "value": value });
    }
    if let Value::Object(object) = place {
        object
            .entry("plus_minus")
            .or_insert_with(|| json!(field.default_plus_minus(value)));
        object.entry("origin").or_insert_with(|| json!(field.origin.word()));
    }
}

/// Checks every number and text of a document. `root` is a job file, or a part of one under
/// its key (`{"core": …}`).
pub(super) fn check_document(root: &Value) -> Result<(), FieldError> {
    for field in fields::ALL.iter().filter(|field| applies(field, root)) {
        for found in find_all(root, field.path) {
            let Some(place) = root.pointer(&found.pointer) else {
                continue;
            };
            // A number that JSON cannot hold has become null: the check refuses it as NaN.
            let number = |value: Option<&Value>| value.and_then(Value::as_f64).unwrap_or(f64::NAN);
            let (value, plus_minus) = match field.shape {
                Shape::Reading => (number(place.get("value")), number(place.get("plus_minus"))),
                _ => (number(Some(place)), 0.0),
            };
            field.check(&found.path, value, plus_minus)?;
        }
    }
    for (pattern, most, one_line) in fields::TEXTS.iter().filter(|(pattern, ..)| begins_in(root, pattern)) {
        for found in find_all(root, pattern) {
            if let Some(text) = root.pointer(&found.pointer).and_then(Value::as_str) {
                check_text(&found.path, text, *most, *one_line)?;
            }
        }
    }
    Ok(())
}

/// Checks one text. `path` is where it stands, for the message.
///
/// # Errors
/// [`FieldError`] for more than `most` characters, for control characters (line ends and tabs
/// are accepted unless it is one line), and for a blank text that must be one line.
pub fn check_text(path: &str, text: &str, most: usize, one_line: bool) -> Result<(), FieldError> {
    let path = path.to_owned();
    if one_line && text.trim().is_empty() {
        return Err(FieldError::Blank { path });
    }
    let characters = text.chars().count();
    if characters > most {
        return Err(FieldError::TooLong { path, characters, most });
    }
    if text
        .chars()
        .any(|c| c.is_control() && (one_line || !matches!(c, '\n' | '\r' | '\t')))
    {
        return Err(FieldError::ControlCharacter { path });
    }
    Ok(())
}

fn check_part(root: &impl Serialize) -> Result<(), FieldError> {
    // The types of this room serialise to plain JSON, which cannot fail.
    check_document(&serde_json::to_value(root).unwrap_or(Value::Null))
}

/// Something that the field table can check.
pub trait Check {
    /// Checks every number and text in it.
    ///
    /// # Errors
    /// The first [`FieldError`] found; its path is the path in a job file.
    fn check(&self) -> Result<(), FieldError>;
}

macro_rules! check_under {
    ($( $kind:ty => $key:literal ),* $(,)?) => { $(
        impl Check for $kind {
            fn check(&self) -> Result<(), FieldError> { check_part(&json!({ $key: self })) }
        }
    )* };
}

check_under! { Donor => "donor", Core => "core", Mains => "mains", Choice => "choice", Conditions => "conditions" }

impl Check for Goal {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "goal": self }))?;
        match *self {
            Goal::SpotWelder {
                pulse_s,
                pulses_per_minute,
                ..
            } if pulse_s * pulses_per_minute > 60.0 => Err(FieldError::PulsesOverlap {
                pulses_per_minute,
                pulse_s,
            }),
            _ => Ok(()),
        }
    }
}

impl Check for StockWire {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "stock": [self] }))
    }
}

impl Check for ShelfCore {
    fn check(&self) -> Result<(), FieldError> {
        self.core.check()
    }
}

impl Check for Job {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "name": self.name, "note": self.note }))?;
        self.mains.check()?;
        self.goal.check()?;
        self.conditions.check()?;
        self.choice.as_ref().map_or(Ok(()), Check::check)
    }
}

impl Check for Design {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "name": self.name, "note": self.note }))?;
        self.choice.check()
    }
}

impl Check for Note {
    fn check(&self) -> Result<(), FieldError> {
        check_text("text", &self.text, 20_000, false)
    }
}

/// A reading inside a record, and the path below the record's root.
#[derive(Debug, Clone, PartialEq)]
pub struct LeafReading {
    /// Such as `primary.test_turn.turns` in a core.
    pub field: String,
    /// The reading.
    pub reading: Reading,
}

/// All readings in a record's JSON, by the field table. `root` is the record's key in a job
/// file: `donor`, `core` or `mains`.
#[must_use]
pub fn leaf_readings(root: &str, record: &Value) -> Vec<LeafReading> {
    fields::ALL
        .iter()
        .filter(|field| field.shape == Shape::Reading)
        .filter_map(|field| {
            let below = field.path.strip_prefix(root)?.strip_prefix('.')?;
            let place = record.pointer(&format!("/{}", below.replace('.', "/")))?;
            Some(LeafReading {
                field: below.to_owned(),
                reading: Reading {
                    value: place.get("value")?.as_f64()?,
                    plus_minus: place.get("plus_minus")?.as_f64()?,
                    origin: Origin::from_word(place.get("origin")?.as_str()?)?,
                },
            })
        })
        .collect()
}

/// Puts a reading back at its path in a record's JSON, making the objects on the way.
pub fn put_reading(record: &mut Value, leaf: &LeafReading) {
    let mut place = record;
    for key in leaf.field.split('.') {
        if !place.is_object() {
            *place = json!({});
        }
        let Value::Object(object) = place else { return };
        place = object.entry(key).or_insert(Value::Null);
    }
    *place = json!(leaf.reading);
}
