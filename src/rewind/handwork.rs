//! What hands can wind: how many conductors together, how tight a bend, how many turns, and which form
//! of conductor suits which winding. Rules of the bench, common practice, no source; each with its reason.

use super::limits::{Limit, LimitSet};
use crate::magnetics::core::EiCore;
use crate::magnetics::heat::thermal_class::ThermalClass;
use crate::magnetics::winding::{Space, Winding};
use crate::quantity::{Area, Length};
use crate::wire::{Conductor, Envelope, Family, Metal};

/// A tenth more than computed, for crossings and a mistake. Common practice, no source.
pub const SPARE: f64 = 1.1;

/// How long to cut one conductor: a turn to spare, and no less than a tenth. Common practice, no source.
#[must_use]
pub fn cut_length(conductor: Length, turn: Length) -> Length {
    (conductor + turn).max(conductor * SPARE)
}

/// Where a conductor comes from, in the order that a builder asks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// On the person's shelf, long enough.
    Own,
    /// Sold in any welding or electrical shop, in a form that suits the winding.
    Common,
    /// For those who have it: flat conductors, aluminium, and forms that suit the winding less.
    Rest,
}

impl Group {
    /// All, in order.
    pub const ALL: [Group; 3] = [Group::Own, Group::Common, Group::Rest];

    /// The word that reports use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Group::Own => "own",
            Group::Common => "common",
            Group::Rest => "rest",
        }
    }
}

/// The group of a winding whose conductor is not on the shelf.
#[must_use]
pub fn group_of(winding: &Winding) -> Group {
    let conductor = &winding.conductor;
    let sold = matches!(
        conductor.family,
        Family::Enamelled | Family::Stranded | Family::WeldingCable
    ) && conductor.metal == Metal::Copper;
    if sold && suits(winding) {
        Group::Common
    } else {
        Group::Rest
    }
}

/// Most turns that are wound of cable: its jacket takes more of the window than its copper, and more
/// turns than these want enamelled wire.
const MOST_CABLE_TURNS: u32 = 20;

/// Fewest turns that are wound of enamelled wire: fewer carry a heavy current, which takes a cable or
/// more wires together than hands keep in order.
const FEWEST_ENAMELLED_TURNS: u32 = 6;

/// Whether the form of the conductor suits so many turns of it.
#[must_use]
pub fn suits(winding: &Winding) -> bool {
    match winding.conductor.family {
        Family::Stranded | Family::WeldingCable => winding.turns <= MOST_CABLE_TURNS,
        Family::Enamelled | Family::Solid => winding.turns >= FEWEST_ENAMELLED_TURNS,
        Family::Rectangular | Family::Strip | Family::Busbar | Family::Foil | Family::Own => true,
    }
}

/// Most conductors that a hand keeps in order in one turn: two thick cables or stiff wires, three of
/// 10 mm² and above, four thinner ones; flat ones lie on one another, two of strip, four of thin foil; a
/// bar alone.
#[must_use]
pub fn most_parallel(conductor: &Conductor) -> u32 {
    let thick = |two: f64, three: f64| {
        if conductor.area >= Area::from_mm2(two) {
            2
        } else if conductor.area >= Area::from_mm2(three) {
            3
        } else {
            4
        }
    };
    match conductor.family {
        Family::Stranded | Family::WeldingCable => thick(16.0, 10.0),
        Family::Enamelled | Family::Solid | Family::Own => thick(4.0, 2.5),
        Family::Rectangular | Family::Strip => 2,
        Family::Busbar => 1,
        Family::Foil if conductor.solid_thickness <= Length::from_mm(0.3) => 4,
        Family::Foil => 2,
    }
}

/// Most turns of a conductor: a bar of 4 mm and more is bent to a U in a vice and closed by a bolted
/// bridge, which makes one turn.
#[must_use]
pub const fn most_turns(conductor: &Conductor) -> Option<u32> {
    match conductor.family {
        Family::Busbar => Some(1),
        _ => None,
    }
}

/// The least inside radius that a conductor is bent to once, by hand: its own overall diameter where its
/// strands are fine, half as much again where they are coarse, twice its bare diameter where it is solid
/// (its enamel cracks below), and twice its thickness on the flat; a bar in a vice, its thickness.
#[must_use]
pub fn least_bend(conductor: &Conductor) -> Length {
    let across = match conductor.envelope {
        Envelope::Round { outer } => outer,
        Envelope::Flat { .. } | Envelope::FullWidth { .. } => conductor.solid_thickness,
    };
    match conductor.family {
        Family::WeldingCable => across,
        // Strands of more than half a millimetre are those of building wire by gauge.
        Family::Stranded if conductor.solid_thickness <= Length::from_mm(0.51) => across,
        Family::Stranded => across * 1.5,
        Family::Enamelled | Family::Solid | Family::Own => conductor.solid_thickness * 2.0,
        Family::Rectangular | Family::Strip | Family::Foil => across * 2.0,
        Family::Busbar => across,
    }
}

