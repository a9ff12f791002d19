//! Computed numbers as a person reads them and as a file has them.

use serde_json::{Map, Value, json};

use super::inputs::{InputShown, inputs_of};
use crate::quantity::{Number, WIDEST, format_significant, format_with_spread};
use crate::text::Texts;

/// One number, ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// Its label.
    pub label: String,
    /// Its value.
    pub value: String,
    /// Its half-width at about 95 %; empty where it has none.
    pub plus_minus: String,
    /// Its unit.
    pub unit: &'static str,
    /// The id of its texts: `.what` it is, its `.formula` and `.source`.
    pub about: &'static str,
    /// The word that a screen keeps it open by: no other number of the same screen has it.
    pub kept: String,
    /// What its ± comes from, most first.
    pub inputs: Vec<InputShown>,
}

impl Shown {
    /// Value, ± and unit in one: "22.42 ± 0.43 V".
    #[must_use]
    pub fn amount(&self) -> String {
        let half = if self.plus_minus.is_empty() {
            String::new()
        } else {
            format!(" ± {}", self.plus_minus)
        };
        format!("{}{half} {}", self.value, self.unit)
    }
}

/// A number as a person reads it.
#[must_use]
pub fn show(texts: &Texts, number: &Number) -> Shown {
    let kind = number.kind;
    let (value, half) = (number.si.0 / kind.unit.si, number.si.1 / kind.unit.si);
    let (value, plus_minus) = if half > 0.0 {
        format_with_spread(value, half)
    } else {
        (format_significant(value, kind.digits), String::new())
    };
    Shown {
        label: texts.text(kind.text),
        value,
        plus_minus,
        unit: kind.unit.symbol,
        about: kind.text,
        kept: kind.text.to_owned(),
        inputs: inputs_of(texts, &number.variance_shares),
    }
}

/// Numbers as a file has them: `{ "value", "plus_minus", "widened_by" }` in SI under keys that end with
/// the unit.
#[must_use]
pub(super) fn json_of_numbers(numbers: &[Number]) -> Value {
    let rows: Map<String, Value> = numbers
        .iter()
        .map(|number| {
            let widened: Vec<Value> = number
                .variance_shares
                .iter()
                .take(WIDEST)
                .map(|share| json!({ "input": share.input.word(), "share_of_variance": share.share }))
                .collect();
            (
                number.kind.file_key(),
                json!({ "value": number.si.0, "plus_minus": number.si.1, "widened_by": widened }),
            )
        })
        .collect();
    Value::Object(rows)
}
