//! The laws of the merge on random histories of four devices, and what it means in a workshop.

use proptest::collection::vec;
use proptest::prelude::*;
use serde_json::{Value, json};
use uuid::Uuid;

use super::*;

const FIELDS: [&str; 3] = ["name", "note", "plug"];

/// What a device does next.
#[derive(Debug, Clone)]
enum Act {
    Write(usize, usize, i64),
    Remove(usize),
    PutBack(usize),
    Send(usize, usize),
}

fn acts() -> impl Strategy<Value = Vec<Act>> {
    let device = 0..4_usize;
    let act = prop_oneof![
        4 => (device.clone(), 0..3_usize, 0..4_i64).prop_map(|(d, f, v)| Act::Write(d, f, v)),
        1 => device.clone().prop_map(Act::Remove),
        1 => device.clone().prop_map(Act::PutBack),
        3 => (device.clone(), device).prop_map(|(from, to)| Act::Send(from, to)),
    ];
    vec(act, 0..40)
}

fn stamp(count: u64, device: u64) -> Stamp {
    Stamp {
        count,
        device: Device(device),
    }
}

/// Four devices that share one record and live through the acts.
fn live(acts: &[Act]) -> Vec<RecordHistory> {
    let first = RecordHistory::new(stamp(1, 9), FIELDS.map(|field| (field.to_owned(), json!("first"))));
    let mut devices = vec![first; 4];
    let mut counts = [1_u64; 4];
    for act in acts {
        match *act {
            Act::Write(d, f, v) => {
                counts[d] = counts[d].max(devices[d].seen().highest()) + 1;
                devices[d].write(stamp(counts[d], d as u64), FIELDS[f], json!(v));
            }
            Act::Remove(d) | Act::PutBack(d) => {
                counts[d] = counts[d].max(devices[d].seen().highest()) + 1;
                let gone = matches!(act, Act::Remove(_));
                devices[d].write(stamp(counts[d], d as u64), REMOVED, json!(gone));
            }
            Act::Send(from, to) => {
                let sent = devices[from].clone();
                devices[to].merge_in(&sent);
            }
        }
    }
    devices
}

proptest! {
    #[test]
    fn merging_twice_changes_nothing(acts in acts()) {
        let d = live(&acts);
        prop_assert_eq!(d[0].merge(&d[0]), d[0].clone());
        let once = d[0].merge(&d[1]);
        prop_assert_eq!(once.merge(&d[1]), once.clone());
    }

    #[test]
    fn either_side_may_merge(acts in acts()) {
        let d = live(&acts);
        prop_assert_eq!(d[0].merge(&d[1]), d[1].merge(&d[0]));
    }

    #[test]
    fn the_order_of_three_does_not_matter(acts in acts()) {
        let d = live(&acts);
        prop_assert_eq!(d[0].merge(&d[1]).merge(&d[2]), d[0].merge(&d[1].merge(&d[2])));
    }

    #[test]
    fn what_was_removed_stays_gone_unless_put_back(acts in acts(), by in 0..4_usize) {
        let mut d = live(&acts);
        let count = d.iter().map(|known| known.seen().highest()).max().unwrap() + 1;
        d[by].remove(stamp(count, by as u64));
        let all = d.iter().fold(d[0].clone(), |all, known| all.merge(known));
        prop_assert!(all.is_removed());
    }

    #[test]
    fn no_value_is_lost_that_nobody_replaced(acts in acts(), a in 0..100_i64, b in 100..200_i64) {
        let mut d = live(&acts);
        let count = d.iter().map(|known| known.seen().highest()).max().unwrap();
        d[0].write(stamp(count + 1, 0), "note", json!(a));
        d[1].write(stamp(count + 2, 1), "note", json!(b));
        let all = d[0].merge(&d[1]);
        let values: Vec<&Value> = all.entries("note").iter().map(|entry| &entry.value).collect();
        prop_assert!(values.contains(&&json!(a)) && values.contains(&&json!(b)), "{values:?}");
        let forked = all.conflicts().any(|(field, _)| field == "note");
        prop_assert!(forked);
    }

    #[test]
    fn a_history_survives_its_line(acts in acts()) {
        for known in live(&acts) {
            let line = RecordLine { kind: Kind::Job, id: Uuid::from_u128(7), known: known.clone() };
            prop_assert_eq!(RecordLine::parse(&line.to_json()).unwrap(), line);
            prop_assert_eq!(RecordHistory::parse(&known.to_json()).unwrap(), known);
        }
    }

    #[test]
    fn no_text_makes_the_reader_fall(text in ".*") {
        let _ = RecordLine::parse(&text);
        let _ = text.parse::<Stamp>();
    }
}

