//! What load, for how long and how often.

use super::heat::{Cycle, RUNAWAY};
use super::heat_network::{Heating, Network, Temperatures, ThermalInputs};
use super::short_time::adiabatic_temperature;
use super::thermal_class::ThermalClass;
use crate::quantity::{Area, Current, Propagated, Ratio, Temperature, TemperatureRise, Time, estimates, first_order};

/// The cycle that arc welding sources are rated over: 10 minutes (IEC 60974-1, from memory).
pub const WELDING_CYCLE: Time = Time::from_minutes(10.0);

/// Stands for "never" in a time that has to be a number.
pub const NEVER: Time = Time::from_minutes(1440.0);

/// The current that heats alike at another duty: `I₂ = I₁ √(D₁/D₂)` (heat only: IEC 60974-1 for
/// arc welding, ISO 669 for resistance welding, from memory). `D₂ = 1` gives the equivalent
/// continuous current `I √D`. Zero where a duty is not above zero.
#[must_use]
pub fn current_at_duty(current: Current, duty: Ratio, other: Ratio) -> Current {
    if duty.si() > 0.0 && other.si() > 0.0 {
        current * (duty / other).sqrt()
    } else {
        Current::ZERO
    }
}

/// Insulation of the two windings.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Insulation {
    /// Of the primary.
    pub primary: ThermalClass,
    /// Of the new winding.
    pub winding: ThermalClass,
}

/// A load with its pause, and what limits it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DutyQuestion {
    /// Under load.
    pub on: Heating,
    /// In the pause.
    pub pause: Heating,
    /// What the windings bear.
    pub insulation: Insulation,
    /// Temperature at which it counts as cool again.
    pub cool: Temperature,
}

estimates! {
    /// How hot, how long and how often.
    pub struct DutyAnswer / DutyEstimate {
        /// Primary in steady state under constant load ([`RUNAWAY`] stands for anything above).
        primary_steady: Temperature,
        /// New winding in steady state under constant load.
        winding_steady: Temperature,
        /// Core in steady state under constant load.
        core_steady: Temperature,
        /// From cold until a hot spot reaches its limit ([`NEVER`] if it does not within a day).
        time_to_limit: Time,
        /// Share of a 10-minute cycle that the load may be on for ever.
        permitted_duty: Ratio,
        /// From the limit until everything is cool, switched off ([`NEVER`] if the air is warmer).
        cooling_time: Time,
    }
}

impl ThermalInputs {
    /// How far the hottest spot stands above what its insulation bears, in kelvins.
    #[must_use]
    pub fn excess(&self, t: Temperatures, insulation: Insulation) -> TemperatureRise {
        let over = |mean: Temperature, class: ThermalClass| (mean + self.hot_spot.value).above(class.limit());
        over(t.primary, insulation.primary).max(over(t.winding, insulation.winding))
    }

    /// How long, how often, how hot, at the best inputs.
    #[must_use]
    pub fn duty(&self, question: &DutyQuestion) -> DutyAnswer {
        self.duty_with(question, self.permitted_duty(question, WELDING_CYCLE))
    }

    /// [`ThermalInputs::duty`] with the permitted duty known.
    #[must_use]
    pub fn duty_with(&self, question: &DutyQuestion, permitted_duty: Ratio) -> DutyAnswer {
        let network = self.network();
        let cold = Temperatures::all(self.ambient.value);
        let steady = network.steady(&question.on).unwrap_or(Temperatures::all(RUNAWAY));
        let excess = |t: Temperatures| self.excess(t, question.insulation).si();
        let time_to_limit = if excess(steady) < 0.0 {
            NEVER
        } else {
            network.time_until(cold, &question.on, NEVER, excess).unwrap_or(NEVER)
        };
        let hot = if time_to_limit < NEVER {
            network.after(cold, &question.on, time_to_limit)
        } else {
            steady
        };
        DutyAnswer {
            primary_steady: steady.primary,
            winding_steady: steady.winding,
            core_steady: steady.core,
            time_to_limit,
            permitted_duty,
            cooling_time: network.cooling_time(hot, question.cool).unwrap_or(NEVER),
        }
    }

    /// [`ThermalInputs::duty`] with uncertainty, and what each input adds to it. `None` only if
    /// the best inputs give no number.
    #[must_use]
    pub fn duty_with_uncertainty(
        &self,
        question: &DutyQuestion,
    ) -> Option<(DutyEstimate, Propagated<{ DutyAnswer::COUNT }>)> {
        let answers = first_order(self, |inputs| {
            let si = inputs.duty(question).to_si();
            si.iter().all(|v| v.is_finite()).then_some(si)
        })?;
        Some((DutyEstimate::from_propagated(&answers), answers))
    }

    /// The share of `period` that the load may be on, cycle after cycle, without the hottest
    /// spot passing its limit at the end of any load by more than 0.1 K; 0 to 1, to 0.1 %.
    #[must_use]
    pub fn permitted_duty(&self, question: &DutyQuestion, period: Time) -> Ratio {
        let network = self.network();
        let over = |duty: f64| -> f64 {
            network
                .repeated_peak(question, Ratio::from_si(duty), period)
                .map_or(f64::INFINITY, |t| self.excess(t, question.insulation).si())
        };
        Ratio::from_si(largest_allowed(over, 1.0))
    }

    /// How far the hottest spot stands above its limit at the end of a load, the cycle repeating
    /// for ever, in kelvins; infinite where it runs away.
    fn cycle_excess(&self, question: &DutyQuestion, duty: f64, period: Time) -> f64 {
        self.network()
            .repeated_peak(question, Ratio::from_si(duty), period)
            .map_or(f64::INFINITY, |t| self.excess(t, question.insulation).si())
    }

