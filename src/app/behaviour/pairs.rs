//! Two cores together: how they share, and what to check before the last joint is closed.

use crate::app::basis::{Basis, Design, SecondCore};
use crate::magnetics::circuit::performance::{OtherCore, Rebuild};
use crate::magnetics::pairs::checks::{Joint, PairCheck, joint};
use crate::magnetics::pairs::{Donor, Joined, Pair, PairLoad, PairNumber, Phasing};
use crate::quantity::{Measured, Number, Origin, Resistance, Turns, Voltage};
use crate::rewind::limits;

/// What is no number of the design by itself.
const ROWS: [PairNumber; 3] = [
    PairNumber::FirstCurrent,
    PairNumber::SecondCurrent,
    PairNumber::Circulating,
];

/// The low voltage that both primaries get for the phasing test. Common practice, no source.
pub const PHASING_SUPPLY: Voltage = Voltage::from_si(12.0);

/// How two rebuilt donors behave together.
#[derive(Debug, Clone, PartialEq)]
pub struct PairingAnswer {
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// What to check before the last joint is closed.
    pub checks: Vec<PairCheck>,
    /// What a voltmeter between the free ends shows with [`PHASING_SUPPLY`] on both primaries: joined
    /// rightly, and with one winding turned round.
    pub phasing: [Voltage; 2],
    /// How the primaries are joined.
    pub primaries: (Joined, Joint),
    /// How the new windings are joined.
    pub windings: (Joined, Joint),
}

/// A core by itself with its winding. Each of two alike carries half of the load on the mains loop, which
/// counts as twice its resistance in each.
fn donor(rebuild: &Rebuild, design: &Design) -> Option<Donor> {
    let idle = rebuild.idle_current;
    if idle.value.si() <= 0.0 {
        return None;
    }
    let reactance = rebuild.mains.voltage.value / idle.value;
    let relative = idle.plus_minus.si() / idle.value.si();
    let winding = &design.candidate.winding;
    let core = OtherCore::of(rebuild, winding)?;
    let supply = rebuild.supply_resistance;
    let seen = 2.0 * core.ratio * core.ratio;
    let half = core.resistance.plus_minus.si().hypot(supply.plus_minus.si() * seen);
    Some(Donor {
        primary_turns: rebuild.primary.turns.value,
        winding_turns: Turns::from(winding.turns),
        resistance: Measured::new(
            core.resistance.value + supply.value * seen,
            Resistance::from_si(half),
            Origin::Computed,
        ),
        reactance: core.reactance,
        magnetising: Measured::new(reactance, reactance * relative, Origin::Computed),
    })
}

/// Both cores of a design as donors on their mains, and their load.
pub(super) fn on_its_load(answer: &Basis) -> Option<(Pair, PairLoad)> {
    let second_core: &SecondCore = answer.second.as_ref()?;
    let (first, second) = (&answer.problem.rebuild, &second_core.problem.rebuild);
    let (design, other) = (answer.design.as_ref()?, second_core.design.as_ref()?);
    let pair = Pair {
        donors: [donor(first, design)?, donor(second, other)?],
        primaries: Joined::Parallel,
        windings: second_core.windings,
        phasing: Phasing::Right,
        supply: first.mains.voltage,
    };
    let required = answer.goal.as_ref()?.requirements();
    let current = design.estimate.working_current.value;
    let estimate = &design.estimate;
    let reactor = estimate.series_reactance.value;
    // The load as a resistance: what it is at the working point; behind diodes what draws the winding's current.
    let resistance = match required.demand.direct {
        None => required.demand.load.volts(current) / current,
        Some(_) => {
            let amps = estimate.winding_current.value / first.winding_share();
            let whole = (estimate.open_circuit.value / amps).si();
            let across = (estimate.leakage_reactance.value + reactor).si();
            let along = (whole * whole - across * across).max(0.0).sqrt();
            Resistance::from_si((along - estimate.total_resistance.value.si()).max(0.0))
        }
    };
    let load = PairLoad::Impedance(resistance, reactor);
    Some((pair, load))
}

/// Both cores of a design on their mains and load, with the reactor that holds the current; `None` for
/// one core, without a winding, and where the numbers give none.
#[must_use]
pub fn pair(answer: &Basis) -> Option<PairingAnswer> {
    let (pair, load) = on_its_load(answer)?;
    let windings = &pair.windings;
    let (first, second) = (&answer.problem.rebuild, &answer.second.as_ref()?.problem.rebuild);
    let (design, required) = (answer.design.as_ref()?, answer.goal.as_ref()?.requirements());
    let (_, propagated) = pair.answer_with_uncertainty(load)?;
    let limit = required
        .open_circuit_most
        .map_or(limits::TOUCH_DRY.volts, |limit| limit.volts);
    let of_winding = |donor: &Donor| PHASING_SUPPLY * (donor.winding_turns / donor.primary_turns);
    let [one, two] = [of_winding(&pair.donors[0]), of_winding(&pair.donors[1])];
    let (sum, difference) = (one + two, (one - two).abs());
    Some(PairingAnswer {
        numbers: ROWS.map(|number| number.of(&propagated)).to_vec(),
        checks: pair.checks(
            load,
            [first.primary.rated.voltage, second.primary.rated.voltage],
            design.estimate.winding_current.value,
            Voltage::from_si(limit.si()),
        ),
        phasing: match windings {
            Joined::Series => [sum, difference],
            Joined::Parallel => [difference, sum],
        },
        primaries: (Joined::Parallel, joint(Joined::Parallel)),
        windings: (*windings, joint(*windings)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::{JobFile, Joining, PairChoice};

    fn of(found: &PairingAnswer, which: PairNumber) -> f64 {
        found.numbers.iter().find(|n| n.kind == which.kind()).unwrap().si.0
    }

    fn stick(windings: Joining) -> JobFile {
        let mut file = demo_job();
        file.choice = None;
        file.goal = goal_of("stick_welder");
        let goal = file.goal;
        file.conditions.want_as_much(&goal, true);
        file.conditions.pair = Some(PairChoice {
            name: "the other".into(),
            core: Box::new(file.core.clone()),
            windings,
        });
        file
    }

    /// Kirchhoff's laws for two cores that are alike: in series the same current flows in both, in
    /// parallel each carries half of the part's and nothing circulates.
    #[test]
    fn two_alike_share_what_the_design_says() {
        for (windings, share) in [(Joining::Series, 1.0), (Joining::Parallel, 0.5)] {
            let answer = basis(&stick(windings)).unwrap();
            let found = pair(&answer).unwrap();
            let whole = answer.design.as_ref().unwrap().estimate.working_current.value.si();
            for donor in [PairNumber::FirstCurrent, PairNumber::SecondCurrent] {
                let part = of(&found, donor) / whole;
                assert!((part / share - 1.0).abs() < 1e-6, "{windings:?} {donor:?}: {part}");
            }
            assert!(of(&found, PairNumber::Circulating).abs() < 1e-9);
        }
    }

    /// The choice goes through a job file and back: the pair needs no other job.
    #[test]
    fn a_chosen_pair_is_kept_with_the_job() {
        let file = stick(Joining::Series);
        let read = JobFile::parse(&file.to_json()).unwrap();
        assert_eq!(read, file);
        let answer = evaluate(&read).unwrap();
        assert_eq!(answer.pair().unwrap().windings.0, Joined::Series);
        assert_eq!(answer.second.as_ref().unwrap().name, "the other");
    }
}
