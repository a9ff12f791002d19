//! One winding in full: drawing, curve, warnings, numbers with their ±, pins.

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, Numbers, Switch};
use super::super::desk::{Desk, Screen};
use crate::app::listing::winding_title;
use crate::job::{Pinned, Placement};
use crate::report::draw::core_section;
use crate::report::{Shown, show, voltage_drawing, widened_by};
use crate::rewind::goal::Goal;
use crate::rewind::warnings::Warning;

/// Numbers shown at once; the others behind a fold.
const FIRST: &[&str] = &[
    "open_circuit",
    "working_current",
    "working_voltage",
    "short_circuit",
    "series_reactance",
    "mains_current",
    "spare",
];
const REST: &[&str] = &[
    "regulation",
    "volts_per_turn",
    "flux_density",
    "cold_resistance",
    "winding_resistance",
    "total_resistance",
    "leakage_reactance",
    "ac_factor",
    "winding_loss",
    "primary_loss",
    "mean_loss",
    "winding_density",
    "primary_density",
    "winding_steady_density",
    "primary_steady_density",
    "primary_current",
    "mains_steady_current",
    "mains_power",
    "load_power",
    "build",
    "mean_turn",
    "wire_length",
    "wire_mass",
    "fill_factor",
];

/// What is shown, taken out of the desk at once.
#[derive(Clone, PartialEq)]
struct View {
    title: String,
    chosen: bool,
    section: String,
    curve: String,
    broken: Vec<&'static str>,
    dangers: Vec<&'static str>,
    notes: Vec<&'static str>,
    first: Vec<(Shown, String)>,
    rest: Vec<(Shown, String)>,
    outlet: Option<&'static str>,
    pinned: Pinned,
}

fn view(desk: &Desk) -> Option<View> {
    let answer = desk.answer()?.ok()?;
    let design = answer.design.as_ref()?;
    let values = design.estimate.to_si();
    // A charger's reactor follows from its diodes' current: "Behind diodes" gives it.
    let charger = matches!(answer.goal, Some(Goal::BatteryCharger { .. }));
    let shown = |names: &[&str]| {
        names
            .iter()
            .filter(|name| !(charger && **name == "series_reactance"))
            .filter_map(|name| {
                let index = crate::magnetics::circuit::performance::Performance::FIELDS
                    .iter()
                    .position(|f| f == name)?;
                let wideners = design.wideners(name);
                Some((show(name, values[index])?.widened(&wideners), widened_by(&wideners)))
            })
            .collect()
    };
    let (dangers, notes): (Vec<Warning>, Vec<Warning>) =
        design.warnings.iter().partition(|warning| warning.is_danger());
    Some(View {
        title: winding_title(&design.candidate, &answer.catalogue, desk.awg()),
        chosen: design.chosen,
        section: core_section(
            &answer.problem.rebuild,
            Some((&design.candidate.winding, &design.candidate.layers)),
            desk.unit(),
        ),
        curve: voltage_drawing(design, answer),
        broken: design
            .candidate
            .broken
            .iter()
            .map(crate::rewind::limits::Limit::label)
            .collect(),
        dangers: dangers.iter().map(|w| w.text()).collect(),
        notes: notes.iter().map(|w| w.text()).collect(),
        first: shown(FIRST),
        rest: shown(REST),
        outlet: design.outlet.map(|outlet| outlet.label),
        pinned: desk
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
    let mut desk = use_context::<Signal<Desk>>();
    let view = view(&desk.read());
    let Some(view) = view else { return rsx! {} };
    rsx! {
        section { class: "design",
            h2 { "{view.title}" }
            p { class: "hint", if view.chosen { "Your choice." } else { "The best found; tap another to choose it." } }
            for text in &view.broken { p { class: "danger", role: "alert", "Stop: {text}." } }
            for text in &view.dangers { p { class: "danger", "{text}" } }
            figure { dangerous_inner_html: "{view.section}" }
            Numbers { rows: view.first.clone() }
            figure { dangerous_inner_html: "{view.curve}" }
            p { class: "hint", "Band: the terminal voltage with its uncertainty. Dot: the working point." }
            match view.outlet {
                Some(outlet) => rsx! { p { "Outlet: {outlet}, or more. Check your local code." } },
                None => rsx! { p { class: "danger", "No common outlet of this mains feeds it. Ask a licensed electrician." } },
            }
            for text in &view.notes { p { class: "hint", "{text}" } }
            details {
                summary { "Every number, and what widens it" }
                Numbers { rows: view.rest.clone() }
            }
            if view.chosen { Pins { pinned: view.pinned } }
            Kept { title: view.title.clone() }
            div { class: "row",
                if view.chosen {
                    button { class: "second", onclick: move |_| desk.write().choose_winding(None), "Back to the best" }
                }
                button { class: "main", onclick: move |_| desk.write().go(Screen::Page), "Page for the bench" }
            }
        }
    }
}

/// Windings kept beside the job, to go back to.
#[component]
fn Kept(title: String) -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let kept = desk.read().kept();
    rsx! {
        div { class: "row",
            button { class: "second", onclick: move |_| desk.write().keep(&title), "Keep this winding for comparison" }
        }
        ul { class: "jobs",
            for (id, name, choice) in kept {
                li { key: "{id}",
                    button { class: "job", onclick: move |_| desk.write().choose_winding(Some(choice.clone())),
                        strong { "{name}" }
                        span { "Kept: tap to choose it" }
                    }
                    button { class: "quiet", aria_label: "Let go of {name}", onclick: move |_| desk.write().let_go(id), "Remove" }
                }
            }
        }
    }
}

/// Turns, wires and insulation of the chosen winding, and what the search must leave alone.
#[component]
fn Pins(pinned: Pinned) -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let mut pin = move |with: Pinned| {
        let choice = desk.read().file().and_then(|file| file.choice.clone());
        if let Some(choice) = choice {
            desk.write().choose(Some(crate::job::Choice { pinned: with, ..choice }));
        }
    };
    let placement = desk
        .read()
        .file()
        .and_then(|file| file.choice.as_ref().map(|choice| choice.placement));
    let places = [("beside", "Beside the primary"), ("over", "Over the primary")];
    let options = places
        .iter()
        .map(|(w, l)| ((*w).to_owned(), (*l).to_owned()))
        .collect::<Vec<_>>();
    rsx! {
        details { open: true,
            summary { "Change it, or hold a part of it" }
            for path in ["choice.turns", "choice.parallel", "choice.ground_mm", "choice.interlayer_mm"] {
                NumberField { key: "{path}", path }
            }
            Choices {
                label: "Where the winding lies",
                options,
                chosen: if placement == Some(Placement::OverPrimary) { "over" } else { "beside" },
                onchoose: move |word: String| {
                    let choice = desk.read().file().and_then(|file| file.choice.clone());
                    let Some(choice) = choice else { return };
                    let placement = if word == "over" { Placement::OverPrimary } else { Placement::BesidePrimary };
                    desk.write().choose_winding(Some(crate::job::Choice { placement, ..choice }));
                },
            }
            Switch { label: "Hold the turns", on: pinned.turns, onswitch: move |on| pin(Pinned { turns: on, ..pinned }) }
            Switch { label: "Hold the conductor", on: pinned.conductor, onswitch: move |on| pin(Pinned { conductor: on, ..pinned }) }
            Switch { label: "Hold the number in parallel", on: pinned.parallel, onswitch: move |on| pin(Pinned { parallel: on, ..pinned }) }
            p { class: "hint", "The list then shows only windings that keep what you hold." }
        }
    }
}
