//! The shelf: the person's jobs and wires, and the ways to start a job.

mod donors;
mod wires;

use dioxus::prelude::*;

use super::controls::{Choices, Unreadable, or_why};
use super::state::{AppState, Screen};
use super::words::{say, say_with};
use crate::app::workspace::{Workspace, outlet_of};
use crate::magnetics::circuit::mains::OUTLETS;
use crate::store::{JobSummary, Setting};
use crate::text::Arg;

/// The list of jobs.
#[component]
pub fn Shelf() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (listed, unread) = {
        let app = app.read();
        let row = |job: &JobSummary| (job.id, job.name.clone(), use_label(&job.goal_use));
        or_why(
            app.jobs()
                .map(|(jobs, count)| (jobs.iter().map(row).collect::<Vec<_>>(), count)),
        )
    };
    let (rows, count) = listed;
    let searching = !app.read().wanted().is_empty();
    let rows_empty = rows.is_empty();
    let more = !searching && (rows.len() as u32) < count;
    rsx! {
        if rows.is_empty() && !searching && unread.is_none() {
            section { class: "welcome",
                h2 { {say("ui-welcome")} }
                p { {say("ui-welcome-what")} }
                p { class: "danger", {say("ui-welcome-danger")} }
            }
        }
        Differ {}
        donors::Donors {}
        NewJob {}
        if !rows.is_empty() || searching || unread.is_some() {
            section {
                h2 { {say("ui-jobs")} }
                Unreadable { why: unread }
                Search {}
                ul { class: "jobs",
                    for (id, name, goal) in rows {
                        li { key: "{id}",
                            button { class: "job", onclick: move |_| app.write().open_job(id, Screen::Measure),
                                strong { "{name}" }
                                span { "{goal}" }
                            }
                            button { class: "quiet", aria_label: "{say(\"ui-remove\")} {name}", onclick: move |_| app.write().remove_job(id), {say("ui-remove")} }
                        }
                    }
                }
                if more {
                    button { class: "quiet wide", onclick: move |_| app.write().list_more(), {say("ui-more-jobs")} }
                }
            }
        }
        if !rows_empty {
            section {
                h2 { {say("ui-compare")} }
                p { class: "soft", {say("ui-compare-what")} }
                button { class: "second wide", onclick: move |_| app.write().go(Screen::Compare), {say("ui-compare")} }
            }
        }
        wires::Wires {}
        section {
            h2 { {say("ui-sync")} }
            p { class: "soft", {say("ui-sync-what")} }
            button { class: "second wide", onclick: move |_| app.write().go(Screen::Sync), {say("ui-sync-open")} }
        }
        section {
            button { class: "second wide", onclick: move |_| app.write().go(Screen::Glossary), {say("glossary-open")} }
        }
        Settings {}
    }
}

/// Where two devices disagree, it is said first.
#[component]
fn Differ() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (count, unread) = or_why(app.read().query(Workspace::conflict_count));
    if count == 0 {
        return rsx! { Unreadable { why: unread } };
    }
    rsx! {
        button { class: "second wide differ", onclick: move |_| app.write().go(Screen::Sync),
            {say_with("ui-conflicts-wait", &[("count", Arg::Number(f64::from(count)))])}
        }
    }
}

/// Finds a job by its words, where there are too many to look through.
#[component]
fn Search() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let wanted = app.read().wanted().to_owned();
    let count = app.read().jobs().map_or(0, |(_, count)| count);
    if count < 6 && wanted.is_empty() {
        return rsx! {};
    }
    rsx! {
        div { class: "field",
            label { r#for: "find-job", {say("ui-find-job")} }
            input {
                id: "find-job", class: "value long", r#type: "search", autocomplete: "off", initial_value: "{wanted}",
                onchange: move |event| app.write().want(&event.value()),
            }
        }
    }
}

#[component]
fn NewJob() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut name = use_signal(String::new);
    let mut outlet = use_signal(|| app.peek().outlet().word.to_owned());
    let (has_demo, unread) = or_why(app.read().has_demo());
    rsx! {
        section { class: "new-job",
            h2 { {say("ui-start")} }
            div { class: "field",
                label { r#for: "job-name", {say("ui-job-name")} }
                input {
                    id: "job-name",
                    class: "value long",
                    autocomplete: "off",
                    initial_value: "",
                    placeholder: say("ui-job-name-such-as"),
                    onchange: move |event| name.set(event.value()),
                }
            }
            div { class: "field",
                label { r#for: "job-outlet", {say("ui-job-outlet")} }
                select { id: "job-outlet", class: "long", onchange: move |event| outlet.set(event.value()),
                    for row in OUTLETS {
                        option { value: row.word, selected: *outlet.read() == row.word, "{row.label}" }
                    }
                }
            }
            div { class: "row",
                button {
                    class: "main",
                    onclick: move |_| {
                        let typed = name.read().trim().to_owned();
                        let named = if typed.is_empty() { say("ui-new-job") } else { typed };
                        app.write().start_job(&named, outlet_of(&outlet.read()));
                    },
                    {say("ui-start-a-job")}
                }
                if has_demo {
                    button { class: "second", onclick: move |_| app.write().remove_demo(), {say("ui-remove-demo")} }
                } else {
                    button { class: "second", onclick: move |_| app.write().open_demo(), {say("ui-open-demo")} }
                }
            }
            Unreadable { why: unread }
        }
    }
}

#[component]
fn Settings() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let pick = |rows: &[(&str, &str)]| {
        rows.iter()
            .map(|(word, label)| ((*word).to_owned(), say(label)))
            .collect::<Vec<_>>()
    };
    let (_, unread) = or_why(app.read().query(|data| data.setting(Setting::LengthUnit)));
    let (length, wire, theme) = {
        let app = app.read();
        let length = if app.unit() == crate::quantity::LengthUnit::Inch {
            "inch"
        } else {
            "mm"
        };
        (
            length.to_owned(),
            if app.awg() { "awg" } else { "mm2" }.to_owned(),
            app.theme(),
        )
    };
    rsx! {
        section { class: "settings",
            h2 { {say("ui-settings")} }
            Unreadable { why: unread }
            Choices {
                label: say("ui-set-lengths"), options: pick(&[("mm", "ui-set-mm"), ("inch", "ui-set-inch")]), chosen: length,
                onchoose: move |word: String| app.write().set(Setting::LengthUnit, &word),
            }
            Choices {
                label: say("ui-set-wire"), options: pick(&[("mm2", "ui-set-mm2"), ("awg", "ui-set-awg")]), chosen: wire,
                onchoose: move |word: String| app.write().set(Setting::WireUnit, &word),
            }
            Choices {
                label: say("ui-set-light"), options: pick(&[("auto", "ui-set-auto"), ("light", "ui-set-day"), ("dark", "ui-set-night")]), chosen: theme,
                onchoose: move |word: String| app.write().set(Setting::Theme, &word),
            }
        }
    }
}

/// What a person reads of a use.
pub fn use_label(word: &str) -> String {
    say(&format!("use-{}", word.replace('_', "-")))
}
