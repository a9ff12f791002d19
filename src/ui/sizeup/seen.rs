//! What was seen from the outside: large answers, none of them needed.

use std::collections::BTreeMap;

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, Switch};
use super::super::state::AppState;
use super::super::words::say;
use crate::app::verdict::{damage, oven_kind, rust, sign};
use crate::job::{Damage, Look, OvenKind, Rust, Sign};
use crate::sizeup::Question;
use crate::store::Op;

/// The questions. `ask` is the one whose answer would tell most.
#[component]
pub fn Seen(ask: Option<Question>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let look: Look = app
        .read()
        .donor()
        .ok()
        .flatten()
        .map(|donor| donor.look)
        .unwrap_or_default();
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
            for (seen, text) in Sign::ALL.iter().map(|seen| (*seen, sign(*seen))) {
                h3 { key: "{text.word()}", {say(text.key())} }
                Choices {
                    label: say(text.key()),
                    options: answers(),
                    chosen: yes_no(look.signs.get(&seen).copied()).to_owned(),
                    onchoose: move |word: String| app.write().set_donor(Op::Seen, |donor| answer(&mut donor.look.signs, seen, &word)),
                }
            }
            h3 { {say("ui-kind")} }
            Choices {
                label: say("ui-kind"),
                options: OvenKind::ALL.iter().map(|kind| oven_kind(*kind)).map(|text| (text.word().to_owned(), say(text.key()))).collect::<Vec<_>>(),
                chosen: look.kind.map_or("", |kind| oven_kind(kind).word()).to_owned(),
                onchoose: move |word: String| app.write().set_donor(Op::OvenKind, |donor| {
                    let chosen = OvenKind::ALL.iter().copied().find(|kind| oven_kind(*kind).word() == word);
                    donor.look.kind = if donor.look.kind == chosen { None } else { chosen };
                }),
            }
            h3 { {say("ui-rust")} }
            Choices {
                label: say("ui-rust"),
                options: Rust::ALL.iter().map(|depth| rust(*depth)).map(|text| (text.word().to_owned(), say(text.key()))).collect::<Vec<_>>(),
                chosen: look.rust.map_or("", |depth| rust(depth).word()).to_owned(),
                onchoose: move |word: String| app.write().set_donor(Op::Rust, |donor| {
                    let chosen = Rust::ALL.iter().copied().find(|depth| rust(*depth).word() == word);
                    donor.look.rust = if donor.look.rust == chosen { None } else { chosen };
                }),
            }
            h3 { {say("ui-damage")} }
            div { class: "switches",
                for (seen, text) in Damage::ALL.iter().map(|seen| (*seen, damage(*seen))) {
                    Switch {
                        key: "{text.word()}",
                        label: say(text.key()),
                        on: look.damage.contains(&seen),
                        onswitch: move |on| app.write().set_donor(Op::Damage, |donor| {
                            if on { donor.look.damage.insert(seen); } else { donor.look.damage.remove(&seen); }
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
                onchoose: move |word: String| app.write().set_donor(Op::Openable, |donor| donor.look.openable = read(&word)),
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
