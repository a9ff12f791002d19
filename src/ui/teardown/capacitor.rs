//! The capacitor: the readings that prove it, and what it holds.

use dioxus::prelude::*;

use super::super::controls::Switch;
use super::super::words::{say, say_with, tell};
use crate::app::teardown::{CapacitorSheet, capacitor_sheet};
use crate::quantity::{Voltage, parse_number};
use crate::safety::{Item, TouchLimit};
use crate::teardown::Proof;
use crate::text::Arg;

/// The readings, in the order in which they are taken: from each terminal to the oven chassis, then
/// between the terminals.
const PROOF: [&str; 3] = ["ui-proof-first", "ui-proof-second", "ui-proof-between"];

/// Why the readings are not taken, with the id of the field's text.
#[derive(Debug, PartialEq)]
enum Unread {
    /// Nothing was typed.
    Missing(&'static str),
    /// What was typed is no number.
    NoNumber(&'static str, String),
}

fn readings(texts: &[String; 3]) -> Result<[f64; 3], Unread> {
    let mut numbers = [0.0; 3];
    for ((number, text), key) in numbers.iter_mut().zip(texts).zip(PROOF) {
        let text = text.trim();
        if text.is_empty() {
            return Err(Unread::Missing(key));
        }
        *number = parse_number(text).map_err(|_| Unread::NoNumber(key, text.to_owned()))?;
    }
    Ok(numbers)
}

/// The three readings of the meter. Only numbers prove anything.
#[component]
pub fn Proving(onprove: EventHandler<Proof>) -> Element {
    let mut typed = use_signal(|| [const { String::new() }; 3]);
    let mut refused = use_signal(|| None::<String>);
    let limit = TouchLimit::default();
    let shown = format!("{:.1}", limit.volts().si());
    rsx! {
        p { class: "item-text", {say(Item::ProvedByMeter.key())} }
        for (at, key) in PROOF.into_iter().enumerate() {
            div { class: "field", key: "{key}",
                label { r#for: "{key}", {say(key)} }
                div { class: "entry",
                    input {
                        id: "{key}", class: "value", inputmode: "decimal", autocomplete: "off", initial_value: "",
                        onchange: move |event| typed.write()[at] = event.value(),
                    }
                    span { class: "unit", "V" }
                }
            }
        }
        p { class: "hint", {say_with("ui-proof-limit", &[("volts", Arg::Text(&shown))])} }
        if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
        super::super::controls::HoldButton {
            label: say("ui-proof-record"),
            onheld: move |()| {
                let texts = typed.read().clone();
                match readings(&texts) {
                    Ok([first, second, between]) => {
                        refused.set(None);
                        onprove.call(Proof {
                            between: Voltage::from_si(between),
                            first_to_chassis: Voltage::from_si(first),
                            second_to_chassis: Voltage::from_si(second),
                            limit,
                        });
                    }
                    Err(Unread::Missing(key)) => {
                        refused.set(Some(say_with("ui-proof-missing", &[("field", Arg::Text(&say(key)))])));
                    }
                    Err(Unread::NoNumber(key, text)) => refused.set(Some(say_with(
                        "ui-proof-no-number",
                        &[("field", Arg::Text(&say(key))), ("text", Arg::Text(&text))],
                    ))),
                }
            },
        }
    }
}

/// What the capacitor holds, how long its bleeder takes, what the tool has to withstand. It informs;
/// it never passes a gate.
#[component]
pub fn Calculator() -> Element {
    let mut sheet = use_signal(CapacitorSheet::default);
    let answer = capacitor_sheet(&sheet.read());
    let fields = [
        ("ui-cap-value", "µF", sheet.read().microfarads.clone()),
        ("ui-cap-volts", "V", sheet.read().volts.clone()),
        ("ui-cap-bleeder", "MΩ", sheet.read().bleeder_megohms.clone()),
        ("ui-cap-tool", "kΩ", sheet.read().tool_kilohms.clone()),
        ("ui-cap-rated", "V", sheet.read().tool_rated_volts.clone()),
    ];
    rsx! {
        details { class: "calculator",
            summary { {say("ui-cap-title")} }
            p { class: "hint", {say("ui-cap-help")} }
            super::super::controls::Terms { words: vec![crate::text::Term::Bleeder] }
            Switch {
                label: say("ui-cap-failed"), on: sheet.read().bleeder_failed,
                onswitch: move |on| sheet.write().bleeder_failed = on,
            }
            for (at, (key, unit, held)) in fields.into_iter().enumerate() {
                if !(at == 2 && sheet.read().bleeder_failed) {
                    div { class: "field", key: "{key}",
                        label { r#for: "{key}", {say(key)} }
                        div { class: "entry",
                            input {
                                id: "{key}", class: "value", inputmode: "decimal", autocomplete: "off", value: "{held}",
                                onchange: move |event| {
                                    let text = event.value();
                                    let mut sheet = sheet.write();
                                    match at {
                                        0 => sheet.microfarads = text,
                                        1 => sheet.volts = text,
                                        2 => sheet.bleeder_megohms = text,
                                        3 => sheet.tool_kilohms = text,
                                        _ => sheet.tool_rated_volts = text,
                                    }
                                },
                            }
                            span { class: "unit", "{unit}" }
                        }
                    }
                }
            }
            match answer {
                Ok(rows) => rsx! {
                    dl {
                        for row in rows {
                            div { key: "{row.key}", dt { {say(row.key)} } dd { class: if row.danger { "danger-number" } else { "" }, "{row.value}" } }
                        }
                    }
                },
                Err(message) => rsx! { p { class: "refused", role: "alert", {tell(&message)} } },
            }
            p { class: "stop", {say("ui-cap-never")} }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_reading_and_a_word_are_told_apart() {
        let read = |texts: [&str; 3]| readings(&texts.map(str::to_owned));
        assert_eq!(read(["0.4", " 0,3 ", "1"]), Ok([0.4, 0.3, 1.0]));
        assert_eq!(read(["0.4", " ", "1"]), Err(Unread::Missing("ui-proof-second")));
        let word = Unread::NoNumber("ui-proof-between", "abc".to_owned());
        assert_eq!(read(["0.4", "0.3", "abc"]), Err(word));
    }
}
