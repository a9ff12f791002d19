//! What a rectifier's steady state is told in.

use crate::quantity::{Angle, Current, Power, Time, Voltage, estimates};

/// Why a rectifier has no answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum RectifierError {
    /// A value that must be above zero is not, or is no number.
    #[error("the {0} must be more than zero; measure it again")]
    NotPositive(&'static str),
    /// A value that must not be below zero is, or is no number.
    #[error("the {0} must be zero or more; measure it again")]
    Negative(&'static str),
    /// Source, diodes and load have no resistance between them.
    #[error("no resistance anywhere in the current's path: enter the winding's resistance (1 mΩ to 1 Ω is usual)")]
    NoResistance,
    /// The search for the state that repeats came to no end.
    #[error("no steady state found; check the leakage, choke and capacitor for a wrong unit")]
    NoSteadyState,
}

estimates! {
    /// What flows in a rectifier in the steady state.
    pub struct RectifierAnswer / RectifierEstimate / RectifierNumber {
        /// Mean voltage at the load.
        mean_voltage: Voltage [MeanVoltage, V, "behaves-mean-voltage"],
        /// Lowest voltage at the load.
        lowest_voltage: Voltage,
        /// Highest voltage at the load.
        highest_voltage: Voltage,
        /// Ripple, peak to peak.
        ripple: Voltage [Ripple, V, "behaves-ripple"],
        /// Mean current out of the diodes.
        mean_current: Current [MeanCurrent, A, "behaves-mean-current"],
        /// R.m.s. current out of the diodes, which heats battery, arc and choke.
        direct_rms: Current,
        /// Highest current.
        peak_current: Current [PeakCurrent, A, "behaves-diode-peak"],
        /// R.m.s. current in the winding (in each half with a centre tap).
        winding_current: Current [WindingCurrent, A, "behaves-dc-winding-current"],
        /// R.m.s. current of one winding on the core that would load the primary alike.
        primary_side_current: Current,
        /// How long the diodes conduct in each half period, of 180°.
        conduction_angle: Angle,
        /// Highest reverse voltage on a diode (ringing not counted).
        reverse_voltage: Voltage [ReverseVoltage, V, "behaves-reverse-voltage"],
        /// Mean current of each diode.
        diode_current: Current [DiodeCurrent, A, "behaves-diode-current"],
        /// Heat in all the diodes together.
        diode_loss: Power [DiodeLoss, W, "behaves-diode-loss"],
        /// Heat in the source resistance.
        source_loss: Power,
        /// Power into the load: battery with its internal resistance, arc, or resistor.
        direct_power: Power,
    }
}

/// One point of a waveform.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WavePoint {
    /// Time after the source's upward zero crossing.
    pub time: Time,
    /// Source voltage.
    pub source: Voltage,
    /// Current in the winding.
    pub winding: Current,
    /// Current out of the diodes.
    pub direct: Current,
    /// Voltage at the load.
    pub load: Voltage,
}
