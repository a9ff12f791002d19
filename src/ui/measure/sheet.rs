//! The entry sheet of a length: where the jaws go, a number pad, the unit, and how it was measured.

use dioxus::prelude::*;

use super::super::controls::{Choices, Meant};
use super::super::state::AppState;
use super::super::words::{drawn, field_text, say, say_with};
use super::on_drawing::target_id;
use crate::app::core_lengths::CoreLength;
use crate::app::workspace::{Entry, range_text, shown_number, unit_symbol};
use crate::job::{Held, Places};
use crate::quantity::{LengthUnit, Origin, parse_length};
use crate::report::draw::jaws;
use crate::text::Arg;

/// How a length is measured, in the order of how well.
const WAYS: [Origin; 4] = [Origin::Calipers, Origin::Rule, Origin::Tape, Origin::Photo];

/// What a screen reader says of a key that is no digit.
fn spoken(key: &str) -> Option<String> {
    let id = match key {
        "." => "ui-sheet-point",
        "/" => "ui-sheet-fraction",
        "-" => "ui-sheet-hyphen",
        _ => return None,
    };
    Some(say(id))
}

/// The keys of the pad; a fraction of an inch has two more.
const KEYS: [&str; 11] = ["1", "2", "3", "4", "5", "6", "7", "8", "9", ".", "0"];
const INCH_KEYS: [&str; 2] = ["-", "/"];

/// What was typed, with its unit where the person chose one for this number.
fn with_unit(text: &str, unit: LengthUnit) -> String {
    let own = text.chars().any(|c| c.is_alphabetic() || matches!(c, '"' | '\''));
    if own || text.trim().is_empty() {
        text.to_owned()
    } else {
        format!("{} {}", text.trim(), unit.symbol())
    }
}

