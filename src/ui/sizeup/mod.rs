//! Size up: the verdict first, then what was seen, what is likely inside, what it is good for.

mod inside;
mod seen;
mod wanted;

use dioxus::prelude::*;

use super::controls::{NumberField, PhotoField, PhotosOf, Unreadable};
use super::state::{AppState, Screen};
use super::words::{find_name, say, say_part};
use crate::app::verdict::Verdict;
use crate::sizeup::VerdictWord;
use crate::store::Op;

/// The screen.
#[component]
pub fn SizeUp() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let Some(id) = app.read().donor_id() else {
        return rsx! {
            section { class: "welcome",
                h2 { {say("ui-size-up-title")} }
                p { {say("ui-size-up-help")} }
                button { class: "main wide", onclick: move |_| app.write().start_find(&find_name(), Screen::SizeUp), {say("ui-new-find")} }
            }
            Where {}
        };
    };
    if let Err(why) = app.read().donor() {
        return rsx! { Unreadable { why: Some(why) } };
    }
    let verdict = app.read().verdict();
    rsx! {
        match verdict {
            Some(Ok(verdict)) => rsx! {
                Headline { verdict: verdict.clone() }
                div { class: "columns",
                    div { class: "form",
                        seen::Seen { ask: verdict.answer.ask }
                        Label {}
                    }
                    div { class: "look",
                        inside::Inside { verdict: verdict.clone() }
                        wanted::Wanted { verdict }
                    }
                }
            },
            Some(Err(message)) => rsx! {
                p { class: "stop", role: "alert", "{message}." }
                seen::Seen { ask: None }
                Label {}
            },
            None => rsx! {},
        }
        section { class: "row",
            button { class: "main", onclick: move |_| app.write().go(Screen::Teardown), {say("ui-take-apart")} }
            button { class: "second", onclick: move |_| app.write().start_find(&find_name(), Screen::SizeUp), {say("ui-another-find")} }
            button { class: "quiet", onclick: move |_| app.write().remove_donor(id), {say("ui-leave-find")} }
        }
        Where {}
    }
}

/// Where ovens are found for nothing, what local rules may ask, and what never to pay.
#[component]
fn Where() -> Element {
    let lines = |key: &str| say(key).lines().map(str::to_owned).collect::<Vec<_>>();
    rsx! {
        details { class: "where",
            summary { {say("ui-where")} }
            ul { for line in lines("ui-where-places") { li { key: "{line}", "{line}" } } }
            p { class: "caution", {say("ui-where-leave")} }
            h3 { {say("ui-where-pay-title")} }
            ul { for line in lines("ui-where-pay") { li { key: "{line}", "{line}" } } }
        }
    }
}

const fn mark(verdict: VerdictWord) -> &'static str {
    match verdict {
        VerdictWord::Take => "✓",
        VerdictWord::TakeForParts => "◐",
        VerdictWord::Leave => "✕",
        VerdictWord::LookCloser => "?",
    }
}

/// The verdict with its reasons.
#[component]
fn Headline(verdict: Verdict) -> Element {
    let answer = &verdict.answer;
    let word = answer.verdict;
    let chance = (answer.iron_core * 100.0).round();
    rsx! {
        // Stays in sight while the answers below it change it.
        section { class: "verdict {word.word()}", role: "status",
            span { class: "mark", aria_hidden: "true", {mark(word)} }
            h2 { {say(word.key())} }
            span { class: "chance", {super::words::say_with("ui-chance", &[("percent", crate::text::Arg::Text(&format!("{chance:.0}\u{a0}%")))])} }
        }
        section { class: "because",
            p { {say_part(word.key(), "next")} }
            ul { class: "reasons",
                for reason in answer.reasons.iter() {
                    li { key: "{reason.word()}", {say(reason.key())} }
                }
            }
        }
    }
}

/// Name, what the label says, a photo of it.
#[component]
fn Label() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (name, hertz) = {
        let app = app.read();
        let donor = app.donor().ok().flatten().unwrap_or_default();
        (donor.name, donor.hertz)
    };
    rsx! {
        details { class: "label",
            summary { {say("ui-label")} }
            div { class: "field",
                label { r#for: "donor-name", {say("ui-donor-name")} }
                input {
                    id: "donor-name", class: "value long", autocomplete: "off", value: "{name}",
                    onchange: move |event| {
                        let name = event.value().trim().to_owned();
                        app.write().set_donor(Op::RenameDonor, |donor| donor.name = name);
                    },
                }
            }
            for path in ["donor.microwave_watts", "donor.input_watts", "donor.output_watts", "donor.mains_volts", "donor.mass_kg", "donor.look.age_years"] {
                NumberField { key: "{path}", path }
            }
            h3 { {say("ui-mains-frequency")} }
            super::controls::Choices {
                label: say("ui-mains-frequency"),
                options: vec![
                    ("50".to_owned(), "50 Hz".to_owned()),
                    ("60".to_owned(), "60 Hz".to_owned()),
                    ("unknown".to_owned(), say("ui-not-known")),
                ],
                chosen: hertz.map_or_else(|| "unknown".to_owned(), |hertz| hertz.to_string()),
                onchoose: move |word: String| app.write().set_donor(Op::Frequency, |donor| donor.hertz = word.parse().ok()),
            }
            PhotoField { of: PhotosOf::Donor, what: "label", label: say("ui-label-photo"), onkept: move |_| {} }
        }
    }
}
