//! The measures of the core, entered at the step that takes them.

use dioxus::prelude::*;

use super::super::controls::NumberField;
use super::super::state::AppState;
use super::super::words::say;

/// The core's own fields, as on the screen Measure; before there is a job, the way to start one.
#[component]
pub fn Measures() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let has_job = app.read().has_job();
    rsx! {
        section { class: "measures",
            h3 { {say("ui-measures")} }
            if has_job {
                for path in [
                    "core.tongue_mm", "core.stack_mm", "core.window_width_mm", "core.window_height_mm", "core.mass_kg",
                ] {
                    NumberField { key: "{path}", path }
                }
            } else {
                p { class: "hint", {say("ui-measures-job")} }
                button { class: "second wide", onclick: move |_| app.write().start_job_from_donor(), {say("ui-start-job")} }
            }
        }
    }
}
