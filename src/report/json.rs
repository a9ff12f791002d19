//! A job's answers as JSON: every result with its unit in the key.

use serde_json::{Map, Value, json as object};

use super::numbers::json_of_numbers;
use crate::app::basis::{Design, layer_schedule};
use crate::app::bench::Tests;
use crate::app::evaluation::Evaluation;
use crate::app::materials::{Amount, Material};
use crate::bench::Amount as Tested;
use crate::magnetics::circuit::performance::PerformanceNumber;
use crate::magnetics::circuit::protection::Tripping;
use crate::magnetics::winding::primary::Test;
use crate::quantity::{Measured, Quantity};
use crate::rewind::search::Candidate;
use crate::text::Texts;
use crate::wire::Catalogue;

/// Everything answered about a job. Each estimate is `{ "value", "plus_minus" }` (k = 2, about
/// 95 %) under a key that ends with its unit, in SI.
#[must_use]
pub fn json(answer: &Evaluation, tests: Option<&Tests>) -> Value {
    let rebuild = &answer.problem.rebuild;
    let core = &rebuild.core;
    object!({
        "curbcore_report": 1,
        "job": answer.file(),
        "core": {
            "net_area_m2": core.net_area().si(),
            "path_length_m": core.path_length().si(),
            "window_area_m2": core.window_area().si(),
            "mean_turn_m": core.mean_turn().si(),
            "computed_mass_kg": core.computed_mass().si(),
            "outer_limb_m": measured(core.outer_limb),
            "yoke_m": measured(core.yoke),
            "stacking_factor": measured(core.stacking_factor),
        },
        "primary": {
            "turns": measured(rebuild.primary.turns),
            "by_test": answer.problem.turns.iter().flat_map(|t| &t.by_test).map(|(test, turns)| object!({
                "test": test_word(*test), "turns": measured(*turns),
            })).collect::<Vec<_>>(),
            "disagreements": answer.problem.turns.iter().flat_map(|t| &t.disagreements).map(|d| object!({
                "first": test_word(d.first.0), "first_turns": d.first.1.si(),
                "second": test_word(d.second.0), "second_turns": d.second.1.si(),
                "cause": d.cause.word(),
            })).collect::<Vec<_>>(),
            "bare_wire_diameter_m": measured(rebuild.primary.wire_diameter),
            "metal": rebuild.primary.metal.word(),
            "idle_current_a": measured(rebuild.idle_current),
        },
        // A choke or a ballast leaves no primary in the core.
        "flux_verdict": answer.goal.map(|_| answer.flux.word()),
        "assumed": answer.problem.assumed.iter().map(|a| a.word()).collect::<Vec<_>>(),
        "search": {
            "tried": answer.found.tried,
            "within_limits": answer.found.within_limits(),
            "held_by": answer.found.held_by.map(|limit| limit.word()),
            "dropped": answer.found.dropped.iter().map(|(limit, n)| (limit.word().to_owned(), Value::from(*n)))
                .collect::<Map<_, _>>(),
            "ranked": answer.found.ranked.iter().map(|c| candidate(c, &answer.catalogue)).collect::<Vec<_>>(),
            "nearest": answer.found.nearest.as_ref().map(|(part, c)| object!({
                "part_of_wanted_current": part, "winding": candidate(c, &answer.catalogue),
            })),
        },
        "design": answer.design.as_ref().map(|d| design(d, answer)),
        "circuit": answer.circuit_parts().map(super::circuit_parts::json_of_circuit),
        "materials": materials(answer),
        "behaviour": super::behaviour::json_of(answer),
        "commissioning": tests.map(commissioning),
    })
}

/// What to get for the winding or the coil; null where the texts cannot be read.
fn materials(answer: &Evaluation) -> Option<Vec<Value>> {
    let texts = Texts::english().ok()?;
    Some(super::materials(answer, &texts).iter().map(material).collect())
}

