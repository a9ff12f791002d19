//! What a rebuilt transformer does under load: the equivalent circuit, and every number that
//! follows from it.
//!
//! The circuit is the usual one seen from the new winding: an e.m.f. E behind a resistance R
//! (new winding, primary and mains carried over by the square of the turns ratio) and a
//! leakage reactance X. The no-load current is added on the mains side.

mod equivalent;
mod load;

pub use equivalent::Circuit;
pub use load::{Demand, LoadLine};

use crate::estimates;
use crate::magnetics::circuit::leakage::straight_leakage;
use crate::magnetics::circuit::mains::Mains;
use crate::magnetics::core::EiCore;
use crate::magnetics::core::induction;
use crate::magnetics::heat::duty::current_at_duty;
use crate::magnetics::winding::primary::Primary;
use crate::magnetics::winding::{Coil, Insulation, Layers, Placement, Space, Winding, ac_factor};
use crate::quantity::{
    ApparentPower, Current, CurrentDensity, FluxDensity, Input, Length, Mass, Measured, Origin, Power, Propagated,
    Ratio, Resistance, Temperature, Turns, UncertainInputs, Visitor, Voltage, VoltsPerTurn, first_order,
};

/// A salvaged core with its primary, ready for a new winding.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rebuild {
    /// The core.
    pub core: EiCore,
    /// The primary that stays.
    pub primary: Primary,
    /// Where it will run.
    pub mains: Mains,
    /// Resistance of the branch circuit.
    pub supply_resistance: Measured<Resistance>,
    /// No-load current on these mains, measured or computed.
    pub idle_current: Measured<Current>,
    /// Height of window that shunts take where they stay.
    pub shunts_height: Length,
    /// Insulation round the new winding.
    pub insulation: Insulation,
    /// Where the new winding goes.
    pub placement: Placement,
    /// Temperature of both windings at work.
    pub temperature: Measured<Temperature>,
    /// Lead-outs, both ends together.
    pub leads: Measured<Length>,
    /// Factor on the leakage formula; see [`typical_leakage_factor`].
    pub leakage_factor: Measured<Ratio>,
    /// Factor on the catalogue's resistance; see [`typical_wire_factor`].
    pub wire_factor: Measured<Ratio>,
}

/// How far the leakage formula may be off: 1 ± 0.3, as found against finite elements.
#[must_use]
pub fn typical_leakage_factor() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.3), Origin::Typical)
}

/// How far a wire may be off its table: 1 ± 0.03. Common practice, no source.
#[must_use]
pub fn typical_wire_factor() -> Measured<Ratio> {
    Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.03), Origin::Typical)
}

impl UncertainInputs for Rebuild {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.primary.visit(visitor);
        self.mains.voltage.visit(Input::MainsVoltage, visitor);
        self.supply_resistance.visit(Input::SupplyResistance, visitor);
        self.idle_current.visit(Input::IdleCurrent, visitor);
        self.temperature.visit(Input::WindingTemperature, visitor);
        self.leads.visit(Input::LeadLength, visitor);
        self.leakage_factor.visit(Input::LeakageFormula, visitor);
        self.wire_factor.visit(Input::WireResistance, visitor);
    }
}

