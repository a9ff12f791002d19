//! Temperatures in time: steady state, history over duty cycles, time to a limit, cooling.
//!
//! The network is stiff in nothing but overload, and a step costs some film coefficients:
//! the two-stage Rosenbrock method ROS2 (Verwer, Spee, Blom and Hundsdorfer, 1999) is second
//! order with an approximate Jacobian and damps whatever the step does not resolve.

use nalgebra::Matrix3;

use crate::magnetics::heat::network::{Heating, Network, Temperatures};
use crate::magnetics::heat::step::{Warming, inverse};
use crate::quantity::{Current, Ratio, Temperature, TemperatureRise, Time};

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

impl Network {
    /// Temperatures after `time` under a constant load, by steps of at most 15 s.
    #[must_use]
    pub fn after(&self, start: Temperatures, heating: &Heating, time: Time) -> Temperatures {
        Temperatures::of(self.warming().after(start.array(), heating, time.si()))
    }

    /// The steady state under a constant load, by Newton's method on the heat balance; `None`
    /// where copper loss runs away or a lump passes [`RUNAWAY`].
    #[must_use]
    pub fn steady(&self, heating: &Heating) -> Option<Temperatures> {
        self.steady_near(
            heating,
            Temperatures::all(self.around.ambient + TemperatureRise::from_si(40.0)),
        )
    }

    /// [`Network::steady`], searched from temperatures near it.
    pub(super) fn steady_near(&self, heating: &Heating, near: Temperatures) -> Option<Temperatures> {
        let ambient = self.around.ambient.si();
        let mut t = near.array();
        let growth = self.growth(heating);
        for _ in 0..80 {
            let (net, a) = self.net(t.into(), heating, self.room_conductance(t));
            let change = inverse(a + Matrix3::from_diagonal(&growth)) * -net;
            let largest = change.iter().fold(0.0_f64, |m, c| m.max(c.abs()));
            // The film's own slope is left out of the Jacobian: a cautious step on the way.
            let share = if largest > 200.0 { 200.0 / largest } else { 1.0 };
            for (slot, c) in t.iter_mut().zip(&change) {
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
        self.warming()
            .history(start, cycle, total, every.min(Time::from_si(15.0)))
    }

    /// When `excess` (how far a temperature stands above its limit, in kelvins) passes zero from
    /// below under a constant load; zero if it is above already, `None` if not within `within`.
    #[must_use]
    pub fn time_until(
        &self,
        start: Temperatures,
        heating: &Heating,
        within: Time,
        excess: impl Fn(Temperatures) -> f64,
    ) -> Option<Time> {
        let (time, _) = self.warming().until(start, heating, within.si(), excess)?;
        Some(Time::from_si(time))
    }

    /// How long it cools, switched off, until every lump is at `target` or below; `None` if not
    /// within a day (the target is at ambient or below).
    #[must_use]
    pub fn cooling_time(&self, start: Temperatures, target: Temperature) -> Option<Time> {
        self.warming().cooling_time(start, target)
    }
}

impl Warming {
    /// [`Network::history`], by steps of at most `every`.
    pub(super) fn history(&self, start: Temperatures, cycle: &Cycle, total: Time, every: Time) -> Vec<HeatPoint> {
        let every = every.si().max(1e-3);
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

    /// [`Network::cooling_time`].
    pub(super) fn cooling_time(&self, start: Temperatures, target: Temperature) -> Option<Time> {
        let day = Time::from_minutes(1440.0).si();
        let below = |t: Temperatures| target.si() - t.hottest().si();
        let (time, _) = self.until(start, &Heating::NONE, day, below)?;
        Some(Time::from_si(time))
    }
}
