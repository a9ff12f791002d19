//! The magnetic circuit of a shell core with its coils one after the other on the tongue, with
//! or without shunts between them.
//!
//! ```text
//!   +---- primary's half: tongue, yoke, limbs ----+       N1 i1 = F1(φ1) + U
//!   |                                             |
//!   +---- window air and shunts, ampere-turns U --+       φ1 − φ2 = P U + φshunt(U)
//!   |                                             |
//!   +---- winding's half: tongue, yoke, limbs ----+       U = N2 i2 + F2(φ2)
//! ```
//!
//! Every quantity is its fundamental: steel answers a sinusoidal flux, and the shunts a
//! sinusoidal magnetomotive force, by the fundamental of their response (describing function;
//! Gelb and Vander Velde, 1968). Core loss is left out. Against an integration of the same
//! circuit in time, at resistive loads from light to nearly short-circuited, the fundamental of
//! the current is within 0.1 % without shunts and within 2.5 % with thin ones; with thick ones near
//! a short circuit it is up to 7 % too low, and the true r.m.s. current up to 12 % higher, for its
//! harmonics (`tests/reference/leakage.rs`). Wave shapes are not given.

use crate::magnetics::circuit::leakage::CoilPair;
use crate::magnetics::circuit::shunts::Shunts;
use crate::magnetics::core::EiCore;
use crate::quantity::{
    Current, FieldStrength, Flux, FluxDensity, Frequency, Input, Measured, Propagated, Resistance, Turns,
    UncertainInputs, Visitor, Voltage, estimates, propagate,
};

/// A transformer on a shell core, with or without shunts.
#[derive(Clone, Copy)]
pub struct ShellCircuit<'a> {
    /// The core.
    pub core: EiCore,
    /// The coils; the first is the primary.
    pub coils: CoilPair,
    /// The shunts, if they are in.
    pub shunts: Option<Shunts>,
    /// Turns of the primary.
    pub primary_turns: Turns,
    /// Turns of the new winding.
    pub winding_turns: Turns,
    /// Resistance of the primary, warm.
    pub primary_resistance: Measured<Resistance>,
    /// Resistance of the new winding and its leads, warm.
    pub winding_resistance: Measured<Resistance>,
    /// Mains.
    pub supply: Measured<Voltage>,
    /// Mains frequency.
    pub frequency: Measured<Frequency>,
    /// The core's steel: field strength at a flux density, both peak, odd and rising.
    pub steel: &'a dyn Fn(FluxDensity) -> FieldStrength,
}

/// A point of the curve of terminal voltage against current, at a resistive load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadPoint {
    /// Current in the new winding.
    pub current: Current,
    /// Voltage at its terminals.
    pub voltage: Voltage,
    /// Current in the primary.
    pub primary_current: Current,
    /// Peak flux in the tongue inside the primary.
    pub primary_flux: Flux,
    /// Peak flux in the tongue inside the new winding.
    pub winding_flux: Flux,
    /// Peak ampere-turns across a window between the coils.
    pub window_ampere_turns: f64,
    /// Peak flux density in the outer limbs beside the primary.
    pub limb_density: FluxDensity,
    /// Peak flux density in the shunts; zero without any.
    pub shunt_density: FluxDensity,
}

estimates! {
    /// What the coils' leakage and the shunts do to the output.
    pub struct ShellAnswer / ShellEstimate / ShellNumber {
        /// Terminal voltage without load.
        open_voltage: Voltage [OpenVoltage, V, "behaves-open-voltage"],
        /// Leakage reactance seen from the new winding, nothing saturated.
        leakage_reactance: Resistance [LeakageReactance, MILLIOHM, "behaves-leakage-reactance"],
        /// Current into a short circuit at the terminals.
        short_circuit: Current [ShortCircuit, A, "behaves-short-circuit"],
        /// Terminal voltage at the working current (zero if it is not reached).
        working_voltage: Voltage [WorkingVoltage, V, "behaves-working-voltage"],
        /// Peak flux density in the tongue inside the primary, at the working current.
        tongue_density: FluxDensity [TongueDensity, T, "behaves-tongue-density"],
        /// Peak flux density in the outer limbs beside the primary, at the working current.
        limb_density: FluxDensity [LimbDensity, T, "behaves-limb-density"],
        /// Peak flux density in the shunts at the working current; zero without any.
        shunt_density: FluxDensity [ShuntDensity, T, "behaves-shunt-density"],
    }
}

