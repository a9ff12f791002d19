//! One conductor as it is wound: metal, section, and the room its insulation takes.

use super::Metal;
use crate::quantity::{Area, Length, Mass, ResistancePerLength, Temperature};

/// What kind of conductor it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Family {
    /// Enamelled round winding wire.
    Enamelled,
    /// Solid conductor with plastic insulation (house wiring).
    Solid,
    /// Stranded or flexible conductor with plastic insulation.
    Stranded,
    /// Finely stranded welding cable with a rubber sheath.
    WeldingCable,
    /// Enamelled rectangular winding wire.
    Rectangular,
    /// Flat strip, wrapped by the person.
    Strip,
    /// Bar of 4 mm and more, bent in a vice and wrapped by the person.
    Busbar,
    /// Foil or sheet as wide as the winding, one turn a layer.
    Foil,
    /// The person's own wire, by its measured diameters.
    Own,
}

/// The room that a conductor takes, insulation included.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Envelope {
    /// A circle.
    Round {
        /// Outer diameter.
        outer: Length,
    },
    /// A rectangle lying flat on the limb.
    Flat {
        /// Along the limb.
        width: Length,
        /// Away from the limb.
        thickness: Length,
    },
    /// As wide as the space allows.
    FullWidth {
        /// Away from the limb, its interleaf included.
        thickness: Length,
    },
}

/// One conductor of the catalogue.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductor {
    /// Its place in the catalogue.
    pub index: u16,
    /// Kind.
    pub family: Family,
    /// Metal.
    pub metal: Metal,
    /// Metal section. For foil: section per metre of width is `thickness`, and this is zero;
    /// see [`Conductor::section`].
    pub area: Area,
    /// Room it takes.
    pub envelope: Envelope,
    /// Diameter or thickness of solid metal, for the skin effect; strands count one by one.
    pub solid_thickness: Length,
    /// Direct-current resistance at 20 °C where a standard states it; else from the section.
    pub stated_resistance_20: Option<ResistancePerLength>,
}

/// Room that the lead-out of a foil's inner end takes: a copper strip of 2 mm, soldered or bolted across
/// the foil and led out between the turns. Common practice, no source.
pub const FOIL_LEAD_OUT: Length = Length::from_si(2e-3);

impl Conductor {
    /// Room that the inner end takes where it comes out under further layers: a round conductor leaves
    /// at the coil's end face, a flat one crosses the layers above it, and foil takes a strip soldered
    /// across it (`FOIL_LEAD_OUT`).
    #[must_use]
    pub const fn lead_out(&self) -> Length {
        match self.envelope {
            Envelope::Round { .. } => Length::ZERO,
            Envelope::Flat { thickness, .. } => thickness,
            Envelope::FullWidth { .. } => FOIL_LEAD_OUT,
        }
    }

    /// Metal section when wound `breadth` wide (only foil depends on it).
    #[must_use]
    pub fn section(&self, breadth: Length) -> Area {
        match self.envelope {
            Envelope::FullWidth { .. } => self.solid_thickness * breadth,
            _ => self.area,
        }
    }

    /// Resistance of a metre at a temperature: the standard's value at 20 °C where it states
    /// one, else resistivity over section, and the metal's temperature coefficient.
    #[must_use]
    pub fn resistance_per_length(&self, breadth: Length, at: Temperature) -> ResistancePerLength {
        let warm = self.metal.resistivity(at) / self.metal.resistivity_20();
        match self.stated_resistance_20 {
            Some(stated) => stated * warm,
            None => ResistancePerLength::from_si(self.metal.resistivity(at).si() / self.section(breadth).si()),
        }
    }

    /// Mass of metal in a length of it.
    #[must_use]
    pub fn metal_mass(&self, breadth: Length, length: Length) -> Mass {
        self.metal.density() * (self.section(breadth) * length)
    }

    /// How far one layer of it reaches from the limb.
    #[must_use]
    pub fn layer_height(&self) -> Length {
        match self.envelope {
            Envelope::Round { outer } => outer,
            Envelope::Flat { thickness, .. } | Envelope::FullWidth { thickness } => thickness,
        }
    }

    /// How much of the limb one of it takes.
    #[must_use]
    pub fn width_on_limb(&self, breadth: Length) -> Length {
        match self.envelope {
            Envelope::Round { outer } => outer,
            Envelope::Flat { width, .. } => width,
            Envelope::FullWidth { .. } => breadth,
        }
    }
}
