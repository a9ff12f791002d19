//! A step of time of the heating network, its films laid down.

use nalgebra::{Matrix3, Vector3};

use crate::magnetics::heat::film::FilmCurve;
use crate::magnetics::heat::network::{Heating, Network, Temperatures};
use crate::quantity::{Current, Power};

impl Heating {
    /// Nothing: switched off.
    pub const NONE: Self = Self {
        primary: Current::ZERO,
        winding: Current::ZERO,
        core: Power::ZERO,
    };
}

/// The inverse; NaN where there is none, which no search takes for an answer.
pub(super) fn inverse(m: Matrix3<f64>) -> Matrix3<f64> {
    m.try_inverse().unwrap_or_else(|| Matrix3::repeat(f64::NAN))
}

/// A network ready for many steps.
#[derive(Debug, Clone)]
pub(super) struct Warming {
    pub(super) network: Network,
    films: [FilmCurve; 3],
}

impl Network {
    /// Ready for many steps.
    pub(super) fn warming(&self) -> Warming {
        Warming {
            network: *self,
            films: self.height.map(|height| FilmCurve::of(height, &self.around)),
        }
    }

    /// How copper loss grows with temperature, W/K.
    pub(super) fn growth(&self, heating: &Heating) -> Vector3<f64> {
        let copper = |k: usize, current: Current| {
            current.heating(self.resistance_20[k]).si() * self.metal[k].temperature_coefficient_20().si()
        };
        Vector3::new(copper(0, heating.primary), copper(1, heating.winding), 0.0)
    }

    /// Net heat into each lump, W, and the conductances it came from, from those to the room.
    pub(super) fn net(&self, t: Vector3<f64>, heating: &Heating, room: [f64; 3]) -> (Vector3<f64>, Matrix3<f64>) {
        let a = self.conductances(room);
        let made = Vector3::from(self.made(t.into(), heating));
        (made + Vector3::from(room) * self.around.ambient.si() + a * t, a)
    }
}

impl Warming {
    fn net(&self, t: Vector3<f64>, heating: &Heating) -> (Vector3<f64>, Matrix3<f64>) {
        let network = &self.network;
        let scale = network.film_scale.si();
        let room = std::array::from_fn(|k| scale * self.films[k].at(t[k]) * network.surface[k].si());
        network.net(t, heating, room)
    }

    /// One step of `h` seconds of the two-stage Rosenbrock method ROS2.
    pub(super) fn step(&self, t: [f64; 3], heating: &Heating, h: f64) -> [f64; 3] {
        const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
        let t = Vector3::from(t);
        let capacity = Matrix3::from_diagonal(&Vector3::from(self.network.capacity.map(|c| c.si())));
        let (first, a) = self.net(t, heating);
        let jacobian = a + Matrix3::from_diagonal(&self.network.growth(heating));
        // (C − γ h J) k = f, both sides times the capacities.
        let m = inverse(capacity - jacobian * (GAMMA * h));
        let k1 = m * first;
        let (second, _) = self.net(t + k1 * h, heating);
        let k2 = m * (second - capacity * k1 * 2.0);
        (t + (k1 * 1.5 + k2 * 0.5) * h).into()
    }

    /// Temperatures after `seconds` under a constant load, by steps of at most 15 s.
    pub(super) fn after(&self, mut t: [f64; 3], heating: &Heating, seconds: f64) -> [f64; 3] {
        let steps = (seconds / 15.0).ceil().clamp(1.0, 1e6);
        if seconds > 0.0 {
            for _ in 0..steps as u32 {
                t = self.step(t, heating, seconds / steps);
            }
        }
        t
    }

    /// When `excess` passes zero from below under a constant load, and the temperatures then; zero
    /// if it is above already, `None` if not within `within` seconds.
    ///
    /// Steps are a tenth of the time gone by, which is the scale that a warming slows down on;
    /// within the last one the instant is found by regula falsi on shorter steps, to 1 mK.
    pub(super) fn until(
        &self,
        start: Temperatures,
        heating: &Heating,
        within: f64,
        excess: impl Fn(Temperatures) -> f64,
    ) -> Option<(f64, Temperatures)> {
        let (mut t, mut now, mut before) = (start.array(), 0.0, excess(start));
        if before >= 0.0 {
            return Some((0.0, start));
        }
        while now < within {
            let h = (now / 10.0).clamp(0.5, 600.0);
            let next = self.step(t, heating, h);
            let after = excess(Temperatures::of(next));
            if after >= 0.0 {
                let (mut low, mut high) = ((0.0, before), (h, after));
                let mut found = (h, next);
                for _ in 0..8 {
                    let part = low.0 + (high.0 - low.0) * low.1 / (low.1 - high.1);
                    found = (part, self.step(t, heating, part));
                    let value = excess(Temperatures::of(found.1));
                    if value.abs() < 1e-3 {
                        break;
                    }
                    if value < 0.0 {
                        low = (part, value);
                    } else {
                        high = (part, value);
                    }
                }
                return Some((now + found.0, Temperatures::of(found.1)));
            }
            if !after.is_finite() {
                return None;
            }
            (t, before) = (next, after);
            now += h;
        }
        None
    }
}
