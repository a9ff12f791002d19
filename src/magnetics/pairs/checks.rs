//! Before two donors are joined: which ends meet, and what to check first.

use crate::magnetics::pairs::{Joined, Pair, PairAnswer, PairLoad, Phasing};
use crate::quantity::{Current, Ratio, Voltage};

/// Which donor.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Which {
    /// The first.
    First,
    /// The second.
    Second,
}

/// An end of a coil; the dotted ends of the coils on one core are positive together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoilEnd {
    /// With the dot.
    Dot,
    /// Without.
    Plain,
}

/// A terminal of a winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Terminal {
    /// Whose winding.
    pub donor: Which,
    /// Which end.
    pub end: CoilEnd,
}

/// Which terminals of two coils meet, and which pairs go out. For a drawing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Joint {
    /// Terminals that are tied together: one tie in series, two in parallel.
    pub ties: [Option<(Terminal, Terminal)>; 2],
    /// The two terminals to the load or the mains.
    pub out: (Terminal, Terminal),
}

/// Right joints: in series the plain end of the first meets the dot of the second; in parallel
/// dot meets dot and plain meets plain.
#[must_use]
pub const fn joint(joined: Joined) -> Joint {
    const fn terminal(donor: Which, end: CoilEnd) -> Terminal {
        Terminal { donor, end }
    }
    const FIRST_DOT: Terminal = terminal(Which::First, CoilEnd::Dot);
    const FIRST_PLAIN: Terminal = terminal(Which::First, CoilEnd::Plain);
    const SECOND_DOT: Terminal = terminal(Which::Second, CoilEnd::Dot);
    const SECOND_PLAIN: Terminal = terminal(Which::Second, CoilEnd::Plain);
    match joined {
        Joined::Series => Joint {
            ties: [Some((FIRST_PLAIN, SECOND_DOT)), None],
            out: (FIRST_DOT, SECOND_PLAIN),
        },
        Joined::Parallel => Joint {
            ties: [Some((FIRST_DOT, SECOND_DOT)), Some((FIRST_PLAIN, SECOND_PLAIN))],
            out: (FIRST_DOT, FIRST_PLAIN),
        },
    }
}

/// The same with the last joint open: one tie, and the two free ends that the phasing test reads between.
#[must_use]
pub const fn joint_open(joined: Joined) -> Joint {
    const fn plain(donor: Which) -> Terminal {
        Terminal {
            donor,
            end: CoilEnd::Plain,
        }
    }
    let whole = joint(joined);
    Joint {
        ties: [whole.ties[0], None],
        out: match joined {
            Joined::Series => whole.out,
            Joined::Parallel => (plain(Which::First), plain(Which::Second)),
        },
    }
}

/// What a voltmeter between the two free ends says when one end of each winding is tied.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PhasingReading {
    /// It reads the sum: unlike ends are tied. Right for series.
    Adding,
    /// It reads the difference: like ends are tied. Right for parallel.
    Opposing,
    /// It reads neither: a joint is open, or the readings belong to other coils.
    Unclear,
}

/// Reads the phasing test: within a tenth of the sum, or within a tenth of the sum of the
/// difference, of the two windings' voltages.
#[must_use]
pub fn read_phasing(reading: Voltage, first: Voltage, second: Voltage) -> PhasingReading {
    let sum = first + second;
    let near = |expected: Voltage| (reading - expected).abs() <= sum * 0.1;
    match (near(sum), near((first - second).abs())) {
        (true, false) => PhasingReading::Adding,
        (false, true) => PhasingReading::Opposing,
        // One winding far below the other: sum and difference look alike.
        _ => PhasingReading::Unclear,
    }
}

