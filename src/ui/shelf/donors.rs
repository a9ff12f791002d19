//! The donors on the shelf, each with where it stands, and the way to a new find.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::{AppState, DonorRow, Screen};
use super::super::words::{find_name, say, say_with};
use crate::job::DonorId;
use crate::teardown::{End, Phase, Step, Teardown};
use crate::text::Arg;

/// The list.
#[component]
pub fn Donors() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (rows, unread): (Vec<(DonorId, String, String)>, _) = {
        let app = app.read();
        let now = app.moment();
        let row = |(id, name, state): DonorRow| {
            let stands = match &state {
                Ok(state) => stands(state, state.step(now)),
                Err(_) => say("ui-stands-damaged"),
            };
            (id, name, stands)
        };
        or_why(app.donors().map(|donors| donors.into_iter().map(row).collect()))
    };
    rsx! {
        section { class: "donors",
            h2 { {say("ui-donors")} }
            Unreadable { why: unread }
            ul { class: "jobs",
                for (id, name, stands) in rows {
                    li { key: "{id}",
                        button { class: "job", onclick: move |_| app.write().open_donor(id, Screen::Donor),
                            strong { "{name}" }
                            span { "{stands}" }
                        }
                        button { class: "quiet", aria_label: "{name}: {say(\"ui-remove\")}", onclick: move |_| app.write().remove_donor(id), {say("ui-remove")} }
                    }
                }
            }
            button { class: "main wide", onclick: move |_| app.write().start_find(&find_name()), {say("ui-new-find")} }
        }
    }
}

/// Where a donor stands.
fn stands(state: &Teardown, here: Step) -> String {
    match state.phase() {
        Phase::Ended(End::Stored) => say("end-stored"),
        Phase::Ended(End::NoCore) => say("end-no-core"),
        Phase::Stopped { .. } => say("ui-stopped"),
        Phase::Working if state.history().is_empty() => say("ui-stands-find"),
        Phase::Working => say_with("ui-stands-step", &[("step", Arg::Text(&say(here.key())))]),
    }
}
