//! How fast a surface gives its heat to the air and the room; as a formula, and tabulated for many evaluations.

use crate::quantity::{FilmCoefficient, Length, Ratio, Temperature, Velocity};

/// Stefan-Boltzmann constant, W/(m²·K⁴) (CODATA 2018).
const STEFAN_BOLTZMANN: f64 = 5.670_374_419e-8;

/// Air at 101.3 kPa.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Kinematic viscosity, m²/s.
    pub viscosity: f64,
    /// Thermal conductivity, W/(m·K).
    pub conductivity: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

impl Air {
    /// Air at a temperature from −20 to 300 °C: Sutherland's law for the viscosity
    /// (1.716e-5 Pa·s at 273.15 K, 110.4 K) and the conductivity (0.0241 W/(m·K) at 273.15 K,
    /// 194 K), density of an ideal gas, specific heat 1007 J/(kg·K) (White, Viscous Fluid
    /// Flow; from memory). Within 3 % of handbook tables.
    #[must_use]
    pub fn at(temperature: Temperature) -> Self {
        let t = temperature.kelvins().clamp(250.0, 700.0);
        let sutherland = |s: f64| (t / 273.15).powi(2) / (t / 273.15).sqrt() * (273.15 + s) / (t + s);
        let dynamic = 1.716e-5 * sutherland(110.4);
        let conductivity = 0.0241 * sutherland(194.0);
        let density = 101_325.0 / (287.05 * t);
        Self {
            viscosity: dynamic / density,
            conductivity,
            prandtl: dynamic * 1007.0 / conductivity,
        }
    }
}

/// Nusselt number of free convection at a vertical plate, any Rayleigh number (Churchill and
/// Chu, 1975): `(0.825 + 0.387 Ra^1/6 / (1 + (0.492/Pr)^9/16)^8/27)²`.
#[must_use]
pub fn nusselt_vertical_plate(rayleigh: f64, prandtl: f64) -> f64 {
    let shape = (1.0 + (0.492 / prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    (0.825 + 0.387 * rayleigh.cbrt().sqrt() / shape).powi(2)
}

/// Mean Nusselt number of a plate in a stream along it: `0.664 Re^½ Pr^⅓` to Re 5e5 (Pohlhausen),
/// `(0.037 Re^0.8 − 871) Pr^⅓` beyond (Incropera and `DeWitt`, Fundamentals of Heat and Mass
/// Transfer, chapter 7).
#[must_use]
pub fn nusselt_stream(reynolds: f64, prandtl: f64) -> f64 {
    let shape = if reynolds <= 5e5 {
        0.664 * reynolds.sqrt()
    } else {
        0.037 * reynolds.powf(0.8) - 871.0
    };
    shape * prandtl.cbrt()
}

/// What surrounds a surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surroundings {
    /// Air and walls.
    pub ambient: Temperature,
    /// Speed of the air; zero in still air.
    pub air_speed: Velocity,
    /// Emissivity of the surface, 0 to 1.
    pub emissivity: Ratio,
}

/// Convection and radiation together, for a surface of height `height` at `surface`.
///
/// Free and forced convection join as the cube root of the sum of cubes (Churchill, 1977);
/// radiation goes to walls at ambient. Published scatter of such correlations is ± 25 %.
#[must_use]
pub fn film(surface: Temperature, height: Length, around: &Surroundings) -> FilmCoefficient {
    let (hot, cold) = (surface.kelvins(), around.ambient.kelvins());
    let air = Air::at(Temperature::from_si(f64::midpoint(surface.si(), around.ambient.si())));
    let l = height.si();
    let drive = 9.806_65 * (hot - cold).abs() * 2.0 / (hot + cold);
    let rayleigh = drive * l.powi(3) / (air.viscosity * air.viscosity) * air.prandtl;
    let free = nusselt_vertical_plate(rayleigh, air.prandtl);
    let speed = around.air_speed.si();
    let nusselt = if speed > 0.0 {
        let forced = nusselt_stream(speed * l / air.viscosity, air.prandtl);
        (free.powi(3) + forced.powi(3)).cbrt()
    } else {
        free
    };
    // T⁴ − Ta⁴ over T − Ta, which stays finite where the two are equal.
    let radiation = around.emissivity.si() * STEFAN_BOLTZMANN * (hot * hot + cold * cold) * (hot + cold);
    FilmCoefficient::from_si(nusselt * air.conductivity / l + radiation)
}

/// Knots of the curve.
const KNOTS: usize = 64;
/// It reaches this far above the room, in kelvins.
const REACH: f64 = 640.0;

/// [`film`] of one surface against its temperature, within 1e-4 of it.
///
/// Free convection goes with the sixth root of the rise over the room at small rises and with its
/// third root at large ones, so that the film is smooth in the sixth root: cubics through four
/// neighbouring knots in that (Lagrange's interpolation, any text on numerical analysis). Below the
/// room's temperature and beyond the last knot the film is worked out anew.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FilmCurve {
    height: Length,
    around: Surroundings,
    step: f64,
    knots: [f64; KNOTS],
}

fn sixth_root(x: f64) -> f64 {
    x.cbrt().sqrt()
}

impl FilmCurve {
    pub(super) fn of(height: Length, around: &Surroundings) -> Self {
        let step = sixth_root(REACH) / (KNOTS - 1) as f64;
        let knot = |k: usize| {
            let rise = (step * k as f64).powi(6);
            film(Temperature::from_si(around.ambient.si() + rise), height, around).si()
        };
        Self {
            height,
            around: *around,
            step,
            knots: std::array::from_fn(knot),
        }
    }

    /// The film in W/(m²·K) at a surface temperature in °C.
    pub(super) fn at(&self, surface: f64) -> f64 {
        let rise = surface - self.around.ambient.si();
        if !(0.0..REACH).contains(&rise) {
            return film(Temperature::from_si(surface), self.height, &self.around).si();
        }
        let place = sixth_root(rise) / self.step;
        let first = (place as usize).saturating_sub(1).min(KNOTS - 4);
        let t = place - first as f64;
        let [a, b, c, d] = [0, 1, 2, 3].map(|k| self.knots[first + k]);
        let (t1, t2, t3) = (t - 1.0, t - 2.0, t - 3.0);
        (t * (b * t2 * t3 - c * t1 * t3) / 2.0) + (d * t - a * t3) * t1 * t2 / 6.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_curve_is_the_film() {
        for speed in [0.0, 3.0] {
            let around = Surroundings {
                ambient: Temperature::from_si(25.0),
                air_speed: Velocity::from_si(speed),
                emissivity: Ratio::from_si(0.9),
            };
            let height = Length::from_mm(57.0);
            let curve = FilmCurve::of(height, &around);
            for at in (-20..3000).map(|k| 25.003 + f64::from(k) * 0.2).chain([25.0]) {
                let exact = film(Temperature::from_si(at), height, &around).si();
                let got = curve.at(at);
                assert!((got / exact - 1.0).abs() < 1e-4, "{at} °C: {got} for {exact}");
            }
        }
    }
}
