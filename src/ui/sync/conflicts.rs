//! Conflicts: two values of one field side by side, of which the person chooses one.

use dioxus::prelude::*;

use super::super::desk::Desk;
use super::super::words::{say, say_with};
use crate::app::sync::{fork_label, side_text};
use crate::merge::{Device, Kind};
use crate::store::Conflict;
use crate::text::Arg;

/// The field's label.
fn label(fork: &Conflict) -> String {
    let key = match (fork.kind, fork.field.as_str()) {
        (_, "name") => "ui-fork-name",
        (_, "note" | "notes" | "text") => "ui-fork-note",
        (_, "goal") => "ui-fork-goal",
        (_, "choice") => "ui-fork-choice",
        (_, "marks") => "ui-fork-marks",
        (Kind::Job, "breaker_a") => "ui-fork-breaker",
        (_, field) if field.starts_with("conditions.") => "ui-fork-conditions",
        (_, field) if field.starts_with("look.") => "ui-fork-look",
        _ => return fork_label(fork),
    };
    say(key)
}

/// Another device, by its name or the start of its number.
fn there(device: &str) -> String {
    match device.parse::<Device>() {
        Ok(_) => say_with("ui-fork-unnamed", &[("number", Arg::Text(&device[..4]))]),
        Err(_) => device.to_owned(),
    }
}

/// The list of conflicts.
#[component]
pub fn Conflicts() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let forks = desk.read().conflicts();
    if forks.is_empty() {
        return rsx! {};
    }
    rsx! {
        section { class: "forks",
            h2 { {say("ui-forks")} }
            p { {say("ui-forks-help")} }
            for fork in forks {
                div { key: "{fork.id}{fork.field}", class: "fork",
                    h3 { {label(&fork)} if !fork.name.is_empty() { ": " bdi { "{fork.name}" } } }
                    div { class: "sides",
                        for (at, side) in fork.sides.iter().enumerate() {
                            button {
                                class: "second side",
                                onclick: {
                                    let (kind, id, field) = (fork.kind, fork.id, fork.field.clone());
                                    move |_| desk.write().settle(kind, id, &field, at)
                                },
                                span { class: "soft", {
                                    if side.is_own { say("ui-fork-here") } else { there(&side.device) }
                                } }
                                strong { bdi {
                                    {match side_text(&fork, side) {
                                        text if text.is_empty() => say("ui-fork-empty"),
                                        text => text,
                                    }}
                                } }
                                if at + 1 == fork.sides.len() {
                                    span { class: "soft", {say("ui-fork-shown")} }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
