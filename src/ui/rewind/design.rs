//! One winding in full: drawing, curve, warnings, numbers with their ±, pins.

use dioxus::prelude::*;

use super::super::controls::{Choices, Fold, NumberField, Numbers, Switch, Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::{drawn, say, say_with, tell, told};
use super::supply::MakeReactor;
use crate::app::basis::as_choice;
use crate::app::circuit_parts::Reactor;
use crate::app::design_state::DesignState;
use crate::app::guard::guarded;
use crate::app::listing::winding_title;
use crate::job::{Pinned, Placement};
use crate::magnetics::circuit::performance::PerformanceNumber;
use crate::quantity::format_significant;
use crate::report::draw::core_section;
use crate::report::{Shown, needed_text, outlet_line, show, state_fuse, voltage_drawing, widened_by};
use crate::rewind::handwork;
use crate::rewind::limits::Limit;
use crate::rewind::warnings::Warning;
use crate::text::Arg;

/// Numbers shown at once; the others behind a fold.
const FIRST: &[PerformanceNumber] = &[
    PerformanceNumber::OpenCircuit,
    PerformanceNumber::WorkingCurrent,
    PerformanceNumber::WorkingVoltage,
    PerformanceNumber::ShortCircuit,
    PerformanceNumber::SeriesReactance,
    PerformanceNumber::MainsCurrent,
    PerformanceNumber::Spare,
];

/// What is shown, taken out of the app at once.
#[derive(Clone, PartialEq)]
struct View {
    title: String,
    chosen: bool,
    section: String,
    /// Of two cores: the name and the section of the second.
    second: Option<(String, String)>,
    curve: String,
    broken: Vec<&'static str>,
    dangers: Vec<&'static str>,
    notes: Vec<&'static str>,
    first: Vec<(Shown, String)>,
    rest: Vec<(Shown, String)>,
    reactor: Option<Reactor>,
    /// Whether the outlet feeds it, and whether that stops the work.
    outlet: (String, bool),
    /// The id of how the conductor is wound, insulated and led out.
    form: &'static str,
    /// Whether more lies together than hands wind with ease.
    many: bool,
    pinned: Pinned,
}

fn view(app: &AppState) -> Option<View> {
    let answer = app.answer()?.ok()?;
    let design = answer.design.as_ref()?;
    let shown = |numbers: &[PerformanceNumber]| {
        told(|texts| {
            let numbers = design.numbers(numbers);
            let shown = numbers
                .iter()
                .map(|n| (show(texts, n), widened_by(texts, &n.variance_shares)));
            Some(shown.collect())
        })
        .unwrap_or_default()
    };
    let rest: Vec<_> = PerformanceNumber::ALL
        .iter()
        .copied()
        .filter(|n| !FIRST.contains(n))
        .collect();
    let (dangers, notes): (Vec<Warning>, Vec<Warning>) =
        design.warnings.iter().partition(|warning| warning.is_danger());
    Some(View {
        title: tell(&winding_title(&design.candidate, &answer.catalogue, app.awg())),
        chosen: design.chosen,
        section: drawn(|texts| {
            let wound = (&design.candidate.winding, &design.candidate.layers);
            core_section(&answer.problem.rebuild, Some(wound), app.unit(), texts)
        }),
        second: answer.second.as_ref().map(|second| {
            let wound = second.design.as_ref();
            let wound = wound.map(|design| (&design.candidate.winding, &design.candidate.layers));
            let section = drawn(|texts| core_section(&second.problem.rebuild, wound, app.unit(), texts));
            (second.name.clone(), section)
        }),
        curve: drawn(|texts| voltage_drawing(design, answer, texts)),
        broken: design.candidate.broken.iter().map(Limit::key).collect(),
        dangers: dangers.iter().map(|w| w.key()).collect(),
        notes: notes.iter().map(|w| w.key()).collect(),
        first: shown(FIRST),
        rest: shown(&rest),
        reactor: answer.circuit_parts().and_then(|parts| parts.reactor),
        outlet: told(|texts| Some(outlet_line(answer.file(), &design.outlet, texts))).unwrap_or_default(),
        form: handwork::text_key(&design.candidate.winding.conductor),
        many: design.candidate.winding.parallel > handwork::most_parallel(&design.candidate.winding.conductor),
        pinned: app
            .file()?
            .choice
            .as_ref()
            .map(|choice| choice.pinned)
            .unwrap_or_default(),
    })
}

/// The winding.
#[component]
pub fn DesignView() -> Element {
    let app = use_context::<Signal<AppState>>();
    let view = view(&app.read());
    let Some(view) = view else { return rsx! {} };
    rsx! {
        section { class: "design",
            h2 { {say("ui-design")} }
            for key in &view.broken { p { class: "stop", role: "alert", {say_with("page-stop", &[("limit", Arg::Text(&say(key)))])} } }
            for key in &view.dangers { p { class: "caution", {say(key)} } }
            p { class: "caution", {say("page-caution-code")} }
            if let Some(reactor) = view.reactor { MakeReactor { reactor } }
            match &view.second {
                None => rsx! { figure { dangerous_inner_html: "{view.section}" } },
                Some((name, section)) => rsx! {
                    figure {
                        figcaption { {say("ui-pair-on-first")} }
                        div { dangerous_inner_html: "{view.section}" }
                    }
                    figure {
                        figcaption { {say_with("ui-pair-on-second", &[("name", Arg::Text(name))])} }
                        div { dangerous_inner_html: "{section}" }
                    }
                },
            }
            if view.outlet.1 { p { class: "caution", "{view.outlet.0}" } }
            details {
                summary { {say("ui-design-change")} }
                TurnsStepper {}
                NumberField { path: "conditions.lead_mm" }
                p { class: "hint", {say(view.form)} }
                if view.many { p { class: "hint", {say("form-many")} } }
                for key in &view.notes { p { class: "hint", {say(key)} } }
                if view.chosen { Pins { pinned: view.pinned } }
                Kept { title: view.title.clone() }
            }
            Fold { word: "winding-numbers", title: say("ui-design-numbers"),
                Numbers { rows: view.first.clone() }
                figure { dangerous_inner_html: "{view.curve}" }
                p { class: "hint", {say("ui-design-curve")} }
                Numbers { rows: view.rest.clone() }
            }
        }
    }
}

/// The one state of the design: it fits, fits with an extra part, or breaks a limit.
#[component]
pub fn StateLine() -> Element {
    let app = use_context::<Signal<AppState>>();
    let state = match app.read().answer() {
        Some(Ok(answer)) => guarded(|| answer.design_state()).ok().flatten(),
        _ => None,
    };
    let fuse = match app.read().answer() {
        Some(Ok(answer)) => guarded(|| told(|texts| state_fuse(answer.circuit_parts()?, texts)))
            .ok()
            .flatten(),
        _ => None,
    };
    let fuse = fuse.map_or_else(String::new, |fuse| format!(" {fuse}"));
    match state {
        None => rsx! {},
        Some(DesignState::Fits) => {
            rsx! { p { class: "state", {say("ui-state-fits")} span { class: "parts", "{fuse}" } } }
        }
        Some(DesignState::FitsWith(needed)) => {
            let parts = told(|texts| Some(needed_text(&needed, texts))).unwrap_or_default();
            rsx! {
                p { class: "state",
                    {say("ui-state-fits-with")}
                    span { class: "parts", " {parts}.{fuse}" }
                }
            }
        }
        Some(DesignState::Breaks(limits)) => {
            let limit = limits.first().map_or_else(String::new, |limit| say(limit.key()));
            rsx! { p { class: "state danger", role: "alert", {say_with("ui-state-breaks", &[("limit", Arg::Text(&limit))])} } }
        }
    }
}

/// One turn more or less: the answer, the drawing and the curve follow.
#[component]
fn TurnsStepper() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let around = match app.read().answer() {
        Some(Ok(answer)) => guarded(|| answer.turns_around().cloned()).ok().flatten(),
        _ => None,
    };
    let Some(around) = around else { return rsx! {} };
    let mut step = move |turns: u32| {
        let choice = match app.read().answer() {
            Some(Ok(answer)) => answer.design.as_ref().map(|design| {
                let pinned = answer
                    .file()
                    .choice
                    .as_ref()
                    .map_or_else(Pinned::default, |choice| choice.pinned);
                crate::job::Choice {
                    turns,
                    pinned,
                    ..as_choice(&design.candidate, &answer.problem.rebuild, &answer.catalogue)
                }
            }),
            _ => None,
        };
        if choice.is_some() {
            app.write().choose(choice);
        }
    };
    let broken = |(turns, limit): (u32, Limit)| {
        let turns = ("turns", Arg::Number(f64::from(turns)));
        say_with("ui-turns-break", &[turns, ("limit", Arg::Text(&say(limit.key())))])
    };
    let (turns, fewer, more) = (
        around.turns,
        around.fewer().map(|step| step.turns),
        around.more().map(|step| step.turns),
    );
    rsx! {
        div { class: "stepper", role: "group", aria_label: say("ui-turns"),
            button {
                class: "second", disabled: fewer.is_none(), aria_label: say("ui-turn-less"),
                onclick: move |_| if let Some(fewer) = fewer { step(fewer) },
                "−"
            }
            strong { {say_with("ui-turns-of", &[("turns", Arg::Number(f64::from(turns)))])} }
            button {
                class: "second", disabled: more.is_none(), aria_label: say("ui-turn-more"),
                onclick: move |_| if let Some(more) = more { step(more) },
                "+"
            }
        }
        ol { class: "turns-around", aria_label: say("ui-turns-around"),
            for at in around.steps.clone() {
                li {
                    key: "{at.turns}",
                    class: if around.is_sensible(at.turns) { "sensible" } else { "" },
                    aria_current: if at.turns == turns { "true" } else { "false" },
                    strong { "{at.turns}" }
                    match at.gives {
                        Ok(current) => rsx! { span { {say_with("ui-side-amps", &[("amps", Arg::Text(&format_significant(current.si(), 3)))])} } },
                        Err(_) => rsx! { span { {say("ui-turns-no")} } },
                    }
                }
            }
        }
        ul { class: "plain hint",
            match around.sensible {
                Some((least, most)) if least < most => rsx! {
                    li { {say_with("ui-turns-sensible", &[("least", Arg::Number(f64::from(least))), ("most", Arg::Number(f64::from(most)))])} }
                },
                Some((only, _)) => rsx! { li { {say_with("ui-turns-only", &[("turns", Arg::Number(f64::from(only)))])} } },
                None => rsx! {},
            }
            for outside in [around.below, around.above].into_iter().flatten() { li { {broken(outside)} } }
        }
    }
}

