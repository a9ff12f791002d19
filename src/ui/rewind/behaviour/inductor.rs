//! The core as a choke or a ballast: what to wind, the gap, and what it does.

use dioxus::prelude::*;

use super::super::super::controls::NumberField;
use super::super::super::desk::Desk;
use super::super::super::words::{say, told};
use super::ToldView;
use super::inputs::{Grade, Insulation};
use crate::app::guard::guarded;
use crate::report;
use crate::report::behaviour::Told;
use crate::text::Term;

/// The whole answer of a choke or a ballast; nothing for another use.
#[component]
pub fn InductorView() -> Element {
    let desk = use_context::<Signal<Desk>>();
    let found: Option<Result<Told, String>> = {
        let desk = desk.read();
        match desk.answer() {
            Some(Ok(answer)) => guarded(|| answer.inductor()).ok().flatten().and_then(|found| {
                told(|texts| {
                    Some(match found {
                        Ok(found) => Ok(report::behaviour::inductor(found, texts)),
                        Err(trouble) => Err(report::behaviour::inductor_trouble(trouble, texts)),
                    })
                })
            }),
            _ => None,
        }
    };
    let Some(found) = found else { return rsx! {} };
    rsx! {
        section { class: "design",
            h2 { {say("ui-panel-inductor")} }
            super::super::super::controls::Terms { words: vec![Term::Choke, Term::GappedCore, Term::Fringing] }
            match found {
                Ok(found) => rsx! { ToldView { told: found } },
                Err(trouble) => rsx! { p { class: "danger", role: "alert", "{trouble}" } },
            }
            h3 { {say("ui-inputs")} }
            NumberField { path: "conditions.sheet_mm" }
            Grade {}
            Insulation {}
            NumberField { path: "conditions.ambient_c" }
            NumberField { path: "conditions.fan_m_per_s" }
        }
    }
}
