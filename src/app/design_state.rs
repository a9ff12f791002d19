//! The one state of a design, from which the next step follows.

use super::basis::Design;
use crate::quantity::{Current, Frequency, Inductance, Resistance};
use crate::rewind::limits::LimitSet;

/// A reactor of its own core, in series with a winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reactor {
    /// Its inductance.
    pub inductance: Inductance,
    /// The current that it carries, r.m.s.
    pub current: Current,
}

/// How a design stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DesignState {
    /// It keeps every limit by itself.
    Fits,
    /// It keeps every limit with a reactor in series with its winding.
    NeedsReactor(Reactor),
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
    reactor(design, frequency).map_or(DesignState::Fits, DesignState::NeedsReactor)
}

/// The reactor that a design needs on mains of this frequency; `None` for none.
#[must_use]
pub fn reactor(design: &Design, frequency: Frequency) -> Option<Reactor> {
    let reactance = design.estimate.series_reactance.value;
    (reactance > Resistance::ZERO).then(|| Reactor {
        inductance: Inductance::from_si(reactance.si() / frequency.angular()),
        current: design.estimate.winding_current.value,
    })
}
