//! The safety of the state machine: explored whole, tried at random, and read back from forgeries.

mod explored;
mod lived;

use super::guide::gates;
use super::*;
use crate::procedure::explore::{Explored, walk};
use crate::procedure::{Event as AnyEvent, advance};
use crate::quantity::{Length, Mass, Voltage};
use crate::safety::{Gate, Hazard, Item, Lasts, Moment, TouchLimit};
use crate::wire::Metal;

fn proof(volts: f64) -> Proof {
    let reading = Voltage::from_si(volts);
    Proof {
        between: reading,
        first_to_chassis: reading,
        second_to_chassis: Voltage::from_si(0.0),
        limit: TouchLimit::default(),
    }
}

impl Explored for TeardownProcedure {
    /// What is recorded decides no gate, except for these.
    type Key = (Option<Supply>, Option<Way>);

    fn key(facts: &Facts) -> Self::Key {
        (facts.findings.supply, facts.findings.way)
    }

    /// Every hazard of the step has its gate: said in full and apart from the code under test. The
    /// capacitor is safe, the plug is out, or the step has no such hazard.
    fn guarded(&self, facts: &Facts, step: Step, held: &dyn Fn(Gate) -> bool) -> bool {
        let hazards = step.guide(&facts.findings).hazards;
        hazards.iter().all(|&hazard| match hazard {
            Hazard::ChargedCapacitor if matches!(step, Step::Open | Step::CapacitorSafe) => held(Gate::CapacitorTool),
            Hazard::ChargedCapacitor => held(Gate::Capacitor),
            other => held(other.gate()),
        })
    }

    fn acts(&self) -> Vec<Act> {
        let mut acts = vec![
            Act::PluggedIn,
            Act::Prove(proof(3.0)),
            Act::Prove(proof(700.0)),
            Act::Found(Finding::Supply(Supply::Transformer)),
            Act::Found(Finding::Supply(Supply::Inverter)),
            Act::Found(Finding::WindingAtBack(Winding::Primary)),
            Act::Found(Finding::Shunts(ShuntFate::Keep)),
        ];
        acts.extend(Way::ALL.iter().map(|&way| Act::Found(Finding::Way(way))));
        acts
    }

    fn confirming(&self, toward: Step, item: Item) -> AnyEvent<Self> {
        match item {
            Item::ProvedByMeter => Event::Act(Act::Prove(proof(2.0))),
            item => Event::Confirm { toward, item },
        }
    }

    fn all_gates(&self, step: Step) -> Vec<Gate> {
        let ways = Way::ALL.iter().copied().map(Some).chain([None]);
        ways.flat_map(|way| gates(step, way)).collect()
    }
}

/// How many times a button is held in a history.
fn holds(entries: &[Entry]) -> usize {
    entries
        .iter()
        .filter(|entry| {
            matches!(
                entry.event,
                Event::Confirm { .. } | Event::Act(Act::Prove(_)) | Event::Renew { .. }
            )
        })
        .count()
}

/// A whole teardown, as somebody careful does it in one day.
fn whole(way: Way) -> Teardown {
    let found = |step| match step {
        Step::Open => vec![Finding::Supply(Supply::Transformer)],
        Step::Disconnect => vec![Finding::WireCount(4), Finding::Terminals(5)],
        Step::Unbolt => vec![Finding::TransformerMass(Mass::from_si(4.2))],
        Step::Inspect => vec![
            Finding::WindingAtBack(Winding::Primary),
            Finding::PrimaryMetal(Metal::Aluminium),
            Finding::SeamThickness(Length::from_mm(1.5)),
        ],
        Step::ChooseWay => vec![Finding::Way(way), Finding::Shunts(ShuntFate::LeaveOut)],
        _ => vec![],
    };
    walk(TeardownProcedure, |_, step| {
        found(step).into_iter().map(Act::Found).collect()
    })
}
