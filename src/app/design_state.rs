//! The one state of a design, from which the next step follows.

use super::basis::Design;
use crate::quantity::{Current, Frequency, Inductance, Resistance};
use crate::rewind::limits::LimitSet;

/// How a design stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DesignState {
    /// It keeps every limit by itself.
    Fits,
    /// It keeps every limit with a reactor in series with its winding.
    NeedsReactor {
        /// Its inductance.
        inductance: Inductance,
        /// The current that it carries.
        current: Current,
    },
    /// It breaks a limit: it is not to be wound.
    Breaks(LimitSet),
}

/// The state of a design on mains of this frequency.
#[must_use]
pub fn design_state(design: &Design, frequency: Frequency) -> DesignState {
    let broken = design.candidate.broken;
    if !broken.is_empty() {
        return DesignState::Breaks(broken);
    }
    let reactor = design.estimate.series_reactance.value;
    if reactor <= Resistance::ZERO {
        return DesignState::Fits;
    }
    DesignState::NeedsReactor {
        inductance: Inductance::from_si(reactor.si() / frequency.angular()),
        current: design.estimate.winding_current.value,
    }
}
