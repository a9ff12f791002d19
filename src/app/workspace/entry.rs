//! A number as a person types and reads it: its field, its range, its unit.

use super::WorkspaceError;
use crate::job::{Entered, Goal, Reading, fields};
use crate::quantity::{LengthUnit, NumberError, Origin, number_and_unit, parse_length, parse_number};

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
    if entry.text.trim().is_empty() && !field.required {
        return Ok(None);
    }
    let value = read_value(field, entry.text, unit)?;
    let spread = match entry.plus_minus.trim() {
        "" => field.usual_plus_minus(value, entry.origin.unwrap_or(field.origin)),
        text => read_amount(field, text, unit, false)?,
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

/// What was typed as a value, in the field's own unit. Where a comma may separate decimals or thousands, the
/// reading that lies in the field's range counts.
fn read_value(field: &'static fields::Field, text: &str, unit: LengthUnit) -> Result<f64, WorkspaceError> {
    let error = match read_amount(field, text, unit, true) {
        Err(WorkspaceError::Number {
            reason:
                NumberError::Ambiguous {
                    shown,
                    decimal,
                    thousands,
                },
            ..
        }) => (shown, decimal, thousands),
        other => return other,
    };
    let (shown, decimal, thousands) = error;
    let (_, suffix) = number_and_unit(text).map_err(|reason| WorkspaceError::Number { field, reason })?;
    let read = |number: f64| read_amount(field, &format!("{number} {suffix}"), unit, true);
    let (first, second) = (read(decimal)?, read(thousands)?);
    let fits = |value: f64| (field.min..=field.max).contains(&value);
    match (fits(first), fits(second)) {
        (true, true) => Err(WorkspaceError::Number {
            field,
            reason: NumberError::Ambiguous {
                shown,
                decimal,
                thousands,
            },
        }),
        (_, false) => Ok(first),
        (false, true) => Ok(second),
    }
}

/// A number with or without its unit, in the field's own; `from_zero` for a value, not for a ±.
fn read_amount(
    field: &'static fields::Field,
    text: &str,
    unit: LengthUnit,
    from_zero: bool,
) -> Result<f64, WorkspaceError> {
    let refused = |reason| WorkspaceError::Number { field, reason };
    if is_length(field) {
        return parse_length(text, unit).map(|length| length.mm()).map_err(refused);
    }
    let (number, suffix) = number_and_unit(text).map_err(refused)?;
    let number = parse_number(number).map_err(refused)?;
    if suffix.is_empty() {
        return Ok(number);
    }
    let units = fields::typed_units(field.kind);
    let Some((symbol, factor)) = units.iter().find(|(symbol, _)| *symbol == suffix) else {
        let accepted: Vec<&str> = units.iter().map(|(symbol, _)| *symbol).take(3).collect();
        return Err(refused(if accepted.is_empty() {
            NumberError::NotANumber(text.trim().chars().take(40).collect())
        } else {
            NumberError::WrongUnit {
                shown: suffix.chars().take(20).collect(),
                accepted: accepted.join(", "),
            }
        }));
    };
    Ok(number * factor + if from_zero { fields::zero_of(symbol) } else { 0.0 })
}

/// The value that was probably meant by a text outside a field's range, with its unit: a slip of a thousand, or
/// of a length inches typed as millimetres or the other way. To be asked about, never to be taken by itself.
#[must_use]
pub fn probably_meant(field: &'static fields::Field, text: &str, unit: LengthUnit) -> Option<String> {
    let slips: &[f64] = if is_length(field) {
        &[1e-3, 1e3, 1.0 / 25.4, 25.4]
    } else {
        &[1e-3, 1e3]
    };
    let fits = |value: &f64| (field.min..=field.max).contains(value);
    let value = read_value(field, text, unit).ok().filter(|value| !fits(value))?;
    if matches!(field.shape, fields::Shape::OneOf(_)) {
        return None;
    }
    let meant = slips.iter().map(|slip| value * slip).find(fits)?;
    let text = format!("{} {}", shown_number(field, meant, unit), unit_symbol(field, unit));
    Some(text.trim_end().to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::fields::find;

    fn read(path: &str, text: &str) -> Result<f64, WorkspaceError> {
        let field = find(path).unwrap();
        let entry = Entry {
            path,
            text,
            plus_minus: "",
            origin: None,
        };
        read_entry(field, &entry, LengthUnit::Millimetre).map(|entered| match entered.unwrap() {
            Entered::Reading(reading) => reading.value,
            Entered::Number(number) => number,
        })
    }

    /// As people write numbers: groups of three, fractions, the unit behind the number.
    #[test]
    fn entry_forgives() {
        for (path, text, value) in [
            ("donor.input_watts", "1,350", 1350.0),
            ("donor.input_watts", "1 350 W", 1350.0),
            ("donor.input_watts", "1.35 kW", 1350.0),
            ("donor.input_watts", "1,35 kW", 1350.0),
            ("core.tongue_mm", "1-3/8 in", 34.925),
            ("core.tongue_mm", "1 3/8\"", 34.925),
            ("core.tongue_mm", "35,125", 35.125),
            ("core.tongue_mm", "3.5cm", 35.0),
            ("core.primary.resistance_ohm", "360 mΩ", 0.36),
            ("core.primary.resistance_ohm", "360 mohm", 0.36),
            ("core.mass_kg", "5 lb", 2.267_961_85),
            ("core.mass_kg", "2400 g", 2.4),
            ("mains.volts", "230V", 230.0),
            ("conditions.ambient_c", "68 °F", 20.0),
            ("goal.duty", "20 %", 0.2),
        ] {
            let found = read(path, text).unwrap_or_else(|error| panic!("{text}: {error}"));
            assert!((found - value).abs() < 1e-9, "{text}: {found}, not {value}");
        }
    }

    /// Where both meanings of a comma lie in the range, neither is taken.
    #[test]
    fn a_comma_with_two_meanings_is_refused() {
        let error = read("conditions.capacitor_uf", "10,500").unwrap_err();
        assert!(error.to_string().contains("10.5 or 10500"), "{error}");
    }

    #[test]
    fn a_wrong_unit_is_told_with_the_right_ones() {
        let error = read("core.mass_kg", "5 mm").unwrap_err().to_string();
        assert!(error.contains("\"mm\"") && error.contains("kg, g, lb"), "{error}");
        assert!(read("core.mass_kg", "heavy").is_err());
    }

    /// A slip of a thousand is asked about, never taken by itself.
    #[test]
    fn a_slip_is_asked_about() {
        for (path, text, wanted) in [
            ("core.tongue_mm", "35100", Some("35.1 mm")),
            ("core.tongue_mm", "0.0351", Some("35.1 mm")),
            ("core.tongue_mm", "1.375", Some("34.925 mm")),
            ("core.primary.resistance_ohm", "360", Some("0.36 Ω")),
            ("mains.volts", "0.12", Some("120 V")),
            ("mains.volts", "-5", None),
            ("mains.hertz", "0.05", None),
        ] {
            let field = find(path).unwrap();
            let meant = probably_meant(field, text, LengthUnit::Millimetre);
            assert_eq!(meant.as_deref(), wanted, "{text}");
            assert!(matches!(read(path, text), Err(WorkspaceError::Range { .. })), "{text}");
            if let Some(meant) = meant {
                assert!(read(path, &meant).is_ok(), "what is offered can be entered: {meant}");
            }
        }
    }
}
