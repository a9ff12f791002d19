//! The one screen of guided work: gates over the whole screen, a stop, the step, and the way on.

use dioxus::prelude::*;

use super::super::state::{AppState, InHand};
use super::super::words::{explain, say, say_with, tell};
use super::{GateScreen, Progress, RenewFirst, RepeatedScreen, Stopped, to_top};
use crate::app::guided::Blocked;
use crate::procedure::{Event, Phase, Procedure, Refusal, Run};
use crate::safety::{Gate, Item, Moment};
use crate::text::Arg;
use crate::words::{Message, Word};

/// The ids of the texts around the steps of a procedure.
#[derive(Debug, Clone, Copy)]
pub struct Labels {
    /// "Step 3 of 14".
    pub place: &'static str,
    /// "All steps".
    pub all: &'static str,
    /// The button that finishes the last step.
    pub finish: &'static str,
}

/// What one procedure shows on the screen that all share.
pub trait Content: InHand {
    /// The texts around its steps.
    const LABELS: Labels;

    /// The step where the person is.
    fn step(run: &Run<Self>, here: Self::Step, now: Moment, onact: EventHandler<Self::Act>) -> Element;

    /// The end, and where the job goes on.
    fn ended(run: &Run<Self>, end: Self::End, onevent: EventHandler<Event<Self>>) -> Element;

    /// What stands above the steps.
    fn above() -> Element {
        rsx! {}
    }

    /// What stands below the way on.
    fn below(run: &Run<Self>, onact: EventHandler<Self::Act>) -> Element;

    /// What the design says of a gate's items.
    fn note(_app: &AppState, _gate: Gate) -> Option<String> {
        None
    }

    /// Why a gate has to be passed again from its first item.
    fn failed(_run: &Run<Self>, _gate: Gate) -> Option<String> {
        None
    }

    /// What stands in for the button of an item that needs more than a press.
    fn instead(_item: Item, _onact: EventHandler<Self::Act>) -> Option<Element> {
        None
    }
}

/// True for an event after which another screen begins at its top.
fn turns_the_page<P: Procedure>(event: Event<P>) -> bool {
    match event {
        Event::Go(_) | Event::Finish | Event::Again | Event::CouldNot { .. } => true,
        Event::Act(act) => P::reopens(act),
        _ => false,
    }
}

/// Why something was not done, as the person reads it.
#[must_use]
pub fn why<P: Procedure>(blocked: &Blocked<P>) -> String {
    match blocked {
        Blocked::Refused(refusal) => tell(&Message::new(refusal.key()).with("range", refusal.range())),
        Blocked::Failed(error) => explain(error),
    }
}

/// The screen. `run` is read anew by whoever shows it, after each event.
#[component]
pub fn GuidedScreen<P: Content>(run: Run<P>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    // The step that the person is on the way to, while gates stand before it.
    let mut toward = use_signal(|| None::<P::Step>);
    let mut told = use_signal(|| None::<String>);
    // Put off: the gates of the step where the person is are renewed later.
    let mut put_off = use_signal(|| false);
    let mut act = move |event: Event<P>| {
        let held = app.write().event(event);
        told.set(None);
        match held {
            Ok(()) => {
                if turns_the_page(event) {
                    to_top();
                }
                return true;
            }
            Err(Blocked::Refused(Refusal::GateNeeded { toward: step, .. })) => toward.set(Some(step)),
            Err(blocked) => told.set(Some(why(&blocked))),
        }
        false
    };
    let onevent = use_callback(move |event: Event<P>| {
        act(event);
    });
    let onact = use_callback(move |own: P::Act| {
        act(Event::Act(own));
    });
    match run.phase() {
        Phase::Stopped { item } => return rsx! { Stopped { item, onagain: move |()| { act(Event::Again); } } },
        Phase::Ended(end) => return P::ended(&run, end, onevent),
        Phase::Working => {}
    }
    let now = app.read().moment();
    let here = run.step(now);
    // After a pause, what was confirmed for the step where the person is has to be renewed.
    let renewal = run.gate_before(here, now).map(|gate| (here, gate));
    let before = toward()
        .and_then(|step| Some((step, run.gate_before(step, now)?)))
        .or(renewal.filter(|_| !put_off()));
    // With the last gate passed the step opens by itself.
    let mut opened = move |step: P::Step| {
        let open = app
            .read()
            .run::<P>()
            .is_some_and(|run| run.is_ok_and(|run| run.gate_before(step, app.read().moment()).is_none()));
        if open && (step == here || act(Event::Go(step))) {
            toward.set(None);
        }
    };
    let mut back = move || {
        told.set(None);
        put_off.set(toward().is_none());
        toward.set(None);
    };
    if let Some((step, gate)) = before {
        let gates = run.repeated(step, now);
        if gates.iter().any(|(repeated, _)| *repeated == gate) {
            return rsx! {
                RepeatedScreen {
                    gates,
                    onrenew: move |()| if act(Event::Renew { toward: step }) { opened(step) },
                    ondoubt: move |()| { act(Event::Doubt { toward: step }); },
                    onback: move |()| back(),
                }
            };
        }
        let confirmed = run.confirmed(step, gate, now).to_vec();
        let next = gate.items().iter().copied().find(|item| !confirmed.contains(item));
        return rsx! {
            GateScreen {
                gate,
                confirmed,
                failed: told().or_else(|| P::failed(&run, gate)),
                own: next.and_then(|item| P::instead(item, onact)),
                told: P::note(&app.read(), gate),
                onconfirm: move |item| if act(Event::Confirm { toward: step, item }) { opened(step) },
                oncouldnot: move |item| {
                    act(Event::CouldNot { item });
                    toward.set(None);
                },
                onback: move |()| back(),
            }
        };
    }
    let steps = run.steps();
    let at = steps.iter().position(|step| *step == here).unwrap_or(0);
    rsx! {
        {P::above()}
        Progress {
            keys: steps.iter().map(|step| step.key()).collect::<Vec<_>>(),
            at,
            place: P::LABELS.place,
            all: P::LABELS.all,
            ongo: move |index: usize| {
                if let Some(step) = steps.get(index) { act(Event::Go(*step)); }
            },
        }
        if let Some(text) = told() { p { class: "refused", role: "alert", "{text}" } }
        if renewal.is_some() { RenewFirst { onrenew: move |()| put_off.set(false) } }
        {P::step(&run, here, now, onact)}
        section { class: "row step-nav",
            match run.next(here) {
                Some(next) => rsx! {
                    button { class: "main", onclick: move |_| { if act(Event::Go(next)) { toward.set(None); } },
                        {say_with("ui-next-step", &[("step", Arg::Text(&say(next.key())))])}
                    }
                },
                None => rsx! {
                    button { class: "main", onclick: move |_| { act(Event::Finish); }, {say(P::LABELS.finish)} }
                },
            }
            if let Some(before) = run.previous(here) {
                button { class: "second", onclick: move |_| { act(Event::Go(before)); }, {say("ui-step-back")} }
            }
        }
        {P::below(&run, onact)}
    }
}