/// The inside radius that a turn has on this core: half the tongue and what lies on it, as the turn goes
/// round the tongue's end.
#[must_use]
pub fn bend_on(core: &EiCore, space: &Space) -> Length {
    core.tongue.value / 2.0 + space.start
}

/// What hands cannot do of a winding.
#[must_use]
pub fn broken(core: &EiCore, space: &Space, winding: &Winding) -> LimitSet {
    let conductor = &winding.conductor;
    let mut broken = LimitSet::default();
    broken.add_if(least_bend(conductor) > bend_on(core, space), Limit::BendTooTight);
    broken.add_if(
        winding.parallel > most_parallel(conductor) || most_turns(conductor).is_some_and(|most| winding.turns > most),
        Limit::TooMuchForHands,
    );
    broken
}

/// The thermal class of a winding of this conductor where the job's insulation is of `class`: the lower of
/// that and the class of the cable's own plastic.
#[must_use]
pub fn class_of(conductor: &Conductor, class: ThermalClass) -> ThermalClass {
    let coarse = conductor.solid_thickness > Length::from_mm(0.51);
    let own = match conductor.family {
        Family::Solid => ThermalClass::Polyvinyl,
        Family::Stranded if coarse => ThermalClass::Y,
        Family::Stranded => ThermalClass::Polyvinyl,
        Family::WeldingCable => ThermalClass::Rubber,
        _ => return class,
    };
    own.min(class)
}

/// The id of the text that says how a conductor is wound, insulated and led out.
#[must_use]
pub const fn text_key(conductor: &Conductor) -> &'static str {
    match conductor.family {
        Family::WeldingCable => "form-welding-cable",
        Family::Stranded => "form-stranded",
        Family::Solid => "form-solid",
        Family::Enamelled | Family::Own => "form-enamelled",
        Family::Rectangular => "form-rectangular",
        Family::Strip => "form-strip",
        Family::Busbar => "form-bar",
        Family::Foil => "form-foil",
    }
}

/// How hard a winding is for hands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Ease {
    /// One conductor that bends by hand.
    Easy,
    /// Two together, or one that is stiff.
    SomeWork,
    /// More together, a bar, foil, or a form that does not suit so many turns.
    Hard,
}

/// How hard a winding is, by [`work`].
#[must_use]
pub fn ease(winding: &Winding) -> Ease {
    match work(winding) {
        ..=1.0 => Ease::Easy,
        ..=4.0 => Ease::SomeWork,
        _ => Ease::Hard,
    }
}

/// How a conductor's ease is counted against current, in per cent of it: a winding of two cables is taken
/// where it brings 3 % more than one.
#[must_use]
pub fn work(winding: &Winding) -> f64 {
    let conductor = &winding.conductor;
    let together = 3.0 * f64::from(winding.parallel - 1);
    let stiff = match conductor.family {
        Family::Enamelled | Family::Solid | Family::Own if conductor.solid_thickness > Length::from_mm(3.0) => 3.0,
        Family::Stranded if conductor.solid_thickness > Length::from_mm(0.51) => 1.0,
        Family::Rectangular | Family::Strip => 4.0,
        Family::Busbar => 6.0,
        Family::Foil => 8.0,
        _ => 0.0,
    };
    together + stiff + if suits(winding) { 0.0 } else { 10.0 }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::wire::Catalogue;

    fn of(name: &str, turns: u32, parallel: u32) -> Winding {
        Winding {
            conductor: Catalogue::standard().find(name, Metal::Copper).unwrap(),
            turns,
            parallel,
        }
    }

    /// What is sold and how it is used, as any builder has it (common practice, no source): two turns of
    /// welding cable, fifteen of enamelled or flexible wire; a bundle of enamelled wires for one turn is
    /// left to those who want it, like strip.
    #[test]
    fn a_form_suits_a_use() {
        for (name, turns, parallel, group) in [
            ("mm2-50-welding", 2, 1, Group::Common),
            ("awg-2-welding", 2, 1, Group::Common),
            ("mm2-50-flexible", 2, 1, Group::Common),
            ("mm-2.50-enamelled", 15, 1, Group::Common),
            ("mm2-6-flexible", 15, 1, Group::Common),
            ("mm-2.50-enamelled", 1, 4, Group::Rest),
            ("strip-25x3", 1, 1, Group::Rest),
            ("foil-1", 2, 1, Group::Rest),
            ("mm2-4-flexible", 60, 1, Group::Rest),
        ] {
            assert_eq!(group_of(&of(name, turns, parallel)), group, "{name}");
        }
    }

    #[test]
    fn hands_have_two_thick_ones_and_four_thin_ones() {
        for (name, most) in [
            ("mm2-35-welding", 2),
            ("mm2-10-flexible", 3),
            ("mm2-2.5-flexible", 4),
            ("mm-2.50-enamelled", 2),
            ("mm-1.00-enamelled", 4),
            ("bar-20x5", 1),
        ] {
            assert_eq!(most_parallel(&of(name, 1, 1).conductor), most, "{name}");
        }
    }
}
