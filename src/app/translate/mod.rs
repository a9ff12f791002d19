//! From what is recorded to what the physics takes: units, defaults, and what had to be assumed.
//! Nothing is solved here.

mod behind_diodes;
mod second_core;
mod words;

pub use behind_diodes::{arc_side, battery, charging_side, choke, connection, diode, has_centre_tap, supply_side};
pub use second_core::{joined, of_second_core, pair_of};
pub use words::{metal_word, placement, placement_word, transformer_goal, wire_metal};

use crate::job::{self, Conditions, InsulationClass, JobFile, PrimaryMetal, Reading};
use crate::magnetics::circuit::mains::{Mains, MainsRating};
use crate::magnetics::core::gap::Gaps;
use crate::magnetics::core::induction::volts_per_turn;
use crate::magnetics::core::steel::Steel;
use crate::magnetics::core::steel_grades::SteelGrade;
use crate::magnetics::core::{EiCore, half_tongue, typical_stacking_factor};
use crate::magnetics::heat::thermal_class::ThermalClass;
use crate::magnetics::idle::{Idle, typical_window_leakage};
use crate::magnetics::winding::primary::{OldSecondary, Primary, TestTurn, TurnsEstimate, TurnsEvidence};
use crate::quantity::{
    Current, FluxDensity, Frequency, Length, Mass, Measured, Origin, Power, Quantity, Ratio, Resistance, Temperature,
    Turns, Velocity, Voltage,
};
use crate::rewind::heat::HeatConditions;
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
    /// No-load current: worked out from flux and steel.
    IdleCurrent,
    /// Some of the core's main measures are still typical values.
    CoreMeasures,
}

impl Assumed {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Assumed::Limbs => "limbs",
            Assumed::PrimaryTurns => "primary_turns",
            Assumed::PrimaryWire => "primary_wire",
            Assumed::PrimaryBuild => "primary_build",
            Assumed::PrimaryMetal => "primary_metal",
            Assumed::IdleCurrent => "idle_current",
            Assumed::CoreMeasures => "core_measures",
        }
    }

    /// The id of its text: what is assumed, and what to do.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Assumed::Limbs => "assumed-limbs",
            Assumed::PrimaryTurns => "assumed-primary-turns",
            Assumed::PrimaryWire => "assumed-primary-wire",
            Assumed::PrimaryBuild => "assumed-primary-build",
            Assumed::PrimaryMetal => "assumed-primary-metal",
            Assumed::IdleCurrent => "assumed-idle-current",
            Assumed::CoreMeasures => "assumed-core-measures",
        }
    }
}

/// The class that the person named, else A, 105 °C: what paper and most unknown donors withstand.
/// Common practice, no source.
#[must_use]
pub fn class_of(class: Option<InsulationClass>) -> ThermalClass {
    match class.unwrap_or(InsulationClass::A) {
        InsulationClass::A => ThermalClass::A,
        InsulationClass::E => ThermalClass::E,
        InsulationClass::B => ThermalClass::B,
        InsulationClass::F => ThermalClass::F,
        InsulationClass::H => ThermalClass::H,
    }
}

/// What a job's heat depends on besides its core and its windings.
#[must_use]
pub fn heat_conditions(conditions: &Conditions, core_loss: Power) -> HeatConditions {
    HeatConditions {
        ambient: conditions.ambient_c.map(|r| r.measured(Temperature::from_si)),
        air_speed: conditions.fan_m_per_s.map(|r| r.measured(Velocity::from_si)),
        class: class_of(conditions.insulation),
        core_loss,
    }
}

/// The core, its limb and yoke assumed where nobody measured them.
pub(super) fn ei_core(record: &job::Core, assumed: &mut Vec<Assumed>) -> EiCore {
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

/// The primary, and its turns by every test.
pub(super) fn primary(
    record: &job::Core,
    core: &EiCore,
    assumed: &mut Vec<Assumed>,
) -> (Primary, Option<TurnsEstimate>) {
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

/// The steel that the person named, or the band of what a donor may have.
#[must_use]
pub fn steel(conditions: &Conditions) -> Steel {
    conditions.steel.map_or(Steel::UNKNOWN, |grade| {
        Steel::of(match grade {
            job::LaminationGrade::M19 => SteelGrade::M19,
            job::LaminationGrade::M400 => SteelGrade::M400_50A,
            job::LaminationGrade::M530 => SteelGrade::M530_50A,
            job::LaminationGrade::M800 => SteelGrade::M800_50A,
        })
    })
}

/// The gaps of the core that was put together again.
#[must_use]
pub fn gaps(core: &job::Core) -> Gaps {
    core.seam_gap_mm.map_or(Gaps::REASSEMBLED, |gap| Gaps {
        face: gap.measured(Length::from_mm),
        ..Gaps::REASSEMBLED
    })
}

/// The primary at the mains with nothing on the new winding.
#[must_use]
pub fn idle(file: &JobFile, core: &EiCore, primary: &Primary, mains: &Mains) -> Idle {
    let mean_turn = core.turn_length(primary.build.value / 2.0);
    let cold = primary.resistance_at(mean_turn, Temperature::from_si(20.0));
    Idle {
        core: *core,
        steel: steel(&file.conditions),
        gaps: gaps(&file.core),
        turns: primary.turns,
        voltage: mains.voltage,
        frequency: mains.frequency,
        resistance: Measured::new(cold, cold * 0.05, Origin::Computed),
        window_leakage: typical_window_leakage(),
    }
}

/// The value of a quantity as a record's reading in the unit of its key.
#[must_use]
pub fn reading<Q: Quantity>(measured: Measured<Q>, unit: impl Fn(Q) -> f64) -> Reading {
    Reading::new(unit(measured.value), unit(measured.plus_minus), measured.origin)
}
