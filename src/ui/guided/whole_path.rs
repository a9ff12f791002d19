//! The whole path of a guided part before it begins: what is needed, all steps, the gates before each.

use dioxus::prelude::*;

use super::super::words::{say, say_with};
use crate::procedure::{Procedure, Run};
use crate::report::draw::stop_sign;
use crate::safety::Gate;
use crate::text::Arg;
use crate::words::Word;

/// The name of a step, and the gates before it.
pub type PathRow = (&'static str, Vec<Gate>);

/// The steps of a run with their gates, as far as they are known before anything is recorded.
pub fn path_of<P: Procedure>(run: &Run<P>) -> Vec<PathRow> {
    let gates = |step: &P::Step| run.plan().gates(run.facts(), *step);
    run.steps().iter().map(|step| (step.key(), gates(step))).collect()
}

/// What is needed to begin, a thing a line.
#[component]
pub fn Needed(text: String) -> Element {
    rsx! {
        h3 { {say("ui-what-needed")} }
        ul { class: "needed", for line in text.lines() { li { key: "{line}", "{line}" } } }
    }
}

/// All steps in order, each with the stops before it.
#[component]
pub fn WholePath(rows: Vec<PathRow>) -> Element {
    let count = rows.len();
    rsx! {
        section { class: "whole-path",
            h2 { {say_with("ui-whole-path", &[("count", Arg::Number(count as f64))])} }
            ol {
                for (key, gates) in rows {
                    li { key: "{key}",
                        strong { {say(key)} }
                        if !gates.is_empty() {
                            ul { class: "stops", aria_label: say("ui-stops-first"),
                                for gate in gates {
                                    li { key: "{gate.word()}", span { class: "stop-of small", dangerous_inner_html: stop_sign(gate) } {say(gate.key())} }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
