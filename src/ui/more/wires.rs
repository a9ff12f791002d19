//! The wires that the person has: the search prefers them.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::{say, say_with, tell};
use crate::app::listing::wires_offered;
use crate::text::Arg;

/// The list, and a form that adds one.
#[component]
pub fn Wires() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut conductor = use_signal(|| "mm2-16-flexible".to_owned());
    let mut own = use_signal(String::new);
    let mut cable = use_signal(String::new);
    let mut length = use_signal(String::new);
    let mut refused = use_signal(|| None::<String>);
    let (stock, unread) = or_why(app.read().stock());
    let offered = use_hook(wires_offered);
    rsx! {
        section {
            h2 { {say("ui-wire")} }
            Unreadable { why: unread.clone() }
            if stock.is_empty() && unread.is_none() {
                p { class: "hint", {say("ui-wire-help")} }
            }
            ul { class: "jobs",
                for (id, label, metres, known) in stock {
                    li { key: "{id}", class: "wire",
                        span { "{label}, {metres} m" }
                        if !known {
                            p { class: "hint", {say("ui-wire-unknown")} }
                        }
                        button { class: "quiet", aria_label: say_with("ui-remove-of", &[("name", Arg::Text(&label))]), onclick: move |_| app.write().remove_stock(id), {say("ui-remove")} }
                    }
                }
            }
            details {
                summary { {say("ui-wire-add")} }
                div { class: "field",
                    label { r#for: "wire-kind", {say("ui-wire-conductor")} }
                    select { id: "wire-kind", class: "long", onchange: move |event| conductor.set(event.value()),
                        for (name, label) in offered {
                            option { value: "{name}", selected: *conductor.read() == name, {tell(&label)} }
                        }
                    }
                }
                div { class: "field",
                    label { r#for: "wire-own", {say("ui-wire-own-solid")} }
                    input { id: "wire-own", class: "value", autocomplete: "off", initial_value: "", placeholder: "1.80-1.95", onchange: move |event| own.set(event.value()) }
                    p { class: "hint", {say("ui-wire-own-solid-hint")} }
                }
                div { class: "field",
                    label { r#for: "wire-own-cable", {say("ui-wire-own-cable")} }
                    input { id: "wire-own-cable", class: "value", autocomplete: "off", initial_value: "", placeholder: "35-12.5", onchange: move |event| cable.set(event.value()) }
                    p { class: "hint", {say("ui-wire-own-cable-hint")} }
                }
                div { class: "field",
                    label { r#for: "wire-length", {say("ui-wire-length")} }
                    div { class: "entry",
                        input { id: "wire-length", class: "value", inputmode: "decimal", autocomplete: "off", initial_value: "", onchange: move |event| length.set(event.value()) }
                        span { class: "unit", "m" }
                    }
                    p { class: "hint", {say("ui-wire-range")} }
                }
                if let Some(message) = refused() {
                    p { class: "refused", role: "alert", "{message}" }
                }
                button {
                    class: "main",
                    onclick: move |_| {
                        let typed = own.read().trim().to_owned();
                        let section = cable.read().trim().replacen('-', "mm2-", 1);
                        let name = match (typed.as_str(), section.as_str()) {
                            ("", "") => conductor.read().clone(),
                            ("", section) => format!("own-{section}"),
                            (typed, _) => format!("own-{typed}"),
                        };
                        let message = app.write().add_stock(&name, &length.read());
                        refused.set(message);
                    },
                    {say("ui-wire-put")}
                }
            }
        }
    }
}
