//! The staged tests of a job: what its design predicts, and the runs that prove it.

use serde_json::{Value, json};

use super::answer::{Answer, Design};
use super::behaviour::heat;
use super::shop::{Shop, ShopError};
use super::translate;
use crate::bench::{self, Amount, Bench, Event, Plan, Prediction, Reading, Stage, WarmRun};
use crate::job::{JobFile, JobId};
use crate::magnetics::idle::Idle;
use crate::magnetics::series_lamp::SeriesLamp;
use crate::quantity::{
    Current, Measured, Origin, Power, Quantity, Ratio, Resistance, Temperature, Voltage, parse_number,
};
use crate::rewind::goal::Goal;
use crate::safety::Moment;
use crate::store::BenchRun;
use crate::text::{Arg, Texts};
use crate::wire::Metal;

/// Winding 0 of a plan.
pub const PRIMARY: u8 = 0;
/// Winding 1 of a plan.
pub const NEW_WINDING: u8 = 1;

/// The lamp of the first mains test: 100 W at the mains' voltage (common practice, no source).
#[must_use]
pub fn lamp_for(mains: Voltage) -> SeriesLamp {
    SeriesLamp {
        volts: mains,
        watts: Power::from_si(100.0),
    }
}

/// Least insulation resistance of the mains side to the core: 2.5 MΩ, and of the new winding to
/// everything else: 5 MΩ (IEC 60974-4, in-service inspection; from memory).
const INSULATION: [(u8, f64); 2] = [(PRIMARY, 2.5e6), (NEW_WINDING, 5e6)];

/// Half-width that a home meter adds to any prediction: 2 % (common practice, no source).
const METER: f64 = 0.02;

/// Half-width of a lamp's current: 10 % (common practice, no source).
const LAMP: f64 = 0.10;

/// What the tests should find.
///
/// # Errors
/// A sentence for the person where a number is missing.
pub fn plan(file: &JobFile, answer: &Answer, design: &Design) -> Result<Plan, String> {
    let estimate = &design.estimate;
    let mut predictions = vec![
        band(
            Stage::Continuity,
            PRIMARY,
            primary_resistance(answer),
            Amount::Resistance,
        ),
        band(
            Stage::Continuity,
            NEW_WINDING,
            measured(estimate.cold_resistance),
            Amount::Resistance,
        ),
        band(Stage::RatioPolarity, NEW_WINDING, ratio(answer, design), Amount::Ratio),
        band(
            Stage::MainsIdle,
            PRIMARY,
            answer.problem.rebuild.idle_current,
            Amount::Current,
        ),
    ];
    for (of, least) in INSULATION {
        let least = Amount::Resistance(Resistance::from_si(least));
        predictions.push(Prediction {
            stage: Stage::Insulation,
            of,
            value: least,
            low: least,
            high: Amount::Resistance(Resistance::from_si(f64::INFINITY)),
        });
    }
    let lamp = lamp_current(file, answer).ok_or("The idle current cannot be worked out; measure the core first.")?;
    predictions.push(band(Stage::LampIdle, PRIMARY, lamp, Amount::Current));
    predictions.push(match answer.goal {
        // Hundreds of amperes last for one weld: it is the short-circuit test.
        Some(Goal::SpotWelder { .. }) => band(
            Stage::ShortCircuit,
            NEW_WINDING,
            measured(estimate.working_current),
            Amount::Current,
        ),
        _ => band(
            Stage::Loaded,
            NEW_WINDING,
            measured(estimate.working_voltage),
            Amount::Voltage,
        ),
    });
    if let Some([primary, winding]) = heat::rise_after_run(file, answer, design) {
        predictions.push(band(Stage::TemperatureRise, PRIMARY, measured(primary), Amount::Rise));
        // A bench meter cannot tell a few kelvins from a change of less.
        if estimate.cold_resistance.value >= READABLE {
            predictions.push(band(
                Stage::TemperatureRise,
                NEW_WINDING,
                measured(winding),
                Amount::Rise,
            ));
        }
    }
    Plan::new(predictions).map_err(|error| format!("No tests can be planned: {error}."))
}

