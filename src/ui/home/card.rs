//! A card: picture, name, where it is on the six stages, and the next step as a button.

use dioxus::prelude::*;

use super::super::donor::{go_text, mark, word};
use super::super::state::{AppState, CardWay, Screen, screen_of};
use super::super::words::{drawn, say, say_with, use_label};
use crate::app::cards::Card;
use crate::app::next_step::{Next, Standing};
use crate::report::{core_picture, oven_picture};
use crate::text::Arg;

/// The card.
#[component]
pub fn CardView(card: Card, way: CardWay) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let what = match (&card.goal_use, card.donor) {
        (Some(word), _) => use_label(word),
        (None, _) => say("ui-card-oven"),
    };
    let (opened, went_on) = (card.clone(), card.clone());
    rsx! {
        button {
            class: "card-open",
            onclick: move |_| app.write().open_card(&opened, Screen::Donor),
            Picture { card: card.clone() }
            span { class: "card-words",
                strong { "{card.name}" }
                " "
                span { class: "soft", "{what}" }
                " "
                Where { way: way.clone() }
            }
        }
        match way {
            CardWay::Known((next, _)) => rsx! {
                button {
                    class: if next == Next::Proved { "second go" } else { "main go" },
                    onclick: move |_| app.write().go_on_with(&went_on, next),
                    {go_text(next)}
                }
            },
            CardWay::Trouble => rsx! { p { class: "refused", {say("ui-card-trouble")} } },
            CardWay::Unread(_) => rsx! { p { class: "refused", {say("ui-stands-damaged")} } },
            CardWay::Pending => rsx! { p { class: "busy", role: "status", {say("ui-card-pending")} } },
        }
    }
}

/// The stage where it is, and all six as marks.
#[component]
fn Where(way: CardWay) -> Element {
    let CardWay::Known((next, stations)) = way else {
        return rsx! {};
    };
    let at = if next == Next::Proved {
        say("ui-card-proved")
    } else {
        let at = stations
            .iter()
            .position(|(_, standing)| *standing == Standing::Here)
            .unwrap_or(0);
        let stage = say(screen_of(next.station()).key());
        say_with(
            "ui-card-stage",
            &[("at", Arg::Number((at + 1) as f64)), ("stage", Arg::Text(&stage))],
        )
    };
    rsx! {
        span { class: "card-at", "{at}" }
        span { class: "dots", aria_hidden: "true",
            for (station, standing) in stations {
                span { key: "{screen_of(station).word()}", class: "dot {word(standing)}", {mark(standing)} }
            }
        }
    }
}

/// The person's own photo; else the core to scale, or an oven.
#[component]
fn Picture(card: Card) -> Element {
    let app = use_context::<Signal<AppState>>();
    let own = card.photo.and_then(|photo| app.read().picture_of_card(photo));
    if let Some(address) = own {
        return rsx! { span { class: "card-picture", img { src: "{address}", alt: "" } } };
    }
    let svg = {
        let app = app.read();
        match card.job {
            Some(job) => app
                .core_of_card(job)
                .map(|answer| drawn(|texts| core_picture(&answer.problem.rebuild.core, texts)))
                .unwrap_or_default(),
            None => drawn(oven_picture),
        }
    };
    rsx! { span { class: "card-picture", aria_hidden: "true", dangerous_inner_html: svg } }
}
