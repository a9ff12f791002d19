//! The JSON Schemas of the shelf file's parts, made from the same tables that judge it.

use schemars::Schema;
use serde_json::{Map, Value, json};

use super::manifest::Manifest;
use crate::merge::{FieldShape, Kind};

const STAMP: &str = r"^[1-9][0-9]*@[0-9a-f]{16}$";

/// The JSON Schema of `manifest.json`.
#[must_use]
pub fn manifest_schema() -> Schema {
    schemars::schema_for!(Manifest)
}

/// The JSON Schema of one line of `records.jsonl`.
#[must_use]
pub fn record_schema() -> Value {
    let kinds: Vec<Value> = Kind::ALL.into_iter().map(kind_schema).collect();
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "One line of records.jsonl in a Curbcore shelf file",
        "type": "object",
        "required": ["kind", "id", "stamp", "values"],
        "properties": {
            "kind": { "enum": Kind::ALL.map(Kind::word) },
            "id": { "type": "string", "format": "uuid" },
            "stamp": {
                "description": "The change that wrote most fields: a count, and the device that made it.",
                "type": "string", "pattern": STAMP,
            },
            "stamps": {
                "description": "The changes that wrote the other fields.",
                "type": "object", "additionalProperties": { "type": "string", "pattern": STAMP },
            },
            "seen": {
                "description": "Up to which count each device's changes are known; left out where that is `stamp` alone.",
                "type": "object", "additionalProperties": { "type": "integer", "minimum": 1 },
            },
            "others": {
                "description": "Values that other devices wrote without knowing of the one in `values`.",
                "type": "object",
                "additionalProperties": {
                    "type": "array",
                    "items": {
                        "type": "object", "required": ["stamp", "value"], "additionalProperties": false,
                        "properties": { "stamp": { "type": "string", "pattern": STAMP }, "value": true },
                    },
                },
            },
            "values": { "type": "object" },
        },
        "additionalProperties": false,
        "oneOf": kinds,
    })
}

fn kind_schema(kind: Kind) -> Value {
    let (mut properties, mut patterns, mut required) = (Map::new(), Map::new(), Vec::new());
    for field in kind.fields() {
        let mut schema = shape_schema(field.shape);
        if field.optional {
            schema = json!({ "anyOf": [schema, { "type": "null" }] });
        } else {
            required.push(field.key);
        }
        match field.key.strip_suffix('.') {
            Some(key) => patterns.insert(format!("^{key}\\."), schema),
            None => properties.insert(field.key.to_owned(), schema),
        };
    }
    properties.insert("removed".to_owned(), json!({ "type": "boolean" }));
    json!({
        "properties": {
            "kind": { "const": kind.word() },
            "values": {
                "properties": properties, "patternProperties": patterns, "required": required,
                "additionalProperties": false,
            },
        },
    })
}

fn shape_schema(shape: FieldShape) -> Value {
    let id = json!({ "type": "string", "format": "uuid" });
    match shape {
        FieldShape::Text(most) => json!({ "type": "string", "maxLength": most }),
        FieldShape::Whole => json!({ "type": "integer", "minimum": 0 }),
        FieldShape::Number => json!({ "type": "number" }),
        FieldShape::Flag => json!({ "type": "boolean" }),
        FieldShape::Id(_) => id,
        FieldShape::Part => json!(true),
        FieldShape::Owner => json!({
            "type": "object", "minProperties": 1, "maxProperties": 1, "additionalProperties": false,
            "properties": { "donor": id, "core": id, "job": id, "design": id },
        }),
        FieldShape::Lines(most) => json!({ "type": "array", "items": { "type": "string", "maxLength": most } }),
    }
}
