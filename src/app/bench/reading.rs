//! Readings as they are typed, amounts and bands as they are shown.

use super::PRIMARY;
use crate::app::basis::Basis;
use crate::bench::{Amount, Prediction, Reading, Stage, WarmRun};
use crate::quantity::{Current, Ratio, Resistance, Temperature, Voltage, parse_number};
use crate::text::{Arg, Texts};
use crate::wire::Metal;

/// What a stage asks the person to type: the ids of the labels with their units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReadingForm {
    /// Label and unit of each number.
    pub fields: &'static [(&'static str, &'static str)],
    /// True where it is also asked whether the windings are in step.
    pub signed: bool,
}

/// The form of a stage.
#[must_use]
pub const fn form_of(stage: Stage) -> ReadingForm {
    let (fields, signed): (&'static [(&'static str, &'static str)], bool) = match stage {
        Stage::Continuity => (&[("ui-read-ohms", "Ω"), ("ui-read-winding-at", "°C")], false),
        Stage::Insulation => (&[("ui-read-megohms", "MΩ")], false),
        Stage::RatioPolarity => (&[("ui-read-fed", "V"), ("ui-read-other", "V")], true),
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => (&[("ui-read-amps", "A")], false),
        Stage::Loaded => (&[("ui-read-volts", "V")], false),
        Stage::TemperatureRise => (
            &[
                ("ui-read-cold-ohms", "Ω"),
                ("ui-read-cold-at", "°C"),
                ("ui-read-hot-ohms", "Ω"),
                ("ui-read-air", "°C"),
            ],
            false,
        ),
        Stage::Prepare | Stage::Reassembly => (&[], false),
    };
    ReadingForm { fields, signed }
}

/// The metal of a winding of the plan.
#[must_use]
pub fn wound_metal(answer: &Basis, of: u8) -> Option<Metal> {
    if of == PRIMARY {
        Some(answer.problem.rebuild.primary.metal)
    } else {
        Some(answer.design.as_ref()?.candidate.winding.conductor.metal)
    }
}

/// Why what was typed is no reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoReading {
    /// The id of the text that says what to give.
    pub text: &'static str,
    /// The unit that it is asked in, where the text names one.
    pub unit: &'static str,
}

/// A reading out of what was typed, in the order of [`form_of`]; for ratio and polarity a third
/// text is `+` or `-`. "open" and "over" stand for more than the meter shows. A resistance may
/// carry its unit, as in `12.3 mΩ`.
///
/// # Errors
/// [`NoReading`] says what is missing.
pub fn reading_of(stage: Stage, typed: &[String], metal: Option<Metal>) -> Result<Reading, NoReading> {
    let text = |at: usize| typed.get(at).map_or("", |text| text.trim());
    let missing = |text: &'static str| NoReading { text, unit: "" };
    let number = |at: usize| -> Result<f64, NoReading> {
        let unit = form_of(stage).fields.get(at).map_or("", |(_, unit)| *unit);
        let text_id = match (stage, at) {
            (Stage::RatioPolarity, 0) => "ui-reading-fed",
            (Stage::RatioPolarity, _) => "ui-reading-other",
            _ => "ui-reading-number",
        };
        parse_with_unit(text(at), unit).ok_or(NoReading { text: text_id, unit })
    };
    let metal = || metal.ok_or(missing("ui-reading-metal"));
    Ok(match stage {
        Stage::Continuity => Reading::Winding {
            resistance: Resistance::from_si(number(0)?),
            at: Temperature::from_si(number(1)?),
            metal: metal()?,
        },
        Stage::Insulation => Reading::Insulation(Resistance::from_si(number(0)? * 1e6)),
        Stage::RatioPolarity => {
            let (fed, other) = (number(0)?, number(1)?);
            if fed <= 0.0 {
                return Err(missing("ui-reading-fed-zero"));
            }
            let sign = match text(2) {
                "+" => 1.0,
                "-" => -1.0,
                _ => return Err(missing("ui-reading-in-step")),
            };
            Reading::Ratio(Ratio::from_si(sign * other.abs() / fed))
        }
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Reading::Current(Current::from_si(number(0)?)),
        Stage::Loaded => Reading::Voltage(Voltage::from_si(number(0)?)),
        Stage::TemperatureRise => Reading::Warm(WarmRun {
            cold: Resistance::from_si(number(0)?),
            cold_at: Temperature::from_si(number(1)?),
            hot: Resistance::from_si(number(2)?),
            air: Temperature::from_si(number(3)?),
            metal: metal()?,
        }),
        Stage::Prepare | Stage::Reassembly => return Err(missing("ui-reading-none")),
    })
}

/// A number that may carry its unit, in the base `unit`; "open" and "over" are infinite.
fn parse_with_unit(text: &str, unit: &str) -> Option<f64> {
    if matches!(text.to_lowercase().as_str(), "open" | "over" | "ol") {
        return Some(f64::INFINITY);
    }
    let scales: &[(&str, f64)] = match unit {
        "Ω" => &[
            ("mΩ", 1e-3),
            ("mohm", 1e-3),
            ("kΩ", 1e3),
            ("kohm", 1e3),
            ("Ω", 1.0),
            ("ohm", 1.0),
        ],
        "MΩ" => &[("GΩ", 1e3), ("MΩ", 1.0), ("kΩ", 1e-3)],
        "A" => &[("mA", 1e-3), ("A", 1.0)],
        "V" => &[("mV", 1e-3), ("V", 1.0)],
        _ => &[("°C", 1.0), ("C", 1.0)],
    };
    let (number, scale) = scales
        .iter()
        .find_map(|(symbol, scale)| Some((text.strip_suffix(symbol)?.trim(), *scale)))
        .unwrap_or((text, 1.0));
    Some(parse_number(number).ok()? * scale)
}

/// An amount as a person reads it.
#[must_use]
pub fn amount_text(amount: Amount, texts: &Texts) -> String {
    let si = amount.si();
    if si.is_infinite() {
        return texts.text("ui-amount-open");
    }
    let three = |value: f64, unit: &str| {
        let digits = if value == 0.0 {
            0
        } else {
            (2 - value.abs().log10().floor() as i32).clamp(0, 4) as usize
        };
        format!("{value:.digits$} {unit}").trim_end().to_owned()
    };
    match amount {
        Amount::Resistance(_) if si.abs() < 1.0 => three(si * 1e3, "mΩ"),
        Amount::Resistance(_) if si.abs() >= 1e6 => three(si / 1e6, "MΩ"),
        Amount::Resistance(_) => three(si, "Ω"),
        Amount::Ratio(_) => three(si, ""),
        Amount::Current(_) if si.abs() < 1.0 => three(si * 1e3, "mA"),
        Amount::Current(_) => three(si, "A"),
        Amount::Voltage(_) => three(si, "V"),
        Amount::Rise(_) => three(si, "K"),
    }
}

/// The band of a prediction as a person reads it.
#[must_use]
pub fn band_text(prediction: &Prediction, texts: &Texts) -> String {
    if prediction.high.si().is_infinite() {
        let low = amount_text(prediction.low, texts);
        return texts.text_with("ui-band-least", &[("low", Arg::Text(&low))]);
    }
    let (low, high) = (amount_text(prediction.low, texts), amount_text(prediction.high, texts));
    texts.text_with("ui-band", &[("low", Arg::Text(&low)), ("high", Arg::Text(&high))])
}
