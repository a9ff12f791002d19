//! Bench: the tests in stages, each against what the design predicts.

mod record;
mod stage;

use dioxus::prelude::*;

use super::guided::{GateScreen, Progress, RenewFirst, RepeatedScreen, Stopped, to_top};
use super::state::{AppState, Blocked, Screen};
use super::words::{say, say_with};
use crate::app::behaviour::inrush::mains_fuse;
use crate::app::bench::Tests;
use crate::bench::{Event, Phase, Plan, Stage};
use crate::report::behaviour::fuse_label;
use crate::safety::Gate;
use crate::text::Arg;

/// The screen.
#[component]
pub fn BenchScreen() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    // The stage that the person is on the way to, while gates stand before it.
    let mut toward = use_signal(|| None::<Stage>);
    let mut told = use_signal(|| None::<String>);
    // Put off: the gates of the stage where the person is are renewed later.
    let mut put_off = use_signal(|| false);
    let mut act = move |event: Event| {
        let held = app.write().test_event(event);
        told.set(None);
        match held {
            Ok(()) => {
                if matches!(
                    event,
                    Event::Go(_) | Event::Finish | Event::Again | Event::CouldNot { .. } | Event::Reopened { .. }
                ) {
                    to_top();
                }
                true
            }
            Err(Blocked::Gate(stage, _)) => {
                toward.set(Some(stage));
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
    let (tests, planned) = {
        let app = app.read();
        let planned = app.planned();
        (app.tests(planned.as_ref().and_then(|p| p.as_ref().ok())), planned)
    };
    let tests: Tests = match tests {
        None => return rsx! { Begin { trouble: trouble(&app.read(), planned) } },
        Some(Err(message)) => {
            return rsx! {
                p { class: "danger", role: "alert", "{message}" }
                Begin { trouble: trouble(&app.read(), planned) }
            };
        }
        Some(Ok(tests)) => tests,
    };
    let bench = tests.bench.clone();
    let now = app.read().moment();
    match bench.phase() {
        Phase::Stopped { item } => {
            return rsx! { Stopped { item, onagain: move |()| { act(Event::Again); } } };
        }
        Phase::Commissioned => {
            return rsx! {
                section { class: "ended",
                    h2 { {say("ui-commissioned")} }
                    p { {say("ui-commissioned-help")} }
                    button { class: "main wide", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
                    button { class: "quiet wide", onclick: move |_| { act(Event::Reopened { fixed: None }); }, {say("ui-reopened")} }
                }
                record::Record { bench }
                Outdated { outdated: tests.outdated }
            };
        }
        Phase::Working => {}
    }
    let here = bench.stage(now);
    // After a pause, what was confirmed for the stage where the person is has to be renewed.
    let renewal = bench.gate_before(here, now).map(|gate| (here, gate));
    let before = toward()
        .and_then(|stage| Some((stage, bench.gate_before(stage, now)?)))
        .or(renewal.filter(|_| !put_off()));
    // With the last gate passed the stage opens by itself.
    let mut opened = move |stage: Stage| {
        let open = matches!(app.read().tests(None), Some(Ok(tests)) if tests.bench.gate_before(stage, app.read().moment()).is_none());
        if open && (stage == here || act(Event::Go(stage))) {
            toward.set(None);
        }
    };
    let mut back = move || {
        told.set(None);
        put_off.set(toward().is_none());
        toward.set(None);
    };
    if let Some((stage, gate)) = before
        && let gates = bench.repeated(stage, now)
        && gates.iter().any(|(repeated, _)| *repeated == gate)
    {
        return rsx! {
            RepeatedScreen {
                gates,
                onrenew: move |()| if act(Event::Renew { toward: stage }) { opened(stage) },
                ondoubt: move |()| { act(Event::Doubt { toward: stage }); },
                onback: move |()| back(),
            }
        };
    }
    if let Some((stage, gate)) = before {
        let confirmed = bench.confirmed(stage, gate, now).to_vec();
        return rsx! {
            GateScreen {
                gate,
                confirmed,
                failed: told(),
                told: (gate == Gate::Reassembly).then(|| fuse_to_fit(&app.read())),
                onconfirm: move |item| if act(Event::Confirm { toward: stage, item }) { opened(stage) },
                oncouldnot: move |item| {
                    act(Event::CouldNot { item });
                    toward.set(None);
                },
                onback: move |()| back(),
            }
        };
    }
    let next = here.next(bench.plan());
    let stages: Vec<Stage> = Stage::ALL
        .iter()
        .copied()
        .filter(|stage| stage.applies(bench.plan()))
        .collect();
    let at = stages.iter().position(|stage| *stage == here).unwrap_or(0);
    rsx! {
        Outdated { outdated: tests.outdated }
        Progress {
            keys: stages.iter().map(|stage| stage.key()).collect::<Vec<_>>(),
            at,
            place: "ui-stage-of",
            all: "ui-all-stages",
            ongo: move |index: usize| {
                if let Some(stage) = stages.get(index) { act(Event::Go(*stage)); }
            },
        }
        if let Some(text) = told() { p { class: "refused", role: "alert", "{text}" } }
        if renewal.is_some() { RenewFirst { onrenew: move |()| put_off.set(false) } }
        stage::StageView { bench: bench.clone(), here, onevent: move |event| { act(event); } }
        section { class: "row step-nav",
            match next {
                Some(next) => rsx! {
                    button { class: "main", onclick: move |_| { if act(Event::Go(next)) { toward.set(None); } },
                        {say_with("ui-next-step", &[("step", Arg::Text(&say(next.key())))])}
                    }
                },
                None => rsx! {
                    button { class: "main", onclick: move |_| { act(Event::Finish); }, {say("ui-commission")} }
                },
            }
            if let Some(before) = here.previous(bench.plan()) {
                button { class: "second", onclick: move |_| { act(Event::Go(before)); }, {say("ui-step-back")} }
            }
        }
        button { class: "quiet wide", onclick: move |_| { act(Event::Reopened { fixed: None }); }, {say("ui-reopened")} }
        record::Record { bench }
    }
}

/// Why no test may begin: a use that is not confirmed, no design, or a design that cannot be planned.
fn trouble(app: &AppState, planned: Option<Result<Plan, String>>) -> Option<String> {
    match (app.unconfirmed(), planned) {
        (Some(text), _) => Some(say(text)),
        (None, None) => Some(say("ui-no-design")),
        (None, Some(planned)) => planned.err(),
    }
}

/// The fuse that the gate's item asks for.
fn fuse_to_fit(app: &AppState) -> String {
    let fuse = match (app.file(), app.answer()) {
        (Some(file), Some(Ok(answer))) => mains_fuse(file, answer),
        _ => None,
    };
    match fuse.and_then(|fuse| super::words::told(|texts| Some(fuse_label(&fuse, texts)))) {
        Some(fuse) => say_with("page-fuse", &[("fuse", Arg::Text(&fuse))]),
        None => say("ui-no-fuse"),
    }
}

/// Before any test: what they are, and the way to begin.
#[component]
fn Begin(trouble: Option<String>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        section { class: "welcome",
            h2 { {say("ui-tests-title")} }
            p { {say("ui-tests-help")} }
            p { class: "danger", {say("ui-tests-caution")} }
            match trouble {
                Some(trouble) => rsx! {
                    p { class: "refused", role: "alert", "{trouble}" }
                    button { class: "main wide", onclick: move |_| app.write().go(Screen::Rewind), {say("ui-to-rewind")} }
                },
                None => rsx! {
                    button { class: "main wide", onclick: move |_| app.write().begin_tests(), {say("ui-begin-tests")} }
                },
            }
            button { class: "second wide", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
        }
    }
}

/// The design has changed since the tests began.
#[component]
fn Outdated(outdated: bool) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        if outdated {
            section { class: "outdated",
                p { class: "danger", role: "alert", {say("ui-outdated")} }
                button { class: "second wide", onclick: move |_| app.write().begin_tests(), {say("ui-begin-again")} }
            }
        }
    }
}