estimates! {
    /// Everything that a design answers.
    pub struct Performance / PerformanceEstimate / PerformanceNumber {
        /// Volts r.m.s. in each turn.
        volts_per_turn: VoltsPerTurn [VoltsPerTurn, V, "number-volts-per-turn"],
        /// Peak flux density in the tongue.
        flux_density: FluxDensity [FluxDensity, T, "number-flux-density"],
        /// Voltage of the new winding without load.
        open_circuit: Voltage [OpenCircuit, V, "number-open-circuit"],
        /// Current at the working point.
        working_current: Current [WorkingCurrent, A, "number-working-current"],
        /// Voltage at the working point.
        working_voltage: Voltage [WorkingVoltage, V, "number-working-voltage"],
        /// Voltage lost from open circuit to the working point, as a part of the open-circuit
        /// voltage.
        regulation: Ratio [Regulation, PERCENT, "number-regulation"],
        /// Current into a dead short.
        short_circuit: Current [ShortCircuit, A, "number-short-circuit"],
        /// Resistance of the new winding to direct current, at 20 °C.
        cold_resistance: Resistance [ColdResistance, MILLIOHM, "number-cold-resistance"],
        /// Resistance of the new winding to alternating current, hot.
        winding_resistance: Resistance [WindingResistance, MILLIOHM, "number-winding-resistance"],
        /// Resistance seen from the new winding, primary and mains included, hot.
        total_resistance: Resistance [TotalResistance, MILLIOHM, "number-total-resistance"],
        /// Leakage reactance seen from the new winding.
        leakage_reactance: Resistance [LeakageReactance, MILLIOHM, "number-leakage-reactance"],
        /// Series reactance that holds the current to what is wanted.
        series_reactance: Resistance [SeriesReactance, MILLIOHM, "number-series-reactance"],
        /// Alternating over direct-current resistance of the new winding.
        ac_factor: Ratio [AcFactor, PLAIN, "number-ac-factor"],
        /// Heat in the new winding while the current flows.
        winding_loss: Power [WindingLoss, W, "number-winding-loss"],
        /// Heat in the primary while the current flows.
        primary_loss: Power [PrimaryLoss, W, "number-primary-loss"],
        /// Heat in both windings, averaged over the duty cycle.
        mean_loss: Power [MeanLoss, W, "number-mean-loss"],
        /// Current density in the new winding while the current flows.
        winding_density: CurrentDensity [WindingDensity, A_PER_MM2, "number-winding-density"],
        /// Current density in the primary while the current flows.
        primary_density: CurrentDensity [PrimaryDensity, A_PER_MM2, "number-primary-density"],
        /// Equivalent steady current density in the new winding (I √D).
        winding_steady_density: CurrentDensity [WindingSteadyDensity, A_PER_MM2, "number-winding-steady-density"],
        /// Equivalent steady current density in the primary.
        primary_steady_density: CurrentDensity [PrimarySteadyDensity, A_PER_MM2, "number-primary-steady-density"],
        /// Primary current that the load adds.
        primary_current: Current [PrimaryCurrent, A, "number-primary-current"],
        /// Current from the mains at the working point, no-load current included.
        mains_current: Current [MainsCurrent, A, "number-mains-current"],
        /// Equivalent steady mains current.
        mains_steady_current: Current [MainsSteadyCurrent, A, "number-mains-steady-current"],
        /// Apparent power from the mains at the working point.
        mains_power: ApparentPower [MainsPower, VA, "number-mains-power"],
        /// Power into the load.
        load_power: Power [LoadPower, W, "number-load-power"],
        /// How far the winding reaches from its inside.
        build: Length [Build, MM, "number-build"],
        /// Room left in the window above it; negative where it does not fit.
        spare: Length [Spare, MM, "number-spare"],
        /// Mean turn of the new winding.
        mean_turn: Length [MeanTurn, MM, "number-mean-turn"],
        /// Length of one conductor, leads included.
        wire_length: Length [WireLength, M, "number-wire-length"],
        /// Metal in the new winding.
        wire_mass: Mass [WireMass, KG, "number-wire-mass"],
        /// Metal in the room that was left for the winding.
        fill_factor: Ratio [FillFactor, PERCENT, "number-fill-factor"],
    }
}

/// A [`Rebuild`] worked out as far as it does not depend on the winding, so that a search over
/// many windings does that part once.
#[derive(Debug, Clone, Copy)]
pub struct Prepared<'a> {
    rebuild: &'a Rebuild,
    /// Room for the winding.
    pub space: Space,
    volts_per_turn: VoltsPerTurn,
    flux_density: FluxDensity,
    primary_mean_turn: Length,
    primary_resistance: Resistance,
}