/// The sheet of one length. It closes when the number is in the job, or with Escape.
#[component]
pub fn EntrySheet(length: CoreLength, onclose: EventHandler<()>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (held, own_unit) = {
        let app = app.read();
        let held = app.file().and_then(|file| match file.get(length.path()) {
            Some(Held::Reading(reading)) if reading.origin != Origin::Typical => Some(reading),
            _ => None,
        });
        (held, app.unit())
    };
    let mut text = use_signal(String::new);
    let mut unit = use_signal(|| own_unit);
    let mut how = use_signal(|| {
        held.map(|reading| reading.origin)
            .filter(|origin| WAYS.contains(origin))
            .unwrap_or(Origin::Calipers)
    });
    let mut refused = use_signal(|| None::<String>);
    let Some(field) = length.field() else { return rsx! {} };
    let (path, name) = (length.path(), field_text(field, "label"));
    let close = move || {
        document::eval(&format!("document.getElementById({:?})?.focus()", target_id(length)));
        onclose.call(());
    };
    let mut enter = move |typed: String| {
        // With no new number, the one that stands there is entered again: measured in another way.
        let typed = match held {
            Some(reading) if typed.trim().is_empty() => format!("{} mm", reading.value),
            _ => typed,
        };
        let entry = Entry {
            path,
            text: &typed,
            plus_minus: "",
            origin: Some(how()),
        };
        let message = app.write().enter_number(&entry);
        if message.is_none() {
            close();
        }
        refused.set(message);
    };
    let mut save = move || enter(with_unit(&text(), unit()));
    let mut enter_meant = enter;
    let range = range_text(field, unit());
    let now = held.map(|reading| {
        let value = format!(
            "{} {}",
            shown_number(field, reading.value, own_unit),
            unit_symbol(field, own_unit)
        );
        let spread = shown_number(field, reading.plus_minus, own_unit);
        let how = say(&format!("origin-{}", reading.origin.word()));
        let args = [
            ("value", Arg::Text(&value)),
            ("spread", Arg::Text(&spread)),
            ("how", Arg::Text(&how)),
        ];
        say_with("ui-sheet-now", &args)
    });
    // The ± of the way chosen, for the number typed so far.
    let typed = parse_length(&text(), unit()).map(|length| length.mm());
    let value = typed
        .ok()
        .or(held.map(|reading| reading.value))
        .unwrap_or(f64::midpoint(field.min, field.max));
    let spread = format!(
        "± {} {}",
        shown_number(field, field.usual_plus_minus(value, how()), unit()),
        unit_symbol(field, unit()),
    );
    let ways = WAYS
        .map(|way| (way.word().to_owned(), say(&format!("origin-{}", way.word()))))
        .to_vec();
    let units = [LengthUnit::Millimetre, LengthUnit::Inch]
        .map(|unit| (unit.symbol().to_owned(), unit.symbol().to_owned()))
        .to_vec();
    let picture = drawn(|texts| jaws(length, &name, texts));
    let in_inches = unit() == LengthUnit::Inch;
    rsx! {
        section {
            class: "entry-sheet", role: "dialog", aria_labelledby: "sheet-title",
            onkeydown: move |event| if event.key() == Key::Escape { event.prevent_default(); close(); },
            header {
                h2 { id: "sheet-title", "{name}" }
                button { class: "quiet", id: "sheet-close", onclick: move |_| close(), {say("ui-sheet-close")} }
            }
            div { class: "where",
                div { class: "jaws-picture", dangerous_inner_html: "{picture}" }
                div {
                    p { {field_text(field, "hint")} }
                    p { class: "hint", id: "sheet-range", "{range}." if let Some(now) = now { " {now}" } }
                }
            }
            div { class: "amount",
                input {
                    id: "sheet-value", class: "value", inputmode: "none", autocomplete: "off",
                    aria_label: "{name}", aria_describedby: "sheet-range",
                    value: "{text}",
                    onmounted: move |field| async move { let _ = field.data().set_focus(true).await; },
                    oninput: move |event| text.set(event.value()),
                    onkeydown: move |event| if event.key() == Key::Enter { save() },
                }
                Choices {
                    label: say("ui-sheet-unit"),
                    options: units,
                    chosen: unit().symbol(),
                    onchoose: move |word: String| unit.set(if word == "in" { LengthUnit::Inch } else { LengthUnit::Millimetre }),
                }
            }
            if let Some(message) = refused() {
                p { class: "refused", role: "alert", "{message}." }
                Meant { path, text: with_unit(&text(), unit()), unit: unit(), onuse: move |text: String| enter_meant(text) }
            }
            Choices {
                label: say("ui-sheet-how"),
                options: ways,
                chosen: how().word(),
                onchoose: move |word: String| if let Some(origin) = Origin::from_word(&word) { how.set(origin) },
            }
            p { class: "hint spread", {say_with("ui-sheet-spread", &[("spread", Arg::Text(&spread))])} }
            div { class: if in_inches { "pad inches" } else { "pad" }, role: "group", aria_label: say("ui-sheet-pad"),
                for key in KEYS {
                    button { key: "{key}", aria_label: spoken(key), onclick: move |_| text.write().push_str(key), "{key}" }
                }
                button { aria_label: say("ui-sheet-back"), onclick: move |_| { text.write().pop(); }, "⌫" }
                if in_inches {
                    for key in INCH_KEYS {
                        button { key: "{key}", aria_label: spoken(key), onclick: move |_| text.write().push_str(key), "{key}" }
                    }
                }
            }
            div { class: "row",
                button { class: "main", id: "sheet-save", onclick: move |_| save(), {say_with("ui-sheet-save", &[("field", Arg::Text(&name))])} }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::DataFolder;
    use super::super::super::pictures::keep_picture;
    use super::super::super::words::Words;
    use super::*;

    /// The sheet of the stack on a job of its own.
    #[component]
    fn Shown() -> Element {
        let folder = use_context::<DataFolder>();
        let app = use_signal(move || {
            let mut app = AppState::open(&folder.0);
            app.open_demo();
            app
        });
        use_context_provider(|| app);
        use_context_provider(Words::english);
        rsx! { EntrySheet { length: CoreLength::Stack, onclose: |()| {} } }
    }

    #[test]
    fn the_sheet_has_pad_unit_ways_and_picture() {
        let folder = tempfile::tempdir().unwrap();
        let mut dom = VirtualDom::new(Shown).with_root_context(DataFolder(folder.path().to_owned()));
        dom.rebuild_in_place();
        let html = dioxus_ssr::render(&dom);
        keep_picture("entry-sheet", &html);
        for part in [
            "role=\"dialog\"",
            "class=\"drawing jaws\"",
            "aria-label=\"Stack\"",
            "inputmode=\"none\"",
            "5 to 300 mm",
            "Now 69.5 mm ± 0.5, calipers.",
            "within ± 0.5 mm",
            ">tape<",
            ">photo<",
            "Save Stack",
        ] {
            assert!(html.contains(part), "{part} is missing in {html}");
        }
        // Digits, point, delete; unit; four ways; close and save.
        assert_eq!(html.matches("<button").count(), 12 + 2 + 4 + 2);
    }

    /// A unit typed with the number counts before the one chosen beside it.
    #[test]
    fn the_chosen_unit_is_added_to_a_bare_number() {
        for (text, wanted) in [
            ("35", "35 in"),
            ("1-3/8", "1-3/8 in"),
            ("35 mm", "35 mm"),
            ("1.25\"", "1.25\""),
            (" ", " "),
        ] {
            assert_eq!(with_unit(text, LengthUnit::Inch), wanted);
        }
    }
}
