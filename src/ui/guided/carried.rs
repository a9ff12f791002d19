//! What was done on other devices: a record, and nothing that opens a gate.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::{AppState, Screen};
use super::super::words::{say, say_with};
use crate::app::sync::story;
use crate::app::wind::procedure_of;
use crate::store::JobProcedure;
use crate::text::Arg;

/// The records from other devices of the donor's teardown, or of the job's tests.
#[component]
pub fn FromElsewhere() -> Element {
    let app = use_context::<Signal<AppState>>();
    let (carried, unread) = {
        let app = app.read();
        or_why(match app.screen() {
            Screen::Teardown => app.remote_teardowns(),
            Screen::Wind => app.remote_job_runs(procedure_of(app.wound_core())),
            _ => app.remote_job_runs(JobProcedure::Bench),
        })
    };
    if carried.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    rsx! {
        section { class: "elsewhere",
            h2 { {say("ui-carried")} }
            p { {say("ui-carried-help")} }
            for record in carried {
                details {
                    summary { bdi { {say_with("ui-carried-by", &[
                        ("name", Arg::Text(&record.device_name)),
                        ("count", Arg::Number(record.lines.len() as f64)),
                    ])} } }
                    ol { for (time, what) in story(&record) { li { span { class: "soft", "{time} " } "{what}" } } }
                }
            }
        }
    }
}
