//! The gates: lists of items, and how long a pass lasts.

use super::items::Item;
use crate::words::words;

words! {
    /// A full stop in front of a hazard.
    pub enum Gate, "gate" {
        /// The plug is out and in sight.
        Unplugged = "unplugged",
        /// Tool, meter, training and company for work on the capacitor.
        CapacitorTool = "capacitor-tool",
        /// The capacitor is discharged, proved and left shorted.
        Capacitor = "capacitor",
        /// Gloves, glasses and shoes.
        Hands = "hands",
        /// Eyes, ears, breath and hands for cutting.
        Cutting = "cutting",
        /// A grinder: guard, handle, disc, plug.
        Grinder = "grinder",
        /// The old insulation is none that may be asbestos.
        OldInsulation = "old-insulation",
        /// Sparks and fire.
        Sparks = "sparks",
        /// Fumes.
        Fumes = "fumes",
        /// A part too hot to touch.
        HotPart = "hot-part",
        /// A heavy part is held.
        HeavyPart = "heavy-part",
        /// The magnetron stays whole.
        MagnetronWhole = "magnetron-whole",
        /// The old high-voltage winding is out.
        OldWindingOut = "old-winding-out",
        /// The core is put together.
        Reassembly = "reassembly",
        /// Ready for the insulation tester.
        InsulationTester = "insulation-tester",
        /// Ready for a low voltage.
        LowVoltage = "low-voltage",
        /// Ready for mains.
        MainsOnBench = "mains-on-bench",
        /// Ready for heavy current.
        HeavyCurrent = "heavy-current",
        /// Ready for an arc: a weld of the seam, or a load that burns one.
        Arc = "arc",
        /// Ready to charge a battery.
        Battery = "battery",
        /// Ready to melt metal.
        Furnace = "furnace",
        /// Ready for a plasma cutter's open-circuit voltage.
        PlasmaVoltage = "plasma-voltage",
    }
}

/// How long a pass lasts: the rule that decides which gates are asked again, and how.
///
/// Hard gates ([`Lasts::Day`], [`Lasts::Step`], [`Lasts::UntilReopened`]) are confirmed item by item
/// each time. The others ([`Lasts::Stretch`]) are confirmed item by item once a day; asked again the
/// same day they show what was confirmed and when, and ask for one hold
/// ([`Passes::renew`](super::Passes::renew)).
///
/// Every pass also ends when what it rests on was disturbed (see [`Disturbance`](super::Disturbance)).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lasts {
    /// Until another day begins.
    Day,
    /// For one stretch of work: until the tool or the place changes, or nothing was entered for an
    /// hour. Then one hold renews it, until another day begins.
    Stretch,
    /// For the step or stage that it was passed for, until that is left or another day begins.
    Step,
    /// Until the core or its wiring is touched.
    UntilReopened,
}

