//! Conflicts: two values of one field side by side, of which the person chooses one.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::{say, say_with};
use crate::app::sync::{fork_label, side_text};
use crate::merge::{Device, Kind};
use crate::store::Conflict;
use crate::text::Arg;

/// The field's label.
fn label(conflict: &Conflict) -> String {
    let key = match (conflict.kind, conflict.field.as_str()) {
        (_, "name") => "ui-conflict-name",
        (_, "note" | "notes" | "text") => "ui-conflict-note",
        (_, "goal") => "ui-conflict-goal",
        (_, "choice") => "ui-conflict-choice",
        (_, "marks") => "ui-conflict-marks",
        (Kind::Job, "breaker_a") => "ui-conflict-breaker",
        (_, field) if field.starts_with("conditions.") => "ui-conflict-conditions",
        (_, field) if field.starts_with("look.") => "ui-conflict-look",
        _ => return fork_label(conflict),
    };
    say(key)
}

/// Another device, by its name or the start of its number.
fn there(device: &str) -> String {
    match device.parse::<Device>() {
        Ok(_) => say_with("ui-conflict-unnamed", &[("number", Arg::Text(&device[..4]))]),
        Err(_) => device.to_owned(),
    }
}

/// Records whose conflicts are shown at a time.
const SHOWN: u32 = 100;

/// The list of conflicts.
#[component]
pub fn Conflicts() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (conflicts, unread) = or_why(app.read().query(|data| data.conflicts(SHOWN)));
    if conflicts.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    rsx! {
        section { class: "conflicts",
            h2 { {say("ui-conflicts")} }
            p { {say("ui-conflicts-help")} }
            for conflict in conflicts {
                div { key: "{conflict.id}{conflict.field}", class: "conflict",
                    h3 { {label(&conflict)} if !conflict.name.is_empty() { ": " bdi { "{conflict.name}" } } }
                    div { class: "sides",
                        for (at, side) in conflict.sides.iter().enumerate() {
                            button {
                                class: "second side",
                                onclick: {
                                    let (kind, id, field) = (conflict.kind, conflict.id, conflict.field.clone());
                                    move |_| app.write().settle(kind, id, &field, at)
                                },
                                span { class: "soft", {
                                    if side.is_own { say("ui-conflict-here") } else { there(&side.device) }
                                } }
                                strong { bdi {
                                    {match side_text(&conflict, side) {
                                        text if text.is_empty() => say("ui-conflict-empty"),
                                        text => text,
                                    }}
                                } }
                                if at + 1 == conflict.sides.len() {
                                    span { class: "soft", {say("ui-conflict-shown")} }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
