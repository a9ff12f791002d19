//! What can hurt, where it arises, which gate stands in front of it, and who says so.

use super::gates::Gate;
use crate::words::words;

words! {
    /// Something that can hurt.
    pub enum Hazard, "hazard" {
        /// Mains voltage in a donor that is plugged in.
        Mains = "mains",
        /// The donor's high-voltage capacitor, which keeps its charge after the plug is out.
        ChargedCapacitor = "charged-capacitor",
        /// Oil in an old capacitor that leaks or is cut.
        CapacitorOil = "capacitor-oil",
        /// Sheet metal, laminations and cut wire.
        SharpEdges = "sharp-edges",
        /// A transformer that falls, tips or is lifted badly.
        HeavyPart = "heavy-part",
        /// Chips, a broken disc, a wire end under tension.
        FlyingPieces = "flying-pieces",
        /// Grinding and hammering.
        Noise = "noise",
        /// Steel, varnish and paper dust.
        Dust = "dust",
        /// Sparks that find something to burn.
        Fire = "fire",
        /// Warm varnish and insulation give off vapour.
        Fumes = "fumes",
        /// A core or winding too hot to touch.
        HotSurface = "hot-surface",
        /// The magnetron's ceramic may hold beryllia; its dust harms the lungs for life.
        Beryllia = "beryllia",
        /// The magnetron's ring magnets: pinched fingers, implants, data.
        StrongMagnets = "strong-magnets",
        /// About 2 kV from the old winding if mains reaches the core with that winding in place.
        OldHighVoltage = "old-high-voltage",
        /// The test voltage of an insulation tester, and the charge it leaves.
        TesterVoltage = "tester-voltage",
        /// A low voltage on a winding of few turns makes mains voltage on the primary.
        SteppedUp = "stepped-up",
        /// Mains on a rebuilt core during a test.
        MainsOnBench = "mains-on-bench",
        /// Hundreds of amperes at a few volts: burns, molten metal, red-hot rings.
        HeavyCurrent = "heavy-current",
    }
}

words! {
    /// A part of the job in which a hazard arises.
    pub enum Arises, "arises" {
        /// While a find is judged at the curb.
        SizeUp = "size-up",
        /// While the donor is taken apart.
        Teardown = "teardown",
        /// While the rebuilt core is tested.
        Bench = "bench",
        /// When a part is kept or thrown away.
        Parts = "parts",
    }
}

impl Hazard {
    /// The gate that stands in front of it.
    #[must_use]
    pub const fn gate(self) -> Gate {
        match self {
            Hazard::Mains => Gate::Unplugged,
            Hazard::ChargedCapacitor => Gate::Capacitor,
            Hazard::CapacitorOil | Hazard::SharpEdges => Gate::Hands,
            Hazard::HeavyPart => Gate::HeavyPart,
            Hazard::FlyingPieces | Hazard::Noise | Hazard::Dust => Gate::Cutting,
            Hazard::Fire => Gate::Sparks,
            Hazard::Fumes => Gate::Fumes,
            Hazard::HotSurface => Gate::HotPart,
            Hazard::Beryllia | Hazard::StrongMagnets => Gate::MagnetronWhole,
            Hazard::OldHighVoltage => Gate::OldWindingOut,
            Hazard::TesterVoltage => Gate::InsulationTester,
            Hazard::SteppedUp => Gate::LowVoltage,
            Hazard::MainsOnBench => Gate::MainsOnBench,
            Hazard::HeavyCurrent => Gate::HeavyCurrent,
        }
    }

    /// Gates that may stand in for [`Hazard::gate`] where the hazard is worked on or only looked at:
    /// nobody can have discharged the capacitor before the cover is off, so there the gate is
    /// tool, meter and training.
    #[must_use]
    pub const fn stand_in(self) -> Option<Gate> {
        match self {
            Hazard::ChargedCapacitor => Some(Gate::CapacitorTool),
            _ => None,
        }
    }

    /// The parts of the job in which it arises.
    #[must_use]
    pub const fn arises(self) -> &'static [Arises] {
        match self {
            Hazard::Mains => &[Arises::SizeUp, Arises::Teardown],
            Hazard::ChargedCapacitor => &[Arises::SizeUp, Arises::Teardown, Arises::Parts],
            Hazard::CapacitorOil => &[Arises::Teardown, Arises::Parts],
            Hazard::SharpEdges | Hazard::HeavyPart => &[Arises::SizeUp, Arises::Teardown, Arises::Bench],
            Hazard::FlyingPieces | Hazard::Noise | Hazard::Dust | Hazard::Fumes => &[Arises::Teardown],
            Hazard::Fire | Hazard::HotSurface => &[Arises::Teardown, Arises::Bench],
            Hazard::Beryllia => &[Arises::SizeUp, Arises::Teardown, Arises::Parts],
            Hazard::StrongMagnets => &[Arises::Teardown, Arises::Parts],
            Hazard::OldHighVoltage
            | Hazard::TesterVoltage
            | Hazard::SteppedUp
            | Hazard::MainsOnBench
            | Hazard::HeavyCurrent => &[Arises::Bench],
        }
    }

    /// The source: a standard or handbook, or "common practice, no source".
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Hazard::Mains => "EN 50110-1, work with no voltage present (from memory); local code",
            Hazard::ChargedCapacitor => "IEC 60335-1 charge limit, IEC 61010-1 touch limit (from memory); local code",
            Hazard::CapacitorOil => "Stockholm Convention, Annex A, polychlorinated biphenyls (from memory)",
            Hazard::HeavyPart => "ISO 11228-1, lifting by hand (from memory)",
            Hazard::FlyingPieces => "ISO 16321-1, eye protection (from memory); IEC 62841-2-3, grinders (from memory)",
            Hazard::Noise => "ISO 1999, hearing loss from noise (from memory)",
            Hazard::Fire => "NFPA 51B, fire watch after hot work (from memory)",
            Hazard::HotSurface => "ISO 13732-1, touch of hot surfaces (from memory)",
            Hazard::Beryllia => "IARC Monograph 100C, beryllium and its compounds (from memory)",
            Hazard::MainsOnBench => "EN 50191, electrical test installations (from memory); local code",
            Hazard::TesterVoltage => "IEC 61557-2, insulation resistance (from memory)",
            Hazard::OldHighVoltage => {
                "EN 50191, electrical test installations (from memory); about 2 kV: common practice, no source"
            }
            Hazard::HeavyCurrent => "IEC 60974-9, use of welding equipment (from memory)",
            Hazard::SteppedUp => "any textbook: volts go as turns; limit of 24 V: common practice, no source",
            Hazard::SharpEdges | Hazard::Dust | Hazard::Fumes | Hazard::StrongMagnets => "common practice, no source",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_hazard_has_a_gate_a_place_and_a_source() {
        for &hazard in Hazard::ALL {
            assert!(!hazard.gate().items().is_empty(), "{hazard:?}");
            assert!(!hazard.arises().is_empty(), "{hazard:?}");
            assert!(!hazard.source().is_empty(), "{hazard:?}");
        }
    }

    #[test]
    fn every_gate_stands_in_front_of_a_hazard() {
        for &gate in Gate::ALL {
            let used = Hazard::ALL
                .iter()
                .any(|h| h.gate() == gate || h.stand_in() == Some(gate));
            assert!(used || gate == Gate::Reassembly, "{gate:?} guards nothing");
        }
    }
}
