//! Computed numbers as a person reads them: name, value, half-width, unit.

use std::borrow::Cow;

use super::inputs::{InputShown, inputs_of};
use crate::app::summary::Row;
use crate::magnetics::circuit::performance::Performance;
use crate::quantity::{VarianceShare, format_with_spread};

/// One number, ready to be shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Shown {
    /// What it is.
    pub label: Cow<'static, str>,
    /// Its value.
    pub value: String,
    /// Its half-width at about 95 %; empty where it has none.
    pub plus_minus: String,
    /// Its unit.
    pub unit: &'static str,
    /// The id of what it is, its formula and its source, in `numbers.ftl`.
    pub about: String,
    /// The word that a screen keeps it open by: no other number of the same screen has it.
    pub kept: String,
    /// What its ± comes from, most first.
    pub inputs: Vec<InputShown>,
}

impl Shown {
    /// The same with what its ± comes from.
    #[must_use]
    pub fn widened(mut self, variance_shares: &[VarianceShare]) -> Self {
        self.inputs = inputs_of(variance_shares);
        self
    }
}

/// A number of the measures, as a person reads it.
#[must_use]
pub fn show_measure(row: &Row) -> Shown {
    Shown {
        label: Cow::Borrowed(row.label),
        value: row.value.clone(),
        plus_minus: row.plus_minus.clone(),
        unit: row.unit,
        about: format!("measures-{}", row.about),
        kept: format!("measures-{}", row.about),
        inputs: inputs_of(&row.variance_shares),
    }
}

/// Field of [`Performance`], label, factor from SI, unit.
const TABLE: &[(&str, &str, f64, &str)] = &[
    ("volts_per_turn", "Volts per turn", 1.0, "V"),
    ("flux_density", "Peak flux density", 1.0, "T"),
    ("open_circuit", "Open-circuit voltage", 1.0, "V"),
    ("working_current", "Working current", 1.0, "A"),
    ("working_voltage", "Working voltage", 1.0, "V"),
    ("regulation", "Voltage lost under load", 100.0, "%"),
    ("short_circuit", "Short-circuit current", 1.0, "A"),
    ("cold_resistance", "Winding resistance, d.c., 20 °C", 1e3, "mΩ"),
    ("winding_resistance", "Winding resistance, a.c., hot", 1e3, "mΩ"),
    ("total_resistance", "Resistance seen from it", 1e3, "mΩ"),
    ("leakage_reactance", "Leakage reactance", 1e3, "mΩ"),
    ("series_reactance", "Series reactance needed", 1e3, "mΩ"),
    ("ac_factor", "Skin effect: a.c. over d.c. resistance", 1.0, ""),
    ("winding_loss", "Heat in the new winding", 1.0, "W"),
    ("primary_loss", "Heat in the primary", 1.0, "W"),
    ("mean_loss", "Heat of both, averaged over the duty cycle", 1.0, "W"),
    ("winding_density", "Current density, new winding", 1e-6, "A/mm²"),
    ("primary_density", "Current density, primary", 1e-6, "A/mm²"),
    (
        "winding_steady_density",
        "Equivalent steady density, new winding",
        1e-6,
        "A/mm²",
    ),
    (
        "primary_steady_density",
        "Equivalent steady density, primary",
        1e-6,
        "A/mm²",
    ),
    ("primary_current", "Primary current added by the load", 1.0, "A"),
    ("mains_current", "Mains current", 1.0, "A"),
    ("mains_steady_current", "Equivalent steady mains current", 1.0, "A"),
    ("mains_power", "Mains apparent power", 1.0, "VA"),
    ("load_power", "Power into the load", 1.0, "W"),
    ("build", "Build of the winding", 1e3, "mm"),
    ("spare", "Room left above it", 1e3, "mm"),
    ("mean_turn", "Mean turn", 1e3, "mm"),
    ("wire_length", "Length of one conductor", 1.0, "m"),
    ("wire_mass", "Metal in the winding", 1.0, "kg"),
    ("fill_factor", "Fill factor of the room left", 100.0, "%"),
];

/// A field of [`Performance`] as a person reads it, from its value and half-width in SI units.
#[must_use]
pub fn show(field: &str, si: (f64, f64)) -> Option<Shown> {
    let (_, label, factor, unit) = TABLE.iter().find(|row| row.0 == field)?;
    let (value, plus_minus) = format_with_spread(si.0 * factor, si.1 * factor);
    Some(Shown {
        label: Cow::Borrowed(label),
        value,
        plus_minus,
        unit,
        about: format!("number-{}", field.replace('_', "-")),
        kept: format!("number-{}", field.replace('_', "-")),
        inputs: Vec::new(),
    })
}

/// Position of a field in [`Performance`].
#[must_use]
pub(crate) fn index(field: &str) -> Option<usize> {
    Performance::FIELDS.iter().position(|name| *name == field)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_has_its_label() {
        for field in Performance::FIELDS {
            assert!(TABLE.iter().any(|row| row.0 == *field), "{field} has no label");
        }
        assert_eq!(TABLE.len(), Performance::COUNT);
    }
}
