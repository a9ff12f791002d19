//! What the core is to become.

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, Switch};
use super::super::desk::Desk;
use super::super::shelf::use_label;
use crate::job::{Goal, User, fields};

/// Uses offered.
const USES: &[&str] = &[
    "spot_welder",
    "stick_welder",
    "arc_furnace",
    "plasma_cutter",
    "battery_charger",
    "plain_supply",
    "choke",
    "ballast",
];

/// The form.
#[component]
pub fn GoalForm() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let Some(goal) = desk.read().file().map(|file| file.goal) else {
        return rsx! {};
    };
    let options = USES
        .iter()
        .map(|word| ((*word).to_owned(), use_label(word)))
        .collect::<Vec<_>>();
    let word = goal.word();
    let paths: Vec<&'static str> = fields::ALL
        .iter()
        .filter(|f| f.only_for == Some(word))
        .map(|f| f.path)
        .collect();
    rsx! {
        section {
            h2 { "What it is to become" }
            Choices {
                label: "Use",
                options,
                chosen: word.to_owned(),
                onchoose: move |word: String| desk.write().choose_use(&word),
            }
            for path in paths { NumberField { key: "{word}-{path}", path } }
            match goal {
                Goal::StickWelder { .. } => rsx! { Welder {} },
                Goal::PlasmaCutter { .. } => rsx! { Plasma {} },
                _ => rsx! {},
            }
        }
    }
}

#[component]
fn Welder() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let Some(Goal::StickWelder {
        arc_current_a,
        duty,
        user,
        wet_or_cramped,
    }) = desk.read().file().map(|file| file.goal)
    else {
        return rsx! {};
    };
    let with = move |user, wet_or_cramped| Goal::StickWelder {
        arc_current_a,
        duty,
        user,
        wet_or_cramped,
    };
    rsx! {
        Switch {
            label: "Only people trained in arc welding use it",
            on: user == User::Trained,
            onswitch: move |on| {
                let user = if on { User::Trained } else { User::Layman };
                desk.write().set_goal("Change who welds", with(user, wet_or_cramped));
            },
        }
        Switch {
            label: "Wet, cramped or hot place",
            on: wet_or_cramped,
            onswitch: move |on| desk.write().set_goal("Change the place", with(user, on)),
        }
        p { class: "hint", "The open-circuit limit follows: 80 V r.m.s. for trained people, 48 V for anyone else or where shock is likelier. IEC 60974-1, from secondary sources; the number of IEC 60974-6 for laymen was not found. Your local code decides." }
    }
}

#[component]
fn Plasma() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let Some(goal) = desk.read().file().map(|file| file.goal) else {
        return rsx! {};
    };
    let Goal::PlasmaCutter {
        cut_current_a,
        arc_volts,
        open_circuit_volts,
        duty,
        confirmed,
    } = goal
    else {
        return rsx! {};
    };
    rsx! {
        p { class: "danger", "Hundreds of volts, far beyond touch limits: one touch of torch and work can kill. Stop unless someone licensed oversees the build, the torch is interlocked and the case is earthed." }
        Switch {
            label: "I have read this and the build is overseen",
            on: confirmed,
            onswitch: move |on| desk.write().set_goal(
                "Confirm the plasma warning",
                Goal::PlasmaCutter { cut_current_a, arc_volts, open_circuit_volts, duty, confirmed: on },
            ),
        }
    }
}
