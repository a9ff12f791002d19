//! Whether a value means something that the program accepts: the ranges and words of its field.

use serde_json::{Value, json};

use super::kind::{FieldSpec, Rule};
use super::stamp::Device;
use crate::job::{
    Choice, Conditions, Goal, PhotoMarks, PrimaryMetal, ValueError, check_as, check_at, check_look, check_text,
};

/// The most predictions of a plan of bench tests.
const MOST_PREDICTIONS: usize = 100;

/// Judges a value that has the shape of its field. `key` is the whole key, such as
/// `conditions.pair`. A value of an optional field may be null.
///
/// # Errors
/// [`ValueError`] with what is wrong and what is accepted.
pub fn validate_value(field: &FieldSpec, key: &str, value: &Value) -> Result<(), ValueError> {
    if value.is_null() && field.optional {
        return Ok(());
    }
    // A key such as `look.rust` is a part of an object.
    let part = || json!({ key.strip_prefix(field.key).unwrap_or(key): value });
    let words = |one_line: bool| {
        let texts = value.as_array().map_or(std::slice::from_ref(value), Vec::as_slice);
        texts
            .iter()
            .filter_map(Value::as_str)
            .try_for_each(|text| check_text(key, text, usize::MAX, one_line).map_err(ValueError::from))
    };
    match field.rule {
        Rule::FieldShape => Ok(()),
        Rule::Table(path) => Ok(check_at(path, value)?),
        Rule::Metal => Ok(serde_json::from_value::<PrimaryMetal>(value.clone()).map(|_| ())?),
        Rule::Look => check_look(&part()),
        Rule::Goal => check_as::<Goal>(value),
        Rule::Conditions => check_as::<Conditions>(&part()),
        Rule::Choice => check_as::<Choice>(value),
        Rule::Marks => check_as::<PhotoMarks>(value),
        Rule::Plan => wind_plan(value).or_else(|| plan(value)).ok_or(ValueError::Plan),
        Rule::JobProcedure => match value.as_str() {
            Some("wind" | "wind-second" | "bench") => Ok(()),
            _ => Err(ValueError::Procedure),
        },
        Rule::Words => words(false),
        Rule::OneLine => words(true),
        Rule::Device => value
            .as_str()
            .unwrap_or_default()
            .parse::<Device>()
            .map(|_| ())
            .map_err(|_| ValueError::Device),
    }
}

/// The plan of a winding is an object of numbers and of true or false; what its primary should measure is an
/// object of numbers.
fn wind_plan(value: &Value) -> Option<()> {
    let parts = value.as_object().filter(|parts| (1..=20).contains(&parts.len()))?;
    let numbers = |value: &Value| {
        value.as_object().is_some_and(|parts| {
            parts.len() <= 8 && parts.iter().all(|(key, value)| key.len() <= 40 && value.is_number())
        })
    };
    let fine = |(key, value): (&String, &Value)| {
        key.len() <= 40 && (value.is_number() || value.is_boolean() || key == "primary" && numbers(value))
    };
    parts.iter().all(fine).then_some(())
}

/// The plan of bench tests is a list: the word of the load, then the predictions; an open end is null.
fn plan(value: &Value) -> Option<()> {
    let list = value.as_array()?;
    let rows = match list.split_first() {
        Some((Value::String(load), rows)) if load.len() <= 40 => rows,
        _ => list.as_slice(),
    };
    (rows.len() <= MOST_PREDICTIONS).then_some(())?;
    rows.iter().try_for_each(|row| {
        let row = row.as_object().filter(|row| row.len() == 5)?;
        row.get("stage")?.as_str().filter(|stage| stage.len() <= 40)?;
        row.get("of")?.as_u64().filter(|of| *of <= 255)?;
        let (value, low) = (row.get("value")?.as_f64()?, row.get("low")?.as_f64()?);
        let high = match row.get("high")? {
            Value::Null => f64::INFINITY,
            high => high.as_f64()?,
        };
        (low <= value && value <= high).then_some(())
    })
}
