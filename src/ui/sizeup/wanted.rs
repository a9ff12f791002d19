//! Which wanted uses it suits, and whether its price pays back.

use dioxus::prelude::*;

use super::super::controls::Switch;
use super::super::state::AppState;
use super::super::words::use_label;
use super::super::words::{say, say_with};
use crate::app::verdict::{Verdict, wantable};
use crate::sizeup::FitHow;
use crate::store::Setting;
use crate::text::Arg;

/// Fits, pay-back, and the wants and prices that they rest on.
#[component]
pub fn Wanted(verdict: Verdict) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let wants = verdict.wants.clone();
    let rows: Vec<(&'static str, String)> = verdict
        .answer
        .fits
        .iter()
        .filter_map(|fit| {
            let word = *verdict.wants.get(fit.want)?;
            let with = fit.shelf.and_then(|at| verdict.shelf.get(at));
            let chance = format!("{:.0}\u{a0}%", fit.chance * 100.0);
            let how = match (fit.how, with) {
                (FitHow::WithShelf, Some(name)) => say_with("ui-fit-with", &[("name", Arg::Text(name))]),
                (how, _) => say(how.key()),
            };
            Some((word, format!("{how} ({chance})")))
        })
        .collect();
    rsx! {
        section { class: "fits",
            h2 { {say("ui-fits")} }
            dl {
                for (word, how) in rows {
                    div { key: "{word}", dt { {use_label(word)} } dd { class: "words", "{how}" } }
                }
            }
            details {
                summary { {say("ui-wants")} }
                for word in wantable() {
                    Switch {
                        key: "{word}",
                        label: use_label(word),
                        on: wants.contains(&word),
                        onswitch: move |on| app.write().set_want(word, on),
                    }
                }
            }
        }
        section { class: "pays",
            h2 { {say("ui-pays")} }
            match &verdict.answer.pay_back {
                Some(back) => rsx! {
                    p { strong { {say(back.pays.key())} } }
                    p { class: "hint",
                        {say_with("ui-saves", &[
                            ("low", Arg::Text(&format!("{:.0}", back.low.si()))),
                            ("likely", Arg::Text(&format!("{:.0}", back.likely.si()))),
                            ("high", Arg::Text(&format!("{:.0}", back.high.si()))),
                        ])}
                    }
                },
                None => rsx! { p { class: "hint", {say("ui-pays-help")} } },
            }
            details {
                summary { {say("ui-prices")} }
                Price { setting: Setting::PriceNew, label: say("ui-price-new") }
                Price { setting: Setting::PriceCopper, label: say("ui-price-copper") }
            }
        }
    }
}

#[component]
fn Price(setting: Setting, label: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| false);
    let held = app.read().price(setting);
    let id = format!("price-{setting:?}");
    rsx! {
        div { class: "field",
            label { r#for: "{id}", "{label}" }
            input {
                id: "{id}", class: "value", inputmode: "decimal", autocomplete: "off", value: "{held}",
                onchange: move |event| {
                    let fine = app.write().set_price(setting, &event.value());
                    refused.set(!fine);
                },
            }
            if refused() { p { class: "refused", role: "alert", {say("ui-price-refused")} } }
        }
    }
}
