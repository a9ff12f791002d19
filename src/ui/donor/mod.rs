//! The page of what is in hand: its photo, its six stages, the next step; and the path of the stages that every
//! screen of a job begins with.

use dioxus::prelude::*;

use super::controls::{KeptPhotos, Unreadable, or_why};
use super::state::{AppState, Screen, screen_of};
use super::sync::ConflictsHere;
use super::words::{say, say_with};
use crate::app::next_step::{Next, Standing, Station};
use crate::job::JobId;
use crate::text::Arg;

/// The page.
#[component]
pub fn DonorPage() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (way, (jobs, unread), here) = {
        let app = app.read();
        (app.way(), or_why(app.jobs_of_donor()), app.job_id())
    };
    let mut sure = use_signal(|| false);
    let others: Vec<(JobId, String)> = jobs.into_iter().filter(|(id, _)| Some(*id) != here).collect();
    rsx! {
        match way {
            Some((next, stations)) => rsx! {
                div { class: "columns",
                    section { class: "next-thing",
                        h2 { {say("way-next")} }
                        p { class: "do", {sentence(next)} }
                        button { class: "main wide", onclick: move |_| app.write().go_on(next), {go_text(next)} }
                        if here.is_some() && next != Next::Proved {
                            button { class: "second wide", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
                        }
                    }
                    WayOf { stations: stations.to_vec() }
                }
            },
            None => rsx! { p { class: "stop", role: "alert", {say("ui-stands-damaged")} } },
        }
        ConflictsHere {}
        Unreadable { why: unread }
        if !others.is_empty() {
            section {
                h2 { {say("way-other-jobs")} }
                ul { class: "jobs",
                    for (id, name) in others {
                        li { key: "{id}",
                            button { class: "job", onclick: move |_| app.write().open_job(id, Screen::Donor), strong { "{name}" } }
                        }
                    }
                }
            }
        }
        KeptPhotos { what: "label" }
        section { class: "removal",
            if sure() {
                p { class: "caution", {say("ui-remove-sure")} }
                div { class: "row",
                    button { class: "main", onclick: move |_| sure.set(false), {say("ui-remove-not")} }
                    button { class: "second", onclick: move |_| app.write().remove_in_hand(), {say("ui-remove-yes")} }
                }
            } else {
                button { class: "quiet", onclick: move |_| sure.set(true), {say("ui-remove-in-hand")} }
            }
        }
    }
}

/// The stages, each a way to its screen.
#[component]
fn WayOf(stations: Vec<(Station, Standing)>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        section {
            h2 { {say("way-title")} }
            ol { class: "way",
                for (station, standing) in stations {
                    li {
                        key: "{screen_of(station).word()}",
                        class: word(standing),
                        button {
                            id: "way-{screen_of(station).word()}",
                            class: "station",
                            disabled: !app.read().has_stage(station),
                            onclick: move |_| app.write().go(screen_of(station)),
                            span { class: "mark", aria_hidden: "true", {mark(standing)} }
                            if let Some(drawn) = screen_of(station).icon() { span { class: "icon-of", dangerous_inner_html: crate::report::draw::icon(drawn) } }
                            strong { {say(screen_of(station).key())} }
                            span { class: "standing", {say(&format!("way-{}", word(standing)))} }
                        }
                    }
                }
            }
        }
    }
}

/// The stages in a row: done, next, open; below them the next step, where it is done elsewhere.
#[component]
pub fn StagePath() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (way, here) = {
        let app = app.read();
        (app.way(), app.screen())
    };
    let Some((next, stations)) = way else { return rsx! {} };
    let guided = matches!(
        here,
        Screen::SizeUp | Screen::Teardown | Screen::Wind | Screen::Bench | Screen::Page
    );
    rsx! {
        nav { class: "path", aria_label: say("way-title"),
            for (station, standing) in stations {
                button {
                    key: "{screen_of(station).word()}",
                    id: "stage-{screen_of(station).word()}",
                    class: if screen_of(station) == here { "{word(standing)} here-now" } else { "{word(standing)}" },
                    disabled: !app.read().has_stage(station),
                    aria_current: if screen_of(station) == here { "step" } else { "false" },
                    aria_label: say_with("way-stage", &[
                        ("stage", Arg::Text(&say(screen_of(station).key()))),
                        ("standing", Arg::Text(&say(&format!("way-{}", word(standing))))),
                    ]),
                    onclick: move |_| app.write().go(screen_of(station)),
                    span { class: "stage-sign",
                        if let Some(drawn) = screen_of(station).icon() { span { class: "icon-of", aria_hidden: "true", dangerous_inner_html: crate::report::draw::icon(drawn) } }
                        span { class: "mark", {mark(standing)} }
                    }
                    span { class: "stage-name", {say(screen_of(station).key())} }
                }
            }
        }
        ConflictsHere {}
        if screen_of(next.station()) == here || next == Next::Proved {
            if !guided { p { class: "next-line", strong { {say("way-next")} } " " {sentence(next)} } }
        } else {
            button { class: "next-line second wide", onclick: move |_| app.write().go_on(next),
                span { strong { {say("way-next")} } " " {sentence(next)} }
            }
        }
    }
}

fn sentence(next: Next) -> String {
    match next.place() {
        Some(place) => say_with(next.key(), &[("place", Arg::Text(&say(place)))]),
        None => say(next.key()),
    }
}

/// The next step as the words of a button.
pub fn go_text(next: Next) -> String {
    let key = format!("{}.go", next.key());
    match next.place() {
        Some(place) => say_with(&key, &[("place", Arg::Text(&say(place)))]),
        None => say(&key),
    }
}

/// The class of how a stage is, and the end of its text's id.
pub const fn word(standing: Standing) -> &'static str {
    match standing {
        Standing::Done => "done",
        Standing::Here => "here",
        Standing::ToCome => "to-come",
        Standing::NotRecorded => "not-recorded",
    }
}

/// The mark of how a stage is.
pub const fn mark(standing: Standing) -> &'static str {
    match standing {
        Standing::Done => "✓",
        Standing::Here => "▸",
        Standing::ToCome => "○",
        Standing::NotRecorded => "–",
    }
}
