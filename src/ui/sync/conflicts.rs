//! Conflicts: two values of one field side by side, of which the person chooses one.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::{AppState, Screen};
use super::super::words::{say, say_with, with_texts};
use crate::app::sync::{ValueLabel, ValueRow, ValueText, fork_label, side_rows};
use crate::quantity::LengthUnit;
use crate::report::conflicts;
use crate::store::Conflict;
use crate::text::Arg;

/// The label before a value; empty where the value is all that differs.
fn label(of: &ValueLabel) -> String {
    with_texts(|texts| conflicts::label(of, texts))
}

fn value(of: &ValueText) -> String {
    with_texts(|texts| conflicts::value(of, texts))
}

/// A whole value in one line.
fn in_line(rows: &[ValueRow]) -> String {
    with_texts(|texts| conflicts::in_line(rows, texts))
}

/// What differs, and in which oven, core or job.
fn title(conflict: &Conflict, name: &str) -> String {
    let what = label(&fork_label(conflict));
    if name.is_empty() {
        return what;
    }
    let args = [("what", Arg::Text(&what)), ("name", Arg::Text(name))];
    say_with("ui-conflict-where", &args)
}

/// Records whose conflicts are shown at a time.
const SHOWN: u32 = 100;

/// The list of conflicts.
#[component]
pub fn Conflicts() -> Element {
    let app = use_context::<Signal<AppState>>();
    let (found, unread) = or_why(app.read().query(|data| data.named_conflicts(SHOWN)));
    if found.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    let unit = app.read().unit();
    rsx! {
        section { class: "conflicts",
            h2 { {say("ui-conflicts")} }
            p { {say("ui-conflicts-help")} }
            for (name, conflict) in found {
                div { key: "{conflict.id}{conflict.field}", class: "conflict",
                    h3 { bdi { {title(&conflict, &name)} } }
                    div { class: "sides",
                        for at in 0..conflict.sides.len() {
                            SideView { conflict: conflict.clone(), at, unit }
                        }
                    }
                }
            }
        }
    }
}

/// One of the values, as the button that chooses it.
#[component]
fn SideView(conflict: Conflict, at: usize, unit: LengthUnit) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let side = &conflict.sides[at];
    let rows = side_rows(&conflict, side, unit);
    let chosen = format!("{}: {}", label(&fork_label(&conflict)), in_line(&rows));
    let in_use = at + 1 == conflict.sides.len();
    let from = with_texts(|texts| conflicts::device(side, texts));
    rsx! {
        button {
            class: "second side",
            onclick: move |_| {
                app.write().settle(conflict.kind, conflict.id, &conflict.field, at);
                if app.peek().notice().is_none() && app.peek().asked().is_none() {
                    app.write().tell(say_with("ui-conflict-settled", &[("what", Arg::Text(&chosen))]));
                }
            },
            span { class: "soft", bdi { "{from}" } }
            if rows.is_empty() { strong { {say("ui-conflict-empty")} } }
            for (of, text) in rows {
                span { key: "{label(&of)}{value(&text)}", class: "side-row",
                    if of != ValueLabel::None { span { class: "soft", {label(&of)} " " } }
                    strong { bdi { {value(&text)} } }
                }
            }
            if in_use { span { class: "in-use", {say("ui-conflict-shown")} } }
        }
    }
}

/// Where values of what is in hand differ between devices: which, and which value is in use. On every screen of
/// the job, until they are settled.
#[component]
pub fn ConflictsHere() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (found, unread) = {
        let app = app.read();
        or_why(app.query(|data| data.conflicts_of(app.job_id(), app.donor_id())))
    };
    if found.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    let unit = app.read().unit();
    let lines = with_texts(|texts| conflicts::unsettled(&found, unit, texts));
    rsx! {
        section { class: "caution conflicts-here",
            p { strong { {say("ui-conflicts-here")} } }
            ul { for line in lines { li { key: "{line}", bdi { "{line}" } } } }
            button { class: "second", onclick: move |_| app.write().go(Screen::Sync), {say("ui-conflicts-choose")} }
        }
    }
}
