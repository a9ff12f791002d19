//! The staged tests of a job: what its design predicts, and the runs that prove it.

mod plan;
mod reading;
mod stored;

pub use plan::{
    NEW_WINDING, PRIMARY, SECOND_PRIMARY, SECOND_WINDING, lamp_for, plan, plan_of, primary_predictions, winding_key,
};
pub use reading::{
    NoReading, ReadingForm, amount_like, amount_text, band_text, form_of, four_wire, permitted, permitted_text,
    reading_of, slip, wound_metal,
};
pub use stored::{Tests, plan_from_json, plan_to_json};

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::{as_choice, basis};
    use crate::app::start::demo_job;
    use crate::bench::{Amount, Plan, Prediction, Stage};
    use crate::job::{Goal, JobFile};
    use crate::quantity::{Current, Ratio, Resistance};
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
        let rated = lamp_for(&file, mains).rated_current().si();
        let idle = answer.problem.rebuild.idle_current.value.si();
        assert!(lamp > 0.0 && lamp < rated.min(idle), "{lamp} {rated} {idle}");
    }

    /// A winding that was chosen, on mains that saturate the core or in too hot a job, has no tests.
    #[test]
    fn what_would_burn_is_not_tested() {
        let refusal = |change: &dyn Fn(&mut JobFile)| {
            let mut file = demo_job();
            let found = basis(&file).unwrap();
            let candidate = found.design.as_ref().unwrap().candidate;
            file.choice = Some(as_choice(&candidate, &found.problem.rebuild, &found.catalogue));
            change(&mut file);
            let answer = basis(&file).unwrap();
            let refused = plan(&file, &answer, answer.design.as_ref().unwrap()).err();
            refused.map(|refused| refused.key.into_owned())
        };
        assert_eq!(refusal(&|_| {}), None);
        let saturates = refusal(&|file| file.mains.volts.value = 240.0);
        assert_eq!(saturates.as_deref(), Some("plan-saturates"));
        let busy = |file: &mut JobFile| {
            if let Goal::SpotWelder { pulses_per_minute, .. } = &mut file.goal {
                *pulses_per_minute = 120.0;
            }
        };
        assert_eq!(refusal(&busy).as_deref(), Some("plan-winding-too-hot"));
    }

    #[test]
    fn readings_are_read_as_typed() {
        let read = |of: &Prediction, texts: &[&str]| reading_of(of, &typed(texts), Some(Metal::Copper));
        let (two_wire, four_wire) = (of_winding(2.0), of_winding(0.012));
        let si = |of: &Prediction, texts: &[&str]| read(of, texts).unwrap().amount().si();
        assert_eq!(si(&two_wire, &["1.9", "20"]), 1.9);
        assert!((si(&two_wire, &["1900 mΩ", "20"]) - 1.9).abs() < 1e-12);
        assert!(si(&two_wire, &["open", "20"]).is_infinite());
        // Ohm's law by hand: 62.5 mV over 5 A are 12.5 mΩ.
        assert!((si(&four_wire, &["5", "62.5", "20"]) - 0.0125).abs() < 1e-12);
        assert!((si(&four_wire, &["5 A", "0.0625 V", "20"]) - 0.0125).abs() < 1e-12);
        assert_eq!(si(&predicted(Stage::Insulation, 5e6), &["over"]), f64::INFINITY);
        assert_eq!(si(&predicted(Stage::Insulation, 5e6), &["7"]), 7e6);
        let ratio = predicted(Stage::RatioPolarity, 0.05);
        assert!((si(&ratio, &["24", "1.2", "-"]) + 0.05).abs() < 1e-12);
        for (of, texts) in [
            (&ratio, &["24", "1.2", ""][..]),
            (&ratio, &["0", "1.2", "+"]),
            (&two_wire, &["much", "20"]),
            (&two_wire, &["1"]),
            (&four_wire, &["0", "1", "20"]),
        ] {
            assert!(read(of, texts).is_err(), "{texts:?}");
        }
    }

    fn typed(texts: &[&str]) -> Vec<String> {
        texts.iter().map(|t| (*t).to_owned()).collect()
    }

    fn predicted(stage: Stage, si: f64) -> Prediction {
        let amount = |si: f64| match stage {
            Stage::RatioPolarity => Amount::Ratio(Ratio::from_si(si)),
            Stage::LampIdle | Stage::ShortCircuit => Amount::Current(Current::from_si(si)),
            _ => Amount::Resistance(Resistance::from_si(si)),
        };
        Prediction {
            stage,
            of: NEW_WINDING,
            value: amount(si),
            low: amount(si * 0.9),
            high: amount(si * 1.1),
        }
    }

    fn of_winding(ohms: f64) -> Prediction {
        predicted(Stage::Continuity, ohms)
    }

    /// What stands in a field that is empty, and what in one that cannot be read, are two sentences.
    #[test]
    fn an_empty_field_and_an_unreadable_one_are_told_apart() {
        let texts = Texts::english().unwrap();
        let of = predicted(Stage::LampIdle, 0.5);
        let told = |text: &str| reading_of(&of, &typed(&[text]), None).unwrap_err().told(&texts);
        assert_ne!(told(""), told("abc"));
        assert!(told("abc").contains("abc"), "{}", told("abc"));
        assert!(told("").contains("mA"), "{}", told(""));
    }

    /// 360 typed for 0.36 is asked about; a reading that is merely outside its band is not.
    #[test]
    fn a_slip_of_a_thousand_is_asked_about() {
        let texts = Texts::english().unwrap();
        let of = of_winding(1.8);
        let meant = |texts: &[&str]| slip(&of, reading_of(&of, &typed(texts), Some(Metal::Copper)).unwrap());
        let asked = meant(&["1800", "20"]).unwrap().amount();
        assert_eq!(amount_like(asked, of.value, &texts), "1.80 Ω");
        assert_eq!(meant(&["1.8", "20"]), None);
        assert_eq!(meant(&["2.5", "20"]), None);
        assert!(meant(&["0.0018", "20"]).is_some());
        let lamp = predicted(Stage::LampIdle, 0.36);
        let read = reading_of(&lamp, &typed(&["0.36"]), None).unwrap();
        assert_eq!(slip(&lamp, read).map(|meant| meant.amount().si()), Some(0.36));
    }

    /// Field, band and what was read have one unit.
    #[test]
    fn field_and_band_have_one_unit() {
        let texts = Texts::english().unwrap();
        for (of, unit) in [
            (of_winding(2.0), "Ω"),
            (predicted(Stage::LampIdle, 0.95), "mA"),
            (predicted(Stage::ShortCircuit, 1173.0), "A"),
            (predicted(Stage::Insulation, 5e6), "MΩ"),
        ] {
            assert_eq!(form_of(&of).fields[0].1, unit);
            let band = band_text(&of, &texts);
            assert_eq!(band.matches(unit).count(), 2, "{band}");
        }
    }

    /// What the part feeds decides which gates its load brings.
    #[test]
    fn each_use_is_tested_under_its_own_load() {
        use crate::bench::Load;
        let mut tested = Vec::new();
        for (word, load) in [
            ("spot_welder", Load::Plain),
            ("stick_welder", Load::Electrode),
            ("arc_furnace", Load::Furnace),
            ("battery_charger", Load::Battery),
            ("plain_supply", Load::Plain),
        ] {
            let mut file = demo_job();
            file.goal = crate::app::start::goal_of(word);
            file.choice = None;
            let answer = basis(&file).unwrap();
            // A use that no winding of this core reaches has nothing to test.
            let Some(plan) = plan_of(&file, &answer) else { continue };
            assert_eq!(plan.unwrap().load(), load, "{word}");
            tested.push(word);
        }
        assert!(
            tested.contains(&"stick_welder") && tested.contains(&"battery_charger"),
            "{tested:?}"
        );
    }

    /// The leads are bolted together at that stage: nothing but winding and leads holds the current.
    #[test]
    fn a_spot_welders_short_circuit_is_the_dead_short() {
        let file = demo_job();
        let answer = basis(&file).unwrap();
        let design = answer.design.as_ref().unwrap();
        let plan = plan(&file, &answer, design).unwrap();
        let expected = plan.of_stage(Stage::ShortCircuit).next().unwrap().value.si();
        assert_eq!(expected, design.estimate.short_circuit.value.si());
        assert!(expected > design.estimate.working_current.value.si() * 1.2);
    }

    /// The lamp's own current bounds what passes it (Kirchhoff): a lamp of fewer watts passes less.
    #[test]
    fn the_lamps_watts_move_its_band() {
        let mut file = demo_job();
        let with = |file: &crate::job::JobFile| {
            let answer = basis(file).unwrap();
            let plan = plan_of(file, &answer).unwrap().unwrap();
            plan.of_stage(Stage::LampIdle).next().unwrap().value.si()
        };
        let of_100 = with(&file);
        file.conditions.lamp_watts = Some(crate::job::Reading::new(25.0, 1.0, crate::quantity::Origin::Label));
        let of_25 = with(&file);
        let rated = 25.0 / file.mains.volts.value;
        assert!(of_25 < of_100 && of_25 < rated, "{of_25} {of_100} {rated}");
    }

    /// Class F, 155 °C, in a room of 25 °C (IEC 60085; R2: makers' tables of insulation classes), less the
    /// 15 K that IEC 60076-11 leaves at most to the hot spot (M): 115 K. A current is permitted by the
    /// cautious end, by Joule's law: 10 A √(115 K / 60 K) = 13.84 A.
    #[test]
    fn a_measured_rise_permits_by_the_hottest_spots_high_end() {
        let mut file = demo_job();
        file.conditions.insulation = Some(crate::job::InsulationClass::F);
        let run = crate::bench::WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: crate::quantity::Temperature::from_si(25.0),
            hot: Resistance::from_si(1.0 + 60.0 / (234.5 + 25.0)),
            air: crate::quantity::Temperature::from_si(25.0),
            current: Current::from_si(10.0),
            metal: Metal::Copper,
        };
        let (amps, rise) = permitted(&file, crate::bench::Reading::Warm(run)).unwrap();
        assert!((rise.si() - 115.0).abs() < 1e-9, "{rise:?}");
        assert!((amps.si() - 13.84).abs() < 0.01, "{amps:?}");
    }

    /// Low, isolated tests come before the rated current, and the expected impedance is that of
    /// resistance and reactance at right angles (any textbook).
    #[test]
    fn a_choke_and_a_ballast_have_stages_before_mains() {
        for word in ["choke", "ballast"] {
            let mut file = demo_job();
            file.goal = match crate::app::start::goal_of(word) {
                // The usual target runs this core too hot.
                crate::job::Goal::Ballast { arc_volts, .. } => crate::job::Goal::Ballast {
                    arc_volts,
                    current_a: 6.0,
                },
                choke => choke,
            };
            let answer = basis(&file).unwrap();
            let plan = plan_of(&file, &answer).unwrap().unwrap();
            let at = |stage: Stage| plan.of_stage(stage).next().unwrap();
            let stages = crate::bench::Bench::start(plan.clone()).steps();
            assert_eq!(
                stages,
                [
                    Stage::Prepare,
                    Stage::Reassembly,
                    Stage::Continuity,
                    Stage::Insulation,
                    Stage::Impedance,
                    Stage::RatedCurrent,
                    Stage::TemperatureRise
                ],
                "{word}"
            );
            let found = crate::app::behaviour::inductor::inductor(&file, &answer)
                .unwrap()
                .unwrap();
            let omega = answer.problem.rebuild.mains.frequency.angular();
            let small = crate::magnetics::inductor::Load::alternating(
                found.built.load.rms() * 0.05,
                answer.problem.rebuild.mains.frequency,
            );
            let inductance = found.built.inductance_at(small).si();
            let z = (inductance * omega).hypot(at(Stage::Continuity).value.si());
            let impedance = at(Stage::Impedance);
            assert!(
                impedance.low.si() < z && z < impedance.high.si(),
                "{word}: {z} in {impedance:?}"
            );
            let feeds = match word {
                "ballast" => crate::bench::Load::Lamp,
                _ => crate::bench::Load::Plain,
            };
            assert_eq!(plan.load(), feeds, "{word}");
            assert_eq!(plan_from_json(&plan_to_json(&plan)).unwrap(), plan);
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