/// The record of the tests, one object for each prediction.
fn commissioning(tests: &Tests) -> Value {
    let lines: Vec<Value> = tests
        .bench
        .record()
        .iter()
        .map(|line| {
            let unit = match line.prediction.value {
                Tested::Resistance(_) => "_ohm",
                Tested::Ratio(_) => "",
                Tested::Current(_) => "_a",
                Tested::Voltage(_) => "_v",
                Tested::Rise(_) => "_k",
            };
            let key = |name: &str| format!("{name}{unit}");
            let finite = |amount: Tested| Some(amount.si()).filter(|si| si.is_finite());
            let mut row = Map::new();
            row.insert("stage".to_owned(), line.prediction.stage.word().into());
            row.insert("winding".to_owned(), line.prediction.of.into());
            row.insert(key("predicted"), finite(line.prediction.value).into());
            row.insert(key("low"), finite(line.prediction.low).into());
            row.insert(key("high"), finite(line.prediction.high).into());
            if let Some(outcome) = line.outcome {
                row.insert(key("read"), finite(outcome.amount).into());
                row.insert("status".to_owned(), super::page::status_word(outcome.status).into());
            }
            Value::Object(row)
        })
        .collect();
    object!({ "design_changed_since": tests.outdated, "tests": lines })
}

fn measured<Q: Quantity>(value: Measured<Q>) -> Value {
    object!({ "value": value.value.si(), "plus_minus": value.plus_minus.si(), "origin": value.origin.word() })
}

const fn test_word(test: Test) -> &'static str {
    match test {
        Test::TestTurn => "test_turn",
        Test::Counted => "counted_turns",
        Test::OldSecondary => "old_secondary",
    }
}

fn candidate(c: &Candidate, catalogue: &Catalogue) -> Value {
    object!({
        "turns": c.winding.turns,
        "conductor": catalogue.name(&c.winding.conductor),
        "metal": c.winding.conductor.metal.word(),
        "parallel": c.winding.parallel,
        "open_circuit_v": c.performance.open_circuit.si(),
        "working_current_a": c.performance.working_current.si(),
        "spare_m": c.performance.spare.si(),
        "score": {
            "total": c.score.total(), "current": c.score.current, "voltage": c.score.voltage,
            "heat": c.score.heat, "fill": c.score.fill, "ease": c.score.ease,
        },
        "group": c.group.word(),
        "heat_margin_k": c.heat_margin.map(|margin| margin.si()).filter(|margin| margin.is_finite()),
    })
}

fn design(design: &Design, answer: &Evaluation) -> Value {
    let catalogue = &answer.catalogue;
    object!({
        "chosen_by_person": design.chosen,
        "winding": candidate(&design.candidate, catalogue),
        "layers_turns": layer_schedule(&design.candidate.winding, &design.candidate.layers),
        "breaks": design.candidate.broken.iter().map(|limit| limit.word()).collect::<Vec<_>>(),
        "results": json_of_numbers(&design.numbers(PerformanceNumber::ALL)),
        "voltage_curve": design.curve.iter().map(|(a, v, pm)| object!({
            "current_a": a.si(), "voltage_v": v.si(), "plus_minus_v": pm.si(),
        })).collect::<Vec<_>>(),
        "warnings": design.warnings.iter().map(|w| w.key().trim_start_matches("warning-")).collect::<Vec<_>>(),
        "outlet": object!({
            "breaker_rating_a": design.outlet.own.rating.si(),
            "verdict": match design.outlet.verdict {
                Tripping::Holds => "holds",
                Tripping::MayTrip => "may_open",
                Tripping::Trips => "opens",
            },
            "holds": design.outlet.holds.map(|outlet| outlet.word),
        }),
    })
}

/// What to get.
fn material(material: &Material) -> Value {
    let amount = match material.amount {
        Amount::Wire { length, mass } => object!({ "length_m": length.si(), "mass_kg": mass.si() }),
        Amount::Sheet { width, length } => object!({ "width_m": width.si(), "length_m": length.si() }),
        Amount::Pieces(n) => object!({ "pieces": n }),
    };
    object!({ "what": material.what, "amount": amount, "purpose": material.purpose })
}
