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
    /// The unit behind the number is none that such a number has.
    #[error("\"{shown}\" is no unit of this number; use {accepted}")]
    WrongUnit {
        /// What was typed.
        shown: String,
        /// The units that are read here.
        accepted: String,
    },
    /// A comma before three digits: it may separate decimals or thousands.
    #[error("\"{shown}\" can mean {decimal} or {thousands}; write one of them")]
    Ambiguous {
        /// What was typed.
        shown: String,
        /// With the comma as the decimal mark.
        decimal: f64,
        /// With the comma between thousands.
        thousands: f64,
    },
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

/// Reads a plain number: decimal point or comma, thousands in groups of three, a fraction, a whole number and a
/// fraction.
///
/// # Errors
/// [`NumberError::Empty`] for blank text, [`NumberError::Ambiguous`] for a single comma before three digits, as
/// in `1,350`, [`NumberError::NotANumber`] for anything else that is not a finite number.
///
/// ```
/// use curbcore::quantity::parse_number;
/// assert_eq!(parse_number("12,5"), Ok(12.5));
/// assert_eq!(parse_number("1 350"), Ok(1350.0));
/// assert_eq!(parse_number("1-3/8"), Ok(1.375));
/// assert!(parse_number("1,350").is_err());
/// assert!(parse_number("12.5.1").is_err());
/// ```
pub fn parse_number(text: &str) -> Result<f64, NumberError> {
    let trimmed = text.trim();
    if trimmed.is_empty() {
        return Err(NumberError::Empty);
    }
    let shown = || trimmed.chars().take(40).collect::<String>();
    let wrong = || NumberError::NotANumber(shown());
    let (sign, digits) = match trimmed.strip_prefix('-') {
        Some(rest) => (-1.0, rest),
        None => (1.0, trimmed.strip_prefix('+').unwrap_or(trimmed)),
    };
    let words: Vec<&str> = digits.split_whitespace().collect();
    // A fraction stands last, behind a space or a hyphen.
    let (whole, fraction) = match words.split_last() {
        Some((last, before)) if last.contains('/') => match last.split_once(['-', '–']) {
            Some((whole, fraction)) if before.is_empty() => (vec![whole], Some(fraction)),
            Some(_) => return Err(wrong()),
            None => (before.to_vec(), Some(*last)),
        },
        _ => (words, None),
    };
    if whole.is_empty() && fraction.is_none() {
        return Err(wrong());
    }
    let mut total = 0.0;
    if !whole.is_empty() {
        total += match grouped(&whole).ok_or_else(wrong)? {
            Grouped::Number(value) => value,
            Grouped::Either { decimal, thousands } => {
                return Err(NumberError::Ambiguous {
                    shown: shown(),
                    decimal: sign * decimal,
                    thousands: sign * thousands,
                });
            }
        };
    }
    if let Some((top, bottom)) = fraction.and_then(|fraction| fraction.split_once('/')) {
        total += decimal(top).ok_or_else(wrong)? / decimal(bottom).ok_or_else(wrong)?;
    }
    if total.is_finite() {
        Ok(sign * total)
    } else {
        Err(wrong())
    }
}

/// A number whose digits may stand in groups.
enum Grouped {
    Number(f64),
    Either { decimal: f64, thousands: f64 },
}

/// Digits in one word, or in groups of three with spaces or commas between them.
fn grouped(words: &[&str]) -> Option<Grouped> {
    let groups: Vec<&str> = match words {
        [one] => {
            let (whole, rest) = one.split_once('.').map_or((*one, None), |(w, r)| (w, Some(r)));
            match whole.matches(',').count() {
                0 => return decimal(one).map(Grouped::Number),
                // A point behind commas, or several commas: thousands.
                count if rest.is_some() || count > 1 => whole.split(',').collect(),
                _ => {
                    // A comma before points: the points stand between thousands.
                    let (before, after) = one.split_once(',')?;
                    let decimal = decimal(&format!("{before}.{after}"))?;
                    let grouped = is_group(after) && is_first_group(before);
                    let thousands = grouped.then(|| digits(&format!("{before}{after}"))).flatten();
                    return Some(thousands.map_or(Grouped::Number(decimal), |thousands| Grouped::Either {
                        decimal,
                        thousands,
                    }));
                }
            }
        }
        many => many.to_vec(),
    };
    let (first, rest) = groups.split_first()?;
    let (last, middle) = rest.split_last()?;
    let last = match words {
        // The decimals were cut off above.
        [one] => one.rsplit(',').next()?,
        _ => last,
    };
    let (last_whole, decimals) = last.split_once(['.', ',']).map_or((last, ""), |(w, d)| (w, d));
    let fine = is_first_group(first)
        && middle.iter().all(|group| is_group(group))
        && is_group(last_whole)
        && decimals.chars().all(|c| c.is_ascii_digit());
    let joined = format!("{first}{}{last_whole}.{decimals}0", middle.concat());
    fine.then(|| joined.parse().ok().map(Grouped::Number))?
}

