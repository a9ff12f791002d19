//! The question that stands before something that the person tapped.

use dioxus::prelude::*;

use super::controls::or_why;
use super::state::{AppState, Asked, Pending};
use super::words::{field_text, op_text, say, say_with};
use crate::app::voided::Voided;
use crate::app::workspace::{Proposed, outlet_of, shown_number, unit_symbol};
use crate::job::{DonorId, Held, JobId, Places};
use crate::magnetics::circuit::mains::OUTLETS;
use crate::store::Op;
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
    let change = match &asked {
        Asked::Outlet(donor) => return rsx! { WhichOutlet { donor: *donor } },
        Asked::Core => return rsx! { WhichCore {} },
        Asked::Change(change) => change,
    };
    let named = |key: &str, op| say_with(key, &[("what", Arg::Text(&op_text(op)))]);
    let change_name = match &change.change {
        Pending::Job(proposed, _) => op_text(proposed.op),
        Pending::Undo(op) => named("ui-undo", *op),
        Pending::Redo(op) => named("ui-redo", *op),
        Pending::AddWire(..) => op_text(Op::AddWire),
        Pending::RemoveWire(_) | Pending::WoundWire(..) => op_text(Op::RemoveWire),
        Pending::Settle { .. } => op_text(Op::Settle),
    };
    let what = say_with("ui-ask-change", &[("what", Arg::Text(&change_name))]);
    let value = match &change.change {
        Pending::Job(proposed, _) => changed_number(proposed),
        _ => None,
    };
    let in_hand = app.read().job_id();
    rsx! {
        section {
            class: "asked change", role: "alertdialog", aria_label: "{what}",
            onkeydown: move |event| if event.key() == Key::Escape { event.prevent_default(); app.write().ask_no_more(); },
            p { class: "caution", "{what}" }
            Lost { voided: change.voided.clone(), in_hand }
            if let Some(value) = value { p { strong { "{value}" } } }
            // Wire that was wound comes back at its step, not with undo.
            if !matches!(change.change, Pending::WoundWire(..)) { p { class: "hint", {say("ui-ask-change-back")} } }
            div { class: "row",
                button {
                    id: "asked-keep",
                    class: "main",
                    // What loses nothing has the focus; Escape says the same.
                    onmounted: move |button| async move { let _ = button.data().set_focus(true).await; },
                    onclick: move |_| app.write().ask_no_more(),
                    {say("ui-ask-no")}
                }
                button { id: "asked-change", class: "second", onclick: move |_| app.write().answer_yes(), {say("ui-ask-change-yes")} }
            }
        }
    }
}

/// What would count no more, a line each; a job that is not in hand by its name.
#[component]
pub fn Lost(voided: Vec<Voided>, in_hand: Option<JobId>) -> Element {
    let lines: Vec<String> = voided
        .iter()
        .flat_map(|lost| {
            let tests = lost
                .tests
                .map(|tests| say_with("ui-ask-tests", &[("tests", Arg::Number(tests as f64))]));
            let winding = lost.winding.then(|| say("ui-ask-winding"));
            let whose = if in_hand == Some(lost.job) {
                String::new()
            } else {
                format!("{}: ", lost.name)
            };
            [tests, winding]
                .into_iter()
                .flatten()
                .map(move |line| format!("{whose}{line}"))
        })
        .collect();
    rsx! {
        ul { class: "plain lost", for line in lines { li { key: "{line}", bdi { "{line}" } } } }
    }
}

/// A number that a change sets, with its label and unit; none where it sets another thing.
fn changed_number(proposed: &Proposed) -> Option<String> {
    let app = try_consume_context::<Signal<AppState>>()?;
    let Op::Number(field) = proposed.op else { return None };
    let value = match proposed.after.get(field.path)? {
        Held::Reading(reading) => reading.value,
        Held::Number(number) => number,
        Held::Text(_) => return None,
    };
    let unit = app.read().unit();
    let (number, symbol) = (shown_number(field, value, unit), unit_symbol(field, unit));
    Some(
        format!("{}: {number} {symbol}", field_text(field, "label"))
            .trim_end()
            .to_owned(),
    )
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
                            like.set(at.and_then(|at| offered_ids.as_slice().get(at).copied()));
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
