//! A task behind its gates, in the middle of a screen: a button, then the gates, then the task.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, told};
use super::{GateScreen, Stopped};
use crate::bench::GatedTask;
use crate::safety::{Gate, Item};

/// `begin` is the id of the button's text. What stands inside shows once every item of the gates is
/// held, in order; that counts for this visit of the screen alone.
#[component]
pub fn BehindGates(gates: &'static [Gate], begin: &'static str, children: Element) -> Element {
    let app = use_context::<Signal<AppState>>();
    let mut task = use_signal(|| GatedTask::behind(gates));
    let mut going = use_signal(|| false);
    let mut stopped = use_signal(|| None::<Item>);
    let mut failed = use_signal(|| None::<String>);
    if let Some(item) = stopped() {
        return rsx! { Stopped { item, onagain: move |()| stopped.set(None) } };
    }
    let now = app.read().moment();
    let gate = task.read().gate(now);
    match (going(), gate) {
        (false, _) => rsx! {
            button { class: "second wide", onclick: move |_| going.set(true), {say(begin)} }
        },
        (true, Some(gate)) => {
            let confirmed = task.read().confirmed(gate, now).to_vec();
            rsx! {
                GateScreen {
                    gate,
                    confirmed,
                    failed: failed(),
                    onconfirm: move |item| {
                        let refused = task.write().confirm(item, app.read().moment()).err();
                        failed.set(refused.and_then(|refused| told(|texts| Some(texts.text(refused.key())))));
                    },
                    oncouldnot: move |item| {
                        task.write().stop();
                        going.set(false);
                        stopped.set(Some(item));
                    },
                    onback: move |()| going.set(false),
                }
            }
        }
        (true, None) => rsx! { section { class: "guarded", {children} } },
    }
}
