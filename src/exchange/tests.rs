//! What is written is read; the same shelf makes the same file; the schema says what is judged.

use std::io::Cursor;

use serde_json::{Value, json};
use uuid::Uuid;

use super::*;
use crate::merge::{Device, Kind, RecordHistory, RecordLine, Stamp, accept};

fn note(number: u128, text: &str) -> RecordLine {
    let stamp = Stamp {
        count: 3,
        device: Device(0xaa),
    };
    let values = json!({
        "owner": { "job": Uuid::from_u128(7).to_string() }, "text": text, "created_ms": 1, "edited_ms": 1,
    });
    let Value::Object(values) = values else { unreachable!() };
    RecordLine {
        kind: Kind::Note,
        id: Uuid::from_u128(number),
        known: RecordHistory::new(stamp, values),
    }
}

fn written(lines: &[RecordLine]) -> Vec<u8> {
    let mut writer = Writer::new(Vec::new()).unwrap();
    for line in lines {
        writer.record(&format!("{}\n", line.to_json())).unwrap();
    }
    writer
        .photo(Kind::Photo, Uuid::from_u128(9), b"\x89PNG and so on")
        .unwrap();
    let from = Sender {
        device: Device(0xaa),
        name: "garage".to_owned(),
    };
    writer
        .finish(
            from,
            Holds::ChangesAfter(Uuid::from_u128(4)),
            Uuid::from_u128(9),
            1_800_000_000_000,
        )
        .unwrap()
        .0
}

#[test]
fn what_is_written_is_read() {
    let lines = [note(1, "one"), note(2, "two, with \"quotes\" and\nlines")];
    let mut reader = Reader::new(Cursor::new(written(&lines))).unwrap();
    assert_eq!(reader.manifest().holds, Holds::ChangesAfter(Uuid::from_u128(4)));
    assert_eq!((reader.manifest().records, reader.manifest().photos), (2, 1));
    let (mut read, mut photos) = (Vec::new(), Vec::new());
    let done: Result<(), ExchangeError> = reader.records(|line| {
        read.push(line);
        Ok(())
    });
    done.unwrap();
    let done: Result<(), ExchangeError> = reader.photos(|kind, id, bytes| {
        photos.push((kind, id, bytes.to_vec()));
        Ok(())
    });
    done.unwrap();
    assert_eq!(read, lines);
    assert_eq!(
        photos,
        [(Kind::Photo, Uuid::from_u128(9), b"\x89PNG and so on".to_vec())]
    );
}

#[test]
fn the_same_shelf_makes_the_same_file() {
    let lines = [note(1, "one"), note(2, "two")];
    assert_eq!(written(&lines), written(&lines));
}

#[test]
fn the_schema_has_every_field_and_no_other() {
    let schema = record_schema();
    let kinds = schema["oneOf"].as_array().unwrap();
    assert_eq!(kinds.len(), Kind::ALL.len());
    for (kind, of) in Kind::ALL.into_iter().zip(kinds) {
        assert_eq!(of["properties"]["kind"]["const"], kind.word());
        let values = &of["properties"]["values"];
        for field in kind.fields() {
            match field.key.strip_suffix('.') {
                Some(key) => assert!(values["patternProperties"][format!("^{key}\\.")].is_object()),
                None => assert!(values["properties"][field.key].is_object() || values["properties"][field.key] == true),
            }
            let required = values["required"]
                .as_array()
                .unwrap()
                .iter()
                .any(|key| key == field.key);
            assert_eq!(required, !field.optional, "{} {}", kind.word(), field.key);
        }
        let named =
            values["properties"].as_object().unwrap().len() + values["patternProperties"].as_object().unwrap().len();
        assert_eq!(named, kind.fields().len() + 1, "and `removed`");
    }
    assert!(accept(&mut note(1, "one")).is_ok());
    let manifest = serde_json::to_value(manifest_schema()).unwrap();
    for key in [
        "curbcore_shelf",
        "from",
        "holds",
        "file",
        "records",
        "photos",
        "records_sha256",
        "made_ms",
    ] {
        assert!(manifest["properties"][key].is_object(), "{key}");
    }
}

/// Writes so many notes of one text, and ends the file.
fn notes(text: &str, count: u128, packing: Packing, bounds: Bounds) -> Result<Vec<u8>, ExchangeError> {
    let mut writer = Writer::with(Vec::new(), packing, bounds)?;
    for number in 0..count {
        writer.record(&format!("{}\n", note(number, text).to_json()))?;
    }
    let from = Sender {
        device: Device(0xaa),
        name: "garage".to_owned(),
    };
    Ok(writer
        .finish(from, Holds::All, Uuid::from_u128(9), 1_800_000_000_000)?
        .0)
}

/// No export of ours is refused by our own bounds, however regular its records are: the bounds on what a
/// file unpacks to leave out what is always free here, so that a few thousand lines stand for a million.
#[test]
fn the_most_regular_export_is_within_the_bounds_of_a_reader() {
    let bounds = Bounds {
        free: 0,
        ..Bounds::SHELF
    };
    let read = |bytes: &[u8]| Reader::within(Cursor::new(bytes.to_vec()), bounds);
    // Readings and short notes with numbers in a row pack to well above a fiftieth.
    let short = notes("Layer 3 checked, lead-out sleeved.", 20_000, Packing::Deflated, bounds).unwrap();
    assert!(read(&short).is_ok());
    // A long note of one letter, again and again, packs to less: it is written unpacked then.
    let long = "x".repeat(crate::merge::LONGEST_TEXT);
    let tight = notes(&long, 500, Packing::Deflated, bounds);
    assert!(
        matches!(tight, Err(ExchangeError::PackedTooTightly)),
        "{:?}",
        tight.map(|b| b.len())
    );
    let plain = notes(&long, 500, Packing::Stored, bounds).unwrap();
    let mut lines = 0;
    let done: Result<(), ExchangeError> = read(&plain).unwrap().records(|_| {
        lines += 1;
        Ok(())
    });
    done.unwrap();
    assert_eq!(lines, 500);
}

/// What a reader would refuse for its size is not written, and the message says what to do.
#[test]
fn an_export_beyond_the_bounds_is_refused_while_it_is_written() {
    let bounds = Bounds {
        records: 100_000,
        ..Bounds::SHELF
    };
    let refused = notes("one", 2_000, Packing::Deflated, bounds).unwrap_err();
    assert!(matches!(refused, ExchangeError::TooMuch { .. }), "{refused}");
    assert!(refused.to_string().contains("Export chosen jobs"), "{refused}");
}
