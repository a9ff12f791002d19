//! How warm an inductor gets, by the same thermal network as a transformer.

use crate::magnetics::core::EiCore;
use crate::magnetics::heat::network::{Heating, Network, ThermalInputs, WindingHeat};
use crate::magnetics::inductor::Inductor;
use crate::quantity::{
    Current, Input, Length, Mass, Measured, Origin, Power, Propagated, Ratio, Resistance, Temperature, TemperatureRise,
    UncertainInputs, Velocity, Visitor, estimates, propagate,
};

/// What the heating of an inductor follows from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct InductorHeat {
    /// The network's inputs: the coil as two halves, one after the other along the tongue.
    inputs: ThermalInputs,
    current: Current,
    core_loss: Measured<Power>,
}

estimates! {
    /// An inductor under continuous load.
    pub struct InductorWarmth / InductorWarmthEstimate / InductorWarmthNumber {
        /// Mean temperature of the coil.
        coil: Temperature [Coil, CELSIUS, "behaves-coil-temperature"],
        /// How far that stands above the room.
        coil_rise: TemperatureRise [CoilRise, K, "behaves-coil-rise"],
        /// Hottest spot of the coil.
        hottest: Temperature [Hottest, CELSIUS, "behaves-coil-hottest"],
        /// Mean temperature of the core.
        core: Temperature [Core, CELSIUS, "behaves-core-temperature"],
    }
}

/// A core's thermal inputs with a coil of this wire in two halves of half the length each, or
/// (for the surface of the whole) in one.
fn inputs(inductor: &Inductor, build: Length, share: f64) -> ThermalInputs {
    let core: EiCore = inductor.core;
    let conductor = &inductor.conductor;
    let length = core.turn_length(build / 2.0) * inductor.turns.value.si();
    let ohms = (conductor.metal.resistivity_20() / conductor.section) * length;
    let mass: Mass = conductor.metal.density() * (conductor.section * length);
    let exact = |length: Length| Measured::exact(length, Origin::Computed);
    let coil = WindingHeat {
        metal: conductor.metal,
        mass: Measured::exact(mass * share, Origin::Computed),
        // The mean turn is known to a twentieth: how the turns lie is nobody's measure.
        resistance_20: Measured::new(ohms * share, ohms * share * 0.05, Origin::Computed),
        length: exact(core.window_height.value * share),
        build: exact(build),
    };
    ThermalInputs::typical(core, coil, coil)
}

impl InductorHeat {
    /// Of an inductor at its load, the core's loss as given; `ambient` and `air` where they are
    /// known. The coil takes the window's height and, of its width, its share of the window.
    #[must_use]
    pub fn of(
        inductor: &Inductor,
        window_share: Ratio,
        core_loss: Measured<Power>,
        ambient: Option<Measured<Temperature>>,
        air: Option<Measured<Velocity>>,
    ) -> Self {
        let build = inductor.core.window_width.value * window_share.si().clamp(0.1, 1.0);
        let mut inputs = inputs(inductor, build, 0.5);
        inputs.ambient = ambient.unwrap_or(inputs.ambient);
        inputs.air_speed = air.unwrap_or(inputs.air_speed);
        Self {
            inputs,
            current: inductor.load.rms(),
            core_loss,
        }
    }

    /// The network, each half with half the whole coil's surface: the halves' ends that face each
    /// other have none.
    fn network(&self) -> Network {
        let mut whole = self.inputs;
        whole.primary.length.value = whole.primary.length.value * 2.0;
        let surface = whole.network().surface[0] / 2.0;
        let mut network = self.inputs.network();
        network.surface[0] = surface;
        network.surface[1] = surface;
        network
    }

    /// The steady state; `None` where copper loss runs away.
    #[must_use]
    pub fn warmth(&self) -> Option<InductorWarmth> {
        let steady = self.network().steady(&Heating {
            primary: self.current,
            winding: self.current,
            core: self.core_loss.value,
        })?;
        Some(InductorWarmth {
            coil: steady.primary,
            coil_rise: steady.primary.above(self.inputs.ambient.value),
            hottest: steady.primary + self.inputs.hot_spot.value,
            core: steady.core,
        })
    }

