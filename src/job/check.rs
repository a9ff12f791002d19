//! The field table put to use: fills in what a document leaves out, and checks records.

use serde_json::{Value, json};

use super::fields::{self, Field, FieldError, Shape};
use super::place::{Held, Places};
use super::reading::Reading;
use super::{Choice, Conditions, Core, Design, Donor, Goal, Job, JobFile, Mains, Note, ShelfCore, StockWire};
use crate::quantity::Origin;

/// Whether `root` has anything where a pattern such as `stock[].length_m` begins.
fn begins_in(root: &Value, pattern: &str) -> bool {
    let first = pattern.split(['.', '[']).next().unwrap_or(pattern);
    root.get(first).is_some()
}

/// The JSON pointer of every value in `root` that a pattern names.
fn pointers(root: &Value, pattern: &str) -> Vec<String> {
    let mut found = vec![(root, String::new())];
    for part in pattern.split('.') {
        let (key, every) = part.strip_suffix("[]").map_or((part, false), |key| (key, true));
        found = found
            .into_iter()
            .filter_map(|(value, pointer)| Some((value.get(key)?, format!("{pointer}/{key}"))))
            .flat_map(|(value, pointer)| match value.as_array().filter(|_| every) {
                Some(list) => {
                    let member = |(at, member)| (member, format!("{pointer}/{at}"));
                    list.iter().enumerate().map(member).collect()
                }
                None if every => Vec::new(),
                None => vec![(value, pointer)],
            })
            .collect();
    }
    found.into_iter().map(|(_, pointer)| pointer).collect()
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
        // The second core of a pair is a core like the job's own.
        let of_second = field
            .path
            .strip_prefix("core.")
            .map(|below| format!("conditions.pair.core.{below}"));
        let mut places = pointers(root, field.path);
        places.extend(of_second.iter().flat_map(|path| pointers(root, path)));
        for pointer in places {
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

/// Checks every number and text of a record by the rows of the field table below `root`, such as `core`.
/// `shown` is the root as a message names it; of a goal, `goal_use` is the use.
pub(super) fn check_places(
    root: &str,
    shown: &str,
    goal_use: Option<&str>,
    record: &impl Places,
) -> Result<(), FieldError> {
    let below = |path: &'static str| path.strip_prefix(root)?.strip_prefix('.');
    for field in fields::ALL.iter().filter(|field| field.only_for == goal_use) {
        let Some(path) = below(field.path) else { continue };
        let (value, plus_minus) = match record.get(path) {
            Some(Held::Reading(reading)) => (reading.value, reading.plus_minus),
            Some(Held::Number(number)) => (number, 0.0),
            Some(Held::Text(_)) | None => continue,
        };
        field.check(&format!("{shown}.{path}"), value, plus_minus)?;
    }
    for (path, most, one_line) in fields::TEXTS {
        let Some(below) = below(path) else { continue };
        if let Some(Held::Text(text)) = record.get(below) {
            check_text(&format!("{shown}.{below}"), text, *most, *one_line)?;
        }
    }
    Ok(())
}

/// Checks a text at the top of a job file: its name or note.
fn check_top(path: &str, text: &str) -> Result<(), FieldError> {
    let row = fields::TEXTS.iter().find(|(row, ..)| *row == path);
    row.map_or(Ok(()), |(_, most, one_line)| check_text(path, text, *most, *one_line))
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

/// Something that the field table can check.
pub trait Check {
    /// Checks every number and text in it.
    ///
    /// # Errors
    /// The first [`FieldError`] found; its path is the path in a job file.
    fn check(&self) -> Result<(), FieldError>;
}

macro_rules! check_under {
    ($( $kind:ty => $root:literal ),* $(,)?) => { $(
        impl Check for $kind {
            fn check(&self) -> Result<(), FieldError> { check_places($root, $root, None, self) }
        }
    )* };
}

check_under! { Donor => "donor", Core => "core", Mains => "mains", Choice => "choice" }

impl Check for Conditions {
    fn check(&self) -> Result<(), FieldError> {
        check_places("conditions", "conditions", None, self)?;
        if let Some(pair) = &self.pair {
            check_places("core", "conditions.pair.core", None, &*pair.core)?;
            check_text("conditions.pair.name", &pair.name, 200, true)?;
        }
        self.earlier_uses.iter().try_for_each(|earlier| {
            earlier.goal.check()?;
            earlier.choice.as_ref().map_or(Ok(()), Check::check)
        })
    }
}

impl Check for Goal {
    fn check(&self) -> Result<(), FieldError> {
        check_places("goal", "goal", Some(self.word()), self)?;
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
        self.donor.as_ref().map_or(Ok(()), Check::check)?;
        self.core.check()?;
        self.mains.check()?;
        self.goal.check()?;
        self.conditions.check()?;
        self.choice.as_ref().map_or(Ok(()), Check::check)?;
        for (at, wire) in self.stock.iter().enumerate() {
            check_places("stock[]", &format!("stock[{at}]"), None, wire)?;
        }
        check_top("name", &self.name)?;
        check_top("note", &self.note)
    }
}

impl Check for StockWire {
    fn check(&self) -> Result<(), FieldError> {
        check_places("stock[]", "stock[0]", None, self)
    }
}

impl Check for ShelfCore {
    fn check(&self) -> Result<(), FieldError> {
        self.core.check()
    }
}

impl Check for Job {
    fn check(&self) -> Result<(), FieldError> {
        check_top("name", &self.name)?;
        check_top("note", &self.note)?;
        self.mains.check()?;
        self.goal.check()?;
        self.conditions.check()?;
        self.choice.as_ref().map_or(Ok(()), Check::check)
    }
}

impl Check for Design {
    fn check(&self) -> Result<(), FieldError> {
        check_top("name", &self.name)?;
        check_top("note", &self.note)?;
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

/// All readings in a record, by the field table. `root` is the record's key in a job file: `donor`, `core` or
/// `mains`.
#[must_use]
pub fn leaf_readings(root: &str, record: &impl Places) -> Vec<LeafReading> {
    fields::ALL
        .iter()
        .filter(|field| field.shape == Shape::Reading)
        .filter_map(|field| {
            let below = field.path.strip_prefix(root)?.strip_prefix('.')?;
            match record.get(below)? {
                Held::Reading(reading) => Some(LeafReading {
                    field: below.to_owned(),
                    reading,
                }),
                Held::Number(_) | Held::Text(_) => None,
            }
        })
        .collect()
}

/// Puts a reading back at its path in a record's JSON, making the objects on the way.
pub fn put_reading(record: &mut Value, leaf: &LeafReading) {
    put_at(record, leaf.field.split('.'), json!(leaf.reading));
}

/// Puts a value at a path of keys in a JSON object, making the objects on the way.
pub fn put_at<'k>(record: &mut Value, keys: impl Iterator<Item = &'k str>, value: Value) {
    let mut place = record;
    for key in keys {
        if !place.is_object() {
            *place = json!({});
        }
        let Value::Object(object) = place else { return };
        place = object.entry(key).or_insert(Value::Null);
    }
    *place = value;
}
