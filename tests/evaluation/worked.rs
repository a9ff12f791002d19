//! Worked examples: what the core of a 1 kW oven becomes for each use, as builders make it. Forms and ranges
//! are common practice, no source, where nothing else is named.

use curbcore::app::basis::as_choice;
use curbcore::app::behaviour::inductor::Warm;
use curbcore::app::bench::plan_of;
use curbcore::app::design_state::DesignState;
use curbcore::app::evaluation::{Evaluation, evaluate};
use curbcore::app::next_step::{JobState, Next, Windings, next};
use curbcore::app::reach::{Spare, joined_best};
use curbcore::app::start::{demo_job, goal_of};
use curbcore::job::{Choice, Goal, InsulationClass, JobFile, Joining, Reading};
use curbcore::quantity::{Length, LengthUnit, Origin};
use curbcore::report;
use curbcore::rewind::limits::Limit;
use curbcore::safety::Moment;
use curbcore::text::{Arg, Texts};
use curbcore::wire::Family;

/// The core of an oven of about a kilowatt at 120 V and 60 Hz, a volt a turn, an outlet of 20 A; new insulation
/// of class F. Nothing on the shelf.
fn kilowatt(goal: Goal, as_much: bool) -> JobFile {
    let read = |value: f64, plus_minus: f64| Reading::new(value, plus_minus, Origin::Calipers);
    let mut file = demo_job();
    file.core.tongue_mm = read(35.0, 0.2);
    file.core.stack_mm = read(65.0, 0.5);
    file.core.window_width_mm = read(18.0, 0.2);
    file.core.window_height_mm = read(55.0, 0.3);
    file.core.outer_limb_mm = Some(read(17.5, 0.2));
    let primary = &mut file.core.primary;
    primary.test_turn = None;
    primary.resistance_ohm = None;
    primary.wire_diameter_mm = Some(read(1.45, 0.03));
    primary.counted_turns = Some(Reading::new(120.0, 1.0, Origin::Counted));
    file.mains.volts = Reading::new(120.0, 3.0, Origin::Meter);
    file.mains.circuit.breaker_a = 20.0;
    "na-20".clone_into(&mut file.mains.circuit.plug);
    file.stock.clear();
    file.conditions.insulation = Some(InsulationClass::F);
    file.conditions.want_as_much(&goal, as_much);
    file.goal = goal;
    file
}

/// Turns, form, section of all conductors of a turn in mm², open voltage and working current.
fn wound(answer: &Evaluation) -> (u32, Family, f64, f64, f64) {
    let design = answer.design.as_ref().expect("a winding fits");
    let winding = &design.candidate.winding;
    let of = &design.estimate;
    let found = (
        winding.turns,
        winding.conductor.family,
        winding.section(Length::ZERO).mm2(),
        of.open_circuit.value.si(),
        of.working_current.value.si(),
    );
    println!("{found:?}");
    found
}

fn spot(load_milliohm: f64) -> JobFile {
    let goal = Goal::SpotWelder {
        weld_current_a: 400.0,
        load_milliohm,
        pulse_s: 0.3,
        pulses_per_minute: 4.0,
    };
    kilowatt(goal, true)
}

