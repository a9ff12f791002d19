//! From a rectifier's quantities to the circuit that is solved, and where the solution starts.

use crate::magnetics::rectifier::answer::RectifierError;
use crate::magnetics::rectifier::cycle::State;
use crate::magnetics::rectifier::state::{Circuit, DirectSide, Mode};
use crate::magnetics::rectifier::{DirectLoad, Rectifier};
use crate::quantity::{Measured, Quantity};

impl Rectifier {
    pub(super) fn circuit(&self) -> Result<Circuit, RectifierError> {
        let peak = positive("open-circuit voltage", self.open_voltage)? * std::f64::consts::SQRT_2;
        let omega = std::f64::consts::TAU * positive("frequency", self.frequency)?;
        let resistance = not_negative("source resistance", self.source_resistance)?;
        let leakage = not_negative("leakage inductance", self.leakage)?;
        let in_path = self.connection.diodes_in_path();
        let threshold = in_path * not_negative("diode threshold", self.diode.threshold)?;
        let slope = in_path * not_negative("diode slope resistance", self.diode.slope)?;
        let (side, load_resistance) = match self.load {
            DirectLoad::BackVoltage { emf, resistance, choke } => {
                let emf = not_negative("back voltage", emf)?;
                let resistance = not_negative("resistance of the load", resistance)?;
                let inductance = not_negative("choke", choke)?;
                let side = if inductance > 0.0 {
                    DirectSide::Choked {
                        emf,
                        resistance,
                        inductance,
                    }
                } else {
                    DirectSide::Stiff { emf, resistance }
                };
                (side, resistance)
            }
            DirectLoad::Reservoir {
                capacitance,
                resistance,
            } => {
                let capacitance = positive("capacitor", capacitance)?;
                let resistance = positive("resistance of the load", resistance)?;
                (
                    DirectSide::Reservoir {
                        capacitance,
                        resistance,
                    },
                    0.0,
                )
            }
        };
        let total = resistance + slope + load_resistance;
        if total <= 0.0 {
            return Err(RectifierError::NoResistance);
        }
        Ok(Circuit {
            peak,
            omega,
            resistance,
            inductance: leakage.max(1e-4 * total / omega),
            threshold,
            slope,
            side,
        })
    }
}

fn positive<Q: Quantity>(name: &'static str, value: Measured<Q>) -> Result<f64, RectifierError> {
    let si = value.value.si();
    if si.is_finite() && si > 0.0 {
        Ok(si)
    } else {
        Err(RectifierError::NotPositive(name))
    }
}

fn not_negative<Q: Quantity>(name: &'static str, value: Measured<Q>) -> Result<f64, RectifierError> {
    let si = value.value.si();
    if si.is_finite() && si >= 0.0 {
        Ok(si)
    } else {
        Err(RectifierError::Negative(name))
    }
}

pub(super) fn first_guess(circuit: &Circuit) -> State {
    let available = circuit.peak - circuit.threshold;
    match circuit.side {
        DirectSide::Reservoir { .. } => State {
            mode: Mode::Off,
            x: [0.0, (0.9 * available).max(0.0)],
        },
        DirectSide::Stiff { .. } => State {
            mode: Mode::Off,
            x: [0.0; 2],
        },
        DirectSide::Choked { emf, resistance, .. } => {
            // The mean of the rectified source against everything in its way.
            let mean = circuit.peak * std::f64::consts::FRAC_2_PI - circuit.threshold - emf;
            let commutation = 2.0 * circuit.omega * circuit.inductance * std::f64::consts::FRAC_1_PI;
            let current = mean / (circuit.resistance + circuit.slope + resistance + commutation);
            if current > 0.0 {
                State {
                    mode: Mode::Negative,
                    x: [-current, current],
                }
            } else {
                State {
                    mode: Mode::Off,
                    x: [0.0; 2],
                }
            }
        }
    }
}
