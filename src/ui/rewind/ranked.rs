//! The windings found, best first; or why there is none and what is nearest.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, say_with};
use crate::app::listing::{Listing, listing};
use crate::text::Arg;

/// How many windings are shown at first.
const FIRST: usize = 8;

/// The list.
#[component]
pub fn Ranked() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut all = use_signal(|| false);
    let found: Option<Listing> = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => Some(listing(answer, app.awg())),
            _ => None,
        }
    };
    let Some(found) = found else { return rsx! {} };
    let count = if all() { found.rows.len() } else { FIRST };
    let choose = move |index: usize| {
        let candidate = match app.read().answer() {
            Some(Ok(answer)) => answer.found.ranked.get(index).copied(),
            _ => None,
        };
        if let Some(candidate) = candidate {
            app.write().choose_candidate(&candidate);
        }
    };
    rsx! {
        section {
            h2 { {say("ui-ranked")} }
            p { class: "hint", "{found.headline}" }
            if let Some(nearest) = &found.nearest {
                p { class: "danger", "{nearest}" }
            }
            ol { class: "ranked",
                for row in found.rows.iter().take(count) {
                    li { key: "{row.index}",
                        button {
                            class: if row.chosen { "winding-card chosen" } else { "winding-card" },
                            aria_pressed: if row.chosen { "true" } else { "false" },
                            onclick: {
                                let index = row.index;
                                let mut choose = choose;
                                move |_| choose(index)
                            },
                            strong { "{row.title}" }
                            span { class: "facts", "{row.facts}" }
                            span { class: "facts", "{row.fit}" }
                        }
                    }
                }
            }
            if found.rows.len() > FIRST {
                button { class: "quiet wide", onclick: move |_| all.toggle(),
                    if all() { {say("ui-ranked-fewer")} } else { {say_with("ui-ranked-all", &[("count", Arg::Number(found.rows.len() as f64))])} }
                }
            }
        }
    }
}
