//! One value of a record, judged by itself: by the rows of the field table that name its place, or
//! as the typed part that it must make up. Values from elsewhere come in one by one.

use serde::de::DeserializeOwned;
use serde_json::Value;

use super::check::{Check, check_places, check_text};
use super::fields;
use super::look::Look;

/// Judges a value by the row of the table for `path`: of a text, or of a number without ±. `[]` in the path
/// stands for a member of a list, as in `stock[].length_m`.
///
/// # Errors
/// A sentence with the place and the range.
pub fn check_at(path: &str, value: &Value) -> Result<(), String> {
    let shown = path.replace("[]", "[0]");
    let number = fields::find(path).map(|field| field.check(&shown, value.as_f64().unwrap_or(f64::NAN), 0.0));
    let text = fields::TEXTS.iter().find(|(row, ..)| *row == path);
    let judged = match (number, text) {
        (Some(judged), _) => judged,
        (None, Some((_, most, one_line))) => check_text(&shown, value.as_str().unwrap_or_default(), *most, *one_line),
        (None, None) => Ok(()),
    };
    judged.map_err(|error| error.to_string())
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
    let look: Look = serde_json::from_value(value.clone()).map_err(|error| error.to_string())?;
    check_places("donor.look", "donor.look", None, &look).map_err(|error| error.to_string())
}
