//! The page for the bench, as it will print.

use std::path::PathBuf;

use dioxus::prelude::*;

use super::super::share;
use super::super::state::AppState;
use super::super::words::{say, say_with};
use crate::text::Arg;

/// The page and the button that saves it.
#[component]
pub fn BenchPage() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut saved = use_signal(|| None::<PathBuf>);
    let mut keep = move |place: Option<PathBuf>| {
        share::share_files(place.iter().flat_map(|place| crate::app::files_in(place)).collect());
        saved.set(place);
    };
    let Some(page) = app.read().page() else {
        return rsx! { p { {say("ui-page-none")} } };
    };
    rsx! {
        div { class: "row",
            button { class: "main", onclick: move |_| { let place = app.write().save_page(); share::share_files(place.into_iter().collect()); }, {say("ui-page-save")} }
            if !cfg!(feature = "mobile") {
                button { class: "second", onclick: move |_| super::super::keys::print_page(), {say("ui-key-print")} }
            }
            button { class: "second", onclick: move |_| { let place = app.write().save_drawings(); keep(place); }, {say("ui-save-drawings")} }
            button { class: "second", onclick: move |_| { let place = app.write().save_tables(); keep(place); }, {say("ui-save-tables")} }
        }
        if let Some(place) = saved() {
            p { class: "told", role: "status", {say_with("ui-saved-in", &[("path", Arg::Text(&place.display().to_string()))])} }
        }
        iframe { class: "page", title: say("ui-page-bench"), srcdoc: "{page}" }
    }
}