    /// [`InductorHeat::warmth`] with its range, and what each input adds to it. `None` as there.
    #[must_use]
    pub fn warmth_with_uncertainty(&self) -> Option<(InductorWarmthEstimate, Propagated<{ InductorWarmth::COUNT }>)> {
        let spread = propagate(self, |heat| heat.warmth().map(|warmth| warmth.to_si()))?;
        Some((InductorWarmthEstimate::from_propagated(&spread), spread))
    }

    /// Resistance of the whole coil at 20 °C.
    #[must_use]
    pub fn resistance_20(&self) -> Resistance {
        self.inputs.primary.resistance_20.value * 2.0
    }
}

impl UncertainInputs for InductorHeat {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        let inputs = &mut self.inputs;
        inputs.primary.resistance_20.visit(Input::CoilResistance, visitor);
        // One coil: its halves move together.
        inputs.winding.resistance_20 = inputs.primary.resistance_20;
        inputs.contact.visit(Input::ContactWithTheCore, visitor);
        inputs.film_scale.visit(Input::CoolingByTheAir, visitor);
        inputs.ambient.visit(Input::AirOfTheRoom, visitor);
        inputs.air_speed.visit(Input::AirSpeed, visitor);
        inputs.hot_spot.visit(Input::HotSpot, visitor);
        self.core_loss.visit(Input::CoreLoss, visitor);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::core::gap::Gaps;
    use crate::magnetics::core::steel::Steel;
    use crate::magnetics::inductor::{Conductor, Load};
    use crate::quantity::{Area, Turns};
    use crate::wire::Metal;

    /// Heat balance by hand: what the coil and the core make at the temperatures found leaves through
    /// their surfaces, at film coefficients of 8 to 16 W/(m²·K) for 40 to 110 °C in still air
    /// (Incropera and `DeWitt`, free convection at small bodies with radiation, from memory).
    #[test]
    fn what_is_made_leaves_through_the_surface() {
        let mm = |v: f64| Measured::exact(Length::from_mm(v), Origin::Calipers);
        let core = EiCore::new(mm(32.0), mm(60.0), mm(17.0), mm(50.0));
        let inductor = Inductor {
            core,
            steel: Steel::UNKNOWN,
            gaps: Gaps::REASSEMBLED,
            turns: Measured::exact(Turns::from_si(100.0), Origin::Chosen),
            conductor: Conductor {
                metal: Metal::Copper,
                section: Area::from_mm2(4.0),
                insulated_diameter: Length::from_mm(2.4),
            },
            load: Load {
                direct: Current::from_si(12.0),
                swing: Current::ZERO,
                frequency: crate::quantity::Frequency::from_si(100.0),
            },
            temperature: Measured::exact(Temperature::from_si(80.0), Origin::Typical),
        };
        let loss = Measured::exact(Power::from_si(5.0), Origin::Computed);
        let heat = InductorHeat::of(&inductor, Ratio::from_si(0.7), loss, None, None);
        let found = heat.warmth().unwrap();
        let ohms = heat.resistance_20().si() * (1.0 + 0.00393 * (found.coil.si() - 20.0));
        let made = 144.0 * ohms + 5.0;
        let network = heat.network();
        let [half, _, core_area] = network.surface.map(|area| area.si());
        let leaving = |film: f64| {
            film * (2.0 * half * found.coil_rise.si() + core_area * (found.core.si() - heat.inputs.ambient.value.si()))
        };
        assert!(found.coil.si() > 40.0 && found.coil.si() < 110.0, "{found:?}");
        assert!(leaving(8.0) < made && made < leaving(16.0), "{made} W, {found:?}");
        assert!(found.coil > found.core, "{found:?}");
        let (estimate, _) = heat.warmth_with_uncertainty().unwrap();
        assert!(estimate.coil_rise.plus_minus.si() > 0.1 * estimate.coil_rise.value.si());
    }
}
