//! One stage: what to do, the drawing, the caution, the readings with their bands.

use dioxus::prelude::*;

use super::super::controls::{NumberField, TermsIn};
use super::super::guided::{Actions, BehindGates, Caution, Hazards};
use super::super::words::{drawn, say, say_part, told};
use super::reading::ReadingEntry;
use crate::app::bench::{amount_like, band_text, permitted_text, winding_key, wound_metal};
use crate::bench::{Act, Bench, Prediction, SEAM_WELDING, Stage, Status};
use crate::report::stage_drawing;

/// The stage itself.
#[component]
pub fn StageView(bench: Bench, here: Stage, onact: EventHandler<Act>) -> Element {
    let guide = here.guide();
    let app = use_context::<Signal<super::super::state::AppState>>();
    let core_opened = app
        .read()
        .answer()
        .and_then(Result::ok)
        .and_then(|answer| answer.core_opened());
    let (what, caution) = (say(&guide.do_key(core_opened)), say(&guide.caution_key()));
    let load = bench.plan().load();
    let of_load = load
        .caution_at(here)
        .map(|key| format!("{}:\n{}", say(load.key()), say(key)));
    let lamp = bench.plan().of_stage(Stage::LampIdle).next().is_some();
    let predictions: Vec<Prediction> = bench.plan().of_stage(here).copied().collect();
    rsx! {
        article { class: "step",
            h2 { {say(guide.name_key())} }
            div { class: "columns",
                div { class: "look",
                    figure { dangerous_inner_html: drawn(|texts| stage_drawing(here, texts)) }
                }
                div { class: "form",
                    Caution { text: caution.clone() }
                    if let Some(text) = of_load { Caution { text } }
                    Actions { text: what.clone() }
                    if matches!(here, Stage::Prepare | Stage::LampIdle) && lamp {
                        NumberField { path: "conditions.lamp_watts" }
                    }
                    TermsIn { text: format!("{what} {caution}") }
                    if here == Stage::Reassembly {
                        BehindGates { gates: SEAM_WELDING, begin: "ui-weld-begin",
                            Caution { text: say("ui-weld-caution") }
                            Actions { text: say("ui-weld-do") }
                        }
                    }
                    for prediction in predictions {
                        ReadingView { key: "{prediction.of}", bench: bench.clone(), prediction, onact }
                    }
                    details {
                        summary { {say("ui-wrong")} }
                        p { {say(&guide.wrong_key())} }
                    }
                    Hazards { hazards: here.hazards_under(bench.plan().load()) }
                }
            }
        }
    }
}

/// The name of a winding of a plan.
pub fn winding_name(of: u8) -> String {
    say(winding_key(of))
}

/// One reading: its band, what was read, and where it lies outside the causes.
#[component]
fn ReadingView(bench: Bench, prediction: Prediction, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<super::super::state::AppState>>();
    let (stage, of) = (prediction.stage, prediction.of);
    let outcome = bench
        .record()
        .into_iter()
        .find(|line| (line.prediction.stage, line.prediction.of) == (stage, of))
        .and_then(|line| line.outcome);
    let metal = {
        let app = app.read();
        app.answer()
            .and_then(Result::ok)
            .and_then(|answer| wound_metal(answer, of))
    };
    let (status, state) = match outcome.map(|outcome| outcome.status) {
        None => ("unread", None),
        Some(Status::InBand) => ("in-band", Some(say("ui-in-band"))),
        Some(Status::Outside(direction)) => ("outside", Some(say(direction.key()))),
        Some(Status::Explained(direction, cause)) => (
            "explained",
            Some(format!("{}: {}", say(direction.key()), say(cause.key()))),
        ),
    };
    let read = outcome.and_then(|outcome| told(|texts| Some(amount_like(outcome.amount, prediction.value, texts))));
    let allowed = outcome.and_then(|outcome| {
        let app = app.read();
        let file = app.file()?;
        told(|texts| permitted_text(file, outcome.reading, texts))
    });
    rsx! {
        section { class: "reading {status}",
            h3 { {winding_name(of)} }
            p { class: "band", {say("ui-expected")} " " strong { {told(|texts| Some(band_text(&prediction, texts))).unwrap_or_default()} } }
            ReadingEntry { prediction, metal, onread: move |reading| onact.call(Act::Read { of, reading }) }
            if let Some(state) = state {
                p { class: "outcome", role: "status",
                    span { class: "mark", aria_hidden: "true", if status == "in-band" { "✓" } else { "!" } }
                    " " {read.unwrap_or_default()} " – " {state}
                }
            }
            if let Some(allowed) = allowed { p { "{allowed}" } }
            if let Some(Status::Outside(direction)) = outcome.map(|outcome| outcome.status) {
                p { class: "stop", {say("ui-outside-help")} }
                ol { class: "causes",
                    for cause in stage.causes(direction).iter().copied() {
                        li { key: "{cause.word()}",
                            strong { {say(cause.key())} }
                            p { {say_part(cause.key(), "fix")} }
                            if cause.explains(stage, direction) {
                                button { class: "quiet", onclick: move |_| onact.call(Act::Explain { of, cause }), {say("ui-explains")} }
                            } else if !cause.of_the_measurement() {
                                button { class: "quiet", onclick: move |_| onact.call(Act::Reopened { fixed: Some(cause) }), {say("ui-fixed")} }
                            }
                        }
                    }
                }
            }
        }
    }
}
