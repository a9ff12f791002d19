//! Every state there is, events at random, and forged histories.

use proptest::prelude::*;

use super::*;
use crate::procedure::Situation;
use crate::procedure::explore::{
    explore, forgery, live_forged, live_random, moments, read_or_refused, refused_without, survives_being_stored,
};
use crate::safety::LineError;

#[test]
fn no_sequence_of_events_reaches_a_hazard_without_its_gates() {
    let mut start = Situation::<TeardownProcedure>::start();
    start.facts.findings.supply = Some(Supply::Transformer);
    start.facts.findings.at_back = Some(Winding::Primary);
    start.facts.findings.shunts = Some(ShuntFate::Keep);
    let seen = explore(&TeardownProcedure, &start);
    println!("{} states", seen.states);
    assert_eq!(seen.guards.len(), 12, "{:?}", seen.guards);
    assert_eq!(seen.reached.len(), Step::ALL.len(), "every step can be reached");
    assert!(seen.phases.contains(&Phase::Ended(End::Stored)) && seen.phases.contains(&Phase::Ended(End::NoCore)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn forged_histories_stand_nowhere_without_gates(forged in forgery(), way in 0usize..4) {
        live_forged(&whole(Way::ALL[way]), forged)?;
    }

    #[test]
    fn a_history_without_one_confirmation_is_refused(pick in any::<prop::sample::Index>(), way in 0usize..4) {
        refused_without(&whole(Way::ALL[way]), pick, |event| {
            matches!(event, Event::Confirm { .. } | Event::Act(Act::Prove(_)))
        })?;
    }

    #[test]
    fn random_events_at_random_moments(picks in moments()) {
        live_random(&TeardownProcedure, picks)?;
    }

    #[test]
    fn any_text_is_read_or_refused(line in ".{0,80}") {
        read_or_refused::<TeardownProcedure>(&line)?;
    }
}

#[test]
fn a_history_survives_being_stored() {
    for &way in Way::ALL {
        survives_being_stored(&whole(way));
    }
}

#[test]
fn a_limit_can_not_be_forged() {
    let forged = "1000 1 prove 500 500 500 1000";
    assert_eq!(Entry::from_line(forged), Err(LineError::of(forged)));
    for line in [
        "",
        "1 1",
        "1 1 go",
        "1 1 go moon",
        "1 1 finish now",
        "x 1 finish",
        "1 1 confirm open",
    ] {
        assert!(Entry::from_line(line).is_err(), "{line}");
    }
}
