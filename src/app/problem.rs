//! A job as the physics takes it, with its idle test read.

use super::idle_test::{IdleTest, idle_test};
use super::translate::{Assumed, ei_core, heat_conditions, idle, joined, pair_of, placement, primary};
use crate::job::{Core, JobFile, Reading};
use crate::magnetics::circuit::leakage::typical_leakage_factor;
use crate::magnetics::circuit::mains::{Mains, Outlet, typical_supply_resistance};
use crate::magnetics::circuit::performance::{Rebuild, typical_wire_factor};
use crate::magnetics::circuit::protection::{DeviceKind, Protection};
use crate::magnetics::circuit::shunts::{SaturatingSteel, Shunts};
use crate::magnetics::core::EiCore;
use crate::magnetics::idle::IdleDrawEstimate;
use crate::magnetics::idle::fit::IdleFitError;
use crate::magnetics::winding::primary::{Primary, TurnsEstimate};
use crate::magnetics::winding::{Insulation, Placement};
use crate::quantity::{Current, Frequency, Length, Measured, Origin, Power, Resistance, Temperature, Voltage};
use crate::rewind::heat::HeatConditions;

/// A job, ready for the physics.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Core, primary, mains, placement.
    pub rebuild: Rebuild,
    /// Primary turns by every test; `None` where they are assumed.
    pub turns: Option<TurnsEstimate>,
    /// What the person's idle test says; `None` without two readings.
    pub idle_test: Option<Result<IdleTest, IdleFitError>>,
    /// What its heat depends on besides core and windings.
    pub heat: HeatConditions,
    /// What had to be assumed.
    pub assumed: Vec<Assumed>,
}

/// Translates a job, and reads its idle test.
#[must_use]
pub fn problem(file: &JobFile) -> Problem {
    let mut assumed = Vec::new();
    let core = ei_core(&file.core, &mut assumed);
    let (primary, turns) = primary(&file.core, &core, &mut assumed);
    let frequency = Frequency::from_si(f64::from(file.mains.hertz));
    let mains = Mains {
        voltage: file.mains.volts.measured(Voltage::from_si),
        frequency,
        protection: Protection {
            kind: Outlet::of_word(&file.mains.circuit.plug).map_or(DeviceKind::UnknownBreaker, |outlet| outlet.device),
            rating: Current::from_si(file.mains.circuit.breaker_a),
        },
    };
    let unloaded = idle(file, &core, &primary, &mains);
    let idle_test = idle_test(file, &unloaded);
    let foretold = idle_test.as_ref().and_then(|test| test.as_ref().ok()?.carried());
    let core_loss = foretold.map_or_else(
        || unloaded.draw().map_or(Power::ZERO, |draw| draw.core_loss),
        |foretold| IdleDrawEstimate::from_propagated(foretold).core_loss.value,
    );
    let idle_current = idle_current(file, idle_test.as_ref(), (&core, &primary, &mains), &mut assumed);
    let shunts = file.core.shunts_kept.then(|| usual_shunts(&file.core, &core));
    let choice = file.choice.as_ref();
    let standard = Insulation::default();
    let rebuild = Rebuild {
        core,
        primary,
        mains,
        supply_resistance: file
            .conditions
            .mains_loop_ohm
            .map_or_else(typical_supply_resistance, |loop_ohm| {
                loop_ohm.measured(Resistance::from_si)
            }),
        idle_current,
        shunts_height: shunts.map_or(Length::ZERO, |shunts| shunts.thickness.value),
        shunts,
        insulation: Insulation {
            ground: choice.map_or(standard.ground, |c| Length::from_mm(c.ground_mm)),
            interlayer: choice.map_or(standard.interlayer, |c| Length::from_mm(c.interlayer_mm)),
            barrier: standard.barrier,
        },
        placement: choice.map_or(Placement::BesidePrimary, |c| placement(c.placement)),
        temperature: Measured::new(Temperature::from_si(80.0), Temperature::from_si(30.0), Origin::Typical),
        // Both are cut alike: one doubt for the two.
        leads: file.conditions.lead_mm.map_or_else(
            || Measured::new(Length::from_mm(600.0), Length::from_mm(100.0), Origin::Typical),
            |lead| {
                let each = lead.measured(Length::from_mm);
                Measured::new(each.value * 2.0, each.plus_minus * 2.0, each.origin)
            },
        ),
        leakage_factor: typical_leakage_factor(),
        wire_factor: typical_wire_factor(),
        together: pair_of(file).map(|pair| joined(pair.windings)),
        other: None,
    };
    Problem {
        rebuild,
        turns,
        idle_test,
        heat: heat_conditions(&file.conditions, core_loss),
        assumed,
    }
}

/// The shunts as measured, or as they usually are: 8 ± 3 mm thick, along nine tenths of the
/// stack, 0.4 ± 0.2 mm of air and paper on each side. Common practice, no source.
#[must_use]
pub fn usual_shunts(record: &Core, core: &EiCore) -> Shunts {
    let window = core.window_width.value;
    let stack = core.stack.value;
    let or = |reading: Option<Reading>, usual: Length, half: f64| {
        reading.map_or(Measured::new(usual, Length::from_mm(half), Origin::Typical), |r| {
            r.measured(Length::from_mm)
        })
    };
    let both = or(record.shunt_gap_mm, Length::from_mm(0.8), 0.4);
    let air_gap = Measured::new(both.value / 2.0, both.plus_minus / 2.0, both.origin);
    Shunts {
        thickness: or(record.shunt_thickness_mm, Length::from_mm(8.0), 3.0),
        stack: or(record.shunt_width_mm, stack * 0.9, stack.mm() * 0.1),
        width: Measured::exact((window - both.value).max(Length::from_mm(1.0)), Origin::Computed),
        air_gap,
        stacking_factor: core.stacking_factor,
        steel: SaturatingSteel::poor_lamination(),
    }
}

/// No-load current on the mains at hand: the reading, where it was taken on mains of the same volts
/// per hertz within 2 %; else what an idle test foretells,
/// where the model explains it; else worked out from flux, steel and the seam's gap.
fn idle_current(
    file: &JobFile,
    test: Option<&Result<IdleTest, IdleFitError>>,
    (core, primary, mains): (&EiCore, &Primary, &Mains),
    assumed: &mut Vec<Assumed>,
) -> Measured<Current> {
    let stress = |volts: Voltage, frequency: Frequency| volts.si() / frequency.si();
    let own = stress(primary.rated.voltage, primary.rated.frequency);
    let here = stress(mains.voltage.value, mains.frequency);
    if let Some(measured) = primary.idle_current.filter(|_| (here / own - 1.0).abs() < 0.02) {
        return measured;
    }
    if let Some(foretold) = test.and_then(|test| test.as_ref().ok()?.carried()) {
        let current = IdleDrawEstimate::from_propagated(foretold).current;
        return Measured::new(current.value, current.plus_minus, Origin::Meter);
    }
    assumed.push(Assumed::IdleCurrent);
    let draw = idle(file, core, primary, mains).draw_with_uncertainty();
    draw.map_or_else(
        || Measured::exact(Current::ZERO, Origin::Computed),
        |(draw, _)| Measured::new(draw.current.value, draw.current.plus_minus, Origin::Computed),
    )
}
