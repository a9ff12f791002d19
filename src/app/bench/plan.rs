//! What the tests of a design should find.

use crate::app::basis::{Basis, Design};
use crate::app::behaviour::heat;
use crate::app::translate;
use crate::bench::{Amount, Plan, Prediction, Stage};
use crate::job::JobFile;
use crate::magnetics::idle::Idle;
use crate::magnetics::series_lamp::SeriesLamp;
use crate::quantity::{Current, Measured, Origin, Power, Quantity, Ratio, Resistance, Temperature, Voltage};
use crate::rewind::goal::Goal;

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
/// everything else: 5 MΩ (IEC 60974-4, periodic inspection and testing; R2: testers' manuals).
const INSULATION: [(u8, f64); 2] = [(PRIMARY, 2.5e6), (NEW_WINDING, 5e6)];

/// Half-width that a home meter adds to any prediction: 2 % (common practice, no source).
const METER: f64 = 0.02;

/// Half-width of a lamp's current: 10 % (common practice, no source).
const LAMP: f64 = 0.10;

/// What the tests should find.
///
/// # Errors
/// A sentence for the person where a number is missing.
pub fn plan(file: &JobFile, answer: &Basis, design: &Design) -> Result<Plan, String> {
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
fn primary_resistance(answer: &Basis) -> Measured<Resistance> {
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
fn ratio(answer: &Basis, design: &Design) -> Measured<Ratio> {
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
fn lamp_current(file: &JobFile, answer: &Basis) -> Option<Measured<Current>> {
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
