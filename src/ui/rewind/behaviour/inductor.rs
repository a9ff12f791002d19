//! The core as a choke or a ballast: what to wind, the gap, and what it does.

use dioxus::prelude::*;

use super::super::super::controls::NumberField;
use super::super::super::state::AppState;
use super::super::super::words::{say, told};
use super::TopicPanel;
use super::inputs::{Grade, Insulation};
use crate::app::guard::guarded;
use crate::report;
use crate::report::behaviour::TopicView;
use crate::text::Term;

/// The whole answer of a choke or a ballast; nothing for another use.
#[component]
pub fn InductorView() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found: Option<Result<TopicView, String>> = {
        let app = app.read();
        match app.answer() {
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
                Ok(found) => rsx! { TopicPanel { view: found } },
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
