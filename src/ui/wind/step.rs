//! One step: what to do, the caution, and what is measured or chosen there.

use dioxus::prelude::*;

use super::super::bench::ReadingEntry;
use super::super::controls::{Choices, PhotoField, PhotosOf, TermsIn, Unreadable, or_why};
use super::super::guided::{Actions, Caution, Hazards, why};
use super::super::state::AppState;
use super::super::words::{say, say_part, say_with, tell, told};
use super::counter::TurnCounter;
use super::pair::JoinPair;
use crate::app::bench::{PRIMARY, SECOND_PRIMARY, amount_like, band_text, wound_metal};
use crate::app::guided::Blocked;
use crate::app::listing::wire_label;
use crate::bench::{Amount, Prediction, Reading, Stage};
use crate::job::PhotoId;
use crate::quantity::{Length, Resistance};
use crate::text::Arg;
use crate::wind::{Act, Closing, CoreOfPair, Fixing, Wind, WindPlan, WindStep};
use crate::wire::Metal;

/// The step itself: what to do, and beside it what is recorded. While turns are wound the counter comes first.
#[component]
pub fn StepView(wind: Wind, here: WindStep, onact: EventHandler<Act>) -> Element {
    let facts = wind.facts();
    let coil = wind.plan().is_coil();
    let guide = here.guide(wind.plan().kind(), facts.closing, facts.fixing);
    let (what, caution) = (say(&guide.do_key()), say(&guide.caution_key()));
    let (closing, fixing) = (facts.closing, facts.fixing);
    rsx! {
        article { class: "step",
            h2 { {say(guide.name_key())} }
            if here == WindStep::WindTurns {
                Caution { text: caution.clone() }
                TurnCounter { wind: wind.clone(), onact }
            }
            div { class: "columns",
                div { class: "form",
                    if here != WindStep::WindTurns { Caution { text: caution.clone() } }
                    Actions { text: what.clone() }
                    TermsIn { text: format!("{what} {caution}") }
                }
                div {
                    if here == WindStep::CutShims { Shims {} }
                    if let (WindStep::JoinPair, Some(joints)) = (here, wind.plan().joints()) {
                        JoinPair { joints, joined: facts.pair_joined }
                    }
                    if here == WindStep::LeadOut { OffShelf { taken: facts.off_shelf.map(|(_, takes)| takes) } }
                    if here == WindStep::ProvePrimary { PrimaryProof { wind: wind.clone(), onact } }
                    if here == WindStep::Choose {
                        if wind.plan().core_opened {
                            h3 { {say("ui-closing")} }
                            Choices {
                                label: say("ui-closing"),
                                options: Closing::ALL.iter().filter(|way| !coil || **way != Closing::Weld).map(|way| (way.word().to_owned(), say(way.key()))).collect::<Vec<_>>(),
                                chosen: closing.map_or("", Closing::word).to_owned(),
                                onchoose: move |word: String| if let Some(way) = Closing::from_word(&word) { onact.call(Act::Closing(way)) },
                            }
                        }
                        h3 { {say("ui-fixing")} }
                        Choices {
                            label: say("ui-fixing"),
                            options: Fixing::ALL.iter().map(|way| (way.word().to_owned(), say(way.key()))).collect::<Vec<_>>(),
                            chosen: fixing.map_or("", Fixing::word).to_owned(),
                            onchoose: move |word: String| if let Some(way) = Fixing::from_word(&word) { onact.call(Act::Fixing(way)) },
                        }
                    }
                    StepRecords { wind: wind.clone(), here, onact }
                    details {
                        summary { {say("ui-wrong")} }
                        p { {say(&guide.wrong_key())} }
                    }
                    Hazards { hazards: guide.hazards.clone() }
                }
            }
        }
    }
}

/// The wire that was wound, off the person's own, and back.
#[component]
fn OffShelf(taken: Option<Length>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| None::<String>);
    let mut told = move |done: Result<(), Blocked<WindPlan>>| refused.set(done.err().map(|blocked| why(&blocked)));
    let metres = |length: f64| format!("{length:.1}");
    if let Some(takes) = taken {
        let takes = metres(takes.si());
        return rsx! {
            p { class: "hint", {say_with("ui-from-shelf-taken", &[("takes", Arg::Text(&takes))])} }
            button {
                class: "quiet wide",
                onclick: move |_| told(app.write().put_wire_back()),
                {say_with("ui-from-shelf-back", &[("takes", Arg::Text(&takes))])}
            }
            if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
        };
    }
    let Some(from) = app.read().wire_from_shelf() else {
        return rsx! {};
    };
    let (takes, has) = (metres(from.takes.si()), metres(from.wire.body.length_m));
    let label = wire_label(&from.wire.body.conductor).map_or_else(String::new, |label| tell(&label));
    let args = [
        ("takes", Arg::Text(&takes)),
        ("has", Arg::Text(&has)),
        ("wire", Arg::Text(&label)),
    ];
    rsx! {
        p { {say_with("ui-from-shelf", &args)} }
        button {
            class: "second wide",
            onclick: move |_| refused.set(app.write().take_wire()),
            {say_with("ui-from-shelf-take", &args)}
        }
        if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
    }
}