/// The least resistance whose change with temperature a bench meter reads: 0.1 Ω. Common
/// practice, no source.
const READABLE: Resistance = Resistance::from_si(0.1);

fn measured<Q: Quantity>(estimate: crate::quantity::Estimate<Q>) -> Measured<Q> {
    Measured::new(estimate.value, estimate.plus_minus, Origin::Computed)
}

/// A prediction with its band: the number's own half-width and the meter's, added as independent.
fn band<Q: Quantity>(stage: Stage, of: u8, predicted: Measured<Q>, amount: impl Fn(Q) -> Amount) -> Prediction {
    let value = predicted.value.si();
    let half = predicted.plus_minus.si().hypot(value * METER);
    let at = |si: f64| amount(Q::from_si(si));
    Prediction {
        stage,
        of,
        value: at(value),
        low: at((value - half).max(0.0)),
        high: at(value + half),
    }
}

/// The primary at 20 °C: as measured, else from turns, mean turn and wire.
fn primary_resistance(answer: &Answer) -> Measured<Resistance> {
    let rebuild = &answer.problem.rebuild;
    let primary = &rebuild.primary;
    let mean_turn = rebuild.core.turn_length(primary.build.value / 2.0);
    let cold = primary.resistance_at(mean_turn, Temperature::from_si(20.0));
    let relative = match &primary.resistance {
        Some((measured, _)) => measured.plus_minus.si() / measured.value.si(),
        None => {
            let turns = primary.turns.plus_minus.si() / primary.turns.value.si();
            // The section goes as the square of the diameter.
            let wire = 2.0 * primary.wire_diameter.plus_minus.si() / primary.wire_diameter.value.si();
            turns.hypot(wire)
        }
    };
    Measured::new(cold, cold * relative, Origin::Computed)
}

/// New turns over primary turns: the primary is fed, the new winding read.
fn ratio(answer: &Answer, design: &Design) -> Measured<Ratio> {
    let primary = answer.problem.rebuild.primary.turns;
    let ratio = f64::from(design.candidate.winding.turns) / primary.value.si();
    let relative = primary.plus_minus.si() / primary.value.si();
    Measured::new(
        Ratio::from_si(ratio),
        Ratio::from_si(ratio * relative),
        Origin::Computed,
    )
}

/// Through the series lamp: the core's idle curve by the model, scaled to the idle current that
/// is measured or predicted at full mains.
fn lamp_current(file: &JobFile, answer: &Answer) -> Option<Measured<Current>> {
    let rebuild = &answer.problem.rebuild;
    let supply = rebuild.mains.voltage;
    let model = translate::idle(file, &rebuild.core, &rebuild.primary, &rebuild.mains);
    let at = |volts: Voltage| {
        let model = Idle {
            voltage: Measured::exact(volts, Origin::Computed),
            ..model
        };
        model.draw().map(|draw| draw.current)
    };
    let scale = rebuild.idle_current.value / at(supply.value)?;
    let relative = rebuild.idle_current.plus_minus.si() / rebuild.idle_current.value.si();
    let lamp = lamp_for(supply.value);
    let with = |factor: f64| lamp.current_with(supply.value, |v| Some(at(v)? * (scale * factor)));
    let value = with(1.0)?;
    let reach = (with(1.0 + relative)? - with((1.0 - relative).max(0.05))?).si().abs() / 2.0;
    let half = reach.hypot(value.si() * LAMP);
    Some(Measured::new(value, Current::from_si(half), Origin::Computed))
}

/// The plan as it is stored: SI units, an open end as null.
#[must_use]
pub fn plan_to_json(plan: &Plan) -> String {
    let rows: Vec<Value> = plan
        .predictions()
        .iter()
        .map(|p| {
            json!({
                "stage": p.stage.word(), "of": p.of,
                "value": p.value.si(), "low": p.low.si(), "high": p.high.si(),
            })
        })
        .collect();
    Value::from(rows).to_string()
}

