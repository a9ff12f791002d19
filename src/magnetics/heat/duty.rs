//! What load, for how long and how often.

use crate::magnetics::heat::RUNAWAY;
use crate::magnetics::heat::cycle::PeriodicGuess;
use crate::magnetics::heat::network::{Heating, Network, Temperatures, ThermalInputs};
use crate::magnetics::heat::step::Warming;
use crate::magnetics::heat::thermal_class::ThermalClass;
use crate::magnetics::numeric::bracket::Bracket;
use crate::magnetics::winding::short_time::adiabatic_temperature;
use crate::quantity::{Area, Current, Propagated, Ratio, Temperature, TemperatureRise, Time, estimates, propagate};

/// The cycle that arc welding sources are rated over: 10 minutes (IEC 60974-1, R2: welding makers' manuals).
pub const WELDING_CYCLE: Time = Time::from_minutes(10.0);

/// Stands for "never" in a time that has to be a number.
pub const NEVER: Time = Time::from_minutes(1440.0);

/// The current that heats alike at another duty: `I₂ = I₁ √(D₁/D₂)` (heat only: IEC 60974-1 for
/// arc welding, ISO 669 for resistance welding, R2: makers' pages). `D₂ = 1` gives the equivalent
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
    /// The thermal classes of the windings.
    pub insulation: Insulation,
    /// How far above the room it counts as cool again.
    pub cool: TemperatureRise,
}

estimates! {
    /// How hot, how long and how often.
    pub struct DutyAnswer / DutyEstimate / DutyNumber {
        /// Primary in steady state under constant load ([`RUNAWAY`] stands for anything above).
        primary_steady: Temperature [PrimarySteady, CELSIUS, "behaves-primary-steady"],
        /// New winding in steady state under constant load.
        winding_steady: Temperature [WindingSteady, CELSIUS, "behaves-winding-steady"],
        /// Core in steady state under constant load.
        core_steady: Temperature [CoreSteady, CELSIUS, "behaves-core-steady"],
        /// From cold until a hot spot reaches its limit ([`NEVER`] if it does not within a day).
        time_to_limit: Time [TimeToLimit, MIN, "behaves-time-to-limit"],
        /// Share of a 10-minute cycle that the load may be on continuously.
        permitted_duty: Ratio [PermittedDuty, PERCENT, "behaves-permitted-duty"],
        /// From the limit until everything is cool, switched off ([`NEVER`] if the air is warmer).
        cooling_time: Time [CoolingTime, MIN, "behaves-cooling-time"],
    }
}

impl ThermalInputs {
    /// How far the hottest spot is above the limit of its insulation, in kelvins.
    #[must_use]
    pub fn excess(&self, t: Temperatures, insulation: Insulation) -> TemperatureRise {
        let [primary, winding] = self.excesses(t, insulation);
        primary.max(winding)
    }

    /// The same for the primary and for the new winding.
    #[must_use]
    pub fn excesses(&self, t: Temperatures, insulation: Insulation) -> [TemperatureRise; 2] {
        let over = |mean: Temperature, class: ThermalClass| (mean + self.hot_spot.value).above(class.limit());
        [over(t.primary, insulation.primary), over(t.winding, insulation.winding)]
    }

    /// Mean temperatures at the end of a pulse of length `pulse` that repeats without end for a share `duty`
    /// of the time, searched from `near`; `None` where they run away. Within a pulse no heat is lost:
    /// the new winding of conductor section `section` swings by [`adiabatic_temperature`], half of that
    /// above the mean.
    #[must_use]
    pub fn pulsed(
        &self,
        question: &DutyQuestion,
        (pulse, duty): (Time, f64),
        section: Area,
        near: Option<Temperatures>,
    ) -> Option<Temperatures> {
        self.pulsed_in(&self.network(), question, (pulse, duty), section, near)
            .map(|(t, _)| t)
    }

    /// [`ThermalInputs::pulsed`] and the mean temperatures over pulse and pause.
    fn pulsed_in(
        &self,
        network: &Network,
        question: &DutyQuestion,
        (pulse, duty): (Time, f64),
        section: Area,
        near: Option<Temperatures>,
    ) -> Option<(Temperatures, Temperatures)> {
        let mean = question.on.averaged(Ratio::from_si(duty), &question.pause);
        let found = match near {
            Some(near) => network.steady_near(&mean, near),
            None => network.steady(&mean),
        }?;
        let density = question.on.winding / section;
        let after = adiabatic_temperature(self.winding.metal, density, pulse, found.winding);
        let swing = after.above(found.winding) * ((1.0 - duty) / 2.0);
        let end = Temperatures {
            winding: found.winding + swing,
            ..found
        };
        Some((end, found))
    }

