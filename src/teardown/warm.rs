//! How long a core takes to warm through in an oven or hot air. Never by energising it.

use crate::magnetics::core::{EiCore, STEEL_SPECIFIC_HEAT};
use crate::quantity::{Area, HeatCapacity, Length, Mass, Measured, Origin, Temperature, Time};
use crate::wire::Metal;
use crate::words::words;
use crate::words::{Explain, Message};

words! {
    /// What warms the core.
    pub enum Air, "air" {
        /// An oven without a fan.
        StillOven = "still-oven",
        /// An oven with a fan.
        FanOven = "fan-oven",
        /// Hot air blown at the core, turned now and then.
        HotAir = "hot-air",
    }
}

impl Air {
    /// Film coefficient from air and oven walls to the core in W/(m²·K): low, likely, high.
    ///
    /// Gases by free convection 2 to 25, forced 25 to 250 W/(m²·K) (Incropera and `DeWitt`,
    /// Fundamentals of Heat and Mass Transfer, table 1.1; from memory), with 5 to 10 more by
    /// radiation from oven walls. Where inside these ranges an oven lies is common practice, no
    /// source, hence the wide limits.
    #[must_use]
    pub const fn film_coefficient(self) -> [f64; 3] {
        match self {
            Air::StillOven => [8.0, 14.0, 20.0],
            Air::FanOven => [18.0, 28.0, 40.0],
            Air::HotAir => [25.0, 45.0, 90.0],
        }
    }
}

/// A core to be warmed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warming {
    /// Steel in the core.
    pub steel: Mass,
    /// Metal in the windings.
    pub winding: Mass,
    /// What that metal is.
    pub metal: Metal,
    /// What warms it.
    pub air: Air,
    /// Temperature of the core at the start, −20 to 60 °C.
    pub start: Temperature,
    /// Temperature of the air, 60 to 150 °C.
    pub setting: Temperature,
    /// Temperature that the core shall reach, below the air's by 5 K or more.
    pub target: Temperature,
}

/// How long warming takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmingTime {
    /// With the best heat transfer.
    pub shortest: Time,
    /// Likely.
    pub likely: Time,
    /// With the worst.
    pub longest: Time,
}

/// Why there is no time.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum WarmingError {
    /// The mass can't be right.
    #[error("a core of {kilograms} kg is outside 0.2 to 30 kg; weigh it again")]
    Mass {
        /// What was given.
        kilograms: f64,
    },
    /// The air's temperature is not allowed.
    #[error("set the air to 60 to 150 °C, not {celsius} °C: hotter chars varnish and paper and gives more fumes")]
    Setting {
        /// What was given.
        celsius: f64,
    },
    /// Start or target can't be.
    #[error("the core must start at −20 to 60 °C and end above that, at least 5 °C below the air")]
    Target,
}

impl Explain for WarmingError {
    fn message(&self) -> Message {
        match self {
            WarmingError::Mass { kilograms } => Message::new("refused-warm-mass").with("kilograms", kilograms),
            WarmingError::Setting { celsius } => Message::new("refused-warm-setting").with("celsius", celsius),
            WarmingError::Target => Message::new("refused-warm-target"),
        }
    }
}

/// Outer surface of a bare core of wasteless laminations whose stack is 1.6 times its tongue,
/// with this much steel. The proportions are common practice, no source; the surface moves with
/// the mass to the power of two thirds.
#[must_use]
pub fn surface_of_core(steel: Mass) -> Area {
    let unit = |tongues: f64| Measured::exact(Length::from_si(tongues), Origin::Typical);
    let core = EiCore::new(unit(1.0), unit(1.6), unit(0.5), unit(1.5));
    let tongue = Length::from_si((steel / core.computed_mass()).cbrt());
    let (width, height, stack) = (core.overall_width(), core.overall_height(), core.stack.value);
    let faces = 2.0 * (width * height + width * stack + height * stack);
    Area::from_si(faces.si() * tongue.si() * tongue.si())
}

/// Lumped heat capacity: `t = (C / h A) ln((Tair − Tstart) / (Tair − Ttarget))` (Incropera and
/// `DeWitt`, section 5.1). Good while the core is much the same temperature throughout: its Biot
/// number h L / k is below 0.1 for steel across the stack at these coefficients.
fn lumped_time(
    heat: HeatCapacity,
    film: f64,
    surface: Area,
    start: Temperature,
    air: Temperature,
    target: Temperature,
) -> Time {
    let conductance = film * surface.si();
    Time::from_si(heat.si() / conductance * (air.above(start) / air.above(target)).ln())
}

