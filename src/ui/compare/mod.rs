//! Cores beside one another for a use, one core for every use.

mod cores;
mod uses;

use dioxus::prelude::*;

use super::controls::Choices;
use super::state::AppState;
use super::words::use_label;
use super::words::{say, say_with};
use crate::app::compare::{Meets, Offer, meets};
use crate::app::start::goal_of;
use crate::job::Goal;
use crate::quantity::{Current, format_significant, format_with_spread};
use crate::report::draw::{Bar, bar};
use crate::text::Arg;

/// The screen: what is compared is the open job's use, or a usual target of another.
#[component]
pub fn Compare() -> Element {
    let app = use_context::<Signal<AppState>>();
    let own = app.read().file().map(|file| file.goal);
    let mut word = use_signal(|| own.map_or("spot_welder", |goal| goal.word()));
    let goal: Goal = own
        .filter(|goal| goal.word() == word())
        .unwrap_or_else(|| goal_of(word()));
    let options: Vec<(String, String)> = Goal::USES
        .iter()
        .filter(|word| !matches!(**word, "choke" | "ballast"))
        .map(|word| ((*word).to_owned(), use_label(word)))
        .collect();
    rsx! {
        div { class: "compare-columns",
            section { class: "which",
                h2 { {say("ui-compare-cores")} }
                p { class: "soft", {say("ui-compare-cores-help")} }
                Choices {
                    label: say("ui-compare-use"), options, chosen: word().to_owned(),
                    onchoose: move |chosen: String| {
                        if let Some(found) = Goal::USES.iter().find(|word| **word == chosen) {
                            word.set(*found);
                        }
                    },
                }
            }
            section { class: "cores", cores::Cores { key: "{word}", goal } }
            if own.is_some() {
                section { class: "uses",
                    h2 { {say("ui-compare-uses")} }
                    p { class: "soft", {say("ui-compare-uses-help")} }
                    uses::Uses {}
                }
            }
        }
    }
}

/// "452 ± 28 A".
fn amps(offer: &Offer) -> String {
    let (value, half) = (offer.current.value.si(), offer.current.plus_minus.si());
    // Where a reactor holds the current, it has no range of its own.
    if half <= 1e-6 * value {
        return format!("{} A", format_significant(value, 3));
    }
    let (value, half) = format_with_spread(value, half);
    format!("{value} ± {half} A")
}

/// Whether an offer reaches what is wanted, in words.
fn verdict(offer: &Offer, wanted: Current) -> String {
    say(match meets(&offer.current, wanted) {
        Meets::Surely => "ui-compare-surely",
        Meets::Perhaps => "ui-compare-perhaps",
        Meets::Not => "ui-compare-not",
    })
}

/// What keeps it from more, and what is assumed.
fn because(offer: &Offer) -> String {
    let held = offer.held_by.map_or_else(String::new, |limit| {
        say_with("ui-compare-held", &[("limit", Arg::Text(&say(limit.key())))])
    });
    let assumed = if offer.assumed {
        say("ui-compare-assumed")
    } else {
        String::new()
    };
    format!("{held} {assumed}").trim().to_owned()
}

/// Its bar.
fn drawn(offer: &Offer, wanted: Current, most: f64) -> String {
    let (current, wanted) = (offer.current, wanted.si());
    bar(&Bar {
        title: format!("{}; {}", amps(offer), say("ui-compare-bar")),
        value: (current.value.si(), current.plus_minus.si()),
        wanted,
        most,
    })
}
