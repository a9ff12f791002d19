//! Units of lengths and wire, and the theme.

use dioxus::prelude::*;

use super::super::controls::{Choices, Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::say;
use crate::store::Setting;

/// The choices.
#[component]
pub fn Settings() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let pick = |rows: &[(&str, &str)]| {
        rows.iter()
            .map(|(word, label)| ((*word).to_owned(), say(label)))
            .collect::<Vec<_>>()
    };
    let (_, unread) = or_why(app.read().query(|data| data.store().setting(Setting::LengthUnit)));
    let (length, wire, theme) = {
        let app = app.read();
        let length = if app.unit() == crate::quantity::LengthUnit::Inch {
            "inch"
        } else {
            "mm"
        };
        (
            length.to_owned(),
            if app.awg() { "awg" } else { "mm2" }.to_owned(),
            app.theme(),
        )
    };
    rsx! {
        section { class: "settings",
            h2 { {say("ui-settings")} }
            Unreadable { why: unread }
            h3 { {say("ui-set-lengths")} }
            Choices {
                label: say("ui-set-lengths"), options: pick(&[("mm", "ui-set-mm"), ("inch", "ui-set-inch")]), chosen: length,
                onchoose: move |word: String| app.write().set(Setting::LengthUnit, &word),
            }
            h3 { {say("ui-set-wire")} }
            Choices {
                label: say("ui-set-wire"), options: pick(&[("mm2", "ui-set-mm2"), ("awg", "ui-set-awg")]), chosen: wire,
                onchoose: move |word: String| app.write().set(Setting::WireUnit, &word),
            }
            h3 { {say("ui-set-light")} }
            Choices {
                label: say("ui-set-light"), options: pick(&[("auto", "ui-set-auto"), ("light", "ui-set-day"), ("dark", "ui-set-night")]), chosen: theme,
                onchoose: move |word: String| app.write().set(Setting::Theme, &word),
            }
        }
    }
}
