//! What to get for a winding.

use crate::exchange::Table;
use crate::magnetics::circuit::performance::{PerformanceEstimate, Rebuild};
use crate::magnetics::winding::Winding;
use crate::quantity::{Area, Length, Mass};
use crate::rewind::search::Candidate;
use crate::text::Texts;
use crate::wire::{Catalogue, Conductor, Envelope, Metal};
use crate::words::{Message, words};

/// One line of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// What it is.
    pub what: Message,
    /// How much.
    pub amount: Amount,
    /// What it is for.
    pub purpose: Purpose,
}

words! {
    /// What a material is for.
    pub enum Purpose, "purpose" {
        /// The new winding.
        NewWinding = "new-winding",
        /// The coil of a choke or a ballast.
        Coil = "coil",
        /// Lies between the tongue and a winding.
        OverTongue = "over-tongue",
        /// Lies between the tongue and the coil of a choke or a ballast.
        OverTongueOfCoil = "over-tongue-of-coil",
        /// Lies between primary and winding.
        Barrier = "barrier",
        /// Lies between layers.
        Interlayer = "interlayer",
        /// Fills the gap.
        Gap = "gap",
        /// Ends of the winding.
        LeadOuts = "lead-outs",
        /// Joints of aluminium.
        AluminiumJoints = "aluminium-joints",
        /// The mains side.
        MainsSide = "mains-side",
        /// The mains side, with ratings by the local code.
        MainsRatings = "mains-ratings",
        /// In the live wire.
        LiveWire = "live-wire",
        /// On the winding.
        OnWinding = "on-winding",
        /// In series with the winding.
        InSeries = "in-series",
        /// Behind the winding, on a heat sink.
        BehindWinding = "behind-winding",
        /// At the battery's positive terminal.
        BatteryPlus = "battery-plus",
    }
}

/// How much of a material.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Length, and the metal in it.
    Wire {
        /// Metres of it, all conductors together, a tenth more than the winding takes.
        length: Length,
        /// Metal in that length.
        mass: Mass,
    },
    /// Sheet of a width and a length.
    Sheet {
        /// Width.
        width: Length,
        /// Length.
        length: Length,
    },
    /// Pieces.
    Pieces(u32),
}

/// What to get for a design, as a table: lengths in mm, masses in kg.
#[must_use]
pub fn materials_table(materials: &[Material], texts: &Texts) -> Table {
    let head = ["what", "metres", "kg", "width_mm", "length_mm", "pieces", "purpose"];
    let row = |material: &Material| {
        let (mut metres, mut mass, mut width, mut length, mut pieces) = Default::default();
        match material.amount {
            Amount::Wire {
                length: of,
                mass: metal,
            } => {
                metres = format!("{:.2}", of.si());
                mass = format!("{:.3}", metal.si());
            }
            Amount::Sheet {
                width: wide,
                length: long,
            } => {
                width = format!("{:.0}", wide.mm());
                length = format!("{:.0}", long.mm());
            }
            Amount::Pieces(count) => pieces = count.to_string(),
        }
        vec![
            texts.message(&material.what),
            metres,
            mass,
            width,
            length,
            pieces,
            texts.text(material.purpose.key()),
        ]
    };
    Table {
        head: head.map(str::to_owned).to_vec(),
        rows: materials.iter().map(row).collect(),
    }
}

pub use crate::rewind::handwork::{SPARE, cut_length};

/// The sheet that lines the tongue.
pub(super) fn insulating_sheet(thickness: Length) -> Message {
    of_thickness("material-insulating-sheet", thickness, 1)
}

/// The film between two layers.
pub(super) fn film(thickness: Length) -> Message {
    of_thickness("material-film", thickness, 2)
}

/// A material by its thickness in millimetres.
pub(super) fn of_thickness(key: &'static str, thickness: Length, decimals: usize) -> Message {
    Message::new(key).with("thickness", format_args!("{:.decimals$} mm", thickness.mm()))
}

