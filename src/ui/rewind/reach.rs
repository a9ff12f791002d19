//! What it would take where the target is beyond the core: each a card that sets it.

use dioxus::prelude::*;

use super::super::background::run_in_background;
use super::super::state::AppState;
use super::super::words::{say, say_with};
use super::two_cores::{name_of_another, spares};
use crate::app::reach::{Reach, Spare, Step, what_it_takes};
use crate::job::{Goal, JobFile, Joining};
use crate::quantity::format_significant;
use crate::text::Arg;

/// A step, in words.
fn step_text(step: &Step, goal: &Goal) -> String {
    match step {
        Step::Nearest(current) => {
            let amps = format_significant(current.si(), 3);
            say_with("ui-reach-nearest", &[("amps", Arg::Text(&amps))])
        }
        Step::Pair(pair) => {
            let key = match pair.windings {
                Joining::Series => "ui-reach-series",
                Joining::Parallel => "ui-reach-parallel",
            };
            say_with(key, &[("name", Arg::Text(&pair.name))])
        }
        Step::Outlet(outlet) => say_with("ui-reach-outlet", &[("outlet", Arg::Text(outlet.label))]),
        Step::Fan => say("ui-reach-fan"),
        Step::Duty(duty) => match goal {
            Goal::SpotWelder { .. } => {
                let pulses = format_significant(*duty, 2);
                say_with("ui-reach-pulses", &[("pulses", Arg::Text(&pulses))])
            }
            _ => {
                let percent = format_significant(duty * 100.0, 2);
                say_with("ui-reach-duty", &[("percent", Arg::Text(&percent))])
            }
        },
        Step::Joined(_) | Step::OneCore => String::new(),
    }
}

/// The cards; computed beside the screen.
#[component]
pub fn WhatItTakes() -> Element {
    let app = use_context::<Signal<AppState>>();
    let Some(file) = app.read().file().cloned() else {
        return rsx! {};
    };
    let (on_shelf, _) = spares(&app.read());
    let another = name_of_another(&file.name);
    let key = format!("{:?}", (&file.goal, &file.mains, &file.conditions, on_shelf.len()));
    rsx! { Computed { key: "{key}", file, on_shelf, another } }
}

#[component]
fn Computed(file: JobFile, on_shelf: Vec<Spare>, another: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let goal = file.goal;
    let found = use_resource(move || {
        let (file, on_shelf, another) = (file.clone(), on_shelf.clone(), another.clone());
        async move { run_in_background(move || what_it_takes(&file, &on_shelf, &another)).await }
    });
    let found = found.read();
    let Some(found) = found.as_ref() else {
        return rsx! { p { class: "busy", role: "status", {say("ui-reach-busy")} } };
    };
    let list: Vec<Reach> = found.clone().unwrap_or_default();
    rsx! {
        if !list.is_empty() {
            h3 { {say("ui-reach")} }
            ul { class: "ranked",
                for (at, reach) in list.into_iter().enumerate() {
                    li { key: "{at}",
                        button {
                            class: "winding-card",
                            onclick: {
                                let steps = reach.steps.clone();
                                move |_| app.write().take_steps(&steps)
                            },
                            strong { {reach.steps.iter().map(|step| step_text(step, &goal)).collect::<Vec<_>>().join("; ")} }
                            span { class: "facts", {gives(&reach)} }
                        }
                    }
                }
            }
        }
    }
}

fn gives(reach: &Reach) -> String {
    let amps = format_significant(reach.gives.si(), 3);
    let key = match (reach.steps.first(), reach.reaches) {
        (Some(Step::Nearest(_)), _) => "ui-reach-gives-now",
        (_, true) => "ui-reach-gives",
        (_, false) => "ui-reach-gives-less",
    };
    say_with(key, &[("amps", Arg::Text(&amps))])
}
