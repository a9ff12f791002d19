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

#[cfg(test)]
mod tests {
    use serde_json::json;
    use uuid::Uuid;

    use super::*;
    use crate::merge::Kind;

    /// What a person reads of a value: what differs, and the value in one line.
    fn read(kind: Kind, field: &str, value: serde_json::Value) -> String {
        let texts = Texts::english().unwrap();
        let side = Side {
            device: "garage phone".to_owned(),
            is_own: false,
            value,
        };
        let fork = Conflict {
            kind,
            id: Uuid::nil(),
            name: String::new(),
            field: field.to_owned(),
            sides: vec![side.clone()],
        };
        let what = label(&fork_label(&fork), &texts);
        let rows = side_rows(&fork, &side, LengthUnit::Millimetre);
        format!("{what}: {}", in_line(&rows, &texts))
    }

    #[test]
    fn a_value_is_read_as_its_screen_says_it() {
        for (kind, field, value, text) in [
            (
                Kind::Core,
                "primary_metal",
                json!("unknown"),
                "Metal of the primary: Not known",
            ),
            (Kind::Core, "shunts_kept", json!(true), "Shunts kept: Yes"),
            (
                Kind::Core,
                "donor",
                json!("Green oven_2"),
                "Oven of the core: Green oven_2",
            ),
            (
                Kind::Core,
                "reading.primary.counted_turns",
                json!({ "value": 119.0, "plus_minus": 0.0, "origin": "counted" }),
                "Primary turns, counted: 119",
            ),
            (
                Kind::Donor,
                "look.rust",
                json!("surface"),
                "Rust: Rust on edges, screws",
            ),
            (
                Kind::Donor,
                "look.kind",
                json!("combination"),
                "Kind of oven: Hot air or steam",
            ),
            (
                Kind::Donor,
                "look.damage",
                json!(["burnt", "cord_cut"]),
                "Damage: Burnt, Cord cut off",
            ),
            (
                Kind::Donor,
                "look.signs",
                json!({ "core_seen": true, "word": false }),
                "What you see: Iron block seen inside Yes, The word \"inverter\" No",
            ),
            (
                Kind::Job,
                "conditions.steel",
                json!("M800-50A"),
                "Steel of the laminations: M800-50A",
            ),
            (
                Kind::Job,
                "conditions.rectifier",
                json!("centre_tap"),
                "Diodes: Centre tap, two",
            ),
            (
                Kind::Job,
                "conditions.as_much",
                json!(["spot_welder"]),
                "As much as possible: Spot welder",
            ),
            (
                Kind::Job,
                "conditions.pair",
                json!({ "name": "Blue oven", "core": { "tongue_mm": 35 }, "windings": "series" }),
                "Two cores together: Blue oven, New windings In series",
            ),
            (
                Kind::Job,
                "conditions.earlier_uses",
                json!([{ "goal": { "use": "plain_supply", "volts": 12.0 } }]),
                "Earlier uses: Plain supply",
            ),
        ] {
            assert_eq!(read(kind, field, value), text);
        }
    }

    /// Two windings that differ in their place alone do not read the same.
    #[test]
    fn a_windings_place_and_insulation_are_told() {
        let winding = |placement: &str| {
            json!({
                "turns": 4, "conductor": "own-1.80-1.95", "parallel": 1, "metal": "copper",
                "placement": placement, "ground_mm": 1.0, "interlayer_mm": 0.1,
            })
        };
        let over = read(Kind::Job, "choice", winding("over_primary"));
        assert!(
            over.contains("Over the primary") && over.contains("Insulation to the core 1"),
            "{over}"
        );
        assert_ne!(over, read(Kind::Job, "choice", winding("far_end")));
    }
}