    /// How the permitted duty moves with the inputs near these: a duty and how many kelvins more a
    /// whole unit of it brings there. `None` where the duty stands at an end of its range.
    #[must_use]
    pub fn duty_slope(&self, question: &DutyQuestion, period: Time) -> Option<(Ratio, f64)> {
        let duty = self.permitted_duty(question, period);
        let d = duty.si();
        if d <= 1e-3 || d >= 1.0 - 1e-3 {
            return None;
        }
        let reach = (0.02 * d).min(1.0 - d);
        let rise = self.cycle_excess(question, d + reach, period) - self.cycle_excess(question, d - reach, period);
        let slope = rise / (2.0 * reach);
        (slope.is_finite() && slope > 0.0).then_some((duty, slope))
    }

    /// The permitted duty by one step of Newton's method from a duty near it: exact to first order,
    /// and many times quicker than to search it anew for every input that is moved.
    #[must_use]
    pub fn permitted_duty_near(&self, question: &DutyQuestion, period: Time, near: (Ratio, f64)) -> Ratio {
        let excess = self.cycle_excess(question, near.0.si(), period);
        if !excess.is_finite() {
            return self.permitted_duty(question, period);
        }
        Ratio::from_si((near.0.si() - excess / near.1).clamp(0.0, 1.0))
    }

    /// How many pulses of length `pulse` a minute the windings bear for ever. Within a pulse no
    /// heat is lost: the new winding of conductor section `section` swings by
    /// [`adiabatic_temperature`], half of that above the mean.
    #[must_use]
    pub fn pulses_a_minute(&self, question: &DutyQuestion, pulse: Time, section: Area) -> f64 {
        if pulse.si() <= 0.0 || section.si() <= 0.0 {
            return 0.0;
        }
        let network = self.network();
        let density = question.on.winding / section;
        let over = |duty: f64| -> f64 {
            let mean = question.on.averaged(Ratio::from_si(duty), &question.pause);
            let Some(mut t) = network.steady(&mean) else {
                return f64::INFINITY;
            };
            let after = adiabatic_temperature(self.winding.metal, density, pulse, t.winding);
            t.winding = t.winding + after.above(t.winding) * ((1.0 - duty) / 2.0);
            self.excess(t, question.insulation).si()
        };
        largest_allowed(over, 1.0) * 60.0 / pulse.si()
    }
}

/// The largest share of 0 to `most` at which a rising function is not above zero: regula falsi
/// where both ends are numbers (Illinois rule), halving where one is infinite.
fn largest_allowed(over: impl Fn(f64) -> f64, most: f64) -> f64 {
    let (mut low, mut high) = (0.0, most);
    let (mut at_low, mut at_high) = (over(low), over(high));
    if at_low > 0.0 {
        return 0.0;
    }
    if at_high <= 0.0 {
        return most;
    }
    let mut side = 0;
    for _ in 0..40 {
        if high - low < 1e-3 * most.min(high) {
            break;
        }
        let share = if at_high.is_finite() {
            at_low / (at_low - at_high)
        } else {
            0.5
        };
        let middle = low + (high - low) * share;
        let value = over(middle);
        if value.abs() < 0.1 {
            return middle;
        }
        if value <= 0.0 {
            (low, at_low) = (middle, value);
            if side == -1 {
                at_high /= 2.0;
            }
            side = -1;
        } else {
            (high, at_high) = (middle, value);
            if side == 1 {
                at_low /= 2.0;
            }
            side = 1;
        }
    }
    low
}

impl Network {
    /// Temperatures at the end of the load once the cycle repeats itself: from the steady state
    /// of the mean heat, cycle after cycle until none moves by 0.05 K, every third begun where the
    /// last two point to (Aitken's extrapolation; any text on numerical analysis). `None` if it
    /// runs away.
    #[must_use]
    pub fn repeated_peak(&self, question: &DutyQuestion, duty: Ratio, period: Time) -> Option<Temperatures> {
        let cycle = Cycle {
            on: question.on,
            pause: question.pause,
            on_time: period * duty.si(),
            period,
        };
        let mut start = self.steady(&question.on.averaged(duty, &question.pause))?;
        let mut before: Option<Temperatures> = None;
        for _ in 0..60 {
            let peak = self.after(start, &cycle.on, cycle.on_time);
            let end = self.after(peak, &cycle.pause, cycle.period - cycle.on_time);
            let moved = end
                .array()
                .iter()
                .zip(start.array())
                .fold(0.0_f64, |m, (e, s)| m.max((e - s).abs()));
            if !(moved.is_finite() && peak.hottest() < RUNAWAY) {
                return None;
            }
            if moved < 0.05 {
                return Some(peak);
            }
            start = match before.take() {
                Some(first) => extrapolated(first.array(), start.array(), end.array()),
                None => {
                    before = Some(start);
                    end
                }
            };
        }
        Some(self.after(start, &cycle.on, cycle.on_time))
    }
}

/// Where three temperatures in geometric approach lead, each lump by itself; the last where they
/// do not approach.
fn extrapolated(first: [f64; 3], second: [f64; 3], third: [f64; 3]) -> Temperatures {
    let at = |k: usize| {
        let (one, two) = (second[k] - first[k], third[k] - second[k]);
        let ahead = two * two / (one - two);
        Temperature::from_si(if one * two > 0.0 && two.abs() < 0.98 * one.abs() {
            third[k] + ahead
        } else {
            third[k]
        })
    };
    Temperatures {
        primary: at(0),
        winding: at(1),
        core: at(2),
    }
}
