//! A number of the job: value, ±, how it was got, with the accepted range in sight.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{field_text, say, say_with};
use super::draft::Draft;
use crate::app::workspace::{Entry, range_text, shown_number, unit_symbol};
use crate::job::Entered;
use crate::job::fields::Field;
use crate::job::fields::Shape;
use crate::quantity::{LengthUnit, Origin};
use crate::text::{Arg, Term};

/// Whether a value got so was read off the part, so that the next one likely will be too.
const fn is_tool(origin: Origin) -> bool {
    matches!(
        origin,
        Origin::Calipers
            | Origin::Rule
            | Origin::Tape
            | Origin::Meter
            | Origin::Scale
            | Origin::Counted
            | Origin::Label
    )
}

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
    let mut app = use_context::<Signal<AppState>>();
    // Drafts are no signals: a key that is pressed must not draw the field anew.
    let mut value_draft = use_hook(|| CopyValue::new(Draft::<Held>::default()));
    let mut spread_draft = use_hook(|| CopyValue::new(Draft::<Held>::default()));
    let mut entries = use_signal(|| 0_u32);
    let _ = entries();
    let (field, held, unit) = {
        let app = app.read();
        let Some((number, field)) = app.number(&path) else {
            return rsx! {};
        };
        (field, held(number, field, app.unit()), app.unit())
    };
    let reading = field.shape == Shape::Reading;
    let label = field_text(field, "label");
    let (symbol, range) = (unit_symbol(field, unit), range_text(field, unit));
    let typical = held.origin == Some(Origin::Typical);
    let id = path.replace('.', "-");
    let enter = {
        let path = path.clone();
        move |text: &str, plus_minus: &str, origin: Option<Origin>| {
            let entry = Entry {
                path: &path,
                text,
                plus_minus,
                origin,
            };
            app.write().enter_number(&entry)
        }
    };
    // What was refused is still what the person means.
    let meant = {
        let held = held.clone();
        move || {
            let draft = value_draft.read();
            draft.kept(&held).unwrap_or(&held.value).to_owned()
        }
    };
    let mut enter_value = {
        let (held, mut enter) = (held.clone(), enter.clone());
        move |text: String| {
            // A new value has the usual ± of its tool: the old one was of the old value.
            let message = enter(&text, "", held.origin.filter(|origin| is_tool(*origin)));
            value_draft.write().entered(&text, held.clone(), message);
            entries += 1;
        }
    };
    let mut enter_spread = {
        let (held, meant, mut enter) = (held.clone(), meant.clone(), enter.clone());
        move |text: String| {
            let message = enter(&meant(), &text, held.origin);
            spread_draft.write().entered(&text, held.clone(), message);
            entries += 1;
        }
    };
    let mut choose_origin = {
        let (held, mut enter) = (held.clone(), enter.clone());
        move |origin: Option<Origin>| {
            let text = meant();
            let message = enter(&text, "", origin);
            value_draft.write().entered(&text, held.clone(), message);
            entries += 1;
        }
    };
    let mut leave_value = enter_value.clone();
    let mut use_meant = enter_value.clone();
    let refused = value_draft.read().kept(&held).map(str::to_owned);
    let mut leave_spread = enter_spread.clone();
    let shown_value = value_draft.read().kept(&held).unwrap_or(&held.value).to_owned();
    let shown_spread = spread_draft.read().kept(&held).unwrap_or(&held.plus_minus).to_owned();
    let messages: Vec<String> = [value_draft, spread_draft]
        .iter()
        .filter_map(|draft| draft.read().message(&held).map(str::to_owned))
        .collect();
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
                    value: "{shown_value}",
                    oninput: move |event| value_draft.write().typed(event.value()),
                    onchange: move |event| enter_value(event.value()),
                    onblur: move |_| {
                        let typed = value_draft.write().left();
                        if let Some(text) = typed { leave_value(text); }
                    },
                }
                span { class: "unit", "{symbol}" }
                if reading {
                    span { class: "unit", "±" }
                    input {
                        class: "spread",
                        inputmode: "decimal",
                        autocomplete: "off",
                        aria_label: say_with("ui-plus-minus-of", &[("field", Arg::Text(&label))]),
                        value: "{shown_spread}",
                        oninput: move |event| spread_draft.write().typed(event.value()),
                        onchange: move |event| enter_spread(event.value()),
                        onblur: move |_| {
                            let typed = spread_draft.write().left();
                            if let Some(text) = typed { leave_spread(text); }
                        },
                    }
                    select {
                        class: "origin",
                        aria_label: say_with("ui-origin-of", &[("field", Arg::Text(&label))]),
                        onchange: move |event| choose_origin(Origin::from_word(&event.value())),
                        for origin in Origin::ALL {
                            option { value: origin.word(), selected: held.origin.unwrap_or(field.origin) == origin, {say(&format!("origin-{}", origin.word()))} }
                        }
                    }
                }
            }
            p { id: "{id}-range", class: "hint",
                if typical { strong { {say("ui-not-measured")} " " } }
                {field_text(field, "hint")} " {range}."
            }
            for message in messages {
                p { class: "refused", role: "alert", "{message}." }
            }
            if let Some(text) = refused {
                super::Meant { path: path.clone(), text, unit, onuse: move |text: String| use_meant(text) }
            }
        }
    }
}

fn held(number: Option<Entered>, field: &Field, unit: LengthUnit) -> Held {
    let shown = |value| shown_number(field, value, unit);
    match number {
        Some(Entered::Number(number)) => Held {
            value: shown(number),
            ..Held::default()
        },
        Some(Entered::Reading(reading)) => Held {
            value: shown(reading.value),
            plus_minus: shown(reading.plus_minus),
            origin: Some(reading.origin),
        },
        None => Held::default(),
    }
}
