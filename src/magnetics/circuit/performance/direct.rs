//! A winding with diodes behind it: what flows, by the exact state of the rectifier, and a closed form
//! that a search over many windings screens by.

use super::Circuit;
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::rectifier::{Connection, DiodeLine, DirectLoad, MeanAnswer, Rectifier};
use crate::quantity::{
    Current, Frequency, Inductance, Measured, Origin, Resistance, UncertainInputs, Visitor, Voltage,
};

/// Diodes, and the battery behind them.
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

    /// Power that the diodes take while these currents flow.
    pub(super) fn diode_loss(&self, flows: &MeanAnswer) -> f64 {
        let (mean, rms) = (flows.current.si(), flows.primary_side_current.si());
        self.connection.diodes_in_path()
            * (self.diode.threshold.value.si() * mean + self.diode.slope.value.si() * rms * rms)
    }

    /// What flows where the path has resistance only, and, with a choke, where the choke keeps the current
    /// smooth: both above what flows through a leakage. The current into a back voltage E is
    /// `(V sin θ − E)/R` from α to π − α, with sin α = E/V, and its mean and its mean square follow by
    /// integration. Nothing flows where E is never reached; `None` for a reservoir.
    pub(super) fn screen(&self, circuit: &Circuit, frequency: Frequency) -> Option<MeanAnswer> {
        let DirectLoad::BackVoltage { emf, resistance, choke } = self.load else {
            return None;
        };
        let rectifier = self.on(circuit, frequency, Resistance::ZERO);
        let diodes = self.connection.diodes_in_path();
        let crest = std::f64::consts::SQRT_2 * rectifier.open_voltage.value.si();
        let back = emf.value.si() + diodes * self.diode.threshold.value.si();
        let r = rectifier.source_resistance.value.si() + resistance.value.si() + diodes * self.diode.slope.value.si();
        let pi = std::f64::consts::PI;
        let (mean, square) = if crest <= back {
            (0.0, 0.0)
        } else {
            let alpha = (back / crest).asin();
            let (width, cosine) = (pi - 2.0 * alpha, alpha.cos());
            let mean = (2.0 * crest * cosine - back * width) / (pi * r);
            let square = (crest * crest * (width / 2.0 + (2.0 * alpha).sin() / 2.0) - 4.0 * crest * back * cosine
                + back * back * width)
                / (pi * r * r);
            (mean, square)
        };
        // Smooth: the mean of the rectified sine less the back voltage.
        let smooth = ((2.0 / pi * crest - back) / r).max(0.0);
        let (mean, square) = if choke.value > Inductance::ZERO && smooth > 0.0 {
            (smooth, smooth * smooth)
        } else {
            (mean, square)
        };
        let rms = square.max(0.0).sqrt();
        let winding = match self.connection {
            Connection::Bridge => rms,
            Connection::CentreTap => rms / std::f64::consts::SQRT_2,
        };
        Some(MeanAnswer {
            voltage: emf.value + resistance.value * Current::from_si(mean),
            current: Current::from_si(mean),
            winding_current: Current::from_si(winding),
            primary_side_current: Current::from_si(rms),
        })
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

/// Nothing flows.
const NOTHING: MeanAnswer = MeanAnswer {
    voltage: Voltage::ZERO,
    current: Current::ZERO,
    winding_current: Current::ZERO,
    primary_side_current: Current::ZERO,
};