    /// How long, how often, how hot, at the best inputs.
    #[must_use]
    pub fn duty(&self, question: &DutyQuestion) -> DutyAnswer {
        let warming = self.network().warming();
        let steady = warming.network.steady(&question.on);
        let permitted = Ratio::from_si(self.permitted(&warming, question, WELDING_CYCLE));
        self.answer(&warming, question, steady, permitted)
    }

    fn answer(
        &self,
        warming: &Warming,
        question: &DutyQuestion,
        steady: Option<Temperatures>,
        permitted_duty: Ratio,
    ) -> DutyAnswer {
        let steady = steady.unwrap_or(Temperatures::all(RUNAWAY));
        let cold = Temperatures::all(self.ambient.value);
        let excess = |t: Temperatures| self.excess(t, question.insulation).si();
        let reached = (excess(steady) >= 0.0)
            .then(|| warming.until(cold, &question.on, NEVER.si(), excess))
            .flatten();
        let (time, hot) = reached.map_or((NEVER, steady), |(time, hot)| (Time::from_si(time), hot));
        DutyAnswer {
            primary_steady: steady.primary,
            winding_steady: steady.winding,
            core_steady: steady.core,
            time_to_limit: time,
            permitted_duty,
            cooling_time: warming
                .cooling_time(hot, self.ambient.value + question.cool)
                .unwrap_or(NEVER),
        }
    }

    /// [`ThermalInputs::duty`] with uncertainty, and what each input adds to it. `None` only if
    /// the best inputs give no number.
    #[must_use]
    pub fn duty_with_uncertainty(
        &self,
        question: &DutyQuestion,
    ) -> Option<(DutyEstimate, Propagated<{ DutyAnswer::COUNT }>)> {
        let answers = propagate(self, |inputs| {
            let si = inputs.duty(question).to_si();
            si.iter().all(|v| v.is_finite()).then_some(si)
        })?;
        Some((DutyEstimate::from_propagated(&answers), answers))
    }

    /// The share of `period` that the load may be on, cycle after cycle, without the hottest
    /// spot passing its limit at the end of any load by more than 0.02 K; 0 to 1, to 0.01 %.
    #[must_use]
    pub fn permitted_duty(&self, question: &DutyQuestion, period: Time) -> Ratio {
        Ratio::from_si(self.permitted(&self.network().warming(), question, period))
    }

    fn permitted(&self, warming: &Warming, question: &DutyQuestion, period: Time) -> f64 {
        let mut guess = PeriodicGuess::default();
        largest_allowed(
            |duty| self.cycle_excess(warming, question, duty, period, &mut guess),
            1.0,
        )
    }

    /// How far the hottest spot is above its limit at the end of a load, the cycle repeating
    /// without end, in kelvins; infinite where it runs away.
    fn cycle_excess(
        &self,
        warming: &Warming,
        question: &DutyQuestion,
        duty: f64,
        period: Time,
        guess: &mut PeriodicGuess,
    ) -> f64 {
        warming
            .repeated_peak(question, Ratio::from_si(duty), period, guess)
            .map_or(f64::INFINITY, |t| self.excess(t, question.insulation).si())
    }

    /// How many pulses of length `pulse` a minute the windings withstand continuously, by
    /// [`ThermalInputs::pulsed`].
    #[must_use]
    pub fn pulses_a_minute(&self, question: &DutyQuestion, pulse: Time, section: Area) -> f64 {
        if pulse.si() <= 0.0 || section.si() <= 0.0 {
            return 0.0;
        }
        let network = self.network();
        let mut near = None;
        let over = |duty: f64| -> f64 {
            let Some((end, mean)) = self.pulsed_in(&network, question, (pulse, duty), section, near) else {
                return f64::INFINITY;
            };
            near = Some(mean);
            self.excess(end, question.insulation).si()
        };
        largest_allowed(over, 1.0) * 60.0 / pulse.si()
    }
}

/// The largest share of 0 to `most` at which a rising function is not above zero: regula falsi
/// where both ends are numbers (Illinois rule), halving where one is infinite.
fn largest_allowed(mut over: impl FnMut(f64) -> f64, most: f64) -> f64 {
    let (at_none, at_most) = (over(0.0), over(most));
    if at_none > 0.0 {
        return 0.0;
    }
    if at_most <= 0.0 {
        return most;
    }
    let mut bracket = Bracket::new((0.0, at_none), (most, at_most));
    for _ in 0..40 {
        if bracket.width() < 1e-4 * most.min(bracket.high) {
            break;
        }
        let share = if bracket.at_high.is_finite() {
            bracket.on_line()
        } else {
            bracket.middle()
        };
        let value = over(share);
        if value.abs() < 0.02 {
            return share;
        }
        bracket.narrow(share, value, value <= 0.0);
    }
    bracket.low
}
