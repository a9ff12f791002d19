//! The question that stands before something that the person tapped.

use dioxus::prelude::*;

use super::controls::or_why;
use super::state::{AppState, Asked};
use super::words::use_label;
use super::words::{say, say_with};
use crate::app::workspace::outlet_of;
use crate::job::{DonorId, JobId};
use crate::magnetics::circuit::mains::OUTLETS;
use crate::text::Arg;

/// The most cores that a new one may be like.
const LIKE_OFFERED: u32 = 50;

/// The question, with its answers; nothing where none stands open.
#[component]
pub fn Question() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let Some(asked) = app.read().asked() else {
        return rsx! {};
    };
    let here = app
        .read()
        .file()
        .map(|file| use_label(file.goal.word()))
        .unwrap_or_default();
    let (what, yes) = match &asked {
        Asked::Outlet(donor) => return rsx! { WhichOutlet { donor: *donor } },
        Asked::Core => return rsx! { WhichCore {} },
        Asked::Use(word) => {
            let words = [("from", here), ("to", use_label(word))];
            let args: Vec<(&str, Arg)> = words.iter().map(|(name, text)| (*name, Arg::Text(text))).collect();
            (say_with("ui-ask-use", &args), "ui-ask-use-yes")
        }
        Asked::Winding(_) => (say("ui-ask-winding"), "ui-ask-winding-yes"),
        Asked::Steps(_) => (say("ui-ask-steps"), "ui-ask-steps-yes"),
    };
    rsx! {
        section { class: "caution asked", role: "alertdialog", aria_label: "{what}",
            p { "{what}" }
            div { class: "row",
                button { class: "main", onclick: move |_| app.write().ask_no_more(), {say("ui-ask-no")} }
                button { class: "second", onclick: move |_| app.write().answer_yes(), {say(yes)} }
            }
        }
    }
}

/// The outlet of a job with a donor's core.
#[component]
fn WhichOutlet(donor: DonorId) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut outlet = use_signal(|| app.peek().outlet_of_donor(donor).word.to_owned());
    rsx! {
        section { class: "asked", role: "dialog", aria_label: say("ui-ask-outlet"),
            h2 { {say("ui-ask-outlet")} }
            p { class: "hint", {say("ui-ask-outlet-why")} }
            div { class: "field",
                label { r#for: "asked-outlet", {say("ui-job-outlet")} }
                select { id: "asked-outlet", class: "long", onchange: move |event| outlet.set(event.value()),
                    for row in OUTLETS {
                        option { value: row.word, selected: *outlet.read() == row.word, "{row.label}" }
                    }
                }
            }
            div { class: "row",
                button {
                    id: "asked-start",
                    class: "main",
                    // The answer is where the person is looking next.
                    onmounted: move |button| async move { let _ = button.data().set_focus(true).await; },
                    onclick: move |_| app.write().start_job_with(donor, outlet_of(&outlet.peek())),
                    {say("ui-start-a-job")}
                }
                button { class: "quiet", onclick: move |_| app.write().ask_no_more(), {say("ui-ask-outlet-no")} }
            }
        }
    }
}

/// Name and outlet of a job with a bare core; neither has to be typed.
#[component]
fn WhichCore() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut name = use_signal(String::new);
    let mut outlet = use_signal(|| app.peek().outlet().word.to_owned());
    let mut like = use_signal(|| None::<JobId>);
    let (cores, _) = or_why(app.read().query(|data| data.cores_on_shelf(LIKE_OFFERED)));
    let offered: Vec<(JobId, String)> = cores.into_iter().map(|core| (core.job, core.file.name)).collect();
    let offered_ids: Vec<JobId> = offered.iter().map(|(job, _)| *job).collect();
    rsx! {
        section { class: "asked", role: "dialog", aria_label: say("ui-door-core"),
            h2 { {say("ui-door-core")} }
            p { class: "hint", {say("ui-ask-core-why")} }
            div { class: "field",
                label { r#for: "job-name", {say("ui-job-name")} }
                input {
                    id: "job-name",
                    class: "value long",
                    autocomplete: "off",
                    initial_value: "",
                    placeholder: say("ui-job-name-such-as"),
                    onmounted: move |field| async move { let _ = field.data().set_focus(true).await; },
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
            if !offered.is_empty() {
                div { class: "field",
                    label { r#for: "job-like", {say("ui-same-core-again")} }
                    select {
                        id: "job-like", class: "long",
                        onchange: move |event| {
                            let at = event.value().parse::<usize>().ok();
                            like.set(at.and_then(|at| offered_ids.get(at).copied()));
                        },
                        option { value: "", selected: true, {say("ui-same-core-none")} }
                        for (at, (_, name)) in offered.iter().enumerate() {
                            option { value: "{at}", {say_with("ui-same-core-as", &[("name", Arg::Text(name))])} }
                        }
                    }
                }
            }
            div { class: "row",
                button {
                    class: "main",
                    onclick: move |_| {
                        let typed = name.peek().trim().to_owned();
                        let named = if typed.is_empty() { say("ui-new-job") } else { typed };
                        app.write().start_job_with_core(&named, outlet_of(&outlet.peek()), *like.peek());
                    },
                    {say("ui-start-a-job")}
                }
                button { class: "quiet", onclick: move |_| app.write().ask_no_more(), {say("ui-ask-outlet-no")} }
            }
        }
    }
}
