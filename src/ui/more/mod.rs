//! More: own wire, other devices and files, words of the trade, units and theme, the demo, keys.

mod settings;
mod wires;

use dioxus::prelude::*;

use super::controls::{Unreadable, or_why};
use super::state::{AppState, Screen};
use super::words::say;

/// The screen.
#[component]
pub fn More() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        div { class: "columns",
            div { class: "form",
                wires::Wires {}
                section {
                    h2 { {say("ui-sync")} }
                    p { class: "soft", {say("ui-sync-what")} }
                    button { class: "second wide", onclick: move |_| app.write().go(Screen::Sync), {say("ui-sync-open")} }
                }
            }
            div { class: "rest",
                section {
                    h2 { {say("ui-words-title")} }
                    button { class: "second wide", onclick: move |_| app.write().go(Screen::Glossary), {say("glossary-open")} }
                }
                settings::Settings {}
                Demo {}
            }
        }
    }
}

/// The demo: opened, and taken away again.
#[component]
fn Demo() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (has_demo, unread) = or_why(app.read().has_demo());
    rsx! {
        section {
            h2 { {say("ui-demo")} }
            Unreadable { why: unread }
            if has_demo {
                button { class: "second wide", onclick: move |_| app.write().remove_demo(), {say("ui-remove-demo")} }
            } else {
                button { class: "second wide", onclick: move |_| app.write().open_demo(), {say("ui-open-demo")} }
            }
        }
    }
}
