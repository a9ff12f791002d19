//! Two rebuilt donors together.

use crate::app::basis::{Basis, Design};
use crate::job::{JobFile, Joining};
use crate::magnetics::pairs::checks::{Joint, PairCheck, joint};
use crate::magnetics::pairs::{Donor, Joined, Pair, PairLoad, PairNumber, Phasing};
use crate::quantity::{Measured, Number, Origin, Resistance, Turns, Voltage};
use crate::rewind::limits;

const ROWS: [PairNumber; 8] = [
    PairNumber::OpenVoltage,
    PairNumber::LoadCurrent,
    PairNumber::LoadVoltage,
    PairNumber::FirstCurrent,
    PairNumber::SecondCurrent,
    PairNumber::Circulating,
    PairNumber::FirstPrimary,
    PairNumber::SecondPrimary,
];

/// How the coils of a recorded pair are joined.
#[must_use]
pub const fn joined(word: Joining) -> Joined {
    match word {
        Joining::Series => Joined::Series,
        Joining::Parallel => Joined::Parallel,
    }
}

/// The pair that a job's person chose; none without one, where the other job is not at hand, or as
/// in [`pair`].
#[must_use]
pub fn chosen(file: &JobFile, answer: &Basis) -> Option<PairingAnswer> {
    let choice = file.conditions.pair?;
    let (_, other) = &**answer.beside.as_ref()?;
    pair(answer, other, joined(choice.primaries), joined(choice.windings))
}

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

fn donor(answer: &Basis, design: &Design) -> Option<Donor> {
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
pub fn pair(first: &Basis, second: &Basis, primaries: Joined, windings: Joined) -> Option<PairingAnswer> {
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
    let rated = |answer: &Basis| answer.problem.rebuild.primary.rated.voltage;
    let limit = first
        .goal
        .as_ref()?
        .requirements()
        .open_circuit_most
        .map_or(limits::TOUCH_DRY.volts, |limit| limit.volts);
    Some(PairingAnswer {
        numbers: ROWS.map(|number| number.of(&propagated)).to_vec(),
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::evaluation::evaluate;
    use crate::app::start::demo_job;
    use crate::job::{JobId, PairChoice};
    use crate::quantity::Quantity;

    fn of(found: &PairingAnswer, which: PairNumber) -> f64 {
        found.numbers.iter().find(|n| n.kind == which.kind()).unwrap().si.0
    }

    /// Kirchhoff's laws for two alike: in series the voltages add, side by side each carries half and
    /// nothing circulates.
    #[test]
    fn two_alike_add_or_share() {
        let one = basis(&demo_job()).unwrap();
        let alone = one.design.as_ref().unwrap().estimate.open_circuit.value.si();
        let series = pair(&one, &one, Joined::Parallel, Joined::Series).unwrap();
        let beside = pair(&one, &one, Joined::Parallel, Joined::Parallel).unwrap();
        assert!((of(&series, PairNumber::OpenVoltage) / (2.0 * alone) - 1.0).abs() < 0.03);
        assert!((of(&beside, PairNumber::OpenVoltage) / alone - 1.0).abs() < 0.03);
        let half = of(&beside, PairNumber::LoadCurrent) / 2.0;
        for donor in [PairNumber::FirstCurrent, PairNumber::SecondCurrent] {
            assert!((of(&beside, donor) / half - 1.0).abs() < 1e-6, "{donor:?}");
        }
        assert!(of(&beside, PairNumber::Circulating).abs() < 1e-9);
    }

    /// The choice goes through a job file and back, and is answered where the other job is at hand.
    #[test]
    fn a_chosen_pair_is_kept_with_the_job() {
        let mut file = demo_job();
        let other = JobId("018f0000-0000-7000-8000-000000000001".parse().unwrap());
        file.conditions.pair = Some(PairChoice {
            other,
            primaries: Joining::Parallel,
            windings: Joining::Series,
        });
        let read = JobFile::parse(&file.to_json()).unwrap();
        assert_eq!(read.conditions.pair, file.conditions.pair);
        let alone = basis(&read).unwrap();
        assert_eq!(chosen(&read, &alone), None);
        let joined = evaluate(&read).unwrap();
        assert_eq!(joined.pair(), None);
        let joined = joined.joined_with(|id| (id == other).then(demo_job));
        let found = joined.pair().unwrap();
        assert_eq!(found.windings.0, Joined::Series);
        assert_eq!(found.numbers[0].kind.ending, Voltage::FILE_ENDING);
    }
}
