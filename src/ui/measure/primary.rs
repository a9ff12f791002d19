//! The donor's primary and the tests of its turns.

use dioxus::prelude::*;

use super::super::controls::{Choices, Fold, NumberField, TestGroup};
use super::super::state::AppState;
use super::super::words::say;
use super::test_turn::TestTurnForm;
use crate::job::PrimaryMetal;
use crate::store::Op;

/// The form.
#[component]
pub fn PrimaryForm() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (metal, test_turn, old_secondary) = {
        let app = app.read();
        let Some(file) = app.file() else { return rsx! {} };
        let primary = &file.core.primary;
        (
            primary.metal,
            primary.test_turn.is_some(),
            primary.old_secondary.is_some(),
        )
    };
    let metals = [
        ("copper", "metal-copper"),
        ("aluminium", "metal-aluminium"),
        ("unknown", "ui-not-known"),
    ];
    let options = metals
        .iter()
        .map(|(w, l)| ((*w).to_owned(), say(l)))
        .collect::<Vec<_>>();
    let chosen = match metal {
        PrimaryMetal::Copper => "copper",
        PrimaryMetal::Aluminium => "aluminium",
        PrimaryMetal::Unknown => "unknown",
    };
    rsx! {
        section {
            h2 { {say("ui-primary")} }
            Choices {
                label: say("ui-primary-metal"),
                options,
                chosen: chosen.to_owned(),
                onchoose: move |word: String| app.write().set_core(Op::PrimaryMetal, |core| {
                    core.primary.metal = match word.as_str() {
                        "copper" => PrimaryMetal::Copper,
                        "aluminium" => PrimaryMetal::Aluminium,
                        _ => PrimaryMetal::Unknown,
                    };
                }),
            }
            Fold { word: "primary", title: say("ui-primary-more"),
                for path in [
                    "core.primary.wire_diameter_mm", "core.primary.rated_volts", "core.primary.rated_hertz",
                    "core.primary.resistance_ohm", "core.primary.resistance_at_c", "core.primary.idle_current_a",
                ] {
                    NumberField { key: "{path}", path }
                }
            }
            h3 { {say("ui-turns-of-primary")} }
            p { class: "caution", {say("ui-turns-caution")} }
            NumberField { path: "core.primary.counted_turns" }
            TestTurnForm { there: test_turn }
            TestGroup {
                path: "core.primary.old_secondary",
                title: say("ui-old-winding"),
                help: say("ui-old-winding-help"),
                there: old_secondary,
            }
        }
    }
}
