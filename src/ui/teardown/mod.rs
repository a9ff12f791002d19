//! Teardown: one step at a time, a gate before each hazard, and where it stands after anything.

mod capacitor;
mod findings;
mod step;
mod warming;

use dioxus::prelude::*;

use super::desk::{Desk, Held, Screen};
use super::guided::{GateScreen, Progress, Stopped, to_top};
use super::words::{say, say_part, say_with};
use crate::safety::Item;
use crate::teardown::{End, Event, Phase, Step, Teardown};
use crate::text::Arg;

/// The screen.
#[component]
pub fn TeardownScreen() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    // The step that the person is on the way to, while gates stand before it.
    let mut toward = use_signal(|| None::<Step>);
    let mut told = use_signal(|| None::<String>);
    let mut act = move |event: Event| {
        let held = desk.write().teardown_event(event);
        told.set(None);
        match held {
            Ok(()) => {
                if matches!(
                    event,
                    Event::Go(_) | Event::Finish | Event::Again | Event::CouldNot { .. }
                ) {
                    to_top();
                }
                true
            }
            Err(Held::Gate(step, _)) => {
                toward.set(Some(step));
                false
            }
            Err(Held::Say(key, range)) => {
                told.set(Some(say_with(key, &[("range", Arg::Text(range))])));
                false
            }
            Err(Held::Told(text)) => {
                told.set(Some(text));
                false
            }
        }
    };
    let state: Teardown = match desk.read().teardown() {
        None => {
            return rsx! {
                section { class: "welcome",
                    p { {say("ui-no-donor")} }
                    button { class: "main wide", onclick: move |_| desk.write().go(Screen::Shelf), {say("ui-to-shelf")} }
                }
            };
        }
        Some(Err(message)) => {
            return rsx! {
                p { class: "danger", role: "alert", "{message}" }
                button { class: "second wide", onclick: move |_| desk.write().restart_teardown(), {say("ui-restart")} }
            };
        }
        Some(Ok(state)) => state,
    };
    match state.phase() {
        Phase::Stopped { item } => {
            return rsx! { Stopped { item, onagain: move |()| { act(Event::Again); } } };
        }
        Phase::Ended(end) => return rsx! { Ended { end, onagain: move |()| { act(Event::Again); } } },
        Phase::Working => {}
    }
    let now = desk.read().moment();
    if let Some(step) = toward()
        && let Some(gate) = state.gate_before(step, now)
    {
        let confirmed = state.confirmed(step, gate, now).to_vec();
        let next = gate.items().iter().find(|item| !confirmed.contains(item)).copied();
        let proving = next == Some(Item::ProvedByMeter);
        let failed = told().or_else(|| {
            state
                .failed_proof()
                .filter(|_| gate == crate::safety::Gate::Capacitor)
                .map(|volts| {
                    say_with(
                        "ui-still-charged",
                        &[("volts", Arg::Text(&format!("{:.0}", volts.si())))],
                    )
                })
        });
        return rsx! {
            GateScreen {
                gate,
                confirmed,
                failed,
                own: proving.then(|| rsx! { capacitor::Proving { onprove: move |proof| { act(Event::Prove(proof)); } } }),
                onconfirm: move |item| {
                    if act(Event::Confirm { toward: step, item }) {
                        // With the last gate passed the step opens by itself.
                        let open = matches!(desk.read().teardown(), Some(Ok(state)) if state.gate_before(step, desk.read().moment()).is_none());
                        if open && act(Event::Go(step)) {
                            toward.set(None);
                        }
                    }
                },
                oncouldnot: move |item| {
                    act(Event::CouldNot { item });
                    toward.set(None);
                },
                onback: move |()| {
                    told.set(None);
                    toward.set(None);
                },
            }
        };
    }
    let here = state.step(now);
    let next = here.next(state.findings());
    let steps: Vec<Step> = Step::ALL
        .iter()
        .copied()
        .filter(|step| step.applies(state.findings()))
        .collect();
    let at = steps.iter().position(|step| *step == here).unwrap_or(0);
    rsx! {
        Progress {
            keys: steps.iter().map(|step| step.key()).collect::<Vec<_>>(),
            at,
            place: "ui-step-of",
            all: "ui-all-steps",
            ongo: move |index: usize| {
                if let Some(step) = steps.get(index) { act(Event::Go(*step)); }
            },
        }
        if let Some(text) = told() { p { class: "refused", role: "alert", "{text}" } }
        step::StepView { state: state.clone(), here, now, onfound: move |finding| { act(Event::Found(finding)); } }
        section { class: "row step-nav",
            match next {
                Some(next) => rsx! {
                    button { class: "main", onclick: move |_| { if act(Event::Go(next)) { toward.set(None); } },
                        {say_with("ui-next-step", &[("step", Arg::Text(&say(next.key())))])}
                    }
                },
                None => rsx! {
                    button { class: "main", onclick: move |_| { act(Event::Finish); }, {say("ui-finish")} }
                },
            }
            if let Some(before) = here.previous(state.findings()) {
                button { class: "second", onclick: move |_| { act(Event::Go(before)); }, {say("ui-step-back")} }
            }
        }
        button { class: "quiet wide", onclick: move |_| { act(Event::PluggedIn); }, {say("ui-plugged-in")} }
    }
}

/// The end, and where the job goes on.
#[component]
fn Ended(end: End, onagain: EventHandler<()>) -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let has_job = desk.read().has_job();
    rsx! {
        section { class: "ended",
            h2 { {say(end.key())} }
            p { {say_part(end.key(), "next")} }
            if end == End::Stored {
                if has_job {
                    button { class: "main wide", onclick: move |_| desk.write().go(Screen::Measure), {say("ui-to-measure")} }
                } else {
                    button { class: "main wide", onclick: move |_| desk.write().start_job_from_donor(), {say("ui-start-job")} }
                }
            } else {
                button { class: "main wide", onclick: move |_| desk.write().go(Screen::SizeUp), {say("ui-to-parts")} }
            }
            button { class: "quiet wide", onclick: move |_| onagain.call(()), {say("ui-again")} }
        }
    }
}
