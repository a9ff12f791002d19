//! What to record at a step: large answers, numbers, a photo.

use dioxus::prelude::*;

use super::super::controls::{Choices, PhotoField, PhotosOf, Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::use_label;
use super::super::words::{say, say_with, told};
use crate::quantity::{Length, LengthUnit, Mass, parse_length, parse_number};
use crate::report;
use crate::teardown::{Field, Finding, Findings, ShuntFate, Supply, Way, Winding};
use crate::text::Arg;
use crate::wire::Metal;

/// The fields of a step.
#[component]
pub fn Records(fields: Vec<Field>, must: Vec<Field>, found: Findings, onfound: EventHandler<Finding>) -> Element {
    rsx! {
        section { class: "records",
            h3 { {say("ui-record")} }
            for field in fields {
                div { key: "{field.word()}",
                    Record { field, needed: must.contains(&field) && !found.has(field), found: found.clone(), onfound }
                }
            }
        }
    }
}

/// Answers of a kind: the word, the text.
macro_rules! options {
    ($kind:ident) => {
        $kind::ALL
            .iter()
            .map(|member| (member.word().to_owned(), say(member.key())))
            .collect::<Vec<_>>()
    };
}

#[component]
fn Record(field: Field, needed: bool, found: Findings, onfound: EventHandler<Finding>) -> Element {
    let label = say(field.key());
    let title = if needed {
        format!("{label} ({})", say("ui-needed"))
    } else {
        label.clone()
    };
    let choice = |options: Vec<(String, String)>, chosen: Option<&'static str>, take: fn(&str) -> Option<Finding>| {
        rsx! {
            h4 { "{title}" }
            Choices {
                label: label.clone(),
                options,
                chosen: chosen.unwrap_or("").to_owned(),
                onchoose: move |word: String| if let Some(finding) = take(&word) { onfound.call(finding) },
            }
        }
    };
    match field {
        Field::Photo => rsx! {
            PhotoField { of: PhotosOf::Donor, what: "teardown", label, onkept: move |id: crate::job::PhotoId| onfound.call(Finding::Photo(id.0.as_u128())) }
        },
        Field::Supply => choice(options!(Supply), found.supply.map(Supply::word), |word| {
            Supply::from_word(word).map(Finding::Supply)
        }),
        Field::WindingAtBack => choice(options!(Winding), found.at_back.map(Winding::word), |word| {
            Winding::from_word(word).map(Finding::WindingAtBack)
        }),
        Field::Way => choice(options!(Way), found.way.map(Way::word), |word| {
            Way::from_word(word).map(Finding::Way)
        }),
        Field::Shunts => {
            let fate = choice(options!(ShuntFate), found.shunts.map(ShuntFate::word), |word| {
                ShuntFate::from_word(word).map(Finding::Shunts)
            });
            rsx! { Advice {} {fate} }
        }
        Field::PrimaryMetal => choice(
            Metal::ALL
                .iter()
                .map(|metal| (metal.word().to_owned(), say(&format!("metal-{}", metal.word()))))
                .collect(),
            found.primary_metal.map(Metal::word),
            |word| Metal::from_word(word).map(Finding::PrimaryMetal),
        ),
        Field::WireCount | Field::Terminals | Field::TransformerMass | Field::SeamThickness => rsx! {
            Number { field, found, onfound }
        },
    }
}

/// A number with its unit and range.
#[component]
fn Number(field: Field, found: Findings, onfound: EventHandler<Finding>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| None::<String>);
    let unit = app.read().unit();
    let (symbol, range, held) = match field {
        Field::WireCount => ("", "1 to 40".to_owned(), found.wire_count.map(|n| n.to_string())),
        Field::Terminals => ("", "1 to 40".to_owned(), found.terminals.map(|n| n.to_string())),
        Field::TransformerMass => (
            "kg",
            "0.2 to 30 kg".to_owned(),
            found.transformer_mass.map(|mass| format!("{:.2}", mass.si())),
        ),
        _ => {
            let (range, held) = match unit {
                LengthUnit::Inch => (
                    "0.004 to 0.78 in",
                    found.seam_thickness.map(|l| format!("{:.3}", l.mm() / 25.4)),
                ),
                LengthUnit::Millimetre => ("0.1 to 20 mm", found.seam_thickness.map(|l| format!("{:.1}", l.mm()))),
            };
            (unit.symbol(), range.to_owned(), held)
        }
    };
    let id = format!("finding-{}", field.word());
    let told = range.clone();
    rsx! {
        div { class: "field",
            label { r#for: "{id}", {say(field.key())} }
            div { class: "entry",
                input {
                    id: "{id}", class: "value", inputmode: "decimal", autocomplete: "off", value: held.unwrap_or_default(),
                    onchange: move |event| {
                        let finding = read(field, &event.value(), unit);
                        match finding {
                            Some(finding) => {
                                refused.set(None);
                                onfound.call(finding);
                            }
                            None => refused.set(Some(say_with("refusal-out-of-range", &[("range", Arg::Text(&told))]))),
                        }
                    },
                }
                span { class: "unit", "{symbol}" }
            }
            p { class: "hint", "{range}." }
            if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
        }
    }
}

fn read(field: Field, text: &str, unit: LengthUnit) -> Option<Finding> {
    let count = || {
        let number = parse_number(text).ok()?;
        ((1.0..=40.0).contains(&number) && number.fract() == 0.0).then_some(number as u16)
    };
    match field {
        Field::WireCount => count().map(Finding::WireCount),
        Field::Terminals => count().map(Finding::Terminals),
        Field::TransformerMass => parse_number(text)
            .ok()
            .map(|kilograms| Finding::TransformerMass(Mass::from_si(kilograms))),
        _ => parse_length(text, unit)
            .ok()
            .map(|length: Length| Finding::SeamThickness(length)),
    }
}

/// What the physics says of the shunts, for each use that the person wants a core for.
#[component]
fn Advice() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found = use_memo(move || {
        let (advice, unread) = or_why(app.read().shunt_advice());
        let rows = told(|texts| {
            Some(
                advice
                    .iter()
                    .map(|(word, advice)| (use_label(word), report::behaviour::shunt_sentence(advice, texts)))
                    .collect::<Vec<_>>(),
            )
        })
        .unwrap_or_default();
        (rows, unread)
    });
    let (rows, unread) = found();
    rsx! {
        p { class: "hint", {say("ui-shunt-advice")} }
        Unreadable { why: unread }
        dl { class: "advice",
            for (label, sentence) in rows {
                div { key: "{label}", dt { "{label}" } dd { class: "words", "{sentence}" } }
            }
        }
    }
}
