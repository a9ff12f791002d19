//! What else a job file is refused for, with the message.

use serde_json::{Value, json};

use super::documents::full;
use crate::job::{FORMAT_VERSION, Goal, JobFile, JobFileError, MAX_BYTES};

fn message(document: &Value) -> String {
    JobFile::parse(&document.to_string()).unwrap_err().to_string()
}

/// (what is changed at which pointer, the message)
#[test]
fn messages() {
    for (pointer, value, expected) in [
        (
            "/core/tongue_mm",
            json!(3000),
            "core.tongue_mm is 3000; it must be between 5 and 200 mm",
        ),
        (
            "/mains/hertz",
            json!(55),
            "mains.hertz is 55; it must be one of 50, 60 Hz",
        ),
        (
            "/core/primary/metal",
            json!("tin"),
            "core.primary.metal is \"tin\"; use one of: copper, aluminium, unknown",
        ),
        (
            "/choice/placement",
            json!("inside"),
            "choice.placement is \"inside\"; use one of: beside_primary, over_primary, far_end",
        ),
        (
            "/goal/user",
            json!("me"),
            "goal.user is \"me\"; use one of: layman, trained",
        ),
        (
            "/core/shunts_kept",
            json!("yes"),
            "core.shunts_kept is string \"yes\"; expected true or false",
        ),
        ("/name", json!("  "), "name is blank; give it a few words"),
        ("/name", json!(5), "name is integer `5`; expected a text in quotes"),
        (
            "/name",
            json!("a\u{7}b"),
            "name has a control character in it; leave it out",
        ),
        (
            "/choice/turns",
            json!(7.5),
            "choice.turns is floating point `7.5`; expected a whole number",
        ),
        ("/stock", json!({}), "stock is map; expected a list in [ ]"),
        ("/core", json!(3), "core is integer `3`; expected an object in { }"),
        (
            "/core/tonge_mm",
            json!(3),
            "core.tonge_mm is not a key known here; did you mean \"tongue_mm\"?",
        ),
        ("/qqqqqq", json!(3), "qqqqqq is not a key known here"),
        (
            "/goal/weld_current_a",
            json!(3),
            "goal.weld_current_a is not a key known here; did you mean \"arc_current_a\"?",
        ),
    ] {
        let mut document = full("stick_welder");
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        document.pointer_mut(parent).unwrap()[key] = value;
        assert_eq!(message(&document), expected);
    }
}

#[test]
fn unknown_use_names_the_words() {
    let mut document = full("ballast");
    document["goal"]["use"] = json!("toaster");
    let error = JobFile::parse(&document.to_string()).unwrap_err();
    assert_eq!(
        error,
        JobFileError::UnknownWord {
            path: "goal.use".to_owned(),
            found: "toaster".to_owned(),
            accepted: Goal::USES.iter().map(|word| (*word).to_owned()).collect(),
        }
    );
}

/// The version is judged before anything else in the file.
#[test]
fn version_first() {
    for found in [u64::from(FORMAT_VERSION) + 1, 99, u64::MAX] {
        let text = format!(r#"{{ "later": null, "later": {{}}, "curbcore_job": {found} }}"#);
        assert_eq!(
            JobFile::parse(&text),
            Err(JobFileError::Newer {
                found,
                known: FORMAT_VERSION
            })
        );
    }
    for text in [
        "{}",
        "[]",
        "3",
        "\"curbcore_job\"",
        r#"{ "curbcore_job": 0 }"#,
        r#"{ "curbcore_job": "1" }"#,
        r#"{ "name": "x" }"#,
    ] {
        assert_eq!(JobFile::parse(text), Err(JobFileError::NotAJobFile), "{text}");
    }
}

#[test]
fn size_and_depth() {
    let mut document = full("ballast");
    document["note"] = json!("x".repeat(MAX_BYTES));
    assert!(matches!(
        JobFile::parse(&document.to_string()),
        Err(JobFileError::TooLarge { .. })
    ));
    document["note"] = json!("x".repeat(20_001));
    assert_eq!(
        message(&document),
        "note has 20001 characters; it must have at most 20000"
    );
    let deep = format!("{{\"curbcore_job\": 1, \"core\": {}", "[".repeat(100_000));
    assert!(matches!(JobFile::parse(&deep), Err(JobFileError::Syntax { .. })));
}

#[test]
fn syntax_names_line_and_field() {
    let error = JobFile::parse("{ \"curbcore_job\": 1,\n  \"core\": { \"tongue_mm\": 31,8 } }").unwrap_err();
    let JobFileError::Syntax { line, path, .. } = &error else {
        panic!("{error:?}")
    };
    assert_eq!((*line, path.as_str()), (2, "core"), "{error}");
    let trailing = format!("{} x", full("ballast"));
    assert!(matches!(JobFile::parse(&trailing), Err(JobFileError::Syntax { .. })));
}

/// A reading alone, outside a job file, says what it wants.
#[test]
fn a_reading_alone() {
    let error = serde_json::from_value::<crate::job::Reading>(json!("x")).unwrap_err();
    assert!(
        error
            .to_string()
            .contains("expected a number or {value, plus_minus, origin}"),
        "{error}"
    );
    let whole = json!({ "value": 1.5, "plus_minus": 0.25, "origin": "rule" });
    let reading = serde_json::from_value::<crate::job::Reading>(whole.clone()).unwrap();
    assert_eq!(serde_json::to_value(reading).unwrap(), whole);
}