impl Gate {
    /// Its items, in the order in which they are confirmed.
    #[must_use]
    pub const fn items(self) -> &'static [Item] {
        match self {
            Gate::Unplugged => &[Item::PlugOut, Item::PlugInSight],
            Gate::CapacitorTool => &[Item::Trained, Item::ResistorTool, Item::RatedMeter, Item::SomeoneNear],
            Gate::Capacitor => &[
                Item::ChassisClipOn,
                Item::FirstTerminal,
                Item::SecondTerminal,
                Item::AcrossTerminals,
                Item::ProvedByMeter,
                Item::MeterProvedAgain,
                Item::ClipLeftOn,
            ],
            Gate::Hands => &[Item::GlovesOn, Item::GlassesOn],
            Gate::Cutting => &[Item::EyesAndEars, Item::DustMaskOn, Item::GlovesSuitTool],
            Gate::Grinder => &[Item::GuardOn, Item::DiscRated, Item::GrinderUnplugged],
            Gate::OldInsulation => &[Item::NoGreyFelt],
            Gate::Sparks => &[Item::NothingBurns, Item::ExtinguisherNear, Item::FireWatch],
            Gate::Fumes => &[Item::FreshAir, Item::NeverForFood],
            Gate::HotPart => &[Item::StayWithIt, Item::HotPartPlace],
            Gate::HeavyPart => &[Item::PartHeld],
            Gate::MagnetronWhole => &[Item::MagnetronStaysWhole, Item::NoImplant],
            Gate::OldWindingOut => &[Item::HighVoltageOut, Item::FilamentOut],
            Gate::Reassembly => &[
                Item::CoreClosed,
                Item::GapSet,
                Item::SeamHeld,
                Item::InsulationIn,
                Item::CoreEarthed,
                Item::FuseIn,
                Item::StrainRelief,
                Item::Enclosed,
            ],
            Gate::InsulationTester => &[Item::NothingJoined, Item::ShortAfterTest],
            Gate::LowVoltage => &[Item::IsolatedSource, Item::FeedMostTurns],
            Gate::MainsOnBench => &[
                Item::ResidualDevice,
                Item::LeadsWithPlugOut,
                Item::SwitchInReach,
                Item::HelperKnowsSwitch,
            ],
            Gate::HeavyCurrent => &[
                Item::RingsOff,
                Item::NoImplantAtCurrent,
                Item::LeadsClamped,
                Item::CoveredFromDrops,
            ],
            Gate::Arc => &[
                Item::NoImplantAtArc,
                Item::BareSteel,
                Item::NoChlorinatedCleaner,
                Item::WeldFumesDrawnOff,
                Item::HelmetOn,
                Item::SkinCovered,
                Item::BystandersScreened,
            ],
            Gate::Battery => &[
                Item::LeadAcidOnly,
                Item::BatteryAired,
                Item::BatteryFused,
                Item::EyesForAcid,
                Item::StayWithBattery,
            ],
            Gate::Furnace => &[
                Item::ChargeDry,
                Item::DryFloor,
                Item::CoveredFromMelt,
                Item::FurnaceOutdoors,
            ],
            Gate::PlasmaVoltage => &[Item::BuildOverseen, Item::TorchInterlocked, Item::PlasmaGrounded],
        }
    }

    /// How long a pass lasts.
    #[must_use]
    pub const fn lasts(self) -> Lasts {
        match self {
            Gate::Unplugged | Gate::CapacitorTool | Gate::Capacitor => Lasts::Day,
            Gate::Hands
            | Gate::Cutting
            | Gate::Grinder
            | Gate::OldInsulation
            | Gate::Sparks
            | Gate::Fumes
            | Gate::HotPart
            | Gate::HeavyPart
            | Gate::MagnetronWhole => Lasts::Stretch,
            Gate::InsulationTester
            | Gate::LowVoltage
            | Gate::MainsOnBench
            | Gate::HeavyCurrent
            | Gate::Arc
            | Gate::Battery
            | Gate::Furnace
            | Gate::PlasmaVoltage => Lasts::Step,
            Gate::OldWindingOut | Gate::Reassembly => Lasts::UntilReopened,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One item belongs to one gate: confirming it can't count twice.
    #[test]
    fn items_belong_to_one_gate() {
        for &item in Item::ALL {
            let gates = Gate::ALL.iter().filter(|gate| gate.items().contains(&item)).count();
            assert_eq!(gates, 1, "{item:?}");
        }
    }

    /// Chassis first, each terminal, across, the meter, the meter again, the clip (common practice, no source).
    #[test]
    fn the_capacitor_is_discharged_then_proved_then_shorted() {
        assert_eq!(
            Gate::Capacitor.items(),
            [
                Item::ChassisClipOn,
                Item::FirstTerminal,
                Item::SecondTerminal,
                Item::AcrossTerminals,
                Item::ProvedByMeter,
                Item::MeterProvedAgain,
                Item::ClipLeftOn,
            ]
        );
    }
}