/// The materials of a winding.
#[must_use]
pub fn materials(
    rebuild: &Rebuild,
    candidate: &Candidate,
    estimate: &PerformanceEstimate,
    catalogue: &Catalogue,
) -> Vec<Material> {
    let (winding, layers) = (&candidate.winding, &candidate.layers);
    let space = crate::magnetics::circuit::performance::Prepared::new(rebuild).space;
    let around = rebuild.core.turn_length(space.start);
    let mean_turn = estimate.mean_turn.value;
    let cut = cut_length(estimate.wire_length.value, mean_turn);
    let mut list = vec![
        Material {
            what: catalogue.label(&winding.conductor),
            amount: Amount::Wire {
                length: cut * f64::from(winding.parallel),
                mass: estimate.wire_mass.value * (cut / estimate.wire_length.value),
            },
            purpose: Purpose::NewWinding,
        },
        Material {
            what: insulating_sheet(rebuild.insulation.ground),
            amount: Amount::Sheet {
                width: space.breadth + rebuild.insulation.ground * 2.0,
                length: around * SPARE,
            },
            purpose: Purpose::OverTongue,
        },
        Material {
            what: of_thickness("material-board", rebuild.insulation.barrier, 1),
            amount: Amount::Sheet {
                width: space.build,
                length: mean_turn * SPARE,
            },
            purpose: Purpose::Barrier,
        },
    ];
    let between = layers.layers.saturating_sub(1);
    if between > 0 && !matches!(winding.conductor.envelope, Envelope::FullWidth { .. }) {
        list.push(Material {
            what: film(rebuild.insulation.interlayer),
            amount: Amount::Sheet {
                width: space.breadth,
                length: mean_turn * (f64::from(between) * SPARE),
            },
            purpose: Purpose::Interlayer,
        });
    }
    list.push(lead_ends(&winding.conductor, winding.parallel));
    if winding.conductor.metal == Metal::Aluminium {
        list.push(joint_compound());
    }
    list.push(mains_side());
    list
}

/// Adds to the materials of a winding what a tap between its halves takes: two more ends of each conductor, and
/// a lug where they meet.
pub fn add_tap(list: &mut [Material], winding: &Winding, leads: Length) {
    for material in list {
        match &mut material.amount {
            Amount::Wire { length, mass } => {
                let whole = *length + leads * f64::from(winding.parallel);
                *mass = *mass * (whole / *length);
                *length = whole;
            }
            Amount::Pieces(count) if material.purpose == Purpose::LeadOuts => *count += winding.parallel,
            Amount::Pieces(_) | Amount::Sheet { .. } => {}
        }
    }
}

/// The bolt of a crimped lug for a section, as lugs are commonly sold (DIN 46235 offers several; M).
fn lug_bolt(mm2: f64) -> &'static str {
    match mm2 {
        ..=16.0 => "M6",
        ..=35.0 => "M8",
        ..=70.0 => "M10",
        _ => "M12",
    }
}

/// The bolt through the end of a strip or bar, by its width: at most half of it is drilled away
/// (DIN 43673: 20 mm 9 or 11 mm hole, 30 mm 11, 40 mm 13.5; M).
fn strip_bolt(width: Length) -> &'static str {
    match width.mm() {
        ..=14.9 => "M5",
        ..=19.9 => "M6",
        ..=24.9 => "M8",
        ..=39.9 => "M10",
        _ => "M12",
    }
}

/// What the ends of a winding are joined with: strip is drilled and bolted, foil gets a strip across,
/// wire gets lugs of its section.
fn lead_ends(conductor: &Conductor, parallel: u32) -> Material {
    let what = match conductor.envelope {
        Envelope::Flat { width, .. } => Message::new("material-strip-bolts").with("bolt", strip_bolt(width)),
        Envelope::FullWidth { .. } => Message::new("material-foil-ends"),
        Envelope::Round { .. } => lug_for(conductor.area),
    };
    Material {
        what,
        amount: Amount::Pieces(2 * parallel),
        purpose: Purpose::LeadOuts,
    }
}

