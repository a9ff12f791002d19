//! From what is recorded to what the physics takes: units, defaults, and what had to be assumed.

mod words;

pub use words::{metal_word, placement, placement_word, transformer_goal, wire_metal};

use super::idle_test::{IdleTest, idle_test};
use crate::job::{self, JobFile, PrimaryMetal, Reading};
use crate::magnetics::circuit::mains::{Mains, MainsRating, Outlet, typical_supply_resistance};
use crate::magnetics::circuit::performance::{Rebuild, typical_leakage_factor, typical_wire_factor};
use crate::magnetics::circuit::protection::{DeviceKind, Protection};
use crate::magnetics::core::induction::volts_per_turn;
use crate::magnetics::core::{EiCore, half_tongue, typical_stacking_factor};
use crate::magnetics::idle::fit::IdleFitError;
use crate::magnetics::idle::{Idle, IdleDrawEstimate};
use crate::magnetics::winding::primary::{OldSecondary, Primary, TestTurn, TurnsEstimate, TurnsEvidence};
use crate::magnetics::winding::{Insulation, Placement};
use crate::quantity::{
    Current, FluxDensity, Frequency, Length, Mass, Measured, Origin, Quantity, Ratio, Resistance, Temperature, Turns,
    Voltage,
};
use crate::wire::{Metal, bare_diameter};

/// Something that nobody measured and that was assumed instead.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Assumed {
    /// Outer limb or yoke: half the tongue.
    Limbs,
    /// Primary turns: from a flux density usual for such cores.
    PrimaryTurns,
    /// Primary wire: from its share of the window.
    PrimaryWire,
    /// How far the primary reaches across the window: all of it.
    PrimaryBuild,
    /// Metal of the primary: aluminium, the worse of the two.
    PrimaryMetal,
    /// Idle current: worked out from flux and steel.
    IdleCurrent,
    /// Some of the core's main measures are still typical values.
    CoreMeasures,
}

impl Assumed {
    /// What a person reads: what is assumed, and what to do.
    #[must_use]
    pub const fn text(self) -> &'static str {
        match self {
            Assumed::Limbs => "Outer limb and yoke: half the tongue is assumed. Calipers settle it.",
            Assumed::PrimaryTurns => {
                "Primary turns: assumed from a usual flux density. Make a test turn before you cut any wire."
            }
            Assumed::PrimaryWire => {
                "Primary wire: assumed from its share of the window. A micrometer on a lead end settles it."
            }
            Assumed::PrimaryBuild => "Primary build: assumed to fill the window's width.",
            Assumed::PrimaryMetal => {
                "Primary metal: aluminium is assumed, the weaker one. Scratch a lead end: copper is red under the enamel."
            }
            Assumed::IdleCurrent => "Idle current: worked out from flux and typical steel; the bench test measures it.",
            Assumed::CoreMeasures => {
                "Some of the core's measures are typical values, not this core's. Measure before you cut any wire."
            }
        }
    }
}

/// A job, ready for the physics.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Core, primary, mains, placement.
    pub rebuild: Rebuild,
    /// Primary turns by every test; `None` where they are assumed.
    pub turns: Option<TurnsEstimate>,
    /// What the person's idle test says; `None` without two readings.
    pub idle_test: Option<Result<IdleTest, IdleFitError>>,
    /// What had to be assumed.
    pub assumed: Vec<Assumed>,
}

/// Translates a job.
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
    let idle_test = idle_test(file, &idle(file, &core, &primary, &mains));
    let idle_current = idle_current(file, idle_test.as_ref(), (&core, &primary, &mains), &mut assumed);
    let shunts = file.core.shunt_thickness_mm.filter(|_| file.core.shunts_kept);
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
        shunts_height: shunts.map_or(Length::ZERO, |r| Length::from_mm(r.value)),
        insulation: Insulation {
            ground: choice.map_or(standard.ground, |c| Length::from_mm(c.ground_mm)),
            interlayer: choice.map_or(standard.interlayer, |c| Length::from_mm(c.interlayer_mm)),
            barrier: standard.barrier,
        },
        placement: choice.map_or(Placement::BesidePrimary, |c| placement(c.placement)),
        temperature: Measured::new(Temperature::from_si(80.0), Temperature::from_si(30.0), Origin::Typical),
        leads: Measured::new(Length::from_mm(600.0), Length::from_mm(100.0), Origin::Typical),
        leakage_factor: typical_leakage_factor(),
        wire_factor: typical_wire_factor(),
    };
    Problem {
        rebuild,
        turns,
        idle_test,
        assumed,
    }
}

fn ei_core(record: &job::Core, assumed: &mut Vec<Assumed>) -> EiCore {
    let mm = |r: &Reading| r.measured(Length::from_mm);
    let tongue = mm(&record.tongue_mm);
    let main = [
        &record.tongue_mm,
        &record.stack_mm,
        &record.window_width_mm,
        &record.window_height_mm,
    ];
    if main.iter().any(|r| r.origin == Origin::Typical) {
        assumed.push(Assumed::CoreMeasures);
    }
    if record.outer_limb_mm.is_none() || record.yoke_mm.is_none() {
        assumed.push(Assumed::Limbs);
    }
    EiCore {
        tongue,
        stack: mm(&record.stack_mm),
        window_width: mm(&record.window_width_mm),
        window_height: mm(&record.window_height_mm),
        outer_limb: record.outer_limb_mm.as_ref().map_or_else(|| half_tongue(tongue), mm),
        yoke: record.yoke_mm.as_ref().map_or_else(|| half_tongue(tongue), mm),
        stacking_factor: record
            .stacking_factor
            .map_or_else(typical_stacking_factor, |r| r.measured(Ratio::from_si)),
        mass: record.mass_kg.map(|r| r.measured(Mass::from_si)),
    }
}

