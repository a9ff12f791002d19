//! Measure: the core, its primary, the turns by test, and the outlet.

mod on_drawing;
mod photo;
mod primary;
mod result;
mod sheet;
mod test_turn;

pub use photo::LiveState;

use dioxus::prelude::*;

use super::controls::{Fold, NumberField, Switch, Terms};
use super::state::{AppState, Screen};
use super::words::{say, say_with};
use crate::app::core_lengths::CoreLength;
use crate::app::workspace::outlet_of;
use crate::magnetics::circuit::mains::OUTLETS;
use crate::store::Op;
use crate::text::{Arg, Term};

/// The lengths on the drawing, in the order of the list.
const LENGTHS: [&str; 8] = [
    "core.tongue_mm",
    "core.stack_mm",
    "core.window_width_mm",
    "core.window_height_mm",
    "core.outer_limb_mm",
    "core.yoke_mm",
    "core.primary.height_mm",
    "core.primary.build_mm",
];

/// The screen.
#[component]
pub fn Measure() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut open = use_signal(|| None::<CoreLength>);
    rsx! {
        div { class: "columns measure",
            div { class: "look",
                on_drawing::OnDrawing { open }
                result::Result {}
            }
            div { class: "form",
                match open() {
                    Some(length) => rsx! {
                        sheet::EntrySheet { key: "{length.path()}", length, onclose: move |()| open.set(None) }
                    },
                    None => rsx! { p { class: "hint beside", {say("ui-measure-beside")} } },
                }
                photo::FromPhoto {}
                section {
                    Fold { word: "lengths", title: say("ui-measure-list"),
                        for path in LENGTHS { NumberField { key: "{path}", path } }
                    }
                    Fold { word: "mass", title: say("ui-measure-mass"),
                        for path in ["core.mass_kg", "core.stacking_factor"] { NumberField { key: "{path}", path } }
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
    let Some(plug) = app.read().file().map(|file| file.mains.circuit.plug.clone()) else {
        return rsx! {};
    };
    let title = say_with("ui-outlet-of", &[("outlet", Arg::Text(outlet_of(&plug).label))]);
    rsx! {
        section {
            Fold { word: "outlet", title,
                div { class: "field",
                    label { r#for: "outlet", {say("ui-outlet-plug")} }
                    select {
                        id: "outlet",
                        class: "long",
                        onchange: move |event| app.write().set_outlet(outlet_of(&event.value())),
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
}