/// Windings kept beside the job, to go back to.
#[component]
fn Kept(title: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (kept, unread) = or_why(app.read().kept());
    rsx! {
        Unreadable { why: unread }
        div { class: "row",
            button { class: "second", onclick: move |_| app.write().keep(&title), {say("ui-design-keep")} }
        }
        ul { class: "jobs",
            for (id, name, choice) in kept {
                li { key: "{id}",
                    button { class: "job", onclick: move |_| app.write().choose(Some(choice.clone())),
                        strong { "{name}" }
                        span { {say("ui-design-kept")} }
                    }
                    button { class: "quiet", aria_label: say_with("ui-remove-of", &[("name", Arg::Text(&name))]), onclick: move |_| app.write().let_go(id), {say("ui-remove")} }
                }
            }
        }
    }
}

/// Turns, wires and insulation of the chosen winding, and what the search must leave alone.
#[component]
fn Pins(pinned: Pinned) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut pin = move |with: Pinned| {
        let choice = app.read().file().and_then(|file| file.choice.clone());
        if let Some(choice) = choice {
            app.write().choose(Some(crate::job::Choice { pinned: with, ..choice }));
        }
    };
    let placement = app
        .read()
        .file()
        .and_then(|file| file.choice.as_ref().map(|choice| choice.placement));
    let places = [
        (Placement::BesidePrimary, "beside", "ui-place-beside"),
        (Placement::FarEnd, "far", "ui-place-far"),
        (Placement::OverPrimary, "over", "ui-place-over"),
    ];
    let chosen = places
        .iter()
        .find(|(of, _, _)| Some(*of) == placement)
        .map_or("beside", |(_, word, _)| word);
    let options = places
        .iter()
        .map(|(_, w, l)| ((*w).to_owned(), say(l)))
        .collect::<Vec<_>>();
    rsx! {
        div { class: "pins",
            for path in ["choice.turns", "choice.parallel", "choice.ground_mm", "choice.interlayer_mm"] {
                NumberField { key: "{path}", path }
            }
            Choices {
                label: say("ui-place"),
                options,
                chosen,
                onchoose: move |word: String| {
                    let choice = app.read().file().and_then(|file| file.choice.clone());
                    let Some(choice) = choice else { return };
                    let place = places.iter().find(|(_, of, _)| *of == word);
                    if let Some((placement, _, _)) = place {
                        app.write().choose(Some(crate::job::Choice { placement: *placement, ..choice }));
                    }
                },
            }
            Switch { label: say("ui-hold-turns"), on: pinned.turns, onswitch: move |on| pin(Pinned { turns: on, ..pinned }) }
            Switch { label: say("ui-hold-conductor"), on: pinned.conductor, onswitch: move |on| pin(Pinned { conductor: on, ..pinned }) }
            Switch { label: say("ui-hold-parallel"), on: pinned.parallel, onswitch: move |on| pin(Pinned { parallel: on, ..pinned }) }
            p { class: "hint", {say("ui-hold-help")} }
        }
    }
}
