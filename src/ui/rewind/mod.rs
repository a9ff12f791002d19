//! Rewind: the use and its targets, the windings found, and one winding in full.

mod behaviour;
mod bench_page;
mod design;
mod goal;
mod ranked;
mod reach;
mod supply;
mod two_cores;

pub use bench_page::BenchPage;

use dioxus::prelude::*;

use super::state::{AppState, Screen};
use super::words::{say, tell};
use crate::app::listing::headline;

/// The screen.
#[component]
pub fn Rewind() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let best = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => headline(answer, app.awg()),
            _ => None,
        }
    };
    // A choke or a ballast has no list: one wire is the right one.
    let winding = !matches!(app.read().answer(), Some(Ok(answer)) if answer.goal.is_none());
    rsx! {
        if let Some(best) = best { p { class: "headline", {tell(&best)} } }
        div { class: "columns",
            div { class: "form",
                goal::GoalForm {}
                two_cores::TwoCores {}
                button { class: "quiet wide", onclick: move |_| app.write().go(Screen::Compare), {say("ui-compare")} }
                if winding { ranked::Ranked {} }
            }
            div { class: "look",
                design::DesignView {}
                behaviour::InductorView {}
                supply::Supply {}
                behaviour::Behaviour {}
            }
        }
    }
}
