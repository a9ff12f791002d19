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
        /// Chips and wire ends under tension.
        FlyingPieces = "flying-pieces",
        /// A grinder's disc that jams or bursts.
        JammedDisc = "jammed-disc",
        /// Grinding and hammering.
        Noise = "noise",
        /// Steel, varnish and paper dust.
        Dust = "dust",
        /// Old insulation that may be asbestos.
        OldInsulation = "old-insulation",
        /// Sparks that find something to burn.
        Fire = "fire",
        /// Warm varnish and insulation give off vapour.
        Fumes = "fumes",
        /// A core or winding too hot to touch.
        HotSurface = "hot-surface",
        /// Something hot that nobody watches.
        HeatLeftAlone = "heat-left-alone",
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
        /// The light of a welding arc.
        ArcLight = "arc-light",
        /// Poisonous fumes and gas from plating, paint and cleaners under an arc.
        WeldingFumes = "welding-fumes",
        /// Hydrogen and acid of a lead-acid battery.
        Hydrogen = "hydrogen",
        /// A lithium battery on a charger that was not made for it.
        WrongBattery = "wrong-battery",
        /// Molten metal that spits or spills.
        MoltenMetal = "molten-metal",
        /// Carbon monoxide of a furnace.
        CarbonMonoxide = "carbon-monoxide",
        /// Hundreds of volts at a plasma torch.
        PlasmaVoltage = "plasma-voltage",
    }
}

words! {
    /// A part of the job in which a hazard arises.
    pub enum Arises, "arises" {
        /// While a find is judged at the curb.
        SizeUp = "size-up",
        /// While the donor is taken apart.
        Teardown = "teardown",
        /// While the core is wound and closed.
        Wind = "wind",
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
            Hazard::JammedDisc => Gate::Grinder,
            Hazard::OldInsulation => Gate::OldInsulation,
            Hazard::Fire => Gate::Sparks,
            Hazard::Fumes => Gate::Fumes,
            Hazard::HotSurface | Hazard::HeatLeftAlone => Gate::HotPart,
            Hazard::Beryllia | Hazard::StrongMagnets => Gate::MagnetronWhole,
            Hazard::OldHighVoltage => Gate::OldWindingOut,
            Hazard::TesterVoltage => Gate::InsulationTester,
            Hazard::SteppedUp => Gate::LowVoltage,
            Hazard::MainsOnBench => Gate::MainsOnBench,
            Hazard::HeavyCurrent => Gate::HeavyCurrent,
            Hazard::ArcLight | Hazard::WeldingFumes => Gate::Arc,
            Hazard::Hydrogen | Hazard::WrongBattery => Gate::Battery,
            Hazard::MoltenMetal | Hazard::CarbonMonoxide => Gate::Furnace,
            Hazard::PlasmaVoltage => Gate::PlasmaVoltage,
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
            Hazard::SharpEdges | Hazard::HeavyPart => &[Arises::SizeUp, Arises::Teardown, Arises::Wind, Arises::Bench],
            Hazard::JammedDisc | Hazard::Noise => &[Arises::Teardown],
            Hazard::FlyingPieces | Hazard::Dust | Hazard::OldInsulation | Hazard::Fumes => {
                &[Arises::Teardown, Arises::Wind]
            }
            Hazard::Fire | Hazard::HotSurface | Hazard::HeatLeftAlone => {
                &[Arises::Teardown, Arises::Wind, Arises::Bench]
            }
            Hazard::Beryllia => &[Arises::SizeUp, Arises::Teardown, Arises::Parts],
            Hazard::StrongMagnets => &[Arises::Teardown, Arises::Parts],
            Hazard::OldHighVoltage | Hazard::TesterVoltage | Hazard::ArcLight | Hazard::WeldingFumes => {
                &[Arises::Wind, Arises::Bench]
            }
            Hazard::SteppedUp
            | Hazard::MainsOnBench
            | Hazard::HeavyCurrent
            | Hazard::Hydrogen
            | Hazard::WrongBattery
            | Hazard::MoltenMetal
            | Hazard::CarbonMonoxide
            | Hazard::PlasmaVoltage => &[Arises::Bench],
        }
    }

    /// The source: a standard or handbook, or "common practice, no source".
    #[must_use]
    pub const fn source(self) -> &'static str {
        match self {
            Hazard::Mains => "EN 50110-1, work with no voltage present (M); local code",
            Hazard::ChargedCapacitor => {
                "IEC 60335-1, 8.1.4: 42.4 V d.c., 45 µC (R2: manufacturers' test manuals); local code"
            }
            Hazard::CapacitorOil => "Stockholm Convention, Annex A, polychlorinated biphenyls (M)",
            Hazard::HeavyPart => "ISO 11228-1, lifting by hand (M)",
            Hazard::FlyingPieces => "ISO 16321-1, eye protection (M)",
            Hazard::JammedDisc => "IEC 62841-2-3, grinders (M)",
            Hazard::Noise => "ISO 1999, hearing loss from noise (M)",
            Hazard::Dust => "EN 149, class FFP2; 42 CFR 84, class N95 (M)",
            Hazard::OldInsulation => "IARC Monograph 100C, asbestos (M); local rules on asbestos",
            Hazard::Fire => "NFPA 51B, 2019, 5.6.1.1: one hour's watch after hot work (R2: insurers' hot-work guides)",
            Hazard::HeatLeftAlone => {
                "one hour as after hot work, NFPA 51B, 2019 (R2); for heat: common practice, no source"
            }
            Hazard::HotSurface => "ISO 13732-1, touch of hot surfaces (M)",
            Hazard::Beryllia => "IARC Monograph 100C, beryllium and its compounds (M)",
            Hazard::MainsOnBench => "EN 50191, electrical test installations (M); local code",
            Hazard::TesterVoltage => "IEC 61557-2, insulation resistance (M)",
            Hazard::OldHighVoltage => {
                "EN 50191, electrical test installations (M); about 2 kV: common practice, no source"
            }
            Hazard::HeavyCurrent => "IEC 60974-9, use of welding equipment (M); implants: welders' manuals (R2)",
            Hazard::ArcLight => "ISO 16321-2 and EN 169, welding shades (M); implants: welders' manuals (R2)",
            Hazard::WeldingFumes => "ANSI Z49.1, safety in welding (M)",
            Hazard::Hydrogen | Hazard::WrongBattery => "IEC 62485-2, stationary batteries (M)",
            Hazard::MoltenMetal | Hazard::CarbonMonoxide => "common practice of foundries, no source",
            Hazard::PlasmaVoltage => "IEC 60974-1, plasma cutting (M); local code",
            Hazard::SteppedUp => "any textbook: volts go as turns; limit of 24 V: common practice, no source",
            Hazard::SharpEdges | Hazard::Fumes | Hazard::StrongMagnets => "common practice, no source",
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
