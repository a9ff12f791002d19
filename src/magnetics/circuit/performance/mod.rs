//! What a rebuilt transformer does under load: the equivalent circuit, and every number that
//! follows from it.
//!
//! The circuit is the usual one seen from the new winding: an e.m.f. E behind a resistance R
//! (new winding, primary and mains carried over by the square of the turns ratio) and a
//! leakage reactance X. The no-load current is added on the mains side.

mod direct;
mod equivalent;
mod load;
mod other_core;

pub use direct::DirectSide;
use equivalent::with_idle;
pub use equivalent::{Circuit, ShuntReactance};
pub use load::{Demand, LoadLine, as_wound};
pub use other_core::OtherCore;

use crate::estimates;
use crate::magnetics::circuit::leakage::{Arrangement, CoilPair};
use crate::magnetics::circuit::mains::Mains;
use crate::magnetics::circuit::shunts::Shunts;
use crate::magnetics::core::EiCore;
use crate::magnetics::core::induction;
use crate::magnetics::heat::duty::current_at_duty;
use crate::magnetics::pairs::Joined;
use crate::magnetics::rectifier::{MeanAnswer, RectifierAnswer, RectifierEstimate};
use crate::magnetics::winding::primary::Primary;
use crate::magnetics::winding::{Coil, Insulation, Layers, Placement, Space, Winding, ac_factor};
use crate::quantity::{
    ApparentPower, Current, CurrentDensity, FluxDensity, Input, Length, Mass, Measured, Origin, Power, Propagated,
    Ratio, Resistance, Temperature, Turns, UncertainInputs, Visitor, Voltage, VoltsPerTurn, propagate,
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
    /// The shunts in the windows.
    pub shunts: Option<Shunts>,
    /// Insulation round the new winding.
    pub insulation: Insulation,
    /// Where the new winding goes.
    pub placement: Placement,
    /// Temperature of both windings at work.
    pub temperature: Measured<Temperature>,
    /// Lead-outs, both ends together.
    pub leads: Measured<Length>,
    /// Factor on the leakage; see [`typical_leakage_factor`](crate::magnetics::circuit::leakage::typical_leakage_factor).
    pub leakage_factor: Measured<Ratio>,
    /// Factor on the catalogue's resistance; see [`typical_wire_factor`].
    pub wire_factor: Measured<Ratio>,
    /// How the new winding is joined with that of a second core like this one, both primaries side by side
    /// on the same mains; `None` for a core that works alone.
    pub together: Option<Joined>,
    /// The second core with its winding, where it is unlike this one; `None` for one like this one.
    pub other: Option<OtherCore>,
}

impl Rebuild {
    /// How many cores the mains feed.
    #[must_use]
    pub const fn cores(&self) -> f64 {
        if self.together.is_some() { 2.0 } else { 1.0 }
    }

    /// No-load current of all cores.
    #[must_use]
    pub fn idle_of_all(&self) -> Current {
        let one = self.idle_current.value;
        self.other.map_or(one * self.cores(), |other| one + other.idle.value)
    }

    /// The voltage of the part over that of one winding: two in series add.
    #[must_use]
    pub const fn voltage_factor(&self) -> f64 {
        match self.together {
            Some(Joined::Series) => 2.0,
            Some(Joined::Parallel) | None => 1.0,
        }
    }

    /// The current of one winding over that of the part: two in parallel share it.
    #[must_use]
    pub const fn winding_share(&self) -> f64 {
        match self.together {
            Some(Joined::Parallel) => 0.5,
            Some(Joined::Series) | None => 1.0,
        }
    }
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
        self.leakage_factor.visit(Input::LeakageModel, visitor);
        self.wire_factor.visit(Input::WireResistance, visitor);
        if let Some(shunts) = &mut self.shunts {
            shunts.visit(visitor);
        }
        if let Some(other) = &mut self.other {
            other.visit(visitor);
        }
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
        /// Current at the working point; behind diodes the mean direct current.
        working_current: Current [WorkingCurrent, A, "number-working-current"],
        /// R.m.s. current in the new winding; with a centre tap, in each half of it.
        winding_current: Current [WindingCurrent, A, "number-winding-current"],
        /// Voltage at the working point; behind diodes the mean direct voltage.
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

    /// Voltage of the part without load, with `turns` turns on each core.
    #[must_use]
    pub fn open_circuit(&self, turns: u32) -> Voltage {
        self.volts_per_turn * Turns::from(turns) * self.rebuild.voltage_factor()
    }

