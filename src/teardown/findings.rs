//! What is found on the way, and what follows from it.

use super::step::Step;
use crate::quantity::{Length, Mass};
use crate::wire::Metal;
use crate::words::words;

words! {
    /// What feeds the magnetron.
    pub enum Supply, "supply" {
        /// An iron-core transformer.
        Transformer = "transformer",
        /// A circuit board with a small ferrite transformer.
        Inverter = "inverter",
    }
}

words! {
    /// How the old winding is got out.
    pub enum Way, "way" {
        /// Saw the seam weld by hand.
        Hacksaw = "hacksaw",
        /// Cut the seam weld with an abrasive disc.
        Abrasive = "abrasive",
        /// Grind the seam weld down.
        Grinder = "grinder",
        /// Keep the core whole: saw the old winding off on one side and drive it out.
        DriveOut = "drive-out",
    }
}

words! {
    /// A winding of the donor.
    pub enum Winding, "winding" {
        /// The mains winding.
        Primary = "primary",
        /// About 2 kV, of fine wire.
        HighVoltage = "high-voltage",
        /// A few turns for the magnetron's heater.
        Filament = "filament",
    }
}

words! {
    /// What becomes of the shunts; follows from the use chosen and the physics, which are not
    /// known here.
    pub enum ShuntFate, "shunts" {
        /// They go back in: the new use wants a current that limits itself.
        Keep = "keep",
        /// They stay out: the new use wants a stiff voltage.
        LeaveOut = "leave-out",
    }
}

words! {
    /// Something to take out of the core.
    pub enum Part, "pull" {
        /// The primary, kept whole.
        Primary = "primary",
        /// The shunts, pushed out along the stack.
        Shunts = "shunts",
        /// The filament winding.
        Filament = "filament",
        /// The old high-voltage winding.
        HighVoltage = "high-voltage",
    }
}

words! {
    /// Something to record at a step.
    pub enum Field, "field" {
        /// A photo.
        Photo = "photo",
        /// What feeds the magnetron.
        Supply = "supply",
        /// How many wires lead to the transformer.
        WireCount = "wire-count",
        /// How many terminals it has.
        Terminals = "terminals",
        /// Mass of the whole transformer.
        TransformerMass = "transformer-mass",
        /// Which winding lies at the back, away from the seam.
        WindingAtBack = "winding-at-back",
        /// The primary's metal.
        PrimaryMetal = "primary-metal",
        /// Thickness of the seam weld.
        SeamThickness = "seam-thickness",
        /// How the old winding is got out.
        Way = "way",
        /// What becomes of the shunts.
        Shunts = "shunts",
    }
}

/// One thing found.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Finding {
    /// A photo was kept; the number is its id in the store.
    Photo(u128),
    /// What feeds the magnetron.
    Supply(Supply),
    /// Wires that lead to the transformer, 1 to 40.
    WireCount(u16),
    /// Terminals of the transformer, 1 to 40.
    Terminals(u16),
    /// Mass of the whole transformer, 0.2 to 30 kg.
    TransformerMass(Mass),
    /// The winding at the back, away from the seam.
    WindingAtBack(Winding),
    /// The primary's metal.
    PrimaryMetal(Metal),
    /// Thickness of the seam weld, 0.1 to 20 mm.
    SeamThickness(Length),
    /// How the old winding is got out.
    Way(Way),
    /// What becomes of the shunts.
    Shunts(ShuntFate),
}

impl Finding {
    /// The field that it fills.
    #[must_use]
    pub const fn field(self) -> Field {
        match self {
            Finding::Photo(_) => Field::Photo,
            Finding::Supply(_) => Field::Supply,
            Finding::WireCount(_) => Field::WireCount,
            Finding::Terminals(_) => Field::Terminals,
            Finding::TransformerMass(_) => Field::TransformerMass,
            Finding::WindingAtBack(_) => Field::WindingAtBack,
            Finding::PrimaryMetal(_) => Field::PrimaryMetal,
            Finding::SeamThickness(_) => Field::SeamThickness,
            Finding::Way(_) => Field::Way,
            Finding::Shunts(_) => Field::Shunts,
        }
    }

    /// The range that its number must lie in, as shown to the person, if it is outside.
    pub(super) fn out_of_range(self) -> Option<&'static str> {
        let within = match self {
            Finding::WireCount(count) | Finding::Terminals(count) => (1..=40).contains(&count),
            Finding::TransformerMass(mass) => (0.2..=30.0).contains(&mass.si()),
            Finding::SeamThickness(thickness) => (0.1..=20.0).contains(&thickness.mm()),
            _ => true,
        };
        if within {
            return None;
        }
        Some(match self {
            Finding::TransformerMass(_) => "0.2 to 30 kg",
            Finding::SeamThickness(_) => "0.1 to 20 mm",
            _ => "1 to 40",
        })
    }
}

/// Everything found so far.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Findings {
    /// Photos kept, by their id in the store.
    pub photos: Vec<u128>,
    /// What feeds the magnetron.
    pub supply: Option<Supply>,
    /// Wires that lead to the transformer.
    pub wire_count: Option<u16>,
    /// Terminals of the transformer.
    pub terminals: Option<u16>,
    /// Mass of the whole transformer.
    pub transformer_mass: Option<Mass>,
    /// The winding at the back.
    pub at_back: Option<Winding>,
    /// The primary's metal.
    pub primary_metal: Option<Metal>,
    /// Thickness of the seam weld.
    pub seam_thickness: Option<Length>,
    /// How the old winding is got out.
    pub way: Option<Way>,
    /// What becomes of the shunts.
    pub shunts: Option<ShuntFate>,
}