/// A spot welder is one to three turns of cable of at least 35 mm², 600 to 1500 A into work of 0.3 to 0.8 mΩ.
///
/// Below half a milliohm the strongest part gives more than 1500 A, and that is so: one turn, the least that can
/// be wound, stands at a volt, and two cables side by side leave a quarter of a milliohm in winding, leads,
/// primary and mains. Work and leads count once each (Ohm's law below), the outlet bears the pulse, and the
/// core is no larger than a 1 kW oven's. The range is that of one cable of 35 mm², which keeps it down
/// to 0.3 mΩ.
#[test]
fn a_spot_welder_is_a_few_turns_of_cable() {
    for milliohms in [0.3, 0.4, 0.5, 0.65, 0.8] {
        let mut file = spot(milliohms);
        let answer = evaluate(&file).unwrap();
        let (turns, form, section, volts, amps) = wound(&answer);
        assert!(
            (1..=3).contains(&turns) && section >= 35.0,
            "{milliohms}: {turns} of {section}"
        );
        assert!(matches!(form, Family::WeldingCable | Family::Stranded), "{milliohms}");
        assert_eq!(answer.design_state(), Some(DesignState::Fits), "{milliohms}");
        if milliohms >= 0.5 {
            assert!((600.0..=1500.0).contains(&amps), "{milliohms}: {amps} A");
            continue;
        }
        assert!(turns == 1 && amps > 1500.0, "{milliohms}: {amps} A of {turns}");
        let of = &answer.design.as_ref().unwrap().estimate;
        let loop_ohms = of.total_resistance.value.si() + milliohms * 1e-3;
        let ohms_law = volts / loop_ohms.hypot(of.leakage_reactance.value.si());
        assert!(
            (amps / ohms_law - 1.0).abs() < 1e-6,
            "{milliohms}: {amps} A, {ohms_law} A"
        );
        // ρ l / A of IEC 60028 at 80 °C: turn and leads once, then the primary's part, the mains' and nothing more.
        let own = 1.7241e-8 * (1.0 + 0.003_93 * 60.0) * of.wire_length.value.si() / (section * 1e-6);
        let ratio = of.winding_resistance.value.si() / own;
        assert!((0.97..1.15).contains(&ratio), "{milliohms}: {ratio}");
        file.choice = Some(Choice {
            conductor: "mm2-35-welding".into(),
            parallel: 1,
            ..as_choice(
                &answer.design.as_ref().unwrap().candidate,
                &answer.problem.rebuild,
                &answer.catalogue,
            )
        });
        let (turns, _, section, _, amps) = wound(&evaluate(&file).unwrap());
        assert!(turns == 1 && (34.0..36.0).contains(&section));
        assert!((600.0..=1500.0).contains(&amps), "{milliohms}: {amps} A");
    }
}

/// Leads as long as they are entered, each counted in: their resistance by ρ l / A, less current, and less doubt
/// about it than about leads that nobody measured.
#[test]
fn leads_count_as_long_as_they_are() {
    let mut file = spot(0.5);
    let usual = evaluate(&file).unwrap();
    let of = |answer: &Evaluation| {
        let design = answer.design.as_ref().unwrap();
        let short = design.estimate.short_circuit;
        (short.value.si(), short.plus_minus.si() / short.value.si())
    };
    let best = as_choice(
        &usual.design.as_ref().unwrap().candidate,
        &usual.problem.rebuild,
        &usual.catalogue,
    );
    file.choice = Some(best);
    file.conditions.lead_mm = Some(Reading::new(1000.0, 10.0, Origin::Tape));
    let long = evaluate(&file).unwrap();
    let (before, after) = (
        usual.circuit_parts().unwrap().leads,
        long.circuit_parts().unwrap().leads,
    );
    assert!((before.each.mm() - 300.0).abs() < 1e-9 && (after.each.mm() - 1000.0).abs() < 1e-9);
    let ratio = after.resistance.si() / before.resistance.si();
    assert!((ratio * 0.3 - 1.0).abs() < 1e-9, "{ratio}");
    let wound = |answer: &Evaluation| answer.design.as_ref().unwrap().estimate.wire_length.value.si();
    assert!((wound(&long) - wound(&usual) - 1.4).abs() < 1e-9);
    let (usual, long) = (of(&usual), of(&long));
    assert!(long.0 < usual.0 && long.1 < usual.1, "{usual:?} {long:?}");
}

/// A charger of 12 V and 15 A goes on enamelled wire or more, with diodes and a fuse at the battery, and no reactor.
///
/// Builders name 14 to 18 turns at a volt a turn. On this core 12 do: its winding, primary and mains leave some
/// 16 mΩ and nearly as much reactance, so that a crest of 17 V already drives 15 A through two diodes into a battery
/// half full. Each of 14 to 18 turns drives more than the battery is to get, and asks for a reactor.
#[test]
fn a_charger_needs_no_reactor() {
    let goal = Goal::BatteryCharger {
        battery_volts: 12.0,
        charge_current_a: 15.0,
        confirmed: true,
    };
    let mut file = kilowatt(goal, false);
    let answer = evaluate(&file).unwrap();
    let (turns, form, _, volts, amps) = wound(&answer);
    assert_eq!(form, Family::Enamelled);
    assert!(
        (12..=18).contains(&turns) && (volts / f64::from(turns) - 1.0).abs() < 0.01,
        "{turns}, {volts} V"
    );
    assert!((13.5..=17.25).contains(&amps), "{amps}");
    let Some(DesignState::FitsWith(needed)) = answer.design_state() else {
        panic!("{:?}", answer.design_state())
    };
    assert!(needed.reactor.is_none() && needed.diodes.is_some() && needed.battery_fuse.is_some());
    let best = as_choice(
        &answer.design.as_ref().unwrap().candidate,
        &answer.problem.rebuild,
        &answer.catalogue,
    );
    for turns in 14..=18 {
        file.choice = Some(Choice { turns, ..best.clone() });
        let more = evaluate(&file).unwrap();
        assert!(more.circuit_parts().unwrap().reactor.is_some(), "{turns}");
    }
}

