//! What the tests of a design should find.

use crate::app::basis::{Basis, Design};
use crate::app::behaviour::heat;
use crate::app::behaviour::inductor::{InductorAnswer, inductor};
use crate::app::translate::{self, of_second_core};
use crate::bench::{self, Amount, Plan, Prediction, Stage};
use crate::job::{self, JobFile};
use crate::magnetics::idle::Idle;
use crate::magnetics::idle::series_lamp::SeriesLamp;
use crate::magnetics::inductor::{Inductor, Load};
use crate::magnetics::pairs::Joined;
use crate::quantity::{Current, Measured, Origin, Power, Quantity, Ratio, Resistance, Temperature, Voltage};
use crate::rewind::goal::Goal;
use crate::rewind::limits::Limit;
use crate::words::Message;

/// Winding 0 of a plan.
pub const PRIMARY: u8 = 0;
/// Winding 1 of a plan.
pub const NEW_WINDING: u8 = 1;

/// Winding 2 of a plan: the primary of the second core.
pub const SECOND_PRIMARY: u8 = 2;
/// Winding 3 of a plan: the new winding of the second core.
pub const SECOND_WINDING: u8 = 3;

/// The id of the name of a winding of a plan.
#[must_use]
pub const fn winding_key(of: u8) -> &'static str {
    match of {
        PRIMARY => "ui-primary",
        SECOND_PRIMARY => "ui-second-primary",
        SECOND_WINDING => "ui-second-winding",
        _ => "ui-new-winding",
    }
}

/// The lamp of the first mains test at the mains' voltage: the person's, else of 100 W (common
/// practice, no source).
#[must_use]
pub fn lamp_for(file: &JobFile, mains: Voltage) -> SeriesLamp {
    SeriesLamp {
        volts: mains,
        watts: Power::from_si(file.conditions.lamp_watts.map_or(100.0, |watts| watts.value)),
    }
}

/// Least insulation resistance of the mains side to the core: 2.5 MΩ, and of the new winding to
/// everything else: 5 MΩ (IEC 60974-4, periodic inspection and testing; R2: testers' manuals).
const INSULATION_OF_PRIMARY: Resistance = Resistance::from_si(2.5e6);
const INSULATION_OF_WINDING: Resistance = Resistance::from_si(5e6);

/// Half-width that a home meter adds to any prediction: 2 % (common practice, no source).
const METER: f64 = 0.02;

/// Half-width of a lamp's current: 10 % (common practice, no source).
const LAMP: f64 = 0.10;

/// What the tests of a job should find: of its winding, or of its choke or ballast. `None` where it
/// has neither.
#[must_use]
pub fn plan_of(file: &JobFile, answer: &Basis) -> Option<Result<Plan, Message>> {
    match (&answer.goal, &answer.design) {
        (Some(_), Some(design)) => Some(plan(file, answer, design)),
        (Some(_), None) => None,
        (None, _) => {
            let built = inductor(file, answer)?.ok()?;
            Some(coil_plan(file, answer, &built))
        }
    }
}

/// What the tests of a winding should find.
///
/// # Errors
/// A sentence for the person where a number is missing.
pub fn plan(file: &JobFile, answer: &Basis, design: &Design) -> Result<Plan, Message> {
    let broken = design.candidate.broken;
    if broken.has(Limit::Saturation) {
        return Err(Message::new("plan-saturates"));
    }
    if broken.has(Limit::WindingHeat) || broken.has(Limit::PrimaryHeat) {
        return Err(Message::new("plan-winding-too-hot"));
    }
    let estimate = &design.estimate;
    let mut predictions = of_core(file, answer, design, [PRIMARY, NEW_WINDING])?;
    if let (Some(other), Some(second)) = (of_second_core(file), answer.of_second())
        && let Some(wound) = &second.design
    {
        predictions.extend(of_core(&other, &second, wound, [SECOND_PRIMARY, SECOND_WINDING])?);
    }
    predictions.push(match answer.goal {
        // The leads are bolted together: nothing but winding and leads holds the current.
        Some(Goal::SpotWelder { .. }) => band(
            Stage::ShortCircuit,
            NEW_WINDING,
            measured(estimate.short_circuit),
            Amount::Current,
        ),
        _ => band(
            Stage::Loaded,
            NEW_WINDING,
            measured(estimate.working_voltage),
            Amount::Voltage,
        ),
    });
    predictions.extend(pair_phasing(answer));
    let load = match answer.goal {
        Some(Goal::StickWelder { .. }) => bench::Load::Electrode,
        Some(Goal::BatteryCharger { .. }) => bench::Load::Battery,
        Some(Goal::ArcFurnace { .. }) => bench::Load::Furnace,
        Some(Goal::PlasmaCutter { .. }) => bench::Load::Plasma,
        _ => bench::Load::Plain,
    };
    let plan = Plan::new(predictions).map_err(|error| {
        tracing::error!("no plan: {error}");
        Message::new("plan-none")
    })?;
    Ok(plan.under(load))
}

