//! The staged tests of a job: what its design predicts, and the runs that prove it.

mod plan;
mod reading;
mod stored;

pub use plan::{NEW_WINDING, PRIMARY, lamp_for, plan};
pub use reading::{NoReading, ReadingForm, amount_text, band_text, form_of, reading_of, wound_metal};
pub use stored::{Tests, plan_from_json, plan_to_json};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::demo_job;
    use crate::bench::{Amount, Plan, Stage};
    use crate::quantity::{Current, Resistance};
    use crate::text::Texts;
    use crate::wire::Metal;

    fn demo_plan() -> Plan {
        let file = demo_job();
        let answer = basis(&file).unwrap();
        plan(&file, &answer, answer.design.as_ref().unwrap()).unwrap()
    }

    #[test]
    fn a_plan_survives_being_stored() {
        let plan = demo_plan();
        assert_eq!(plan_from_json(&plan_to_json(&plan)).unwrap(), plan);
        for damaged in ["", "[]", "[{}]", "[{\"stage\":\"moon\"}]", "{\"a\":1}"] {
            assert!(plan_from_json(damaged).is_err(), "{damaged}");
        }
    }

    /// The predicted ratio is the turns' (any textbook); the lamp lies between nothing and its
    /// own current.
    #[test]
    fn predictions_follow_the_design() {
        let file = demo_job();
        let answer = basis(&file).unwrap();
        let design = answer.design.as_ref().unwrap();
        let plan = plan(&file, &answer, design).unwrap();
        let of = |stage| {
            plan.of_stage(stage)
                .find(|p| p.of == NEW_WINDING || stage == Stage::LampIdle)
                .unwrap()
        };
        let primary = &answer.problem.rebuild.primary;
        let ratio = f64::from(design.candidate.winding.turns) / primary.turns.value.si();
        assert!((of(Stage::RatioPolarity).value.si() - ratio).abs() < 1e-12);
        let lamp = of(Stage::LampIdle).value.si();
        let mains = answer.problem.rebuild.mains.voltage.value;
        let rated = lamp_for(mains).rated_current().si();
        let idle = answer.problem.rebuild.idle_current.value.si();
        assert!(lamp > 0.0 && lamp < rated.min(idle), "{lamp} {rated} {idle}");
    }

    #[test]
    fn readings_are_read_as_typed() {
        let typed = |texts: &[&str]| texts.iter().map(|t| (*t).to_owned()).collect::<Vec<_>>();
        let read = |stage, texts: &[&str]| reading_of(stage, &typed(texts), Some(Metal::Copper));
        assert_eq!(
            read(Stage::Continuity, &["12.5 mΩ", "20"]).unwrap().amount().si(),
            0.0125
        );
        assert!(
            read(Stage::Continuity, &["open", "20"])
                .unwrap()
                .amount()
                .si()
                .is_infinite()
        );
        assert_eq!(read(Stage::Insulation, &["over"]).unwrap().amount().si(), f64::INFINITY);
        let reversed = read(Stage::RatioPolarity, &["24", "1.2", "-"]).unwrap();
        assert!((reversed.amount().si() + 0.05).abs() < 1e-12);
        for (stage, texts) in [
            (Stage::RatioPolarity, &["24", "1.2", ""][..]),
            (Stage::RatioPolarity, &["0", "1.2", "+"]),
            (Stage::Continuity, &["much", "20"]),
            (Stage::Continuity, &["1"]),
            (Stage::Reassembly, &["1"]),
        ] {
            assert!(read(stage, texts).is_err(), "{texts:?}");
        }
    }

    #[test]
    fn bands_are_shown_with_units() {
        let texts = Texts::english().unwrap();
        let ohms = |si| Amount::Resistance(Resistance::from_si(si));
        assert_eq!(amount_text(ohms(0.01234), &texts), "12.3 mΩ");
        assert_eq!(amount_text(ohms(2.5e6), &texts), "2.50 MΩ");
        assert_eq!(amount_text(Amount::Current(Current::from_si(0.45)), &texts), "450 mA");
        assert_eq!(amount_text(ohms(f64::INFINITY), &texts), "open");
    }
}
