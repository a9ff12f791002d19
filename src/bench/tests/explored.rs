//! Every state there is, events at random, and forged histories.

use proptest::prelude::*;

use super::*;
use crate::procedure::Situation;
use crate::procedure::explore::{
    explore, forgery, live_forged, live_random, moments, read_or_refused, refused_without, survives_being_stored,
};

/// Explores a plan whose last stage is `last`, with one reading a stage.
fn explore_to(plan: &Plan, last: Stage) {
    let seen = explore(plan, &Situation::start());
    println!("{} states", seen.states);
    assert!(seen.reached.contains(&last) && seen.phases.contains(&Phase::Ended(End::Commissioned)));
}

#[test]
fn no_sequence_of_events_reaches_mains_without_gates_and_earlier_tests() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0 || p.stage == Stage::ShortCircuit);
    explore_to(&Plan::new(predictions).unwrap(), Stage::ShortCircuit);
}

/// The same for a core that feeds a battery: its own gate too.
#[test]
fn no_sequence_of_events_charges_a_battery_without_its_gate() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0);
    predictions.push(prediction(Stage::Loaded, 1, 10.0, 12.0, 14.0));
    explore_to(&Plan::new(predictions).unwrap().under(Load::Battery), Stage::Loaded);
}

/// The same for a plasma torch, whose voltage is there as soon as mains is.
#[test]
fn no_sequence_of_events_reaches_a_torchs_voltage_without_its_gate() {
    let mut predictions = full();
    predictions.retain(|p| p.of == 0);
    explore_to(&Plan::new(predictions).unwrap().under(Load::Plasma), Stage::MainsIdle);
}

/// A furnace has its gate at the stages where a battery has its own, which are explored above.
#[test]
fn a_furnace_asks_where_a_battery_asks() {
    for &stage in Stage::ALL {
        let own = |load: Load, gate| stage.gates_under(load).iter().position(|&g| g == gate);
        assert_eq!(
            own(Load::Furnace, Gate::Furnace),
            own(Load::Battery, Gate::Battery),
            "{stage:?}"
        );
    }
    assert!(Stage::Loaded.gates_under(Load::Furnace).contains(&Gate::Furnace));
}

/// Wherever a load burns an arc, helmet, skin, bystanders, fumes and what can burn are confirmed first.
#[test]
fn no_load_burns_an_arc_without_its_gate() {
    for load in [Load::Electrode, Load::Furnace, Load::Plasma] {
        for &stage in Stage::ALL.iter().filter(|&&stage| stage >= Stage::Loaded) {
            let gates = stage.gates_under(load);
            assert!(
                gates.contains(&Gate::Arc) && gates.contains(&Gate::Sparks),
                "{load:?} {stage:?}"
            );
        }
        assert!(
            !Stage::MainsIdle.gates_under(load).contains(&Gate::Arc),
            "{load:?}: no load yet"
        );
    }
}

/// A ballast feeds a lamp, which may burst: what can burn is away first, and its caution says that it is for no
/// open arc.
#[test]
fn a_lamp_asks_that_nothing_can_burn() {
    assert!(Stage::RatedCurrent.gates_under(Load::Lamp).contains(&Gate::Sparks));
    assert_eq!(Load::Lamp.caution_at(Stage::RatedCurrent), Some("load-lamp.caution"));
    assert_eq!(Load::Lamp.caution_at(Stage::Impedance), None);
}

/// The same for a choke: no rated current before its resistance, insulation and impedance.
#[test]
fn no_sequence_of_events_feeds_a_choke_without_gates_and_earlier_tests() {
    let predictions = vec![
        prediction(Stage::Continuity, 1, 0.09, 0.10, 0.11),
        prediction(Stage::Insulation, 1, 2e6, 1e8, f64::INFINITY),
        prediction(Stage::Impedance, 1, 0.3, 0.4, 0.5),
        prediction(Stage::RatedCurrent, 1, 0.1, 0.11, 0.13),
    ];
    explore_to(&Plan::new(predictions).unwrap(), Stage::RatedCurrent);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn forged_histories_stand_nowhere_without_gates(forged in forgery()) {
        live_forged(&whole(), forged)?;
    }

    #[test]
    fn a_history_without_one_confirmation_or_reading_is_refused(pick in any::<prop::sample::Index>()) {
        refused_without(&whole(), pick, |event| {
            matches!(event, Event::Confirm { .. } | Event::Act(Act::Read { .. }))
        })?;
    }

    #[test]
    fn random_events_at_random_moments(picks in moments()) {
        live_random(&Plan::new(full()).unwrap(), picks)?;
    }

    #[test]
    fn any_text_is_read_or_refused(line in ".{0,80}") {
        read_or_refused::<Plan>(&line)?;
    }
}

#[test]
fn a_history_survives_being_stored() {
    survives_being_stored(&whole());
    for line in [
        "",
        "1 1 read",
        "1 1 read 0 ratio",
        "1 1 read 300 ratio 1",
        "1 1 reopened",
        "1 1 go roof",
    ] {
        assert!(Entry::from_line(line).is_err(), "{line}");
    }
}