/// What is tested of one core: its windings by themselves, its no-load current, its rise.
fn of_core(
    file: &JobFile,
    answer: &Basis,
    design: &Design,
    [primary, winding]: [u8; 2],
) -> Result<Vec<Prediction>, Message> {
    let estimate = &design.estimate;
    let [resistance, insulated] = primary_predictions(answer, primary);
    let mut predictions = vec![
        resistance,
        band(
            Stage::Continuity,
            winding,
            measured(estimate.cold_resistance),
            Amount::Resistance,
        ),
        band(Stage::RatioPolarity, winding, ratio(answer, design), Amount::Ratio),
        band(
            Stage::MainsIdle,
            primary,
            answer.problem.rebuild.idle_current,
            Amount::Current,
        ),
    ];
    predictions.push(insulated);
    predictions.push(insulation(winding, INSULATION_OF_WINDING));
    let lamp = lamp_current(file, answer).ok_or_else(|| Message::new("plan-no-idle-current"))?;
    predictions.push(band(Stage::LampIdle, primary, lamp, Amount::Current));
    if let Some([primary_rise, winding_rise]) = heat::rise_after_run(file, answer, design) {
        predictions.push(band(
            Stage::TemperatureRise,
            primary,
            measured(primary_rise),
            Amount::Rise,
        ));
        // A bench meter cannot tell a few kelvins from a change of less.
        if estimate.cold_resistance.value >= READABLE {
            predictions.push(band(
                Stage::TemperatureRise,
                winding,
                measured(winding_rise),
                Amount::Rise,
            ));
        }
    }
    Ok(predictions)
}

/// The least resistance whose change with temperature a bench meter reads: 0.1 Ω. Common
/// practice, no source.
const READABLE: Resistance = Resistance::from_si(0.1);

/// What a voltmeter between the free ends of a pair's windings shows, over the sum of both: the sum
/// for windings in series, the difference for windings in parallel, within a tenth of the sum
/// ([`read_phasing`](crate::magnetics::pairs::checks::read_phasing)).
fn pair_phasing(answer: &Basis) -> Option<Prediction> {
    let pair = answer.second.as_ref()?;
    let of_turns = |answer: &Basis| {
        let turns = f64::from(answer.design.as_ref()?.candidate.winding.turns);
        Some(turns / answer.problem.rebuild.primary.turns.value.si())
    };
    // Both are fed alike: their voltages go as their turns.
    let (first, second) = (of_turns(answer)?, of_turns(&answer.of_second()?)?);
    let value = match pair.windings {
        Joined::Series => 1.0,
        Joined::Parallel => (first - second).abs() / (first + second),
    };
    let at = |si: f64| Amount::Ratio(Ratio::from_si(si));
    Some(Prediction {
        stage: Stage::PairPhasing,
        of: NEW_WINDING,
        value: at(value),
        low: at((value - 0.1).max(0.0)),
        high: at(value + 0.1),
    })
}

