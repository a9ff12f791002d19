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
    let absent = [WindStep::CutShims, WindStep::JoinPair];
    for &step in WindStep::ALL {
        assert_eq!(seen.reached.contains(&step), !absent.contains(&step), "{step:?}");
    }
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
}

/// The same for a choke or a ballast: there is no primary, no barrier and no weld, and a gap is laid.
#[test]
fn no_sequence_of_events_welds_a_gap_or_reaches_a_hazard_without_its_gates() {
    let plan = WindPlan {
        turns: 2,
        turns_per_layer: 1,
        ..coil()
    };
    let seen = explore(&plan, &Situation::start());
    let absent = [
        WindStep::PrimaryBack,
        WindStep::ProvePrimary,
        WindStep::ShuntsBack,
        WindStep::Barrier,
        WindStep::JoinPair,
    ];
    for &step in WindStep::ALL {
        assert_eq!(seen.reached.contains(&step), !absent.contains(&step), "{step:?}");
    }
    assert!(!seen.guards.contains(&Gate::Arc), "nothing is welded");
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
}

/// The same for one of two cores: none is enclosed before both are joined.
#[test]
fn no_sequence_of_events_encloses_a_pair_that_is_not_joined() {
    let seen = explore(&paired(), &Situation::start());
    let absent = [
        WindStep::PrimaryBack,
        WindStep::ShuntsBack,
        WindStep::CutShims,
        WindStep::Close,
    ];
    for &step in WindStep::ALL {
        assert_eq!(seen.reached.contains(&step), !absent.contains(&step), "{step:?}");
    }
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
    let choke = WindPlan {
        pair: paired().pair,
        ..coil()
    };
    assert_eq!(choke.checked(), Err(PlanFault::Pair));
}

/// The same for the second core: it is neither joined nor enclosed by itself.
#[test]
fn no_sequence_of_events_joins_or_encloses_the_second_core() {
    let second = WindPlan {
        pair: Some(PairPart::Second),
        ..paired()
    };
    let seen = explore(&second, &Situation::start());
    let absent = [
        WindStep::PrimaryBack,
        WindStep::ShuntsBack,
        WindStep::CutShims,
        WindStep::Close,
        WindStep::JoinPair,
        WindStep::Enclose,
    ];
    for &step in WindStep::ALL {
        assert_eq!(seen.reached.contains(&step), !absent.contains(&step), "{step:?}");
    }
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
}

/// The same for a winding with a tap: no turn of the second half before the tap is led out.
#[test]
fn no_sequence_of_events_winds_past_the_tap() {
    let seen = explore(&two_halves(), &Situation::start());
    assert!(seen.phases.contains(&Phase::Ended(End::Wound)));
    assert!(seen.reached.contains(&WindStep::LeadOut));
}

/// A gap needs an opened core with nothing else on it.
#[test]
fn a_coils_plan_is_alone_on_an_opened_core() {
    assert_eq!(coil().checked(), Ok(coil()));
    for wrong in [
        WindPlan {
            core_opened: false,
            ..coil()
        },
        WindPlan {
            primary_back: true,
            ..coil()
        },
        WindPlan { shunts: true, ..coil() },
        WindPlan {
            sheets: Some(0),
            ..coil()
        },
        WindPlan {
            sheets: Some(1001),
            ..coil()
        },
    ] {
        assert_eq!(wrong.checked(), Err(PlanFault::Gap), "{wrong:?}");
    }
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
            matches!(
                event,
                Event::Confirm { .. } | Event::Act(Act::Turn | Act::PrimaryResistance(_) | Act::PrimaryInsulation(_))
            )
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
