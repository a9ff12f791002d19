//! What to get for a choke or a ballast.

use super::basis::Basis;
use super::behaviour::inductor::InductorAnswer;
use super::materials::{
    Amount, Material, Purpose, SPARE, cut_length, film, insulating_sheet, lug_for, mains_side, of_thickness,
};
use crate::job::Goal;

/// The materials of a choke or a ballast.
#[must_use]
pub fn coil_materials(answer: &Basis, goal: &Goal, found: &InductorAnswer) -> Vec<Material> {
    let rebuild = &answer.problem.rebuild;
    let (core, insulation, coil) = (&rebuild.core, &rebuild.insulation, &found.coil);
    let height = core.window_height.value;
    let cut = cut_length(coil.wire_length, coil.mean_turn);
    let mut list = vec![
        Material {
            what: found.wire.clone(),
            amount: Amount::Wire {
                length: cut * f64::from(found.parallel),
                mass: coil.mass * (cut / coil.wire_length),
            },
            purpose: Purpose::Coil,
        },
        Material {
            what: insulating_sheet(insulation.ground),
            amount: Amount::Sheet {
                width: height,
                length: core.turn_length(insulation.ground) * SPARE,
            },
            purpose: Purpose::OverTongueOfCoil,
        },
    ];
    for (paper, count) in &found.stack.papers {
        list.push(Material {
            what: of_thickness("material-gap-sheet", paper.value, 2),
            // Three faces of the core's width, one beside the other.
            amount: Amount::Sheet {
                width: core.stack.value,
                length: (core.tongue.value + core.outer_limb.value * 2.0) * f64::from(*count),
            },
            purpose: Purpose::Gap,
        });
    }
    if coil.layers > 1 {
        list.push(Material {
            what: film(insulation.interlayer),
            amount: Amount::Sheet {
                width: height,
                length: coil.mean_turn * (f64::from(coil.layers - 1) * SPARE),
            },
            purpose: Purpose::Interlayer,
        });
    }
    list.push(Material {
        what: lug_for(found.built.conductor.section),
        amount: Amount::Pieces(2),
        purpose: Purpose::LeadOuts,
    });
    // Another supply feeds a choke.
    if matches!(goal, Goal::Ballast { .. }) {
        list.push(mains_side());
    }
    list
}
