//! The first current peak when a transformer is switched on.

use std::f64::consts::{SQRT_2, TAU};

use super::core::EiCore;
use super::gap::Gaps;
use super::laid_down::LaidDown;
use super::path::{CorePath, peak_flux};
use super::steel::{MU_0, Steel};
use crate::quantity::{
    Angle, Area, Current, FluxDensity, Frequency, Measured, Propagated, Ratio, Resistance, Turns, UncertainInputs,
    Voltage, estimates, first_order,
};

/// Steps of the integration in one cycle; the peak is the same to 0.1 % with twice as many.
const STEPS: usize = 800;

/// What the inrush follows from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Inrush {
    /// The core.
    pub core: EiCore,
    /// Its steel.
    pub steel: Steel,
    /// Its gaps.
    pub gaps: Gaps,
    /// Turns of the winding that is switched on.
    pub turns: Measured<Turns>,
    /// Mains voltage, r.m.s.
    pub voltage: Measured<Voltage>,
    /// Its frequency.
    pub frequency: Frequency,
    /// Resistance of the loop: the winding, its cord and the mains.
    pub resistance: Measured<Resistance>,
    /// Flux that the last switching-off left, over the peak flux of normal running; as a flux
    /// density no steel here keeps more than some 1.4 T.
    pub remanence: Measured<Ratio>,
}

/// Remanence of a welded E-I core: 0.6 ± 0.3 of the running peak. Common practice, no source:
/// 0.3 to 0.9 for butt-jointed laminations; a gap of a few tenths of a millimetre brings it
/// near zero.
#[must_use]
pub fn typical_remanence() -> Measured<Ratio> {
    Measured::new(
        Ratio::from_si(0.6),
        Ratio::from_si(0.3),
        crate::quantity::Origin::Typical,
    )
}

estimates! {
    /// The first peak at the worst instant of closing.
    pub struct FirstPeak / FirstPeakEstimate {
        /// The peak.
        peak: Current,
        /// Flux density in the tongue at it.
        density: FluxDensity,
        /// When the switch closed, from the zero of the rising voltage.
        closing_angle: Angle,
    }
}

impl Inrush {
    /// The first peak when the switch closes at an angle after the voltage's rising zero.
    ///
    /// `dλ/dt = √2 V sin(ωt + α) − R i`, with `λ = N Φ + L_air i` and `N i` from the core's path:
    /// [`STEPS`] fixed steps of the fourth-order Runge–Kutta method over 1.25 cycles, the
    /// remanence added to the flux in the direction that the first half-wave drives. `L_air` is
    /// the flux between tongue and mean turn, `μ₀ N² (A_turn − A_tongue) / window height`, which
    /// leaves out the field's way back and what spreads at the coil's ends; the steel above its
    /// table goes on with μ₀ round its closed path. The peak errs to the high side.
    ///
    /// Returns `None` unless voltage, frequency and turns are above zero and all is finite.
    #[must_use]
    pub fn first_peak(&self, closing: Angle) -> Option<FirstPeak> {
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let peak = self.integrate(&self.laid_down(&path), closing.si())?;
        Some(FirstPeak {
            density: path.tongue_density(path.flux(peak * self.turns.value.si())),
            peak,
            closing_angle: closing,
        })
    }

    /// The first peak at the worst closing angle, searched in steps of 15° and then 3°.
    #[must_use]
    pub fn worst_first_peak(&self) -> Option<FirstPeak> {
        let path = self.laid_down(&CorePath::new(&self.core, &self.steel, &self.gaps));
        let degrees = TAU / 360.0;
        let mut worst: Option<(Current, f64)> = None;
        let mut look = |angle: f64| -> Option<f64> {
            let peak = self.integrate(&path, angle)?;
            if worst.is_none_or(|(most, _)| peak > most) {
                worst = Some((peak, angle));
            }
            worst.map(|(_, at)| at)
        };
        let mut centre = 0.0;
        for step in -6..=6 {
            centre = look(f64::from(step) * 15.0 * degrees)?;
        }
        for step in [-4, -3, -2, -1, 1, 2, 3, 4] {
            look(centre + f64::from(step) * 3.0 * degrees)?;
        }
        worst.and_then(|(_, angle)| self.first_peak(Angle::from_si(angle)))
    }

    /// [`Inrush::worst_first_peak`] with its uncertainty. `None` as there.
    #[must_use]
    pub fn worst_first_peak_with_uncertainty(&self) -> Option<(FirstPeakEstimate, Propagated<{ FirstPeak::COUNT }>)> {
        // The angle of the best inputs stands for all: at the worst angle the peak is stationary.
        let angle = self.worst_first_peak()?.closing_angle;
        let spread = first_order(self, |inrush| inrush.first_peak(angle).map(|peak| peak.to_si()))?;
        Some((FirstPeakEstimate::from_propagated(&spread), spread))
    }