/// A stored plan.
///
/// # Errors
/// A sentence for the person where it cannot be read.
pub fn plan_from_json(text: &str) -> Result<Plan, String> {
    let damaged = || "The stored tests are damaged. Start them again.".to_owned();
    let rows: Vec<Value> = serde_json::from_str(text).map_err(|_| damaged())?;
    let read = |row: &Value| -> Option<Prediction> {
        let stage = Stage::from_word(row.get("stage")?.as_str()?)?;
        let number = |key: &str| row.get(key)?.as_f64();
        let amount = |si: f64| -> Option<Amount> {
            Some(match stage {
                Stage::Continuity | Stage::Insulation => Amount::Resistance(Resistance::from_si(si)),
                Stage::RatioPolarity => Amount::Ratio(Ratio::from_si(si)),
                Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit => Amount::Current(Current::from_si(si)),
                Stage::Loaded => Amount::Voltage(Voltage::from_si(si)),
                Stage::TemperatureRise => Amount::Rise(crate::quantity::TemperatureRise::from_si(si)),
                Stage::Prepare | Stage::Reassembly => return None,
            })
        };
        Some(Prediction {
            stage,
            of: u8::try_from(row.get("of")?.as_u64()?).ok()?,
            value: amount(number("value")?)?,
            low: amount(number("low")?)?,
            // JSON has no infinity: an open end is null.
            high: amount(number("high").unwrap_or(f64::INFINITY))?,
        })
    };
    let predictions: Option<Vec<Prediction>> = rows.iter().map(read).collect();
    Plan::new(predictions.ok_or_else(damaged)?).map_err(|_| damaged())
}

/// A job's tests as they stand.
#[derive(Debug, Clone, PartialEq)]
pub struct Tests {
    /// Where they stand.
    pub bench: Bench,
    /// True where the design has changed since they began: they prove another winding.
    pub outdated: bool,
}

impl Shop {
    /// The newest tests of a job, if there are any; `planned` is what today's design predicts.
    ///
    /// # Errors
    /// [`ShopError::History`] where the stored history cannot have happened.
    pub fn tests(&self, job: JobId, planned: Option<&Plan>) -> Result<Option<Tests>, ShopError> {
        let Some(run) = self.store.bench_run(job)? else {
            return Ok(None);
        };
        let outdated = planned.is_some_and(|planned| plan_to_json(planned) != run.plan);
        let bench = lived_again(&run)?;
        Ok(Some(Tests { bench, outdated }))
    }

    /// Begins the tests of a job with what its design predicts. Earlier ones stay on the disk.
    ///
    /// # Errors
    /// What the disk says.
    pub fn begin_tests(&mut self, job: JobId, plan: &Plan) -> Result<(), ShopError> {
        self.store.begin_bench_run(job, &plan_to_json(plan))?;
        Ok(())
    }

    /// One thing that the person did in the tests: on the disk before it is shown as done.
    ///
    /// # Errors
    /// [`ShopError::Bench`] says what is missing; nothing is changed then.
    pub fn test_event(&mut self, job: JobId, event: Event, now: Moment) -> Result<(), ShopError> {
        let none = || ShopError::History("No tests have begun for this job.".to_owned());
        let run = self.store.bench_run(job)?.ok_or_else(none)?;
        let entry = bench::Entry { at: now, event };
        bench::advance(&lived_again(&run)?, entry)?;
        self.store.add_bench_line(run.id, &entry.to_line())?;
        Ok(())
    }
}

