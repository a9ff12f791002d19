//! Teardown: one step at a time, a gate before each hazard, and where it stands after anything.

mod capacitor;
mod findings;
mod measures;
mod step;
mod warming;

use dioxus::prelude::*;

use super::guided::{GateScreen, Progress, RenewFirst, RepeatedScreen, Stopped, to_top};
use super::state::{AppState, Blocked, Screen};
use super::words::{say, say_part, say_with};
use crate::safety::Item;
use crate::teardown::{End, Event, Phase, Step, Teardown};
use crate::text::Arg;

/// The screen.
#[component]
pub fn TeardownScreen() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    // The step that the person is on the way to, while gates stand before it.
    let mut toward = use_signal(|| None::<Step>);
    let mut told = use_signal(|| None::<String>);
    // Put off: the gates of the step where the person is are renewed later.
    let mut put_off = use_signal(|| false);
    let mut act = move |event: Event| {
        let held = app.write().teardown_event(event);
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
            Err(Blocked::Gate(step, _)) => {
                toward.set(Some(step));
                false
            }
            Err(Blocked::Text(key, range)) => {
                told.set(Some(say_with(key, &[("range", Arg::Text(range))])));
                false
            }
            Err(Blocked::Sentence(text)) => {
                told.set(Some(text));
                false
            }
        }
    };
    let state: Teardown = match app.read().teardown() {
        None => {
            return rsx! {
                section { class: "welcome",
                    p { {say("ui-no-donor")} }
                    button { class: "main wide", onclick: move |_| app.write().go(Screen::Shelf), {say("ui-to-shelf")} }
                }
            };
        }
        Some(Err(message)) => {
            return rsx! {
                p { class: "danger", role: "alert", "{message}" }
                button { class: "second wide", onclick: move |_| app.write().restart_teardown(), {say("ui-restart")} }
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
    let now = app.read().moment();
    let here = state.step(now);
    // After a pause, what was confirmed for the step where the person is has to be renewed.
    let renewal = state.gate_before(here, now).map(|gate| (here, gate));
    let before = toward()
        .and_then(|step| Some((step, state.gate_before(step, now)?)))
        .or(renewal.filter(|_| !put_off()));
    // With the last gate passed the step opens by itself.
    let mut opened = move |step: Step| {
        let open =
            matches!(app.read().teardown(), Some(Ok(state)) if state.gate_before(step, app.read().moment()).is_none());
        if open && (step == here || act(Event::Go(step))) {
            toward.set(None);
        }
    };
    let mut back = move || {
        told.set(None);
        put_off.set(toward().is_none());
        toward.set(None);
    };
    if let Some((step, gate)) = before
        && let gates = state.repeated(step, now)
        && gates.iter().any(|(repeated, _)| *repeated == gate)
    {
        return rsx! {
            RepeatedScreen {
                gates,
                onrenew: move |()| if act(Event::Renew { toward: step }) { opened(step) },
                ondoubt: move |()| { act(Event::Doubt { toward: step }); },
                onback: move |()| back(),
            }
        };
    }
    if let Some((step, gate)) = before {
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
                onconfirm: move |item| if act(Event::Confirm { toward: step, item }) { opened(step) },
                oncouldnot: move |item| {
                    act(Event::CouldNot { item });
                    toward.set(None);
                },
                onback: move |()| back(),
            }
        };
    }
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
        if renewal.is_some() { RenewFirst { onrenew: move |()| put_off.set(false) } }
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
