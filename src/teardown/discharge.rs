//! What the capacitor holds and how fast it loses it. This informs; it never passes a gate.

use crate::quantity::{Capacitance, Charge, Current, Energy, Power, Quantity, Resistance, Time, Voltage};
use crate::safety::{CHARGE_LIMIT, TouchLimit};
use crate::words::{Explain, Message};

/// The resistor inside or across the capacitor that lets its charge go.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Bleeder {
    /// It is there and whole.
    Present(Resistance),
    /// It is broken, missing, or nobody knows: the capacitor keeps its charge.
    Failed,
}

/// The donor's high-voltage capacitor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HvCapacitor {
    /// Its value, as printed on it.
    pub capacitance: Capacitance,
    /// Its bleeder.
    pub bleeder: Bleeder,
    /// The voltage it may start from: the peak of the old winding, or what is printed on it.
    pub start: Voltage,
}

/// An insulated resistor tool for discharging.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ResistorTool {
    /// Its resistance.
    pub resistance: Resistance,
    /// The voltage that it is rated for.
    pub rated: Voltage,
}

/// What a capacitor holds and how long it stays dangerous by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Discharge {
    /// Stored energy, ½CV².
    pub energy: Energy,
    /// Stored charge, CV.
    pub charge: Charge,
    /// How many times the charge limit of IEC 60335-1 that is.
    pub times_charge_limit: f64,
    /// Time until the bleeder has brought it to the touch limit; `None` if the bleeder failed:
    /// then no time is long enough.
    pub by_bleeder: Option<Time>,
}

/// What discharging asks of a resistor tool.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToolDuty {
    /// Time on the terminals until the touch limit. Hold it longer.
    pub time: Time,
    /// Current at the first touch.
    pub peak_current: Current,
    /// Power at the first touch.
    pub peak_power: Power,
    /// Heat that the tool takes, at most.
    pub energy: Energy,
    /// False if the tool's rated voltage is below the capacitor's: do not use it.
    pub rated_enough: bool,
}

/// Why there is no answer.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum DischargeError {
    /// The capacitance can't be right.
    #[error("a capacitor of {microfarads} µF is not one of a microwave oven; give 0.01 to 10 µF, as printed on it")]
    Capacitance {
        /// What was given.
        microfarads: f64,
    },
    /// The voltage can't be right.
    #[error("{volts} V is outside 1 to 20000 V; give the voltage printed on the capacitor or more")]
    Voltage {
        /// What was given.
        volts: f64,
    },
    /// The resistance can't be right.
    #[error("{ohms} Ω is outside 1 Ω to 1 GΩ; read the resistor again")]
    Resistance {
        /// What was given.
        ohms: f64,
    },
}

impl Explain for DischargeError {
    fn message(&self) -> Message {
        match self {
            DischargeError::Capacitance { microfarads } => {
                Message::new("refused-capacitance").with("microfarads", microfarads)
            }
            DischargeError::Voltage { volts } => Message::new("refused-capacitor-volts").with("volts", volts),
            DischargeError::Resistance { ohms } => Message::new("refused-discharge-ohms").with("ohms", ohms),
        }
    }
}

/// Time for a capacitor to fall from one voltage to another through a resistance,
/// `R C ln(V0 / V)` (any textbook). Zero if it is there already.
fn decay(capacitance: Capacitance, resistance: Resistance, from: Voltage, to: Voltage) -> Time {
    Time::from_si(resistance.si() * capacitance.si() * (from / to).ln().max(0.0))
}

fn within<Q: Quantity>(value: Q, low: f64, high: f64) -> bool {
    (low..=high).contains(&value.si())
}

impl HvCapacitor {
    fn checked(&self) -> Result<(), DischargeError> {
        if !within(self.capacitance, 0.01e-6, 10e-6) {
            let microfarads = self.capacitance.microfarads();
            return Err(DischargeError::Capacitance { microfarads });
        }
        if !within(self.start, 1.0, 20e3) {
            let volts = self.start.si();
            return Err(DischargeError::Voltage { volts });
        }
        match self.bleeder {
            Bleeder::Present(bleeder) => resistance_checked(bleeder),
            Bleeder::Failed => Ok(()),
        }
    }

    /// What it holds and how long it takes by itself to reach the touch limit.
    ///
    /// # Errors
    /// [`DischargeError`] outside 0.01 to 10 µF, 1 to 20000 V, 1 Ω to 1 GΩ.
    pub fn discharge(&self, limit: TouchLimit) -> Result<Discharge, DischargeError> {
        self.checked()?;
        let charge = self.capacitance * self.start;
        Ok(Discharge {
            energy: Energy::from_si(0.5 * charge.si() * self.start.si()),
            charge,
            times_charge_limit: charge / CHARGE_LIMIT,
            by_bleeder: match self.bleeder {
                Bleeder::Present(bleeder) => Some(decay(self.capacitance, bleeder, self.start, limit.volts())),
                Bleeder::Failed => None,
            },
        })
    }