impl Warming {
    /// How long it takes until the core is as warm as wanted.
    ///
    /// # Errors
    /// [`WarmingError`] outside the ranges of the fields; steel and winding together 0.2 to
    /// 30 kg.
    pub fn time(&self) -> Result<WarmingTime, WarmingError> {
        let mass = self.steel + self.winding;
        let parts = self.steel.si() > 0.0 && self.winding.si() >= 0.0;
        if !(parts && (0.2..=30.0).contains(&mass.si())) {
            return Err(WarmingError::Mass { kilograms: mass.si() });
        }
        if !(60.0..=150.0).contains(&self.setting.si()) {
            return Err(WarmingError::Setting {
                celsius: self.setting.si(),
            });
        }
        let room = self.setting.above(self.target).si();
        if !((-20.0..=60.0).contains(&self.start.si()) && self.target > self.start && room >= 5.0) {
            return Err(WarmingError::Target);
        }
        let heat = self.steel.si() * STEEL_SPECIFIC_HEAT + self.winding.si() * self.metal.specific_heat();
        let surface = surface_of_core(self.steel);
        let time = |film| {
            lumped_time(
                HeatCapacity::from_si(heat),
                film,
                surface,
                self.start,
                self.setting,
                self.target,
            )
        };
        let [low, likely, high] = self.air.film_coefficient();
        Ok(WarmingTime {
            shortest: time(high),
            likely: time(likely),
            longest: time(low),
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Incropera and `DeWitt`, example 5.1 (from memory): a thermocouple bead of 0.706 mm, 8500
    /// kg/m³, 400 J/(kg·K), in gas at 200 °C with 400 W/(m²·K), takes 5.2 s from 25 to 199 °C.
    #[test]
    fn thermocouple_bead() {
        let d: f64 = 7.06e-4;
        let volume = std::f64::consts::PI * d.powi(3) / 6.0;
        let time = lumped_time(
            HeatCapacity::from_si(8500.0 * volume * 400.0),
            400.0,
            Area::from_si(std::f64::consts::PI * d * d),
            Temperature::from_si(25.0),
            Temperature::from_si(200.0),
            Temperature::from_si(199.0),
        );
        assert!((time.si() - 5.2).abs() < 0.05, "{time:?}");
    }

    fn core() -> Warming {
        Warming {
            steel: Mass::from_si(3.0),
            winding: Mass::from_si(1.0),
            metal: Metal::Copper,
            air: Air::FanOven,
            start: Temperature::from_si(20.0),
            setting: Temperature::from_si(130.0),
            target: Temperature::from_si(100.0),
        }
    }

    /// About half an hour in an oven at a low setting (common practice, no source).
    #[test]
    fn about_half_an_hour() {
        let time = core().time().unwrap();
        assert!(time.shortest < time.likely && time.likely < time.longest);
        assert!(
            time.shortest.minutes() < 30.0 && time.longest.minutes() > 30.0,
            "{time:?}"
        );
    }

    /// A wasteless core of 30 mm tongue and 48 mm stack: 90 × 75 × 48 mm outside.
    #[test]
    fn surface_of_a_known_core() {
        let exact = |mm| Measured::exact(Length::from_mm(mm), Origin::Calipers);
        let core = EiCore::new(exact(30.0), exact(48.0), exact(15.0), exact(45.0));
        let got = surface_of_core(core.computed_mass()).cm2();
        let expected = 2.0 * (9.0 * 7.5 + 9.0 * 4.8 + 7.5 * 4.8);
        assert!((got / expected - 1.0).abs() < 1e-9, "{got} {expected}");
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let refused = |change: fn(&mut Warming)| {
            let mut warming = core();
            change(&mut warming);
            assert!(warming.time().is_err(), "{warming:?}");
        };
        refused(|w| w.setting = Temperature::from_si(200.0));
        refused(|w| w.target = Temperature::from_si(128.0));
        refused(|w| w.target = Temperature::from_si(f64::NAN));
        refused(|w| w.start = Temperature::from_si(f64::NAN));
        refused(|w| w.steel = Mass::from_si(-1.0));
        refused(|w| w.winding = Mass::from_si(f64::NAN));
        refused(|w| w.steel = Mass::from_si(400.0));
    }
}
