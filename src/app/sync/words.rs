//! Imported values and histories as texts for the person.

use serde_json::{Map, Value};

use crate::app::listing::wire_label;
use crate::app::workspace::{shown_number, unit_symbol};
use crate::job::fields::{self, Field, UnitKind};
use crate::magnetics::circuit::mains::Outlet;
use crate::merge::Kind;
use crate::quantity::LengthUnit;
use crate::store::{Conflict, RemoteHistory, Side};
use crate::words::Message;

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

/// What stands before a value.
#[derive(Debug, Clone, PartialEq)]
pub enum ValueLabel {
    /// The label of a field of the table.
    Field(&'static Field),
    /// A text by its id.
    Text(&'static str),
    /// A key that no screen has a label for.
    Key(String),
    /// Nothing: the value is all that differs.
    None,
}

/// A value.
#[derive(Debug, Clone, PartialEq)]
pub enum ValueText {
    /// As it is read, with its unit.
    Shown(String),
    /// A text by its id.
    Text(String),
    /// A text with what goes into it.
    Message(Message),
}

/// A part of a value with its label.
pub type ValueRow = (ValueLabel, ValueText);

/// Keys that no row of the field table has, and the text that names each.
const KEYS: [(&str, &str); 18] = [
    ("conditions.aluminium", "ui-aluminium-too"),
    ("conditions.as_much", "ui-target-as-much"),
    ("conditions.earlier_uses", "ui-conflict-earlier"),
    ("conditions.insulation", "ui-insulation"),
    ("conditions.pair", "ui-panel-pairs"),
    ("conditions.rectifier", "ui-diodes"),
    ("conditions.steel", "ui-steel"),
    ("look.damage", "ui-damage"),
    ("look.kind", "ui-kind"),
    ("look.openable", "ui-openable"),
    ("look.rust", "ui-rust"),
    ("look.signs", "ui-seen"),
    ("look.signs.board_seen", "sign-board-seen"),
    ("look.signs.core_seen", "sign-core-seen"),
    ("look.signs.heavy_side", "sign-heavy-side"),
    ("look.signs.word", "sign-word"),
    ("primary_metal", "ui-conflict-metal"),
    ("shunts_kept", "ui-conflict-shunts"),
];

/// Words that a record holds for a choice, and the text that a screen has for each.
const WORDS: [(&str, &str, &str); 25] = [
    ("conditions.rectifier", "bridge", "ui-bridge"),
    ("conditions.rectifier", "centre_tap", "ui-centre-tap"),
    ("conditions.pair.windings", "parallel", "ui-parallel"),
    ("conditions.pair.windings", "series", "ui-series"),
    ("look.damage", "burnt", "damage-burnt"),
    ("look.damage", "cord_cut", "damage-cord-cut"),
    ("look.damage", "crushed", "damage-crushed"),
    ("look.damage", "door_broken", "damage-door-broken"),
    ("look.damage", "flooded", "damage-flooded"),
    ("look.damage", "parts_missing", "damage-parts-missing"),
    ("look.kind", "combination", "oven-combination"),
    ("look.kind", "grill", "oven-grill"),
    ("look.kind", "solo", "oven-solo"),
    ("look.rust", "clean", "rust-clean"),
    ("look.rust", "deep", "rust-deep"),
    ("look.rust", "surface", "rust-surface"),
    ("metal", "aluminium", "metal-aluminium"),
    ("metal", "copper", "metal-copper"),
    ("placement", "beside_primary", "ui-place-beside"),
    ("placement", "far_end", "ui-place-far"),
    ("placement", "over_primary", "ui-place-over"),
    ("primary_metal", "aluminium", "metal-aluminium"),
    ("primary_metal", "copper", "metal-copper"),
    ("primary_metal", "unknown", "ui-not-known"),
    ("user", "trained", "ui-yes"),
];

/// The text that names a key.
fn named(key: &str) -> Option<&'static str> {
    KEYS.iter().find(|(known, _)| *known == key).map(|(_, text)| *text)
}

/// A word of a record as a screen says it.
fn said(key: &str, word: &str) -> ValueText {
    let known = WORDS.iter().find(|(of, is, _)| *of == key && *is == word);
    known.map_or_else(
        || ValueText::Shown(spaced(word)),
        |(_, _, text)| ValueText::Text((*text).to_owned()),
    )
}

/// The text of a use.
fn use_text(word: &str) -> ValueText {
    ValueText::Text(format!("use-{}", word.replace('_', "-")))
}

/// The field table's row of a key of a record: of a reading, of a condition, of a value of its own.
fn row_of(fork: &Conflict, key: &str) -> Option<&'static Field> {
    let reading = key.strip_prefix("reading.").unwrap_or(key);
    let root = match fork.kind {
        Kind::Job => "mains",
        kind => kind.word(),
    };
    fields::find(key)
        .or_else(|| fields::find(&format!("{root}.{reading}")))
        .or_else(|| fields::find(&format!("{root}.circuit.{reading}")))
        .or_else(|| fields::find(&format!("{root}.primary.{reading}")))
}

