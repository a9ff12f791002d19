//! Keep the shunts or pull them: from the two output curves.

use crate::magnetics::circuit::shunts::Shunts;
use crate::magnetics::circuit::{ShellAnswer, ShellCircuit};
use crate::quantity::{Current, Ratio, Voltage};

/// What the new winding's load wants.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Wanted {
    /// A voltage that hardly falls with current: supplies, chargers, heaters, spot welding.
    StiffVoltage,
    /// A current that a short circuit hardly raises: an arc.
    DroopingCurve,
}

/// What to do with the shunts, and why.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ShuntAdvice {
    /// Leave them in.
    Keep(KeepReason),
    /// Take them out.
    Pull(PullReason),
}

/// Why the shunts stay.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum KeepReason {
    /// Even with them the voltage falls by less than [`SAG_ALLOWED`].
    HardlyFelt {
        /// Fall of the voltage from no load to the working current with them.
        with: Ratio,
        /// And without.
        without: Ratio,
    },
    /// They hold the short-circuit current down, as an arc wants.
    HoldsTheCurrent {
        /// Short-circuit current with them.
        with: Current,
        /// And without.
        without: Current,
    },
}

/// Why the shunts go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum PullReason {
    /// With them the voltage falls too far.
    VoltageSags {
        /// Terminal voltage at the working current with them (zero if it is not reached).
        with: Voltage,
        /// And without.
        without: Voltage,
    },
    /// With them the working current is not reached at the voltage the load needs.
    TooLittleCurrent {
        /// Short-circuit current with them.
        with: Current,
        /// And without.
        without: Current,
    },
}

/// A stiff supply may fall by a tenth from no load to the working current. Common practice, no
/// source.
pub const SAG_ALLOWED: Ratio = Ratio::from_si(0.1);

impl Wanted {
    /// The figure that the advice turns on, from the circuit with shunts in: for a stiff supply the
    /// share by which the voltage falls to the working current (they stay up to [`SAG_ALLOWED`]),
    /// for an arc the volts left over what it needs there (they stay from zero on).
    #[must_use]
    pub fn figure(self, open: Voltage, working: Voltage, load: Voltage) -> f64 {
        match self {
            Self::StiffVoltage => 1.0 - working / open,
            Self::DroopingCurve => (working - load).si(),
        }
    }

    /// Where that figure turns the advice.
    #[must_use]
    pub const fn turns_at(self) -> f64 {
        match self {
            Self::StiffVoltage => SAG_ALLOWED.si(),
            Self::DroopingCurve => 0.0,
        }
    }
}

/// Whether shunts stay, from the circuit's answers with and without them, for a load that needs
/// `load_voltage` at the working current (which a stiff supply is not asked for).
#[must_use]
pub fn advise(with: &ShellAnswer, without: &ShellAnswer, wanted: Wanted, load_voltage: Voltage) -> ShuntAdvice {
    let figure = |way: &ShellAnswer| wanted.figure(way.open_voltage, way.working_voltage, load_voltage);
    match wanted {
        Wanted::StiffVoltage => {
            if figure(with) <= wanted.turns_at() {
                ShuntAdvice::Keep(KeepReason::HardlyFelt {
                    with: Ratio::from_si(figure(with)),
                    without: Ratio::from_si(figure(without)),
                })
            } else {
                ShuntAdvice::Pull(PullReason::VoltageSags {
                    with: with.working_voltage,
                    without: without.working_voltage,
                })
            }
        }
        Wanted::DroopingCurve => {
            let (with_current, without_current) = (with.short_circuit, without.short_circuit);
            if figure(with) < wanted.turns_at() {
                ShuntAdvice::Pull(PullReason::TooLittleCurrent {
                    with: with_current,
                    without: without_current,
                })
            } else {
                ShuntAdvice::Keep(KeepReason::HoldsTheCurrent {
                    with: with_current,
                    without: without_current,
                })
            }
        }
    }
}

impl ShellCircuit<'_> {
    /// Whether `shunts` stay, for a load that draws `working` and (for an arc) needs
    /// `load_voltage` at it. `None` where the inputs make no sense.
    #[must_use]
    pub fn advise(
        &self,
        shunts: Shunts,
        wanted: Wanted,
        working: Current,
        load_voltage: Voltage,
    ) -> Option<ShuntAdvice> {
        let with = Self {
            shunts: Some(shunts),
            ..*self
        }
        .answer(working)?;
        let without = Self { shunts: None, ..*self }.answer(working)?;
        Some(advise(&with, &without, wanted, load_voltage))
    }
}
