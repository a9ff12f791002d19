//! What the core is to become.

use dioxus::prelude::*;

use super::super::controls::{Choices, HoldButton, NumberField, Switch};
use super::super::state::AppState;
use super::super::words::use_label;
use super::super::words::{say, say_part, say_with};
use crate::app::guard::guarded;
use crate::app::strongest::Raise;
use crate::job::{Goal, User, fields};
use crate::quantity::{Current, format_significant};
use crate::rewind::limits::Limit;
use crate::safety::{Gate, Hazard, Item};
use crate::store::Op;
use crate::text::Arg;

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
    let as_much = app
        .read()
        .file()
        .is_some_and(|file| file.conditions.wants_as_much(&goal));
    // The wanted current, or all that a coil is made by, stands in sight; what goes with a current is folded.
    let (targets, rest): (Vec<&'static str>, Vec<&'static str>) = fields::ALL
        .iter()
        .filter(|f| f.only_for == Some(word))
        .map(|f| f.path)
        .filter(|path| !as_much || current_path(word) != Some(path))
        .partition(|path| current_path(word).is_none_or(|current| current == *path));
    rsx! {
        section {
            h2 { {say("ui-new-use")} }
            Choices {
                label: say("ui-use"),
                options,
                chosen: word.to_owned(),
                onchoose: move |word: String| app.write().choose_use(&word),
            }
            if current_path(word).is_some() { TargetChoice {} }
            div { class: "targets",
                for path in targets { NumberField { key: "{word}-{path}", path } }
            }
            if !rest.is_empty() {
                details { class: "about-use",
                    summary { {say("ui-about-use")} }
                    for path in rest { NumberField { key: "{word}-{path}", path } }
                    Aluminium {}
                }
            }
            match goal {
                Goal::StickWelder { .. } => rsx! { Welder {} },
                Goal::PlasmaCutter { .. } | Goal::BatteryCharger { .. } => rsx! { MustConfirm {} },
                _ => rsx! {},
            }
        }
    }
}

/// The field of a use's wanted current; none where nothing but a number can be wanted.
fn current_path(word: &str) -> Option<&'static str> {
    match word {
        "spot_welder" => Some("goal.weld_current_a"),
        "stick_welder" => Some("goal.arc_current_a"),
        "arc_furnace" => Some("goal.current_a"),
        "plasma_cutter" => Some("goal.cut_current_a"),
        "battery_charger" => Some("goal.charge_current_a"),
        "plain_supply" => Some("goal.amps"),
        _ => None,
    }
}

/// Whether a number is wanted or all that the core gives, and what the core gives.
#[component]
fn TargetChoice() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let Some((goal, as_much)) = app
        .read()
        .file()
        .map(|file| (file.goal, file.conditions.wants_as_much(&file.goal)))
    else {
        return rsx! {};
    };
    let options = vec![
        ("as-much".to_owned(), say("ui-target-as-much")),
        ("number".to_owned(), say("ui-target-number")),
    ];
    rsx! {
        Choices {
            label: say("ui-target"),
            options,
            chosen: if as_much { "as-much" } else { "number" },
            onchoose: move |word: String| {
                let on = word == "as-much";
                app.write().set_conditions(Op::Target, |conditions| conditions.want_as_much(&goal, on));
            },
        }
        StrongestView {}
    }
}

/// Whether windings of aluminium are offered too.
#[component]
fn Aluminium() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let on = app.read().file().is_some_and(|file| file.conditions.aluminium);
    rsx! {
        Switch {
            label: say("ui-aluminium-too"),
            on,
            onswitch: move |on| app.write().set_conditions(Op::Aluminium, |conditions| conditions.aluminium = on),
        }
    }
}

/// The most that the core gives, what holds it back, and what would give more.
#[component]
fn StrongestView() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found = match app.read().answer() {
        Some(Ok(answer)) => guarded(|| answer.strongest().cloned()).ok().flatten(),
        _ => None,
    };
    let Some(found) = found else { return rsx! {} };
    let amps = |current: Current| format_significant(current.si(), 3);
    let gives = amps(found.current);
    let gives = [("amps", Arg::Text(&gives))];
    // Where a number is the target, this stands there because it is out of reach.
    let as_much = app
        .read()
        .file()
        .is_some_and(|file| file.conditions.wants_as_much(&file.goal));
    let recommended =
        matches!(app.read().answer(), Some(Ok(answer)) if answer.design.as_ref().is_some_and(|design| !design.chosen));
    let gives_key = if as_much { "ui-gives" } else { "ui-gives-at-most" };
    let held = match found.held_by {
        None => say("ui-held-load"),
        Some(Limit::WindowFit) => say("ui-held-window-fit"),
        Some(Limit::BranchCircuit) => say("ui-held-branch-circuit"),
        Some(Limit::PrimaryHeat) => say("ui-held-primary-heat"),
        Some(Limit::WindingHeat) => say("ui-held-winding-heat"),
        Some(limit) => say_with("ui-held-other", &[("limit", Arg::Text(&say(limit.key())))]),
    };
    let raise = found.raise.map(|(raise, more)| {
        let more = amps(more);
        match raise {
            Raise::Outlet(outlet) => {
                let args = [("outlet", Arg::Text(outlet.label)), ("amps", Arg::Text(&more))];
                say_with("ui-raise-outlet", &args)
            }
            Raise::Fan => say_with("ui-raise-fan", &[("amps", Arg::Text(&more))]),
            Raise::HalfTheDuty => say_with("ui-raise-duty", &[("amps", Arg::Text(&more))]),
        }
    });
    rsx! {
        p { class: "strongest",
            // The answer card says it of the winding that is recommended.
            if !(as_much && recommended) { strong { {say_with(gives_key, &gives)} } " " }
            "{held}"
            if let Some(raise) = raise { " {raise}" }
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
            p { class: "caution", strong { {say(caution.key())} } ". " {say_part(caution.key(), "arises")} " " {say_part(caution.key(), "harm")} }
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
