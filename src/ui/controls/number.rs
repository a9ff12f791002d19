//! A number of the job: value, ±, how it was got, with the accepted range in sight.

use dioxus::prelude::*;

use super::super::desk::Desk;
use super::super::words::{field_text, say, say_with};
use crate::app::shop::{Entry, range_text, shown_number, unit_symbol};
use crate::job::fields::Field;
use crate::job::fields::Shape;
use crate::quantity::{LengthUnit, Origin};
use crate::text::{Arg, Term};

/// What a field holds now.
#[derive(Debug, Clone, PartialEq, Default)]
struct Held {
    value: String,
    plus_minus: String,
    origin: Option<Origin>,
}

/// The number at a path of the job.
#[component]
pub fn NumberField(path: String) -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let mut refused = use_signal(|| None::<String>);
    let (field, held, unit) = {
        let desk = desk.read();
        let Some((document, field)) = desk.numbers(&path) else {
            return rsx! {};
        };
        (field, held(&document, field, desk.unit()), desk.unit())
    };
    let reading = field.shape == Shape::Reading;
    let label = field_text(field, "label");
    let (symbol, range) = (unit_symbol(field, unit), range_text(field, unit));
    let typical = held.origin == Some(Origin::Typical);
    let id = path.replace('.', "-");
    let mut commit = {
        let (path, held) = (path.clone(), held.clone());
        move |value: Option<String>, spread: Option<String>, origin: Option<Origin>| {
            // A new value takes the field's usual ± and origin: the old ones were of the old value.
            let fresh = value.is_some();
            let text = value.unwrap_or_else(|| held.value.clone());
            let kept = if fresh { String::new() } else { held.plus_minus.clone() };
            let entry = Entry {
                path: &path,
                text: &text,
                plus_minus: &spread.unwrap_or(kept),
                origin: origin.or(if fresh { None } else { held.origin }),
            };
            let message = desk.write().enter_number(&entry);
            refused.set(message);
        }
    };
    let mut commit_value = commit.clone();
    let mut commit_spread = commit.clone();
    rsx! {
        div { class: if typical { "field typical" } else { "field" },
            div { class: "label-row",
                label { r#for: "{id}", "{label}" }
                super::Terms { words: Term::of_field(&path).to_vec() }
            }
            div { class: "entry",
                input {
                    id: "{id}",
                    class: "value",
                    inputmode: "decimal",
                    autocomplete: "off",
                    aria_describedby: "{id}-range",
                    value: "{held.value}",
                    onchange: move |event| commit_value(Some(event.value()), None, None),
                }
                span { class: "unit", "{symbol}" }
                if reading {
                    span { class: "unit", "±" }
                    input {
                        class: "spread",
                        inputmode: "decimal",
                        autocomplete: "off",
                        aria_label: say_with("ui-plus-minus-of", &[("field", Arg::Text(&label))]),
                        value: "{held.plus_minus}",
                        onchange: move |event| commit_spread(None, Some(event.value()), None),
                    }
                    select {
                        class: "origin",
                        aria_label: say_with("ui-origin-of", &[("field", Arg::Text(&label))]),
                        onchange: move |event| commit(None, None, Origin::from_word(&event.value())),
                        for origin in Origin::ALL {
                            option { value: origin.word(), selected: held.origin.unwrap_or(field.origin) == origin, "{origin.word()}" }
                        }
                    }
                }
            }
            p { id: "{id}-range", class: "hint",
                if typical { strong { {say("ui-not-measured")} " " } }
                {field_text(field, "hint")} " {range}."
            }
            if let Some(message) = refused() {
                p { class: "refused", role: "alert", "{message}." }
            }
        }
    }
}

fn held(document: &serde_json::Value, field: &Field, unit: LengthUnit) -> Held {
    let Some(place) = document.pointer(&format!("/{}", field.path.replace('.', "/"))) else {
        return Held::default();
    };
    let shown = |value: Option<f64>| value.map_or_else(String::new, |v| shown_number(field, v, unit));
    let part = |key: &str| place.get(key).and_then(serde_json::Value::as_f64);
    match place.as_f64() {
        Some(value) => Held {
            value: shown(Some(value)),
            ..Held::default()
        },
        None => Held {
            value: shown(part("value")),
            plus_minus: shown(part("plus_minus")),
            origin: place
                .get("origin")
                .and_then(serde_json::Value::as_str)
                .and_then(Origin::from_word),
        },
    }
}
