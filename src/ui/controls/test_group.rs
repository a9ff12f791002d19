//! A test of the turns: three numbers that only mean something together.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::say;
use super::NumberField;
use crate::app::workspace::{Entry, find_field, range_text};
use crate::quantity::LengthUnit;

/// The three numbers of a test below `path`: entered together the first time, then one by one.
#[component]
pub fn TestGroup(path: String, title: String, help: String, there: bool) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut typed = use_signal(|| [const { String::new() }; 3]);
    let mut refused = use_signal(|| None::<String>);
    let keys = ["turns", "volts", "primary_volts"];
    if there {
        let cleared = path.clone();
        return rsx! {
            fieldset {
                legend { "{title}" }
                for key in keys { NumberField { key: "{key}", path: "{path}.{key}" } }
                button { class: "quiet", onclick: move |_| app.write().clear_group(&cleared), {say("ui-test-delete")} }
            }
        };
    }
    let fields: Vec<(String, &'static str, String)> = {
        let app = app.read();
        let Some(file) = app.file() else { return rsx! {} };
        let row = |key: &str| {
            let path = format!("{path}.{key}");
            let field = find_field(&file.goal, &path).ok()?;
            Some((path, field.label, range_text(field, LengthUnit::Millimetre)))
        };
        keys.iter().filter_map(|key| row(key)).collect()
    };
    let paths: Vec<String> = fields.iter().map(|(path, _, _)| path.clone()).collect();
    rsx! {
        details { class: "test",
            summary { "{title}" }
            p { class: "hint", "{help}" }
            for (at, (path, label, range)) in fields.into_iter().enumerate() {
                div { class: "field", key: "{path}",
                    label { r#for: path.replace('.', "-"), "{label}" }
                    div { class: "entry",
                        input {
                            id: path.replace('.', "-"),
                            class: "value",
                            inputmode: "decimal",
                            autocomplete: "off",
                            initial_value: "",
                            onchange: move |event| typed.write()[at] = event.value(),
                        }
                    }
                    p { class: "hint", "{range}." }
                }
            }
            if let Some(message) = refused() {
                p { class: "refused", role: "alert", "{message}." }
            }
            button {
                class: "main",
                onclick: move |_| {
                    let texts = typed.read().clone();
                    let entries: Vec<Entry> = paths
                        .iter()
                        .zip(&texts)
                        .map(|(path, text)| Entry { path, text, plus_minus: "", origin: None })
                        .collect();
                    let message = app.write().enter(&entries);
                    refused.set(message);
                },
                {say("ui-test-record")}
            }
        }
    }
}
