//! Documents made from the field table.

use proptest::prelude::*;
use serde_json::{Value, json};

use crate::job::fields::{self, Field, Shape};
use crate::job::{Check, Choice, Entered, Goal, Held, JobFile, Places, Reading, leaf_readings, put_reading};
use crate::quantity::Origin;

/// A value that a row accepts, not the same for all rows.
fn accepted(field: &Field) -> f64 {
    match field.shape {
        Shape::OneOf(accepted) => accepted[accepted.len() - 1],
        Shape::Whole => (field.min + 3.0).min(field.max),
        _ => field.min + (field.max - field.min) / 64.0,
    }
}

/// Puts a value at a path, making objects (and lists of one) on the way.
pub fn put(root: &mut Value, path: &str, value: Value) {
    let mut place = root;
    for part in path.split('.') {
        let (key, every) = part.strip_suffix("[]").map_or((part, false), |key| (key, true));
        if !place.is_object() {
            *place = json!({});
        }
        place = place.as_object_mut().unwrap().entry(key).or_insert(json!(null));
        if every {
            if !place.is_array() {
                *place = json!([{}]);
            }
            place = &mut place[0];
        }
    }
    *place = value;
}

/// The JSON pointer of a path (first member of a list).
pub fn pointer(path: &str) -> String {
    format!("/{}", path.replace("[]", "/0").replace('.', "/"))
}

/// The path as a message gives it (first member of a list).
pub fn shown(path: &str) -> String {
    path.replace("[]", "[0]")
}

/// A document with every key of the format, for one use.
pub fn full(goal_use: &str) -> Value {
    let mut document = json!({
        "curbcore_job": 1,
        "name": "Spot welder for 1 mm sheet",
        "note": "First core of the two.\nSecond line.",
        "donor": {
            "name": "White one from the curb", "notes": "door missing",
            "look": {
                "kind": "grill", "signs": { "word": false, "core_seen": true }, "rust": "surface",
                "damage": ["cord_cut", "door_broken"], "openable": true,
            },
        },
        "core": { "shunts_kept": true, "primary": { "metal": "aluminium" } },
        "mains": { "circuit": { "plug": "type F" } },
        "goal": { "use": goal_use },
        "choice": {
            "conductor": "awg-6", "metal": "copper", "placement": "beside_primary",
            "pinned": { "turns": true, "conductor": false, "parallel": true },
        },
        "conditions": { "steel": "M530-50A", "insulation": "F", "rectifier": "bridge", "aluminium": true, "as_much": [goal_use] },
        "stock": [{ "conductor": "iec-16-stranded" }],
    });
    for field in fields::ALL {
        if field.only_for.is_none_or(|word| word == goal_use) {
            let value = accepted(field);
            put(&mut document, field.path, json!(value));
        }
    }
    for (key, value) in [
        ("user", json!("trained")),
        ("wet_or_cramped", json!(true)),
        ("confirmed", json!(true)),
    ] {
        if Goal::keys(goal_use).contains(&key) {
            document["goal"][key] = value;
        }
    }
    document
}

/// Every use's document is read, and written and read again without a change.
#[test]
fn round_trip() {
    for goal_use in Goal::USES {
        let file = JobFile::parse(&full(goal_use).to_string()).unwrap_or_else(|e| panic!("{goal_use}: {e}"));
        assert_eq!(file.goal.word(), *goal_use);
        let text = file.to_json();
        let again = JobFile::parse(&text).unwrap();
        assert_eq!(again, file);
        assert_eq!(again.to_json(), text);
    }
}

/// What was left out comes from the table; what was given stays.
#[test]
fn left_out_is_filled_in() {
    let mut document = full("choke");
    document["core"]["tongue_mm"] = json!(31.8);
    document["core"]["stack_mm"] = json!({ "value": 60, "plus_minus": 2 });
    document["core"]["window_width_mm"] = json!({ "value": 16.5, "origin": "photo" });
    document["core"]["primary"]
        .as_object_mut()
        .unwrap()
        .remove("resistance_at_c");
    document["choice"]["turns"] = json!(7.0);
    let file = JobFile::parse(&document.to_string()).unwrap();
    let word = |reading: crate::job::Reading| (reading.value, reading.plus_minus, reading.origin.word());
    assert_eq!(word(file.core.tongue_mm), (31.8, 0.1, "calipers"));
    assert_eq!(word(file.core.stack_mm), (60.0, 2.0, "calipers"));
    assert_eq!(
        word(file.core.window_width_mm),
        (16.5, 0.5, "photo"),
        "the usual ± of the tool named"
    );
    assert_eq!(word(file.core.primary.resistance_at_c), (20.0, 5.0, "typical"));
    assert_eq!(file.choice.as_ref().map(|choice: &Choice| choice.turns), Some(7));
}

