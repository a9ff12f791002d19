//! One stage: what to do, the drawing, the caution, the readings with their bands.

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, TermsIn};
use super::super::guided::{Actions, BehindGates, Caution, Hazards};
use super::super::words::{drawn, say, say_part, say_with, told};
use crate::app::bench::{
    amount_like, band_text, form_of, four_wire, permitted_text, reading_of, slip, winding_key, wound_metal,
};
use crate::bench::{Act, Bench, Prediction, Reading, SEAM_WELDING, Stage, Status};
use crate::report::stage_drawing;
use crate::text::Arg;

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
    let form = form_of(&prediction);
    let fields = form.fields.clone();
    let mut asked = use_signal(|| None::<(Reading, Reading)>);
    let mut typed = use_signal(|| vec![String::new(); form_of(&prediction).fields.len() + 1]);
    let mut refused = use_signal(|| None::<String>);
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
    let mut take = move |reading: Reading| {
        refused.set(None);
        asked.set(None);
        onact.call(Act::Read { of, reading });
    };
    rsx! {
        section { class: "reading {status}",
            h3 { {winding_name(of)} }
            p { class: "band", {say("ui-expected")} " " strong { {told(|texts| Some(band_text(&prediction, texts))).unwrap_or_default()} } }
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
            if let Some(state) = state {
                p { class: "outcome", role: "status",
                    span { class: "mark", aria_hidden: "true", if status == "in-band" { "✓" } else { "!" } }
                    " " {read.unwrap_or_default()} " – " {state}
                }
            }
            if let Some(allowed) = allowed { p { "{allowed}" } }
            if let Some(Status::Outside(direction)) = outcome.map(|outcome| outcome.status) {
                p { class: "danger", {say("ui-outside-help")} }
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
    use crate::bench::Amount;
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
