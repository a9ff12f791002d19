//! The steps of the winding, what each risks, and its texts.

use super::plan::WindKind;
use crate::safety::{Gate, Hazard, Place};
use crate::words::words;

words! {
    /// A step of the winding, in order.
    pub enum WindStep, "wind" {
        /// Lay out the place, the wire and the insulation.
        Prepare = "prepare",
        /// Clean the faces and line the tongue.
        CleanCore = "clean-core",
        /// Put the primary back.
        PrimaryBack = "primary-back",
        /// Prove the primary whole.
        ProvePrimary = "prove-primary",
        /// Put the shunts back.
        ShuntsBack = "shunts-back",
        /// Set the barrier.
        Barrier = "barrier",
        /// Wind, layer by layer.
        WindTurns = "wind-turns",
        /// Lead the ends out.
        LeadOut = "lead-out",
        /// Choose how the core is closed and the winding is fixed.
        Choose = "choose",
        /// Cut the shims of a choke or a ballast.
        CutShims = "cut-shims",
        /// Close the core.
        Close = "close",
        /// Join the ground wire to bare metal.
        Ground = "ground",
        /// Fix the winding: tape or varnish.
        Fix = "fix",
        /// Join it with the second core of a pair.
        JoinPair = "join-pair",
        /// Put it into its enclosure.
        Enclose = "enclose",
    }
}

words! {
    /// How the core is closed.
    pub enum Closing, "closing" {
        /// A steel strap pulled tight round it.
        Strap = "strap",
        /// Bolts through its holes, or a frame.
        Bolts = "bolts",
        /// A weld along the seam.
        Weld = "weld",
    }
}

words! {
    /// How the winding is fixed.
    pub enum Fixing, "fixing" {
        /// Tape and ties.
        Tape = "tape",
        /// Varnish that dries in air.
        Varnish = "varnish",
        /// Varnish that is cured in an oven.
        OvenVarnish = "oven-varnish",
    }
}

/// A step as data.
#[derive(Debug, Clone, PartialEq)]
pub struct WindStepGuide {
    /// The step.
    pub step: WindStep,
    /// How long it usually takes, in minutes, from and to (common practice, no source).
    pub minutes: (u16, u16),
    /// What can hurt.
    pub hazards: Vec<Hazard>,
    /// The gates before it.
    pub gates: Vec<Gate>,
    /// What the texts depend on, as the end of their ids.
    variant: &'static str,
}

impl WindStepGuide {
    /// The id of the text of its name.
    #[must_use]
    pub const fn name_key(&self) -> &'static str {
        self.step.key()
    }
    /// The id of the text that says what to do, an action a line.
    #[must_use]
    pub fn do_key(&self) -> String {
        format!("{}.do{}", self.step.key(), self.variant)
    }
    /// The id of the text that says what goes wrong.
    #[must_use]
    pub fn wrong_key(&self) -> String {
        format!("{}.wrong", self.step.key())
    }
    /// The id of the text of the caution, a warning a line.
    #[must_use]
    pub fn caution_key(&self) -> String {
        format!("{}.caution{}", self.step.key(), self.variant)
    }
}

impl WindStep {
    /// Where gates are passed for this step. Welding and varnishing are stretches of work of their own.
    pub(super) const fn place(self, closing: Option<Closing>, fixing: Option<Fixing>) -> Place {
        let setup = match (self, closing, fixing) {
            (WindStep::Close, Some(Closing::Weld) | None, _) => 2,
            (WindStep::Fix, _, Some(Fixing::Varnish | Fixing::OvenVarnish) | None) => 3,
            _ => 1,
        };
        Place {
            number: self as u8,
            setup,
        }
    }

