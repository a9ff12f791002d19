//! The object of known size: what it is, its size, and how high it lies.

use dioxus::prelude::*;

use super::super::super::controls::Choices;
use super::super::super::words::say;
use super::PhotoEditor;
use crate::app::photo::height_on_face;
use crate::job::{PhotoReference, Reading};
use crate::photo::{Coin, Paper, Sheet};
use crate::quantity::{LengthUnit, Origin, parse_length};

const KINDS: [(&str, &str); 7] = [
    ("card", "ui-object-card"),
    ("coin", "ui-object-coin"),
    ("paper", "ui-object-paper"),
    ("target", "ui-object-target"),
    ("rule", "ui-object-rule"),
    ("rectangle", "ui-object-rectangle"),
    ("disc", "ui-object-disc"),
];

const fn kind_of(reference: &PhotoReference) -> &'static str {
    match reference {
        PhotoReference::Card => "card",
        PhotoReference::Paper { .. } => "paper",
        PhotoReference::Coin { .. } => "coin",
        PhotoReference::Rectangle { .. } => "rectangle",
        PhotoReference::Disc { .. } => "disc",
        PhotoReference::Rule { .. } => "rule",
        PhotoReference::Target { .. } => "target",
    }
}

/// A new object of a kind, with the size it usually has.
fn usual(kind: &str) -> PhotoReference {
    let own = |mm: f64| Reading::new(mm, 0.2, Origin::Calipers);
    match kind {
        "paper" => PhotoReference::Paper {
            size: Paper::A4.word().to_owned(),
        },
        "coin" => PhotoReference::Coin {
            coin: "eur-1".to_owned(),
        },
        "rectangle" => PhotoReference::Rectangle {
            width_mm: own(100.0),
            height_mm: own(50.0),
        },
        "disc" => PhotoReference::Disc { diameter_mm: own(40.0) },
        "rule" => PhotoReference::Rule { length_mm: own(100.0) },
        "target" => PhotoReference::Target {
            sheet: Sheet::A4.word().to_owned(),
            check_mm: Reading::new(100.0, 0.3, Origin::Rule),
        },
        _ => PhotoReference::Card,
    }
}