    /// What discharging through a resistor tool asks of it. The bleeder's help is left out.
    ///
    /// # Errors
    /// As [`HvCapacitor::discharge`]; the tool's resistance has the bleeder's range.
    pub fn through(&self, tool: ResistorTool, limit: TouchLimit) -> Result<ToolDuty, DischargeError> {
        let stored = self.discharge(limit)?;
        resistance_checked(tool.resistance)?;
        let peak_current = self.start / tool.resistance;
        Ok(ToolDuty {
            time: decay(self.capacitance, tool.resistance, self.start, limit.volts()),
            peak_current,
            peak_power: peak_current.heating(tool.resistance),
            energy: stored.energy,
            rated_enough: tool.rated >= self.start,
        })
    }
}

fn resistance_checked(resistance: Resistance) -> Result<(), DischargeError> {
    if within(resistance, 1.0, 1e9) {
        Ok(())
    } else {
        Err(DischargeError::Resistance { ohms: resistance.si() })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn donor(bleeder: Bleeder) -> HvCapacitor {
        HvCapacitor {
            capacitance: Capacitance::from_microfarads(1.0),
            bleeder,
            start: Voltage::from_si(2970.0),
        }
    }

    /// RC law: 1 µF, 10 MΩ, 2970 V hold 4.41 J and take 42.5 s to 42.4 V, 46.0 s to 30 V.
    #[test]
    fn by_its_bleeder() {
        let capacitor = donor(Bleeder::Present(Resistance::from_megohms(10.0)));
        for (limit, seconds) in [(42.4, 42.5), (30.0, 46.0)] {
            let limit = TouchLimit::new(Voltage::from_si(limit)).unwrap();
            let got = capacitor.discharge(limit).unwrap();
            assert!((got.energy.si() / 4.41 - 1.0).abs() < 5e-3, "{:?}", got.energy);
            let time = got.by_bleeder.unwrap();
            assert!((time.si() / seconds - 1.0).abs() < 5e-3, "{time:?}");
        }
    }

    /// 1 µF at 2.8 kV holds 2800 µC, 62 times the 45 µC of IEC 60335-1 (R2: manufacturers' test manuals).
    #[test]
    fn charge_against_the_limit() {
        let mut capacitor = donor(Bleeder::Failed);
        capacitor.start = Voltage::from_kv(2.8);
        let got = capacitor.discharge(TouchLimit::default()).unwrap();
        assert!((got.charge.microcoulombs() - 2800.0).abs() < 1e-6);
        assert!(
            (got.times_charge_limit - 62.0).abs() < 0.5,
            "{}",
            got.times_charge_limit
        );
        assert_eq!(got.by_bleeder, None, "without a bleeder no time is long enough");
    }

    /// Ohm's law at the first touch, and V0 e^(−t/RC) back at the touch limit (RC law).
    #[test]
    fn through_a_tool() {
        let capacitor = donor(Bleeder::Failed);
        let tool = ResistorTool {
            resistance: Resistance::from_si(20e3),
            rated: Voltage::from_kv(5.0),
        };
        let duty = capacitor.through(tool, TouchLimit::default()).unwrap();
        assert!((duty.peak_current.ma() - 148.5).abs() < 0.01);
        assert!((duty.peak_power.si() - 441.0).abs() < 0.1, "{:?}", duty.peak_power);
        let left = 2970.0 * (-duty.time.si() / (20e3 * 1e-6)).exp();
        assert!((left - 42.4).abs() < 1e-6, "{left}");
        assert!(duty.rated_enough);
        let weak = ResistorTool {
            rated: Voltage::from_si(350.0),
            ..tool
        };
        assert!(!capacitor.through(weak, TouchLimit::default()).unwrap().rated_enough);
    }

    #[test]
    fn nonsense_is_refused() {
        let limit = TouchLimit::default();
        for microfarads in [0.0, -1.0, 11.0, f64::NAN, f64::INFINITY] {
            let mut capacitor = donor(Bleeder::Failed);
            capacitor.capacitance = Capacitance::from_microfarads(microfarads);
            assert!(capacitor.discharge(limit).is_err(), "{microfarads}");
        }
        for ohms in [0.0, -5.0, 2e9, f64::NAN] {
            let capacitor = donor(Bleeder::Present(Resistance::from_si(ohms)));
            assert!(capacitor.discharge(limit).is_err(), "{ohms}");
        }
        let mut capacitor = donor(Bleeder::Failed);
        capacitor.start = Voltage::from_si(f64::NAN);
        assert!(capacitor.discharge(limit).is_err());
    }
}
