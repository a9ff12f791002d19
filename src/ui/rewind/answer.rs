//! The answer: one card that stays in sight while anything changes.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{say, tell, told};
use super::design::StateLine;
use crate::app::guard::guarded;
use crate::app::listing::{headline, winding_title};
use crate::magnetics::circuit::performance::PerformanceNumber;
use crate::report::{Shown, show};

/// The id of the allowed duty among the numbers of heat.
const DUTY: &str = "behaves-permitted-duty";

/// The ids of the card's labels, short for a phone: voltage, current, allowed duty.
const LABELS: [&str; 3] = ["ui-answer-volts", "ui-answer-amps", "ui-answer-duty"];

/// The winding in words, its volts, amperes and allowed duty, and whether it fits; where there is none, the line
/// that says so.
#[component]
pub fn AnswerCard() -> Element {
    let app = use_context::<Signal<AppState>>();
    let (title, numbers) = {
        let app = app.read();
        let Some(Ok(answer)) = app.answer() else { return rsx! {} };
        let Some(design) = &answer.design else {
            let line = headline(answer, app.awg()).map(|line| tell(&line));
            return rsx! { if let Some(line) = line { p { class: "headline", "{line}" } } };
        };
        let mut numbers = design.numbers(&[PerformanceNumber::WorkingVoltage, PerformanceNumber::WorkingCurrent]);
        let heat = guarded(|| answer.heat().cloned()).ok().flatten();
        let duty = heat.and_then(|heat| heat.numbers.into_iter().find(|number| number.kind.text == DUTY));
        numbers.extend(duty);
        let shown = told(|texts| Some(numbers.iter().map(|number| show(texts, number)).collect::<Vec<Shown>>()));
        let title = winding_title(&design.candidate, &answer.catalogue, app.awg());
        (title, shown.unwrap_or_default())
    };
    rsx! {
        section { class: "answer-card", aria_label: say("ui-answer"),
            strong { class: "winding", "{title}" }
            dl {
                for (label, number) in LABELS.into_iter().zip(numbers) {
                    div { key: "{label}",
                        dt { {say(label)} }
                        dd { "{number.value} "
                            if !number.plus_minus.is_empty() { span { class: "plus-minus", "± {number.plus_minus} " } }
                            "{number.unit}"
                        }
                    }
                }
            }
            StateLine {}
        }
    }
}