fn primary(record: &job::Core, core: &EiCore, assumed: &mut Vec<Assumed>) -> (Primary, Option<TurnsEstimate>) {
    let p = &record.primary;
    let rated = MainsRating {
        voltage: Voltage::from_si(p.rated_volts),
        frequency: Frequency::from_si(f64::from(p.rated_hertz)),
    };
    let turns = evidence(p).primary_turns();
    if turns.is_none() {
        assumed.push(Assumed::PrimaryTurns);
    }
    let primary_turns = turns.as_ref().map_or_else(|| typical_turns(core, rated), |t| t.turns);
    let build = p.build_mm.map_or_else(
        || {
            assumed.push(Assumed::PrimaryBuild);
            let most = core.window_width.value - Length::from_mm(1.0);
            Measured::new(most, most * 0.08, Origin::Typical)
        },
        |r| r.measured(Length::from_mm),
    );
    let height = p.height_mm.measured(Length::from_mm);
    let wire_diameter = p.wire_diameter_mm.map_or_else(
        || {
            assumed.push(Assumed::PrimaryWire);
            typical_wire(height.value, build.value, primary_turns.value)
        },
        |r| {
            let over = r.measured(Length::from_mm);
            Measured {
                value: bare_diameter(over.value),
                ..over
            }
        },
    );
    let metal = match p.metal {
        PrimaryMetal::Copper => Metal::Copper,
        PrimaryMetal::Aluminium => Metal::Aluminium,
        PrimaryMetal::Unknown => {
            assumed.push(Assumed::PrimaryMetal);
            Metal::Aluminium
        }
    };
    let primary = Primary {
        metal,
        turns: primary_turns,
        wire_diameter,
        height,
        build,
        resistance: p.resistance_ohm.map(|r| {
            (
                r.measured(Resistance::from_si),
                Temperature::from_si(p.resistance_at_c.value),
            )
        }),
        idle_current: p.idle_current_a.map(|r| r.measured(Current::from_si)),
        rated,
    };
    (primary, turns)
}

fn evidence(p: &job::Primary) -> TurnsEvidence {
    TurnsEvidence {
        test_turn: p.test_turn.map(|t| TestTurn {
            turns: Turns::from_si(t.turns.value),
            volts: t.volts.measured(Voltage::from_si),
            primary_volts: t.primary_volts.measured(Voltage::from_si),
        }),
        counted: p.counted_turns.map(|r| r.measured(Turns::from_si)),
        old_secondary: p.old_secondary.map(|t| OldSecondary {
            turns: t.turns.measured(Turns::from_si),
            volts: t.volts.measured(Voltage::from_si),
            primary_volts: t.primary_volts.measured(Voltage::from_si),
        }),
    }
}

/// Primary turns of a donor that nobody tested: a peak flux density of 1.55 ± 0.25 T at its
/// rated mains. Common practice, no source.
fn typical_turns(core: &EiCore, rated: MainsRating) -> Measured<Turns> {
    let e = volts_per_turn(FluxDensity::from_si(1.55), rated.frequency, core.net_area());
    let turns = rated.voltage / e;
    Measured::new(turns, turns * 0.16, Origin::Typical)
}

/// Bare diameter of a primary wire that nobody measured: half of the room that the primary takes
/// is metal, ± 20 % of the diameter. Common practice, no source.
fn typical_wire(height: Length, build: Length, turns: Turns) -> Measured<Length> {
    let area = height * build * 0.5 / turns.si().max(1.0);
    let diameter = (area * (4.0 / std::f64::consts::PI)).sqrt();
    Measured::new(diameter, diameter * 0.2, Origin::Typical)
}

/// Idle current on the mains at hand: the reading, where it was taken on mains of the same volts
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

/// The primary at the mains with nothing on the new winding.
#[must_use]
pub fn idle(file: &JobFile, core: &EiCore, primary: &Primary, mains: &Mains) -> Idle {
    let mean_turn = core.turn_length(primary.build.value / 2.0);
    let cold = primary.resistance_at(mean_turn, Temperature::from_si(20.0));
    Idle {
        core: *core,
        steel: super::behaviour::steel(&file.conditions),
        gaps: super::behaviour::gaps(&file.core),
        turns: primary.turns,
        voltage: mains.voltage,
        frequency: mains.frequency,
        resistance: Measured::new(cold, cold * 0.05, Origin::Computed),
    }
}

/// The value of a quantity as a record's reading in the unit of its key.
#[must_use]
pub fn reading<Q: Quantity>(measured: Measured<Q>, unit: impl Fn(Q) -> f64) -> Reading {
    Reading::new(unit(measured.value), unit(measured.plus_minus), measured.origin)
}
