//! Two rebuilt donors together.

use super::{Number, Row, numbers};
use crate::app::answer::{Answer, Design};
use crate::magnetics::pair_checks::{Joint, PairCheck, joint};
use crate::magnetics::pairs::{Donor, Joined, Pair, PairAnswer, PairLoad, Phasing};
use crate::quantity::{Measured, Origin, Resistance, Turns, Voltage};
use crate::rewind::limits;

const ROWS: &[Row] = &[
    ("open_voltage", "ui-open-voltage", 1.0, "V"),
    ("load_current", "ui-pair-current", 1.0, "A"),
    ("load_voltage", "ui-pair-voltage", 1.0, "V"),
    ("first_current", "ui-first-current", 1.0, "A"),
    ("second_current", "ui-second-current", 1.0, "A"),
    ("circulating", "ui-circulating", 1.0, "A"),
    ("first_primary", "ui-first-primary", 1.0, "V"),
    ("second_primary", "ui-second-primary", 1.0, "V"),
];

/// How two rebuilt donors behave together.
#[derive(Debug, Clone, PartialEq)]
pub struct PairingAnswer {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// What to check before the last joint is closed.
    pub checks: Vec<PairCheck>,
    /// How the primaries are joined.
    pub primaries: (Joined, Joint),
    /// How the new windings are joined.
    pub windings: (Joined, Joint),
}

fn donor(answer: &Answer, design: &Design) -> Option<Donor> {
    let rebuild = &answer.problem.rebuild;
    let estimate = &design.estimate;
    let idle = rebuild.idle_current;
    if idle.value.si() <= 0.0 {
        return None;
    }
    let reactance = rebuild.mains.voltage.value / idle.value;
    let relative = idle.plus_minus.si() / idle.value.si();
    let computed = |e: crate::quantity::Estimate<Resistance>| Measured::new(e.value, e.plus_minus, Origin::Computed);
    Some(Donor {
        primary_turns: rebuild.primary.turns.value,
        winding_turns: Turns::from(design.candidate.winding.turns),
        resistance: computed(estimate.total_resistance),
        reactance: computed(estimate.leakage_reactance),
        magnetising: Measured::new(reactance, reactance * relative, Origin::Computed),
    })
}

/// Two jobs' designs joined on the first one's mains and load; none where one has no design or
/// the numbers give none.
#[must_use]
pub fn pair(first: &Answer, second: &Answer, primaries: Joined, windings: Joined) -> Option<PairingAnswer> {
    let (design, other) = (first.design.as_ref()?, second.design.as_ref()?);
    let pair = Pair {
        donors: [donor(first, design)?, donor(second, other)?],
        primaries,
        windings,
        phasing: Phasing::Right,
        supply: first.problem.rebuild.mains.voltage,
    };
    let demand = first.goal.as_ref()?.requirements().demand;
    // The load as a resistance: what it is at the working point.
    let load = PairLoad::Impedance(demand.load.volts(demand.current) / demand.current, Resistance::ZERO);
    let (_, propagated) = pair.answer_with_uncertainty(load)?;
    let rated = |answer: &Answer| answer.problem.rebuild.primary.rated.voltage;
    let limit = first
        .goal
        .as_ref()?
        .requirements()
        .open_circuit_most
        .map_or(limits::TOUCH_DRY.volts, |limit| limit.volts);
    Some(PairingAnswer {
        numbers: numbers(PairAnswer::FIELDS, PairAnswer::UNITS, &propagated, ROWS),
        checks: pair.checks(
            load,
            [rated(first), rated(second)],
            design.estimate.working_current.value,
            Voltage::from_si(limit.si()),
        ),
        primaries: (primaries, joint(primaries)),
        windings: (windings, joint(windings)),
    })
}
