//! The answer: one card that stays in sight while anything changes.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, say_with, tell, told};
use super::design::StateLine;
use crate::app::behaviour::inductor::{InductorAnswer, Warm};
use crate::app::guard::guarded;
use crate::app::listing::winding_title;
use crate::magnetics::circuit::performance::PerformanceNumber;
use crate::quantity::format_significant;
use crate::report::{self, Shown, show};
use crate::text::Arg;

/// The id of the allowed duty among the numbers of heat.
pub(super) const DUTY: &str = "behaves-permitted-duty";

/// The ids of the card's labels, short for a phone: voltage, current, allowed duty.
const LABELS: [&str; 3] = ["ui-answer-volts", "ui-answer-amps", "ui-answer-duty"];

/// The same of a coil: inductance, spacer, share of the window; by the ids of the numbers.
const COIL: [(&str, &str); 3] = [
    ("ui-answer-inductance", "behaves-inductance"),
    ("ui-answer-shim", "behaves-shim"),
    ("ui-answer-window", "behaves-window-share"),
];

/// The winding or the coil in words, its three numbers, and whether it fits; where there is none, the line that
/// says so. Every use has one.
#[component]
pub fn AnswerCard() -> Element {
    let app = use_context::<Signal<AppState>>();
    let card = card(&app.read());
    let Some(card) = card else { return rsx! {} };
    rsx! {
        section { class: "answer-card", aria_label: say("ui-answer"),
            strong { class: "winding", "{card.title}" }
            if let Some(second) = card.second { span { class: "second-core", "{second}" } }
            if !card.numbers.is_empty() {
                dl {
                    for (label, number) in card.numbers {
                        div { key: "{label}",
                            dt { {say(label)} }
                            if number.plus_minus.is_empty() {
                                dd { span { class: "value", "{number.value} {number.unit}" } }
                            } else {
                                dd { span { class: "value", "{number.value} " }
                                    span { class: "plus-minus", "± {number.plus_minus} " }
                                    "{number.unit}"
                                }
                            }
                        }
                    }
                }
            }
            match card.state {
                CardState::OfDesign => rsx! { StateLine {} },
                CardState::OfCoil(advice) => rsx! {
                    StateLine {}
                    if let Some(advice) = advice { p { class: "caution", "{advice}" } }
                },
                CardState::NoCoil(why) => rsx! { p { class: "state danger", role: "alert", "{why}" } },
                CardState::Unsaid => rsx! {},
            }
        }
    }
}

/// What the card says.
struct Card {
    title: String,
    /// The second core of a pair.
    second: Option<String>,
    numbers: Vec<(&'static str, Shown)>,
    state: CardState,
}

/// The last line of the card.
enum CardState {
    /// As [`StateLine`] has it of a winding.
    OfDesign,
    /// The same of a coil, and what its warmth asks for.
    OfCoil(Option<String>),
    /// Why there is no coil, in words.
    NoCoil(String),
    /// The title says it.
    Unsaid,
}

fn card(app: &AppState) -> Option<Card> {
    let answer = app.answer()?.ok()?;
    if let Some(found) = guarded(|| answer.inductor()).ok().flatten() {
        return Some(match found {
            Ok(found) => coil_card(found),
            Err(trouble) => Card {
                title: say("ui-answer-no-coil"),
                second: None,
                numbers: Vec::new(),
                state: CardState::NoCoil(told(|texts| Some(report::behaviour::inductor_trouble(trouble, texts)))?),
            },
        });
    }
    let Some(design) = &answer.design else {
        return Some(Card {
            title: say("ui-answer-none"),
            second: None,
            numbers: Vec::new(),
            state: CardState::Unsaid,
        });
    };
    let mut numbers = design.numbers(&[PerformanceNumber::WorkingVoltage, PerformanceNumber::WorkingCurrent]);
    let heat = guarded(|| answer.heat().cloned()).ok().flatten();
    let duty = heat.and_then(|heat| heat.numbers.into_iter().find(|number| number.kind.text == DUTY));
    numbers.extend(duty);
    let shown = told(|texts| Some(numbers.iter().map(|number| show(texts, number)).collect::<Vec<Shown>>()));
    let second = answer.second.as_ref();
    Some(Card {
        title: tell(&winding_title(&design.candidate, &answer.catalogue, app.awg())),
        second: second.map(|second| say_with("ui-answer-with", &[("name", Arg::Text(&second.name))])),
        numbers: LABELS.into_iter().zip(shown.unwrap_or_default()).collect(),
        state: CardState::OfDesign,
    })
}

/// The card of a coil.
fn coil_card(found: &InductorAnswer) -> Card {
    let of = |id: &str| found.numbers.iter().find(|number| number.kind.text == id);
    let numbers = told(|texts| {
        let rows = COIL
            .iter()
            .filter_map(|&(label, id)| Some((label, show(texts, of(id)?))));
        Some(rows.collect())
    });
    let limit = format!("{} °C", format_significant(found.limit.si(), 3));
    let advice = match found.warm {
        Warm::Fine => None,
        Warm::Doubtful => Some(say_with("ui-inductor-doubtful", &[("limit", Arg::Text(&limit))])),
        Warm::TooHot => Some(say_with("ui-inductor-hot", &[("limit", Arg::Text(&limit))])),
        Warm::BurnsOut => Some(say("ui-inductor-burns")),
    };
    let title = told(|texts| report::behaviour::inductor_build(found, texts).into_iter().next());
    Card {
        title: title.unwrap_or_default(),
        second: None,
        numbers: numbers.unwrap_or_default(),
        state: CardState::OfCoil(advice),
    }
}
