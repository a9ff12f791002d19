//! What to get for a choke or a ballast.

use super::basis::Basis;
use super::behaviour::inductor::InductorAnswer;
use super::materials::{Amount, Material, SPARE, mains_side};

/// The materials of a choke or a ballast.
#[must_use]
pub fn coil_materials(answer: &Basis, found: &InductorAnswer) -> Vec<Material> {
    let rebuild = &answer.problem.rebuild;
    let (core, insulation, coil) = (&rebuild.core, &rebuild.insulation, &found.coil);
    let height = core.window_height.value;
    let mut list = vec![
        Material {
            what: found.wire.clone(),
            amount: Amount::Wire {
                length: coil.wire_length * (f64::from(found.parallel) * SPARE),
                mass: coil.mass * SPARE,
            },
            purpose: "the coil, a tenth to spare",
        },
        Material {
            what: format!("hard paper or glass laminate, {:.2} mm", found.sheet.mm()),
            // Three faces of the core's width, one beside the other.
            amount: Amount::Sheet {
                width: core.stack.value,
                length: (core.tongue.value + core.outer_limb.value * 2.0) * f64::from(found.sheets),
            },
            purpose: "spacer in the gap",
        },
        Material {
            what: format!("insulating sheet, {:.1} mm in all", insulation.ground.mm()),
            amount: Amount::Sheet {
                width: height,
                length: core.turn_length(insulation.ground) * SPARE,
            },
            purpose: "between tongue and coil; class F or better",
        },
    ];
    if coil.layers > 1 {
        list.push(Material {
            what: format!("interlayer film, {:.2} mm", insulation.interlayer.mm()),
            amount: Amount::Sheet {
                width: height,
                length: coil.mean_turn * (f64::from(coil.layers - 1) * SPARE),
            },
            purpose: "between layers",
        });
    }
    list.push(Material {
        what: "crimped lugs for the conductor".to_owned(),
        amount: Amount::Pieces(2),
        purpose: "lead-outs",
    });
    list.push(mains_side());
    list
}
