//! What else is worth pulling.

use super::sighting::{Damage, Sighting};
use crate::safety::Hazard;
use crate::words::words;

words! {
    /// A part of the donor beside its transformer.
    pub enum PullPart, "part" {
        /// The cooling fan.
        Fan = "fan",
        /// The mains cord.
        Cord = "cord",
        /// Door interlock switches.
        Interlocks = "interlocks",
        /// Thermal cut-outs.
        CutOuts = "cut-outs",
        /// Relays and switches.
        Switches = "switches",
        /// The turntable motor.
        TurntableMotor = "turntable-motor",
        /// The lamp.
        Lamp = "lamp",
        /// Ring magnets.
        Magnets = "magnets",
        /// The high-voltage diode.
        Diode = "diode",
        /// The high-voltage capacitor.
        Capacitor = "capacitor",
    }
}

words! {
    /// How much a part is worth keeping.
    pub enum PartWorth, "worth" {
        /// The rebuilt core wants it.
        ForTheRebuild = "for-the-rebuild",
        /// Useful in the workshop.
        Workshop = "workshop",
        /// Leave it whole for electronic waste.
        Waste = "waste",
    }
}

impl PullPart {
    /// How much it is worth keeping (common practice, no source).
    #[must_use]
    pub const fn worth(self) -> PartWorth {
        match self {
            PullPart::Fan | PullPart::Cord | PullPart::Interlocks | PullPart::CutOuts => PartWorth::ForTheRebuild,
            PullPart::Switches | PullPart::TurntableMotor | PullPart::Lamp => PartWorth::Workshop,
            PullPart::Magnets | PullPart::Diode | PullPart::Capacitor => PartWorth::Waste,
        }
    }

    /// What can hurt about it. Everything is pulled after the capacitor was discharged.
    #[must_use]
    pub const fn hazards(self) -> &'static [Hazard] {
        match self {
            PullPart::Capacitor => &[Hazard::ChargedCapacitor, Hazard::CapacitorOil],
            PullPart::Diode => &[Hazard::ChargedCapacitor],
            PullPart::Magnets => &[Hazard::StrongMagnets, Hazard::Beryllia],
            _ => &[],
        }
    }

    /// The id of the text that says what it is worth keeping for.
    #[must_use]
    pub fn worth_key(self) -> String {
        format!("{}.worth", self.key())
    }
}

/// The parts to look at in this donor, most useful first.
#[must_use]
pub fn parts_to_pull(sighting: &Sighting) -> Vec<PullPart> {
    let has = |damage| sighting.damage.contains(&damage);
    let there = |part: &PullPart| match part {
        PullPart::Cord => !has(Damage::CordCut),
        PullPart::Fan | PullPart::TurntableMotor | PullPart::Switches | PullPart::CutOuts => !has(Damage::Flooded),
        _ => true,
    };
    PullPart::ALL.iter().copied().filter(there).collect()
}