    /// How far a winding reaches from its inside.
    #[must_use]
    pub fn build_of(&self, winding: &Winding, layers: &Layers) -> Length {
        layers.build(&winding.conductor, self.rebuild.insulation.interlayer)
    }

    /// The primary's resistance at work.
    #[must_use]
    pub fn primary_resistance(&self) -> Resistance {
        self.primary_resistance
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
        // Of two cores: impedances add in series and are halved in parallel; the mains loop carries the
        // current of both.
        let of_both = rebuild.voltage_factor() * rebuild.winding_share();
        let own_and_primary = own + self.primary_resistance * (ratio * ratio);
        let (reactance, shunts) = self.leakage(winding, &coil);
        if let (Some(windings), Some(other)) = (rebuild.together, &rebuild.other) {
            let alone = Circuit {
                emf: self.volts_per_turn * Turns::from(winding.turns),
                resistance: own_and_primary,
                reactance,
                shunts,
                own_resistance: own,
                ac_factor,
                ratio,
                share: 1.0,
                own_part: 1.0,
                coil,
            };
            return other.joined_with(alone, windings, rebuild.supply_resistance.value);
        }
        let ratio = ratio * rebuild.voltage_factor();
        Circuit {
            emf: self.open_circuit(winding.turns),
            resistance: own_and_primary * of_both + rebuild.supply_resistance.value * (ratio * ratio),
            reactance: reactance * of_both,
            shunts: shunts.map(|shunts| shunts.of_pair(rebuild.winding_share(), of_both)),
            own_resistance: own,
            ac_factor,
            ratio,
            share: rebuild.winding_share(),
            own_part: 1.0 / rebuild.cores(),
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
        self.performance(circuit, winding, demand, &self.flow(circuit, demand))
    }

    /// The same with what flows behind diodes in a closed form, never below what flows: for a search that
    /// drops what gives too little before it asks for the exact state.
    #[must_use]
    pub fn screened(&self, circuit: &Circuit, winding: &Winding, demand: &Demand) -> Performance {
        let frequency = self.rebuild.mains.frequency;
        let flow = match demand.direct {
            Some(side) => {
                let mut flows = side.screen(circuit, frequency);
                if demand.ballasted && flows.current > demand.most_without_reactor() {
                    flows = side.screen_held(&flows, demand.current);
                }
                Flow::behind(&side, circuit, &flows, Resistance::ZERO)
            }
            None => self.flow(circuit, demand),
        };
        self.performance(circuit, winding, demand, &flow)
    }

    /// What flows behind diodes with no reactor, by the same closed form.
    #[must_use]
    pub fn screened_current(&self, circuit: &Circuit, side: &DirectSide) -> Current {
        side.screen(circuit, self.rebuild.mains.frequency).current
    }

    /// What flows at the working point.
    fn flow(&self, circuit: &Circuit, demand: &Demand) -> Flow {
        if let Some(side) = demand.direct {
            let frequency = self.rebuild.mains.frequency;
            let means = |reactor: Resistance| side.flowing(circuit, frequency, reactor);
            let (reactor, flows) = match demand.reactor {
                Some(there) => (there.value, means(there.value)),
                None => {
                    let natural = means(Resistance::ZERO);
                    if demand.ballasted && natural.current > demand.most_without_reactor() {
                        let reactor = side.holding(&circuit.held_at(demand.current), frequency, demand.current);
                        (reactor, means(reactor))
                    } else {
                        (Resistance::ZERO, natural)
                    }
                }
            };
            return Flow::behind(&side, circuit, &flows, reactor);
        }
        let natural = circuit.working_current(&demand.load);
        let (reactor, current) = match demand.reactor {
            Some(there) => {
                let held = Circuit {
                    reactance: circuit.reactance + there.value,
                    ..*circuit
                };
                (there.value, held.working_current(&demand.load))
            }
            None if demand.ballasted => (
                circuit.series_reactance(&demand.load, demand.current),
                natural.min(demand.current),
            ),
            None => (Resistance::ZERO, natural),
        };
        let volts = demand.load.volts(current);
        Flow {
            current,
            volts,
            winding: current,
            primary: current * circuit.ratio,
            power_factor: circuit.power_factor(volts, current),
            volts_at_winding: volts,
            reactor,
        }
    }

    fn performance(&self, circuit: &Circuit, winding: &Winding, demand: &Demand, flow: &Flow) -> Performance {
        let rebuild = self.rebuild;
        let Flow {
            current,
            volts,
            reactor: series_reactance,
            primary: primary_current,
            ..
        } = *flow;
        let idle = rebuild.idle_of_all();
        let mains_current = with_idle(primary_current, flow.power_factor, idle);
        let coil = &circuit.coil;
        let winding_current = flow.winding * circuit.share;
        let winding_loss = winding_current.heating(circuit.own_resistance);
        let own_mains_current = mains_current * circuit.own_part;
        let primary_loss = own_mains_current.heating(self.primary_resistance);
        let density = |amps: Current, area: crate::quantity::Area| CurrentDensity::from_si(amps.si() / area.si());
        let winding_density = density(winding_current, coil.section);
        let primary_density = density(own_mains_current, rebuild.primary.wire_area());
        let steady = current_at_duty(Current::from_si(1.0), demand.duty, Ratio::from_si(1.0)).si();
        let mains_power = rebuild.mains.voltage.value * mains_current;
        let cold = coil.resistance(winding, &self.space, Temperature::from_si(20.0)) * rebuild.wire_factor.value.si();
        Performance {
            volts_per_turn: self.volts_per_turn,
            flux_density: self.flux_density,
            open_circuit: circuit.emf,
            working_current: current,
            winding_current,
            working_voltage: volts,
            regulation: Ratio::from_si(1.0 - flow.volts_at_winding / circuit.emf),
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
            primary_current: primary_current * circuit.own_part,
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

    /// Primary and new winding as they lie to each other.
    #[must_use]
    pub fn coils(&self, coil: &Coil) -> CoilPair {
        let rebuild = self.rebuild;
        let (core, primary) = (&rebuild.core, &rebuild.primary);
        let exact = |value: Length| Measured::exact(value, Origin::Computed);
        let beside = |gap: Length| {
            // Side by side: the leakage flux crosses the window's width.
            (
                Arrangement::SideBySide,
                [primary.height.value, gap, coil.breadth],
                [primary.build.value, coil.build],
                (core.window_width, core.window_height),
            )
        };
        let ground = rebuild.insulation.ground;
        let least = rebuild.insulation.barrier + rebuild.shunts_height;
        let (arrangement, [first, gap, second], breadths, (window, across)) = match rebuild.placement {
            Placement::BesidePrimary => beside(least),
            Placement::FarEnd => {
                let free = core.window_height.value - primary.height.value - coil.breadth - ground;
                beside(free.max(least))
            }
            // One over the other: it runs along the window's height.
            Placement::OverPrimary => (
                Arrangement::Concentric,
                [primary.build.value, rebuild.insulation.barrier, coil.build],
                [primary.height.value, coil.breadth],
                (core.window_height, core.window_width),
            ),
        };
        let inside = core.stack.value * 2.0;
        let turn = (self.primary_mean_turn + coil.mean_turn) / 2.0;
        CoilPair {
            arrangement,
            first: exact(first),
            gap: exact(gap),
            second: exact(second),
            breadths: breadths.map(|breadth| exact(breadth.min(window.value))),
            window,
            across,
            clearance: exact(ground.max(Length::from_mm(0.5))),
            turn_inside: exact(inside),
            turn_outside: exact((turn - inside).max(Length::from_mm(1.0))),
            model: rebuild.leakage_factor,
        }
    }

    /// Leakage reactance seen from the new winding, nothing saturated, and what shunts that stay have in it.
    fn leakage(&self, winding: &Winding, coil: &Coil) -> (Resistance, Option<ShuntReactance>) {
        let (coils, turns) = (self.coils(coil), f64::from(winding.turns));
        let per_permeance = self.rebuild.mains.frequency.angular() * turns * turns;
        let Some(shunts) = &self.rebuild.shunts else {
            return (Resistance::from_si(per_permeance * coils.permeance()), None);
        };
        let part = ShuntReactance {
            law: shunts.law(),
            turns,
            per_permeance,
        };
        let air = Resistance::from_si(per_permeance * coils.permeance_beside(shunts));
        (air + part.at(Current::ZERO), Some(part))
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
    let part = UnderLoad::of(rebuild, winding, demand)?;
    let propagated = propagate(&part, |moved| Some(moved.perform().to_si()))?;
    Some((PerformanceEstimate::from_propagated(&propagated), propagated))
}

/// The exact state behind the diodes of a part at work, with its uncertainty. `None` as [`answer`], and
/// where nothing is behind diodes.
#[must_use]
pub fn behind_diodes(
    rebuild: &Rebuild,
    winding: &Winding,
    demand: &Demand,
) -> Option<(RectifierEstimate, Propagated<{ RectifierAnswer::COUNT }>)> {
    let part = UnderLoad::of(rebuild, winding, demand)?;
    let propagated = propagate(&part, |moved| {
        let circuit = Prepared::new(&moved.rebuild).circuit(winding, &moved.layers);
        let reactor = moved.demand.reactor.map_or(Resistance::ZERO, |reactor| reactor.value);
        let (side, frequency) = (moved.demand.direct?, moved.rebuild.mains.frequency);
        let circuit = side.held(&circuit, frequency, reactor);
        Some(side.on(&circuit, frequency, reactor).steady().ok()?.to_si())
    })?;
    Some((RectifierEstimate::from_propagated(&propagated), propagated))
}

/// A winding's circuit with the reactance that its shunts leave it at what flows behind its diodes. `None`
/// where the winding cannot be layered at all.
#[must_use]
pub fn held_circuit(rebuild: &Rebuild, winding: &Winding, side: &DirectSide, reactor: Resistance) -> Option<Circuit> {
    let prepared = Prepared::new(rebuild);
    let layers = Layers::of(winding, &prepared.space)?;
    let circuit = prepared.circuit(winding, &layers);
    Some(side.held(&circuit, rebuild.mains.frequency, reactor))
}

/// A part and its load. Turns, layers and the choice of a reactor are decided at the best values and held.
#[derive(Debug, Clone, Copy)]
pub struct UnderLoad {
    rebuild: Rebuild,
    demand: Demand,
    winding: Winding,
    layers: Layers,
}

impl UnderLoad {
    /// A winding on a core under a load. `None` where the winding cannot be layered at all.
    #[must_use]
    pub fn of(rebuild: &Rebuild, winding: &Winding, demand: &Demand) -> Option<Self> {
        let prepared = Prepared::new(rebuild);
        let layers = Layers::of(winding, &prepared.space)?;
        Some(Self {
            rebuild: *rebuild,
            demand: demand.with_its_reactor(&prepared.perform(winding, &layers, demand)),
            winding: *winding,
            layers,
        })
    }

    /// What it does.
    #[must_use]
    pub fn perform(&self) -> Performance {
        Prepared::new(&self.rebuild).perform(&self.winding, &self.layers, &self.demand)
    }
}

impl UncertainInputs for UnderLoad {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.rebuild.visit(visitor);
        let mut load = Measured::new(Ratio::from_si(1.0), self.demand.slope_within, Origin::Typical);
        load.visit(Input::WorkResistance, visitor);
        self.demand.load.slope = self.demand.load.slope * load.value.si();
        if let Some(side) = &mut self.demand.direct {
            side.visit(visitor);
        }
        if let Some(reactor) = &mut self.demand.reactor {
            reactor.visit(Input::SeriesReactance, visitor);
        }
    }
}

/// What flows at a working point.
struct Flow {
    /// Into the load; behind diodes the mean.
    current: Current,
    /// At the load; behind diodes the mean.
    volts: Voltage,
    /// R.m.s., in the new winding.
    winding: Current,
    /// R.m.s., that the load adds in the primary.
    primary: Current,
    /// Power over apparent power at the e.m.f.
    power_factor: f64,
    /// What is left of the e.m.f. in phase with the current.
    volts_at_winding: Voltage,
    reactor: Resistance,
}

impl Flow {
    /// What flows behind the diodes on a circuit.
    fn behind(side: &DirectSide, circuit: &Circuit, flows: &MeanAnswer, reactor: Resistance) -> Self {
        let share = side.connection.share_of_turns();
        let rms = flows.primary_side_current;
        let delivered = (flows.voltage * flows.current).si() + side.diode_loss(flows);
        let lost = rms.heating(side.source_resistance(circuit)).si();
        let apparent = (circuit.emf * share * rms).si();
        let part = |power: f64| {
            if apparent > 0.0 {
                (power / apparent).clamp(0.0, 1.0)
            } else {
                1.0
            }
        };
        Self {
            current: flows.current,
            volts: flows.voltage,
            winding: flows.winding_current,
            primary: rms * (circuit.ratio * share),
            power_factor: part(delivered + lost),
            volts_at_winding: circuit.emf * part(delivered),
            reactor,
        }
    }
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
    let volts = propagate(rebuild, |moved| {
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
