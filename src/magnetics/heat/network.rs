//! The transformer as three lumps of heat: primary, new winding, core.
//!
//! ```text
//!   primary ---- core ---- winding        every lump also to the air through its own surface
//!       \___________________/
//! ```
//! `C dT/dt = P(T) − Σ G (T − Tj) − h(T) A (T − Ta)`; copper loss follows the resistance.

use nalgebra::Matrix3;

use crate::magnetics::core::{EiCore, STEEL_SPECIFIC_HEAT};
use crate::magnetics::heat::film::{Surroundings, film};
use crate::quantity::{
    Area, Current, FilmCoefficient, HeatCapacity, Input, Length, Mass, Measured, Origin, Power, Ratio, Resistance,
    Temperature, TemperatureRise, ThermalConductance, UncertainInputs, Velocity, Visitor,
};
use crate::wire::Metal;

/// A winding as a lump of heat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WindingHeat {
    /// Its metal.
    pub metal: Metal,
    /// Mass of its conductor.
    pub mass: Measured<Mass>,
    /// Resistance at 20 °C.
    pub resistance_20: Measured<Resistance>,
    /// How much of the window's height it takes along the limb.
    pub length: Measured<Length>,
    /// Build across the window.
    pub build: Measured<Length>,
}

/// Everything that the heating depends on, apart from the load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ThermalInputs {
    /// The core: its mass, its outer faces, what it offers the coils.
    pub core: EiCore,
    /// The primary.
    pub primary: WindingHeat,
    /// The new winding.
    pub winding: WindingHeat,
    /// How well a coil touches the core and its neighbour, through paper and air.
    pub contact: Measured<FilmCoefficient>,
    /// True surface coefficient over that of the published correlations.
    pub film_scale: Measured<Ratio>,
    /// Emissivity of varnished surfaces.
    pub emissivity: Measured<Ratio>,
    /// Air of the room.
    pub ambient: Measured<Temperature>,
    /// Speed of a fan's air over the surfaces; zero without a fan.
    pub air_speed: Measured<Velocity>,
    /// How much hotter the hottest spot of a winding is than its mean.
    pub hot_spot: Measured<TemperatureRise>,
}

/// What heats it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heating {
    /// R.m.s. current in the primary.
    pub primary: Current,
    /// R.m.s. current in the new winding.
    pub winding: Current,
    /// Loss in the core while energised.
    pub core: Power,
}

/// Mean temperatures of primary, new winding and core.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Temperatures {
    /// Of the primary.
    pub primary: Temperature,
    /// Of the new winding.
    pub winding: Temperature,
    /// Of the core.
    pub core: Temperature,
}

/// How far the hottest place lies above a winding's mean: 10 ± 5 K (IEC 60076-11, dry-type
/// transformers, leaves 5 to 15 K between its mean rises and its limits; M).
pub const HOT_SPOT: Measured<TemperatureRise> = Measured {
    value: TemperatureRise::from_si(10.0),
    plus_minus: TemperatureRise::from_si(5.0),
    origin: Origin::Typical,
};

impl ThermalInputs {
    /// Inputs with the usual values for what nobody measured: contact 60 ± 30 W/(m²·K) (a
    /// millimetre or two of paper and air, common practice, no source), correlations ± 25 %,
    /// emissivity 0.9 ± 0.05 (varnish; handbook tables, from memory), ambient 25 ± 5 °C, no fan,
    /// [`HOT_SPOT`] above the mean.
    #[must_use]
    pub fn typical(core: EiCore, primary: WindingHeat, winding: WindingHeat) -> Self {
        Self {
            core,
            primary,
            winding,
            contact: Measured::new(
                FilmCoefficient::from_si(60.0),
                FilmCoefficient::from_si(30.0),
                Origin::Typical,
            ),
            film_scale: Measured::new(Ratio::from_si(1.0), Ratio::from_si(0.25), Origin::Typical),
            emissivity: Measured::new(Ratio::from_si(0.9), Ratio::from_si(0.05), Origin::Typical),
            ambient: Measured::new(Temperature::from_si(25.0), Temperature::from_si(5.0), Origin::Typical),
            air_speed: Measured::exact(Velocity::ZERO, Origin::Chosen),
            hot_spot: HOT_SPOT,
        }
    }

