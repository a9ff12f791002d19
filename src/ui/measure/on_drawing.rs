//! The core's drawing as the form: each length on it is a button that opens the entry sheet.

use dioxus::prelude::*;

use super::super::state::AppState;
use super::super::words::{drawn, field_text, say, say_with};
use crate::app::core_lengths::{CoreLength, MeasureNext, measure_next};
use crate::app::guard::guarded;
use crate::app::workspace::{shown_number, unit_symbol};
use crate::job::{Held, Places};
use crate::quantity::format_significant;
use crate::report::draw::{LengthLook, core_form};
use crate::text::Arg;

/// A length's button.
#[derive(Debug, Clone, PartialEq)]
struct Target {
    length: CoreLength,
    name: String,
    /// Value with its unit.
    value: String,
    look: LengthLook,
    /// Name, value, ±, and what is to do, for a screen reader.
    spoken: String,
    measured: bool,
}

/// The id of a length's button.
pub fn target_id(length: CoreLength) -> String {
    format!("on-{}", length.path().replace(['.', '_'], "-"))
}

fn target(app: &AppState, length: CoreLength, next: Option<MeasureNext>) -> Option<Target> {
    let (Some(Ok(answer)), Some(file)) = (app.answer(), app.file()) else {
        return None;
    };
    let (field, unit) = (length.field()?, app.unit());
    let amount = |mm: f64| format!("{} {}", shown_number(field, mm, unit), unit_symbol(field, unit));
    let name = field_text(field, "label");
    let measured = length.is_measured(file);
    let is_next = next.is_some_and(|next| next.length == length);
    let used = length.used(&answer.problem.rebuild).mm();
    // A usual value is no reading: three digits tell it.
    let usual = format_significant(unit.count(crate::quantity::Length::from_mm(used)), 3);
    let (value, rest) = match file.get(length.path()) {
        Some(Held::Reading(reading)) if measured => {
            let value = amount(reading.value);
            let plus_minus = shown_number(field, reading.plus_minus, unit);
            let how = say(&format!("origin-{}", reading.origin.word()));
            let args = [("spread", Arg::Text(&plus_minus)), ("how", Arg::Text(&how))];
            (value, say_with("ui-length-measured", &args))
        }
        _ => {
            let value = format!("{usual} {}", unit_symbol(field, unit));
            (value, say("ui-length-usual"))
        }
    };
    // First what stands on the button, in its order.
    let tags = [
        (!measured).then(|| say("ui-usual")),
        is_next.then(|| say("ui-measure-this-next")),
    ];
    let on_it: Vec<String> = [Some(name.clone()), Some(value.clone())]
        .into_iter()
        .chain(tags)
        .flatten()
        .collect();
    let spoken = format!("{}, {rest}", on_it.join(" "));
    let look = match (is_next, measured) {
        (true, _) => LengthLook::Next,
        (false, true) => LengthLook::Measured,
        (false, false) => LengthLook::Usual,
    };
    Some(Target {
        length,
        name,
        value,
        look,
        spoken,
        measured,
    })
}

/// What measuring brings, in one line.
fn brings(next: &MeasureNext, name: &str) -> String {
    let (symbol, si) = (next.number.unit.symbol, next.number.unit.si);
    let shown = |half: f64| {
        format!("{} {symbol}", format_significant(half / si, 2))
            .trim_end()
            .to_owned()
    };
    let (number, now, then) = (
        say(next.number.text),
        shown(next.half_width.0),
        shown(next.half_width.1),
    );
    say_with(
        "ui-measure-brings",
        &[
            ("field", Arg::Text(name)),
            ("number", Arg::Text(&number)),
            ("now", Arg::Text(&now)),
            ("then", Arg::Text(&then)),
        ],
    )
}

/// The drawing with its buttons, and what to measure next.
#[component]
pub fn OnDrawing(open: Signal<Option<CoreLength>>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let (svg, targets, next) = {
        let app = app.read();
        let Some(Ok(answer)) = app.answer() else { return rsx! {} };
        let next = guarded(|| measure_next(answer)).ok().flatten();
        let targets: Vec<Target> = CoreLength::ALL
            .into_iter()
            .filter_map(|length| target(&app, length, next))
            .collect();
        let look = |length| {
            let found = targets.iter().find(|target| target.length == length);
            found.map_or(LengthLook::Usual, |target| target.look)
        };
        let svg = drawn(|texts| core_form(&answer.problem.rebuild, look, texts));
        (svg, targets, next)
    };
    let told = match next {
        Some(next) => {
            let name = targets.iter().find(|target| target.length == next.length);
            brings(&next, &name.map(|target| target.name.clone()).unwrap_or_default())
        }
        None => say("ui-measure-enough"),
    };
    rsx! {
        figure { class: "on-drawing",
            p { class: "hint how", {say("ui-measure-tap")} }
            div { class: "core-drawing", dangerous_inner_html: "{svg}" }
            for target in targets {
                button {
                    key: "{target.name}",
                    id: target_id(target.length),
                    class: match target.look {
                        LengthLook::Next => "target next",
                        LengthLook::Usual => "target usual",
                        LengthLook::Measured => "target",
                    },
                    "data-length": target.length.path(),
                    aria_label: "{target.spoken}",
                    aria_expanded: if open() == Some(target.length) { "true" } else { "false" },
                    onclick: move |_| open.set(Some(target.length)),
                    span { class: "name", "{target.name}" }
                    " "
                    strong { "{target.value}" }
                    " "
                    if !target.measured { span { class: "tag", {say("ui-usual")} } " " }
                    if target.look == LengthLook::Next { span { class: "tag", {say("ui-measure-this-next")} } }
                }
            }
        }
        p { class: "next-measure", "{told}" }
    }
}
