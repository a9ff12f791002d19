//! The steps and their order.

use super::findings::{Findings, Way};
use crate::words::words;

words! {
    /// A step of the teardown, in order.
    pub enum Step, "step" {
        /// Lay out the place and the tools.
        Prepare = "prepare",
        /// Pull the plug.
        Unplug = "unplug",
        /// Take the cover off and look, hands out.
        Open = "open",
        /// Discharge, prove and short the capacitor.
        CapacitorSafe = "capacitor-safe",
        /// Take the wires off.
        Disconnect = "disconnect",
        /// Take the transformer out.
        Unbolt = "unbolt",
        /// Look at windings and shunts.
        Inspect = "inspect",
        /// Choose how to get the old winding out.
        ChooseWay = "choose-way",
        /// Cut the seam weld and part E and I.
        Split = "split",
        /// Warm the varnish.
        Warm = "warm",
        /// Take windings and shunts off.
        Remove = "remove",
        /// Clean the core.
        Clean = "clean",
        /// Measure it.
        Measure = "measure",
        /// Put it away.
        Store = "store",
    }
}

impl Step {
    /// The number that gates passed for this step alone are kept under.
    pub(super) const fn place(self) -> u8 {
        self as u8
    }

    /// True if the way chosen goes through this step. A core that stays whole is not split.
    #[must_use]
    pub fn applies(self, findings: &Findings) -> bool {
        !(self == Step::Split && findings.way == Some(Way::DriveOut))
    }

    /// The step after this one.
    #[must_use]
    pub fn next(self, findings: &Findings) -> Option<Step> {
        Step::ALL
            .iter()
            .copied()
            .find(|&step| step > self && step.applies(findings))
    }

    /// The step before this one.
    #[must_use]
    pub fn previous(self, findings: &Findings) -> Option<Step> {
        Step::ALL
            .iter()
            .rev()
            .copied()
            .find(|&step| step < self && step.applies(findings))
    }
}
