//! A new job: an empty form would answer nothing, so it starts from typical values, marked so.

use crate::job::{
    Circuit, Conditions, Core, Donor, FORMAT_VERSION, Goal, JobFile, Look, Mains, OvenKind, Primary, PrimaryMetal,
    Reading, Rust, Sign, StockWire, TurnsTest, Use, User,
};
use crate::magnetics::circuit::mains::Outlet;
use crate::quantity::{Current, Inductance, Origin};

/// A job with a core that nobody has measured yet: typical values with wide bands.
/// Common practice, no source: tongue 30 to 40 mm, stack 45 to 75 mm, window 15 to 20 × 50 to 60 mm.
#[must_use]
pub fn new_job(name: &str, outlet: &Outlet) -> JobFile {
    let typical = |value: f64, plus_minus: f64| Reading::new(value, plus_minus, Origin::Typical);
    JobFile {
        curbcore_job: FORMAT_VERSION,
        name: name.to_owned(),
        note: String::new(),
        donor: None,
        core: Core {
            tongue_mm: typical(35.0, 5.0),
            stack_mm: typical(60.0, 15.0),
            window_width_mm: typical(18.0, 3.0),
            window_height_mm: typical(55.0, 6.0),
            outer_limb_mm: None,
            yoke_mm: None,
            stacking_factor: None,
            mass_kg: None,
            shunts_kept: false,
            shunt_thickness_mm: None,
            shunt_width_mm: None,
            shunt_gap_mm: None,
            seam_gap_mm: None,
            primary: Primary {
                metal: PrimaryMetal::Unknown,
                wire_diameter_mm: None,
                height_mm: typical(20.0, 4.0),
                build_mm: None,
                resistance_ohm: None,
                resistance_at_c: typical(20.0, 5.0),
                rated_volts: outlet.volts,
                rated_hertz: outlet.hertz as u32,
                idle_current_a: None,
                test_turn: None,
                counted_turns: None,
                old_secondary: None,
            },
        },
        mains: mains_of(outlet),
        goal: goal_of("spot_welder"),
        conditions: as_much_where_more_is_better(),
        choice: None,
        stock: Vec::new(),
    }
}

/// A job for a reactor on a core of its own: a choke with its target set. The current alternates, so
/// that all of it is ripple, 2√2 times its r.m.s. value from crest to crest.
#[must_use]
pub fn reactor_job(name: &str, outlet: &Outlet, inductance: Inductance, current: Current) -> JobFile {
    let whole = |si: f64| (si * 1000.0).round() / 1000.0;
    JobFile {
        goal: Goal::Choke {
            inductance_mh: whole(inductance.millihenries()),
            dc_current_a: 0.0,
            ripple_a: whole(current.si() * 2.0 * std::f64::consts::SQRT_2),
            frequency_hz: outlet.hertz,
        },
        ..new_job(name, outlet)
    }
}

/// The mains of an outlet: its nominal voltage ± 5 %, its frequency and rating.
#[must_use]
pub fn mains_of(outlet: &Outlet) -> Mains {
    Mains {
        volts: Reading::new(outlet.volts, outlet.volts * 0.05, Origin::Typical),
        hertz: outlet.hertz as u32,
        circuit: Circuit {
            breaker_a: outlet.amps,
            plug: outlet.word.to_owned(),
        },
    }
}

/// Conditions as usual, with all that the core gives as the target of welders, furnace and cutter: nobody
/// wants less of them, and the usual currents are beyond many a core.
fn as_much_where_more_is_better() -> Conditions {
    Conditions {
        as_much: vec![Use::SpotWelder, Use::StickWelder, Use::ArcFurnace, Use::PlasmaCutter],
        ..Conditions::default()
    }
}

