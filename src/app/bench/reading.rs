//! Readings as they are typed, amounts and bands as they are shown.

use super::{PRIMARY, SECOND_PRIMARY};
use crate::app::basis::Basis;
use crate::app::behaviour::heat::class_of;
use crate::bench::{Amount, Prediction, Reading, Stage, WarmRun};
use crate::job::JobFile;
use crate::magnetics::heat::network::HOT_SPOT;
use crate::quantity::{
    Current, Quantity, Ratio, Resistance, Temperature, TemperatureRise, Voltage, format_significant, parse_number,
};
use crate::text::{Arg, Texts};
use crate::wire::Metal;

/// What a prediction asks the person to type: the ids of the labels with their units.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadingForm {
    /// Label and unit of each number. A quantity of the expected value's kind has its unit.
    pub fields: Vec<(&'static str, &'static str)>,
    /// True where it is also asked whether the windings are in step.
    pub signed: bool,
}

/// Below this a hand-held meter with two leads reads its own leads: the four-wire way is asked
/// for, a known direct current and the millivolts at the winding. Common practice, no source.
pub const FOUR_WIRE_BELOW: Resistance = Resistance::from_si(1.0);

/// True where the winding's resistance is read by the four-wire way.
#[must_use]
pub fn four_wire(prediction: &Prediction) -> bool {
    prediction.stage == Stage::Continuity && prediction.value.si() < FOUR_WIRE_BELOW.si()
}

/// The form of a prediction.
#[must_use]
pub fn form_of(prediction: &Prediction) -> ReadingForm {
    let unit = unit_like(prediction.value).0;
    let fields = match prediction.stage {
        Stage::Continuity if four_wire(prediction) => vec![
            ("ui-read-test-amps", "A"),
            ("ui-read-drop", "mV"),
            ("ui-read-winding-at", "°C"),
        ],
        Stage::Continuity => vec![("ui-read-ohms", unit), ("ui-read-winding-at", "°C")],
        Stage::Insulation => vec![("ui-read-megohms", unit)],
        Stage::RatioPolarity => vec![("ui-read-fed", "V"), ("ui-read-other", "V")],
        Stage::PairPhasing => vec![
            ("ui-read-free-ends", "V"),
            ("ui-read-first-winding", "V"),
            ("ui-read-second-winding", "V"),
        ],
        Stage::Impedance | Stage::RatedCurrent => vec![("ui-read-over-coil", "V"), ("ui-read-through-coil", "A")],
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => vec![("ui-read-amps", unit)],
        Stage::Loaded => vec![("ui-read-volts", unit)],
        Stage::TemperatureRise => vec![
            ("ui-read-cold-ohms", "Ω"),
            ("ui-read-cold-at", "°C"),
            ("ui-read-hot-ohms", "Ω"),
            ("ui-read-air", "°C"),
            ("ui-read-run-amps", "A"),
        ],
        Stage::Prepare | Stage::Reassembly => Vec::new(),
    };
    ReadingForm {
        fields,
        signed: prediction.stage == Stage::RatioPolarity,
    }
}

/// The metal of a winding of the plan. A choke or a ballast is wound with copper.
#[must_use]
pub fn wound_metal(answer: &Basis, of: u8) -> Option<Metal> {
    match (&answer.design, &answer.goal) {
        (None, None) => Some(Metal::Copper),
        _ if of == PRIMARY => Some(answer.problem.rebuild.primary.metal),
        // Both cores are wound with the same conductor.
        _ if of == SECOND_PRIMARY => Some(answer.second.as_ref()?.problem.rebuild.primary.metal),
        (design, _) => Some(design.as_ref()?.candidate.winding.conductor.metal),
    }
}

/// Why what was typed is no reading.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum NoReading {
    /// A field is empty.
    Missing {
        /// The id of its label.
        field: &'static str,
        /// Its unit.
        unit: &'static str,
    },
    /// A field holds something that is not a number.
    Unreadable {
        /// The id of its label.
        field: &'static str,
        /// Its unit.
        unit: &'static str,
        /// What was typed.
        typed: String,
    },
    /// Something else is wrong: the id of the text that says what.
    Say(&'static str),
}

impl NoReading {
    /// What the person reads.
    #[must_use]
    pub fn told(&self, texts: &Texts) -> String {
        match self {
            NoReading::Missing { field, unit } => {
                let field = texts.text(field);
                texts.text_with(
                    "ui-reading-missing",
                    &[("field", Arg::Text(&field)), ("unit", Arg::Text(unit))],
                )
            }
            NoReading::Unreadable { field, unit, typed } => {
                let field = texts.text(field);
                texts.text_with(
                    "ui-reading-unreadable",
                    &[
                        ("field", Arg::Text(&field)),
                        ("unit", Arg::Text(unit)),
                        ("typed", Arg::Text(typed)),
                    ],
                )
            }
            NoReading::Say(text) => texts.text(text),
        }
    }
}