/// Readings taken out of a record one by one and put back give the same record.
#[test]
fn readings_come_apart_and_together() {
    let file = JobFile::parse(&full("ballast").to_string()).unwrap();
    let whole = serde_json::to_value(&file.core).unwrap();
    let leaves = leaf_readings("core", &file.core);
    let in_table = fields::ALL
        .iter()
        .filter(|f| f.path.starts_with("core.") && f.shape == Shape::Reading);
    assert_eq!(leaves.len(), in_table.count());
    let mut built = json!({
        "shunts_kept": true,
        "primary": { "metal": "aluminium", "rated_volts": whole["primary"]["rated_volts"],
                     "rated_hertz": whole["primary"]["rated_hertz"] },
    });
    for leaf in &leaves {
        put_reading(&mut built, leaf);
    }
    assert_eq!(built, whole);
}

/// Every row of the table has its place in the typed record: what a document holds there is what stands
/// there, a number of its shape can be put, and what is optional can be taken away.
#[test]
fn every_row_has_its_place() {
    let mut seen = 0;
    for goal_use in Goal::USES {
        let file = JobFile::parse(&full(goal_use).to_string()).unwrap();
        let document = serde_json::to_value(&file).unwrap();
        let rows = fields::ALL
            .iter()
            .filter(|field| field.only_for.is_none_or(|word| word == *goal_use));
        for field in rows {
            let (mut wire, mut whole) = (file.stock[0].clone(), file.clone());
            let (record, path): (&mut dyn Places, &str) = match field.path.strip_prefix("stock[].") {
                Some(below) => (&mut wire, below),
                None => (&mut whole, field.path),
            };
            let there = document.pointer(&pointer(field.path)).unwrap();
            let (held, other) = match field.shape {
                Shape::Reading => {
                    let reading = serde_json::from_value(there.clone()).unwrap();
                    let other = Reading::new(field.min, 0.0, field.origin);
                    (Held::Reading(reading), Entered::Reading(other))
                }
                _ => (Held::Number(there.as_f64().unwrap()), Entered::Number(field.min)),
            };
            assert_eq!(record.get(path), Some(held), "{}", field.path);
            assert!(record.put(path, Some(other)), "{}", field.path);
            assert_ne!(record.get(path), Some(held), "{}", field.path);
            assert_eq!(record.put(path, None), !field.required, "{}", field.path);
            match record.get(path) {
                None => assert!(!field.required, "{}", field.path),
                Some(usual) if path == "core.primary.resistance_at_c" => {
                    assert_eq!(usual, Held::Reading(Reading::new(20.0, 5.0, Origin::Typical)));
                }
                Some(_) => assert!(field.required, "{}", field.path),
            }
            seen += 1;
        }
    }
    assert!(seen > 500, "{seen}");
}

/// A group of readings that are only there together: one alone makes a record that no check accepts.
#[test]
fn a_group_begins_with_its_first_number() {
    let mut file = JobFile::parse(&full("ballast").to_string()).unwrap();
    let path = |key: &str| format!("core.primary.test_turn.{key}");
    assert!(file.put("core.primary.test_turn", None));
    assert_eq!(file.core.primary.test_turn, None);
    let reading = Entered::Reading(Reading::new(5.0, 0.0, Origin::Counted));
    assert!(file.put(&path("turns"), Some(reading)));
    let refused = file.check().unwrap_err().to_string();
    assert!(refused.contains(&path("volts")), "{refused}");
    assert!(file.put(&path("volts"), Some(reading)) && file.put(&path("primary_volts"), Some(reading)));
    file.check().unwrap();
    file.choice = None;
    assert!(
        !file.put("choice.turns", Some(Entered::Number(3.0))),
        "a winding is more than numbers"
    );
    assert!(!file.put("core.tongue_mm", None) && !file.put("core.tong", Some(reading)) && !file.put("", None));
}

