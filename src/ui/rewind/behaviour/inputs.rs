//! What a topic depends on besides core and goal, for the person to set.

use dioxus::prelude::*;

use super::super::super::controls::{Choices, NumberField, Switch};
use super::super::super::state::{AppState, Screen};
use super::super::super::words::say;
use super::Topic;
use crate::job::{Conditions, Goal, InsulationClass, LaminationGrade, RectifierKind};
use crate::store::Op;

const IDLE_TESTS: [&str; 9] = [
    "conditions.idle_low.volts",
    "conditions.idle_low.amps",
    "conditions.idle_low.watts",
    "conditions.idle_middle.volts",
    "conditions.idle_middle.amps",
    "conditions.idle_middle.watts",
    "conditions.idle_full.volts",
    "conditions.idle_full.amps",
    "conditions.idle_full.watts",
];

/// The inputs of a topic.
#[component]
pub fn Inputs(topic: Topic) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (kept, charger) = {
        let app = app.read();
        let file = app.file();
        (
            file.is_some_and(|file| file.core.shunts_kept),
            file.is_some_and(|file| matches!(file.goal, Goal::BatteryCharger { .. })),
        )
    };
    rsx! {
        h3 { {say("ui-inputs")} }
        match topic {
            Topic::Idle => rsx! {
                Grade {}
                NumberField { path: "core.seam_gap_mm" }
                details {
                    summary { {say("ui-idle-test")} }
                    p { class: "caution", {say("ui-idle-test-caution")} }
                    button { class: "second wide", onclick: move |_| app.write().go(Screen::Bench), {say("ui-idle-test-bench")} }
                    for path in IDLE_TESTS { NumberField { key: "{path}", path } }
                }
            },
            Topic::Inrush => rsx! {
                NumberField { path: "conditions.mains_loop_ohm" }
                Grade {}
            },
            Topic::Shunts => rsx! {
                Switch {
                    label: say("ui-shunts-stay"),
                    on: kept,
                    onswitch: move |on| app.write().set_core(Op::Shunts, |core| core.shunts_kept = on),
                }
                for path in ["core.shunt_thickness_mm", "core.shunt_width_mm", "core.shunt_gap_mm"] {
                    NumberField { key: "{path}", path }
                }
            },
            Topic::Heat => rsx! {
                Insulation {}
                NumberField { path: "conditions.ambient_c" }
                NumberField { path: "conditions.fan_m_per_s" }
            },
            Topic::Direct => rsx! {
                Diodes { optional: !charger }
                if charger {
                    NumberField { path: "conditions.battery_ah" }
                    NumberField { path: "conditions.battery_milliohm" }
                } else {
                    NumberField { path: "conditions.capacitor_uf" }
                }
                NumberField { path: "conditions.choke_mh" }
            },
            Topic::Pairs => rsx! {},
        }
    }
}

fn conditions(app: &AppState) -> Conditions {
    app.file().map(|file| file.conditions.clone()).unwrap_or_default()
}

/// Which steel.
#[component]
pub fn Grade() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let chosen = conditions(&app.read()).steel.map_or("unknown", |grade| grade.word());
    let mut options = vec![("unknown".to_owned(), say("ui-steel-unknown"))];
    options.extend(
        LaminationGrade::ALL
            .iter()
            .map(|g| (g.word().to_owned(), g.word().to_owned())),
    );
    rsx! {
        h3 { {say("ui-steel")} }
        Choices {
            label: say("ui-steel"),
            options,
            chosen,
            onchoose: move |word: String| app.write().set_conditions(Op::Steel, |c| c.steel = LaminationGrade::from_word(&word)),
        }
    }
}

/// The insulation's thermal class.
#[component]
pub fn Insulation() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let chosen = conditions(&app.read())
        .insulation
        .map_or("unknown", |class| class.word());
    let mut options = vec![("unknown".to_owned(), say("ui-not-known"))];
    options.extend(InsulationClass::ALL.iter().map(|c| {
        let limit = crate::app::behaviour::heat::class_of(Some(*c)).limit().si();
        (c.word().to_owned(), format!("{} ({limit:.0} °C)", c.word()))
    }));
    rsx! {
        h3 { {say("ui-insulation")} }
        Choices {
            label: say("ui-insulation"),
            options,
            chosen,
            onchoose: move |word: String| app.write().set_conditions(Op::Insulation, |c| c.insulation = InsulationClass::from_word(&word)),
        }
        p { class: "hint", {say("ui-insulation-help")} }
    }
}

/// How the diodes are joined; `optional` where the use runs without any.
#[component]
fn Diodes(optional: bool) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let chosen = conditions(&app.read())
        .rectifier
        .map_or(if optional { "none" } else { "bridge" }, |kind| kind.word());
    let mut options = Vec::new();
    if optional {
        options.push(("none".to_owned(), say("ui-no-diodes")));
    }
    options.push((RectifierKind::Bridge.word().to_owned(), say("ui-bridge")));
    options.push((RectifierKind::CentreTap.word().to_owned(), say("ui-centre-tap")));
    rsx! {
        h3 { {say("ui-diodes")} }
        Choices {
            label: say("ui-diodes"),
            options,
            chosen,
            onchoose: move |word: String| app.write().set_conditions(Op::Diodes, |c| c.rectifier = RectifierKind::from_word(&word)),
        }
    }
}
