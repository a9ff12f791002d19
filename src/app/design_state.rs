//! The one state of a design, from which the next step follows.

use super::basis::Design;
use crate::magnetics::circuit::performance::Rebuild;
use crate::quantity::{Current, Inductance, Resistance};
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

/// The state of a design of a core on its mains.
#[must_use]
pub fn design_state(design: &Design, rebuild: &Rebuild) -> DesignState {
    let broken = design.candidate.broken;
    if !broken.is_empty() {
        return DesignState::Breaks(broken);
    }
    reactor(design, rebuild).map_or(DesignState::Fits, DesignState::NeedsReactor)
}

/// The reactor that a design needs on its mains; `None` for none.
#[must_use]
pub fn reactor(design: &Design, rebuild: &Rebuild) -> Option<Reactor> {
    let reactance = design.estimate.series_reactance.value;
    (reactance > Resistance::ZERO).then(|| Reactor {
        inductance: Inductance::from_si(reactance.si() / rebuild.mains.frequency.angular()),
        // It carries what two windings in parallel share.
        current: design.estimate.winding_current.value / rebuild.winding_share(),
    })
}
