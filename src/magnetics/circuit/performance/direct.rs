//! A winding with diodes behind it: what flows, by the exact state of the rectifier, and a closed form
//! that a search over many windings screens by.

use super::Circuit;
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, MeanAnswer, Rectifier};
use crate::quantity::{
    Current, Frequency, Inductance, Measured, Origin, Resistance, UncertainInputs, Visitor, Voltage,
};

/// Diodes, and what is behind them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DirectSide {
    /// How the diodes are joined.
    pub connection: Connection,
    /// Each diode.
    pub diode: DiodeLine,
    /// What they feed.
    pub load: DirectLoad,
}

impl DirectSide {
    /// The rectifier on a winding's circuit, with `reactor` ahead of the diodes. With a centre tap each half
    /// has half the voltage, half the winding's resistance, and a quarter of what is carried over from the
    /// primary.
    #[must_use]
    pub fn on(&self, circuit: &Circuit, frequency: Frequency, reactor: Resistance) -> Rectifier {
        let share = self.connection.share_of_turns();
        let ahead = (circuit.reactance + reactor) * (share * share);
        Rectifier {
            connection: self.connection,
            open_voltage: Measured::exact(circuit.emf * share, Origin::Computed),
            frequency: Measured::exact(frequency, Origin::Label),
            source_resistance: Measured::exact(self.source_resistance(circuit), Origin::Computed),
            leakage: Measured::exact(Inductance::from_si(ahead.si() / frequency.angular()), Origin::Computed),
            diode: self.diode,
            load: self.load,
        }
    }

    /// The circuit with the reactance that its shunts leave it at the mean current that flows.
    pub(super) fn held(&self, circuit: &Circuit, frequency: Frequency, reactor: Resistance) -> Circuit {
        let mean = |held: &Circuit| {
            self.on(held, frequency, reactor)
                .means()
                .map_or(Current::ZERO, |m| m.current)
        };
        match circuit.shunts {
            Some(_) => circuit.held_at(circuit.consistent(mean)),
            None => *circuit,
        }
    }

    /// What flows with `reactor` ahead of the diodes; nothing where the rectifier has no answer.
    pub(super) fn flowing(&self, circuit: &Circuit, frequency: Frequency, reactor: Resistance) -> MeanAnswer {
        let held = self.held(circuit, frequency, reactor);
        self.on(&held, frequency, reactor).means().unwrap_or(NOTHING)
    }

    /// Resistance ahead of the diodes, seen from the winding or from one half of it.
    pub(super) fn source_resistance(&self, circuit: &Circuit) -> Resistance {
        let share = self.connection.share_of_turns();
        let carried = circuit.resistance - circuit.own_resistance;
        circuit.own_resistance * share + carried * (share * share)
    }

    /// The same with the load as a voltage that holds, whatever flows.
    #[must_use]
    pub fn at_voltage(&self, volts: Voltage) -> Self {
        let none = Measured::exact(Inductance::ZERO, Origin::Chosen);
        let load = DirectLoad::BackVoltage {
            emf: Measured::exact(volts, Origin::Chosen),
            resistance: Measured::exact(Resistance::ZERO, Origin::Chosen),
            choke: match self.load {
                DirectLoad::BackVoltage { choke, .. } => choke,
                DirectLoad::Reservoir { .. } => none,
            },
        };
        Self { load, ..*self }
    }

    /// Power that the diodes take while these currents flow.
    pub(super) fn diode_loss(&self, flows: &MeanAnswer) -> f64 {
        let (mean, rms) = (flows.current.si(), flows.primary_side_current.si());
        self.connection.diodes_in_path()
            * (self.diode.threshold.value.si() * mean + self.diode.slope.value.si() * rms * rms)
    }

    /// What flows where the path has resistance only, and, with a choke, where the choke keeps the current
    /// smooth: both above what flows through a leakage. Nothing flows where the back voltage is never
    /// reached. A reservoir is taken as large: a back voltage at which as much flows in as out. Its pulses are
    /// too short for a leakage to be left out: it stands beside the resistance at the pulse's own pace.
    pub(super) fn screen(&self, circuit: &Circuit, frequency: Frequency) -> MeanAnswer {
        let rectifier = self.on(circuit, frequency, Resistance::ZERO);
        let diodes = self.connection.diodes_in_path();
        let crest = std::f64::consts::SQRT_2 * rectifier.open_voltage.value.si();
        let threshold = diodes * self.diode.threshold.value.si();
        let ahead = rectifier.source_resistance.value.si() + diodes * self.diode.slope.value.si();
        let (voltage, mean, square) = match self.load {
            DirectLoad::BackVoltage { emf, resistance, choke } => {
                let (back, r) = (emf.value.si() + threshold, ahead + resistance.value.si());
                // Smooth: the mean of the rectified sine less the back voltage.
                let smooth = ((2.0 / std::f64::consts::PI * crest - back) / r).max(0.0);
                let (mean, square) = if choke.value > Inductance::ZERO && smooth > 0.0 {
                    (smooth, smooth * smooth)
                } else {
                    pulses(crest, back, r)
                };
                (emf.value.si() + resistance.value.si() * mean, mean, square)
            }
            DirectLoad::Reservoir { resistance, .. } => {
                let leakage = rectifier.leakage.value.si() * frequency.angular();
                let r = ahead.hypot(LEAKAGE_IN_A_PULSE * leakage);
                let load = resistance.value.si();
                let over = |volts: f64| pulses(crest, volts + threshold, r).0 - volts / load;
                let most = (crest - threshold).max(0.0);
                let mut bracket = Bracket::new((0.0, over(0.0)), (most, over(most)));
                for _ in 0..12 {
                    if bracket.width() <= 1e-4 * most || bracket.at_low == bracket.at_high {
                        break;
                    }
                    let volts = bracket.on_line();
                    let value = over(volts);
                    if value.abs() * load <= 1e-4 * volts {
                        bracket.high = volts;
                        break;
                    }
                    bracket.narrow(volts, value, value > 0.0);
                }
                let volts = bracket.high;
                (volts, volts / load, pulses(crest, volts + threshold, r).1)
            }
        };
        self.of_mean(voltage, mean, square.max(0.0).sqrt())
    }

