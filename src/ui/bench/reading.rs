//! One reading as it is typed: its fields, what is wrong with them, and a slip of a thousand.

use dioxus::prelude::*;

use super::super::controls::Choices;
use super::super::words::{say, say_with, told};
use crate::app::bench::{amount_like, form_of, four_wire, reading_of, slip};
use crate::bench::{Prediction, Reading};
use crate::text::Arg;
use crate::wire::Metal;

/// The fields of a reading and the button that records it; `onread` gets what was read.
#[component]
pub fn ReadingEntry(prediction: Prediction, metal: Option<Metal>, onread: EventHandler<Reading>) -> Element {
    let form = form_of(&prediction);
    let (fields, of) = (form.fields.clone(), prediction.of);
    let mut asked = use_signal(|| None::<(Reading, Reading)>);
    let mut typed = use_signal(|| vec![String::new(); form_of(&prediction).fields.len() + 1]);
    let mut refused = use_signal(|| None::<String>);
    let mut take = move |reading: Reading| {
        refused.set(None);
        asked.set(None);
        onread.call(reading);
    };
    rsx! {
        if four_wire(&prediction) { p { class: "hint", {say("ui-four-wire")} } }
        for (at, (key, unit)) in fields.into_iter().enumerate() {
            div { class: "field", key: "{key}",
                label { r#for: "{key}-{of}", {say(key)} }
                div { class: "entry",
                    input {
                        id: "{key}-{of}", class: "value", inputmode: "text", autocomplete: "off", initial_value: "",
                        onchange: move |event| typed.write()[at] = event.value(),
                    }
                    span { class: "unit", "{unit}" }
                }
            }
        }
        if form.signed {
            InStep { onturn: move |text| if let Some(place) = typed.write().last_mut() { *place = text } }
        }
        if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
        button {
            class: "main wide",
            onclick: move |_| {
                let texts = typed.read().clone();
                match reading_of(&prediction, &texts, metal) {
                    Ok(reading) => match slip(&prediction, reading) {
                        Some(meant) => {
                            refused.set(None);
                            asked.set(Some((reading, meant)));
                        }
                        None => take(reading),
                    },
                    Err(missing) => {
                        asked.set(None);
                        refused.set(told(|texts| Some(missing.told(texts))));
                    }
                }
            },
            {say("ui-record-reading")}
        }
        if let Some((typed, meant)) = asked() {
            DidYouMean { prediction, typed, meant, onanswer: take }
        }
    }
}

/// Asks about a slip of a thousand: what was typed, and what was probably meant.
#[component]
fn DidYouMean(prediction: Prediction, typed: Reading, meant: Reading, onanswer: EventHandler<Reading>) -> Element {
    let shown =
        |reading: Reading, like| told(|texts| Some(amount_like(reading.amount(), like, texts))).unwrap_or_default();
    let (typed_text, meant_text) = (shown(typed, typed.amount()), shown(meant, prediction.value));
    rsx! {
        section { class: "asked", role: "alert",
            p { {say_with("ui-did-you-mean", &[("meant", Arg::Text(&meant_text))])} }
            div { class: "row",
                button { class: "second", onclick: move |_| onanswer.call(meant), {say_with("ui-meant", &[("meant", Arg::Text(&meant_text))])} }
                button { class: "second", onclick: move |_| onanswer.call(typed), {say_with("ui-typed", &[("typed", Arg::Text(&typed_text))])} }
            }
        }
    }
}

/// Whether the dots of both windings go up together.
#[component]
fn InStep(onturn: EventHandler<String>) -> Element {
    let mut chosen = use_signal(String::new);
    rsx! {
        Choices {
            label: say("ui-polarity"),
            options: vec![("+".to_owned(), say("ui-in-step")), ("-".to_owned(), say("ui-out-of-step"))],
            chosen: chosen(),
            onchoose: move |word: String| {
                chosen.set(word.clone());
                onturn.call(word);
            },
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::bench::PRIMARY;
    use crate::bench::{Amount, Stage};
    use crate::quantity::Current;
    use crate::ui::pictures::keep_picture;
    use crate::ui::words::Words;

    #[component]
    fn Asked() -> Element {
        use_context_provider(Words::english);
        let amps = Current::from_si;
        let prediction = Prediction {
            stage: Stage::LampIdle,
            of: PRIMARY,
            value: Amount::Current(amps(0.36)),
            low: Amount::Current(amps(0.3)),
            high: Amount::Current(amps(0.42)),
        };
        rsx! {
            DidYouMean {
                prediction,
                typed: Reading::Current(amps(360.0)),
                meant: Reading::Current(amps(0.36)),
                onanswer: |_| {},
            }
        }
    }

    /// What was typed and what was probably meant, each with its unit, each a button of its own.
    #[test]
    fn a_slip_is_asked_about_with_both_values() {
        let mut dom = VirtualDom::new(Asked);
        dom.rebuild_in_place();
        let html = dioxus_ssr::render(&dom);
        keep_picture("did-you-mean", &html);
        for part in ["Did you mean 360 mA?", "Yes, 360 mA", "No, 360 A as typed"] {
            assert!(html.contains(part), "{part} is missing in {html}");
        }
        assert_eq!(html.matches("<button").count(), 2);
    }
}
