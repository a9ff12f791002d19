//! For every row of the table: each way to get it wrong names its path.

use serde_json::{Value, json};

use super::documents::{full, pointer, put, shown};
use crate::job::fields::{self, Field, Shape};
use crate::job::{JobFile, JobFileError};

fn base(field: &Field) -> Value {
    full(field.only_for.unwrap_or("ballast"))
}

/// Reads the document with `value` at the field; it must be refused, naming the path.
fn refused(field: &Field, value: Value) -> JobFileError {
    let mut document = base(field);
    put(&mut document, field.path, value.clone());
    refused_text(field, &document.to_string(), &value.to_string())
}

fn refused_text(field: &Field, text: &str, what: &str) -> JobFileError {
    let error = JobFile::parse(text).expect_err(&format!("{} accepts {what}", field.path));
    let path = error.path().unwrap_or_default();
    let expected = shown(field.path);
    assert!(
        path == expected || path.starts_with(&format!("{expected}.")),
        "{what} at {expected}: the error names {path}: {error}"
    );
    assert!(error.to_string().contains(&expected), "{error}");
    error
}

#[test]
fn below_and_above() {
    for field in fields::ALL {
        let step = (field.max - field.min) * 1e-9;
        for value in [field.min - step, field.max + step, -1e12, 1e12, -1e300, 1e300] {
            let value = if field.shape == Shape::Whole {
                value.round()
            } else {
                value
            };
            if (field.min..=field.max).contains(&value) {
                continue;
            }
            let error = refused(field, json!(value));
            let ranged = matches!(
                error,
                JobFileError::Field(fields::FieldError::OutOfRange { .. } | fields::FieldError::NotOneOf { .. })
            );
            // A negative or huge number does not even fit a whole number.
            let whole = matches!(field.shape, Shape::Whole | Shape::OneOf(_));
            assert!(ranged || whole, "{} at {value}: {error:?}", field.path);
            if field.shape == Shape::Reading {
                refused(field, json!({ "value": value, "plus_minus": 0, "origin": "rule" }));
            }
        }
    }
}

#[test]
fn both_ends_are_accepted() {
    for field in fields::ALL {
        for end in [field.min, field.max] {
            // Both ends of the pulse rate with a long pulse would overlap.
            let mut document = base(field);
            if field.only_for == Some("spot_welder") {
                document["goal"]["pulse_s"] = json!(0.005);
                document["goal"]["pulses_per_minute"] = json!(0.01);
            }
            put(&mut document, field.path, json!(end));
            JobFile::parse(&document.to_string()).unwrap_or_else(|e| panic!("{} at {end}: {e}", field.path));
        }
    }
}

#[test]
fn not_a_number() {
    for field in fields::ALL {
        let mark = json!("the place");
        for text in ["NaN", "Infinity", "-Infinity", "1e999", "\"NaN\"", "\"inf\"", "null"] {
            let mut document = base(field);
            put(&mut document, field.path, mark.clone());
            let text_of = document.to_string().replace(&mark.to_string(), text);
            refused_text(field, &text_of, text);
        }
    }
}

#[test]
fn wrong_type() {
    for field in fields::ALL {
        for value in [json!("12"), json!(true), json!([1])] {
            let error = refused(field, value);
            assert!(matches!(error, JobFileError::WrongType { .. }), "{error:?}");
            assert!(error.to_string().contains("number"), "{error}");
        }
        if field.shape == Shape::Reading {
            for (value, key) in [
                (json!({}), "value"),
                (json!({ "value": "x" }), "value"),
                (json!({ "value": field.min, "plus_minus": "x" }), "plus_minus"),
                (json!({ "value": field.min, "plus_minus": 0, "origin": 3 }), "origin"),
                (json!({ "value": field.min, "origin": "tarot" }), "origin"),
                (json!({ "value": field.min, "unit": "in" }), "unit"),
            ] {
                let error = refused(field, value);
                assert!(error.path().unwrap().ends_with(&format!(".{key}")), "{error}");
            }
        }
    }
}

