//! The circuit round the winding or the coil: drawing, parts with their values, and the job for a reactor.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, say_with, told};
use crate::app::circuit_parts::Reactor;
use crate::app::guard::guarded;
use crate::quantity::format_significant;
use crate::report::{CircuitLine, circuit_lines, outlet_line, wiring};
use crate::text::Arg;

/// What is shown, taken out of the app at once.
#[derive(Clone, PartialEq)]
struct View {
    drawing: Option<String>,
    /// What is read without opening the fold: the outlet of a winding.
    line: String,
    lines: Vec<CircuitLine>,
}

/// The circuit of what is in hand; nothing where there is none.
#[component]
pub fn Supply() -> Element {
    let app = use_context::<Signal<AppState>>();
    let view = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => guarded(|| {
                let parts = answer.circuit_parts()?;
                told(|texts| {
                    Some(View {
                        drawing: wiring(answer, texts),
                        line: match &answer.design {
                            Some(design) => outlet_line(answer.file(), &design.outlet, texts).0,
                            None => texts.text("ui-circuit-parts"),
                        },
                        lines: circuit_lines(parts, texts),
                    })
                })
            })
            .ok()
            .flatten(),
            _ => None,
        }
    };
    let Some(View { drawing, line, lines }) = view else {
        return rsx! {};
    };
    let is_coil = drawing.is_none();
    let title = if is_coil { "circuit-of-coil" } else { "page-wiring" };
    // What can hurt stands outside the fold.
    let (dangers, lines): (Vec<_>, Vec<_>) = lines.into_iter().partition(|line| line.danger);
    rsx! {
        section { class: "supply",
            if !dangers.is_empty() { Lines { lines: dangers } }
            details {
                summary { {say(title)} small { class: "answer-line", "{line}" } }
                if let Some(drawn) = drawing { figure { dangerous_inner_html: "{drawn}" } }
                Lines { lines }
            }
            // A winding has it among its own cautions.
            if is_coil { p { class: "caution", {say("page-caution-code")} } }
        }
    }
}

/// Parts of the circuit, each with its value.
#[component]
fn Lines(lines: Vec<CircuitLine>) -> Element {
    rsx! {
        dl { class: "advice circuit-parts",
            for line in lines {
                div { key: "{line.label}", class: if line.danger { "caution" } else { "" },
                    dt { "{line.label}" }
                    dd { "{line.text}" }
                }
            }
        }
    }
}

/// Starts a job for the reactor, on a core of its own.
#[component]
pub fn MakeReactor(reactor: Reactor) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mh = format_significant(reactor.inductance.millihenries(), 2);
    let with = |id: &str| say_with(id, &[("mh", Arg::Text(&mh))]);
    let (label, name) = (with("ui-make-reactor"), with("ui-reactor-job"));
    rsx! {
        button { class: "second wide", onclick: move |_| app.write().start_reactor(&name, reactor), "{label}" }
    }
}