/// How many sheets lie in the gap under each leg.
#[component]
fn Shims() -> Element {
    let app = use_context::<Signal<AppState>>();
    let app = app.read();
    let Some(Ok(answer)) = app.answer() else { return rsx! {} };
    let Some(Ok(found)) = answer.inductor() else {
        return rsx! {};
    };
    let stack = crate::report::behaviour::stack_text(&found.stack, app.unit());
    rsx! {
        p { class: "band", {say_with("ui-sheets-a-leg", &[("stack", Arg::Text(&stack))])} }
    }
}

/// The primary's resistance and insulation, each beside what the plan expects.
#[component]
fn PrimaryProof(wind: Wind, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let Some(band) = wind.plan().primary else {
        return rsx! {};
    };
    let read = wind.facts().primary;
    let metal = {
        let app = app.read();
        let answer = app.answer().and_then(Result::ok);
        let of = match app.wound_core() {
            CoreOfPair::First => PRIMARY,
            CoreOfPair::Second => SECOND_PRIMARY,
        };
        answer.and_then(|answer| wound_metal(answer, of))
    };
    let rows = [
        (Stage::Continuity, [band.expected, band.low, band.high], read.resistance),
        (
            Stage::Insulation,
            [band.insulation, band.insulation, Resistance::from_si(f64::INFINITY)],
            read.insulation,
        ),
    ];
    rsx! {
        for (stage, [value, low, high], read) in rows {
            PrimaryReading {
                key: "{stage.word()}",
                prediction: Prediction {
                    stage, of: PRIMARY,
                    value: Amount::Resistance(value), low: Amount::Resistance(low), high: Amount::Resistance(high),
                },
                metal, read,
                onread: move |reading: Reading| match (stage, reading.amount()) {
                    (Stage::Continuity, Amount::Resistance(ohms)) => onact.call(Act::PrimaryResistance(ohms)),
                    (_, Amount::Resistance(ohms)) => onact.call(Act::PrimaryInsulation(ohms)),
                    _ => {}
                },
            }
        }
    }
}

/// One reading of the primary.
#[component]
fn PrimaryReading(
    prediction: Prediction,
    metal: Option<Metal>,
    read: Option<Resistance>,
    onread: EventHandler<Reading>,
) -> Element {
    let shown = |amount| told(|texts| Some(amount_like(amount, prediction.value, texts))).unwrap_or_default();
    let band = told(|texts| Some(band_text(&prediction, texts))).unwrap_or_default();
    let direction = read.map(|ohms| prediction.outside(Amount::Resistance(ohms)));
    let (status, state) = match direction {
        None => ("unread", None),
        Some(None) => ("in-band", Some(say("ui-in-band"))),
        Some(Some(direction)) => ("outside", Some(say(direction.key()))),
    };
    rsx! {
        section { class: "reading {status}",
            h3 { {say(prediction.stage.key())} }
            p { class: "band", {say("ui-expected")} " " strong { "{band}" } }
            ReadingEntry { prediction, metal, onread }
            if let (Some(ohms), Some(state)) = (read, state) {
                p { class: "outcome", role: "status",
                    span { class: "mark", aria_hidden: "true", if status == "in-band" { "✓" } else { "!" } }
                    " " {shown(Amount::Resistance(ohms))} " – " {state}
                }
            }
            if let Some(Some(direction)) = direction {
                ol { class: "causes",
                    for cause in prediction.stage.causes(direction).iter().copied() {
                        li { key: "{cause.word()}",
                            strong { {say(cause.key())} }
                            p { {say_part(cause.key(), "fix")} }
                        }
                    }
                }
            }
        }
    }
}

/// Photos and notes of the step.
#[component]
fn StepRecords(wind: Wind, here: WindStep, onact: EventHandler<Act>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| None::<String>);
    let mut typed = use_signal(String::new);
    let (notes, unread) = or_why(app.read().notes());
    let at_step = |kept: &[(WindStep, u128)]| -> Vec<u128> {
        let here = kept.iter().filter(|(step, _)| *step == here);
        here.map(|(_, id)| *id).collect()
    };
    let (of_step, photos) = (at_step(&wind.facts().notes), at_step(&wind.facts().photos));
    let notes = notes.into_iter().filter(|(id, _)| of_step.contains(id));
    rsx! {
        details { class: "records", open: !of_step.is_empty() || !photos.is_empty(),
            summary { {say("ui-step-records")} }
            PhotoField {
                of: PhotosOf::Core, what: here.key(), label: say("ui-step-photo"),
                onkept: move |id: PhotoId| onact.call(Act::Photo(id.0.as_u128())),
            }
            Unreadable { why: unread }
            for (id, text) in notes { p { key: "{id}", class: "note", "{text}" } }
            div { class: "field",
                label { r#for: "step-note", {say("ui-step-note")} }
                textarea {
                    id: "step-note", rows: 2, value: "{typed}",
                    oninput: move |event| typed.set(event.value()),
                }
                if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
                button {
                    class: "second wide", disabled: typed.read().trim().is_empty(),
                    onclick: move |_| {
                        let text = typed.read().trim().to_owned();
                        let done = app.write().note_on_step(&text);
                        match done {
                            Ok(()) => {
                                refused.set(None);
                                typed.set(String::new());
                            }
                            Err(blocked) => refused.set(Some(why(&blocked))),
                        }
                    },
                    {say("ui-step-note-keep")}
                }
            }
        }
    }
}
