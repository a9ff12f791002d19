//! One step: what to do, the drawing, the tools, what goes wrong, the caution, what to record.

use dioxus::prelude::*;

use super::super::guided::passed_at;
use super::super::words::{say, say_part, say_with};
use super::{capacitor, findings, warming};
use crate::report::step_drawing;
use crate::safety::Moment;
use crate::teardown::{Finding, Step, Teardown};
use crate::text::Arg;

/// How far it is, and the way back to earlier steps.
#[component]
pub fn Progress(state: Teardown, here: Step, ongo: EventHandler<Step>) -> Element {
    let steps: Vec<Step> = Step::ALL
        .iter()
        .copied()
        .filter(|step| step.applies(state.findings()))
        .collect();
    let at = steps.iter().position(|step| *step == here).unwrap_or(0);
    let (place, all) = (at + 1, steps.len());
    rsx! {
        section { class: "progress",
            p { class: "place",
                {say_with("ui-step-of", &[("at", Arg::Number(place as f64)), ("all", Arg::Number(all as f64))])}
            }
            div { class: "bar", role: "progressbar", aria_valuenow: "{place}", aria_valuemin: "1", aria_valuemax: "{all}",
                for (index, step) in steps.iter().enumerate() {
                    span { key: "{step.word()}", class: if index < at { "done" } else if index == at { "here" } else { "" } }
                }
            }
            details {
                summary { {say("ui-all-steps")} }
                ol { class: "all-steps",
                    for (index, step) in steps.iter().copied().enumerate() {
                        li { key: "{step.word()}",
                            if index < at {
                                button { class: "quiet wide", onclick: move |_| ongo.call(step), {say(step.key())} }
                            } else {
                                p { class: if index == at { "here" } else { "" }, {say(step.key())} }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// The step itself.
#[component]
pub fn StepView(state: Teardown, here: Step, now: Moment, onfound: EventHandler<Finding>) -> Element {
    let guide = here.guide(state.findings());
    let (from, to) = guide.minutes;
    let notes = state.findings().notes();
    let passed: Vec<String> = guide
        .gates
        .iter()
        .filter_map(|gate| Some(passed_at(*gate, state.passed(here, *gate, now)?)))
        .collect();
    rsx! {
        article { class: "step",
            h2 { {say(guide.name_key())} }
            div { class: "columns",
                div { class: "look",
                    figure { dangerous_inner_html: step_drawing(here) }
                }
                div { class: "form",
                    p { class: "do", {say(&guide.do_key())} }
                    p { class: "danger", {say(&guide.caution_key())} }
                    if here == Step::Remove {
                        ol { class: "pull-order",
                            for part in state.findings().pull_order() { li { key: "{part.word()}", {say(part.key())} } }
                        }
                    }
                    for note in notes {
                        p { class: "note", key: "{note.word()}", {say(note.key())} }
                    }
                    if here == Step::CapacitorSafe || here == Step::Open { capacitor::Calculator {} }
                    if here == Step::Warm { warming::Warming { found: state.findings().clone() } }
                    details {
                        summary { {say("ui-wrong")} }
                        p { {say(&guide.wrong_key())} }
                    }
                    if !guide.tools.is_empty() {
                        details { open: here == Step::Prepare,
                            summary { {say_with("ui-tools", &[("from", Arg::Number(f64::from(from))), ("to", Arg::Number(f64::from(to)))])} }
                            ul { for tool in guide.tools.iter() { li { key: "{tool.word()}", {say(tool.key())} } } }
                        }
                    }
                    if !guide.hazards.is_empty() {
                        details {
                            summary { {say("ui-hazards")} }
                            ul {
                                for hazard in guide.hazards.iter() {
                                    li { key: "{hazard.word()}", strong { {say(hazard.key())} } " " {say_part(hazard.key(), "arises")} " " {say_part(hazard.key(), "harm")} }
                                }
                            }
                        }
                    }
                    if !guide.records.is_empty() {
                        findings::Records { fields: guide.records.to_vec(), must: guide.must_record.to_vec(), found: state.findings().clone(), onfound }
                    }
                    for text in passed { p { class: "hint", key: "{text}", "{text}" } }
                }
            }
        }
    }
}
