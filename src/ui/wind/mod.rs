//! Wind: what the steps of the winding show on the screen of guided work.

mod counter;
mod pair;
mod step;

use dioxus::prelude::*;

use super::guided::{Content, GuidedScreen, Labels, Needed, PathRow, WholePath, path_of};
use super::state::{AppState, Screen};
use super::words::{say, tell};
use crate::safety::Moment;
use crate::wind::{Act, CoreOfPair, End, Event, PairPart, Wind, WindPlan, WindStep};

/// The screen.
#[component]
pub fn WindScreen() -> Element {
    let app = use_context::<Signal<AppState>>();
    let run = app.read().run::<WindPlan>();
    match run {
        None => rsx! {
            pair::CoreChoice {}
            Begin {}
        },
        Some(Err(message)) => rsx! {
            pair::CoreChoice {}
            p { class: "caution", role: "alert", "{message}" }
            Begin {}
        },
        // What the screen keeps of one core is not the other's.
        Some(Ok(run)) => rsx! {
            for second in [run.plan().pair == Some(PairPart::Second)] {
                GuidedScreen { key: "{second}", run: run.clone() }
            }
        },
    }
}

impl Content for WindPlan {
    const LABELS: Labels = Labels {
        place: "ui-step-of",
        all: "ui-wind-all",
        finish: "ui-wind-finish",
    };

    fn step(wind: &Wind, here: WindStep, _: Moment, onact: EventHandler<Act>) -> Element {
        rsx! { step::StepView { wind: wind.clone(), here, onact } }
    }

    fn ended(wind: &Wind, _: End, onevent: EventHandler<Event>) -> Element {
        let part = wind.plan().pair;
        rsx! {
            pair::CoreChoice {}
            Wound { part, onagain: move |()| onevent.call(Event::Again) }
        }
    }

    fn above() -> Element {
        rsx! {
            pair::CoreChoice {}
            Outdated {}
        }
    }

    fn below(_: &Wind, _: EventHandler<Act>) -> Element {
        rsx! {}
    }
}

/// Before anything is wound: what follows, and the way to begin.
#[component]
fn Begin() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (trouble, rows): (_, Vec<PathRow>) = match app.read().planned_winding() {
        None => (Some(say("ui-wind-none")), Vec::new()),
        Some(Err(message)) => (Some(tell(&message)), Vec::new()),
        Some(Ok(plan)) => (None, path_of(&Wind::start(plan))),
    };
    rsx! {
        div { class: "columns begin",
        section { class: "form",
            h2 { {say("ui-wind-title")} }
            p { {say("ui-wind-help")} }
            p { class: "caution", {say("ui-wind-caution")} }
            Needed { text: say("ui-wind-needed") }
            match trouble {
                Some(trouble) => rsx! {
                    p { class: "refused", role: "alert", "{trouble}" }
                    button { class: "main wide", onclick: move |_| app.write().go(Screen::Rewind), {say("ui-to-rewind")} }
                },
                None => rsx! {
                    button { class: "main wide", onclick: move |_| app.write().begin_winding(), {say("ui-wind-begin")} }
                },
            }
            button { class: "second wide", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
        }
        if !rows.is_empty() { WholePath { rows } }
        }
    }
}

/// The design has changed since the winding began.
#[component]
fn Outdated() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        if !app.read().winds_todays_design() {
            section { class: "outdated",
                p { class: "caution", role: "alert", {say("ui-wind-outdated")} }
                button { class: "second wide", onclick: move |_| app.write().begin_winding(), {say("ui-wind-again")} }
            }
        }
    }
}

/// Wound: the bench comes next, or the first core of the pair.
#[component]
fn Wound(part: Option<PairPart>, onagain: EventHandler<()>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let second = part == Some(PairPart::Second);
    rsx! {
        section { class: "ended",
            h2 { {say("ui-wound")} }
            p { {say(if second { "ui-second-wound-help" } else { "ui-wound-help" })} }
            if second {
                button {
                    class: "main wide",
                    onclick: move |_| app.write().show_winding(CoreOfPair::First),
                    {say("ui-to-first-core")}
                }
            } else {
                button { class: "main wide", onclick: move |_| app.write().go(Screen::Bench), {say("ui-to-bench")} }
            }
            button { class: "quiet wide", onclick: move |_| onagain.call(()), {say("ui-again")} }
        }
    }
}
