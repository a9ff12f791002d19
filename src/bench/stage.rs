//! The stages, their order, hazards and gates.

use crate::safety::{Gate, Hazard, Place};
use crate::words::words;

words! {
    /// A stage of the bench, in order.
    pub enum Stage, "stage" {
        /// Lay out the place, the meters and the design's numbers.
        Prepare = "prepare",
        /// Put the core together.
        Reassembly = "reassembly",
        /// Continuity and resistance of each winding.
        Continuity = "continuity",
        /// Insulation resistance between windings and to the core.
        Insulation = "insulation",
        /// Ratio and polarity at a low isolated voltage.
        RatioPolarity = "ratio-polarity",
        /// The two windings of a pair, before their last joint is closed.
        PairPhasing = "pair-phasing",
        /// Impedance of a choke or ballast at a low isolated voltage.
        Impedance = "impedance",
        /// No-load current through a series lamp.
        LampIdle = "lamp-idle",
        /// No-load current at full mains.
        MainsIdle = "mains-idle",
        /// Voltage under load.
        Loaded = "loaded",
        /// Short-circuit or weld current.
        ShortCircuit = "short-circuit",
        /// A choke or ballast at its rated current.
        RatedCurrent = "rated-current",
        /// Temperature rise by the resistance method.
        TemperatureRise = "temperature-rise",
    }
}

words! {
    /// What a rebuilt core feeds when it is tested under load: some loads bring hazards of their own.
    pub enum Load, "load" {
        /// A resistor or the weld tips.
        Plain = "plain",
        /// A discharge lamp behind a ballast.
        Lamp = "lamp",
        /// A welding electrode and its arc.
        Electrode = "electrode",
        /// A lead-acid battery.
        Battery = "battery",
        /// A crucible between electrodes.
        Furnace = "furnace",
        /// A plasma torch.
        Plasma = "plasma",
    }
}

impl Load {
    /// The id of the text of its caution, where it brings hazards of its own.
    #[must_use]
    pub const fn caution_key(self) -> Option<&'static str> {
        match self {
            Load::Plain => None,
            Load::Lamp => Some("load-lamp.caution"),
            Load::Electrode => Some("load-electrode.caution"),
            Load::Battery => Some("load-battery.caution"),
            Load::Furnace => Some("load-furnace.caution"),
            Load::Plasma => Some("load-plasma.caution"),
        }
    }

    /// The same at a stage: none where nothing of the load can hurt yet.
    #[must_use]
    pub fn caution_at(self, stage: Stage) -> Option<&'static str> {
        self.caution_key().filter(|_| !self.hazards(stage).is_empty())
    }

    /// What can hurt at a stage because of this load. A torch's voltage is there as soon as mains
    /// is; a battery, a melt and an arc come with the load.
    #[must_use]
    pub fn hazards(self, stage: Stage) -> &'static [Hazard] {
        match self {
            // The arc of a lamp is behind glass, which may burst.
            Load::Lamp if stage >= Stage::Loaded => &[Hazard::Fire],
            Load::Battery if stage >= Stage::Loaded => &[Hazard::Hydrogen, Hazard::WrongBattery],
            Load::Electrode if stage >= Stage::Loaded => &[Hazard::ArcLight, Hazard::WeldingFumes, Hazard::Fire],
            Load::Furnace if stage >= Stage::Loaded => &[
                Hazard::MoltenMetal,
                Hazard::CarbonMonoxide,
                Hazard::ArcLight,
                Hazard::WeldingFumes,
                Hazard::Fire,
            ],
            Load::Plasma if stage >= Stage::Loaded => &[
                Hazard::PlasmaVoltage,
                Hazard::ArcLight,
                Hazard::WeldingFumes,
                Hazard::Fire,
            ],
            Load::Plasma if stage.on_mains() => &[Hazard::PlasmaVoltage],
            _ => &[],
        }
    }
}

/// A stage as data.
#[derive(Debug, Clone, PartialEq)]
pub struct StageGuide {
    /// The stage.
    pub stage: Stage,
    /// How long it usually takes, in minutes, from and to (common practice, no source).
    pub minutes: (u16, u16),
    /// What can hurt, whatever the load.
    pub hazards: &'static [Hazard],
    /// The gates that stand before it.
    pub gates: Vec<Gate>,
}

