//! Numbers as people write and read them.

use super::units::Length;
use crate::words::{Explain, Message};

/// What is wrong with a number that was typed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum NumberError {
    /// Nothing was typed.
    #[error("nothing entered")]
    Empty,
    /// It does not read as a number.
    #[error("\"{0}\" is not a number; write it like 12.5 or 2 1/2")]
    NotANumber(String),
    /// The unit behind the number is none of those known here.
    #[error("\"{0}\" is not a unit known here; use mm, cm, m, in or ft")]
    UnknownUnit(String),
}

/// The unit that a length is read and shown in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum LengthUnit {
    /// Millimetres.
    #[default]
    Millimetre,
    /// Inches, decimal.
    Inch,
}

impl LengthUnit {
    /// Symbol behind the number.
    #[must_use]
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::Millimetre => "mm",
            Self::Inch => "in",
        }
    }
    /// How many of this unit a length is.
    #[must_use]
    pub const fn count(self, length: Length) -> f64 {
        match self {
            Self::Millimetre => length.mm(),
            Self::Inch => length.inches(),
        }
    }
    /// A length of so many of this unit.
    #[must_use]
    pub const fn length(self, count: f64) -> Length {
        match self {
            Self::Millimetre => Length::from_mm(count),
            Self::Inch => Length::from_inches(count),
        }
    }
}

/// Reads a plain number: decimal point or comma, a fraction, a whole number and a fraction.
///
/// # Errors
/// [`NumberError::Empty`] for blank text, [`NumberError::NotANumber`] for anything else that
/// is not a finite number.
///
/// ```
/// use curbcore::quantity::parse_number;
/// assert_eq!(parse_number("12,5"), Ok(12.5));
/// assert_eq!(parse_number("2 1/2"), Ok(2.5));
/// assert!(parse_number("12.5.1").is_err());
/// ```
pub fn parse_number(text: &str) -> Result<f64, NumberError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(NumberError::Empty);
    }
    let wrong = || NumberError::NotANumber(trimmed.chars().take(40).collect());
    let decimal = |part: &str| -> Result<f64, NumberError> {
        let ok = part
            .chars()
            .all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '+' | 'e' | 'E'));
        // A comma is a decimal mark; "1,234.5" would be ambiguous and is refused.
        if !ok || part.matches([',', '.']).count() > 1 {
            return Err(wrong());
        }
        part.replace(',', ".")
            .parse::<f64>()
            .ok()
            .filter(|v| v.is_finite())
            .ok_or_else(wrong)
    };
    let mut total = 0.0;
    let mut parts = trimmed.split_whitespace();
    let (first, second) = (parts.next().unwrap_or(""), parts.next());
    if parts.next().is_some() {
        return Err(wrong());
    }
    let fraction = |part: &str| -> Result<f64, NumberError> {
        let (top, bottom) = part.split_once('/').ok_or_else(wrong)?;
        let value = decimal(top)? / decimal(bottom)?;
        if value.is_finite() { Ok(value) } else { Err(wrong()) }
    };
    match second {
        Some(part) => {
            let whole = decimal(first)?;
            let rest = fraction(part)?;
            total += if whole < 0.0 { whole - rest } else { whole + rest };
        }
        None if first.contains('/') => total = fraction(first)?,
        None => total = decimal(first)?,
    }
    Ok(total)
}

/// Reads a length: a number in `unit`, or with its own unit behind it (mm, cm, m, in, ", ft, ').
///
/// # Errors
/// As [`parse_number`], and [`NumberError::UnknownUnit`] for a unit that is not a length.
///
/// ```
/// use curbcore::quantity::{LengthUnit, parse_length};
/// let tongue = parse_length("1 1/4\"", LengthUnit::Millimetre).unwrap();
/// assert!((tongue.mm() - 31.75).abs() < 1e-12);
/// ```
pub fn parse_length(text: &str, unit: LengthUnit) -> Result<Length, NumberError> {
    let trimmed = text.trim();
    let split = trimmed
        .char_indices()
        .find(|(_, c)| (c.is_alphabetic() && !matches!(c, 'e' | 'E')) || matches!(c, '"' | '\'' | '″' | '′'))
        .map_or(trimmed.len(), |(at, _)| at);
    let (number, suffix) = trimmed.split_at(split);
    if number.trim().is_empty() && !suffix.is_empty() {
        return Err(NumberError::NotANumber(trimmed.chars().take(40).collect()));
    }
    let value = parse_number(number)?;
    Ok(match suffix.trim() {
        "" => unit.length(value),
        "mm" => Length::from_mm(value),
        "cm" => Length::from_mm(value * 10.0),
        "m" => Length::from_si(value),
        "in" | "inch" | "inches" | "\"" | "″" => Length::from_inches(value),
        "ft" | "'" | "′" => Length::from_inches(value * 12.0),
        other => return Err(NumberError::UnknownUnit(other.chars().take(20).collect())),
    })
}

