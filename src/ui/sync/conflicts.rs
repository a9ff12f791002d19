//! Conflicts: two values of one field side by side, of which the person chooses one.

use dioxus::prelude::*;

use super::super::controls::{Unreadable, or_why};
use super::super::state::{AppState, Screen};
use super::super::words::{field_text, say, say_with};
use crate::app::sync::{ValueLabel, ValueRow, ValueText, fork_label, side_rows};
use crate::merge::Device;
use crate::quantity::LengthUnit;
use crate::store::{Conflict, Side};
use crate::text::Arg;

/// What a person reads before a value; nothing where the value is all that differs.
fn label(of: &ValueLabel) -> String {
    match of {
        ValueLabel::Field(field) => field_text(field, "label"),
        ValueLabel::Text(key) => say(key),
        ValueLabel::Key(key) => key.clone(),
        ValueLabel::None => String::new(),
    }
}

fn value(of: &ValueText) -> String {
    match of {
        ValueText::Shown(text) => text.clone(),
        ValueText::Text(key) => say(key),
    }
}

/// A whole value in one line.
fn in_line(rows: &[ValueRow]) -> String {
    if rows.is_empty() {
        return say("ui-conflict-empty");
    }
    let part = |(of, text): &ValueRow| match of {
        ValueLabel::None => value(text),
        of => format!("{} {}", label(of), value(text)),
    };
    rows.iter().map(part).collect::<Vec<_>>().join(", ")
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

/// A device, by its name or the start of its number.
fn device(side: &Side) -> String {
    if side.is_own {
        return say("ui-conflict-here");
    }
    match side.device.parse::<Device>() {
        Ok(_) => say_with("ui-conflict-unnamed", &[("number", Arg::Text(&side.device[..4]))]),
        Err(_) => side.device.clone(),
    }
}

/// Records whose conflicts are shown at a time.
const SHOWN: u32 = 100;

/// The list of conflicts.
#[component]
pub fn Conflicts() -> Element {
    let app = use_context::<Signal<AppState>>();
    let named = |data: &crate::app::workspace::Workspace| {
        let conflicts = data.conflicts(SHOWN)?.into_iter();
        let with_name = |conflict: Conflict| (data.name_in_conflict(&conflict), conflict);
        Ok::<_, crate::app::workspace::WorkspaceError>(conflicts.map(with_name).collect::<Vec<_>>())
    };
    let (conflicts, unread) = or_why(app.read().query(named));
    if conflicts.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    let unit = app.read().unit();
    rsx! {
        section { class: "conflicts",
            h2 { {say("ui-conflicts")} }
            p { {say("ui-conflicts-help")} }
            for (name, conflict) in conflicts {
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
    let from = device(side);
    rsx! {
        button {
            class: "second side",
            onclick: move |_| {
                app.write().settle(conflict.kind, conflict.id, &conflict.field, at);
                if app.peek().notice().is_none() {
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
    let (conflicts, unread) = {
        let app = app.read();
        or_why(app.query(|data| data.conflicts_of(app.job_id(), app.donor_id())))
    };
    if conflicts.is_empty() {
        return rsx! { Unreadable { why: unread } };
    }
    let unit = app.read().unit();
    let in_use = |conflict: &Conflict| {
        let side = conflict.sides.last();
        let what = label(&fork_label(conflict));
        let shown = side.map_or_else(String::new, |side| {
            format!("{} ({})", in_line(&side_rows(conflict, side, unit)), device(side))
        });
        say_with(
            "ui-conflict-in-use",
            &[("what", Arg::Text(&what)), ("value", Arg::Text(&shown))],
        )
    };
    let lines: Vec<String> = conflicts.iter().map(in_use).collect();
    rsx! {
        section { class: "caution conflicts-here",
            p { strong { {say("ui-conflicts-here")} } }
            ul { for line in lines { li { key: "{line}", bdi { "{line}" } } } }
            button { class: "second", onclick: move |_| app.write().go(Screen::Sync), {say("ui-conflicts-choose")} }
        }
    }
}
