//! The steps and their order.

use super::findings::{Findings, Way};
use crate::safety::Place;
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
        /// Take cord, fan, switches and cut-outs.
        KeepParts = "keep-parts",
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
    /// Where gates are passed for this step: its number, and its setup, which is where the work is
    /// done and with which kind of tool.
    pub(super) const fn place(self, way: Option<Way>) -> Place {
        let setup = match (self, way) {
            (
                Step::Prepare
                | Step::Unplug
                | Step::Open
                | Step::CapacitorSafe
                | Step::Disconnect
                | Step::Unbolt
                | Step::KeepParts
                | Step::Inspect
                | Step::ChooseWay,
                _,
            ) => 1,
            (Step::Split, Some(Way::Abrasive | Way::Grinder)) => 2,
            (Step::Split | Step::Remove | Step::Clean | Step::Measure, _) => 3,
            (Step::Warm, _) => 4,
            (Step::Store, _) => 5,
        };
        Place {
            number: self as u8,
            setup,
        }
    }

    /// True if the way chosen goes through this step. A core that stays whole is not split.
    pub(super) fn applies(self, findings: &Findings) -> bool {
        !(self == Step::Split && findings.way == Some(Way::DriveOut))
    }
}
