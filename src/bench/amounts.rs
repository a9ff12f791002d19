//! What is predicted and what is read.

use super::resistance::{WarmRun, resistance_at};
use super::stage::Stage;
use crate::quantity::{Current, Ratio, Resistance, Temperature, TemperatureRise, Voltage};
use crate::wire::Metal;
use crate::words::words;

/// A value of the kind that a stage deals in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Amount {
    /// Winding resistance at 20 °C, insulation resistance, or volts over amperes of a coil.
    Resistance(Resistance),
    /// Voltage of a winding over the voltage of the fed one, with a minus sign if its marked
    /// end is out of step.
    Ratio(Ratio),
    /// A current.
    Current(Current),
    /// A voltage.
    Voltage(Voltage),
    /// A rise over the air.
    Rise(TemperatureRise),
}

impl Amount {
    /// The value in its SI unit.
    #[must_use]
    pub const fn si(self) -> f64 {
        match self {
            Amount::Resistance(value) => value.si(),
            Amount::Ratio(value) => value.si(),
            Amount::Current(value) => value.si(),
            Amount::Voltage(value) => value.si(),
            Amount::Rise(value) => value.si(),
        }
    }

    /// True if this is the kind that the stage deals in.
    #[must_use]
    pub const fn fits(self, stage: Stage) -> bool {
        matches!(
            (stage, self),
            (
                Stage::Continuity | Stage::Insulation | Stage::Impedance | Stage::RatedCurrent,
                Amount::Resistance(_)
            ) | (Stage::RatioPolarity | Stage::PairPhasing, Amount::Ratio(_))
                | (
                    Stage::LampIdle | Stage::MainsIdle | Stage::ShortCircuit,
                    Amount::Current(_)
                )
                | (Stage::Loaded, Amount::Voltage(_))
                | (Stage::TemperatureRise, Amount::Rise(_))
        )
    }
}

/// A reading, as taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reading {
    /// A winding's resistance and temperature. An open circuit is an infinite resistance.
    Winding {
        /// What the meter showed, its leads subtracted.
        resistance: Resistance,
        /// Temperature of the winding.
        at: Temperature,
        /// Its metal.
        metal: Metal,
    },
    /// Insulation resistance; infinite if the tester shows more than its range.
    Insulation(Resistance),
    /// Voltage over the fed winding's, minus if out of step; or the voltage between the free ends
    /// of a pair over the sum of its windings' voltages.
    Ratio(Ratio),
    /// Voltage over a coil and the current through it, read at the same moment.
    Impedance {
        /// The voltage.
        volts: Voltage,
        /// The current.
        amps: Current,
    },
    /// A current.
    Current(Current),
    /// A voltage.
    Voltage(Voltage),
    /// A run by the resistance method.
    Warm(WarmRun),
}

impl Reading {
    /// The amount to compare with the prediction: winding resistances at 20 °C, runs as rises.
    #[must_use]
    pub fn amount(self) -> Amount {
        match self {
            Reading::Winding { resistance, at, metal } => {
                Amount::Resistance(resistance_at(resistance, at, Temperature::from_si(20.0), metal))
            }
            Reading::Insulation(value) => Amount::Resistance(value),
            Reading::Ratio(value) => Amount::Ratio(value),
            Reading::Impedance { volts, amps } => Amount::Resistance(Resistance::from_si(volts.si() / amps.si())),
            Reading::Current(value) => Amount::Current(value),
            Reading::Voltage(value) => Amount::Voltage(value),
            Reading::Warm(run) => Amount::Rise(run.rise()),
        }
    }

    /// What is wrong with the reading itself, in words for the person.
    pub(super) fn fault(self, stage: Stage) -> Option<&'static str> {
        let celsius = |t: Temperature| (-20.0..=150.0).contains(&t.si());
        let positive = |r: Resistance| r.is_finite() && r.si() > 0.0;
        let ok = match self {
            Reading::Winding { resistance, at, .. } => {
                stage == Stage::Continuity && resistance.si() >= 0.0 && celsius(at)
            }
            Reading::Insulation(value) => stage == Stage::Insulation && value.si() >= 0.0,
            Reading::Ratio(value) => value.is_finite(),
            Reading::Impedance { volts, amps } => {
                matches!(stage, Stage::Impedance | Stage::RatedCurrent)
                    && volts.is_finite()
                    && amps.is_finite()
                    && volts.si() >= 0.0
                    && amps.si() > 0.0
            }
            Reading::Current(value) => value.is_finite() && value.si() >= 0.0,
            Reading::Voltage(value) => value.is_finite() && value.si() >= 0.0,
            Reading::Warm(run) => {
                let ran = run.current.is_finite() && run.current.si() > 0.0;
                positive(run.cold) && positive(run.hot) && celsius(run.cold_at) && celsius(run.air) && ran
            }
        };
        if ok && self.amount().fits(stage) {
            None
        } else if matches!(self, Reading::Winding { .. } | Reading::Warm(_)) {
            Some("resistances of 0 Ω or more, temperatures of −20 to 150 °C, currents above 0 A")
        } else {
            Some("a number of 0 or more, of the kind that this stage asks for")
        }
    }
}

words! {
    /// Where a reading lies outside its band.
    pub enum Direction, "direction" {
        /// Below it.
        TooLow = "too-low",
        /// Above it.
        TooHigh = "too-high",
        /// The size may be right, the sign is not.
        Reversed = "reversed",
    }
}