/// A reading out of what was typed, in the order of [`form_of`]; for ratio and polarity a third
/// text is `+` or `-`. "open" and "over" stand for more than the meter shows. A number may carry
/// its unit, as in `12.3 mΩ`.
///
/// # Errors
/// [`NoReading`] says what is missing or cannot be read.
pub fn reading_of(prediction: &Prediction, typed: &[String], metal: Option<Metal>) -> Result<Reading, NoReading> {
    let form = form_of(prediction);
    let text = |at: usize| typed.get(at).map_or("", |text| text.trim());
    // In the SI unit.
    let number = |at: usize| -> Result<f64, NoReading> {
        let Some(&(field, unit)) = form.fields.get(at) else {
            return Err(NoReading::Say("ui-reading-none"));
        };
        if text(at).is_empty() {
            return Err(NoReading::Missing { field, unit });
        }
        parse_with_unit(text(at), unit).ok_or_else(|| NoReading::Unreadable {
            field,
            unit,
            typed: text(at).chars().take(24).collect(),
        })
    };
    let above_zero = |at: usize, or: &'static str| {
        let value = number(at)?;
        if value > 0.0 {
            Ok(value)
        } else {
            Err(NoReading::Say(or))
        }
    };
    let metal = || metal.ok_or(NoReading::Say("ui-reading-metal"));
    Ok(match prediction.stage {
        Stage::Continuity if four_wire(prediction) => {
            let amps = above_zero(0, "ui-reading-amps-zero")?;
            Reading::Winding {
                resistance: Resistance::from_si(number(1)? / amps),
                at: Temperature::from_si(number(2)?),
                metal: metal()?,
            }
        }
        Stage::Continuity => Reading::Winding {
            resistance: Resistance::from_si(number(0)?),
            at: Temperature::from_si(number(1)?),
            metal: metal()?,
        },
        Stage::Insulation => Reading::Insulation(Resistance::from_si(number(0)?)),
        Stage::RatioPolarity => {
            let fed = above_zero(0, "ui-reading-fed-zero")?;
            let other = number(1)?;
            let sign = match text(2) {
                "+" => 1.0,
                "-" => -1.0,
                _ => return Err(NoReading::Say("ui-reading-in-step")),
            };
            Reading::Ratio(Ratio::from_si(sign * other.abs() / fed))
        }
        Stage::PairPhasing => {
            let between = number(0)?;
            let first = above_zero(1, "ui-reading-windings-zero")?;
            let second = above_zero(2, "ui-reading-windings-zero")?;
            Reading::Ratio(Ratio::from_si(between.abs() / (first + second)))
        }
        Stage::Impedance | Stage::RatedCurrent => Reading::Impedance {
            volts: Voltage::from_si(number(0)?),
            amps: Current::from_si(above_zero(1, "ui-reading-amps-zero")?),
        },
        Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Reading::Current(Current::from_si(number(0)?)),
        Stage::Loaded => Reading::Voltage(Voltage::from_si(number(0)?)),
        Stage::TemperatureRise => Reading::Warm(WarmRun {
            cold: Resistance::from_si(number(0)?),
            cold_at: Temperature::from_si(number(1)?),
            hot: Resistance::from_si(number(2)?),
            air: Temperature::from_si(number(3)?),
            current: Current::from_si(above_zero(4, "ui-reading-amps-zero")?),
            metal: metal()?,
        }),
        Stage::Prepare | Stage::Reassembly => return Err(NoReading::Say("ui-reading-none")),
    })
}

/// The reading that was probably meant, where one lies outside its band and a thousand times or a
/// thousandth of it lies inside: a slip between milli and whole units. To be asked about, never
/// taken unasked.
#[must_use]
pub fn slip(prediction: &Prediction, reading: Reading) -> Option<Reading> {
    prediction.outside(reading.amount())?;
    [1e-3, 1e3]
        .into_iter()
        .map(|factor| scaled(reading, factor))
        .find(|meant| *meant != reading && near(prediction, meant.amount()))
}

/// Within twice the band about the expected value: whoever slipped by a thousand may also have a
/// reading outside the band.
fn near(prediction: &Prediction, amount: Amount) -> bool {
    let (low, high, si) = (prediction.low.si(), prediction.high.si(), amount.si());
    si >= low / 2.0 && si <= high * 2.0
}

fn scaled(reading: Reading, factor: f64) -> Reading {
    fn times<Q: Quantity>(value: Q, factor: f64) -> Q {
        Q::from_si(value.si() * factor)
    }
    match reading {
        Reading::Winding { resistance, at, metal } => Reading::Winding {
            resistance: times(resistance, factor),
            at,
            metal,
        },
        Reading::Insulation(value) => Reading::Insulation(times(value, factor)),
        Reading::Current(value) => Reading::Current(times(value, factor)),
        Reading::Voltage(value) => Reading::Voltage(times(value, factor)),
        Reading::Impedance { volts, amps } => Reading::Impedance {
            volts: times(volts, factor),
            amps,
        },
        // The rise follows from the ratio of the two: it is the hot one that is asked about.
        Reading::Warm(run) => Reading::Warm(WarmRun {
            hot: times(run.hot, factor),
            ..run
        }),
        Reading::Ratio(_) => reading,
    }
}