/// What the tests of a choke or a ballast should find: its resistance and impedance before any
/// mains, then volts over amperes at its rated current, then its rise.
fn coil_plan(file: &JobFile, answer: &Basis, found: &InductorAnswer) -> Result<Plan, Message> {
    let unknown = || Message::new("plan-no-coil");
    if found.broken().has(Limit::WindingHeat) {
        return Err(Message::new("plan-too-hot"));
    }
    let frequency = answer.problem.rebuild.mains.frequency;
    let cold = Inductor {
        temperature: Measured::exact(Temperature::from_si(20.0), Origin::Chosen),
        ..found.built
    };
    // Resistance and reactance at a load, each with its half-width.
    let at_load = |built: &Inductor, load: Load| -> Option<(Measured<Resistance>, Measured<Resistance>)> {
        let (work, _) = Inductor { load, ..*built }.work_with_uncertainty()?;
        let omega = load.frequency.angular();
        let ohms = |si: f64| Resistance::from_si(si);
        let reactance = Measured::new(
            ohms(work.inductance.value.si() * omega),
            ohms(work.inductance.plus_minus.si() * omega),
            Origin::Computed,
        );
        Some((measured(work.resistance), reactance))
    };
    let is_ballast = matches!(file.goal, job::Goal::Ballast { .. });
    let load = found.built.load;
    let (resistance, _) = at_load(&cold, load).ok_or_else(unknown)?;
    let mut predictions = vec![
        band(Stage::Continuity, NEW_WINDING, resistance, Amount::Resistance),
        insulation(NEW_WINDING, INSULATION_OF_WINDING),
    ];
    // Whatever the source gives: between a hundredth and a tenth of the rated current.
    let low_current = |share: f64| {
        let test = Load::alternating(load.rms() * share, frequency);
        at_load(&cold, test).map(|(r, x)| impedance(r, x))
    };
    let (small, large) = (
        low_current(0.01).ok_or_else(unknown)?,
        low_current(0.1).ok_or_else(unknown)?,
    );
    predictions.push(over(Stage::Impedance, [small, large]));
    predictions.push(if is_ballast {
        let (warm, reactance) = at_load(&found.built, load).ok_or_else(unknown)?;
        over(
            Stage::RatedCurrent,
            [impedance(resistance, reactance), impedance(warm, reactance)],
        )
    } else {
        let (warm, _) = at_load(&found.built, load).ok_or_else(unknown)?;
        over(Stage::RatedCurrent, [resistance, warm])
    });
    if let Some(rise) = found.rise {
        predictions.push(band(
            Stage::TemperatureRise,
            NEW_WINDING,
            Measured::new(rise.value, rise.plus_minus, Origin::Computed),
            Amount::Rise,
        ));
    }
    let plan = Plan::new(predictions).map_err(|error| {
        tracing::error!("no plan: {error}");
        Message::new("plan-none")
    })?;
    let feeds = if is_ballast {
        bench::Load::Lamp
    } else {
        bench::Load::Plain
    };
    Ok(plan.under(feeds))
}

/// `√(R² + X²)` with its half-width, the two taken as independent.
fn impedance(resistance: Measured<Resistance>, reactance: Measured<Resistance>) -> Measured<Resistance> {
    let (r, x) = (resistance.value.si(), reactance.value.si());
    let z = r.hypot(x);
    let half = (r * resistance.plus_minus.si()).hypot(x * reactance.plus_minus.si()) / z;
    Measured::new(Resistance::from_si(z), Resistance::from_si(half), Origin::Computed)
}

/// A prediction of the coil that spans two, each with two meters' half-widths.
fn over(stage: Stage, of: [Measured<Resistance>; 2]) -> Prediction {
    let [first, second] = of.map(|one| {
        let half = one
            .plus_minus
            .si()
            .hypot(one.value.si() * METER * std::f64::consts::SQRT_2);
        (one.value.si(), (one.value.si() - half).max(0.0), one.value.si() + half)
    });
    let at = |si: f64| Amount::Resistance(Resistance::from_si(si));
    Prediction {
        stage,
        of: NEW_WINDING,
        value: at(f64::midpoint(first.0, second.0)),
        low: at(first.1.min(second.1)),
        high: at(first.2.max(second.2)),
    }
}

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

/// What meter and insulation tester should show of the primary that is winding `of` of a plan: its resistance and
/// its insulation.
#[must_use]
pub fn primary_predictions(answer: &Basis, of: u8) -> [Prediction; 2] {
    [
        band(Stage::Continuity, of, primary_resistance(answer), Amount::Resistance),
        insulation(of, INSULATION_OF_PRIMARY),
    ]
}

/// At least so much insulation of a winding.
fn insulation(of: u8, least: Resistance) -> Prediction {
    Prediction {
        stage: Stage::Insulation,
        of,
        value: Amount::Resistance(least),
        low: Amount::Resistance(least),
        high: Amount::Resistance(Resistance::from_si(f64::INFINITY)),
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

/// Through the series lamp: the core's idle curve by the model, scaled to the no-load current that
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
    let lamp = lamp_for(file, supply.value);
    let with = |factor: f64| lamp.current_with(supply.value, |v| Some(at(v)? * (scale * factor)));
    let value = with(1.0)?;
    let reach = (with(1.0 + relative)? - with((1.0 - relative).max(0.05))?).si().abs() / 2.0;
    let half = reach.hypot(value.si() * LAMP);
    Some(Measured::new(value, Current::from_si(half), Origin::Computed))
}
