//! The page for the bench, as it will print.

use std::path::PathBuf;

use dioxus::prelude::*;

use super::super::desk::Desk;
use super::super::words::{say, say_with};
use crate::text::Arg;

/// The page and the button that saves it.
#[component]
pub fn BenchPage() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let mut saved = use_signal(|| None::<PathBuf>);
    let Some(page) = desk.read().page() else {
        return rsx! { p { "There is nothing to print yet." } };
    };
    rsx! {
        div { class: "row",
            button { class: "main", onclick: move |_| desk.write().save_page(), "Save the page" }
            button { class: "second", onclick: move |_| { let place = desk.write().save_drawings(); saved.set(place); }, {say("ui-save-drawings")} }
            button { class: "second", onclick: move |_| { let place = desk.write().save_tables(); saved.set(place); }, {say("ui-save-tables")} }
        }
        if let Some(place) = saved() {
            p { class: "told", role: "status", {say_with("ui-saved-in", &[("path", Arg::Text(&place.display().to_string()))])} }
        }
        iframe { class: "page", title: "Page for the bench", srcdoc: "{page}" }
    }
}
