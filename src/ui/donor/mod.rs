//! A donor's page: its photo, where its job stands on the way, and the one next thing to do.

use dioxus::prelude::*;

use super::controls::{KeptPhotos, Unreadable, or_why};
use super::state::{AppState, screen_of};
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
    let others: Vec<(JobId, String)> = jobs.into_iter().filter(|(id, _)| Some(*id) != here).collect();
    rsx! {
        match way {
            Some((next, stations)) => rsx! {
                div { class: "columns",
                section { class: "next-thing",
                    h2 { {say("way-next")} }
                    p { class: "do", {sentence(next)} }
                    if next != Next::Proved {
                        button { class: "main wide", onclick: move |_| app.write().go_on(next), {say("way-go")} }
                    }
                }
                WayOf { stations: stations.to_vec() }
                }
            },
            None => rsx! { p { class: "danger", role: "alert", {say("ui-stands-damaged")} } },
        }
        Unreadable { why: unread }
        if !others.is_empty() {
            section {
                h2 { {say("way-other-jobs")} }
                ul { class: "jobs",
                    for (id, name) in others {
                        li { key: "{id}",
                            button { class: "job", onclick: move |_| app.write().open_job(id, super::state::Screen::Donor), strong { "{name}" } }
                        }
                    }
                }
            }
        }
        KeptPhotos { what: "label" }
    }
}

/// The stations, each a way to its screen.
#[component]
fn WayOf(stations: Vec<(Station, Standing)>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let has_job = app.read().has_job();
    rsx! {
        section {
            h2 { {say("way-title")} }
            ol { class: "way",
                for (station, standing) in stations {
                    li {
                        key: "{screen_of(station).word()}",
                        class: word(standing),
                        button {
                            class: "station",
                            disabled: screen_of(station).of_job() && !has_job,
                            onclick: move |_| app.write().go(screen_of(station)),
                            span { class: "mark", aria_hidden: "true", {mark(standing)} }
                            strong { {say(screen_of(station).key())} }
                            span { {say(&format!("way-{}", word(standing)))} }
                        }
                    }
                }
            }
        }
    }
}

/// One line for the screens of a job: what comes next, and the way there.
#[component]
pub fn NextLine() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (next, here) = {
        let app = app.read();
        (app.next_thing(), app.screen())
    };
    let Some(next) = next else { return rsx! {} };
    rsx! {
        if screen_of(next.station()) == here || next == Next::Proved {
            p { class: "next-line", strong { {say("way-next")} } " " {sentence(next)} }
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

const fn word(standing: Standing) -> &'static str {
    match standing {
        Standing::Done => "done",
        Standing::Here => "here",
        Standing::ToCome => "to-come",
        Standing::NotRecorded => "not-recorded",
    }
}

const fn mark(standing: Standing) -> &'static str {
    match standing {
        Standing::Done => "✓",
        Standing::Here => "▸",
        Standing::ToCome => "○",
        Standing::NotRecorded => "–",
    }
}