    /// Permeance in H of the air inside the mean turn and outside the tongue's steel.
    fn air_permeance(&self) -> f64 {
        let away = self.core.window_width.value / 2.0;
        let (tongue, stack) = (self.core.tongue.value, self.core.stack.value);
        let turn: Area = tongue * stack + 2.0 * (away * (tongue + stack)) + std::f64::consts::PI * (away * away);
        MU_0 * (turn - self.core.net_area()).si().max(0.0) / self.core.window_height.value.si()
    }

    /// The path up to the most flux that a first peak can have: the whole swing on top of what
    /// was left.
    fn laid_down(&self, path: &CorePath) -> LaidDown {
        let running = peak_flux(self.voltage.value, self.frequency, self.turns.value).si();
        path.laid_down(running * (2.2 + self.remanence.value.si().abs()))
    }

    fn integrate(&self, path: &LaidDown, closing: f64) -> Option<Current> {
        let (turns, ohms) = (self.turns.value.si(), self.resistance.value.si());
        let omega = self.frequency.angular();
        let crest = SQRT_2 * self.voltage.value.si();
        let air = self.air_permeance();
        let rate = |time: f64, flux: f64| {
            let (mmf, slope) = path.at(flux);
            (crest * (omega * time + closing).sin() - ohms * mmf / turns) / (turns * (1.0 + air * slope))
        };
        let running = peak_flux(self.voltage.value, self.frequency, self.turns.value).si();
        let mut flux = running * self.remanence.value.si();
        let step = 1.0 / (self.frequency.si() * STEPS as f64);
        let mut most: f64 = 0.0;
        for count in 0..STEPS + STEPS / 4 {
            let time = count as f64 * step;
            let k1 = rate(time, flux);
            let k2 = rate(time + step / 2.0, flux + k1 * step / 2.0);
            let k3 = rate(time + step / 2.0, flux + k2 * step / 2.0);
            let k4 = rate(time + step, flux + k3 * step);
            flux += step / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
            most = most.max(path.at(flux).0 / turns);
        }
        (most.is_finite() && most > 0.0 && flux.is_finite()).then(|| Current::from_si(most))
    }
}

impl UncertainInputs for Inrush {
    fn visit(&mut self, visitor: &mut dyn FnMut(&'static str, &mut f64, f64)) {
        self.core.visit(visitor);
        self.steel.visit(visitor);
        self.gaps.visit(visitor);
        self.turns.visit("turns", visitor);
        self.voltage.visit("mains voltage", visitor);
        self.resistance.visit("loop resistance", visitor);
        self.remanence.visit("remanence", visitor);
    }
}

/// Instant-trip class of a household breaker.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum BreakerCurve {
    /// Trips at once between 3 and 5 times its rating.
    B,
    /// Between 5 and 10 times.
    C,
    /// Between 10 and 20 times.
    D,
}

impl BreakerCurve {
    /// The three classes, quickest first.
    pub const ALL: [BreakerCurve; 3] = [Self::B, Self::C, Self::D];

    /// Multiples of the rating (r.m.s.) below which it must not, and above which it must, trip
    /// at once. IEC 60898-1, from memory: check your local code and the breaker's own sheet.
    #[must_use]
    pub const fn instant_trip(self) -> (f64, f64) {
        match self {
            Self::B => (3.0, 5.0),
            Self::C => (5.0, 10.0),
            Self::D => (10.0, 20.0),
        }
    }

    /// What it does at a first peak, rated for `rating`. The limits are r.m.s. values; a
    /// sinusoid's crest is √2 times that, and the peak is compared with the crest.
    #[must_use]
    pub fn at_first_peak(self, rating: Current, peak: Current) -> Tripping {
        let (holds, trips) = self.instant_trip();
        let times = peak.si() / (SQRT_2 * rating.si());
        if times <= holds {
            Tripping::Holds
        } else if times <= trips {
            Tripping::MayTrip
        } else {
            Tripping::Trips
        }
    }

    /// The quickest class that holds a first peak at this rating; `None` where not even D does.
    #[must_use]
    pub fn that_holds(rating: Current, peak: Current) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|curve| curve.at_first_peak(rating, peak) == Tripping::Holds)
    }
}

/// What a breaker does at switching on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Tripping {
    /// Below the range: it must hold.
    Holds,
    /// Within the range: one breaker holds, another trips.
    MayTrip,
    /// Above the range: it trips when the switch closes at a bad instant.
    Trips,
}
