//! The finished supply as a circuit, for what the winding is to feed.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, told};
use crate::app::guard::guarded;
use crate::report::wiring;

/// The circuit of the design in hand; nothing where there is none.
#[component]
pub fn Supply() -> Element {
    let app = use_context::<Signal<AppState>>();
    let drawn = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => guarded(|| told(|texts| wiring(answer, texts))).ok().flatten(),
            _ => None,
        }
    };
    let Some(drawn) = drawn else { return rsx! {} };
    rsx! {
        section {
            h2 { {say("page-wiring")} }
            figure { dangerous_inner_html: "{drawn}" }
            p { class: "danger", {say("page-caution-code")} }
        }
    }
}
