//! One step: what to do, the caution, and what is measured or chosen there.

use dioxus::prelude::*;

use super::super::controls::{Choices, TermsIn};
use super::super::guided::{Actions, Caution, Hazards};
use super::super::state::AppState;
use super::super::words::{say, say_with, told};
use super::counter::TurnCounter;
use super::pair::JoinPair;
use crate::app::bench::{PRIMARY, band_text};
use crate::app::listing::wire_label;
use crate::bench::Stage;
use crate::quantity::format_significant;
use crate::text::Arg;
use crate::wind::{Act, Closing, Fixing, PrimaryState, Wind, WindStep};

/// The step itself. While turns are wound the counter comes first.
#[component]
pub fn StepView(wind: Wind, here: WindStep, onact: EventHandler<Act>) -> Element {
    let facts = wind.facts();
    let coil = wind.plan().is_coil();
    let guide = here.guide(coil, facts.closing, facts.fixing);
    let (what, caution) = (say(&guide.do_key()), say(&guide.caution_key()));
    let (primary, closing, fixing) = (facts.primary, facts.closing, facts.fixing);
    rsx! {
        article { class: "step",
            h2 { {say(guide.name_key())} }
            Caution { text: caution.clone() }
            if here == WindStep::WindTurns { TurnCounter { wind: wind.clone(), onact } }
            Actions { text: what.clone() }
            TermsIn { text: format!("{what} {caution}") }
            if here == WindStep::CutShims { Shims {} }
            if let (WindStep::JoinPair, Some(pair)) = (here, wind.plan().pair) {
                JoinPair { pair, joined: facts.pair_joined, onact }
            }
            if here == WindStep::LeadOut { OffShelf { taken: facts.off_shelf, onact } }
            if here == WindStep::ProvePrimary {
                Expected {}
                h3 { {say("ui-primary-measured")} }
                Choices {
                    label: say("ui-primary-measured"),
                    options: PrimaryState::ALL.iter().map(|state| (state.word().to_owned(), say(state.key()))).collect::<Vec<_>>(),
                    chosen: primary.map_or("", PrimaryState::word).to_owned(),
                    onchoose: move |word: String| if let Some(state) = PrimaryState::from_word(&word) { onact.call(Act::Primary(state)) },
                }
            }
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
            details {
                summary { {say("ui-wrong")} }
                p { {say(&guide.wrong_key())} }
            }
            Hazards { hazards: guide.hazards.clone() }
        }
    }
}

/// The wire that was wound, off the person's own.
#[component]
fn OffShelf(taken: bool, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<AppState>>();
    if taken {
        return rsx! { p { class: "hint", {say("ui-from-shelf-taken")} } };
    }
    let Some(from) = app.read().wire_from_shelf() else {
        return rsx! {};
    };
    let metres = |length: f64| format!("{length:.1}");
    let (takes, has) = (metres(from.takes.si()), metres(from.wire.body.length_m));
    let label = wire_label(&from.wire.body.conductor).unwrap_or_default();
    let args = [
        ("takes", Arg::Text(&takes)),
        ("has", Arg::Text(&has)),
        ("wire", Arg::Text(&label)),
    ];
    rsx! {
        p { {say_with("ui-from-shelf", &args)} }
        button {
            class: "second wide",
            onclick: move |_| onact.call(Act::OffShelf),
            {say_with("ui-from-shelf-take", &args)}
        }
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
    let sheet = format_significant(app.unit().count(found.sheet), 2);
    let args = [
        ("sheets", Arg::Number(f64::from(found.sheets))),
        ("sheet", Arg::Text(&sheet)),
        ("unit", Arg::Text(app.unit().symbol())),
    ];
    rsx! {
        p { class: "band", {say_with("ui-sheets-a-leg", &args)} }
    }
}

/// What the meters should show of the primary, as the bench expects it.
#[component]
fn Expected() -> Element {
    let app = use_context::<Signal<AppState>>();
    let Some(Ok(plan)) = app.read().planned() else {
        return rsx! {};
    };
    let band = |stage: Stage| {
        let prediction = plan.of_stage(stage).find(|prediction| prediction.of == PRIMARY)?;
        told(|texts| Some(band_text(prediction, texts)))
    };
    rsx! {
        for (key, stage) in [("ui-primary-expected", Stage::Continuity), ("ui-primary-insulation", Stage::Insulation)] {
            if let Some(band) = band(stage) { p { class: "band", {say_with(key, &[("band", Arg::Text(&band))])} } }
        }
    }
}