/// What differs: the table's field where there is one, else a text, else its key.
#[must_use]
pub fn fork_label(fork: &Conflict) -> ValueLabel {
    let text = match (fork.kind, fork.field.as_str()) {
        (_, "name") => "ui-conflict-name",
        (_, "note" | "notes" | "text") => "ui-conflict-note",
        (_, "goal") => "ui-conflict-goal",
        (_, "choice") => "ui-conflict-choice",
        (_, "marks") => "ui-conflict-marks",
        (_, "plug") => "ui-conflict-plug",
        (Kind::Core, "donor") => "ui-conflict-donor",
        (Kind::Job, "core") => "ui-conflict-core",
        (_, field) => {
            return match row_of(fork, field) {
                Some(row) => ValueLabel::Field(row),
                None if named(field).is_some() => ValueLabel::Text(named(field).unwrap_or_default()),
                None if field.starts_with("conditions.") => ValueLabel::Text("ui-conflict-conditions"),
                None if field.starts_with("look.") => ValueLabel::Text("ui-conflict-look"),
                None => ValueLabel::Key(spaced(field)),
            };
        }
    };
    ValueLabel::Text(text)
}

/// One of the values, part by part, as a person reads it: in the person's unit of length.
#[must_use]
pub fn side_rows(fork: &Conflict, side: &Side, unit: LengthUnit) -> Vec<ValueRow> {
    match (fork.field.as_str(), &side.value) {
        (_, Value::Null) => Vec::new(),
        ("goal", Value::Object(parts)) => goal_rows(parts, unit),
        ("choice", Value::Object(parts)) => choice_rows(parts, unit),
        ("conditions.as_much", Value::Array(uses)) => {
            let words = uses.iter().filter_map(Value::as_str);
            words.map(|word| (ValueLabel::None, use_text(word))).collect()
        }
        ("conditions.earlier_uses", Value::Array(uses)) => {
            let words = uses.iter().filter_map(|earlier| earlier.pointer("/goal/use")?.as_str());
            words.map(|word| (ValueLabel::None, use_text(word))).collect()
        }
        ("conditions.pair", Value::Object(pair)) => {
            let text = |key: &str| pair.get(key).and_then(Value::as_str).unwrap_or_default();
            let joined = said("conditions.pair.windings", text("windings"));
            vec![
                (ValueLabel::None, ValueText::Shown(text("name").to_owned())),
                (ValueLabel::Text("ui-pair-windings"), joined),
            ]
        }
        ("marks", Value::Object(marks)) => {
            let dimensions = marks.get("marks").and_then(Value::as_array).map_or(0, Vec::len);
            let count = ValueText::Shown(dimensions.to_string());
            vec![(ValueLabel::Text("ui-conflict-dimensions"), count)]
        }
        ("plug", Value::String(word)) => {
            let label = Outlet::of_word(word).map_or_else(|| word.clone(), |outlet| outlet.label.to_owned());
            vec![(ValueLabel::None, ValueText::Shown(label))]
        }
        (field, value) => {
            let mut rows = Vec::new();
            parts_of(fork, field, value, unit, &mut rows);
            if let [(label, _)] = rows.as_mut_slice() {
                // What differs is said above.
                *label = ValueLabel::None;
            }
            rows
        }
    }
}

/// The parts of a value below a key, a row each.
fn parts_of(fork: &Conflict, key: &str, value: &Value, unit: LengthUnit, rows: &mut Vec<ValueRow>) {
    let row = row_of(fork, key);
    let label = || match (row, named(key)) {
        (Some(row), _) => ValueLabel::Field(row),
        (None, Some(text)) => ValueLabel::Text(text),
        (None, None) => ValueLabel::Key(spaced(last(key))),
    };
    match value {
        Value::Null => {}
        Value::Object(reading) if reading.contains_key("plus_minus") => {
            let number = |name: &str| reading.get(name).and_then(Value::as_f64).unwrap_or(f64::NAN);
            let shown = |value: f64| row.map_or_else(|| value.to_string(), |row| shown_number(row, value, unit));
            let symbol = row.map_or("", |row| unit_symbol(row, unit));
            let half = number("plus_minus");
            // A count is exact.
            let spread = if half == 0.0 {
                String::new()
            } else {
                format!(" ± {}", shown(half))
            };
            let text = format!("{}{spread} {symbol}", shown(number("value")));
            rows.push((label(), ValueText::Shown(text.trim_end().to_owned())));
        }
        Value::Object(parts) => {
            for (name, part) in parts {
                parts_of(fork, &format!("{key}.{name}"), part, unit, rows);
            }
        }
        Value::Array(parts) => {
            let words = parts.iter().filter_map(Value::as_str);
            rows.extend(words.map(|word| (ValueLabel::None, said(key, word))));
        }
        other => rows.push((label(), one(row, key, other, unit))),
    }
}