/// Every number in a full document has a row in the table, so none goes unchecked.
#[test]
fn no_number_is_without_a_row() {
    fn numbers(value: &Value, path: String, found: &mut Vec<String>) {
        match value {
            Value::Number(_) => found.push(path),
            Value::Object(object) => {
                for (key, member) in object {
                    let dot = if path.is_empty() { "" } else { "." };
                    numbers(member, format!("{path}{dot}{key}"), found);
                }
            }
            Value::Array(list) => list
                .iter()
                .for_each(|member| numbers(member, format!("{path}[]"), found)),
            _ => {}
        }
    }
    for goal_use in Goal::USES {
        let file = JobFile::parse(&full(goal_use).to_string()).unwrap();
        let mut found = Vec::new();
        numbers(&serde_json::to_value(&file).unwrap(), String::new(), &mut found);
        assert!(found.len() > 60);
        for path in found.iter().filter(|path| *path != "curbcore_job") {
            let path = path.trim_end_matches(".value").trim_end_matches(".plus_minus");
            let row = match path.strip_prefix("goal.") {
                Some(key) => fields::find_for(goal_use, key),
                None => fields::find(path),
            };
            assert!(row.is_some(), "{path} has no row");
        }
    }
}

/// A record built in memory is checked by the same rows.
#[test]
fn records_are_checked_too() {
    let file = JobFile::parse(&full("spot_welder").to_string()).unwrap();
    assert_eq!(file.core.check(), Ok(()));
    let mut core = file.core.clone();
    core.yoke_mm = Some(crate::job::Reading::new(
        f64::NAN,
        0.1,
        crate::quantity::Origin::Calipers,
    ));
    assert_eq!(core.check().unwrap_err().path(), "core.yoke_mm");
    let mut core = file.core;
    core.stack_mm.plus_minus = f64::INFINITY;
    assert_eq!(core.check().unwrap_err().path(), "core.stack_mm");
    let overlap = Goal::SpotWelder {
        weld_current_a: 800.0,
        load_milliohm: 1.0,
        pulse_s: 2.0,
        pulses_per_minute: 31.0,
    };
    let error = overlap.check().unwrap_err();
    assert!(error.to_string().ends_with("it must be at most 30"), "{error}");
}

proptest! {
    /// No text makes the reader panic.
    #[test]
    fn any_text_is_read_or_refused(text in ".{0,200}") {
        let _ = JobFile::parse(&text);
    }

    /// No byte changed, dropped or doubled in a good document makes the reader panic; what is
    /// still accepted survives a round trip.
    #[test]
    fn any_damage_is_read_or_refused(
        which in 0..Goal::USES.len(),
        damage in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>(), 0..3u8), 1..4),
    ) {
        let mut bytes = full(Goal::USES[which]).to_string().into_bytes();
        for (at, byte, what) in damage {
            let at = at.index(bytes.len());
            match what {
                0 => bytes[at] = byte,
                1 => { bytes.remove(at); }
                _ => bytes.insert(at, byte),
            }
        }
        if let Ok(file) = JobFile::parse(&String::from_utf8_lossy(&bytes)) {
            prop_assert_eq!(JobFile::parse(&file.to_json()), Ok(file));
        }
    }

    /// No value in place of another makes the reader panic.
    #[test]
    fn any_value_at_any_field(
        row in 0..fields::ALL.len(),
        value in prop_oneof![
            any::<f64>().prop_map(|v| json!(v)), any::<i64>().prop_map(|v| json!(v)),
            ".{0,8}".prop_map(|v| json!(v)), Just(json!([])), Just(json!({})), Just(json!({ "value": {} })),
        ],
    ) {
        let field = &fields::ALL[row];
        let mut document = full(field.only_for.unwrap_or("ballast"));
        put(&mut document, field.path, value);
        if let Ok(file) = JobFile::parse(&document.to_string()) {
            prop_assert_eq!(JobFile::parse(&file.to_json()), Ok(file));
        }
    }
}