fn another(file: &JobFile) -> Spare {
    Spare {
        name: "another".into(),
        core: file.core.clone(),
    }
}

/// A stick welder of 40 A asks for two cores: one gives too little, or runs too hot; two give nearly twice as much.
#[test]
fn a_stick_welder_asks_for_two_cores() {
    let mut file = kilowatt(goal_of("stick_welder"), false);
    assert!(evaluate(&file).unwrap().design.is_none());
    let goal = file.goal;
    file.conditions.want_as_much(&goal, true);
    let answer = evaluate(&file).unwrap();
    let (turns, form, _, volts, one) = wound(&answer);
    assert!(
        (45..=48).contains(&turns) && (45.0..=48.0).contains(&volts),
        "{turns}, {volts} V"
    );
    assert!(form == Family::Enamelled && one < 38.0, "{one} A");
    let (_, two) = joined_best(&file, &another(&file)).unwrap();
    assert!((1.7..2.3).contains(&(two.si() / one)), "{two:?}, {one} A");
}

/// A furnace with an arc of 25 V is thirty-odd turns that strike it, with a reactor and no diodes, for 15 to 45 A.
#[test]
fn a_furnace_is_some_thirty_turns() {
    let file = kilowatt(goal_of("arc_furnace"), true);
    let answer = evaluate(&file).unwrap();
    let (turns, form, section, volts, amps) = wound(&answer);
    assert!(
        (33..=48).contains(&turns) && (32.5..=48.0).contains(&volts),
        "{turns}, {volts} V"
    );
    assert!(
        form == Family::Enamelled && (4.0..=16.0).contains(&section),
        "{section}"
    );
    assert!((15.0..=45.0).contains(&amps), "{amps}");
    let parts = answer.circuit_parts().unwrap();
    assert!(parts.reactor.is_some() && parts.diodes.is_none());
}

/// A cutter is two hundred turns of thin enamelled wire with a bridge and a reactor, and a few amperes.
#[test]
fn a_plasma_cutter_is_two_hundred_turns() {
    let mut goal = goal_of("plasma_cutter");
    if let Goal::PlasmaCutter { confirmed, .. } = &mut goal {
        *confirmed = true;
    }
    let file = kilowatt(goal, true);
    let answer = evaluate(&file).unwrap();
    let (turns, form, section, volts, amps) = wound(&answer);
    assert!(
        (190..=220).contains(&turns) && (190.0..=220.0).contains(&volts),
        "{turns}, {volts} V"
    );
    assert!(form == Family::Enamelled && (0.2..=2.0).contains(&section), "{section}");
    assert!((2.0..=12.0).contains(&amps), "{amps}");
    let parts = answer.circuit_parts().unwrap();
    assert!(parts.reactor.is_some() && parts.diodes.is_some_and(|diodes| diodes.count == 4));
    let (pair, two) = joined_best(&file, &another(&file)).unwrap();
    assert!(pair.windings == Joining::Series && two.si() > 1.6 * amps, "{two:?}");
}

/// A supply of 24 V and 20 A is a turn or two more than its volts, of wire of some 6 mm², and nothing else.
#[test]
fn a_supply_is_a_turn_or_two_above_its_volts() {
    let answer = evaluate(&kilowatt(goal_of("plain_supply"), false)).unwrap();
    let (turns, form, section, _, amps) = wound(&answer);
    assert!((24..=27).contains(&turns) && form == Family::Enamelled, "{turns}");
    assert!((4.0..=13.0).contains(&section), "{section}");
    assert!((18.0..=22.0).contains(&amps), "{amps}");
    assert_eq!(answer.design_state(), Some(DesignState::Fits));
}

