//! What was seen from the outside: large answers, none of them needed.

use std::collections::BTreeMap;

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, Switch};
use super::super::desk::Desk;
use super::super::words::say;
use crate::job::{Damage, Look, OvenKind, Rust, Sign};
use crate::sizeup::{self, Question};

/// Signs with their texts.
const SIGNS: [(Sign, sizeup::Sign); 4] = [
    (Sign::Word, sizeup::Sign::Word),
    (Sign::CoreSeen, sizeup::Sign::CoreSeen),
    (Sign::BoardSeen, sizeup::Sign::BoardSeen),
    (Sign::HeavySide, sizeup::Sign::HeavySide),
];
const KINDS: [(OvenKind, sizeup::OvenKind); 3] = [
    (OvenKind::Solo, sizeup::OvenKind::Solo),
    (OvenKind::Grill, sizeup::OvenKind::Grill),
    (OvenKind::Combination, sizeup::OvenKind::Combination),
];
const RUST: [(Rust, sizeup::Rust); 3] = [
    (Rust::Clean, sizeup::Rust::Clean),
    (Rust::Surface, sizeup::Rust::Surface),
    (Rust::Deep, sizeup::Rust::Deep),
];
const DAMAGE: [(Damage, sizeup::Damage); 6] = [
    (Damage::Burnt, sizeup::Damage::Burnt),
    (Damage::Flooded, sizeup::Damage::Flooded),
    (Damage::Crushed, sizeup::Damage::Crushed),
    (Damage::PartsMissing, sizeup::Damage::PartsMissing),
    (Damage::CordCut, sizeup::Damage::CordCut),
    (Damage::DoorBroken, sizeup::Damage::DoorBroken),
];

/// The questions. `ask` is the one whose answer would tell most.
#[component]
pub fn Seen(ask: Option<Question>) -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let look: Look = desk.read().donor().map(|donor| donor.look).unwrap_or_default();
    let yes_no = |there: Option<bool>| match there {
        Some(true) => "yes",
        Some(false) => "no",
        None => "unseen",
    };
    let answers = || {
        vec![
            ("yes".to_owned(), say("ui-yes")),
            ("no".to_owned(), say("ui-no")),
            ("unseen".to_owned(), say("ui-not-looked")),
        ]
    };
    let openable = look.openable;
    rsx! {
        if let Some(question) = ask {
            p { class: "ask", strong { {say("ui-ask")} } " " {say(question.key())} }
        }
        section { class: "seen",
            h2 { {say("ui-seen")} }
            for (sign, text) in SIGNS {
                h3 { key: "{text.word()}", {say(text.key())} }
                Choices {
                    label: say(text.key()),
                    options: answers(),
                    chosen: yes_no(look.signs.get(&sign).copied()).to_owned(),
                    onchoose: move |word: String| desk.write().set_donor("Change what was seen", |donor| answer(&mut donor.look.signs, sign, &word)),
                }
            }
            h3 { {say("ui-kind")} }
            Choices {
                label: say("ui-kind"),
                options: KINDS.iter().map(|(_, text)| (text.word().to_owned(), say(text.key()))).collect::<Vec<_>>(),
                chosen: look.kind.and_then(|kind| KINDS.iter().find(|(k, _)| *k == kind)).map_or("", |(_, text)| text.word()).to_owned(),
                onchoose: move |word: String| desk.write().set_donor("Change the kind of oven", |donor| {
                    let chosen = KINDS.iter().find(|(_, text)| text.word() == word).map(|(kind, _)| *kind);
                    donor.look.kind = if donor.look.kind == chosen { None } else { chosen };
                }),
            }
            h3 { {say("ui-rust")} }
            Choices {
                label: say("ui-rust"),
                options: RUST.iter().map(|(_, text)| (text.word().to_owned(), say(text.key()))).collect::<Vec<_>>(),
                chosen: look.rust.and_then(|rust| RUST.iter().find(|(r, _)| *r == rust)).map_or("", |(_, text)| text.word()).to_owned(),
                onchoose: move |word: String| desk.write().set_donor("Change the rust", |donor| {
                    let chosen = RUST.iter().find(|(_, text)| text.word() == word).map(|(rust, _)| *rust);
                    donor.look.rust = if donor.look.rust == chosen { None } else { chosen };
                }),
            }
            h3 { {say("ui-damage")} }
            div { class: "switches",
                for (damage, text) in DAMAGE {
                    Switch {
                        key: "{text.word()}",
                        label: say(text.key()),
                        on: look.damage.contains(&damage),
                        onswitch: move |on| desk.write().set_donor("Change the damage", |donor| {
                            if on { donor.look.damage.insert(damage); } else { donor.look.damage.remove(&damage); }
                        }),
                    }
                }
            }
            NumberField { path: "donor.look.price" }
            h3 { {say("ui-openable")} }
            Choices {
                label: say("ui-openable"),
                options: answers(),
                chosen: yes_no(openable).to_owned(),
                onchoose: move |word: String| desk.write().set_donor("Change whether it can be opened", |donor| donor.look.openable = read(&word)),
            }
        }
    }
}

fn read(word: &str) -> Option<bool> {
    match word {
        "yes" => Some(true),
        "no" => Some(false),
        _ => None,
    }
}

fn answer(signs: &mut BTreeMap<Sign, bool>, sign: Sign, word: &str) {
    match read(word) {
        Some(there) => {
            signs.insert(sign, there);
        }
        None => {
            signs.remove(&sign);
        }
    }
}