#[test]
fn fields_changed_on_two_sides_are_both_kept_apart() {
    let first = RecordHistory::new(
        stamp(1, 9),
        [("name".to_owned(), json!("a")), ("note".to_owned(), json!(""))],
    );
    let (mut phone, mut app) = (first.clone(), first);
    phone.write(stamp(2, 1), "name", json!("spot welder"));
    app.write(stamp(2, 2), "note", json!("heavy"));
    let both = phone.merge(&app);
    assert_eq!(both.shown("name"), Some(&json!("spot welder")));
    assert_eq!(both.shown("note"), Some(&json!("heavy")));
    assert_eq!(both.conflicts().count(), 0);
}

#[test]
fn a_choice_between_two_values_settles_it_everywhere() {
    let first = RecordHistory::new(stamp(1, 9), [("name".to_owned(), json!("a"))]);
    let (mut phone, mut app) = (first.clone(), first);
    phone.write(stamp(2, 1), "name", json!("b"));
    app.write(stamp(2, 2), "name", json!("c"));
    let mut both = phone.merge(&app);
    assert_eq!(both.conflicts().count(), 1);
    both.write(stamp(3, 1), "name", json!("b"));
    app.merge_in(&both);
    assert_eq!(app.shown("name"), Some(&json!("b")));
    assert_eq!(app.conflicts().count(), 0);
}

fn line(kind: &str, values: Value) -> String {
    json!({
        "kind": kind, "id": "0190a0a0-0000-7000-8000-000000000001",
        "stamp": "3@00000000000000aa", "values": values,
    })
    .to_string()
}

#[test]
fn what_has_no_right_shape_is_refused_by_name() {
    let stock = |key: &str, value: Value| {
        let mut values = json!({ "conductor": "AWG 8", "length_m": 3, "created_ms": 1, "edited_ms": 1 });
        values[key] = value;
        RecordLine::parse(&line("stock", values)).map(|mut line| accept(&mut line).map(|_| line))
    };
    assert!(stock("length_m", json!(3)).unwrap().is_ok());
    for (key, value) in [
        ("length_m", json!("3")),
        ("length_m", json!(null)),
        ("conductor", json!("x".repeat(61))),
        ("conductor", json!(["AWG 8"])),
        ("created_ms", json!(-1)),
        ("created_ms", json!(1e300)),
        ("edited_ms", json!(0.5)),
        ("colour", json!("red")),
        ("removed", json!("yes")),
    ] {
        let refused = stock(key, value.clone()).unwrap().expect_err(&format!("{key} {value}"));
        assert_eq!(refused.field, key);
        assert!(refused.to_string().contains("stock 0190a0a0"), "{refused}");
    }
    // JSON has no such number; its reader says so.
    let text = line("stock", json!({ "conductor": "AWG 8" })).replace("\"AWG 8\"", "1e999");
    assert!(RecordLine::parse(&text).is_err());
}

