//! The core in hand for every use.

use dioxus::prelude::*;

use super::super::background::run_in_background;
use super::super::state::{AppState, Screen};
use super::super::words::use_label;
use super::super::words::{say, say_with, told};
use super::{amps, because, drawn, verdict};
use crate::app::compare::{UseOffer, for_every_use};
use crate::quantity::format_significant;
use crate::report::behaviour::inductor_trouble;
use crate::text::Arg;

/// The rows, worked out beside the screen.
#[component]
pub(super) fn Uses() -> Element {
    let app = use_context::<Signal<AppState>>();
    let file = app.read().file().cloned();
    let found = use_resource(move || {
        let file = file.clone();
        async move {
            run_in_background(move || file.map(|file| for_every_use(&file)))
                .await
                .flatten()
        }
    });
    let found = found.read();
    match found.as_ref() {
        None => rsx! { p { class: "busy", role: "status", {say("ui-compare-uses-busy")} } },
        Some(None) => rsx! { p { {say("ui-compare-no-answer")} } },
        Some(Some(rows)) => rsx! {
            ul { class: "ranked",
                for (word, offer) in rows.iter() {
                    UseRow { key: "{word}", word: *word, offer: offer.clone() }
                }
            }
        },
    }
}

#[component]
fn UseRow(word: &'static str, offer: UseOffer) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let here = app.read().file().is_some_and(|file| file.goal.word() == word);
    rsx! {
        li {
            button {
                class: if here { "winding-card chosen" } else { "winding-card" },
                onclick: move |_| {
                    let mut app = app.write();
                    app.go(Screen::Rewind);
                    app.choose_use(word);
                },
                strong { {use_label(word)} }
                match &offer {
                    UseOffer::Winding { wanted, offer: Some(offer) } => {
                        let usual = format_significant(wanted.si(), 3);
                        let most = (offer.current.value + offer.current.plus_minus).si().max(wanted.si() * 1.1);
                        rsx! {
                            span { "{amps(offer)}. {verdict(offer, *wanted)}" }
                            span { class: "bar-of", dangerous_inner_html: drawn(offer, *wanted, most) }
                            span { class: "facts", {say_with("ui-compare-target", &[("amps", Arg::Text(&usual))])} " " {because(offer)} }
                        }
                    }
                    UseOffer::Winding { offer: None, .. } => rsx! { span { {say("ui-compare-no-winding")} } },
                    UseOffer::Choke => rsx! { span { {say("ui-compare-choke")} } },
                    UseOffer::NoChoke(trouble) => {
                        let text = told(|texts| Some(inductor_trouble(trouble, texts))).unwrap_or_default();
                        rsx! { span { "{text}" } }
                    }
                }
            }
        }
    }
}