/// Stored tests, by living through them again.
fn lived_again(run: &BenchRun) -> Result<Bench, ShopError> {
    let plan = plan_from_json(&run.plan).map_err(ShopError::History)?;
    let entries: Result<Vec<_>, _> = run.lines.iter().map(|line| bench::Entry::from_line(line)).collect();
    let entries = entries.map_err(|error| ShopError::History(error.to_string()))?;
    Bench::replay(plan, &entries).map_err(|error| ShopError::History(error.to_string()))
}

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
pub fn wound_metal(answer: &Answer, of: u8) -> Option<Metal> {
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::answer::answer;
    use crate::app::start::demo_job;

    fn demo_plan() -> Plan {
        let file = demo_job();
        let answer = answer(&file).unwrap();
        plan(&file, &answer, answer.design.as_ref().unwrap()).unwrap()
    }

    #[test]
    fn a_plan_survives_being_stored() {
        let plan = demo_plan();
        assert_eq!(plan_from_json(&plan_to_json(&plan)).unwrap(), plan);
        for damaged in ["", "[]", "[{}]", "[{\"stage\":\"moon\"}]", "{\"a\":1}"] {
            assert!(plan_from_json(damaged).is_err(), "{damaged}");
        }
    }

    /// The predicted ratio is the turns' (any textbook); the lamp lies between nothing and its
    /// own current.
    #[test]
    fn predictions_follow_the_design() {
        let file = demo_job();
        let answer = answer(&file).unwrap();
        let design = answer.design.as_ref().unwrap();
        let plan = plan(&file, &answer, design).unwrap();
        let of = |stage| {
            plan.of_stage(stage)
                .find(|p| p.of == NEW_WINDING || stage == Stage::LampIdle)
                .unwrap()
        };
        let primary = &answer.problem.rebuild.primary;
        let ratio = f64::from(design.candidate.winding.turns) / primary.turns.value.si();
        assert!((of(Stage::RatioPolarity).value.si() - ratio).abs() < 1e-12);
        let lamp = of(Stage::LampIdle).value.si();
        let mains = answer.problem.rebuild.mains.voltage.value;
        let rated = lamp_for(mains).rated_current().si();
        let idle = answer.problem.rebuild.idle_current.value.si();
        assert!(lamp > 0.0 && lamp < rated.min(idle), "{lamp} {rated} {idle}");
    }

    #[test]
    fn readings_are_read_as_typed() {
        let typed = |texts: &[&str]| texts.iter().map(|t| (*t).to_owned()).collect::<Vec<_>>();
        let read = |stage, texts: &[&str]| reading_of(stage, &typed(texts), Some(Metal::Copper));
        assert_eq!(
            read(Stage::Continuity, &["12.5 mΩ", "20"]).unwrap().amount().si(),
            0.0125
        );
        assert!(
            read(Stage::Continuity, &["open", "20"])
                .unwrap()
                .amount()
                .si()
                .is_infinite()
        );
        assert_eq!(read(Stage::Insulation, &["over"]).unwrap().amount().si(), f64::INFINITY);
        let reversed = read(Stage::RatioPolarity, &["24", "1.2", "-"]).unwrap();
        assert!((reversed.amount().si() + 0.05).abs() < 1e-12);
        for (stage, texts) in [
            (Stage::RatioPolarity, &["24", "1.2", ""][..]),
            (Stage::RatioPolarity, &["0", "1.2", "+"]),
            (Stage::Continuity, &["much", "20"]),
            (Stage::Continuity, &["1"]),
            (Stage::Reassembly, &["1"]),
        ] {
            assert!(read(stage, texts).is_err(), "{texts:?}");
        }
    }

    #[test]
    fn bands_are_shown_with_units() {
        let texts = Texts::english().unwrap();
        let ohms = |si| Amount::Resistance(Resistance::from_si(si));
        assert_eq!(amount_text(ohms(0.01234), &texts), "12.3 mΩ");
        assert_eq!(amount_text(ohms(2.5e6), &texts), "2.50 MΩ");
        assert_eq!(amount_text(Amount::Current(Current::from_si(0.45)), &texts), "450 mA");
        assert_eq!(amount_text(ohms(f64::INFINITY), &texts), "open");
    }
}
