//! What a rebuilt core really does, as JSON.

use serde_json::{Value, json};

use super::super::numbers::json_of_numbers;
use super::pairs::check_word;
use super::shunts::advice_word;
use crate::app::behaviour;
use crate::app::behaviour::direct_current::Needed;
use crate::app::evaluation::Evaluation;
use crate::magnetics::circuit::protection::DeviceKind;
use crate::magnetics::pairs::Joined;

/// Everything a job's core does, as JSON: `{ "value", "plus_minus", "widened_by" }` under keys that
/// end with their unit, in SI; null where there is no answer.
#[must_use]
pub fn json_of(evaluation: &Evaluation) -> Value {
    let pair = evaluation.pair().zip(evaluation.second.as_ref());
    json!({
        "idle": evaluation.idle().map(|a| json!({
            "results": json_of_numbers(&a.numbers),
            "field_strength_a_per_m": a.point.0.si(),
            "waveform_a": a.waveform.iter().map(|i| i.si()).collect::<Vec<_>>(),
            "test": a.fit.as_ref().map(|fit| match fit {
                Ok(fit) => json!({
                    "results": json_of_numbers(&fit.numbers), "gap_determined": fit.gap_determined,
                    "steel_determined": fit.steel_determined, "misfit": fit.misfit, "carried": fit.carried,
                }),
                Err(error) => json!({ "error": error.word() }),
            }),
        })),
        "inrush": evaluation.inrush().map(|a| json!({
            "results": json_of_numbers(&a.numbers),
            "by_closing_angle": a.by_angle.iter().map(|(angle, peak)| json!({
                "closing_angle_degrees": angle.degrees(), "first_peak_a": peak.si(),
            })).collect::<Vec<_>>(),
            "by_mains_resistance": a.by_mains.iter().map(|(mains, peak)| json!({
                "mains_loop_ohm": mains.si(), "first_peak_a": peak.si(),
            })).collect::<Vec<_>>(),
            "breaker_rating_a": a.rating.si(),
            "breaker_that_holds": a.holds.map(DeviceKind::word),
        })),
        "shunts": evaluation.shunts().map(|a| json!({
            "advice": advice_word(&a.advice),
            "advice_unsure": a.unsure,
            "turns_on": json_of_numbers(std::slice::from_ref(&a.deciding)),
            "measured": !a.assumed,
            "working_current_a": a.working.si(),
            "with": { "results": json_of_numbers(&a.with_numbers), "curve": output(&a.with) },
            "without": { "results": json_of_numbers(&a.without_numbers), "curve": output(&a.without) },
        })),
        "heat": evaluation.heat().map(|a| json!({
            "results": json_of_numbers(&a.numbers),
            "cycle": json_of_numbers(&a.cycle),
            "limit_c": a.limit.si(),
            "duty_in_doubt": a.duty_in_doubt,
            "never_hot": a.never_hot,
            "burns_out": a.burns_out,
            "hot_idle": a.hot_idle,
            "time_to_limit_at_least_s": a.time_at_least.map(|time| time.si()),
            "permitted_duty_at_least": a.duty_at_least.map(|duty| duty.si()),
            "winding_band": a.band.iter().map(|(time, [low, high])| json!({
                "time_s": time.si(), "low_c": low.si(), "high_c": high.si(),
            })).collect::<Vec<_>>(),
            "history": a.history.iter().map(|(time, t)| json!({
                "time_s": time.si(), "primary_c": t.primary.si(), "winding_c": t.winding.si(), "core_c": t.core.si(),
            })).collect::<Vec<_>>(),
        })),
        "direct_current": evaluation.direct_current().map(|a| json!({
            "results": json_of_numbers(&a.numbers),
            "series_reactance_ohm": a.reactor.si(),
            "needs_choke_h": match a.needs { Some(Needed::Choke(choke)) => Some(choke.si()), _ => None },
            "needs_reservoir_f": match a.needs { Some(Needed::Reservoir(reservoir)) => Some(reservoir.si()), _ => None },
            "charge": a.charge.as_ref().map(|c| json!({
                "results": json_of_numbers(&c.numbers),
                "course": c.points.iter().map(|p| json!({
                    "state_of_charge": p.state.si(), "elapsed_s": p.elapsed.si(),
                    "current_a": p.current.si(), "terminal_v": p.terminal.si(),
                })).collect::<Vec<_>>(),
                "current_band": c.band.iter().map(|(time, [low, high])| json!({
                    "elapsed_s": time.si(), "low_a": low.si(), "high_a": high.si(),
                })).collect::<Vec<_>>(),
            })),
        })),
        "inductor": evaluation.inductor().map(|a| match a {
            Ok(a) => json!({
                "results": json_of_numbers(&a.numbers),
                "turns": a.turns, "parallel": a.parallel, "wire": a.conductor,
                "breaks": a.broken().iter().map(|limit| limit.word()).collect::<Vec<_>>(),
                "shim": a.stack.papers.iter().map(|(paper, count)| json!({
                    "sheets": count, "sheet_m": paper.value.si(),
                })).collect::<Vec<_>>(),
                "curve": a.curve.iter().map(|(i, l)| json!({
                    "current_a": i.si(), "inductance_h": l.si(),
                })).collect::<Vec<_>>(),
            }),
            Err(trouble) => json!({ "trouble": trouble.word() }),
        }),
        "pair": pair.map(|(a, second)| json!({
            "with": &second.name,
            "windings": match second.windings { Joined::Series => "series", Joined::Parallel => "parallel" },
            "turns_on_second_core": second.design.as_ref().map(|design| design.candidate.winding.turns),
            "results": json_of_numbers(&a.numbers),
            "checks": a.checks.iter().map(check_word).collect::<Vec<_>>(),
        })),
    })
}

fn output(curve: &behaviour::OutputCurve) -> Vec<Value> {
    curve
        .iter()
        .map(|(a, v)| json!({ "current_a": a.si(), "voltage_v": v.si() }))
        .collect()
}