/// A use with targets that suit one donor, for the person to change. Common practice, no source.
#[must_use]
pub fn goal_of(word: &str) -> Goal {
    match word {
        "stick_welder" => Goal::StickWelder {
            arc_current_a: 40.0,
            duty: 0.2,
            user: User::Layman,
            wet_or_cramped: false,
        },
        "arc_furnace" => Goal::ArcFurnace {
            current_a: 30.0,
            arc_volts: 25.0,
            minutes_on: 2.0,
            duty: 0.2,
        },
        "plasma_cutter" => Goal::PlasmaCutter {
            cut_current_a: 10.0,
            arc_volts: 90.0,
            open_circuit_volts: 200.0,
            duty: 0.2,
            confirmed: false,
        },
        "battery_charger" => Goal::BatteryCharger {
            battery_volts: 12.0,
            charge_current_a: 20.0,
            confirmed: false,
        },
        "plain_supply" => Goal::PlainSupply {
            volts: 24.0,
            amps: 20.0,
            duty: 0.5,
        },
        "choke" => Goal::Choke {
            inductance_mh: 1.0,
            dc_current_a: 40.0,
            ripple_a: 10.0,
            frequency_hz: 120.0,
        },
        "ballast" => Goal::Ballast {
            arc_volts: 30.0,
            current_a: 12.0,
        },
        _ => Goal::SpotWelder {
            weld_current_a: 400.0,
            load_milliohm: 1.5,
            pulse_s: 0.5,
            pulses_per_minute: 6.0,
        },
    }
}

/// The demo: an invented donor with no maker, measured in a garage that does not exist.
#[must_use]
pub fn demo_job() -> JobFile {
    let by = |value: f64, plus_minus: f64, origin: Origin| Reading::new(value, plus_minus, origin);
    let calipers = |value: f64, plus_minus: f64| by(value, plus_minus, Origin::Calipers);
    JobFile {
        curbcore_job: FORMAT_VERSION,
        name: "Demo: tab welder from the green oven".to_owned(),
        note: "Invented scenario. A rusty countertop oven from the curb, fan and lamp dead, transformer sound."
            .to_owned(),
        donor: Some(Donor {
            name: "Green countertop oven, rusty door".to_owned(),
            mains_volts: Some(by(120.0, 6.0, Origin::Label)),
            hertz: Some(60),
            input_watts: Some(by(1450.0, 145.0, Origin::Label)),
            output_watts: Some(by(900.0, 90.0, Origin::Label)),
            mass_kg: Some(by(15.5, 0.8, Origin::Scale)),
            microwave_watts: None,
            look: Look {
                kind: Some(OvenKind::Solo),
                signs: [(Sign::CoreSeen, true)].into(),
                rust: Some(Rust::Surface),
                age_years: Some(14),
                price: Some(0.0),
                ..Look::default()
            },
            notes: String::new(),
        }),
        core: Core {
            tongue_mm: calipers(35.1, 0.2),
            stack_mm: calipers(69.5, 0.5),
            window_width_mm: calipers(18.4, 0.2),
            window_height_mm: calipers(57.2, 0.3),
            outer_limb_mm: Some(calipers(17.6, 0.2)),
            yoke_mm: None,
            stacking_factor: None,
            mass_kg: None,
            shunts_kept: false,
            shunt_thickness_mm: None,
            shunt_width_mm: None,
            shunt_gap_mm: None,
            seam_gap_mm: None,
            primary: Primary {
                metal: PrimaryMetal::Copper,
                wire_diameter_mm: Some(by(1.55, 0.03, Origin::Calipers)),
                height_mm: calipers(21.5, 0.5),
                build_mm: Some(calipers(16.8, 0.5)),
                resistance_ohm: Some(by(0.41, 0.04, Origin::Meter)),
                resistance_at_c: by(18.0, 3.0, Origin::Meter),
                rated_volts: 120.0,
                rated_hertz: 60,
                idle_current_a: None,
                test_turn: Some(TurnsTest {
                    turns: by(3.0, 0.0, Origin::Counted),
                    volts: by(0.612, 0.008, Origin::Meter),
                    primary_volts: by(24.1, 0.2, Origin::Meter),
                }),
                counted_turns: Some(by(119.0, 3.0, Origin::Counted)),
                old_secondary: None,
            },
        },
        mains: Mains {
            volts: by(121.5, 2.0, Origin::Meter),
            hertz: 60,
            circuit: Circuit {
                breaker_a: 15.0,
                plug: "na-15".to_owned(),
            },
        },
        conditions: as_much_where_more_is_better(),
        goal: Goal::SpotWelder {
            weld_current_a: 450.0,
            load_milliohm: 1.0,
            pulse_s: 0.3,
            pulses_per_minute: 4.0,
        },
        choice: None,
        stock: vec![StockWire {
            conductor: "awg-2-0-welding".to_owned(),
            length_m: 2.0,
            price_per_m: None,
        }],
    }
}
