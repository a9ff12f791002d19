//! The schema and the table say the same.

use serde_json::{Value, json};

use super::documents::{full, put};
use crate::job::fields::{self, Shape};
use crate::job::{Goal, JobFile, job_schema};

/// Whether a document fits a schema: the keywords that the job schema uses, as in JSON Schema
/// draft 2020-12 (validation vocabulary).
fn fits(schema: &Value, value: &Value) -> bool {
    let Some(rules) = schema.as_object() else {
        return schema == &json!(true);
    };
    rules.iter().all(|(keyword, rule)| match keyword.as_str() {
        "type" => match rule.as_str().expect("one type") {
            "object" => value.is_object(),
            "array" => value.is_array(),
            "string" => value.is_string(),
            "number" => value.is_number(),
            "integer" => value.as_f64().is_some_and(|v| v.fract() == 0.0),
            "boolean" => value.is_boolean(),
            other => panic!("type {other}"),
        },
        "minimum" => value.as_f64().is_none_or(|v| v >= rule.as_f64().unwrap()),
        "maximum" => value.as_f64().is_none_or(|v| v <= rule.as_f64().unwrap()),
        "minLength" => value
            .as_str()
            .is_none_or(|s| s.chars().count() as u64 >= rule.as_u64().unwrap()),
        "maxLength" => value
            .as_str()
            .is_none_or(|s| s.chars().count() as u64 <= rule.as_u64().unwrap()),
        "enum" => rule.as_array().unwrap().iter().any(|one| same(one, value)),
        "const" => same(rule, value),
        "required" => value.as_object().is_none_or(|object| {
            rule.as_array()
                .unwrap()
                .iter()
                .all(|key| object.contains_key(key.as_str().unwrap()))
        }),
        "properties" => value.as_object().is_none_or(|object| {
            object
                .iter()
                .all(|(key, member)| rule.get(key).is_none_or(|schema| fits(schema, member)))
        }),
        "additionalProperties" => {
            let known = rules.get("properties").and_then(Value::as_object);
            value.as_object().is_none_or(|object| {
                object
                    .iter()
                    .filter(|(key, _)| !known.is_some_and(|known| known.contains_key(*key)))
                    .all(|(_, member)| fits(rule, member))
            })
        }
        "propertyNames" => value
            .as_object()
            .is_none_or(|object| object.keys().all(|key| fits(rule, &json!(key)))),
        "uniqueItems" => value.as_array().is_none_or(|members| {
            let twice = |(at, member): (usize, &Value)| members[..at].contains(member);
            rule != &json!(true) || !members.iter().enumerate().any(twice)
        }),
        "items" => value
            .as_array()
            .is_none_or(|members| members.iter().all(|member| fits(rule, member))),
        "anyOf" => rule.as_array().unwrap().iter().any(|one| fits(one, value)),
        "oneOf" => rule.as_array().unwrap().iter().filter(|one| fits(one, value)).count() == 1,
        "title" | "description" | "format" | "default" | "$schema" => true,
        other => panic!("keyword {other} is not known to this test"),
    })
}

fn same(a: &Value, b: &Value) -> bool {
    a == b || a.as_f64().is_some_and(|v| b.as_f64() == Some(v))
}

/// Documents made from the table fit, bare and complete.
#[test]
fn generated_documents_fit() {
    let schema = job_schema();
    for goal_use in Goal::USES {
        let bare = full(goal_use);
        assert!(fits(&schema, &bare), "{goal_use}");
        let complete = serde_json::to_value(JobFile::parse(&bare.to_string()).unwrap()).unwrap();
        assert!(fits(&schema, &complete), "{goal_use}");
    }
}

/// At each end of each row's range, schema and reader agree on what is in and what is out.
#[test]
fn ranges_agree_with_the_table() {
    let schema = job_schema();
    for field in fields::ALL {
        let step = (field.max - field.min) * 1e-6;
        let step = if field.shape == Shape::Whole { 1.0 } else { step };
        for (value, inside) in [
            (field.min, true),
            (field.max, true),
            (field.min - step, false),
            (field.max + step, false),
        ] {
            let mut document = full(field.only_for.unwrap_or("ballast"));
            put(&mut document, field.path, json!(value));
            assert_eq!(fits(&schema, &document), inside, "{} at {value}", field.path);
            if field.shape == Shape::Reading {
                put(&mut document, field.path, json!({ "value": value }));
                assert_eq!(fits(&schema, &document), inside, "{} at {value}", field.path);
            }
        }
        if field.shape == Shape::Reading {
            // That a ± is at most its value, a schema cannot say: it has the largest value's.
            let widest = field.widest(field.max);
            for (plus_minus, inside) in [(widest, true), (widest * 1.01, false), (-1e-9, false)] {
                let mut document = full("ballast");
                put(
                    &mut document,
                    field.path,
                    json!({ "value": field.min, "plus_minus": plus_minus }),
                );
                assert_eq!(fits(&schema, &document), inside, "{} ± {plus_minus}", field.path);
            }
        }
    }
}

/// What the reader refuses for its shape, the schema refuses too.
#[test]
fn shapes_agree() {
    let schema = job_schema();
    for (path, value) in [
        ("core.tonge_mm", json!(3)),
        ("core.yoke_mm", json!(null)),
        ("core.primary.metal", json!("tin")),
        ("goal.use", json!("toaster")),
        ("goal.duty", json!(0.5)),
        ("curbcore_job", json!(2)),
        ("note", json!(null)),
        ("donor", json!(null)),
        ("donor.look.kind", json!("steam engine")),
        ("donor.look.damage", json!(["bent"])),
        ("choice.turns", json!(7.5)),
        ("mains.hertz", json!(55)),
    ] {
        let mut document = full("ballast");
        put(&mut document, path, value);
        assert!(!fits(&schema, &document), "{path}");
        assert!(JobFile::parse(&document.to_string()).is_err(), "{path}");
    }
    for field in fields::ALL.iter().filter(|field| field.required) {
        let mut document = full(field.only_for.unwrap_or("ballast"));
        let pointer = super::documents::pointer(field.path);
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        document
            .pointer_mut(parent)
            .unwrap()
            .as_object_mut()
            .unwrap()
            .remove(key);
        assert!(!fits(&schema, &document), "{} missing", field.path);
    }
}