/// Writes a number with `digits` significant digits, without an exponent and without
/// meaningless zeros in front of the point.
#[must_use]
pub fn format_significant(value: f64, digits: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    let magnitude = value.abs().log10().floor() as i32;
    let decimals = (digits as i32 - 1 - magnitude).max(0) as usize;
    let text = format!("{value:.decimals$}");
    // Rounding may have carried into a new digit (9.996 → 10.00).
    let carried = text
        .trim_start_matches('-')
        .parse::<f64>()
        .is_ok_and(|v| v > 0.0 && v.log10().floor() as i32 > magnitude);
    if carried && decimals > 0 {
        format!("{value:.*}", decimals - 1)
    } else {
        text
    }
}

/// Writes value and half-width so that the last digit of both stands at the same place and the
/// half-width has two significant digits (JCGM 100:2008, 7.2.6). Returns both texts.
#[must_use]
pub fn format_with_spread(value: f64, plus_minus: f64) -> (String, String) {
    if !(plus_minus.is_finite() && plus_minus > 0.0 && value.is_finite()) {
        return (format_significant(value, 4), String::new());
    }
    let magnitude = plus_minus.abs().log10().floor() as i32;
    let decimals = (1 - magnitude).clamp(0, 9) as usize;
    (format!("{value:.decimals$}"), format!("{plus_minus:.decimals$}"))
}

impl Explain for NumberError {
    fn message(&self) -> Message {
        match self {
            NumberError::Empty => Message::new("refused-number-empty"),
            NumberError::NotANumber(text) => Message::new("refused-number").with("text", text),
            NumberError::UnknownUnit(text) => Message::new("refused-unit").with("text", text),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_as_people_write_them() {
        for (text, expected) in [
            ("12.5", 12.5),
            ("12,5", 12.5),
            (" 7 ", 7.0),
            ("1/8", 0.125),
            ("2 1/2", 2.5),
            ("-3", -3.0),
            ("1e-3", 1e-3),
        ] {
            assert_eq!(parse_number(text), Ok(expected), "{text}");
        }
        for text in [
            "", "  ", "abc", "1..2", "1,234.5", "1/0", "1 2", "1 2 3", "NaN", "inf", "--1", "1e999",
        ] {
            assert!(parse_number(text).is_err(), "{text} should be refused");
        }
    }

    #[test]
    fn lengths_carry_their_unit() {
        for (text, mm) in [
            ("31.75", 31.75),
            ("1 1/4 in", 31.75),
            ("1.25\"", 31.75),
            ("3.175 cm", 31.75),
            ("0.03175 m", 31.75),
        ] {
            let got = parse_length(text, LengthUnit::Millimetre).unwrap();
            assert!((got.mm() - mm).abs() < 1e-9, "{text} gave {} mm", got.mm());
        }
        assert!((parse_length("1.25", LengthUnit::Inch).unwrap().mm() - 31.75).abs() < 1e-9);
        assert!(matches!(
            parse_length("5 kg", LengthUnit::Inch),
            Err(NumberError::UnknownUnit(_))
        ));
    }

    #[test]
    fn a_word_is_not_an_empty_entry() {
        assert_eq!(
            parse_length("wide", LengthUnit::Inch),
            Err(NumberError::NotANumber("wide".to_owned()))
        );
        assert_eq!(parse_length(" ", LengthUnit::Inch), Err(NumberError::Empty));
    }

    #[test]
    fn digits() {
        assert_eq!(format_significant(9.996, 3), "10.0");
        assert_eq!(format_significant(123.456, 3), "123");
        assert_eq!(format_significant(0.012_345, 3), "0.0123");
        assert_eq!(
            format_with_spread(22.4167, 0.4321),
            ("22.42".to_owned(), "0.43".to_owned())
        );
        assert_eq!(format_with_spread(1234.5, 56.0), ("1234".to_owned(), "56".to_owned()));
    }
}
