//! Recorded words and goals as the physics has them, and back.

use super::{arc_side, charging_side, supply_side};
use crate::job;
use crate::magnetics::winding::Placement;
use crate::quantity::{Current, Ratio, Resistance, Time, Voltage};
use crate::rewind::goal::{Goal, STICK_FIXED, STICK_SLOPE, User};
use crate::wire::Metal;

/// The placement of a recorded choice.
#[must_use]
pub fn placement(word: job::Placement) -> Placement {
    match word {
        job::Placement::BesidePrimary => Placement::BesidePrimary,
        job::Placement::OverPrimary => Placement::OverPrimary,
        job::Placement::FarEnd => Placement::FarEnd,
    }
}

/// The recorded word of a placement.
#[must_use]
pub fn placement_word(placement: Placement) -> job::Placement {
    match placement {
        Placement::BesidePrimary => job::Placement::BesidePrimary,
        Placement::OverPrimary => job::Placement::OverPrimary,
        Placement::FarEnd => job::Placement::FarEnd,
    }
}

/// The metal of a recorded choice.
#[must_use]
pub fn wire_metal(word: job::WireMetal) -> Metal {
    match word {
        job::WireMetal::Copper => Metal::Copper,
        job::WireMetal::Aluminium => Metal::Aluminium,
    }
}

/// The recorded word of a metal.
#[must_use]
pub fn metal_word(metal: Metal) -> job::WireMetal {
    match metal {
        Metal::Copper => job::WireMetal::Copper,
        Metal::Aluminium => job::WireMetal::Aluminium,
    }
}

/// Slope of an arc that has no load line of its own, leads included: 20 mΩ. Common practice, no source.
const ARC_SLOPE: Resistance = Resistance::from_si(0.02);

/// The transformer use of a recorded goal under a job's conditions; `None` for the reuse as a choke or a
/// ballast.
#[must_use]
pub fn transformer_goal(goal: &job::Goal, conditions: &job::Conditions) -> Option<Goal> {
    let amps = Current::from_si;
    let volts = Voltage::from_si;
    // A plasma cutter and a charger have diodes, whatever was said.
    let behind_diodes = conditions.rectifier.is_some();
    Some(match *goal {
        job::Goal::SpotWelder {
            weld_current_a,
            load_milliohm,
            pulse_s,
            pulses_per_minute,
        } => Goal::SpotWelder {
            current: amps(weld_current_a),
            load: Resistance::from_milliohms(load_milliohm),
            pulse: Time::from_si(pulse_s),
            per_minute: pulses_per_minute,
        },
        job::Goal::StickWelder {
            arc_current_a,
            duty,
            user,
            wet_or_cramped,
        } => Goal::StickWelder {
            current: amps(arc_current_a),
            duty: Ratio::from_si(duty),
            user: match user {
                job::User::Layman => User::Layman,
                job::User::Trained => User::Trained,
            },
            hazard: wet_or_cramped,
            side: behind_diodes.then(|| {
                let line = (volts(STICK_FIXED), volts(3.0), Resistance::from_si(STICK_SLOPE));
                arc_side(conditions, line, amps(arc_current_a))
            }),
        },
        job::Goal::ArcFurnace {
            current_a,
            arc_volts,
            minutes_on,
            duty,
        } => Goal::ArcFurnace {
            current: amps(current_a),
            arc_volts: volts(arc_volts),
            duty: Ratio::from_si(duty),
            stretch: Time::from_minutes(minutes_on),
            side: behind_diodes.then(|| {
                let line = (volts(arc_volts), volts(3.0), ARC_SLOPE);
                arc_side(conditions, line, amps(current_a))
            }),
        },
        job::Goal::PlasmaCutter {
            cut_current_a,
            arc_volts,
            open_circuit_volts,
            duty,
            confirmed,
        } => Goal::PlasmaCutter {
            current: amps(cut_current_a),
            arc_volts: volts(arc_volts),
            open_circuit: volts(open_circuit_volts),
            duty: Ratio::from_si(duty),
            confirmed,
            side: arc_side(
                conditions,
                (volts(arc_volts), volts(arc_volts * 0.1), ARC_SLOPE),
                amps(cut_current_a),
            ),
        },
        job::Goal::BatteryCharger {
            battery_volts,
            charge_current_a,
            confirmed: _,
        } => Goal::BatteryCharger {
            battery_volts: volts(battery_volts),
            current: amps(charge_current_a),
            side: charging_side(conditions, volts(battery_volts), amps(charge_current_a)),
        },
        job::Goal::PlainSupply {
            volts: v,
            amps: a,
            duty,
        } => Goal::PlainSupply {
            volts: volts(v),
            current: amps(a),
            duty: Ratio::from_si(duty),
            side: behind_diodes.then(|| supply_side(conditions, volts(v), amps(a))),
        },
        job::Goal::Choke { .. } | job::Goal::Ballast { .. } => return None,
    })
}
