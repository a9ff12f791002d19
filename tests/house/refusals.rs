//! What a person reads of an error: a sentence of the text files for every one, and no such sentence unused.

use std::path::PathBuf;

use curbcore::app::workspace::WorkspaceError;
use curbcore::exchange::ExchangeError;
use curbcore::job::fields::{self, FieldError};
use curbcore::job::{JobFileError, ValueError};
use curbcore::merge::Kind;
use curbcore::photo::image::picture::PictureError;
use curbcore::quantity::NumberError;
use curbcore::store::StoreError;
use curbcore::text::{ENGLISH, Texts};
use curbcore::words::Explain;

/// What was said, with nothing left open.
fn sentence(error: &impl Explain) -> String {
    let texts = Texts::english().unwrap();
    let message = error.message();
    let text = texts.message(&message);
    assert!(text != *message.key, "{} has no text", message.key);
    assert!(!text.contains(['{', '}']), "{}: {text}", message.key);
    assert!(!text.contains("refused-"), "{}: {text}", message.key);
    text
}

fn io() -> std::io::Error {
    std::io::Error::other("no room")
}

#[test]
fn every_error_of_the_store_is_a_sentence() {
    let path = || PathBuf::from("data");
    let text = || "x".to_owned();
    let errors = [
        StoreError::NoFolder,
        StoreError::Folder {
            path: path(),
            source: io(),
        },
        StoreError::InUseElsewhere { path: path() },
        StoreError::Browser { detail: text() },
        StoreError::Nothing { path: path() },
        StoreError::Newer { found: 2, known: 1 },
        StoreError::Older { found: 1, known: 2 },
        StoreError::NotOurs { path: path() },
        StoreError::Damaged { detail: text() },
        StoreError::PutBack {
            what: text(),
            reason: ValueError::Missing,
        },
        StoreError::DiskFull,
        StoreError::ReadOnly,
        StoreError::Disk,
        StoreError::Busy,
        StoreError::NotFound { what: "choice" },
        StoreError::StaleRevision {
            what: "core",
            expected: 1,
            found: 2,
        },
        StoreError::CoreInUse { jobs: 2 },
        StoreError::Photo { most_mib: 32 },
        StoreError::Incomplete { field: text() },
        StoreError::Unreadable {
            what: text(),
            reason: ValueError::Missing,
        },
        StoreError::WouldLose,
        StoreError::OwnerGone { what: "donor" },
        StoreError::DoesNotFit,
        StoreError::Database,
    ];
    for error in &errors {
        assert!(sentence(error).ends_with(['.', ')']), "{error}");
    }
    assert_eq!(
        sentence(&StoreError::CoreInUse { jobs: 1 }),
        "One job uses this core. Delete that job first."
    );
    for what in [
        "choice",
        "core",
        "design",
        "donor",
        "job",
        "measurement",
        "photo",
        "plan",
        "stock",
        "wire",
    ] {
        sentence(&StoreError::NotFound { what });
    }
}

/// What is said of a value from elsewhere, whatever is wrong with it.
#[test]
fn every_error_of_a_value_is_a_sentence() {
    let refused = FieldError::Blank {
        path: "goal".to_owned(),
    };
    for error in [
        ValueError::from(refused),
        ValueError::Unreadable("expected a string".to_owned()),
        ValueError::Text(200),
        ValueError::Whole,
        ValueError::Number,
        ValueError::Flag,
        ValueError::Id,
        ValueError::Parts {
            parts: 2_000,
            characters: 4_000,
        },
        ValueError::Owner,
        ValueError::Lines(10_000),
        ValueError::UnknownField,
        ValueError::Missing,
        ValueError::Counts {
            highest: 1 << 40,
            sessions: 20_000,
        },
        ValueError::SecondValue,
        ValueError::Origin,
        ValueError::Negative,
        ValueError::PictureKind,
        ValueError::Plan,
        ValueError::Procedure,
        ValueError::Device,
        ValueError::NoPicture,
        ValueError::LargePicture(16),
        ValueError::OtherPicture,
    ] {
        assert!(sentence(&error).ends_with('.'), "{error}");
    }
    for kind in Kind::ALL {
        let named = Texts::english().unwrap().message(&kind.named());
        assert!(!named.contains("refused-"), "{named}");
    }
}

#[test]
fn every_error_of_a_shelf_file_is_a_sentence() {
    let text = || "x".to_owned();
    for error in [
        ExchangeError::Disk {
            path: text(),
            source: io(),
        },
        ExchangeError::Stopped(io()),
        ExchangeError::Exists { path: text() },
        ExchangeError::NotAFile {
            path: text(),
            kind: "a folder",
        },
        ExchangeError::Cancelled,
        ExchangeError::NotAShelf { seems: "x" },
        ExchangeError::NotWhole(text()),
        ExchangeError::TooMuchWork { found: 30, most: 18 },
        ExchangeError::Newer { found: 2, known: 1 },
        ExchangeError::TooMuch {
            what: "photos",
            most: 1,
        },
        ExchangeError::PackedTooTightly,
        ExchangeError::TooLarge {
            what: text(),
            most: text(),
        },
        ExchangeError::Stranger(text()),
        ExchangeError::Twice,
        ExchangeError::Manifest(text()),
        ExchangeError::Altered(text()),
        ExchangeError::Sealed { tried: false },
        ExchangeError::Sealed { tried: true },
        ExchangeError::Gap { name: text() },
    ] {
        assert!(sentence(&error).ends_with('.'), "{error}");
    }
}

