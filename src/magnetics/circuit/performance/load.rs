//! What a winding feeds, and how long.

use super::{DirectSide, Performance};
use crate::quantity::{Current, Measured, Origin, Ratio, Resistance, Voltage};

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
    /// The load on alternating current; behind diodes it only tells about where the winding's volts lie.
    pub load: LoadLine,
    /// How far the load's slope may be off, as a part of it; zero for a load that was chosen.
    pub slope_within: Ratio,
    /// Diodes and what they feed, where the load is on direct current.
    pub direct: Option<DirectSide>,
    /// The current wanted of the load; the mean one behind diodes.
    pub current: Current,
    /// Part of the time that the current flows.
    pub duty: Ratio,
    /// True where a series reactance may hold the current down to what is wanted.
    pub ballasted: bool,
    /// How much more than is wanted may flow behind diodes, as a part of it, before a reactance is asked for.
    pub excess: Ratio,
    /// A series reactance that is there, whatever is wanted.
    pub reactor: Option<Measured<Resistance>>,
}

impl Demand {
    /// The most that may flow behind diodes before a reactance is asked for.
    #[must_use]
    pub fn most_without_reactor(&self) -> Current {
        self.current * (1.0 + self.excess.si())
    }

    /// The same with the reactor that holds the current, or with none for good.
    pub(super) fn with_its_reactor(&self, found: &Performance) -> Self {
        Self {
            reactor: self.reactor.or(Some(as_wound(found.series_reactance))),
            ..*self
        }
    }
}

/// A reactor as it is wound and gapped: to within a tenth. Common practice, no source.
#[must_use]
pub fn as_wound(wanted: Resistance) -> Measured<Resistance> {
    Measured::new(wanted, wanted * 0.1, Origin::Computed)
}