impl<'a> Prepared<'a> {
    /// Works out what does not depend on the winding.
    #[must_use]
    pub fn new(rebuild: &'a Rebuild) -> Self {
        let Rebuild {
            core, primary, mains, ..
        } = rebuild;
        let volts_per_turn = induction::per_turn(mains.voltage.value, primary.turns.value);
        // The primary's own middle: it fills the window's width, or its measured build of it.
        let primary_mean_turn = core.turn_length(primary.build.value / 2.0);
        Self {
            rebuild,
            space: Space::left_in(
                core,
                primary,
                rebuild.shunts_height,
                &rebuild.insulation,
                rebuild.placement,
            ),
            volts_per_turn,
            flux_density: induction::peak_flux_density(volts_per_turn, mains.frequency, core.net_area()),
            primary_mean_turn,
            primary_resistance: primary.resistance_at(primary_mean_turn, rebuild.temperature.value),
        }
    }

    /// Voltage of `turns` turns without load.
    #[must_use]
    pub fn open_circuit(&self, turns: u32) -> Voltage {
        self.volts_per_turn * Turns::from(turns)
    }

    /// How far a winding reaches from its inside.
    #[must_use]
    pub fn build_of(&self, winding: &Winding, layers: &Layers) -> Length {
        layers.build(&winding.conductor, self.rebuild.insulation.interlayer)
    }

    /// Volts r.m.s. in each turn.
    #[must_use]
    pub fn volts_per_turn(&self) -> VoltsPerTurn {
        self.volts_per_turn
    }

    /// Peak flux density in the tongue.
    #[must_use]
    pub fn flux_density(&self) -> FluxDensity {
        self.flux_density
    }

    /// The equivalent circuit of a winding, seen from it.
    #[must_use]
    pub fn circuit(&self, winding: &Winding, layers: &Layers) -> Circuit {
        let rebuild = self.rebuild;
        let coil = Coil::wind(
            &rebuild.core,
            &self.space,
            winding,
            layers,
            rebuild.insulation.interlayer,
            rebuild.leads.value,
        );
        let hot = rebuild.temperature.value;
        let ac_factor = ac_factor(winding, layers, rebuild.mains.frequency, hot);
        let own = coil.resistance(winding, &self.space, hot) * (ac_factor.si() * rebuild.wire_factor.value.si());
        let ratio = f64::from(winding.turns) / rebuild.primary.turns.value.si();
        let carried = (self.primary_resistance + rebuild.supply_resistance.value) * (ratio * ratio);
        Circuit {
            emf: self.open_circuit(winding.turns),
            resistance: own + carried,
            reactance: self.leakage_reactance(winding, &coil) * rebuild.leakage_factor.value.si(),
            own_resistance: own,
            ac_factor,
            ratio,
            coil,
        }
    }

    /// Everything about one winding at one demand.
    #[must_use]
    pub fn perform(&self, winding: &Winding, layers: &Layers, demand: &Demand) -> Performance {
        let circuit = self.circuit(winding, layers);
        self.at_work(&circuit, winding, demand)
    }

