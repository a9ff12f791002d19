//! Bridge and centre-tap rectifiers on a transformer with resistance and leakage, into a
//! battery, a smoothing capacitor or a direct-current arc.

pub use crate::magnetics::rectifier::answer::{
    RectifierAnswer, RectifierError, RectifierEstimate, RectifierNumber, WavePoint,
};
use crate::magnetics::rectifier::circuit::first_guess;
use crate::magnetics::rectifier::cycle::{Stretch, Walker};
use crate::magnetics::rectifier::state::Circuit;
use crate::magnetics::rectifier::sums::{Means, Sums};
use crate::quantity::{
    Angle, Capacitance, Current, Frequency, Inductance, Input, Measured, Power, Propagated, Resistance, Time,
    UncertainInputs, Visitor, Voltage, propagate,
};

/// How the diodes are joined to the winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Connection {
    /// Four diodes, two in the current's path.
    Bridge,
    /// Two half windings and two diodes, one in the current's path. The halves are taken as
    /// wound together, so that they share the leakage towards the primary.
    CentreTap,
}

impl Connection {
    /// New turns that conduct at a time, over all new turns.
    #[must_use]
    pub const fn share_of_turns(self) -> f64 {
        match self {
            Connection::Bridge => 1.0,
            Connection::CentreTap => 0.5,
        }
    }

    /// Diodes that the current passes one after the other.
    #[must_use]
    pub const fn diodes_in_path(self) -> f64 {
        match self {
            Connection::Bridge => 2.0,
            Connection::CentreTap => 1.0,
        }
    }
}

/// What the rectifier feeds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum DirectLoad {
    /// A battery or an arc: a back voltage with a slope, through a choke or (inductance zero)
    /// without one.
    BackVoltage {
        /// Electromotive force of the battery, or the arc's voltage at no current.
        emf: Measured<Voltage>,
        /// Internal resistance and leads, or the slope of the arc's voltage.
        resistance: Measured<Resistance>,
        /// Smoothing choke; zero for none.
        choke: Measured<Inductance>,
    },
    /// A reservoir capacitor with a resistive load beside it.
    Reservoir {
        /// The capacitor.
        capacitance: Measured<Capacitance>,
        /// The load.
        resistance: Measured<Resistance>,
    },
}

/// The straight line that stands for a diode: forward voltage = threshold + slope × current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiodeLine {
    /// Where the line meets zero current.
    pub threshold: Measured<Voltage>,
    /// How steeply it rises.
    pub slope: Measured<Resistance>,
}

/// A rectifier with its source and load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rectifier {
    /// Bridge or centre tap.
    pub connection: Connection,
    /// Open-circuit voltage of the winding, r.m.s. (of one half with a centre tap).
    pub open_voltage: Measured<Voltage>,
    /// Mains frequency.
    pub frequency: Measured<Frequency>,
    /// Resistance of the primary (referred to the winding) and of the winding or half winding.
    pub source_resistance: Measured<Resistance>,
    /// Leakage inductance, referred to the winding or half winding.
    pub leakage: Measured<Inductance>,
    /// Each diode.
    pub diode: DiodeLine,
    /// What it feeds.
    pub load: DirectLoad,
}

/// Means of a steady state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeanAnswer {
    /// Voltage of the load.
    pub voltage: Voltage,
    /// Current in it.
    pub current: Current,
    /// R.m.s. current of the winding, or of one half of it.
    pub winding_current: Current,
    /// R.m.s. current that the primary balances, seen from the winding or from one half of it.
    pub primary_side_current: Current,
}

impl Rectifier {
    /// The steady state at the best inputs.
    ///
    /// Exact for straight-line diodes. A leakage below 0.01 % of the path's resistance (as
    /// ωL/R) is raised to that, which moves no answer by 0.01 %. The magnetising current and
    /// the capacitor's own resistance are left out.
    ///
    /// # Errors
    /// [`RectifierError::NotPositive`] for voltage, frequency, capacitor or resistive load at
    /// or below zero; [`RectifierError::Negative`] for the others below zero;
    /// [`RectifierError::NoResistance`] where source, diodes and load add up to none.
    pub fn steady(&self) -> Result<RectifierAnswer, RectifierError> {
        let circuit = self.circuit()?;
        Ok(self.gather(&circuit, &periodic(&circuit, 1)?))
    }

    /// [`Rectifier::steady`] with uncertainty, and what each input adds to it.
    ///
    /// # Errors
    /// As [`Rectifier::steady`].
    pub fn steady_with_uncertainty(
        &self,
    ) -> Result<(RectifierEstimate, Propagated<{ RectifierAnswer::COUNT }>), RectifierError> {
        self.steady()?;
        let answers = propagate(self, |r| r.steady().ok().map(|a| a.to_si())).ok_or(RectifierError::NoSteadyState)?;
        Ok((RectifierEstimate::from_propagated(&answers), answers))
    }

