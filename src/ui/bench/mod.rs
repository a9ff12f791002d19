//! Bench: what the stages show on the screen of guided work, each against what the design predicts.

mod reading;
mod record;
mod stage;

pub use reading::ReadingEntry;

use dioxus::prelude::*;

use super::guided::{Content, GuidedScreen, Labels, Needed, PathRow, WholePath, path_of};
use super::state::{AppState, Screen};
use super::words::{say, say_with, tell};
use crate::app::behaviour::inrush::mains_fuse;
use crate::bench::{Act, Bench, End, Event, Plan, Stage};
use crate::report::behaviour::fuse_label;
use crate::safety::{Gate, Moment};
use crate::text::Arg;

/// The screen.
#[component]
pub fn BenchScreen() -> Element {
    let app = use_context::<Signal<AppState>>();
    let tests = app.read().tests(None);
    match tests {
        None => rsx! { Begin {} },
        Some(Err(message)) => rsx! {
            p { class: "caution", role: "alert", "{message}" }
            Begin {}
        },
        Some(Ok(tests)) => rsx! { GuidedScreen { run: tests.bench } },
    }
}

impl Content for Plan {
    const LABELS: Labels = Labels {
        place: "ui-stage-of",
        all: "ui-all-stages",
        finish: "ui-commission",
    };

    fn step(bench: &Bench, here: Stage, _: Moment, onact: EventHandler<Act>) -> Element {
        rsx! { stage::StageView { bench: bench.clone(), here, onact } }
    }

    fn ended(bench: &Bench, _: End, onevent: EventHandler<Event>) -> Element {
        rsx! {
            Commissioned { onreopened: move |()| onevent.call(Event::Act(Act::Reopened { fixed: None })) }
            record::Record { bench: bench.clone() }
            Outdated {}
        }
    }

    fn above() -> Element {
        rsx! { Outdated {} }
    }

    fn below(bench: &Bench, onact: EventHandler<Act>) -> Element {
        rsx! {
            button { class: "quiet wide", onclick: move |_| onact.call(Act::Reopened { fixed: None }), {say("ui-reopened")} }
            record::Record { bench: bench.clone() }
        }
    }

    fn note(app: &AppState, gate: Gate) -> Option<String> {
        (gate == Gate::Reassembly).then(|| fuse_to_fit(app))
    }
}

/// Every stage passed.
#[component]
fn Commissioned(onreopened: EventHandler<()>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        section { class: "ended",
            h2 { {say("ui-commissioned")} }
            p { {say("ui-commissioned-help")} }
            button { class: "main wide", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
            button { class: "quiet wide", onclick: move |_| onreopened.call(()), {say("ui-reopened")} }
        }
    }
}

/// Why no test may begin: a use that is not confirmed, no design, or a design that cannot be planned.
fn trouble(app: &AppState) -> Option<String> {
    match (app.unconfirmed(), app.planned()) {
        (Some(text), _) => Some(say(text)),
        (None, None) => Some(say("ui-no-design")),
        (None, Some(planned)) => planned.err().map(|message| tell(&message)),
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
fn Begin() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let trouble = trouble(&app.read());
    let rows: Vec<PathRow> = match app.read().planned() {
        Some(Ok(plan)) => path_of(&Bench::start(plan)),
        // Without a design it is not known yet which stages apply.
        _ => Stage::ALL.iter().map(|stage| (stage.key(), Vec::new())).collect(),
    };
    rsx! {
        div { class: "columns begin",
        section { class: "form",
            h2 { {say("ui-tests-title")} }
            p { {say("ui-tests-help")} }
            p { class: "caution", {say("ui-tests-caution")} }
            Needed { text: say("ui-tests-needed") }
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
        WholePath { rows }
        }
    }
}

/// The design has changed since the tests began.
#[component]
fn Outdated() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let outdated = app.read().tests_outdated();
    rsx! {
        if outdated {
            section { class: "outdated",
                p { class: "caution", role: "alert", {say("ui-outdated")} }
                button { class: "second wide", onclick: move |_| app.write().begin_tests(), {say("ui-begin-again")} }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The gate that asks for a fuse of the design's rating says which, as the page and the materials do.
    #[component]
    fn Asked() -> Element {
        use_context_provider(super::super::words::Words::english);
        let folder = tempfile::tempdir().unwrap();
        let mut app = AppState::open(folder.path());
        app.open_demo();
        let said = fuse_to_fit(&app);
        app.set_use("choke");
        let of_choke = fuse_to_fit(&app);
        rsx! { p { "{said}" } p { "{of_choke}" } }
    }

    #[test]
    fn the_gate_says_which_fuse() {
        let mut dom = VirtualDom::new(Asked);
        dom.rebuild_in_place();
        let html = dioxus_ssr::render(&dom);
        assert!(html.contains("Mains fuse: Time-delay fuse (UL 248), "), "{html}");
        assert!(html.contains("fit the fuse of the supply that feeds it"), "{html}");
    }
}
