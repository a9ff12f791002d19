//! A surface's film laid down once over its temperature, for many evaluations.

use crate::magnetics::heat::film::{Surroundings, film};
use crate::quantity::{Length, Temperature};

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
    use crate::quantity::{Ratio, Velocity};

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