#[test]
fn spread() {
    for field in fields::ALL.iter().filter(|field| field.shape == Shape::Reading) {
        for plus_minus in [-1e-9, -1.0, field.widest(field.min) * 1.001, 1e300] {
            let error = refused(field, json!({ "value": field.min, "plus_minus": plus_minus }));
            assert!(error.to_string().contains('±'), "{error}");
        }
    }
}

/// What is always above zero has a ± of at most its value, so that no input is moved to zero; what
/// may be zero or less has one of at most its range.
#[test]
fn a_spread_stays_below_its_value() {
    let accepts = |path: &str, value: f64, plus_minus: f64| {
        let field = fields::find(path).unwrap();
        field.check(path, value, plus_minus).is_ok()
    };
    for field in fields::ALL.iter().filter(|field| field.shape == Shape::Reading) {
        let value = field.min + (field.max - field.min) * 0.01;
        let within = field.check(field.path, value, value.abs().min(field.max - field.min));
        assert!(field.min <= 0.0 || within.is_ok(), "{}", field.path);
        let more = field.check(field.path, value, value.abs() * 1.01);
        assert_eq!(field.min > 0.0, more.is_err(), "{}", field.path);
        let error = field
            .check(field.path, field.max, (field.max - field.min) * 1.01)
            .unwrap_err();
        assert!(error.to_string().contains('±'), "{error}");
    }
    assert!(!accepts("core.tongue_mm", 35.0, 70.0));
    assert!(accepts("core.seam_gap_mm", 0.0, 0.05), "a gap may be none");
    assert!(accepts("conditions.ambient_c", 0.0, 5.0));
}

#[test]
fn missing() {
    for field in fields::ALL {
        let mut document = base(field);
        let (parent, key) = pointer(field.path)
            .rsplit_once('/')
            .map(|(a, b)| (a.to_owned(), b.to_owned()))
            .unwrap();
        document
            .pointer_mut(&parent)
            .unwrap()
            .as_object_mut()
            .unwrap()
            .remove(&key)
            .unwrap();
        let text = document.to_string();
        if field.required {
            let error = refused_text(field, &text, "nothing");
            assert!(matches!(error, JobFileError::Missing { .. }), "{error:?}");
        } else {
            JobFile::parse(&text).unwrap_or_else(|e| panic!("{} should be optional: {e}", field.path));
        }
    }
}

#[test]
fn unknown_key_beside_each() {
    for field in fields::ALL {
        let mut document = base(field);
        put(&mut document, &format!("{}x", field.path), json!(1));
        let error = JobFile::parse(&document.to_string()).unwrap_err();
        let JobFileError::UnknownKey { path, nearest } = &error else {
            panic!("{error:?}");
        };
        assert_eq!(path, &format!("{}x", shown(field.path)));
        assert_eq!(nearest.as_deref(), Some(field.key()), "{error}");
    }
}

#[test]
fn given_twice() {
    for field in fields::ALL {
        let mut document = base(field);
        put(&mut document, &format!("{}_again", field.path), json!(1));
        let text = document
            .to_string()
            .replace(&format!("\"{}_again\"", field.key()), &format!("\"{}\"", field.key()));
        let error = refused_text(field, &text, "twice");
        assert!(matches!(error, JobFileError::GivenTwice { .. }), "{error:?}");
    }
}

/// The table itself: paths that are not taken twice, ranges the right way round, words given.
#[test]
fn the_table_is_sound() {
    let mut seen = std::collections::BTreeSet::new();
    for field in fields::ALL {
        assert!(seen.insert((field.path, field.only_for)), "{} twice", field.path);
        assert!(field.min < field.max && field.min.is_finite() && field.max.is_finite());
        assert!(!field.label.is_empty(), "{}", field.path);
        for value in [field.min, field.max] {
            let plus_minus = field.default_plus_minus(value);
            assert!((0.0..=field.widest(value)).contains(&plus_minus));
        }
        if let Shape::OneOf(accepted) = field.shape {
            assert!(accepted.iter().all(|v| (field.min..=field.max).contains(v)));
        }
        assert_eq!(field.path.starts_with("goal."), field.only_for.is_some());
    }
}
