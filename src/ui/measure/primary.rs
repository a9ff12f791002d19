//! The donor's primary and the tests of its turns.

use dioxus::prelude::*;

use super::super::controls::{Choices, NumberField, TestGroup};
use super::super::desk::Desk;
use crate::job::PrimaryMetal;

/// The form.
#[component]
pub fn PrimaryForm() -> Element {
    let mut desk = use_context::<Signal<Desk>>();
    let (metal, test_turn, old_secondary) = {
        let desk = desk.read();
        let Some(file) = desk.file() else { return rsx! {} };
        let primary = &file.core.primary;
        (
            primary.metal,
            primary.test_turn.is_some(),
            primary.old_secondary.is_some(),
        )
    };
    let metals = [
        ("copper", "Copper"),
        ("aluminium", "Aluminium"),
        ("unknown", "Not known"),
    ];
    let options = metals
        .iter()
        .map(|(w, l)| ((*w).to_owned(), (*l).to_owned()))
        .collect::<Vec<_>>();
    let chosen = match metal {
        PrimaryMetal::Copper => "copper",
        PrimaryMetal::Aluminium => "aluminium",
        PrimaryMetal::Unknown => "unknown",
    };
    rsx! {
        section {
            h2 { "Primary" }
            Choices {
                label: "Metal of the primary",
                options,
                chosen: chosen.to_owned(),
                onchoose: move |word: String| desk.write().set_core("Change the primary's metal", |core| {
                    core.primary.metal = match word.as_str() {
                        "copper" => PrimaryMetal::Copper,
                        "aluminium" => PrimaryMetal::Aluminium,
                        _ => PrimaryMetal::Unknown,
                    };
                }),
            }
            for path in ["core.primary.height_mm", "core.primary.build_mm", "core.primary.wire_diameter_mm"] {
                NumberField { key: "{path}", path }
            }
            for path in ["core.primary.rated_volts", "core.primary.rated_hertz"] {
                NumberField { key: "{path}", path }
            }
            details {
                summary { "Resistance and idle current" }
                for path in ["core.primary.resistance_ohm", "core.primary.resistance_at_c", "core.primary.idle_current_a"] {
                    NumberField { key: "{path}", path }
                }
            }
            h3 { "Turns of the primary, by any of three ways" }
            p { class: "danger", "Stop unless the old high-voltage winding is out or cannot be touched: with mains on the primary it gives about two thousand volts. Use a low, isolated voltage." }
            NumberField { path: "core.primary.counted_turns" }
            TestGroup {
                path: "core.primary.test_turn",
                title: "Test turns",
                help: "Wind a few turns of insulated wire through both windows, put a low isolated voltage on the primary, and read both voltages.",
                there: test_turn,
            }
            TestGroup {
                path: "core.primary.old_secondary",
                title: "Old secondary",
                help: "Its turns as counted when it came off, and the two voltages of its label or of a reading at a low isolated voltage.",
                there: old_secondary,
            }
        }
    }
}
