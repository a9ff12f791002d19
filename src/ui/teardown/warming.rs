//! How long the core takes to warm through.

use dioxus::prelude::*;

use super::super::controls::Choices;
use super::super::words::{say, say_with, tell};
use crate::app::teardown::warming_minutes;
use crate::quantity::{Temperature, parse_number};
use crate::teardown::{Air, Findings};
use crate::text::Arg;

/// Air, its temperature, the core's, and the time between two ends.
#[component]
pub fn Warming(found: Findings) -> Element {
    let mut air = use_signal(|| Air::FanOven);
    let mut celsius = use_signal(|| ["120".to_owned(), "90".to_owned()]);
    let number = |at: usize| parse_number(&celsius.read()[at]).unwrap_or(f64::NAN);
    let answer = warming_minutes(
        &found,
        air(),
        Temperature::from_si(number(0)),
        Temperature::from_si(number(1)),
    );
    rsx! {
        section { class: "warming",
            h3 { {say("ui-warm-title")} }
            Choices {
                label: say("ui-warm-air"),
                options: Air::ALL.iter().map(|air| (air.word().to_owned(), say(air.key()))).collect::<Vec<_>>(),
                chosen: air().word().to_owned(),
                onchoose: move |word: String| if let Some(chosen) = Air::from_word(&word) { air.set(chosen) },
            }
            for (at, key) in ["ui-warm-setting", "ui-warm-target"].into_iter().enumerate() {
                div { class: "field", key: "{key}",
                    label { r#for: "{key}", {say(key)} }
                    div { class: "entry",
                        input {
                            id: "{key}", class: "value", inputmode: "decimal", autocomplete: "off", value: "{celsius.read()[at]}",
                            onchange: move |event| celsius.write()[at] = event.value(),
                        }
                        span { class: "unit", "°C" }
                    }
                }
            }
            match answer {
                Ok((shortest, likely, longest)) => rsx! {
                    p { class: "headline",
                        {say_with("ui-warm-time", &[
                            ("likely", Arg::Text(&likely)), ("shortest", Arg::Text(&shortest)), ("longest", Arg::Text(&longest)),
                        ])}
                    }
                },
                Err(message) => rsx! { p { class: "refused", role: "alert", {tell(&message)} } },
            }
        }
    }
}
