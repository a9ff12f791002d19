//! The three ways in: an oven that was found, an oven on the bench, a bare core in the hand.

use dioxus::prelude::*;

use super::super::state::{AppState, Screen};
use super::super::words::{find_name, say};
use crate::report::draw::{Icon, icon};

/// The doors.
#[component]
pub fn Doors() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        div { class: "doors",
            Door { name: "ui-new-find", help: "ui-door-found-help", drawn: Icon::SizeUp,
                onopen: move |()| app.write().start_find(&find_name(), Screen::SizeUp) }
            Door { name: "ui-door-bench", help: "ui-door-bench-help", drawn: Icon::Teardown,
                onopen: move |()| app.write().start_find(&find_name(), Screen::Teardown) }
            Door { name: "ui-door-core", help: "ui-door-core-help", drawn: Icon::InHand,
                onopen: move |()| app.write().ask_for_core() }
        }
    }
}

/// One of them: a button named by its words.
#[component]
fn Door(name: &'static str, help: &'static str, drawn: Icon, onopen: EventHandler<()>) -> Element {
    rsx! {
        button { class: "door", id: "{name}", onclick: move |_| onopen.call(()),
            span { class: "icon-of", dangerous_inner_html: icon(drawn) }
            strong { {say(name)} }
            " "
            span { class: "soft", {say(help)} }
        }
    }
}
