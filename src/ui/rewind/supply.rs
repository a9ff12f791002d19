//! The finished supply as a circuit, for what the winding is to feed.

use dioxus::prelude::*;

use super::super::desk::Desk;
use super::super::words::{say, told};
use crate::app::behaviour::direct_current::direct_current;
use crate::report::wiring;

/// The circuit of the design in hand; nothing where there is none.
#[component]
pub fn Supply() -> Element {
    let desk = use_context::<Signal<Desk>>();
    let drawn = {
        let desk = desk.read();
        match (desk.file(), desk.answer()) {
            (Some(file), Some(Ok(answer))) => {
                let direct = direct_current(file, answer);
                told(|texts| wiring(file, answer, direct.as_ref(), texts))
            }
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