fn is_group(text: &str) -> bool {
    text.len() == 3 && text.chars().all(|c| c.is_ascii_digit())
}

/// One to three digits, the first no zero.
fn is_first_group(text: &str) -> bool {
    (1..=3).contains(&text.len()) && !text.starts_with('0') && text.chars().all(|c| c.is_ascii_digit())
}

fn digits(text: &str) -> Option<f64> {
    text.parse().ok()
}

/// A number with a point or a comma, without groups.
fn decimal(text: &str) -> Option<f64> {
    let exponent = |c: char| matches!(c, 'e' | 'E');
    let mantissa = text.split(exponent).next()?;
    let ok = text
        .chars()
        .all(|c| c.is_ascii_digit() || exponent(c) || matches!(c, '.' | ',' | '-' | '+'))
        && !mantissa.contains(['-', '+']);
    let value: f64 = text.replace(',', ".").parse().ok().filter(|_| ok)?;
    value.is_finite().then_some(value)
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
    let (number, suffix) = number_and_unit(text)?;
    let value = parse_number(number)?;
    Ok(match suffix {
        "" => unit.length(value),
        "mm" => Length::from_mm(value),
        "cm" => Length::from_mm(value * 10.0),
        "m" => Length::from_si(value),
        "in" | "inch" | "inches" | "\"" | "″" => Length::from_inches(value),
        "ft" | "'" | "′" => Length::from_inches(value * 12.0),
        other => return Err(NumberError::UnknownUnit(other.chars().take(20).collect())),
    })
}

/// A typed number and the unit behind it, each without the spaces around it.
///
/// # Errors
/// [`NumberError::NotANumber`] where a word stands without a number.
pub fn number_and_unit(text: &str) -> Result<(&str, &str), NumberError> {
    let trimmed = text.trim();
    let marks = |c: char| matches!(c, '"' | '\'' | '″' | '′' | '°' | '%');
    // An exponent is part of the number.
    let exponent = |at: usize| {
        let mut before = trimmed[..at].chars().rev();
        let mut after = trimmed[at + 1..].chars();
        before.next().is_some_and(|c| c.is_ascii_digit())
            && after
                .next()
                .is_some_and(|c| c.is_ascii_digit() || matches!(c, '-' | '+'))
    };
    let split = trimmed
        .char_indices()
        .find(|&(at, c)| marks(c) || (c.is_alphabetic() && !(matches!(c, 'e' | 'E') && exponent(at))))
        .map_or(trimmed.len(), |(at, _)| at);
    let (number, suffix) = trimmed.split_at(split);
    if number.trim().is_empty() && !suffix.is_empty() {
        return Err(NumberError::NotANumber(trimmed.chars().take(40).collect()));
    }
    Ok((number.trim(), suffix.trim()))
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
            NumberError::WrongUnit { shown, accepted } => Message::new("refused-unit-of")
                .with("text", shown)
                .with("accepted", accepted),
            NumberError::Ambiguous {
                shown,
                decimal,
                thousands,
            } => Message::new("refused-number-comma")
                .with("text", shown)
                .with("decimal", decimal)
                .with("thousands", thousands),
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
            ("1 350", 1350.0),
            ("1\u{202f}350", 1350.0),
            ("1 234 567.5", 1_234_567.5),
            ("1,234,567", 1_234_567.0),
            ("1,234.5", 1234.5),
            ("1 234,5", 1234.5),
            ("0,350", 0.35),
            ("1,3500", 1.35),
            ("1-3/8", 1.375),
            ("-1 3/8", -1.375),
            ("1.350", 1.35),
        ] {
            assert_eq!(parse_number(text), Ok(expected), "{text}");
        }
        for text in [
            "", "  ", "abc", "1..2", "1,23.5", "1/0", "1 2", "1 2 3", "NaN", "inf", "--1", "1e999", "12 3456", "0 350",
            "1-2", "1 -3/8", "1,350,", "1-3/8/2", "-",
        ] {
            assert!(parse_number(text).is_err(), "{text} should be refused");
        }
    }

    /// A comma before three digits is never guessed at here: 1,350 V on a capacitor is not 1.35 V.
    #[test]
    fn a_comma_before_three_digits_is_asked_about() {
        for (text, first, second) in [("1,350", 1.35, 1350.0), ("-12,500", -12.5, -12_500.0)] {
            let NumberError::Ambiguous { decimal, thousands, .. } = parse_number(text).unwrap_err() else {
                panic!("{text}");
            };
            assert_eq!((decimal, thousands), (first, second), "{text}");
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