/// The current that a measured rise permits at the same duty cycle, and the rise that the
/// winding's insulation allows: the class's temperature less the air of the room and the most that the
/// hottest place may lie above the mean.
#[must_use]
pub fn permitted(file: &JobFile, reading: Reading) -> Option<(Current, TemperatureRise)> {
    let Reading::Warm(run) = reading else { return None };
    let allowance = HOT_SPOT.value + HOT_SPOT.plus_minus;
    let rise = class_of(file.conditions.insulation).limit().above(run.air) - allowance;
    Some((run.permitted_current(rise)?, rise))
}

/// A number that may carry its unit; a bare one counts in `unit`. In the SI unit; "open" and
/// "over" are infinite.
fn parse_with_unit(text: &str, unit: &str) -> Option<f64> {
    const OHMS: &[(&str, f64)] = &[
        ("mΩ", 1e-3),
        ("mohm", 1e-3),
        ("kΩ", 1e3),
        ("kohm", 1e3),
        ("MΩ", 1e6),
        ("Mohm", 1e6),
        ("GΩ", 1e9),
        ("Ω", 1.0),
        ("ohm", 1.0),
    ];
    const AMPERES: &[(&str, f64)] = &[("mA", 1e-3), ("kA", 1e3), ("A", 1.0)];
    const VOLTS: &[(&str, f64)] = &[("mV", 1e-3), ("V", 1.0)];
    if matches!(text.to_lowercase().as_str(), "open" | "over" | "ol") {
        return Some(f64::INFINITY);
    }
    let symbols = match unit {
        "mΩ" | "Ω" | "MΩ" => OHMS,
        "mA" | "A" => AMPERES,
        "mV" | "V" => VOLTS,
        _ => &[("°C", 1.0), ("C", 1.0)],
    };
    let own = symbols
        .iter()
        .find_map(|(symbol, scale)| (*symbol == unit).then_some(*scale))
        .unwrap_or(1.0);
    let (number, scale) = symbols
        .iter()
        .find_map(|(symbol, scale)| Some((text.strip_suffix(symbol)?.trim(), *scale)))
        .unwrap_or((text, own));
    Some(parse_number(number).ok()? * scale)
}

/// The unit that an amount is shown and typed in, and how many of the SI unit one of it is.
const fn unit_like(amount: Amount) -> (&'static str, f64) {
    let si = amount.si().abs();
    match amount {
        Amount::Resistance(_) if si < 1.0 => ("mΩ", 1e-3),
        Amount::Resistance(_) if si >= 1e6 => ("MΩ", 1e6),
        Amount::Resistance(_) => ("Ω", 1.0),
        Amount::Ratio(_) => ("", 1.0),
        Amount::Current(_) if si < 1.0 => ("mA", 1e-3),
        Amount::Current(_) => ("A", 1.0),
        Amount::Voltage(_) => ("V", 1.0),
        Amount::Rise(_) => ("°C", 1.0),
    }
}

/// An amount as a person reads it.
#[must_use]
pub fn amount_text(amount: Amount, texts: &Texts) -> String {
    amount_like(amount, amount, texts)
}

/// An amount in the unit in which another of its kind is shown, so that a band and what is read
/// stand in one unit.
#[must_use]
pub fn amount_like(amount: Amount, other: Amount, texts: &Texts) -> String {
    if amount.si().is_infinite() {
        return texts.text("ui-amount-open");
    }
    let (unit, scale) = unit_like(if other.si().is_finite() { other } else { amount });
    let value = amount.si() / scale;
    let digits = if value == 0.0 {
        0
    } else {
        (2 - value.abs().log10().floor() as i32).clamp(0, 4) as usize
    };
    format!("{value:.digits$} {unit}").trim_end().to_owned()
}

/// The band of a prediction as a person reads it, in the unit of its expected value.
#[must_use]
pub fn band_text(prediction: &Prediction, texts: &Texts) -> String {
    let told = |amount| amount_like(amount, prediction.value, texts);
    if prediction.high.si().is_infinite() {
        return texts.text_with("ui-band-least", &[("low", Arg::Text(&told(prediction.low)))]);
    }
    let (low, high) = (told(prediction.low), told(prediction.high));
    texts.text_with("ui-band", &[("low", Arg::Text(&low)), ("high", Arg::Text(&high))])
}

/// What a measured rise permits, as a person reads it.
#[must_use]
pub fn permitted_text(file: &JobFile, reading: Reading, texts: &Texts) -> Option<String> {
    let (current, limit) = permitted(file, reading)?;
    let (amps, limit) = (format_significant(current.si(), 3), format!("{:.0}", limit.si()));
    Some(texts.text_with(
        "ui-permitted",
        &[("amps", Arg::Text(&amps)), ("limit", Arg::Text(&limit))],
    ))
}