words! {
    /// Something that follows from what was found.
    pub enum Note, "note" {
        /// No core here: size up the parts instead.
        InverterNoCore = "inverter-no-core",
        /// The primary is aluminium: crimp, do not bend twice, more resistance.
        AluminiumPrimary = "aluminium-primary",
        /// The primary is at the back: once the old windings are off nothing more is pulled.
        PrimaryAtBack = "primary-at-back",
        /// The primary is in front of the old winding and must come off whole first.
        PrimaryInFront = "primary-in-front",
        /// A primary that came off goes back on.
        PrimaryGoesBack = "primary-goes-back",
        /// The shunts go back in.
        ShuntsKept = "shunts-kept",
        /// The shunts stay out.
        ShuntsLeftOut = "shunts-left-out",
        /// The seam is thicker than usual (more than about 1.6 mm; common practice, no source).
        ThickSeam = "thick-seam",
    }
}

impl Findings {
    pub(super) fn take(&mut self, finding: Finding) {
        match finding {
            Finding::Photo(id) => self.photos.push(id),
            Finding::Supply(supply) => self.supply = Some(supply),
            Finding::WireCount(count) => self.wire_count = Some(count),
            Finding::Terminals(count) => self.terminals = Some(count),
            Finding::TransformerMass(mass) => self.transformer_mass = Some(mass),
            Finding::WindingAtBack(winding) => self.at_back = Some(winding),
            Finding::PrimaryMetal(metal) => self.primary_metal = Some(metal),
            Finding::SeamThickness(thickness) => self.seam_thickness = Some(thickness),
            Finding::Way(way) => self.way = Some(way),
            Finding::Shunts(fate) => self.shunts = Some(fate),
        }
    }

    /// True if a field is filled.
    #[must_use]
    pub fn has(&self, field: Field) -> bool {
        match field {
            Field::Photo => !self.photos.is_empty(),
            Field::Supply => self.supply.is_some(),
            Field::WireCount => self.wire_count.is_some(),
            Field::Terminals => self.terminals.is_some(),
            Field::TransformerMass => self.transformer_mass.is_some(),
            Field::WindingAtBack => self.at_back.is_some(),
            Field::PrimaryMetal => self.primary_metal.is_some(),
            Field::SeamThickness => self.seam_thickness.is_some(),
            Field::Way => self.way.is_some(),
            Field::Shunts => self.shunts.is_some(),
        }
    }

    /// What follows from what was found and matters at a step.
    #[must_use]
    pub fn notes_at(&self, step: Step) -> Vec<Note> {
        let matters = |note: &Note| match note {
            Note::InverterNoCore => true,
            Note::AluminiumPrimary => matches!(step, Step::Inspect | Step::Remove),
            Note::PrimaryAtBack | Note::PrimaryInFront => step == Step::Remove,
            Note::PrimaryGoesBack => step == Step::Store,
            Note::ShuntsKept | Note::ShuntsLeftOut => matches!(step, Step::Remove | Step::Store),
            Note::ThickSeam => step == Step::Split,
        };
        let mut notes = self.notes();
        notes.retain(matters);
        notes
    }

    /// What follows from what was found.
    #[must_use]
    pub fn notes(&self) -> Vec<Note> {
        let mut notes = Vec::new();
        if self.supply == Some(Supply::Inverter) {
            notes.push(Note::InverterNoCore);
        }
        if self.primary_metal == Some(Metal::Aluminium) {
            notes.push(Note::AluminiumPrimary);
        }
        match self.at_back {
            Some(Winding::Primary) => notes.push(Note::PrimaryAtBack),
            // A core kept whole keeps its primary where it is.
            Some(_) if self.way != Some(Way::DriveOut) => {
                notes.extend([Note::PrimaryInFront, Note::PrimaryGoesBack]);
            }
            Some(_) | None => {}
        }
        match self.shunts {
            Some(ShuntFate::Keep) => notes.push(Note::ShuntsKept),
            Some(ShuntFate::LeaveOut) => notes.push(Note::ShuntsLeftOut),
            None => {}
        }
        if self.seam_thickness.is_some_and(|seam| seam.mm() > 1.6) {
            notes.push(Note::ThickSeam);
        }
        notes
    }

    /// What to take out, in order.
    ///
    /// Shunts lie between primary and high-voltage winding. A core that stays whole gives up
    /// its shunts first, which makes room for the saw, and keeps its primary where it is. A
    /// split core gives up the winding nearest the seam first; a primary at the back stays on
    /// (common practice, no source). The shunts come out in any case; kept ones go back in.
    #[must_use]
    pub fn pull_order(&self) -> &'static [Part] {
        match (self.way, self.at_back) {
            (Some(Way::DriveOut), _) => &[Part::Shunts, Part::Filament, Part::HighVoltage],
            (_, Some(Winding::Primary) | None) => &[Part::Filament, Part::HighVoltage, Part::Shunts],
            (_, Some(Winding::HighVoltage | Winding::Filament)) => {
                &[Part::Primary, Part::Shunts, Part::Filament, Part::HighVoltage]
            }
        }
    }
}
