//! The donors on the shelf, each with where it stands, and the way to a new find.

use dioxus::prelude::*;

use super::super::desk::{Desk, Screen};
use super::super::words::{find_name, say, say_with};
use crate::job::DonorId;
use crate::teardown::{End, Phase, Step, Teardown};
use crate::text::Arg;

/// The list.
#[component]
pub fn Donors() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let rows: Vec<(DonorId, String, String, Screen)> = {
        let desk = desk.read();
        let now = desk.moment();
        let row = |(id, name, state): (DonorId, String, Result<Teardown, String>)| {
            let (stands, screen) = match &state {
                Ok(state) => stands(state, state.step(now)),
                Err(_) => (say("ui-stands-damaged"), Screen::Teardown),
            };
            (id, name, stands, screen)
        };
        desk.donors().into_iter().map(row).collect()
    };
    rsx! {
        section { class: "donors",
            h2 { {say("ui-donors")} }
            ul { class: "jobs",
                for (id, name, stands, screen) in rows {
                    li { key: "{id}",
                        button { class: "job", onclick: move |_| desk.write().open_donor(id, screen),
                            strong { "{name}" }
                            span { "{stands}" }
                        }
                        button { class: "quiet", aria_label: "{name}: {say(\"ui-remove\")}", onclick: move |_| desk.write().remove_donor(id), {say("ui-remove")} }
                    }
                }
            }
            button { class: "main wide", onclick: move |_| desk.write().start_find(&find_name()), {say("ui-new-find")} }
        }
    }
}

/// Where a donor stands, and the screen that its next step is on.
fn stands(state: &Teardown, here: Step) -> (String, Screen) {
    match state.phase() {
        Phase::Ended(End::Stored) => (say("end-stored"), Screen::Teardown),
        Phase::Ended(End::NoCore) => (say("end-no-core"), Screen::SizeUp),
        Phase::Stopped { .. } => (say("ui-stopped"), Screen::Teardown),
        Phase::Working if state.history().is_empty() => (say("ui-stands-find"), Screen::SizeUp),
        Phase::Working => (
            say_with("ui-stands-step", &[("step", Arg::Text(&say(here.key())))]),
            Screen::Teardown,
        ),
    }
}
