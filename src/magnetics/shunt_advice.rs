//! Keep the shunts or pull them: from the two output curves.

use super::circuit::ShellCircuit;
use super::shunts::Shunts;
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
        Some(match wanted {
            Wanted::StiffVoltage => {
                let [sag, sag_without] =
                    [with, without].map(|way| Ratio::from_si(1.0 - way.working_voltage / way.open_voltage));
                if sag <= SAG_ALLOWED {
                    ShuntAdvice::Keep(KeepReason::HardlyFelt {
                        with: sag,
                        without: sag_without,
                    })
                } else {
                    ShuntAdvice::Pull(PullReason::VoltageSags {
                        with: with.working_voltage,
                        without: without.working_voltage,
                    })
                }
            }
            Wanted::DroopingCurve => {
                if with.working_voltage < load_voltage {
                    ShuntAdvice::Pull(PullReason::TooLittleCurrent {
                        with: with.short_circuit,
                        without: without.short_circuit,
                    })
                } else {
                    ShuntAdvice::Keep(KeepReason::HoldsTheCurrent {
                        with: with.short_circuit,
                        without: without.short_circuit,
                    })
                }
            }
        })
    }
}