/// Keys whose values are names.
const NAMES: [&str; 8] = [
    "conditions.insulation",
    "conditions.steel",
    "core",
    "donor",
    "name",
    "note",
    "notes",
    "text",
];

/// A single value: a number with its unit, yes or no, a word.
fn one(row: Option<&'static Field>, key: &str, value: &Value, unit: LengthUnit) -> ValueText {
    match (value, row) {
        (Value::Bool(yes), _) => ValueText::Text(if *yes { "ui-yes" } else { "ui-no" }.to_owned()),
        (Value::Number(number), Some(row)) => {
            let value = number.as_f64().unwrap_or(f64::NAN);
            let text = if row.kind == UnitKind::Ratio {
                format!("{} %", shown_number(row, 100.0 * value, unit))
            } else {
                format!("{} {}", shown_number(row, value, unit), unit_symbol(row, unit))
            };
            ValueText::Shown(text.trim_end().to_owned())
        }
        // The steels and the classes of insulation are called in a record as on a screen; so are names.
        (Value::String(text), _) if NAMES.contains(&key) => ValueText::Shown(text.clone()),
        (Value::String(word), _) => said(key, word),
        (other, _) => ValueText::Shown(plain(other)),
    }
}

/// A use with its targets.
fn goal_rows(parts: &Map<String, Value>, unit: LengthUnit) -> Vec<ValueRow> {
    let word = parts.get("use").and_then(Value::as_str).unwrap_or_default();
    let mut rows = vec![(ValueLabel::Text("ui-conflict-use"), use_text(word))];
    for (key, value) in parts.iter().filter(|(key, value)| *key != "use" && !value.is_null()) {
        let row = fields::find_for(word, key);
        let label = match (row, key.as_str()) {
            (Some(row), _) => ValueLabel::Field(row),
            (None, "user") => ValueLabel::Text("ui-trained-only"),
            (None, "wet_or_cramped") => ValueLabel::Text("ui-wet-or-cramped"),
            (None, "confirmed") => ValueLabel::Text("ui-conflict-confirmed"),
            (None, key) => ValueLabel::Key(spaced(key)),
        };
        let text = match (key.as_str(), value.as_str()) {
            ("user", Some("layman")) => ValueText::Text("ui-no".to_owned()),
            _ => one(row, key, value, unit),
        };
        rows.push((label, text));
    }
    rows
}

/// A winding: its wire by the name that the shops have, its turns, its place and its insulation.
fn choice_rows(parts: &Map<String, Value>, unit: LengthUnit) -> Vec<ValueRow> {
    let word = |key: &str| parts.get(key).and_then(Value::as_str).unwrap_or_default();
    let wire = word("conductor");
    let wire = wire_label(wire).map_or_else(|| ValueText::Shown(wire.to_owned()), ValueText::Message);
    let number = |key: &str| ValueText::Shown(parts.get(key).map_or_else(String::new, plain));
    let mut rows = vec![
        (ValueLabel::Text("ui-conflict-turns"), number("turns")),
        (ValueLabel::Text("ui-conflict-wire"), wire),
        (ValueLabel::Text("ui-conflict-parallel"), number("parallel")),
        (ValueLabel::Text("ui-place"), said("placement", word("placement"))),
    ];
    for key in ["ground_mm", "interlayer_mm"] {
        let row = fields::find(&format!("choice.{key}"));
        if let (Some(row), Some(value)) = (row, parts.get(key)) {
            rows.push((ValueLabel::Field(row), one(Some(row), key, value, unit)));
        }
    }
    rows
}

fn last(key: &str) -> &str {
    key.rsplit('.').next().unwrap_or(key)
}

fn spaced(key: &str) -> String {
    key.replace(['_', '.'], " ")
}

fn plain(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::text::Texts;

    /// Every text asked for is there.
    #[test]
    fn every_text_of_a_value_exists() {
        let texts = Texts::english().unwrap();
        let named = KEYS.iter().map(|(_, text)| *text);
        for text in named.chain(WORDS.iter().map(|(_, _, text)| *text)) {
            assert!(texts.find(text, &[]).is_some(), "{text}");
        }
    }
}