    /// The same held to `current` by a reactor, which draws the pulses out: not above a rectified sine's form
    /// factor, and with a choke as smooth as it was.
    pub(super) fn screen_held(&self, natural: &MeanAnswer, current: Current) -> MeanAnswer {
        let part = current / natural.current;
        let form = natural.primary_side_current / natural.current;
        let voltage = match self.load {
            DirectLoad::BackVoltage { emf, resistance, .. } => emf.value + resistance.value * current,
            DirectLoad::Reservoir { .. } => natural.voltage * part,
        };
        let rms = form.min(SINE_FORM) * current.si();
        self.of_mean(voltage.si(), current.si(), rms)
    }

    fn of_mean(&self, voltage: f64, mean: f64, rms: f64) -> MeanAnswer {
        let winding = match self.connection {
            Connection::Bridge => rms,
            Connection::CentreTap => rms / std::f64::consts::SQRT_2,
        };
        MeanAnswer {
            voltage: Voltage::from_si(voltage),
            current: Current::from_si(mean),
            winding_current: Current::from_si(winding),
            primary_side_current: Current::from_si(rms),
        }
    }

    /// The reactance ahead of the diodes that holds the mean current to `wanted`; zero where less flows
    /// without any.
    pub(super) fn holding(&self, circuit: &Circuit, frequency: Frequency, wanted: Current) -> Resistance {
        let above = |ohms: f64| {
            let with = self.on(circuit, frequency, Resistance::from_si(ohms));
            with.means().map_or(0.0, |found| found.current.si()) - wanted.si()
        };
        let far = (circuit.emf / wanted).si() * 2.0;
        let mut bracket = Bracket::new((0.0, above(0.0)), (far, above(far)));
        if bracket.at_low <= 0.0 {
            return Resistance::ZERO;
        }
        for _ in 0..60 {
            if bracket.width() <= 1e-12 * bracket.high || bracket.at_high >= 0.0 {
                break;
            }
            let ohms = bracket.on_line();
            let value = above(ohms);
            if value.abs() <= 1e-10 * wanted.si() {
                bracket.high = ohms;
                break;
            }
            bracket.narrow(ohms, value, value > 0.0);
        }
        Resistance::from_si(bracket.high)
    }

    /// Shows its uncertain inputs to a visitor.
    pub(super) fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.diode.visit(visitor);
        self.load.visit(visitor);
    }
}

/// Form factor of a full-wave rectified sine: r.m.s. over mean, π/(2√2) (any power electronics textbook).
const SINE_FORM: f64 = std::f64::consts::PI / (2.0 * std::f64::consts::SQRT_2);

/// Mean and mean square of the current `(V sin θ − E)/R` from α to π − α, with sin α = E/V, by integration.
fn pulses(crest: f64, back: f64, r: f64) -> (f64, f64) {
    if crest <= back {
        return (0.0, 0.0);
    }
    let pi = std::f64::consts::PI;
    let alpha = (back / crest).asin();
    let (width, cosine) = (pi - 2.0 * alpha, alpha.cos());
    let mean = (2.0 * crest * cosine - back * width) / (pi * r);
    let square = (crest * crest * (width / 2.0 + (2.0 * alpha).sin() / 2.0) - 4.0 * crest * back * cosine
        + back * back * width)
        / (pi * r * r);
    (mean, square)
}

/// What a leakage counts beside a resistance while a reservoir is charged, as a part of its reactance at the
/// mains' frequency: fitted to the exact state, for the screen alone.
const LEAKAGE_IN_A_PULSE: f64 = 1.0;

/// Nothing flows.
const NOTHING: MeanAnswer = MeanAnswer {
    voltage: Voltage::ZERO,
    current: Current::ZERO,
    winding_current: Current::ZERO,
    primary_side_current: Current::ZERO,
};
