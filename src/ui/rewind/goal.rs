//! What the core is to become.

use dioxus::prelude::*;

use super::super::controls::{Choices, HoldButton, NumberField, Switch};
use super::super::shelf::use_label;
use super::super::state::AppState;
use super::super::words::{say, say_part};
use crate::job::{Goal, User, fields};
use crate::safety::{Gate, Hazard, Item};
use crate::store::Op;

/// Uses offered.
const USES: &[&str] = &[
    "spot_welder",
    "stick_welder",
    "arc_furnace",
    "plasma_cutter",
    "battery_charger",
    "plain_supply",
    "choke",
    "ballast",
];

/// The form.
#[component]
pub fn GoalForm() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let Some(goal) = app.read().file().map(|file| file.goal) else {
        return rsx! {};
    };
    let options = USES
        .iter()
        .map(|word| ((*word).to_owned(), use_label(word)))
        .collect::<Vec<_>>();
    let word = goal.word();
    let paths: Vec<&'static str> = fields::ALL
        .iter()
        .filter(|f| f.only_for == Some(word))
        .map(|f| f.path)
        .collect();
    rsx! {
        section {
            h2 { {say("ui-new-use")} }
            Choices {
                label: say("ui-use"),
                options,
                chosen: word.to_owned(),
                onchoose: move |word: String| app.write().choose_use(&word),
            }
            for path in paths { NumberField { key: "{word}-{path}", path } }
            match goal {
                Goal::StickWelder { .. } => rsx! { Welder {} },
                Goal::PlasmaCutter { .. } | Goal::BatteryCharger { .. } => rsx! { MustConfirm {} },
                _ => rsx! {},
            }
        }
    }
}

#[component]
fn Welder() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let Some(Goal::StickWelder {
        arc_current_a,
        duty,
        user,
        wet_or_cramped,
    }) = app.read().file().map(|file| file.goal)
    else {
        return rsx! {};
    };
    let with = move |user, wet_or_cramped| Goal::StickWelder {
        arc_current_a,
        duty,
        user,
        wet_or_cramped,
    };
    rsx! {
        Switch {
            label: say("ui-trained-only"),
            on: user == User::Trained,
            onswitch: move |on| {
                let user = if on { User::Trained } else { User::Layman };
                app.write().set_goal(Op::Welder, with(user, wet_or_cramped));
            },
        }
        Switch {
            label: say("ui-wet-or-cramped"),
            on: wet_or_cramped,
            onswitch: move |on| app.write().set_goal(Op::Place, with(user, on)),
        }
        p { class: "hint", {say("ui-open-circuit-limits")} }
    }
}

/// What the use asks to be confirmed before its winding may be tested, item by item of its gate, each
/// held; taken back with a tap.
#[component]
fn MustConfirm() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut held = use_signal(|| 0usize);
    let Some(goal) = app.read().file().map(|file| file.goal) else {
        return rsx! {};
    };
    let (caution, items, name, confirmed) = match goal {
        Goal::PlasmaCutter { confirmed, .. } => (
            Hazard::PlasmaVoltage,
            Gate::PlasmaVoltage.items(),
            Op::ConfirmPlasma,
            confirmed,
        ),
        // Air, fuse and goggles come with each charge: the bench asks for them.
        Goal::BatteryCharger { confirmed, .. } => (
            Hazard::WrongBattery,
            &[Item::LeadAcidOnly][..],
            Op::ConfirmBattery,
            confirmed,
        ),
        _ => return rsx! {},
    };
    let with = move |on: bool| match goal {
        Goal::PlasmaCutter {
            cut_current_a,
            arc_volts,
            open_circuit_volts,
            duty,
            ..
        } => Goal::PlasmaCutter {
            cut_current_a,
            arc_volts,
            open_circuit_volts,
            duty,
            confirmed: on,
        },
        Goal::BatteryCharger {
            battery_volts,
            charge_current_a,
            ..
        } => Goal::BatteryCharger {
            battery_volts,
            charge_current_a,
            confirmed: on,
        },
        other => other,
    };
    let next = if confirmed {
        items.len()
    } else {
        held().min(items.len())
    };
    rsx! {
        section { class: "must-confirm",
            p { class: "danger", strong { {say(caution.key())} } ". " {say_part(caution.key(), "arises")} " " {say_part(caution.key(), "harm")} }
            ol { class: "items",
                for (at, item) in items.iter().copied().enumerate() {
                    li { key: "{item.word()}", class: if at < next { "confirmed" } else if at == next { "next" } else { "later" },
                        if at < next {
                            p { span { class: "mark", aria_hidden: "true", "✓" } " " {say(item.key())} }
                        } else if at == next {
                            HoldButton {
                                label: say(item.key()),
                                onheld: move |()| {
                                    if at + 1 == items.len() {
                                        held.set(0);
                                        app.write().set_goal(name, with(true));
                                    } else {
                                        held.set(at + 1);
                                    }
                                },
                            }
                        } else {
                            p { {say(item.key())} }
                        }
                    }
                }
            }
            if confirmed {
                button { class: "quiet", onclick: move |_| app.write().set_goal(name, with(false)), {say("ui-confirm-again")} }
            } else {
                p { class: "hint", {say("ui-confirm-first")} }
            }
        }
    }
}
