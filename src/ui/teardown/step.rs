//! One step: what to do, the drawing, the tools, what goes wrong, the caution, what to record.

use dioxus::prelude::*;

use super::super::controls::TermsIn;
use super::super::guided::{Actions, Caution, Hazards, passed_at};
use super::super::words::{drawn, say, say_with};
use super::{capacitor, findings, measures, warming};
use crate::report::step_drawing;
use crate::safety::Moment;
use crate::teardown::{Finding, Step, Teardown};
use crate::text::Arg;

/// The step itself.
#[component]
pub fn StepView(state: Teardown, here: Step, now: Moment, onfound: EventHandler<Finding>) -> Element {
    let guide = here.guide(state.findings());
    let (from, to) = guide.minutes;
    let notes = state.findings().notes_at(here);
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
                    figure { dangerous_inner_html: drawn(|texts| step_drawing(here, texts)) }
                }
                div { class: "form",
                    Caution { text: say(&guide.caution_key()) }
                    if let Some(key) = guide.tool_key() { p { class: "note", {say(&key)} } }
                    Actions { text: say(&guide.do_key()) }
                    TermsIn { text: format!("{} {}", say(&guide.do_key()), say(&guide.caution_key())) }
                    if here == Step::Remove {
                        ol { class: "pull-order",
                            for part in state.findings().pull_order() { li { key: "{part.word()}", {say(part.key())} } }
                        }
                    }
                    for note in notes {
                        p { class: "note", key: "{note.word()}", {say(note.key())} }
                    }
                    if here == Step::CapacitorSafe || here == Step::Open { capacitor::Calculator {} }
                    if here == Step::Measure { measures::Measures {} }
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
                    Hazards { hazards: guide.hazards.clone() }
                    if !guide.records.is_empty() {
                        findings::Records { fields: guide.records.to_vec(), must: guide.must_record.to_vec(), found: state.findings().clone(), onfound }
                    }
                    for text in passed { p { class: "hint", key: "{text}", "{text}" } }
                }
            }
        }
    }
}