    /// One period of the steady state at `points` evenly spaced times (at least 2 are given).
    ///
    /// # Errors
    /// As [`Rectifier::steady`].
    pub fn waveform(&self, points: usize) -> Result<Vec<WavePoint>, RectifierError> {
        let circuit = self.circuit()?;
        let stretches = periodic(&circuit, 1)?;
        let half = std::f64::consts::PI / circuit.omega;
        let points = points.max(2);
        let mut wave = Vec::with_capacity(points);
        for index in 0..points {
            let time = 2.0 * half * index as f64 / points as f64;
            let (within, sign) = if time < half { (time, 1.0) } else { (time - half, -1.0) };
            let at = stretches
                .partition_point(|s| s.to.time < within)
                .min(stretches.len().saturating_sub(1));
            let Some(stretch) = stretches.get(at) else { continue };
            let x = stretch.path.at(circuit.instant(within));
            wave.push(WavePoint {
                time: Time::from_si(time),
                source: Voltage::from_si(circuit.source(circuit.instant(time))),
                winding: Current::from_si(sign * x[0]),
                direct: Current::from_si(circuit.direct_current(x)),
                load: Voltage::from_si(circuit.load_voltage(x)),
            });
        }
        Ok(wave)
    }

    /// R.m.s. current of the winding, or of one half of it, from the mean squares on both sides.
    fn winding_current(&self, direct2: f64, ac2: f64) -> Current {
        Current::from_si(match self.connection {
            Connection::Bridge => ac2.sqrt(),
            // The halves carry (direct ± winding)/2; the product of the two averages to zero.
            Connection::CentreTap => (direct2 + ac2).sqrt() / 2.0,
        })
    }

    /// Mean current and voltage of the load and r.m.s. current of the winding: those of
    /// [`Rectifier::steady`], several times quicker.
    ///
    /// # Errors
    /// As [`Rectifier::steady`].
    pub fn means(&self) -> Result<MeanAnswer, RectifierError> {
        /// Grid steps that one Gauss rule goes over: an eighth of a half period.
        const STEPS: usize = 6;
        let circuit = self.circuit()?;
        let mut sums = Means::default();
        for stretch in periodic(&circuit, STEPS)? {
            sums.add(&circuit, &stretch);
        }
        let mean = |sum: f64| sum * circuit.omega / std::f64::consts::PI;
        Ok(MeanAnswer {
            voltage: Voltage::from_si(mean(sums.load)),
            current: Current::from_si(mean(sums.direct)),
            winding_current: self.winding_current(mean(sums.direct2), mean(sums.winding2)),
            primary_side_current: Current::from_si(mean(sums.winding2).sqrt()),
        })
    }

    fn gather(&self, circuit: &Circuit, stretches: &[Stretch]) -> RectifierAnswer {
        let mut sums = Sums::new(self.connection);
        for stretch in stretches {
            sums.add(circuit, stretch);
        }
        let half = std::f64::consts::PI / circuit.omega;
        let mean = |sum: f64| sum / half;
        let (direct, direct2, ac2) = (mean(sums.direct), mean(sums.direct2), mean(sums.winding2));
        let winding_current = self.winding_current(direct2, ac2);
        RectifierAnswer {
            mean_voltage: Voltage::from_si(mean(sums.load)),
            lowest_voltage: Voltage::from_si(sums.lowest),
            highest_voltage: Voltage::from_si(sums.highest),
            ripple: Voltage::from_si(sums.highest - sums.lowest),
            mean_current: Current::from_si(direct),
            direct_rms: Current::from_si(direct2.sqrt()),
            peak_current: Current::from_si(sums.peak),
            winding_current,
            primary_side_current: Current::from_si(ac2.sqrt()),
            conduction_angle: Angle::from_si(sums.conducting * circuit.omega),
            reverse_voltage: Voltage::from_si(sums.reverse),
            diode_current: Current::from_si(direct / 2.0),
            // In overlap both legs carry current; (direct² + winding²)/2 covers all states.
            diode_loss: Power::from_si(circuit.threshold * direct + circuit.slope / 2.0 * (direct2 + ac2)),
            source_loss: Power::from_si(circuit.resistance * ac2),
            direct_power: Power::from_si(mean(sums.power)),
        }
    }
}

/// The half period that repeats, in stretches of up to so many steps of the grid.
fn periodic(circuit: &Circuit, steps: usize) -> Result<Vec<Stretch>, RectifierError> {
    Walker::new(circuit)
        .periodic(steps, first_guess(circuit))
        .ok_or(RectifierError::NoSteadyState)
}

impl UncertainInputs for DiodeLine {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.threshold.visit(Input::DiodeThreshold, visitor);
        self.slope.visit(Input::DiodeSlope, visitor);
    }
}

impl UncertainInputs for DirectLoad {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        match self {
            DirectLoad::BackVoltage { emf, resistance, choke } => {
                emf.visit(Input::BackVoltage, visitor);
                resistance.visit(Input::LoadResistance, visitor);
                choke.visit(Input::Choke, visitor);
            }
            DirectLoad::Reservoir {
                capacitance,
                resistance,
            } => {
                capacitance.visit(Input::Capacitor, visitor);
                resistance.visit(Input::LoadResistance, visitor);
            }
        }
    }
}

impl UncertainInputs for Rectifier {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.open_voltage.visit(Input::OpenCircuitVoltage, visitor);
        self.frequency.visit(Input::Frequency, visitor);
        self.source_resistance.visit(Input::SourceResistance, visitor);
        self.leakage.visit(Input::LeakageInductance, visitor);
        self.diode.visit(visitor);
        self.load.visit(visitor);
    }
}