    /// Everything that the step shows, given what is wound and what was chosen.
    #[must_use]
    pub fn guide(self, kind: WindKind, closing: Option<Closing>, fixing: Option<Fixing>) -> WindStepGuide {
        let coil = kind == WindKind::Coil;
        let closing = closing_of(coil, closing);
        WindStepGuide {
            step: self,
            minutes: match self {
                WindStep::Choose | WindStep::ShuntsBack | WindStep::CutShims => (2, 10),
                WindStep::ProvePrimary | WindStep::Barrier | WindStep::LeadOut | WindStep::Ground => (5, 20),
                WindStep::Prepare | WindStep::CleanCore | WindStep::PrimaryBack | WindStep::JoinPair => (10, 40),
                WindStep::WindTurns | WindStep::Close | WindStep::Enclose => (30, 180),
                WindStep::Fix => (15, 240),
            },
            hazards: hazards(self, closing, fixing),
            gates: gates(self, closing, fixing),
            variant: match self {
                WindStep::Close => match closing {
                    Some(Closing::Strap) => "-strap",
                    Some(Closing::Bolts) => "-bolts",
                    Some(Closing::Weld) | None => "-weld",
                },
                WindStep::Fix => match fixing {
                    Some(Fixing::Tape) => "-tape",
                    Some(Fixing::Varnish) => "-varnish",
                    Some(Fixing::OvenVarnish) | None => "-oven",
                },
                WindStep::Choose | WindStep::Enclose if coil => "-coil",
                WindStep::LeadOut if kind == WindKind::TappedWinding => "-tapped",
                _ => "",
            },
        }
    }
}

/// How the core is closed. A coil's gap is never welded, so that before anything is chosen a strap stands in.
pub(super) fn closing_of(coil: bool, closing: Option<Closing>) -> Option<Closing> {
    closing.or(coil.then_some(Closing::Strap))
}

/// What can hurt. Before the way is chosen, the worst is assumed.
fn hazards(step: WindStep, closing: Option<Closing>, fixing: Option<Fixing>) -> Vec<Hazard> {
    use Hazard as H;
    let fixed: &[Hazard] = match step {
        WindStep::Prepare | WindStep::Choose => &[],
        WindStep::CleanCore => &[H::OldInsulation, H::SharpEdges, H::FlyingPieces, H::Dust, H::HeavyPart],
        WindStep::PrimaryBack => &[H::OldInsulation, H::SharpEdges, H::HeavyPart],
        WindStep::ProvePrimary => &[H::OldHighVoltage, H::SharpEdges, H::TesterVoltage],
        WindStep::ShuntsBack
        | WindStep::Barrier
        | WindStep::WindTurns
        | WindStep::LeadOut
        | WindStep::CutShims
        | WindStep::Ground
        | WindStep::JoinPair
        | WindStep::Enclose => &[H::SharpEdges, H::HeavyPart],
        WindStep::Close => match closing {
            Some(Closing::Strap) => &[H::SharpEdges, H::FlyingPieces, H::HeavyPart],
            Some(Closing::Bolts) => &[H::SharpEdges, H::HeavyPart],
            // Paint and plating are filed off the seam.
            Some(Closing::Weld) | None => &[
                H::SharpEdges,
                H::FlyingPieces,
                H::Dust,
                H::HeavyPart,
                H::ArcLight,
                H::WeldingFumes,
                H::Fire,
                H::HotSurface,
                H::HeatLeftAlone,
            ],
        },
        WindStep::Fix => match fixing {
            Some(Fixing::Tape) => &[H::SharpEdges, H::HeavyPart],
            Some(Fixing::Varnish) => &[H::SharpEdges, H::HeavyPart, H::Fumes, H::Fire],
            Some(Fixing::OvenVarnish) | None => &[
                H::SharpEdges,
                H::HeavyPart,
                H::Fumes,
                H::Fire,
                H::HotSurface,
                H::HeatLeftAlone,
            ],
        },
    };
    fixed.to_vec()
}

/// The gates before a step: one for each of its hazards, none twice.
pub(super) fn gates(step: WindStep, closing: Option<Closing>, fixing: Option<Fixing>) -> Vec<Gate> {
    let mut gates = Vec::new();
    for hazard in hazards(step, closing, fixing) {
        if !gates.contains(&hazard.gate()) {
            gates.push(hazard.gate());
        }
    }
    gates
}