    /// The network that follows from them.
    #[must_use]
    pub fn network(&self) -> Network {
        let core = &self.core;
        let (tongue, stack) = (core.tongue.value, core.stack.value);
        let touch = |coil: &WindingHeat| -> ThermalConductance {
            // The tongue's four sides, the outer limbs' inner sides, the end against a yoke.
            let tongue_sides = core.turn_length(Length::ZERO) * coil.length.value;
            let limbs = 2.0 * (stack * coil.length.value);
            let yoke = 2.0 * (stack * coil.build.value);
            self.contact.value * (tongue_sides + limbs + yoke)
        };
        let out = |coil: &WindingHeat| -> Area {
            // What stands out of the stack in front and behind: the face and the two ends of
            // each head.
            let width = tongue + 2.0 * coil.build.value;
            2.0 * (width * (coil.length.value + coil.build.value)) + 4.0 * (coil.build.value * coil.length.value)
        };
        let build = self.primary.build.value.min(self.winding.build.value);
        let between = self.contact.value * (build * core.turn_length(build / 2.0));
        let height = core.overall_height();
        let faces =
            2.0 * (core.overall_width() * height - 2.0 * core.window_area() - tongue * core.window_height.value);
        let rim = 2.0 * (stack * (core.overall_width() + height));
        let capacity = |coil: &WindingHeat| HeatCapacity::from_si(coil.mass.value.si() * coil.metal.specific_heat());
        Network {
            capacity: [
                capacity(&self.primary),
                capacity(&self.winding),
                HeatCapacity::from_si(core.steel_mass().si() * STEEL_SPECIFIC_HEAT),
            ],
            surface: [out(&self.primary), out(&self.winding), faces + rim],
            height: [self.primary.length.value, self.winding.length.value, height],
            to_core: [touch(&self.primary), touch(&self.winding)],
            between,
            resistance_20: [self.primary.resistance_20.value, self.winding.resistance_20.value],
            metal: [self.primary.metal, self.winding.metal],
            film_scale: self.film_scale.value,
            around: Surroundings {
                ambient: self.ambient.value,
                air_speed: self.air_speed.value,
                emissivity: self.emissivity.value,
            },
        }
    }
}

/// The heating network; lumps in the order primary, winding, core.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Network {
    /// Heat capacities.
    pub capacity: [HeatCapacity; 3],
    /// Surfaces towards the air.
    pub surface: [Area; 3],
    /// Their heights.
    pub height: [Length; 3],
    /// From each winding to the core.
    pub to_core: [ThermalConductance; 2],
    /// From winding to winding.
    pub between: ThermalConductance,
    /// Resistances at 20 °C.
    pub resistance_20: [Resistance; 2],
    /// Metals of the windings.
    pub metal: [Metal; 2],
    /// Factor on every film coefficient.
    pub film_scale: Ratio,
    /// Room and fan.
    pub around: Surroundings,
}

impl Network {
    /// Heat made in each lump at temperatures `t` in °C, in W.
    pub(super) fn made(&self, t: [f64; 3], heating: &Heating) -> [f64; 3] {
        let copper = |k: usize, current: Current| {
            let growth = self.metal[k].resistivity(Temperature::from_si(t[k])) / self.metal[k].resistivity_20();
            current.heating(self.resistance_20[k]).si() * growth.max(0.0)
        };
        [
            copper(0, heating.primary),
            copper(1, heating.winding),
            heating.core.si(),
        ]
    }

    /// Conductance of each lump to the room at temperatures `t` in °C, in W/K.
    pub(super) fn room_conductance(&self, t: [f64; 3]) -> [f64; 3] {
        let scale = self.film_scale.si();
        std::array::from_fn(|k| {
            scale * (film(Temperature::from_si(t[k]), self.height[k], &self.around) * self.surface[k]).si()
        })
    }

    /// `A` of `C dT/dt = A T + …`: the conductances as a matrix, W/K, with `room` on its diagonal.
    pub(super) fn conductances(&self, room: [f64; 3]) -> Matrix3<f64> {
        let [p, w] = self.to_core.map(ThermalConductance::si);
        let b = self.between.si();
        Matrix3::new(
            -(p + b + room[0]),
            b,
            p,
            b,
            -(w + b + room[1]),
            w,
            p,
            w,
            -(p + w + room[2]),
        )
    }
}

impl UncertainInputs for ThermalInputs {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.primary.mass.visit(Input::PrimaryMass, visitor);
        self.primary.resistance_20.visit(Input::PrimaryResistance, visitor);
        self.primary.length.visit(Input::PrimaryLength, visitor);
        self.primary.build.visit(Input::PrimaryBuild, visitor);
        self.winding.mass.visit(Input::WindingMass, visitor);
        self.winding.resistance_20.visit(Input::WindingResistance, visitor);
        self.winding.length.visit(Input::WindingLength, visitor);
        self.winding.build.visit(Input::WindingBuild, visitor);
        self.contact.visit(Input::ContactWithTheCore, visitor);
        self.film_scale.visit(Input::SurfaceCoefficient, visitor);
        self.emissivity.visit(Input::Emissivity, visitor);
        self.ambient.visit(Input::AirOfTheRoom, visitor);
        self.air_speed.visit(Input::AirSpeed, visitor);
        self.hot_spot.visit(Input::HotSpot, visitor);
    }
}
