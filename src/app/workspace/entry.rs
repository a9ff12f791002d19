//! A number as a person types and reads it: its field, its range, its unit.

use super::WorkspaceError;
use crate::job::{Entered, Goal, Reading, fields};
use crate::quantity::{LengthUnit, Origin, parse_length, parse_number};

/// A number as it was typed, for one field of a job.
#[derive(Debug, Clone, PartialEq)]
pub struct Entry<'a> {
    /// The field's path in a job file, such as `core.tongue_mm`.
    pub path: &'a str,
    /// What was typed; blank takes an optional value away.
    pub text: &'a str,
    /// The ± that was typed; blank for the one usual for how it was got.
    pub plus_minus: &'a str,
    /// How it was got; `None` for the field's usual way.
    pub origin: Option<Origin>,
}

/// The field of a path, seen from a job's use.
///
/// # Errors
/// [`WorkspaceError::UnknownField`].
pub fn find_field(goal: &Goal, path: &str) -> Result<&'static fields::Field, WorkspaceError> {
    let found = match path.strip_prefix("goal.") {
        Some(key) => fields::find_for(goal.word(), key),
        None => fields::find(path),
    };
    found.ok_or_else(|| WorkspaceError::UnknownField(path.to_owned()))
}

/// The accepted range of a field in the person's unit, as text.
#[must_use]
pub fn range_text(field: &fields::Field, unit: LengthUnit) -> String {
    if let fields::Shape::OneOf(accepted) = field.shape {
        let values: Vec<String> = accepted.iter().map(ToString::to_string).collect();
        return format!("{} {}", values.join(" or "), field.kind.symbol())
            .trim_end()
            .to_owned();
    }
    let shown = |value: f64| shown_number(field, value, unit);
    format!(
        "{} to {} {}",
        shown(field.min),
        shown(field.max),
        unit_symbol(field, unit)
    )
    .trim_end()
    .to_owned()
}

/// A value of a field as the person reads it, without its unit.
#[must_use]
pub fn shown_number(field: &fields::Field, value: f64, unit: LengthUnit) -> String {
    let inches = is_length(field) && unit == LengthUnit::Inch;
    let value = if inches { value / 25.4 } else { value };
    let text = format!("{value:.*}", if inches { 4 } else { 3 });
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text.is_empty() || text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// The symbol behind a field's number, in the person's unit.
#[must_use]
pub fn unit_symbol(field: &fields::Field, unit: LengthUnit) -> &'static str {
    if is_length(field) {
        unit.symbol()
    } else {
        field.kind.symbol()
    }
}

fn is_length(field: &fields::Field) -> bool {
    field.kind == fields::UnitKind::Length
}

/// Reads what was typed for a field: `None` where it is to be taken away.
pub(in crate::app) fn read_entry(
    field: &'static fields::Field,
    entry: &Entry,
    unit: LengthUnit,
) -> Result<Option<Entered>, WorkspaceError> {
    let number = |text: &str| -> Result<f64, WorkspaceError> {
        let value = if is_length(field) {
            parse_length(text, unit).map(|l| l.mm())
        } else {
            parse_number(text)
        };
        value.map_err(|reason| WorkspaceError::Number { field, reason })
    };
    if entry.text.trim().is_empty() && !field.required {
        return Ok(None);
    }
    let value = number(entry.text)?;
    let spread = match entry.plus_minus.trim() {
        "" => field.usual_plus_minus(value, entry.origin.unwrap_or(field.origin)),
        text => number(text)?,
    };
    if let Err(error) = field.check(field.path, value, spread) {
        if matches!(error, fields::FieldError::BadSpread { .. }) {
            return Err(WorkspaceError::Spread {
                field,
                shown: entry.plus_minus.trim().chars().take(40).collect(),
                most: shown_number(field, field.widest(value), unit),
                unit: unit_symbol(field, unit),
            });
        }
        return Err(WorkspaceError::Range {
            field,
            shown: entry.text.trim().chars().take(40).collect(),
            range: range_text(field, unit),
        });
    }
    Ok(Some(match field.shape {
        fields::Shape::Reading => Entered::Reading(Reading::new(value, spread, entry.origin.unwrap_or(field.origin))),
        _ => Entered::Number(value),
    }))
}
