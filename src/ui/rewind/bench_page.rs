//! The page for the bench, as it will print.

use dioxus::prelude::*;

use super::super::desk::Desk;

/// The page and the button that saves it.
#[component]
pub fn BenchPage() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let Some(page) = desk.read().page() else {
        return rsx! { p { "There is nothing to print yet." } };
    };
    rsx! {
        div { class: "row",
            button { class: "main", onclick: move |_| desk.write().save_page(), "Save the page" }
        }
        iframe { class: "page", title: "Page for the bench", srcdoc: "{page}" }
    }
}
