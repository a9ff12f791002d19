//! Charging a lead-acid battery from a plain transformer and rectifier.

use crate::magnetics::rectifier::{DirectLoad, Rectifier, RectifierError};
use crate::quantity::{
    Charge, Current, Inductance, Input, Measured, Origin, Ratio, Resistance, Time, UncertainInputs, Visitor, Voltage,
    estimates,
};

/// Rested open-circuit voltage of a lead-acid cell against its state of charge, and its ±: state,
/// volts, half-width. The table that battery handbooks print for a 12 V battery (11.89, 12.06, 12.24,
/// 12.45, 12.65 V), over six; from memory. Within 1.2 % of "specific gravity + 0.84" for 1.120 to 1.265.
/// The tables of secondary sources lie 0.06 V (full) to 0.3 V (flat) apart for a 12 V battery: that is
/// the half-width, straight in between.
pub const REST_VOLTAGE: [(f64, f64, f64); 5] = [
    (0.0, 11.89 / 6.0, 0.30 / 6.0),
    (0.25, 12.06 / 6.0, 0.24 / 6.0),
    (0.5, 12.24 / 6.0, 0.18 / 6.0),
    (0.75, 12.45 / 6.0, 0.12 / 6.0),
    (1.0, 12.65 / 6.0, 0.06 / 6.0),
];

/// A lead-acid battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeadAcid {
    /// Cells in series: 6 for 12 V.
    pub cells: u32,
    /// Rated capacity.
    pub capacity: Measured<Charge>,
    /// Internal resistance with leads and clamps.
    pub resistance: Measured<Resistance>,
    /// How far the voltage of a cell stands above rest while it charges, without the resistive
    /// drop.
    pub polarisation: Measured<Voltage>,
    /// Place of this battery's rest voltage within its ±, from −1 to +1: [`typical_rest`].
    pub rest: Measured<Ratio>,
    /// Charge stored over charge put in.
    pub efficiency: Measured<Ratio>,
}

/// 0.10 ± 0.08 V a cell above rest while charging. Common practice, no source.
#[must_use]
pub fn typical_polarisation() -> Measured<Voltage> {
    Measured::new(Voltage::from_si(0.10), Voltage::from_si(0.08), Origin::Typical)
}

/// The middle of [`REST_VOLTAGE`], anywhere within its ±.
#[must_use]
pub fn typical_rest() -> Measured<Ratio> {
    Measured::new(Ratio::ZERO, Ratio::from_si(1.0), Origin::Typical)
}

/// 0.88 ± 0.07 of the charge put in is stored. Common practice, no source.
#[must_use]
pub fn typical_efficiency() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(0.88), Ratio::from_si(0.07), Origin::Typical)
}

/// Limits that the battery's label overrides.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeLimits {
    /// Voltage of a cell above which it gasses.
    pub gassing: Voltage,
    /// Highest charging current as a share of the capacity in ampere-hours, per hour.
    pub rate: Ratio,
}

impl ChargeLimits {
    /// 2.40 V a cell at 20 to 25 °C and a fifth of the capacity. Common practice, no source.
    #[must_use]
    pub const fn common_practice() -> Self {
        Self {
            gassing: Voltage::from_si(2.40),
            rate: Ratio::from_si(0.2),
        }
    }
}

/// What is wrong with a charger on its battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ChargeWarning {
    /// The current into the flat battery is above the limit.
    TooMuchCurrent {
        /// Mean current into the flat battery.
        current: Current,
        /// The limit.
        limit: Current,
    },
    /// The voltage passes the gassing limit from this state of charge on: it must be watched
    /// and switched off by hand or by a regulator, in the open air, away from sparks.
    Gassing {
        /// State of charge.
        from: Ratio,
    },
    /// The current stops before the battery is full.
    NeverFull {
        /// State of charge at which less than a hundredth of the C/1 current flows.
        stops_at: Ratio,
    },
    /// A plain rectifier goes on feeding current into the full battery: it boils dry unless it
    /// is switched off.
    NoEnd {
        /// Mean current into the full battery.
        current: Current,
    },
}

/// One point of the charge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargePoint {
    /// State of charge.
    pub state: Ratio,
    /// Time since flat.
    pub elapsed: Time,
    /// Mean charging current.
    pub current: Current,
    /// R.m.s. current in the winding.
    pub winding_current: Current,
    /// Mean voltage at the battery's terminals.
    pub terminal: Voltage,
}