/// A choke of 1 mH at 40 A by the textbook's N = L Î / (B A) and g = µ0 N² A / L (`McLyman`, Transformer and
/// Inductor Design Handbook), fringing and the steel's own share left out.
#[test]
fn a_choke_is_a_score_of_turns_over_a_millimetre() {
    let answer = evaluate(&kilowatt(goal_of("choke"), false)).unwrap();
    let found = answer.inductor().unwrap().as_ref().unwrap();
    let iron = 0.035 * 0.065 * 0.95;
    let turns: f64 = 1e-3 * 45.0 / (1.2 * iron);
    assert!(
        (turns.floor()..turns * 1.3).contains(&f64::from(found.turns)),
        "{} {turns}",
        found.turns
    );
    // Two gaps in the path of the flux: the middle limb, and both outer ones side by side.
    let gap = 4e-7 * std::f64::consts::PI * f64::from(found.turns).powi(2) * iron / 1e-3;
    let both = 2.0 * found.shim.value.si();
    assert!((0.8..1.4).contains(&(both / gap)), "{both} {gap}");
    assert!((1.0..1.1).contains(&found.asked.millihenries()));
    assert_eq!(answer.design_state(), Some(DesignState::Fits));
}

/// A ballast takes what the arc leaves of the mains, √(120² - 30²) V, at its current.
#[test]
fn a_ballast_holds_its_current() {
    let goal = Goal::Ballast {
        arc_volts: 30.0,
        current_a: 6.0,
    };
    let answer = evaluate(&kilowatt(goal, false)).unwrap();
    let found = answer.inductor().unwrap().as_ref().unwrap();
    let henries = (120.0_f64.powi(2) - 30.0_f64.powi(2)).sqrt() / 6.0 / (2.0 * std::f64::consts::PI * 60.0);
    assert!((150..=300).contains(&found.turns), "{}", found.turns);
    assert!((found.built.inductance_at(found.built.load).si() / henries - 1.0).abs() < 0.05);
    assert_eq!(answer.design_state(), Some(DesignState::Fits));
}

/// The coil of a choke or a ballast has the states of a winding, and next step, bench, page and JSON follow: one that
/// runs too hot is a stop on all of them.
#[test]
fn a_coil_has_the_states_of_a_winding() {
    let texts = Texts::english().unwrap();
    let stop = texts.text_with(
        "page-stop",
        &[("limit", Arg::Text(&texts.text(Limit::WindingHeat.key())))],
    );
    let mut seen = [false; 2];
    for (amps, class) in [(6.0, InsulationClass::F), (12.0, InsulationClass::A)] {
        let goal = Goal::Ballast {
            arc_volts: 30.0,
            current_a: amps,
        };
        let mut file = kilowatt(goal, false);
        file.conditions.insulation = Some(class);
        let answer = evaluate(&file).unwrap();
        let hottest = answer.inductor().unwrap().as_ref().unwrap();
        let hot = hottest.warm == Warm::TooHot;
        let job = JobState {
            file: &file,
            answer: &answer,
            windings: &Windings::default(),
            tests: None,
        };
        let now = Moment {
            unix_ms: 1_728_000_000_000,
            local_day: 20_000,
        };
        let expected = if hot {
            (DesignState::Breaks(Limit::WindingHeat.into()), Next::ChangeChoke)
        } else {
            (DesignState::Fits, Next::WindChoke)
        };
        assert_eq!((answer.design_state().unwrap(), next(None, Some(job), now)), expected);
        assert_eq!(plan_of(&file, &answer).unwrap().is_err(), hot, "{amps} A");
        let page = report::page(&answer, None, &[], LengthUnit::Millimetre).unwrap();
        assert_eq!(page.contains(&stop), hot, "{amps} A");
        let json = report::json(&answer, None);
        let breaks = json.pointer("/behaviour/inductor/breaks").unwrap().as_array().unwrap();
        assert_eq!(!breaks.is_empty(), hot, "{amps} A");
        seen[usize::from(hot)] = true;
    }
    assert_eq!(
        seen,
        [true, true],
        "the cases hold one that fits and one that runs too hot"
    );
}

/// A coil that reaches further than its window is wide is a stop, though its wires' cells would go into the window.
#[test]
fn a_coil_wider_than_its_window_is_a_stop() {
    let goal = Goal::Choke {
        inductance_mh: 0.5,
        dc_current_a: 100.0,
        ripple_a: 20.0,
        frequency_hz: 120.0,
    };
    let state = |width: f64| {
        let mut file = kilowatt(goal, false);
        file.core.window_width_mm.value = width;
        let answer = evaluate(&file).unwrap();
        let found = answer.inductor().unwrap().as_ref().unwrap();
        (found.coil.build.mm(), answer.design_state().unwrap())
    };
    let (build, wide) = state(18.0);
    assert!(build < 17.0 && wide == DesignState::Fits, "{build} mm, {wide:?}");
    let (build, narrow) = state(17.5);
    assert!(build > 16.5, "{build} mm");
    assert_eq!(narrow, DesignState::Breaks(Limit::WindowFit.into()));
}
