//! A record's fields from the record as this program has it, and back: both as JSON.

use std::collections::BTreeMap;

use serde_json::{Value, json};

use super::Column;
use crate::job::put_at;
use crate::merge::{FieldShape, FieldSpec, Kind};

/// The path of a field in its record.
fn path_of(field: &FieldSpec) -> &'static str {
    field.path.unwrap_or_else(|| field.key.trim_end_matches('.'))
}

/// The fields that a record's own JSON holds: not its times, which the store keeps, nor its readings.
fn held(kind: Kind) -> impl Iterator<Item = &'static FieldSpec> {
    kind.fields().iter().filter(|field| {
        let is_held = Column::of(field).is_some() || field.shape == FieldShape::Owner;
        is_held && !matches!(field.key, "created_ms" | "edited_ms")
    })
}

/// The fields of a record from its JSON.
pub(in crate::store) fn fields_of(kind: Kind, record: &Value) -> BTreeMap<String, Value> {
    let mut fields = BTreeMap::new();
    for field in held(kind) {
        let value = path_of(field).split('.').try_fold(record, |at, key| at.get(key));
        match value {
            // An empty text is left out of JSON, and is a text all the same.
            None if matches!(field.shape, FieldShape::Text(_)) && !field.optional => {
                fields.insert(field.key.to_owned(), json!(""));
            }
            None | Some(Value::Null) => {}
            Some(Value::Object(parts)) if field.key.ends_with('.') => {
                let named = parts
                    .iter()
                    .map(|(part, value)| (format!("{}{part}", field.key), value.clone()));
                fields.extend(named);
            }
            Some(value) => {
                fields.insert(field.key.to_owned(), value.clone());
            }
        }
    }
    fields
}

/// A record's JSON from its fields.
pub(in crate::store) fn json_of(kind: Kind, fields: &BTreeMap<String, Value>) -> Value {
    let mut record = json!({});
    for field in held(kind) {
        let path = path_of(field);
        if field.key.ends_with('.') {
            put_at(&mut record, path.split('.'), json!({}));
            let parts = fields.range(field.key.to_owned()..);
            for (key, value) in parts.take_while(|(key, _)| key.starts_with(field.key)) {
                put_at(
                    &mut record,
                    path.split('.').chain([&key[field.key.len()..]]),
                    value.clone(),
                );
            }
        } else if let Some(value) = fields.get(field.key).filter(|value| !value.is_null()) {
            put_at(&mut record, path.split('.'), value.clone());
        }
    }
    record
}
