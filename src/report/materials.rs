//! What to get for a job, for page, table and JSON alike.

use super::behaviour::fuse_label;
use super::circuit_parts::circuit_materials;
use crate::app::behaviour::inrush::mains_fuse;
use crate::app::coil_materials::coil_materials;
use crate::app::evaluation::Evaluation;
use crate::app::materials::{Amount, Material, for_both};
use crate::text::{Arg, Texts};

/// The materials of the winding, or of the choke or ballast, the mains fuse among them; empty where
/// there is nothing to make.
#[must_use]
pub fn materials(answer: &Evaluation, texts: &Texts) -> Vec<Material> {
    let mut list = match (&answer.design, answer.inductor()) {
        (Some(design), _) => {
            let second = answer.second.as_ref().and_then(|second| second.design.as_ref());
            second.map_or_else(
                || design.materials.clone(),
                |second| for_both(&design.materials, &second.materials),
            )
        }
        (None, Some(Ok(found))) => coil_materials(answer, &answer.file().goal, found),
        (None, _) => return Vec::new(),
    };
    if let Some(parts) = answer.circuit_parts() {
        list.extend(circuit_materials(parts, texts));
    }
    if let Some(fuse) = mains_fuse(answer.file(), answer) {
        let label = fuse_label(&fuse, texts);
        list.push(Material {
            what: texts.text_with("page-fuse-material", &[("fuse", Arg::Text(&label))]),
            amount: Amount::Pieces(1),
            purpose: "in the live wire",
        });
    }
    list
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::materials::materials_table;
    use crate::app::start::{demo_job, goal_of};
    use crate::job::Goal;
    use crate::quantity::LengthUnit;

    /// One list: what the page prints is in the table and in the JSON.
    #[test]
    fn page_table_and_json_name_the_same_fuse() {
        let texts = Texts::english().unwrap();
        let mut ballast = demo_job();
        ballast.goal = Goal::Ballast {
            arc_volts: 100.0,
            current_a: 4.0,
        };
        for file in [demo_job(), ballast] {
            let answer = evaluate(&file).unwrap();
            let fuse = fuse_label(&mains_fuse(&file, &answer).expect("a fuse carries it"), &texts);
            let list = materials(&answer, &texts);
            assert_eq!(list.iter().filter(|m| m.what.contains(&fuse)).count(), 1, "{list:?}");
            let table = materials_table(&list);
            assert!(table.rows.iter().any(|row| row.iter().any(|cell| cell.contains(&fuse))));
            let json = super::super::json(&answer, None);
            let named = json["materials"].as_array().unwrap();
            assert_eq!(named.len(), list.len());
            assert!(
                named
                    .iter()
                    .any(|m| m["what"].as_str().is_some_and(|what| what.contains(&fuse)))
            );
            let page = super::super::page(&answer, None, &[], LengthUnit::Millimetre).unwrap();
            assert!(page.contains(&super::super::draw::escape(&fuse)), "{fuse}");
        }
    }

    /// A choke is fed by another supply, whose fuse is not this job's.
    #[test]
    fn a_choke_has_materials_and_no_mains_fuse() {
        let texts = Texts::english().unwrap();
        let mut file = demo_job();
        file.goal = goal_of("choke");
        let answer = evaluate(&file).unwrap();
        let list = materials(&answer, &texts);
        assert!(list.len() > 3, "{list:?}");
        assert!(mains_fuse(&file, &answer).is_none());
    }
}
