//! Measure: the core, its primary, the turns by test, and the outlet.

mod photo;
mod primary;
mod result;
mod test_turn;

use dioxus::prelude::*;

use super::controls::{NumberField, Switch, Terms};
use super::state::{AppState, Screen};
use super::words::{drawn, say};
use crate::magnetics::circuit::mains::OUTLETS;
use crate::report::draw::core_section;
use crate::store::Op;
use crate::text::Term;

/// The screen.
#[component]
pub fn Measure() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let drawing = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => drawn(|texts| core_section(&answer.problem.rebuild, None, app.unit(), texts)),
            _ => String::new(),
        }
    };
    rsx! {
        div { class: "columns measure",
            div { class: "look",
                figure { dangerous_inner_html: "{drawing}" }
                result::Result {}
            }
            div { class: "form",
                photo::FromPhoto {}
                section {
                    h2 { {say("ui-core")} }
                    for path in ["core.tongue_mm", "core.stack_mm", "core.window_width_mm", "core.window_height_mm"] {
                        NumberField { key: "{path}", path }
                    }
                    details {
                        summary { {say("ui-measure-more")} }
                        for path in ["core.outer_limb_mm", "core.yoke_mm", "core.mass_kg", "core.stacking_factor"] {
                            NumberField { key: "{path}", path }
                        }
                    }
                    Shunts {}
                }
                primary::PrimaryForm {}
                OutletForm {}
                div { class: "row",
                    button { class: "main", onclick: move |_| app.write().go(Screen::Rewind), {say("ui-measure-on")} }
                }
            }
        }
    }
}

#[component]
fn Shunts() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let kept = app.read().file().is_some_and(|file| file.core.shunts_kept);
    rsx! {
        Switch {
            label: say("ui-shunts-stay"),
            on: kept,
            onswitch: move |on| app.write().set_core(Op::Shunts, |core| core.shunts_kept = on),
        }
        if kept {
            for path in ["core.shunt_thickness_mm", "core.shunt_width_mm", "core.shunt_gap_mm"] {
                NumberField { key: "{path}", path }
            }
        } else {
            Terms { words: vec![Term::Shunt] }
        }
    }
}

#[component]
fn OutletForm() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let plug = app
        .read()
        .file()
        .map(|file| file.mains.circuit.plug.clone())
        .unwrap_or_default();
    rsx! {
        section {
            h2 { {say("ui-outlet")} }
            div { class: "field",
                label { r#for: "outlet", {say("ui-outlet-plug")} }
                select {
                    id: "outlet",
                    class: "long",
                    onchange: move |event| app.write().set_outlet(crate::app::workspace::outlet_of(&event.value())),
                    for row in OUTLETS {
                        option { value: row.word, selected: plug == row.word, "{row.label}" }
                    }
                }
                p { class: "hint", {say("ui-outlet-help")} }
            }
            for path in ["mains.volts", "mains.hertz", "mains.circuit.breaker_a"] {
                NumberField { key: "{path}", path }
            }
        }
    }
}
