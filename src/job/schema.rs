//! The job file's JSON Schema, with the ranges of the field table in it.

use schemars::generate::SchemaSettings;
use serde_json::{Value, json};

use super::fields::{self, Field, Shape};
use super::file::{FORMAT_VERSION, JobFile};

/// JSON Schema (draft 2020-12) of a job file.
#[must_use]
pub fn job_schema() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|settings| settings.inline_subschemas = true);
    let mut schema = settings.into_generator().into_root_schema_for::<JobFile>().to_value();
    drop_null(&mut schema);
    for field in fields::ALL {
        for place in places(&mut schema, field) {
            put_range(place, field);
        }
    }
    for (pattern, most, one_line) in fields::TEXTS {
        for place in walk(vec![&mut schema], pattern, None) {
            set(place, "maxLength", json!(most));
            if *one_line {
                set(place, "minLength", json!(1));
            }
        }
    }
    if let Some(version) = schema.pointer_mut("/properties/curbcore_job") {
        *version = json!({ "description": "Format version.", "const": FORMAT_VERSION });
    }
    schema
}

/// The subschemas that describe a field.
fn places<'s>(schema: &'s mut Value, field: &Field) -> Vec<&'s mut Value> {
    walk(vec![schema], field.path, field.only_for)
}

fn walk<'s>(start: Vec<&'s mut Value>, pattern: &str, only_for: Option<&str>) -> Vec<&'s mut Value> {
    pattern.split('.').fold(start, |places, part| {
        let (key, every) = part.strip_suffix("[]").map_or((part, false), |key| (key, true));
        places
            .into_iter()
            .flat_map(|place| alternatives(place, only_for))
            .filter_map(|place| place.get_mut("properties")?.get_mut(key))
            .filter_map(|place| if every { place.get_mut("items") } else { Some(place) })
            .collect()
    })
}

/// The object schemas among the alternatives of a schema; of a tagged one, those with the tag.
fn alternatives<'s>(schema: &'s mut Value, only_for: Option<&str>) -> Vec<&'s mut Value> {
    let Some(key) = ["oneOf", "anyOf"]
        .into_iter()
        .find(|key| schema.get(key).is_some_and(Value::is_array))
    else {
        return vec![schema];
    };
    let wanted = |member: &Value| {
        only_for.is_none_or(|word| member.pointer("/properties/use/const").and_then(Value::as_str) == Some(word))
    };
    match schema.get_mut(key) {
        Some(Value::Array(members)) => members.iter_mut().filter(|member| wanted(member)).collect(),
        _ => Vec::new(),
    }
}

fn put_range(place: &mut Value, field: &Field) {
    if let (Shape::Reading, Some(members)) = (field.shape, place.get_mut("anyOf").and_then(Value::as_array_mut)) {
        for member in members {
            match member.pointer_mut("/properties/value") {
                Some(value) => {
                    bound(value, field);
                    if let Some(plus_minus) = member.pointer_mut("/properties/plus_minus") {
                        set(plus_minus, "maximum", json!(field.widest(field.max)));
                    }
                }
                None => bound(member, field),
            }
        }
    } else {
        bound(place, field);
    }
    let unit = field.kind.symbol();
    let unit = if unit.is_empty() {
        String::new()
    } else {
        format!(", {unit}")
    };
    set(place, "title", json!(format!("{}{unit}", field.label)));
}

fn bound(place: &mut Value, field: &Field) {
    set(place, "minimum", json!(field.min));
    set(place, "maximum", json!(field.max));
    if let Shape::OneOf(accepted) = field.shape {
        set(place, "enum", json!(accepted));
    }
}

fn set(place: &mut Value, key: &str, value: Value) {
    if let Value::Object(object) = place {
        object.insert(key.to_owned(), value);
    }
}

/// Takes null out of every type: a key without a value is left out of a job file.
fn drop_null(schema: &mut Value) {
    match schema {
        Value::Object(object) => {
            object.retain(|key, value| key != "default" || !value.is_null());
            if let Some(Value::Array(types)) = object.get_mut("type") {
                types.retain(|word| word != "null");
                if let [only] = types.as_slice() {
                    let only = only.clone();
                    object.insert("type".to_owned(), only);
                }
            }
            if let Some(Value::Array(members)) = object.get_mut("anyOf") {
                members.retain(|member| member.get("type") != Some(&json!("null")));
                if let [Value::Object(only)] = members.as_mut_slice() {
                    let only = std::mem::take(only);
                    object.remove("anyOf");
                    for (key, value) in only {
                        object.entry(key).or_insert(value);
                    }
                }
            }
            object.values_mut().for_each(drop_null);
        }
        Value::Array(members) => members.iter_mut().for_each(drop_null),
        _ => {}
    }
}
