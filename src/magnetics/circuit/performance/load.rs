//! What a winding feeds, and how long.

use crate::quantity::{Current, Ratio, Resistance, Voltage};

/// What the new winding feeds: the voltage it must give at a current, `fixed + slope × I`.
///
/// A resistance has no fixed part; an arc is nearly all fixed part; the conventional load of
/// manual arc welding is 20 V + 0.04 Ω × I (IEC 60974-1, R2: welding makers' manuals). The load is in phase.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadLine {
    /// Volts at no current.
    pub fixed: Voltage,
    /// Volts more for each ampere.
    pub slope: Resistance,
}

impl LoadLine {
    /// Volts needed at a current.
    #[must_use]
    pub fn volts(&self, current: Current) -> Voltage {
        self.fixed + self.slope * current
    }
}

/// What is asked of the winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// The load.
    pub load: LoadLine,
    /// The current wanted.
    pub current: Current,
    /// Part of the time that the current flows.
    pub duty: Ratio,
    /// True where a series reactance may hold the current down to what is wanted.
    pub ballasted: bool,
}
