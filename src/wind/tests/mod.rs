//! The winding explored whole, tried at random, read back from forgeries, and counted by hand.

mod counted;
mod explored;

use super::step::{closing_of, gates};
use super::*;
use crate::procedure::explore::Explored;
use crate::quantity::{Length, Resistance};
use crate::safety::{Gate, Hazard};

/// A primary of 2 Ω.
const BAND: PrimaryBand = PrimaryBand {
    expected: Resistance::from_si(2.0),
    low: Resistance::from_si(1.8),
    high: Resistance::from_si(2.2),
    insulation: Resistance::from_si(2.5e6),
};

/// Readings that prove it whole.
const WHOLE: [Act; 2] = [
    Act::PrimaryResistance(Resistance::from_si(2.1)),
    Act::PrimaryInsulation(Resistance::from_si(1e9)),
];

/// Seven turns in layers of three; everything was taken apart and goes back.
fn plan() -> WindPlan {
    let mm = Length::from_mm;
    WindPlan {
        primary_back: true,
        shunts: true,
        core_opened: true,
        primary: Some(BAND),
        tapped: false,
        sheets: None,
        turns: 7,
        turns_per_layer: 3,
        pair: None,
        breadth: mm(33.0),
        build: mm(20.0),
        start: mm(1.0),
        turn_width: mm(10.0),
        layer_height: mm(5.0),
        interlayer: mm(0.1),
        perimeter: mm(160.0),
        leads: mm(400.0),
    }
    .checked()
    .unwrap()
}

impl Explored for WindPlan {
    type Key = Deciding;

    fn key(facts: &Facts) -> Self::Key {
        let is_good = |value: Option<Resistance>, good: Resistance| value.map(|value| value >= good);
        let primary = [
            is_good(facts.primary.resistance, BAND.low),
            is_good(facts.primary.insulation, BAND.insulation),
        ];
        (
            facts.counter.turns(),
            facts.counter.is_at_tap(&two_halves()),
            primary,
            facts.closing,
            facts.fixing,
            facts.pair_joined,
        )
    }

    /// Each hazard's gate; no turn of a transformer on a primary that was not proved whole; no weld over the
    /// gap of a coil; no pair in an enclosure before it is joined; nothing closed, grounded or enclosed before all turns are wound.
    fn guarded(&self, facts: &Facts, step: WindStep, held: &dyn Fn(Gate) -> bool) -> bool {
        let hazards = step.guide(self.kind(), facts.closing, facts.fixing).hazards;
        let gates = hazards.iter().all(|hazard| held(hazard.gate()));
        let arc = step != WindStep::Close
            || matches!(facts.closing, Some(Closing::Strap | Closing::Bolts))
            || (held(Gate::Arc) && held(Gate::Sparks) && held(Gate::HotPart));
        let primary = self.is_coil() || step <= WindStep::ProvePrimary || facts.primary.prove(&BAND).is_ok();
        let gapped = !self.is_coil() || facts.closing != Some(Closing::Weld);
        let wound = step <= WindStep::WindTurns || facts.counter.turns() == self.turns;
        let joined = match self.pair {
            None => true,
            Some(PairPart::First(_)) => step <= WindStep::JoinPair || facts.pair_joined,
            Some(PairPart::Second) => step < WindStep::JoinPair,
        };
        gates && arc && primary && gapped && wound && joined
    }

    fn acts(&self) -> Vec<Act> {
        let mut acts = vec![
            Act::Turn,
            Act::TakeBack,
            Act::EndLayer,
            Act::LeadTapOut,
            Act::OffShelf {
                wire: 1,
                takes: Length::from_si(2.0),
            },
            Act::BackOnShelf,
            Act::PairJoined(2),
            Act::FirstLayer(Length::from_mm(31.0)),
        ];
        acts.extend(WHOLE);
        acts.push(Act::PrimaryResistance(Resistance::from_si(0.4)));
        acts.extend(Closing::ALL.iter().map(|&closing| Act::Closing(closing)));
        acts.extend(Fixing::ALL.iter().map(|&fixing| Act::Fixing(fixing)));
        acts
    }

    fn all_gates(&self, step: WindStep) -> Vec<Gate> {
        let coil = self.is_coil();
        let closings = Closing::ALL.iter().copied().map(Some).chain([None]);
        let possible = closings.filter(|closing| !coil || *closing != Some(Closing::Weld));
        let both = possible.flat_map(|closing| {
            let fixings = Fixing::ALL.iter().copied().map(Some).chain([None]);
            fixings.map(move |fixing| (closing, fixing))
        });
        both.flat_map(|(closing, fixing)| gates(step, closing_of(coil, closing), fixing))
            .collect()
    }
}

/// What of the facts decides.
type Deciding = (u32, bool, [Option<bool>; 2], Option<Closing>, Option<Fixing>, bool);

/// One of two cores that work together, kept whole with its primary on it.
fn paired() -> WindPlan {
    WindPlan {
        primary_back: false,
        shunts: false,
        core_opened: false,
        turns: 1,
        pair: Some(PairPart::First(PairJoints {
            primaries_in_series: false,
            windings_in_series: true,
        })),
        turns_per_layer: 1,
        ..plan()
    }
}

/// Two turns with a tap between them, on a core that was kept whole.
fn two_halves() -> WindPlan {
    WindPlan {
        primary_back: false,
        shunts: false,
        core_opened: false,
        turns: 2,
        turns_per_layer: 1,
        tapped: true,
        ..plan()
    }
}

/// The coil of a choke: alone on its core, with a gap.
fn coil() -> WindPlan {
    WindPlan {
        primary_back: false,
        shunts: false,
        primary: None,
        sheets: Some(4),
        ..plan()
    }
}

/// A winding from start to end in one day.
fn whole(closing: Closing, fixing: Fixing) -> Wind {
    crate::procedure::explore::walk(plan(), |wind, step| match step {
        WindStep::ProvePrimary => WHOLE.to_vec(),
        WindStep::WindTurns => vec![Act::Turn; wind.plan().turns as usize],
        WindStep::Choose => vec![Act::Closing(closing), Act::Fixing(fixing)],
        _ => vec![],
    })
}

/// Every hazard has its gate, and no step brings mains to the part: that is the bench's.
#[test]
fn every_hazard_has_a_gate_and_none_is_mains() {
    for &step in WindStep::ALL {
        for closing in Closing::ALL.iter().copied().map(Some).chain([None]) {
            for fixing in Fixing::ALL.iter().copied().map(Some).chain([None]) {
                for guide in WindKind::ALL.map(|kind| step.guide(kind, closing, fixing)) {
                    for hazard in guide.hazards {
                        assert!(guide.gates.contains(&hazard.gate()), "{step:?} {hazard:?}");
                        assert!(
                            hazard.arises().contains(&crate::safety::Arises::Wind),
                            "{step:?} {hazard:?}"
                        );
                        assert!(!matches!(hazard, Hazard::Mains | Hazard::MainsOnBench), "{step:?}");
                    }
                }
            }
        }
    }
}
