//! Rewind: the use and its targets, the windings found, and one winding in full.

mod behaviour;
mod bench_page;
mod design;
mod goal;
mod ranked;
mod supply;

pub use bench_page::BenchPage;

use dioxus::prelude::*;

use super::desk::{Desk, Screen};
use super::words::say;
use crate::app::listing::headline;

/// The screen.
#[component]
pub fn Rewind() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let best = {
        let desk = desk.read();
        match desk.answer() {
            Some(Ok(answer)) => headline(answer, desk.awg()),
            _ => None,
        }
    };
    // A choke or a ballast has no list: one wire is the right one.
    let winding = !matches!(desk.read().answer(), Some(Ok(answer)) if answer.goal.is_none());
    rsx! {
        if let Some(best) = best { p { class: "headline", "{best}" } }
        div { class: "columns",
            div { class: "form",
                goal::GoalForm {}
                button { class: "quiet wide", onclick: move |_| desk.write().go(Screen::Compare), {say("ui-compare")} }
                if winding { ranked::Ranked {} }
            }
            div { class: "look",
                design::DesignView {}
                supply::Supply {}
                behaviour::InductorView {}
                behaviour::Behaviour {}
            }
        }
    }
}