/// The charge from flat to full (or to where it stops).
#[derive(Debug, Clone, PartialEq)]
pub struct ChargingCurve {
    /// Points in order of state of charge.
    pub points: Vec<ChargePoint>,
    /// What to heed.
    pub warnings: Vec<ChargeWarning>,
}

estimates! {
    /// A charge in five figures.
    pub struct ChargeAnswer / ChargeEstimate / ChargeNumber {
        /// Mean current into the flat battery.
        flat_current: Current [FlatCurrent, A, "behaves-flat-current"],
        /// Mean current into the full battery.
        full_current: Current [FullCurrent, A, "behaves-full-current"],
        /// R.m.s. current in the winding with the battery flat: what heats the transformer most.
        winding_current: Current [WindingCurrent, A, "behaves-charge-winding-current"],
        /// Mean voltage at the terminals of the full battery.
        full_voltage: Voltage [FullVoltage, V, "behaves-full-voltage"],
        /// From flat to full, or to nine tenths where the current stops before.
        duration: Time [Duration, H, "behaves-charge-duration"],
    }
}

/// A rectifier and the battery on it. The rectifier's own load is not used.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charger {
    /// Transformer and diodes.
    pub rectifier: Rectifier,
    /// Choke or none (zero).
    pub choke: Measured<Inductance>,
    /// The battery.
    pub battery: LeadAcid,
}

/// Rest voltage of a cell and its half-width: [`REST_VOLTAGE`] in straight lines.
fn rest_voltage(state: Ratio) -> (Voltage, Voltage) {
    let s = state.si().clamp(0.0, 1.0);
    let last = REST_VOLTAGE[REST_VOLTAGE.len() - 1];
    let (rest, half) = REST_VOLTAGE
        .windows(2)
        .find_map(|pair| match pair {
            [(s0, v0, h0), (s1, v1, h1)] if s <= *s1 => {
                let part = (s - s0) / (s1 - s0);
                Some((v0 + (v1 - v0) * part, h0 + (h1 - h0) * part))
            }
            _ => None,
        })
        .unwrap_or((last.1, last.2));
    (Voltage::from_si(rest), Voltage::from_si(half))
}

impl LeadAcid {
    /// Voltage of the whole battery while charging, without the resistive drop, at a state of
    /// charge (kept within 0 to 1): [`REST_VOLTAGE`] in straight lines, plus polarisation.
    #[must_use]
    pub fn charging_emf(&self, state: Ratio) -> Voltage {
        let (rest, half) = rest_voltage(state);
        (rest + half * self.rest.value.si() + self.polarisation.value) * f64::from(self.cells)
    }

    /// ± of [`Self::charging_emf`]: rest voltage and polarisation together.
    #[must_use]
    pub fn charging_emf_spread(&self, state: Ratio) -> Voltage {
        let rest = rest_voltage(state).1.si() * self.rest.plus_minus.si();
        Voltage::from_si(rest.hypot(self.polarisation.plus_minus.si()) * f64::from(self.cells))
    }
}

/// Steps in state of charge.
const STEPS: u32 = 20;

impl Charger {
    fn point(&self, state: Ratio) -> Result<ChargePoint, RectifierError> {
        let load = DirectLoad::BackVoltage {
            emf: Measured::exact(self.battery.charging_emf(state), Origin::Computed),
            resistance: self.battery.resistance,
            choke: self.choke,
        };
        let answer = Rectifier { load, ..self.rectifier }.means()?;
        Ok(ChargePoint {
            state,
            elapsed: Time::ZERO,
            current: answer.current,
            winding_current: answer.winding_current,
            terminal: answer.voltage,
        })
    }

    /// Every twentieth from flat to full, times left out.
    pub(super) fn states(&self) -> Result<Vec<ChargePoint>, RectifierError> {
        (0..=STEPS)
            .map(|step| self.point(Ratio::from_si(f64::from(step) / f64::from(STEPS))))
            .collect()
    }

    /// The charge from flat to full, by steps of a twentieth of the capacity (trapezoidal in
    /// the reciprocal of the current).
    ///
    /// # Errors
    /// As [`Rectifier::steady`]; [`RectifierError::NotPositive`] for cells, capacity or
    /// efficiency at or below zero.
    pub fn curve(&self, limits: ChargeLimits) -> Result<ChargingCurve, RectifierError> {
        self.check()?;
        Ok(self.timed(&self.states()?, limits))
    }

