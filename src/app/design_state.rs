//! The one state of a design, from which the next step follows.

use super::circuit_parts::{CircuitParts, Diodes, Reactor};
use crate::quantity::Current;
use crate::rewind::limits::LimitSet;

/// Parts without which a design does not do its work; at least one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NeededParts {
    /// In series with the winding.
    pub reactor: Option<Reactor>,
    /// Behind the winding.
    pub diodes: Option<Diodes>,
    /// Rating of the fuse at a battery.
    pub battery_fuse: Option<Current>,
}

/// How a winding, or the coil of a choke or a ballast, stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DesignState {
    /// It keeps every limit by itself.
    Fits,
    /// It keeps every limit with extra parts.
    FitsWith(NeededParts),
    /// It breaks a limit: it is not to be wound.
    Breaks(LimitSet),
}

/// The state of a winding or a coil that breaks these limits, with the circuit round it.
#[must_use]
pub fn design_state(broken: LimitSet, circuit: Option<&CircuitParts>) -> DesignState {
    if !broken.is_empty() {
        return DesignState::Breaks(broken);
    }
    let needed = circuit.map(|circuit| NeededParts {
        reactor: circuit.reactor,
        diodes: circuit.diodes,
        battery_fuse: circuit.battery_fuse,
    });
    let any =
        |needed: &NeededParts| needed.reactor.is_some() || needed.diodes.is_some() || needed.battery_fuse.is_some();
    needed.filter(any).map_or(DesignState::Fits, DesignState::FitsWith)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};

    /// What the state names is what the circuit has: a charger never goes without its diodes and its fuse, an
    /// alternating spot welder needs none.
    #[test]
    fn a_state_names_the_parts_of_its_circuit() {
        for word in [
            "spot_welder",
            "stick_welder",
            "battery_charger",
            "plasma_cutter",
            "plain_supply",
        ] {
            let mut file = demo_job();
            file.choice = None;
            file.goal = goal_of(word);
            let answer = evaluate(&file).unwrap();
            let (Some(state), Some(parts)) = (answer.design_state(), answer.circuit_parts()) else {
                continue;
            };
            match state {
                DesignState::Fits => {
                    assert!(
                        word == "spot_welder" || word == "plain_supply" || word == "stick_welder",
                        "{word}"
                    );
                    assert!(parts.reactor.is_none() && parts.diodes.is_none() && parts.battery_fuse.is_none());
                }
                DesignState::FitsWith(needed) => {
                    assert_eq!(needed.reactor, parts.reactor, "{word}");
                    assert_eq!(needed.diodes, parts.diodes, "{word}");
                    assert_eq!(needed.battery_fuse, parts.battery_fuse, "{word}");
                    if word == "battery_charger" {
                        assert!(needed.diodes.is_some() && needed.battery_fuse.is_some());
                    }
                }
                DesignState::Breaks(_) => {}
            }
        }
    }
}