/// The field by its label, the value and the range.
#[test]
fn a_refused_field_is_named_with_its_range() {
    let path = || "core.tongue_mm".to_owned();
    let unit = "mm";
    let (min, max) = (5.0, 200.0);
    let range = FieldError::OutOfRange {
        path: path(),
        value: 900.0,
        min,
        max,
        unit,
    };
    assert_eq!(sentence(&range), "Tongue width is 900. Enter 5 to 200 mm.");
    for error in [
        FieldError::NotFinite {
            path: path(),
            min,
            max,
            unit,
        },
        FieldError::NotOneOf {
            path: path(),
            value: 1.0,
            accepted: &[50.0, 60.0],
            unit,
        },
        FieldError::NotWhole {
            path: path(),
            value: 1.5,
        },
        FieldError::BadSpread {
            path: path(),
            plus_minus: 70.0,
            widest: 35.0,
            unit,
        },
        FieldError::Blank { path: path() },
        FieldError::TooLong {
            path: path(),
            characters: 300,
            most: 200,
        },
        FieldError::ControlCharacter { path: path() },
    ] {
        assert!(sentence(&error).contains("Tongue width"), "{error}");
    }
    let listed = FieldError::NotWhole {
        path: "stock[2].length_m".to_owned(),
        value: 1.5,
    };
    assert!(sentence(&listed).starts_with("Length on the shelf"));
    let unknown = FieldError::Blank {
        path: "name".to_owned(),
    };
    assert!(sentence(&unknown).starts_with("name is blank"));
    sentence(&FieldError::PulsesOverlap {
        pulses_per_minute: 90.0,
        pulse_s: 2.0,
    });
}

#[test]
fn other_errors_are_sentences() {
    let text = || "x".to_owned();
    for error in [
        NumberError::Empty,
        NumberError::NotANumber(text()),
        NumberError::UnknownUnit(text()),
        NumberError::WrongUnit {
            shown: text(),
            accepted: text(),
        },
        NumberError::Ambiguous {
            shown: text(),
            decimal: 1.35,
            thousands: 1350.0,
        },
    ] {
        sentence(&error);
    }
    for error in [
        JobFileError::TooLarge { bytes: 2, most: 1 },
        JobFileError::NotAJobFile,
        JobFileError::Newer { found: 2, known: 1 },
        JobFileError::Missing { path: text() },
        JobFileError::UnknownKey {
            path: text(),
            nearest: None,
        },
        JobFileError::UnknownKey {
            path: text(),
            nearest: Some(text()),
        },
        JobFileError::GivenTwice { path: text() },
        JobFileError::Null { path: text() },
        JobFileError::UnknownWord {
            path: text(),
            found: text(),
            accepted: vec![text()],
        },
    ] {
        assert!(sentence(&error).ends_with(['.', '?']), "{error}");
    }
    for error in [
        PictureError::Unknown,
        PictureError::Heif,
        PictureError::TooManyBytes {
            megabytes: 90,
            most: 60,
        },
        PictureError::TooLarge { width: 1, height: 1 },
        PictureError::TooMuchMemory {
            megabytes: 900,
            most: 256,
        },
        PictureError::TooSmall { width: 1, height: 1 },
        PictureError::CutShort,
        PictureError::Cancelled,
        PictureError::Damaged { what: text() },
    ] {
        assert!(sentence(&error).ends_with('.'), "{error}");
    }
    let field = fields::find("core.tongue_mm").unwrap();
    let range = WorkspaceError::Range {
        field,
        shown: "900".to_owned(),
        range: "5 to 200 mm".to_owned(),
    };
    assert_eq!(sentence(&range), "Tongue width 900 is out of range: 5 to 200 mm");
    assert_eq!(range.to_string(), sentence(&range), "the command line says the same");
}

/// Every number that a person can enter has its label and how to measure it; the schema and the command line
/// call it the same in English. No such text lies unused.
#[test]
fn every_field_has_its_texts() {
    let texts = Texts::english().unwrap();
    for field in fields::ALL {
        let id = field.text();
        let part = |part: &str| texts.find(&format!("{id}.{part}"), &[]);
        assert_eq!(part("label").as_deref(), Some(field.label), "{id}");
        assert!(part("hint").is_some_and(|hint| hint.ends_with('.')), "{id}");
    }
    let (_, file) = ENGLISH.iter().find(|(name, _)| *name == "fields.ftl").unwrap();
    for id in file.lines().filter_map(|line| line.strip_suffix(" =")) {
        assert!(
            fields::ALL.iter().any(|field| field.text() == id),
            "{id} is the text of no field"
        );
    }
}