    /// [`Charger::curve`] from its states.
    pub(super) fn timed(&self, states: &[ChargePoint], limits: ChargeLimits) -> ChargingCurve {
        let capacity = self.battery.capacity.value;
        let trickle = Current::from_si(capacity.amp_hours() * 0.01);
        let mut points: Vec<ChargePoint> = Vec::with_capacity(states.len());
        let mut warnings = Vec::new();
        for point in states {
            let mut point = *point;
            if point.current < trickle {
                warnings.push(ChargeWarning::NeverFull { stops_at: point.state });
                break;
            }
            if let Some(before) = points.last() {
                let pace = f64::midpoint(1.0 / before.current.si(), 1.0 / point.current.si());
                let charge = capacity.si() / f64::from(STEPS) / self.battery.efficiency.value.si();
                point.elapsed = before.elapsed + Time::from_si(charge * pace);
            }
            points.push(point);
        }
        let limit = Current::from_si(limits.rate.si() * capacity.amp_hours());
        if let Some(first) = points.first().filter(|p| p.current > limit) {
            warnings.push(ChargeWarning::TooMuchCurrent {
                current: first.current,
                limit,
            });
        }
        let gassing = limits.gassing * f64::from(self.battery.cells);
        if let Some(point) = points.iter().find(|p| p.terminal > gassing) {
            warnings.push(ChargeWarning::Gassing { from: point.state });
        }
        if let Some(last) = points.last().filter(|p| p.state.si() >= 1.0) {
            warnings.push(ChargeWarning::NoEnd { current: last.current });
        }
        ChargingCurve { points, warnings }
    }

    pub(super) fn check(&self) -> Result<(), RectifierError> {
        let battery = &self.battery;
        if battery.cells == 0 {
            return Err(RectifierError::NotPositive("number of cells"));
        }
        let bad = |v: f64| !(v.is_finite() && v > 0.0);
        if bad(battery.capacity.value.si()) {
            return Err(RectifierError::NotPositive("capacity"));
        }
        if bad(battery.efficiency.value.si()) {
            return Err(RectifierError::NotPositive("charge efficiency"));
        }
        Ok(())
    }

    /// The charge in five figures; the duration is not finite where the current stops before
    /// nine tenths.
    ///
    /// # Errors
    /// As [`Charger::curve`].
    pub fn answer(&self) -> Result<ChargeAnswer, RectifierError> {
        self.check()?;
        let states = self.states()?;
        let curve = self.timed(&states, ChargeLimits::common_practice());
        Self::figures(&states, &curve).ok_or(RectifierError::NoSteadyState)
    }

    /// [`Charger::answer`] from the states and the curve through them.
    pub(super) fn figures(states: &[ChargePoint], curve: &ChargingCurve) -> Option<ChargeAnswer> {
        let (flat, full) = (states.first()?, states.last()?);
        let duration = curve
            .points
            .last()
            .filter(|p| p.state.si() >= 0.9)
            .map_or(Time::from_si(f64::INFINITY), |p| p.elapsed);
        Some(ChargeAnswer {
            flat_current: flat.current,
            full_current: full.current,
            winding_current: flat.winding_current,
            full_voltage: full.terminal,
            duration,
        })
    }
}

impl UncertainInputs for Charger {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        // The rectifier's own load is not used, so it brings nothing.
        let mut rectifier = Rectifier {
            load: DirectLoad::BackVoltage {
                emf: Measured::exact(Voltage::ZERO, Origin::Computed),
                resistance: Measured::exact(Resistance::ZERO, Origin::Computed),
                choke: self.choke,
            },
            ..self.rectifier
        };
        rectifier.visit(visitor);
        if let DirectLoad::BackVoltage { choke, .. } = rectifier.load {
            self.choke = choke;
        }
        self.rectifier = Rectifier {
            load: self.rectifier.load,
            ..rectifier
        };
        self.battery.capacity.visit(Input::Capacity, visitor);
        self.battery.resistance.visit(Input::BatteryResistance, visitor);
        self.battery.polarisation.visit(Input::Polarisation, visitor);
        self.battery.rest.visit(Input::RestVoltage, visitor);
        self.battery.efficiency.visit(Input::ChargeEfficiency, visitor);
    }
}
