//! One value of a record, judged by itself: by the rows of the field table that name its place, or
//! as the typed part that it must make up. Values from elsewhere come in one by one.

use serde::de::DeserializeOwned;
use serde_json::{Value, json};

use super::check::{Check, check_document};
use super::look::Look;

/// Judges a value by the rows of the table that name `path` or a place below it. `[]` in the path
/// stands for a member of a list, as in `stock[].length_m`.
///
/// # Errors
/// A sentence with the place and the range.
pub fn check_at(path: &str, value: &Value) -> Result<(), String> {
    let mut document = value.clone();
    for part in path.rsplit('.') {
        document = match part.strip_suffix("[]") {
            Some(list) => json!({ list: [document] }),
            None => json!({ part: document }),
        };
    }
    check_document(&document).map_err(|error| error.to_string())
}

/// Judges a value that must make up a whole part of a job file, such as a goal.
///
/// # Errors
/// A sentence with what is wrong.
pub fn check_as<T: DeserializeOwned + Check>(value: &Value) -> Result<(), String> {
    let part: T = serde_json::from_value(value.clone()).map_err(|error| error.to_string())?;
    part.check().map_err(|error| error.to_string())
}

/// Judges what was seen of a donor, or a part of it.
///
/// # Errors
/// As [`check_as`].
pub fn check_look(value: &Value) -> Result<(), String> {
    serde_json::from_value::<Look>(value.clone()).map_err(|error| error.to_string())?;
    check_at("donor.look", value)
}
