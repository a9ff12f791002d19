//! The core as a choke or a ballast: what to wind, the gap, and what it does.

use dioxus::prelude::*;

use super::super::super::controls::{Fold, NumberField, Numbers};
use super::super::super::state::AppState;
use super::super::super::words::{say, say_with, told};
use super::TopicText;
use super::inputs::{Grade, Insulation};
use crate::app::behaviour::inductor::nearest_choke;
use crate::app::guard::guarded;
use crate::job::Goal;
use crate::quantity::format_significant;
use crate::report;
use crate::report::behaviour::TopicView;
use crate::store::Op;
use crate::text::{Arg, Term};

/// The whole answer of a choke or a ballast; nothing for another use.
#[component]
pub fn InductorView() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found: Option<Result<TopicView, ()>> = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => guarded(|| answer.inductor()).ok().flatten().and_then(|found| {
                told(|texts| {
                    Some(match found {
                        Ok(found) => {
                            let mut view = report::behaviour::inductor(found, texts);
                            // The answer card has it.
                            let named = report::behaviour::inductor_build(found, texts);
                            view.remarks.retain(|remark| named.first() != Some(&remark.text));
                            Ok(view)
                        }
                        Err(_) => Err(()),
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
            match found {
                Ok(found) => rsx! {
                    TopicText { view: found.clone() }
                    Fold { word: "coil-numbers", title: say("ui-design-numbers"),
                        super::super::super::controls::Terms { words: vec![Term::Choke, Term::GappedCore, Term::Fringing] }
                        Numbers { rows: found.numbers }
                    }
                },
                // Why not is in the answer card.
                Err(()) => rsx! { Nearest {} },
            }
            Fold { word: "coil-inputs", title: say("ui-inputs"),
                NumberField { path: "conditions.sheet_mm" }
                NumberField { path: "conditions.second_sheet_mm" }
                Grade {}
                Insulation {}
                NumberField { path: "conditions.ambient_c" }
                NumberField { path: "conditions.fan_m_per_s" }
            }
        }
    }
}

/// The nearest choke that can be made, to be set as the target.
#[component]
fn Nearest() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (goal, nearest) = {
        let app = app.read();
        let nearest = match app.answer() {
            Some(Ok(answer)) => guarded(|| nearest_choke(answer.file(), answer)).ok().flatten(),
            _ => None,
        };
        (app.file().map(|file| file.goal), nearest)
    };
    let (Some(goal @ Goal::Choke { .. }), Some(nearest)) = (goal, nearest) else {
        return rsx! {};
    };
    let set = move |_| {
        let mut goal = goal;
        if let Goal::Choke { inductance_mh, .. } = &mut goal {
            *inductance_mh = nearest;
        }
        app.write().set_goal(Op::Target, goal);
    };
    rsx! {
        button { class: "second wide", onclick: set,
            {say_with("ui-take-nearest-choke", &[("mh", Arg::Text(&format_significant(nearest, 2)))])}
        }
    }
}
