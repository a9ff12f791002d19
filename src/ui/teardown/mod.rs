//! Teardown: what its steps, gates and ends show on the screen of guided work.

mod capacitor;
mod findings;
mod measures;
mod step;
mod warming;

use dioxus::prelude::*;

use super::guided::{Content, GuidedScreen, Labels, WholePath, path_of};
use super::state::{AppState, Screen};
use super::words::{say, say_part, say_with};
use crate::safety::{Gate, Item, Moment};
use crate::teardown::{Act, End, Event, Step, Teardown, TeardownProcedure};
use crate::text::Arg;

/// The screen.
#[component]
pub fn TeardownScreen() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let run = app.read().teardown();
    match run {
        None => rsx! {
            section { class: "welcome",
                p { {say("ui-no-donor")} }
                button { class: "main wide", onclick: move |_| app.write().go(Screen::Home), {say("ui-to-home")} }
            }
        },
        Some(Err(message)) => rsx! {
            p { class: "caution", role: "alert", "{message}" }
            button { class: "second wide", onclick: move |_| app.write().restart_teardown(), {say("ui-restart")} }
        },
        Some(Ok(run)) => rsx! { GuidedScreen { run } },
    }
}

impl Content for TeardownProcedure {
    const LABELS: Labels = Labels {
        place: "ui-step-of",
        all: "ui-all-steps",
        finish: "ui-finish",
    };

    fn step(run: &Teardown, here: Step, now: Moment, onact: EventHandler<Act>) -> Element {
        rsx! { step::StepView { state: run.clone(), here, now, onfound: move |finding| onact.call(Act::Found(finding)) } }
    }

    fn ended(_: &Teardown, end: End, onevent: EventHandler<Event>) -> Element {
        rsx! { Ended { end, onagain: move |()| onevent.call(Event::Again) } }
    }

    fn below(run: &Teardown, onact: EventHandler<Act>) -> Element {
        rsx! {
            button { class: "quiet wide", onclick: move |_| onact.call(Act::PluggedIn), {say("ui-plugged-in")} }
            // Before anything is done, what lies ahead is in full sight.
            if run.history().is_empty() { WholePath { rows: path_of(run) } }
        }
    }

    fn failed(run: &Teardown, gate: Gate) -> Option<String> {
        let volts = run.failed_proof().filter(|_| gate == Gate::Capacitor)?;
        let volts = format!("{:.0}", volts.si());
        Some(say_with("ui-still-charged", &[("volts", Arg::Text(&volts))]))
    }

    fn instead(item: Item, onact: EventHandler<Act>) -> Option<Element> {
        let proving = || rsx! { capacitor::Proving { onprove: move |proof| onact.call(Act::Prove(proof)) } };
        (item == Item::ProvedByMeter).then(proving)
    }
}

/// The end, and where the job goes on.
#[component]
fn Ended(end: End, onagain: EventHandler<()>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let has_job = app.read().has_job();
    rsx! {
        section { class: "ended",
            h2 { {say(end.key())} }
            p { {say_part(end.key(), "next")} }
            if end == End::Stored {
                if has_job {
                    button { class: "main wide", onclick: move |_| app.write().go(Screen::Measure), {say("ui-to-measure")} }
                } else {
                    button { class: "main wide", onclick: move |_| app.write().start_job_from_donor(), {say("ui-start-job")} }
                }
            } else {
                button { class: "main wide", onclick: move |_| app.write().go(Screen::SizeUp), {say("ui-to-parts")} }
            }
            button { class: "quiet wide", onclick: move |_| onagain.call(()), {say("ui-again")} }
        }
    }
}