    /// The working point of a circuit and what follows from it.
    #[must_use]
    pub fn at_work(&self, circuit: &Circuit, winding: &Winding, demand: &Demand) -> Performance {
        let rebuild = self.rebuild;
        let natural = circuit.working_current(&demand.load);
        let series_reactance = if demand.ballasted {
            circuit.series_reactance(&demand.load, demand.current)
        } else {
            Resistance::ZERO
        };
        let current = if demand.ballasted {
            natural.min(demand.current)
        } else {
            natural
        };
        let volts = demand.load.volts(current);
        let primary_current = current * circuit.ratio;
        let mains_current = circuit.mains_current(volts, current, rebuild.idle_current.value);
        let coil = &circuit.coil;
        let winding_loss = current.heating(circuit.own_resistance);
        let primary_loss = mains_current.heating(self.primary_resistance);
        let density = |amps: Current, area: crate::quantity::Area| CurrentDensity::from_si(amps.si() / area.si());
        let winding_density = density(current, coil.section);
        let primary_density = density(mains_current, rebuild.primary.wire_area());
        let steady = current_at_duty(Current::from_si(1.0), demand.duty, Ratio::from_si(1.0)).si();
        let mains_power = rebuild.mains.voltage.value * mains_current;
        let cold = coil.resistance(winding, &self.space, Temperature::from_si(20.0)) * rebuild.wire_factor.value.si();
        Performance {
            volts_per_turn: self.volts_per_turn,
            flux_density: self.flux_density,
            open_circuit: circuit.emf,
            working_current: current,
            working_voltage: volts,
            regulation: Ratio::from_si(1.0 - volts / circuit.emf),
            short_circuit: circuit.short_circuit(),
            cold_resistance: cold,
            winding_resistance: circuit.own_resistance,
            total_resistance: circuit.resistance,
            leakage_reactance: circuit.reactance,
            series_reactance,
            ac_factor: circuit.ac_factor,
            winding_loss,
            primary_loss,
            mean_loss: (winding_loss + primary_loss) * demand.duty.si(),
            winding_density,
            primary_density,
            winding_steady_density: winding_density * steady,
            primary_steady_density: primary_density * steady,
            primary_current,
            mains_current,
            mains_steady_current: mains_current * steady,
            mains_power,
            load_power: Power::from_si((volts * current).si()),
            build: coil.build,
            spare: self.space.build - coil.build,
            mean_turn: coil.mean_turn,
            wire_length: coil.wire_length,
            wire_mass: coil.mass,
            fill_factor: coil.fill,
        }
    }

    /// Leakage reactance seen from the new winding, by the Rogowski form.
    fn leakage_reactance(&self, winding: &Winding, coil: &Coil) -> Resistance {
        let rebuild = self.rebuild;
        let (first, second, path) = match rebuild.placement {
            // Side by side: the leakage flux crosses the window's width.
            Placement::BesidePrimary => (
                rebuild.primary.height.value,
                coil.breadth,
                rebuild.core.window_width.value,
            ),
            // One over the other: it runs along the window's height.
            Placement::OverPrimary => (
                rebuild.primary.build.value,
                coil.build,
                rebuild.core.window_height.value,
            ),
        };
        let gap = rebuild.insulation.barrier + rebuild.shunts_height;
        let mean_turn = (self.primary_mean_turn + coil.mean_turn) / 2.0;
        straight_leakage(Turns::from(winding.turns), mean_turn, path, [first, gap, second])
            .reactance(rebuild.mains.frequency)
    }
}

/// A full answer: every number with its uncertainty. The layering is decided at the best values
/// and held. `None` where the winding cannot be layered at all.
#[must_use]
pub fn answer(
    rebuild: &Rebuild,
    winding: &Winding,
    demand: &Demand,
) -> Option<(PerformanceEstimate, Propagated<{ Performance::COUNT }>)> {
    let layers = Layers::of(winding, &Prepared::new(rebuild).space)?;
    let propagated = first_order(rebuild, |moved| {
        Some(Prepared::new(moved).perform(winding, &layers, demand).to_si())
    })?;
    Some((PerformanceEstimate::from_propagated(&propagated), propagated))
}

/// Terminal voltage against current, into a load in phase, with its uncertainty: `POINTS` points
/// evenly spaced from no load to `up_to`. Returns (current, volts, half-width at about 95 %).
#[must_use]
pub fn voltage_curve<const POINTS: usize>(
    rebuild: &Rebuild,
    winding: &Winding,
    up_to: Current,
) -> Option<[(Current, Voltage, Voltage); POINTS]> {
    let layers = Layers::of(winding, &Prepared::new(rebuild).space)?;
    let step = up_to / (POINTS.max(2) - 1) as f64;
    let at = |index: usize| step * index as f64;
    let volts = first_order(rebuild, |moved| {
        let circuit = Prepared::new(moved).circuit(winding, &layers);
        Some(std::array::from_fn::<f64, POINTS, _>(|i| {
            circuit.terminal_voltage(at(i), 1.0).si()
        }))
    })?;
    Some(std::array::from_fn(|i| {
        (
            at(i),
            Voltage::from_si(volts.value[i]),
            Voltage::from_si(2.0 * volts.sigma[i]),
        )
    }))
}
