//! One walk over a document with the field table: fills in what was left out, and checks.

use std::borrow::Cow;

use serde::Serialize;
use serde_json::{Value, json};

use super::fields::{self, Field, FieldError, Shape};
use super::reading::Reading;
use super::{Choice, Conditions, Core, Design, Donor, Goal, Job, JobFile, Mains, Note, ShelfCore, StockWire};
use crate::quantity::Origin;

/// Where a pattern such as `stock[].length_m` leads to a value: which member of each list.
struct Found<'p> {
    pattern: &'p str,
    members: Vec<usize>,
}

impl Found<'_> {
    /// The path as a person reads it: `stock[2].length_m`.
    fn path(&self) -> Cow<'_, str> {
        if self.members.is_empty() {
            return Cow::Borrowed(self.pattern);
        }
        Cow::Owned(self.with_members(self.pattern, |member| format!("[{member}]")))
    }

    /// The JSON pointer: `/stock/2/length_m`.
    fn pointer(&self) -> String {
        let slashed = format!("/{}", self.pattern.replace('.', "/"));
        self.with_members(&slashed, |member| format!("/{member}"))
    }

    fn with_members(&self, pattern: &str, written: impl Fn(usize) -> String) -> String {
        let mut members = self.members.iter();
        let mut path = String::new();
        for (at, piece) in pattern.split("[]").enumerate() {
            if at > 0 {
                path.push_str(&members.next().map_or_else(String::new, |member| written(*member)));
            }
            path.push_str(piece);
        }
        path
    }
}

/// Whether `root` has anything where a pattern such as `stock[].length_m` begins.
fn begins_in(root: &Value, pattern: &str) -> bool {
    let first = pattern.split(['.', '[']).next().unwrap_or(pattern);
    root.get(first).is_some()
}

/// Every value in `root` that a pattern names, and where it is.
fn find_all<'v, 'p>(root: &'v Value, pattern: &'p str) -> Vec<(&'v Value, Found<'p>)> {
    let mut places = vec![(root, Vec::new())];
    for part in pattern.split('.') {
        let (key, every) = part.strip_suffix("[]").map_or((part, false), |key| (key, true));
        if !every {
            places.retain_mut(|(value, _)| value.get(key).map(|inner| *value = inner).is_some());
            continue;
        }
        places = places
            .into_iter()
            .flat_map(|(value, members)| {
                let list = value.get(key).and_then(Value::as_array);
                list.into_iter().flatten().enumerate().map(move |(at, member)| {
                    let mut members = members.clone();
                    members.push(at);
                    (member, members)
                })
            })
            .collect();
    }
    let found = |(value, members)| (value, Found { pattern, members });
    places.into_iter().map(found).collect()
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
        let pointers: Vec<String> = find_all(root, field.path)
            .iter()
            .map(|(_, found)| found.pointer())
            .collect();
        for pointer in pointers {
            let Some(place) = root.pointer_mut(&pointer) else {
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
        let word = object.get("origin").and_then(Value::as_str);
        let origin = word.and_then(Origin::from_word).unwrap_or(field.origin);
        object
            .entry("plus_minus")
            .or_insert_with(|| json!(field.usual_plus_minus(value, origin)));
        object.entry("origin").or_insert_with(|| json!(field.origin.word()));
    }
}

/// Checks every number and text of a document. `root` is a job file, or a part of one under
/// its key (`{"core": …}`).
pub(super) fn check_document(root: &Value) -> Result<(), FieldError> {
    for field in fields::ALL.iter().filter(|field| applies(field, root)) {
        for (place, found) in find_all(root, field.path) {
            // A number that JSON cannot hold has become null: the check refuses it as NaN.
            let number = |value: Option<&Value>| value.and_then(Value::as_f64).unwrap_or(f64::NAN);
            let (value, plus_minus) = match field.shape {
                Shape::Reading => (number(place.get("value")), number(place.get("plus_minus"))),
                _ => (number(Some(place)), 0.0),
            };
            field.check(&found.path(), value, plus_minus)?;
        }
    }
    for (pattern, most, one_line) in fields::TEXTS.iter().filter(|(pattern, ..)| begins_in(root, pattern)) {
        for (place, found) in find_all(root, pattern) {
            if let Some(text) = place.as_str() {
                check_text(&found.path(), text, *most, *one_line)?;
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

check_under! { Donor => "donor", Core => "core", Mains => "mains", Choice => "choice" }

impl Check for Conditions {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "conditions": self }))?;
        check_earlier(self)
    }
}

fn check_earlier(conditions: &Conditions) -> Result<(), FieldError> {
    conditions.earlier_uses.iter().try_for_each(|earlier| {
        earlier.goal.check()?;
        earlier.choice.as_ref().map_or(Ok(()), Check::check)
    })
}

impl Check for Goal {
    fn check(&self) -> Result<(), FieldError> {
        check_part(&json!({ "goal": self }))?;
        match *self {
            Goal::SpotWelder {
                pulse_s,
                pulses_per_minute,
                ..
            } if pulse_s * pulses_per_minute > 60.0 * (1.0 + 1e-12) => Err(FieldError::PulsesOverlap {
                pulses_per_minute,
                pulse_s,
            }),
            _ => Ok(()),
        }
    }
}

impl Check for JobFile {
    fn check(&self) -> Result<(), FieldError> {
        check_document(&serde_json::to_value(self).unwrap_or(Value::Null))?;
        check_earlier(&self.conditions)?;
        self.goal.check()
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
