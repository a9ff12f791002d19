//! The program without its window, run as a person runs it.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

use std::process::{Command, Output};

fn curbcore(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_curbcore"))
        .args(arguments)
        .output()
        .expect("the program starts")
}

fn text(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

fn demo_file(folder: &tempfile::TempDir) -> std::path::PathBuf {
    let path = folder.path().join("demo.json");
    let out = curbcore(&["demo", path.to_str().unwrap()]);
    assert!(out.status.success(), "{}", text(&out.stderr));
    path
}

#[test]
fn the_page_is_complete_in_itself() {
    let folder = tempfile::tempdir().unwrap();
    let out = curbcore(&["report", demo_file(&folder).to_str().unwrap()]);
    assert!(out.status.success(), "{}", text(&out.stderr));
    let page = text(&out.stdout);
    for part in [
        "<!DOCTYPE html>",
        "class=\"drawing section\"",
        "class=\"drawing plot\"",
        "Materials",
        "Stop unless",
    ] {
        assert!(page.contains(part), "{part} is missing");
    }
    assert!(
        !page.contains("http://")
            || page.matches("http://").count() == page.matches("http://www.w3.org/2000/svg").count()
    );
    assert!(!page.contains("<script"));
}

#[test]
fn json_has_units_in_its_keys() {
    let folder = tempfile::tempdir().unwrap();
    let out = curbcore(&["report", demo_file(&folder).to_str().unwrap(), "--json"]);
    let json: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    let results = json.pointer("/design/results").expect("a design");
    let open = results
        .pointer("/open_circuit_v/value")
        .and_then(serde_json::Value::as_f64)
        .expect("volts");
    let turns = json
        .pointer("/design/winding/turns")
        .and_then(serde_json::Value::as_f64)
        .expect("turns");
    let per_turn = results
        .pointer("/volts_per_turn_v/value")
        .and_then(serde_json::Value::as_f64)
        .expect("volts per turn");
    assert!((open - turns * per_turn).abs() < 1e-9 * open);
    for (key, value) in results.as_object().unwrap() {
        let spread = value.get("plus_minus").and_then(serde_json::Value::as_f64);
        assert!(spread.is_some_and(|s| s >= 0.0), "{key} has no uncertainty");
    }
}

/// Every numeric field that the demo has: bad input ends with 2 and one sentence with its path.
/// One kind of bad value a field here; every kind for every field is in `src/job/tests.rs`.
#[test]
fn bad_input_names_the_field() {
    let folder = tempfile::tempdir().unwrap();
    let demo: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(demo_file(&folder)).unwrap()).unwrap();
    let mut tried = 0;
    for field in curbcore::job::fields::ALL {
        let pointer = format!("/{}", field.path.replace('.', "/"));
        if field.only_for.is_some_and(|word| word != "spot_welder")
            || field.path.contains("[]")
            || demo.pointer(&pointer).is_none()
        {
            continue;
        }
        let kinds = [
            serde_json::json!(field.max * 10.0 + 1.0),
            serde_json::json!("much"),
            serde_json::json!(null),
        ];
        {
            let bad = &kinds[tried % 3];
            let mut document = demo.clone();
            *document.pointer_mut(&pointer).unwrap() = bad.clone();
            let path = folder.path().join("bad.json");
            std::fs::write(&path, document.to_string()).unwrap();
            let out = curbcore(&["report", path.to_str().unwrap()]);
            let message = text(&out.stderr);
            assert_eq!(out.status.code(), Some(2), "{} = {bad}: {message}", field.path);
            assert!(message.contains(field.path), "{} = {bad}: {message}", field.path);
            assert_eq!(message.trim().lines().count(), 1, "one sentence: {message}");
            tried += 1;
        }
    }
    assert!(tried > 20, "only {tried} fields were tried");
}

#[test]
fn refusals_are_one_sentence() {
    let folder = tempfile::tempdir().unwrap();
    for bad in ["nowhere.json", "not-an-id", "019300aa-0000-7000-8000-000000000000"] {
        let out = Command::new(env!("CARGO_BIN_EXE_curbcore"))
            .args(["report", bad])
            .env("CURBCORE_DATA", folder.path())
            .output()
            .unwrap();
        assert_eq!(out.status.code(), Some(2), "{bad}");
        assert_eq!(
            text(&out.stderr).trim().lines().count(),
            1,
            "{bad}: {}",
            text(&out.stderr)
        );
    }
}

#[test]
fn the_schema_is_json_schema() {
    let out = curbcore(&["job-schema"]);
    let schema: serde_json::Value = serde_json::from_slice(&out.stdout).expect("JSON");
    assert!(schema.get("$schema").is_some() && schema.pointer("/properties/core").is_some());
}

#[test]
fn the_demo_is_never_written_over_a_file() {
    let folder = tempfile::tempdir().unwrap();
    let path = demo_file(&folder);
    let again = curbcore(&["demo", path.to_str().unwrap()]);
    assert_eq!(again.status.code(), Some(2));
}
