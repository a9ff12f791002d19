//! Readings for the bench, for several test programs.

use curbcore::bench::{Amount, Prediction, Reading, Stage, WarmRun};
use curbcore::quantity::{Current, Resistance, Temperature, Voltage};
use curbcore::wire::Metal;

/// The reading that a prediction expects.
pub fn as_predicted(of: &Prediction) -> Reading {
    let (metal, room) = (Metal::Copper, Temperature::from_si(20.0));
    match (of.stage, of.value) {
        (Stage::Continuity, Amount::Resistance(resistance)) => Reading::Winding {
            resistance,
            at: room,
            metal,
        },
        (Stage::Insulation, Amount::Resistance(resistance)) => Reading::Insulation(resistance),
        (_, Amount::Resistance(resistance)) => Reading::Impedance {
            volts: Voltage::from_si(resistance.si()),
            amps: Current::from_si(1.0),
        },
        (_, Amount::Ratio(ratio)) => Reading::Ratio(ratio),
        (_, Amount::Current(current)) => Reading::Current(current),
        (_, Amount::Voltage(voltage)) => Reading::Voltage(voltage),
        // By the resistance method, with copper's 234.5.
        (_, Amount::Rise(rise)) => Reading::Warm(WarmRun {
            cold: Resistance::from_si(1.0),
            cold_at: room,
            hot: Resistance::from_si(1.0 + rise.si() / 254.5),
            air: room,
            current: Current::from_si(5.0),
            metal,
        }),
    }
}
