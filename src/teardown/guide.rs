//! Each step as data: what it shows, takes, risks and records.

use super::findings::{Field, Findings, Way};
use super::step::Step;
use crate::safety::{Gate, Hazard};
use crate::words::words;

words! {
    /// A tool.
    pub enum Tool, "tool" {
        /// Cut-resistant gloves.
        Gloves = "gloves",
        /// Glasses with side shields.
        Glasses = "glasses",
        /// Screwdrivers, with the odd security bit.
        Screwdrivers = "screwdrivers",
        /// An insulated resistor tool rated for the voltage.
        ResistorTool = "resistor-tool",
        /// A meter and probe rated for the voltage.
        RatedMeter = "rated-meter",
        /// An insulated clip lead.
        ClipLead = "clip-lead",
        /// Pliers.
        Pliers = "pliers",
        /// Nut drivers or sockets.
        NutDrivers = "nut-drivers",
        /// A bag and pen for marking wires and parts.
        BagsAndPen = "bags-and-pen",
        /// A good lamp.
        Lamp = "lamp",
        /// A bench vice.
        Vice = "vice",
        /// A hacksaw with a fine blade.
        Hacksaw = "hacksaw",
        /// A grinder with a cutting disc.
        CuttingDisc = "cutting-disc",
        /// A grinder with a grinding disc.
        GrindingDisc = "grinding-disc",
        /// A face shield, ear muffs and a particle mask.
        CuttingWear = "cutting-wear",
        /// An extinguisher or a bucket of sand.
        Extinguisher = "extinguisher",
        /// An oven or hot-air tool that is never used for food again.
        WorkshopHeat = "workshop-heat",
        /// A thermometer for the core.
        Thermometer = "thermometer",
        /// A hammer, a punch and a wooden drift.
        HammerAndDrift = "hammer-and-drift",
        /// A scraper, a brush and a fine file.
        Scraper = "scraper",
        /// Calipers and a rule.
        Calipers = "calipers",
        /// A scale.
        Scale = "scale",
        /// Oil against rust, and a label.
        OilAndLabel = "oil-and-label",
    }
}

/// A step as data.
#[derive(Debug, Clone, PartialEq)]
pub struct StepGuide {
    /// The step.
    pub step: Step,
    /// Tools to lay out.
    pub tools: Vec<Tool>,
    /// How long it usually takes, in minutes, from and to (common practice, no source).
    pub minutes: (u16, u16),
    /// What to record.
    pub records: &'static [Field],
    /// Which of these must be recorded before going on.
    pub must_record: &'static [Field],
    /// What can hurt.
    pub hazards: Vec<Hazard>,
    /// The gates before it.
    pub gates: Vec<Gate>,
    /// The way into the core, where the step's texts depend on it.
    way: Option<Way>,
}

impl StepGuide {
    /// The id of the drawing: the step's word.
    #[must_use]
    pub const fn drawing(&self) -> &'static str {
        self.step.word()
    }
    /// The id of the text of its name.
    #[must_use]
    pub const fn name_key(&self) -> &'static str {
        self.step.key()
    }
    /// The id of the text that says what to do, an action a line.
    #[must_use]
    pub fn do_key(&self) -> String {
        let variant = match self.step {
            Step::Split => self.by_tool(),
            Step::Remove | Step::Clean | Step::Store => match self.way {
                Some(Way::DriveOut) => "-whole",
                Some(Way::Hacksaw | Way::Abrasive | Way::Grinder) | None => "-apart",
            },
            _ => "",
        };
        format!("{}.do{variant}", self.step.key())
    }
    /// The id of the text that says what goes wrong.
    #[must_use]
    pub fn wrong_key(&self) -> String {
        format!("{}.wrong{}", self.step.key(), self.of_split())
    }
    /// The id of the text of the caution, a warning a line.
    #[must_use]
    pub fn caution_key(&self) -> String {
        format!("{}.caution{}", self.step.key(), self.of_split())
    }
    /// The id of the text that describes the tool the step is done with, where one needs describing.
    #[must_use]
    pub fn tool_key(&self) -> Option<String> {
        (self.step == Step::CapacitorSafe).then(|| format!("{}.tool", self.step.key()))
    }

    fn of_split(&self) -> &'static str {
        if self.step == Step::Split { self.by_tool() } else { "" }
    }

    /// Before the way is known, the worst is assumed.
    fn by_tool(&self) -> &'static str {
        match self.way {
            Some(Way::Hacksaw) => "-saw",
            Some(Way::Grinder) => "-grind",
            Some(Way::Abrasive | Way::DriveOut) | None => "-disc",
        }
    }
}

