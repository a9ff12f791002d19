//! Temperatures in time: steady state, history over duty cycles, time to a limit, cooling.
//!
//! The network is stiff in nothing but overload, and a step costs some film coefficients:
//! the two-stage Rosenbrock method ROS2 (Verwer, Spee, Blom and Hundsdorfer, 1999) is second
//! order with an approximate Jacobian and damps whatever the step does not resolve.

use super::heat_network::{Heating, Network, Temperatures};
use crate::quantity::{Current, Power, Ratio, Temperature, Time};

/// A load that comes and goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cycle {
    /// What heats it while the load is on.
    pub on: Heating,
    /// What heats it in the pause: nothing, or the idle losses.
    pub pause: Heating,
    /// Length of the load.
    pub on_time: Time,
    /// Load and pause together.
    pub period: Time,
}

/// A point of a history.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeatPoint {
    /// Time since the start.
    pub time: Time,
    /// Temperatures then.
    pub temperatures: Temperatures,
}

impl Heating {
    /// Nothing: switched off.
    pub const NONE: Self = Self {
        primary: Current::ZERO,
        winding: Current::ZERO,
        core: Power::ZERO,
    };

    /// The constant load with the mean heat of this one for a share `duty` of the time and
    /// `pause` for the rest: currents by their mean squares, core loss by its mean.
    #[must_use]
    pub fn averaged(&self, duty: Ratio, pause: &Heating) -> Self {
        let d = duty.si().clamp(0.0, 1.0);
        let root = |a: Current, b: Current| Current::from_si((d * a.si().powi(2) + (1.0 - d) * b.si().powi(2)).sqrt());
        Self {
            primary: root(self.primary, pause.primary),
            winding: root(self.winding, pause.winding),
            core: self.core * d + pause.core * (1.0 - d),
        }
    }
}

impl Temperatures {
    /// All lumps at one temperature.
    #[must_use]
    pub const fn all(at: Temperature) -> Self {
        Self {
            primary: at,
            winding: at,
            core: at,
        }
    }
    pub(super) const fn array(self) -> [f64; 3] {
        [self.primary.si(), self.winding.si(), self.core.si()]
    }
    pub(super) const fn of(t: [f64; 3]) -> Self {
        Self {
            primary: Temperature::from_si(t[0]),
            winding: Temperature::from_si(t[1]),
            core: Temperature::from_si(t[2]),
        }
    }
    /// The hottest lump.
    #[must_use]
    pub fn hottest(self) -> Temperature {
        self.primary.max(self.winding).max(self.core)
    }
}

/// Above this no steady state is sought: everything has burnt.
pub const RUNAWAY: Temperature = Temperature::from_si(600.0);

type Matrix = [[f64; 3]; 3];

/// `m x = b` by Cramer's rule.
fn solve3(m: &Matrix, b: [f64; 3]) -> [f64; 3] {
    let minor = |r: [usize; 2], c: [usize; 2]| m[r[0]][c[0]] * m[r[1]][c[1]] - m[r[0]][c[1]] * m[r[1]][c[0]];
    let cofactor = [
        [minor([1, 2], [1, 2]), -minor([1, 2], [0, 2]), minor([1, 2], [0, 1])],
        [-minor([0, 2], [1, 2]), minor([0, 2], [0, 2]), -minor([0, 2], [0, 1])],
        [minor([0, 1], [1, 2]), -minor([0, 1], [0, 2]), minor([0, 1], [0, 1])],
    ];
    let det: f64 = (0..3).map(|k| m[0][k] * cofactor[0][k]).sum();
    std::array::from_fn(|k| (0..3).map(|row| cofactor[row][k] * b[row]).sum::<f64>() / det)
}

impl Network {
    /// Net heat into each lump, W, and the conductances it came from.
    fn net(&self, t: [f64; 3], heating: &Heating) -> ([f64; 3], Matrix) {
        let room = self.to_room(t);
        let a = self.conductances(room);
        let made = self.made(t, heating);
        let ambient = self.around.ambient.si();
        let net =
            std::array::from_fn(|k| made[k] + room[k] * ambient + a[k].iter().zip(t).map(|(g, t)| g * t).sum::<f64>());
        (net, a)
    }

    /// How copper loss grows with temperature, W/K.
    fn growth(&self, heating: &Heating) -> [f64; 3] {
        let copper = |k: usize, current: Current| {
            current.heating(self.resistance_20[k]).si() * self.metal[k].temperature_coefficient_20().si()
        };
        [copper(0, heating.primary), copper(1, heating.winding), 0.0]
    }

