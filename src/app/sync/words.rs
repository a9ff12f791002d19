//! Imported values and histories as texts for the person.

use serde_json::Value;

use crate::job::fields;
use crate::merge::Kind;
use crate::store::{Conflict, RemoteHistory, Side};

/// A moment by the clock where the person stands.
#[must_use]
pub fn local_time(ms: i64) -> String {
    chrono::DateTime::from_timestamp_millis(ms).map_or_else(String::new, |utc| {
        utc.with_timezone(&chrono::Local).format("%Y-%m-%d %H:%M").to_string()
    })
}

/// A number of bytes as a person reads it: in megabytes of a million bytes, with one digit after the point.
#[must_use]
pub fn size_text(bytes: u64) -> String {
    format!("{:.1} MB", (bytes as f64 / 1e6).max(0.1))
}

/// The lines of a history from another device as a person reads them: the time by the clock here,
/// and what happened.
#[must_use]
pub fn story(carried: &RemoteHistory) -> Vec<(String, String)> {
    carried
        .lines
        .iter()
        .map(|line| {
            let mut words = line.splitn(3, ' ');
            let time = words
                .next()
                .and_then(|ms| ms.parse().ok())
                .map_or_else(String::new, local_time);
            (time, words.nth(1).unwrap_or_default().replace('_', " "))
        })
        .collect()
}

/// A moment as ISO 8601 has it.
pub(super) fn utc(ms: i64) -> String {
    chrono::DateTime::from_timestamp_millis(ms)
        .map_or_else(String::new, |time| time.format("%Y-%m-%dT%H:%M:%SZ").to_string())
}

/// The field table's row of a reading with two values.
fn row_of(fork: &Conflict) -> Option<&'static fields::Field> {
    let field = fork.field.strip_prefix("reading.")?;
    let root = match fork.kind {
        Kind::Job => "mains",
        kind => kind.word(),
    };
    fields::find(&format!("{root}.{field}"))
}

/// The label of a field of a record, as the screens call it; its key where they do not.
#[must_use]
pub fn fork_label(fork: &Conflict) -> String {
    let key = || match fork.field.strip_prefix("reading.") {
        Some(field) => field.to_owned(),
        None => fork.field.replace(['_', '.'], " "),
    };
    row_of(fork).map_or_else(key, |row| row.label.to_owned())
}

/// One of two values as a person reads it.
#[must_use]
pub fn side_text(fork: &Conflict, side: &Side) -> String {
    let unit = row_of(fork).map_or("", |row| row.kind.symbol());
    match &side.value {
        Value::Object(reading) if reading.contains_key("plus_minus") => {
            let number = |key: &str| reading.get(key).and_then(Value::as_f64).unwrap_or(f64::NAN);
            format!("{} ± {} {unit}", number("value"), number("plus_minus"))
                .trim_end()
                .to_owned()
        }
        Value::Null => String::new(),
        other => flat(other),
    }
}

/// A part of a record in one line: names with their values.
fn flat(value: &Value) -> String {
    match value {
        Value::Object(parts) => {
            let parts: Vec<String> = parts
                .iter()
                .filter(|(_, value)| !value.is_null())
                .map(|(key, value)| format!("{} {}", key.replace('_', " "), flat(value)))
                .collect();
            parts.join(", ")
        }
        Value::Array(parts) => parts.iter().map(flat).collect::<Vec<_>>().join(", "),
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}