/// A crimped lug for a section: the smallest of IEC 60228's sizes that takes it, with its bolt.
pub(super) fn lug_for(section: Area) -> Message {
    const SIZES: [f64; 15] = [
        0.75, 1.0, 1.5, 2.5, 4.0, 6.0, 10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120.0, 150.0,
    ];
    // A cable of a size may have a little more metal than its name.
    let size = SIZES.into_iter().find(|size| section.mm2() <= size * 1.04);
    let size = size.unwrap_or_else(|| section.mm2().ceil());
    Message::new("material-lug")
        .with("size", size)
        .with("bolt", lug_bolt(size))
}

/// True for bar, strip and foil, whose ends are drilled and bolted and take no crimped lug.
#[must_use]
pub const fn is_strip(conductor: &Conductor) -> bool {
    matches!(conductor.envelope, Envelope::Flat { .. } | Envelope::FullWidth { .. })
}

fn joint_compound() -> Material {
    Material {
        what: Message::new("material-joint-compound"),
        amount: Amount::Pieces(1),
        purpose: Purpose::AluminiumJoints,
    }
}

/// The materials of two cores as one list: lengths and pieces add up, what is on the mains side is there
/// once, and what only one core takes stands by itself.
#[must_use]
pub fn for_both(first: &[Material], second: &[Material]) -> Vec<Material> {
    let mut list = first.to_vec();
    for material in second.iter().filter(|material| **material != mains_side()) {
        let same = list.iter_mut().find(|other| {
            let wide = |m: &Material| match m.amount {
                Amount::Sheet { width, .. } => Some(width),
                Amount::Wire { .. } | Amount::Pieces(_) => None,
            };
            other.what == material.what && other.purpose == material.purpose && wide(other) == wide(material)
        });
        match same.map(|same| &mut same.amount) {
            None => list.push(material.clone()),
            Some(Amount::Wire { length, mass }) => {
                if let Amount::Wire {
                    length: more,
                    mass: metal,
                } = material.amount
                {
                    (*length, *mass) = (*length + more, *mass + metal);
                }
            }
            Some(Amount::Sheet { length, .. }) => {
                if let Amount::Sheet { length: more, .. } = material.amount {
                    *length += more;
                }
            }
            Some(Amount::Pieces(count)) => {
                if let Amount::Pieces(more) = material.amount {
                    *count += more;
                }
            }
        }
    }
    list
}

pub(super) fn mains_side() -> Material {
    Material {
        what: Message::new("material-mains-fittings"),
        amount: Amount::Pieces(1),
        purpose: Purpose::MainsRatings,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::demo_job;

    /// IEC 60228's sizes: AWG 2 (33.6 mm²) takes a lug of 35 mm², 2.5 mm enamelled (4.91 mm²) one of 6 mm².
    /// A bar's hole leaves at least half of it (DIN 43673, from memory).
    #[test]
    fn an_end_suits_its_conductor() {
        let texts = Texts::english().unwrap();
        for (mm2, lug) in [
            (33.6, "crimped lug, 35 mm², M8 hole"),
            (4.91, "crimped lug, 6 mm², M6 hole"),
            (50.0, "crimped lug, 50 mm², M10 hole"),
            (95.0, "crimped lug, 95 mm², M12 hole"),
        ] {
            assert_eq!(texts.message(&lug_for(Area::from_mm2(mm2))), lug);
        }
        for (width, hole) in [
            (12.0, 5.5),
            (15.0, 6.6),
            (20.0, 9.0),
            (25.0, 11.0),
            (30.0, 11.0),
            (40.0, 13.5),
        ] {
            let bolt: f64 = strip_bolt(Length::from_mm(width))[1..].parse().unwrap();
            assert!(bolt < hole && hole <= width / 2.0, "{width} mm: M{bolt}");
        }
    }

    /// What is to be cut is the winding, its leads, and a turn.
    #[test]
    fn a_length_to_cut_has_a_turn_to_spare() {
        let answer = basis(&demo_job()).unwrap();
        let design = answer.design.unwrap();
        let parallel = f64::from(design.candidate.winding.parallel);
        let Amount::Wire { length, .. } = design.materials[0].amount else {
            panic!("{:?}", design.materials[0])
        };
        let (one, turn) = (design.estimate.wire_length.value, design.estimate.mean_turn.value);
        assert!(length.si() / parallel >= (one + turn).si() * 0.999_999);
    }
}
