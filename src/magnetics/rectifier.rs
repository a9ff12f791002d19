//! Bridge and centre-tap rectifiers on a transformer with resistance and leakage, into a
//! battery, a smoothing capacitor or a direct-current arc.

use super::rectifier_cycle::{State, Walker};
use super::rectifier_state::{Circuit, DirectSide, Mode};
use super::rectifier_sums::Sums;
use crate::quantity::{
    Angle, Capacitance, Current, Frequency, Inductance, Measured, Power, Propagated, Quantity, Resistance, Time,
    UncertainInputs, Voltage, estimates, first_order,
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
    pub struct RectifierAnswer / RectifierEstimate {
        /// Mean voltage at the load.
        mean_voltage: Voltage,
        /// Lowest voltage at the load.
        lowest_voltage: Voltage,
        /// Highest voltage at the load.
        highest_voltage: Voltage,
        /// Ripple, peak to peak.
        ripple: Voltage,
        /// Mean current out of the diodes.
        mean_current: Current,
        /// R.m.s. current out of the diodes, which heats battery, arc and choke.
        direct_rms: Current,
        /// Highest current.
        peak_current: Current,
        /// R.m.s. current in the winding (in each half with a centre tap).
        winding_current: Current,
        /// R.m.s. current of one winding on the core that would load the primary alike.
        primary_side_current: Current,
        /// How long the diodes conduct in each half period, of 180°.
        conduction_angle: Angle,
        /// Highest reverse voltage on a diode (ringing not counted).
        reverse_voltage: Voltage,
        /// Mean current of each diode.
        diode_current: Current,
        /// Heat in all the diodes together.
        diode_loss: Power,
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
        let walker = Walker::new(&circuit);
        let state = walker
            .periodic(first_guess(&circuit))
            .ok_or(RectifierError::NoSteadyState)?;
        Ok(self.gather(&walker, state))
    }

    /// [`Rectifier::steady`] with uncertainty, and what each input adds to it.
    ///
    /// # Errors
    /// As [`Rectifier::steady`].
    pub fn steady_with_uncertainty(
        &self,
    ) -> Result<(RectifierEstimate, Propagated<{ RectifierAnswer::COUNT }>), RectifierError> {
        self.steady()?;
        let answers = first_order(self, |r| r.steady().ok().map(|a| a.to_si())).ok_or(RectifierError::NoSteadyState)?;
        Ok((RectifierEstimate::from_propagated(&answers), answers))
    }

    /// One period of the steady state at `points` evenly spaced times (at least 2 are given).
    ///
    /// # Errors
    /// As [`Rectifier::steady`].
    pub fn waveform(&self, points: usize) -> Result<Vec<WavePoint>, RectifierError> {
        let circuit = self.circuit()?;
        let walker = Walker::new(&circuit);
        let state = walker
            .periodic(first_guess(&circuit))
            .ok_or(RectifierError::NoSteadyState)?;
        let mut stretches = Vec::new();
        walker.half(state, |stretch| stretches.push(stretch));
        let half = std::f64::consts::PI / circuit.omega;
        let points = points.max(2);
        let mut wave = Vec::with_capacity(points);
        for index in 0..points {
            let time = 2.0 * half * index as f64 / points as f64;
            let (within, sign) = if time < half { (time, 1.0) } else { (time - half, -1.0) };
            let at = stretches
                .partition_point(|s| s.to < within)
                .min(stretches.len().saturating_sub(1));
            let Some(stretch) = stretches.get(at) else { continue };
            let x = stretch.path.at(within);
            wave.push(WavePoint {
                time: Time::from_si(time),
                source: Voltage::from_si(circuit.source(time)),
                winding: Current::from_si(sign * x[0]),
                direct: Current::from_si(circuit.direct_current(x)),
                load: Voltage::from_si(circuit.load_voltage(x)),
            });
        }
        Ok(wave)
    }

    fn circuit(&self) -> Result<Circuit, RectifierError> {
        let peak = positive("open-circuit voltage", self.open_voltage)? * std::f64::consts::SQRT_2;
        let omega = std::f64::consts::TAU * positive("frequency", self.frequency)?;
        let resistance = not_negative("source resistance", self.source_resistance)?;
        let leakage = not_negative("leakage inductance", self.leakage)?;
        let in_path = match self.connection {
            Connection::Bridge => 2.0,
            Connection::CentreTap => 1.0,
        };
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

    fn gather(&self, walker: &Walker, state: State) -> RectifierAnswer {
        let circuit = walker.circuit;
        let mut sums = Sums::new(self.connection);
        walker.half(state, |stretch| sums.add(circuit, &stretch));
        let half = std::f64::consts::PI / circuit.omega;
        let mean = |sum: f64| sum / half;
        let (direct, direct2, ac2) = (mean(sums.direct), mean(sums.direct2), mean(sums.winding2));
        let winding_current = match self.connection {
            Connection::Bridge => ac2.sqrt(),
            // The halves carry (direct ± winding)/2; the product of the two averages to zero.
            Connection::CentreTap => (direct2 + ac2).sqrt() / 2.0,
        };
        RectifierAnswer {
            mean_voltage: Voltage::from_si(mean(sums.load)),
            lowest_voltage: Voltage::from_si(sums.lowest),
            highest_voltage: Voltage::from_si(sums.highest),
            ripple: Voltage::from_si(sums.highest - sums.lowest),
            mean_current: Current::from_si(direct),
            direct_rms: Current::from_si(direct2.sqrt()),
            peak_current: Current::from_si(sums.peak),
            winding_current: Current::from_si(winding_current),
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

fn first_guess(circuit: &Circuit) -> State {
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

impl UncertainInputs for Rectifier {
    fn visit(&mut self, visitor: &mut dyn FnMut(&'static str, &mut f64, f64)) {
        self.open_voltage.visit("open-circuit voltage", visitor);
        self.frequency.visit("frequency", visitor);
        self.source_resistance.visit("source resistance", visitor);
        self.leakage.visit("leakage inductance", visitor);
        self.diode.threshold.visit("diode threshold", visitor);
        self.diode.slope.visit("diode slope", visitor);
        match &mut self.load {
            DirectLoad::BackVoltage { emf, resistance, choke } => {
                emf.visit("back voltage", visitor);
                resistance.visit("load resistance", visitor);
                choke.visit("choke", visitor);
            }
            DirectLoad::Reservoir {
                capacitance,
                resistance,
            } => {
                capacitance.visit("capacitor", visitor);
                resistance.visit("load resistance", visitor);
            }
        }
    }
}