impl Step {
    /// Everything that the step shows, given what was found.
    #[must_use]
    pub fn guide(self, findings: &Findings) -> StepGuide {
        let way = findings.way;
        StepGuide {
            step: self,
            tools: tools(self, way),
            minutes: minutes(self),
            records: records(self),
            must_record: must_record(self),
            hazards: hazards(self, way),
            gates: gates(self, way),
            way,
        }
    }
}

fn tools(step: Step, way: Option<Way>) -> Vec<Tool> {
    let fixed: &[Tool] = match step {
        Step::Prepare => &[
            Tool::ResistorTool,
            Tool::RatedMeter,
            Tool::ClipLead,
            Tool::Gloves,
            Tool::Glasses,
            Tool::Screwdrivers,
            Tool::Lamp,
            Tool::BagsAndPen,
        ],
        Step::Unplug => &[],
        Step::Open => &[Tool::Gloves, Tool::Glasses, Tool::Screwdrivers, Tool::Lamp],
        Step::CapacitorSafe => &[Tool::ResistorTool, Tool::RatedMeter, Tool::ClipLead, Tool::Lamp],
        Step::Disconnect => &[Tool::ResistorTool, Tool::Gloves, Tool::Pliers, Tool::BagsAndPen],
        Step::Unbolt => &[Tool::Gloves, Tool::NutDrivers, Tool::Screwdrivers, Tool::Scale],
        Step::KeepParts => &[Tool::Gloves, Tool::Screwdrivers, Tool::Pliers, Tool::BagsAndPen],
        Step::Inspect => &[Tool::Gloves, Tool::Lamp, Tool::Calipers, Tool::Pliers],
        Step::ChooseWay => &[],
        Step::Split => &[Tool::Vice, Tool::CuttingWear, Tool::HammerAndDrift],
        Step::Warm => &[Tool::WorkshopHeat, Tool::Thermometer, Tool::Gloves, Tool::Extinguisher],
        Step::Remove => &[
            Tool::Vice,
            Tool::HammerAndDrift,
            Tool::Hacksaw,
            Tool::Pliers,
            Tool::CuttingWear,
        ],
        Step::Clean => &[Tool::Scraper, Tool::Gloves, Tool::CuttingWear],
        Step::Measure => &[Tool::Calipers, Tool::Scale, Tool::Gloves],
        Step::Store => &[Tool::OilAndLabel, Tool::Gloves],
    };
    let mut tools = fixed.to_vec();
    if step == Step::Split {
        match way {
            Some(Way::Abrasive) => tools.extend([Tool::CuttingDisc, Tool::Extinguisher]),
            Some(Way::Grinder) => tools.extend([Tool::GrindingDisc, Tool::Extinguisher]),
            Some(Way::Hacksaw | Way::DriveOut) | None => tools.push(Tool::Hacksaw),
        }
    }
    tools
}

const fn minutes(step: Step) -> (u16, u16) {
    match step {
        Step::Prepare => (5, 15),
        Step::Unplug | Step::ChooseWay => (1, 3),
        Step::Open => (5, 20),
        Step::CapacitorSafe => (5, 15),
        Step::Disconnect | Step::Inspect => (5, 10),
        Step::Unbolt | Step::KeepParts => (5, 20),
        Step::Split => (15, 60),
        Step::Warm => (20, 90),
        Step::Remove => (15, 90),
        Step::Clean => (10, 40),
        Step::Measure => (10, 20),
        Step::Store => (3, 10),
    }
}