    fn step(&self, t: [f64; 3], heating: &Heating, h: f64) -> [f64; 3] {
        const GAMMA: f64 = 1.0 - std::f64::consts::FRAC_1_SQRT_2;
        let capacity = self.capacity.map(|c| c.si());
        let (first, a) = self.net(t, heating);
        let growth = self.growth(heating);
        // (C − γ h J) k = f, both sides times the capacities.
        let m: Matrix = std::array::from_fn(|r| {
            std::array::from_fn(|c| {
                let own = if r == c {
                    capacity[r] - GAMMA * h * growth[r]
                } else {
                    0.0
                };
                own - GAMMA * h * a[r][c]
            })
        });
        let k1 = solve3(&m, first);
        let ahead = std::array::from_fn(|k| t[k] + h * k1[k]);
        let (second, _) = self.net(ahead, heating);
        let k2 = solve3(&m, std::array::from_fn(|k| second[k] - 2.0 * capacity[k] * k1[k]));
        std::array::from_fn(|k| t[k] + h * (1.5 * k1[k] + 0.5 * k2[k]))
    }

    /// Temperatures after `time` under a constant load, by steps of at most 15 s.
    #[must_use]
    pub fn after(&self, start: Temperatures, heating: &Heating, time: Time) -> Temperatures {
        let mut t = start.array();
        let steps = (time.si() / 15.0).ceil().clamp(1.0, 1e6);
        if time.si() > 0.0 {
            for _ in 0..steps as u32 {
                t = self.step(t, heating, time.si() / steps);
            }
        }
        Temperatures::of(t)
    }

    /// The steady state under a constant load, by Newton's method on the heat balance; `None`
    /// where copper loss runs away or a lump passes [`RUNAWAY`].
    #[must_use]
    pub fn steady(&self, heating: &Heating) -> Option<Temperatures> {
        let ambient = self.around.ambient.si();
        let mut t = [ambient + 40.0; 3];
        let growth = self.growth(heating);
        for _ in 0..80 {
            let (net, mut a) = self.net(t, heating);
            for (k, row) in a.iter_mut().enumerate() {
                row[k] += growth[k];
            }
            let change = solve3(&a, net.map(|v| -v));
            let largest = change.iter().fold(0.0_f64, |m, c| m.max(c.abs()));
            // The film's own slope is left out of the Jacobian: a cautious step on the way.
            let share = if largest > 200.0 { 200.0 / largest } else { 1.0 };
            for (slot, c) in t.iter_mut().zip(change) {
                *slot += share * c;
            }
            if !t
                .iter()
                .all(|v| v.is_finite() && *v < 4.0 * RUNAWAY.si() && *v > ambient - 1.0)
            {
                return None;
            }
            if largest < 1e-4 {
                let found = Temperatures::of(t);
                return (found.hottest() < RUNAWAY).then_some(found);
            }
        }
        None
    }

    /// The history over repeated cycles: at the start, then at least every `every` and at each
    /// switching. Steps are at most 15 s long.
    #[must_use]
    pub fn history(&self, start: Temperatures, cycle: &Cycle, total: Time, every: Time) -> Vec<HeatPoint> {
        let every = every.si().clamp(1e-3, 15.0);
        let period = cycle.period.si().max(1e-3);
        let on_time = cycle.on_time.si().clamp(0.0, period);
        let mut points = vec![HeatPoint {
            time: Time::ZERO,
            temperatures: start,
        }];
        let (mut t, mut now) = (start.array(), 0.0);
        while now < total.si() {
            for (length, heating) in [(on_time, &cycle.on), (period - on_time, &cycle.pause)] {
                let length = length.min(total.si() - now);
                let steps = (length / every).ceil() as u32;
                for _ in 0..steps {
                    let h = length / f64::from(steps);
                    t = self.step(t, heating, h);
                    now += h;
                    points.push(HeatPoint {
                        time: Time::from_si(now),
                        temperatures: Temperatures::of(t),
                    });
                }
            }
            if period <= 1e-3 {
                break;
            }
        }
        points
    }

    /// When `excess` (how far a temperature stands above its limit, in kelvins) passes zero from
    /// below under a constant load; zero if it is above already, `None` if not within `within`.
    /// Steps are a twentieth of the time gone by, which is the scale that a warming slows down on.
    #[must_use]
    pub fn time_until(
        &self,
        start: Temperatures,
        heating: &Heating,
        within: Time,
        excess: impl Fn(Temperatures) -> f64,
    ) -> Option<Time> {
        let (mut t, mut now, mut before) = (start.array(), 0.0, excess(start));
        if before >= 0.0 {
            return Some(Time::ZERO);
        }
        while now < within.si() {
            let h = (0.05 * now).clamp(0.1, 600.0);
            t = self.step(t, heating, h);
            let after = excess(Temperatures::of(t));
            if after >= 0.0 {
                return Some(Time::from_si(now + h * before / (before - after)));
            }
            before = after;
            now += h;
        }
        None
    }

    /// How long it cools, switched off, until every lump is at `target` or below; `None` if not
    /// within a day (the target is at ambient or below).
    #[must_use]
    pub fn cooling_time(&self, start: Temperatures, target: Temperature) -> Option<Time> {
        self.time_until(start, &Heating::NONE, Time::from_minutes(1440.0), |t| {
            target.si() - t.hottest().si()
        })
    }
}
