//! What to get for a winding.

use crate::exchange::Table;
use crate::magnetics::circuit::performance::{PerformanceEstimate, Rebuild};
use crate::quantity::{Length, Mass};
use crate::rewind::search::Candidate;
use crate::wire::{Catalogue, Conductor, Envelope, Metal};

/// One line of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Material {
    /// What it is.
    pub what: String,
    /// How much.
    pub amount: Amount,
    /// What it is for.
    pub purpose: &'static str,
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
pub fn materials_table(materials: &[Material]) -> Table {
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
            material.what.clone(),
            metres,
            mass,
            width,
            length,
            pieces,
            material.purpose.to_owned(),
        ]
    };
    Table {
        head: head.map(str::to_owned).to_vec(),
        rows: materials.iter().map(row).collect(),
    }
}

/// A tenth more wire than computed, for crossings and a mistake. Common practice, no source.
pub const SPARE: f64 = 1.1;

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
    let mut list = vec![
        Material {
            what: catalogue.label(&winding.conductor).to_owned(),
            amount: Amount::Wire {
                length: estimate.wire_length.value * (f64::from(winding.parallel) * SPARE),
                mass: estimate.wire_mass.value * SPARE,
            },
            purpose: "the new winding, a tenth to spare",
        },
        Material {
            what: format!("insulating sheet, {:.1} mm in all", rebuild.insulation.ground.mm()),
            amount: Amount::Sheet {
                width: space.breadth + rebuild.insulation.ground * 2.0,
                length: around * SPARE,
            },
            purpose: "between tongue and winding; class F or better",
        },
        Material {
            what: format!("insulating board, {:.1} mm", rebuild.insulation.barrier.mm()),
            amount: Amount::Sheet {
                width: space.build,
                length: mean_turn * SPARE,
            },
            purpose: "barrier between primary and winding",
        },
    ];
    let between = layers.layers.saturating_sub(1);
    if between > 0 && !matches!(winding.conductor.envelope, Envelope::FullWidth { .. }) {
        list.push(Material {
            what: format!("interlayer film, {:.2} mm", rebuild.insulation.interlayer.mm()),
            amount: Amount::Sheet {
                width: space.breadth,
                length: mean_turn * (f64::from(between) * SPARE),
            },
            purpose: "between layers",
        });
    }
    list.push(lead_ends(&winding.conductor, winding.parallel));
    if winding.conductor.metal == Metal::Aluminium {
        list.push(joint_compound());
    }
    list.push(mains_side());
    list
}

/// What the ends of a winding are joined with: strip is drilled and bolted, wire gets lugs.
fn lead_ends(conductor: &Conductor, parallel: u32) -> Material {
    let what = if is_strip(conductor) {
        "bolts, nuts, flat and spring washers, sleeving"
    } else {
        "crimped lugs for the conductor"
    };
    Material {
        what: what.to_owned(),
        amount: Amount::Pieces(2 * parallel),
        purpose: "lead-outs",
    }
}

/// True for bar, strip and foil, whose ends are drilled and bolted and take no crimped lug.
#[must_use]
pub const fn is_strip(conductor: &Conductor) -> bool {
    matches!(conductor.envelope, Envelope::Flat { .. } | Envelope::FullWidth { .. })
}

fn joint_compound() -> Material {
    Material {
        what: "joint compound for aluminium".to_owned(),
        amount: Amount::Pieces(1),
        purpose: "every aluminium joint",
    }
}

pub(super) fn mains_side() -> Material {
    Material {
        what: "holder for the mains fuse, switch with two poles, cord with ground (earth), strain relief".to_owned(),
        amount: Amount::Pieces(1),
        purpose: "mains side; ratings as your local code asks",
    }
}