const fn records(step: Step) -> &'static [Field] {
    match step {
        Step::Prepare | Step::KeepParts | Step::Remove | Step::Clean | Step::Measure | Step::Store => &[Field::Photo],
        Step::Unplug | Step::Warm => &[],
        Step::Open | Step::CapacitorSafe => &[Field::Photo, Field::Supply],
        Step::Disconnect => &[Field::Photo, Field::WireCount, Field::Terminals],
        Step::Unbolt => &[Field::Photo, Field::TransformerMass],
        Step::Inspect => &[
            Field::Photo,
            Field::WindingAtBack,
            Field::PrimaryMetal,
            Field::SeamThickness,
            Field::Terminals,
        ],
        Step::ChooseWay => &[Field::Way, Field::Shunts],
        Step::Split => &[Field::Photo, Field::SeamThickness],
    }
}

const fn must_record(step: Step) -> &'static [Field] {
    match step {
        Step::Open => &[Field::Supply],
        Step::Inspect => &[Field::WindingAtBack],
        Step::ChooseWay => &[Field::Way, Field::Shunts],
        _ => &[],
    }
}

fn hazards(step: Step, way: Option<Way>) -> Vec<Hazard> {
    use Hazard as H;
    let fixed: &[Hazard] = match step {
        Step::Prepare | Step::Unplug | Step::ChooseWay => &[],
        Step::Open | Step::Disconnect | Step::KeepParts => &[H::Mains, H::ChargedCapacitor, H::SharpEdges],
        Step::CapacitorSafe => &[H::Mains, H::ChargedCapacitor, H::CapacitorOil, H::SharpEdges],
        Step::Unbolt => &[
            H::Mains,
            H::ChargedCapacitor,
            H::CapacitorOil,
            H::SharpEdges,
            H::HeavyPart,
            H::Beryllia,
            H::StrongMagnets,
        ],
        Step::Inspect | Step::Measure => &[H::SharpEdges],
        Step::Split if way == Some(Way::Hacksaw) => &[
            H::OldInsulation,
            H::SharpEdges,
            H::HeavyPart,
            H::FlyingPieces,
            H::Noise,
            H::Dust,
        ],
        // Before the way is known, the worst is assumed.
        Step::Split => &[
            H::OldInsulation,
            H::SharpEdges,
            H::HeavyPart,
            H::FlyingPieces,
            H::JammedDisc,
            H::Noise,
            H::Dust,
            H::Fire,
        ],
        Step::Warm => &[
            H::OldInsulation,
            H::SharpEdges,
            H::Fumes,
            H::HotSurface,
            H::HeatLeftAlone,
            H::HeavyPart,
        ],
        Step::Remove => &[
            H::OldInsulation,
            H::SharpEdges,
            H::HeavyPart,
            H::FlyingPieces,
            H::Noise,
            H::Dust,
        ],
        Step::Clean => &[H::OldInsulation, H::SharpEdges, H::FlyingPieces, H::Dust],
        Step::Store => &[H::SharpEdges, H::HeavyPart],
    };
    fixed.to_vec()
}

/// The gates before a step: one for each of its hazards, none twice.
///
/// Until the capacitor can have been discharged, its stand-in gate (tool, meter, training) is
/// the one: without these the cover stays on.
pub(super) fn gates(step: Step, way: Option<Way>) -> Vec<Gate> {
    let mut gates = Vec::new();
    for hazard in hazards(step, way) {
        let gate = match hazard.stand_in() {
            Some(stand_in) if step <= Step::CapacitorSafe => stand_in,
            _ => hazard.gate(),
        };
        if !gates.contains(&gate) {
            gates.push(gate);
        }
    }
    gates
}