/// What to check, or what forbids the joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PairCheck {
    /// Always: find the dots by the phasing test, fused, before the last joint is closed.
    TestPhasing,
    /// Always: each donor gets a fuse of its own.
    FuseEach,
    /// In parallel: the windings' voltages differ, and this current goes round for nothing.
    Circulates {
        /// The current.
        current: Current,
    },
    /// In parallel: the windings do not share the load evenly; the larger share of the current.
    UnevenShare {
        /// 0.5 would be even.
        share: Ratio,
    },
    /// Primaries in series: one primary gets more than its own voltage and saturates.
    PrimaryOverfed {
        /// Which donor.
        donor: Which,
        /// Voltage on its primary.
        voltage: Voltage,
        /// What it is made for.
        rated: Voltage,
    },
    /// The second winding is turned round: in parallel this is a short circuit.
    Reversed {
        /// Current that goes round without load.
        current: Current,
    },
    /// The voltage of the pair is above the limit given.
    VoltageAbove {
        /// Open-circuit voltage of the pair.
        voltage: Voltage,
        /// The limit.
        limit: Voltage,
    },
}

impl Pair {
    /// What to check before joining. `rated` are the voltages the primaries are made for,
    /// `working` the current of one winding, `limit` the highest open-circuit voltage allowed.
    /// Thresholds (5 % of the working current going round, 60 to 40 sharing, 5 % above the rated
    /// voltage) are common practice, no source.
    #[must_use]
    pub fn checks(&self, load: PairLoad, rated: [Voltage; 2], working: Current, limit: Voltage) -> Vec<PairCheck> {
        let mut checks = vec![PairCheck::TestPhasing, PairCheck::FuseEach];
        let Some(answer) = self.answer(load) else {
            return checks;
        };
        if self.phasing == Phasing::Reversed {
            checks.push(PairCheck::Reversed {
                current: answer.circulating,
            });
        } else if answer.circulating > working * 0.05 {
            checks.push(PairCheck::Circulates {
                current: answer.circulating,
            });
        }
        if let Some(share) = uneven(self.windings, &answer) {
            checks.push(PairCheck::UnevenShare { share });
        }
        let fed = [
            (Which::First, answer.first_primary, rated[0]),
            (Which::Second, answer.second_primary, rated[1]),
        ];
        for (donor, voltage, rated) in fed {
            if voltage > rated * 1.05 {
                checks.push(PairCheck::PrimaryOverfed { donor, voltage, rated });
            }
        }
        if answer.open_voltage > limit {
            checks.push(PairCheck::VoltageAbove {
                voltage: answer.open_voltage,
                limit,
            });
        }
        checks
    }
}

fn uneven(windings: Joined, answer: &PairAnswer) -> Option<Ratio> {
    let both = (answer.first_current + answer.second_current).si();
    if windings == Joined::Series || both <= 0.0 {
        return None;
    }
    let share = answer.first_current.max(answer.second_current).si() / both;
    (share > 0.6).then_some(Ratio::from_si(share))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Before the last joint one tie is left, and the free ends are those that it would join: the voltage between
    /// them is the sum in series and the difference in parallel (Kirchhoff's voltage law).
    #[test]
    fn the_last_joint_is_open_for_the_phasing_test() {
        // Potential of an end above its coil's plain end, with 1 V over each coil.
        let above_plain = |terminal: Terminal| if terminal.end == CoilEnd::Dot { 1.0 } else { 0.0 };
        for (joined, between) in [(Joined::Series, 2.0), (Joined::Parallel, 0.0)] {
            let open = joint_open(joined);
            let (first, second) = open.ties[0].expect("one tie");
            assert!(open.ties[1].is_none() && first.donor != second.donor, "{joined:?}");
            let plain_of_second = above_plain(first) - above_plain(second);
            let (from, to) = open.out;
            assert!(from.donor == Which::First && to.donor == Which::Second, "{joined:?}");
            let volts: f64 = above_plain(from) - (above_plain(to) + plain_of_second);
            assert!((volts.abs() - between).abs() < 1e-12, "{joined:?}: {volts}");
        }
    }
}
