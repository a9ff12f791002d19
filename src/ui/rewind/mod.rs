//! Rewind: the use and its targets, the windings found, and one winding in full.

mod answer;
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
use super::words::say;

/// The screen.
#[component]
pub fn Rewind() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    // A choke or a ballast has no list: one wire is the right one.
    let winding = !matches!(app.read().answer(), Some(Ok(answer)) if answer.goal.is_none());
    rsx! {
        answer::AnswerCard {}
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