#[test]
fn a_measurement_is_judged_by_the_field_table() {
    let measured = |field: &str, value: f64| {
        let owner = json!({ "core": "0190a0a0-0000-7000-8000-000000000002" });
        let values = json!({
            "owner": owner, "field": field, "value": value, "plus_minus": 0.1,
            "origin": "calipers", "created_ms": 1,
        });
        let mut line = RecordLine::parse(&line("measurement", values)).unwrap();
        accept(&mut line)
    };
    assert!(measured("tongue_mm", 35.0).is_ok());
    assert!(measured("tongue_mm", 1e9).is_err());
    assert!(measured("tongue_mm", -1.0).is_err());
    // Something of the person's own, which no row of the table knows.
    assert!(measured("hum", -1.0).is_ok());
}

#[test]
fn a_history_that_contradicts_itself_is_refused() {
    let refused = |text: &str| RecordLine::parse(text).unwrap_err().0;
    let id = "0190a0a0-0000-7000-8000-000000000001";
    let head = format!("\"kind\":\"note\",\"id\":\"{id}\",\"stamp\":\"3@00000000000000aa\"");
    assert!(refused(&format!("{{{head},\"seen\":{{}},\"values\":{{\"text\":\"a\"}}}}")).contains("seen"));
    assert!(refused(&format!("{{{head},\"values\":{{}}}}")).contains("values"));
    let stamps = "\"stamps\":{\"owner\":\"1@00000000000000aa\"}";
    assert!(refused(&format!("{{{head},{stamps},\"values\":{{\"text\":\"a\"}}}}")).contains("owner"));
    let others = "\"others\":{\"text\":[{\"stamp\":\"3@00000000000000aa\",\"value\":1}]}";
    assert!(refused(&format!("{{{head},{others},\"values\":{{\"text\":\"a\"}}}}")).contains("order"));
    assert!(refused("[1]").len() > 3);
}

/// Stamps that a copied disk gave twice: both values stay, whichever side merges, and no field goes.
#[test]
fn a_stamp_given_twice_loses_no_value_and_no_field() {
    let first = RecordHistory::new(stamp(1, 9), FIELDS.map(|field| (field.to_owned(), json!("first"))));
    let (mut one, mut two) = (first.clone(), first.clone());
    one.write(stamp(2, 9), "name", json!("a"));
    two.write(stamp(2, 9), "name", json!("b"));
    let both = one.merge(&two);
    assert_eq!(both, two.merge(&one));
    assert_eq!(both, both.merge(&one).merge(&two));
    assert_eq!(both.conflicts().count(), 1);
    assert_eq!(RecordHistory::parse(&both.to_json()).unwrap(), both);
    let mut settled = both.clone();
    settled.write(stamp(3, 9), "name", json!("b"));
    assert_eq!(one.merge(&settled).shown("name"), Some(&json!("b")));
    assert_eq!(one.merge(&settled).conflicts().count(), 0);
    // The same stamp in two fields: each side has seen the other's change without having it.
    let (mut one, mut two) = (first.clone(), first);
    one.write(stamp(2, 9), "name", json!("a"));
    two.write(stamp(2, 9), "note", json!("b"));
    let both = one.merge(&two);
    assert_eq!(both, two.merge(&one));
    for field in FIELDS {
        assert!(!both.entries(field).is_empty(), "{field} is gone");
    }
    let values: Vec<&Value> = both.entries("name").iter().map(|entry| &entry.value).collect();
    assert!(values.contains(&&json!("a")), "{values:?}");
}

proptest! {
    /// Whatever histories meet, even such as cannot be of honest devices, no field goes.
    #[test]
    fn no_field_goes(one in acts(), two in acts()) {
        let (one, two) = (live(&one), live(&two));
        for (a, b) in one.iter().zip(&two) {
            let both = a.merge(b);
            prop_assert_eq!(&both, &b.merge(a));
            for field in FIELDS {
                prop_assert!(!both.entries(field).is_empty(), "{} is gone", field);
            }
            prop_assert_eq!(RecordHistory::parse(&both.to_json()).unwrap(), both);
        }
    }
}
