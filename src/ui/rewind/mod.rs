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

use super::state::AppState;

/// The screen.
#[component]
pub fn Rewind() -> Element {
    let app = use_context::<Signal<AppState>>();
    // A choke or a ballast has no list: one wire is the right one.
    let winding = !matches!(app.read().answer(), Some(Ok(answer)) if answer.goal.is_none());
    rsx! {
        answer::AnswerCard {}
        div { class: "columns rewind",
            div { class: "form",
                goal::GoalForm {}
                two_cores::TwoCores {}
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