/// The form.
#[component]
pub fn ReferenceForm() -> Element {
    let editor = use_context::<PhotoEditor>();
    let reference = editor.reference.read().clone();
    let kind = kind_of(&reference);
    let set = move |reference: PhotoReference| {
        let mut editor = editor;
        let same = kind_of(&reference) == kind;
        editor.change(|marks| {
            marks.height_mm = height_on_face(&reference);
            marks.reference = reference.clone();
            if !same {
                marks.found = None;
                marks.object_doubts.clear();
            }
        });
        editor.reference.set(reference);
    };
    rsx! {
        h3 { {say("ui-object")} }
        Choices {
            label: say("ui-object"),
            options: KINDS.iter().map(|(word, key)| ((*word).to_owned(), say(key))).collect::<Vec<_>>(),
            chosen: kind,
            onchoose: move |word: String| set(usual(&word)),
        }
        match reference {
            PhotoReference::Card => rsx! { p { class: "hint", {say("ui-object-card-help")} } },
            PhotoReference::Paper { size } => rsx! {
                Choices {
                    label: say("ui-object-paper"),
                    options: Paper::ALL.iter().map(|p| (p.word().to_owned(), p.word().to_uppercase())).collect::<Vec<_>>(),
                    chosen: size,
                    onchoose: move |size| set(PhotoReference::Paper { size }),
                }
            },
            PhotoReference::Coin { coin } => rsx! {
                div { class: "field",
                    label { r#for: "coin", {say("ui-object-coin")} }
                    select {
                        id: "coin", class: "long",
                        onchange: move |event| set(PhotoReference::Coin { coin: event.value() }),
                        for one in Coin::ALL.iter() {
                            option { value: one.word(), selected: coin == one.word(),
                                {format!("{} ({:.2} mm)", one.word().to_uppercase().replace('-', " "), one.diameter().value.mm())}
                            }
                        }
                    }
                }
            },
            PhotoReference::Rectangle { width_mm, height_mm } => rsx! {
                Size { id: "object-width", label: say("ui-object-width"), held: width_mm, onset: move |width_mm| set(PhotoReference::Rectangle { width_mm, height_mm }) }
                Size { id: "object-height", label: say("ui-object-height"), held: height_mm, onset: move |height_mm| set(PhotoReference::Rectangle { width_mm, height_mm }) }
            },
            PhotoReference::Disc { diameter_mm } => rsx! {
                Size { id: "object-across", label: say("ui-object-across"), held: diameter_mm, onset: move |diameter_mm| set(PhotoReference::Disc { diameter_mm }) }
            },
            PhotoReference::Rule { length_mm } => rsx! {
                Size { id: "object-marks", label: say("ui-object-marks"), held: length_mm, onset: move |length_mm| set(PhotoReference::Rule { length_mm }) }
            },
            PhotoReference::Target { sheet, check_mm } => rsx! {
                Choices {
                    label: say("ui-object-target"),
                    options: Sheet::ALL.iter().map(|s| (s.word().to_owned(), s.word().to_uppercase())).collect::<Vec<_>>(),
                    chosen: sheet.clone(),
                    onchoose: move |sheet| set(PhotoReference::Target { sheet, check_mm }),
                }
                Size { id: "object-check", label: say("ui-object-check"), held: check_mm, onset: move |check_mm| set(PhotoReference::Target { sheet: sheet.clone(), check_mm }) }
                p { class: "hint", {say("ui-object-target-help")} }
            },
        }
        Level {}
    }
}

/// How high the object lies.
#[component]
fn Level() -> Element {
    let editor = use_context::<PhotoEditor>();
    let Some(marks) = editor.marks.read().clone() else {
        return rsx! {};
    };
    let on = height_on_face(&marks.reference);
    let chosen = if marks.height_mm == on {
        "on"
    } else if marks.height_mm.value == 0.0 {
        "level"
    } else {
        "other"
    };
    let set = move |height: Reading| editor.change(|marks| marks.height_mm = height);
    rsx! {
        h3 { {say("ui-level")} }
        Choices {
            label: say("ui-level"),
            options: vec![
                ("on".to_owned(), say("ui-level-on")),
                ("level".to_owned(), say("ui-level-beside")),
                ("other".to_owned(), say("ui-level-other")),
            ],
            chosen,
            onchoose: move |word: String| set(match word.as_str() {
                "on" => on,
                "level" => Reading::new(0.0, 1.0, Origin::Typical),
                _ => Reading::new(30.0, 1.0, Origin::Calipers),
            }),
        }
        if chosen == "other" {
            Size { id: "object-level", label: say("ui-level-height"), held: marks.height_mm, onset: set }
        }
    }
}

/// A length of the object, with its ±.
#[component]
fn Size(id: String, label: String, held: Reading, onset: EventHandler<Reading>) -> Element {
    let mut refused = use_signal(|| false);
    let mut read = move |value: String, spread: String| {
        let mm = |text: &str| parse_length(text, LengthUnit::Millimetre).map(|length| length.mm());
        match (mm(&value), mm(&spread)) {
            (Ok(value), Ok(spread)) if value.abs() <= 1000.0 && (0.0..=100.0).contains(&spread) => {
                refused.set(false);
                onset.call(Reading::new(value, spread, Origin::Calipers));
            }
            _ => refused.set(true),
        }
    };
    let (value, spread) = (held.value.to_string(), held.plus_minus.to_string());
    let (kept_value, kept_spread) = (value.clone(), spread.clone());
    rsx! {
        div { class: "field",
            label { r#for: "{id}", "{label}" }
            div { class: "entry",
                input { id: "{id}", class: "value", inputmode: "decimal", autocomplete: "off", value: "{value}",
                    onchange: move |event| read(event.value(), kept_spread.clone()) }
                span { class: "unit", "mm ±" }
                input { class: "spread", inputmode: "decimal", autocomplete: "off", aria_label: "{label} ±", value: "{spread}",
                    onchange: move |event| read(kept_value.clone(), event.value()) }
            }
            if refused() { p { class: "refused", role: "alert", {say("ui-object-refused")} } }
        }
    }
}