impl StageGuide {
    /// The id of the drawing: the stage's word.
    #[must_use]
    pub const fn drawing(&self) -> &'static str {
        self.stage.word()
    }
    /// The id of the text of its name.
    #[must_use]
    pub const fn name_key(&self) -> &'static str {
        self.stage.key()
    }
    /// The id of the text that says what to do, an action a line. A core whose seam was never opened
    /// (`core_opened` false) is not closed again.
    #[must_use]
    pub fn do_key(&self, core_opened: Option<bool>) -> String {
        let whole = self.stage == Stage::Reassembly && core_opened == Some(false);
        format!("{}.do{}", self.stage.key(), if whole { "-whole" } else { "" })
    }
    /// The id of the text that says what goes wrong.
    #[must_use]
    pub fn wrong_key(&self) -> String {
        format!("{}.wrong", self.stage.key())
    }
    /// The id of the text of the caution, a warning a line.
    #[must_use]
    pub fn caution_key(&self) -> String {
        format!("{}.caution", self.stage.key())
    }
}

impl Stage {
    /// Where gates are passed for this stage: its number, and its setup. The tests without mains are
    /// one stretch of work, each stage on mains is one of its own.
    pub(super) const fn place(self) -> Place {
        let number = self as u8;
        let setup = match self {
            Stage::Prepare
            | Stage::Reassembly
            | Stage::Continuity
            | Stage::Insulation
            | Stage::RatioPolarity
            | Stage::PairPhasing
            | Stage::Impedance => 0,
            Stage::LampIdle
            | Stage::MainsIdle
            | Stage::Loaded
            | Stage::ShortCircuit
            | Stage::RatedCurrent
            | Stage::TemperatureRise => number,
        };
        Place { number, setup }
    }

    /// True if mains reaches the core in this stage.
    #[must_use]
    pub fn on_mains(self) -> bool {
        self >= Stage::LampIdle
    }

    /// True if the stage takes readings.
    #[must_use]
    pub fn takes_readings(self) -> bool {
        self >= Stage::Continuity
    }

    /// Everything that the stage shows.
    #[must_use]
    pub fn guide(self) -> StageGuide {
        StageGuide {
            stage: self,
            minutes: match self {
                Stage::Prepare | Stage::Continuity | Stage::RatioPolarity | Stage::PairPhasing | Stage::Impedance => {
                    (5, 10)
                }
                Stage::Reassembly => (30, 180),
                Stage::Insulation => (3, 10),
                Stage::LampIdle | Stage::MainsIdle => (2, 10),
                Stage::Loaded | Stage::ShortCircuit | Stage::RatedCurrent => (5, 20),
                Stage::TemperatureRise => (30, 240),
            },
            hazards: self.hazards(),
            gates: self.gates(),
        }
    }

    const fn hazards(self) -> &'static [Hazard] {
        use Hazard as H;
        match self {
            Stage::Prepare => &[],
            Stage::Reassembly => &[H::SharpEdges, H::HeavyPart, H::Fire],
            Stage::Continuity => &[H::SharpEdges],
            Stage::Insulation => &[H::TesterVoltage],
            Stage::RatioPolarity | Stage::PairPhasing | Stage::Impedance => &[H::OldHighVoltage, H::SteppedUp],
            Stage::LampIdle | Stage::MainsIdle => &[H::OldHighVoltage, H::MainsOnBench],
            Stage::Loaded | Stage::RatedCurrent => {
                &[H::OldHighVoltage, H::MainsOnBench, H::HeavyCurrent, H::HotSurface]
            }
            Stage::ShortCircuit | Stage::TemperatureRise => &[
                H::OldHighVoltage,
                H::MainsOnBench,
                H::HeavyCurrent,
                H::HotSurface,
                H::Fire,
            ],
        }
    }

    /// What can hurt at the stage under the plan's load.
    #[must_use]
    pub fn hazards_under(self, load: Load) -> Vec<Hazard> {
        let mut hazards = self.hazards().to_vec();
        hazards.extend(
            load.hazards(self)
                .iter()
                .filter(|hazard| !self.hazards().contains(hazard)),
        );
        hazards
    }

    /// The gates before the stage under the plan's load: those of the stage, then the load's.
    #[must_use]
    pub fn gates_under(self, load: Load) -> Vec<Gate> {
        let mut gates = self.gates();
        for hazard in load.hazards(self) {
            if !gates.contains(&hazard.gate()) {
                gates.push(hazard.gate());
            }
        }
        gates
    }

    /// The gates before the stage, whatever the load: from the first test on the old winding is out and the core
    /// is together; then one for each hazard, none twice.
    #[must_use]
    pub fn gates(self) -> Vec<Gate> {
        let mut gates = Vec::new();
        if self.takes_readings() {
            gates.extend([Gate::OldWindingOut, Gate::Reassembly]);
        }
        for hazard in self.hazards() {
            if !gates.contains(&hazard.gate()) {
                gates.push(hazard.gate());
            }
        }
        gates
    }
}
