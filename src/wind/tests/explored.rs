//! Every state there is, events at random, and forged histories.

use proptest::prelude::*;

use super::*;
use crate::procedure::Situation;
use crate::procedure::explore::{
    explore, forgery, live_forged, live_random, moments, read_or_refused, refused_without, survives_being_stored,
};

#[test]
fn no_sequence_of_events_reaches_a_hazard_without_its_gates() {
    let seen = explore(
        &WindPlan {
            turns: 2,
            turns_per_layer: 1,
            ..plan()
        },
        &Situation::start(),
    );
    println!("{} states", seen.states);
    for gate in [
        Gate::OldInsulation,
        Gate::OldWindingOut,
        Gate::InsulationTester,
        Gate::Arc,
        Gate::Sparks,
        Gate::Fumes,
        Gate::HotPart,
        Gate::HeavyPart,
        Gate::Hands,
        Gate::Cutting,
    ] {
        assert!(seen.guards.contains(&gate), "{gate:?}");
    }
    assert_eq!(seen.reached.len(), WindStep::ALL.len(), "every step can be reached");
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn forged_histories_stand_nowhere_without_gates(forged in forgery(), closing in 0usize..3) {
        live_forged(&whole(Closing::ALL[closing], Fixing::OvenVarnish), forged)?;
    }

    #[test]
    fn a_history_without_one_confirmation_or_turn_is_refused(pick in any::<prop::sample::Index>()) {
        refused_without(&whole(Closing::Weld, Fixing::OvenVarnish), pick, |event| {
            matches!(event, Event::Confirm { .. } | Event::Act(Act::Turn | Act::Primary(_)))
        })?;
    }

    #[test]
    fn random_events_at_random_moments(picks in moments()) {
        live_random(&plan(), picks)?;
    }

    #[test]
    fn any_text_is_read_or_refused(line in ".{0,80}") {
        read_or_refused::<WindPlan>(&line)?;
    }
}

#[test]
fn a_history_survives_being_stored() {
    for &closing in Closing::ALL {
        for &fixing in Fixing::ALL {
            survives_being_stored(&whole(closing, fixing));
        }
    }
}