impl ShellCircuit<'_> {
    /// Leakage reactance seen from the new winding, at ampere-turns (peak) across a window.
    #[must_use]
    pub fn leakage_reactance(&self, ampere_turns: f64) -> Resistance {
        Resistance::from_si(self.ready().leakage_reactance(ampere_turns))
    }

    /// The point at a load current; `None` above the short-circuit current.
    #[must_use]
    pub fn at_current(&self, current: Current) -> Option<LoadPoint> {
        self.ready().at_current(current.si(), None)
    }

    /// The point at a load of this resistance.
    #[must_use]
    pub fn at_resistance(&self, load: Resistance) -> Option<LoadPoint> {
        self.ready().at_resistance(load.si(), None)
    }

    /// The point with the terminals short-circuited.
    #[must_use]
    pub fn short_circuit(&self) -> Option<LoadPoint> {
        self.at_resistance(Resistance::ZERO)
    }

    /// The curve from no load to short circuit at `points` evenly spaced currents (at least 2);
    /// empty where the inputs make no sense.
    #[must_use]
    pub fn curve(&self, points: usize) -> Vec<LoadPoint> {
        let ready = self.ready();
        let Some(end) = ready.at_resistance(0.0, None) else {
            return Vec::new();
        };
        let last = points.max(2) - 1;
        let mut curve: Vec<LoadPoint> = Vec::with_capacity(last + 1);
        for k in 0..last {
            let near = curve.last().map(|before| before.voltage.si());
            curve.extend(ready.at_current(end.current.si() * (k as f64 / last as f64), near));
        }
        curve.push(end);
        curve
    }

    /// The answers at a working current; `None` where the inputs make no sense.
    #[must_use]
    pub fn answer(&self, working: Current) -> Option<ShellAnswer> {
        self.answer_near(working, None)
    }

    /// [`ShellCircuit::answer`], searched from the answers of a circuit that differs a little.
    #[must_use]
    pub fn answer_near(&self, working: Current, near: Option<&ShellAnswer>) -> Option<ShellAnswer> {
        let ready = self.ready();
        let open = ready.at_current(0.0, near.map(|near| near.open_voltage.si()))?;
        let short = ready.at_resistance(0.0, near.map(|near| near.short_circuit.si()))?;
        let point = ready
            .at_current(working.si(), near.map(|near| near.working_voltage.si()))
            .unwrap_or(short);
        Some(ShellAnswer {
            open_voltage: open.voltage,
            leakage_reactance: Resistance::from_si(ready.leakage_reactance(0.0)),
            short_circuit: short.current,
            working_voltage: point.voltage,
            tongue_density: FluxDensity::from_si(point.primary_flux.si() / self.core.net_area().si()),
            limb_density: point.limb_density,
            shunt_density: point.shunt_density,
        })
    }

    /// [`ShellCircuit::answer`] with uncertainty, and what each input adds to it.
    #[must_use]
    pub fn answer_with_uncertainty(
        &self,
        working: Current,
    ) -> Option<(ShellEstimate, Propagated<{ ShellAnswer::COUNT }>)> {
        let best = self.answer(working)?;
        let answers = propagate(self, |circuit| {
            circuit.answer_near(working, Some(&best)).map(|a| a.to_si())
        })?;
        Some((ShellEstimate::from_propagated(&answers), answers))
    }
}

impl UncertainInputs for ShellCircuit<'_> {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.coils.visit(visitor);
        if let Some(shunts) = &mut self.shunts {
            shunts.visit(visitor);
        }
        self.primary_resistance.visit(Input::PrimaryResistance, visitor);
        self.winding_resistance.visit(Input::WindingResistance, visitor);
        self.supply.visit(Input::MainsVoltage, visitor);
        self.frequency.visit(Input::Frequency, visitor);
    }
}
