//! Values that differ between devices, as lines of text: for the screens and for the printed page.

use crate::app::sync::{ValueLabel, ValueRow, ValueText, fork_label, side_rows};
use crate::merge::Device;
use crate::quantity::LengthUnit;
use crate::store::{Conflict, Side};
use crate::text::{Arg, Texts};

/// The label before a value; empty where the value is all that differs.
#[must_use]
pub fn label(of: &ValueLabel, texts: &Texts) -> String {
    match of {
        ValueLabel::Field(field) => texts.text(&format!("{}.label", field.text())),
        ValueLabel::Text(key) => texts.text(key),
        ValueLabel::Key(key) => key.clone(),
        ValueLabel::None => String::new(),
    }
}

/// A value as a person reads it.
#[must_use]
pub fn value(of: &ValueText, texts: &Texts) -> String {
    match of {
        ValueText::Shown(text) => text.clone(),
        ValueText::Text(key) => texts.text(key),
        ValueText::Message(message) => texts.message(message),
    }
}

/// All parts of a value in one line.
#[must_use]
pub fn in_line(rows: &[ValueRow], texts: &Texts) -> String {
    if rows.is_empty() {
        return texts.text("ui-conflict-empty");
    }
    let part = |(of, text): &ValueRow| match of {
        ValueLabel::None => value(text, texts),
        of => format!("{} {}", label(of, texts), value(text, texts)),
    };
    rows.iter().map(part).collect::<Vec<_>>().join(", ")
}

/// The name of the device that wrote a value, or the start of its number.
#[must_use]
pub fn device(side: &Side, texts: &Texts) -> String {
    if side.is_own {
        return texts.text("ui-conflict-here");
    }
    match side.device.parse::<Device>() {
        Ok(_) => texts.text_with("ui-conflict-unnamed", &[("number", Arg::Text(&side.device[..4]))]),
        Err(_) => side.device.clone(),
    }
}

/// A line for each value that two devices wrote differently: its label, and the value in use until one is chosen.
#[must_use]
pub fn unsettled(conflicts: &[Conflict], unit: LengthUnit, texts: &Texts) -> Vec<String> {
    let in_use = |conflict: &Conflict| {
        let what = label(&fork_label(conflict), texts);
        let shown = conflict.sides.last().map_or_else(String::new, |side| {
            let rows = side_rows(conflict, side, unit);
            format!("{} ({})", in_line(&rows, texts), device(side, texts))
        });
        let args = [("what", Arg::Text(&what)), ("value", Arg::Text(&shown))];
        texts.text_with("ui-conflict-in-use", &args)
    };
    conflicts.iter().map(in_use).collect()
}
