//! The first current peak when a transformer is switched on.

use std::f64::consts::{SQRT_2, TAU};

use crate::magnetics::core::EiCore;
use crate::magnetics::core::gap::Gaps;
use crate::magnetics::core::path::{CorePath, peak_flux};
use crate::magnetics::core::steel::{MU_0, Steel};
use crate::magnetics::numeric::tabulated::TabulatedCurve;
use crate::quantity::{
    Angle, Area, Current, FieldStrength, Flux, FluxDensity, Frequency, Input, Measured, Origin, Propagated, Ratio,
    Resistance, Turns, UncertainInputs, Visitor, Voltage, estimates, propagate,
};

/// Steps of the integration in one cycle.
const STEPS: usize = 40;

/// How many shorter ones each is cut into, by the share of the voltage that the current takes: the
/// peak is then within 0.5 % of that by far shorter steps.
const fn cuts(share: f64) -> u32 {
    match share {
        s if s < 0.002 => 1,
        s if s < 0.02 => 3,
        s if s < 0.1 => 6,
        _ => 12,
    }
}

/// The most that a step is cut into: a core that needs more is no core.
const MOST_CUTS: f64 = 500.0;

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

/// What a core keeps of its flux when it is switched off.
#[derive(Debug, Clone, Copy)]
struct Remaining {
    core: EiCore,
    gaps: Gaps,
    /// Peak flux density of normal running.
    running: FluxDensity,
    /// Flux density that a core without gaps keeps, over the running peak.
    closed: Measured<Ratio>,
    coercivity: Measured<FieldStrength>,
}

impl Remaining {
    fn ratio(&self) -> f64 {
        let closed = self.closed.value.si().clamp(0.0, 1.0) * self.running.si();
        // Ampere-turns that a tesla in the tongue takes in the gaps, and that the steel can give.
        let asked = self.gaps.reluctance(&self.core).si() * self.core.net_area().si();
        let given = self.coercivity.value.si().max(1.0) * self.core.path_length().si();
        let left = closed / (1.0 + closed * asked / given);
        if self.running.si() > 0.0 {
            left / self.running.si()
        } else {
            0.0
        }
    }
}

impl UncertainInputs for Remaining {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.gaps.visit(visitor);
        self.closed.visit(Input::Remanence, visitor);
        self.coercivity.visit(Input::Coercivity, visitor);
    }
}

/// Remanence of a core with these gaps, over the running peak.
///
/// With no current the gaps' ampere-turns are those of the steel, reversed. Its curve from remanence
/// to coercivity is taken as straight, so that `B = Br / (1 + Br R A / (Hc l))`: any textbook of magnetic
/// circuits, the load line of a gap. Without gaps 0.75 ± 0.2 of the running peak (0.8 to 1.3 T of
/// 1.5 T), coercivity 70 ± 35 A/m: non-oriented steel, common practice, no source.
#[must_use]
pub fn remanence_of(core: &EiCore, gaps: &Gaps, running: FluxDensity) -> Measured<Ratio> {
    let typical = Origin::Typical;
    let remaining = Remaining {
        core: *core,
        gaps: *gaps,
        running,
        closed: Measured::new(Ratio::from_si(0.75), Ratio::from_si(0.2), typical),
        coercivity: Measured::new(FieldStrength::from_si(70.0), FieldStrength::from_si(35.0), typical),
    };
    let spread = propagate(&remaining, |remaining| Some([remaining.ratio()]));
    let half = spread.map_or(0.0, |spread| 2.0 * spread.sigma[0]);
    Measured::new(
        Ratio::from_si(remaining.ratio()),
        Ratio::from_si(half),
        Origin::Computed,
    )
}

estimates! {
    /// The first peak at the worst instant of closing.
    pub struct FirstPeak / FirstPeakEstimate / FirstPeakNumber {
        /// The peak.
        peak: Current [Peak, A, "behaves-inrush-peak"],
        /// Flux density in the tongue at it.
        density: FluxDensity [Density, T, "behaves-inrush-density"],
        /// When the switch closed, from the zero of the rising voltage.
        closing_angle: Angle,
    }
}

impl Inrush {
    /// The same with the remanence that its core, gaps and running flux leave: [`remanence_of`].
    #[must_use]
    pub fn remembering(mut self) -> Self {
        let running = peak_flux(self.voltage.value, self.frequency, self.turns.value) / self.core.net_area();
        self.remanence = remanence_of(&self.core, &self.gaps, running);
        self
    }

    /// The first peak when the switch closes at an angle after the voltage's rising zero.
    ///
    /// `dλ/dt = √2 V sin(ωt + α) − R i`, with `λ = N Φ + L_air i` and `N i` from the core's path:
    /// fixed steps of the fourth-order Runge–Kutta method to the crest of the
    /// flux (the higher one within 1.25 cycles), by a cubic through the last step, the
    /// remanence added to the flux in the direction that the first half-wave drives. `L_air` is
    /// the flux between tongue and mean turn, `μ₀ N² (A_turn − A_tongue) / window height`, which
    /// leaves out the field's way back and what spreads at the coil's ends; the steel above its
    /// table goes on with μ₀ round its closed path. The peak errs to the high side.
    ///
    /// Returns `None` unless voltage, frequency and turns are above zero and all is finite, and where the
    /// current follows the voltage within a microsecond: there is no first peak then.
    #[must_use]
    pub fn first_peak(&self, closing: Angle) -> Option<FirstPeak> {
        self.first_peak_on(&self.switching(), closing)
    }

    /// [`Inrush::first_peak`] with the core's path laid down before, for this core or one near it
    /// that differs in more than the path (then it is laid down anew).
    #[must_use]
    pub fn first_peak_on(&self, switching: &Switching, closing: Angle) -> Option<FirstPeak> {
        let own;
        let switching = if switching.serves(self) {
            switching
        } else {
            own = self.switching();
            &own
        };
        let (path, laid) = (&switching.path, &switching.laid);
        let flux = self.integrate(laid, closing.si())?;
        Some(FirstPeak {
            density: path.tongue_density(Flux::from_si(flux)),
            peak: Current::from_si(laid.at(flux).0 / self.turns.value.si()),
            closing_angle: closing,
        })
    }

    /// The first peak at the worst closing angle, searched in steps of 30° and then by parabolas,
    /// to 2°, where the peak hardly changes.
    #[must_use]
    pub fn worst_first_peak(&self) -> Option<FirstPeak> {
        self.worst_first_peak_on(&self.switching())
    }

    /// [`Inrush::worst_first_peak`] with the core's path laid down before.
    #[must_use]
    pub fn worst_first_peak_on(&self, switching: &Switching) -> Option<FirstPeak> {
        let degrees = TAU / 360.0;
        let look = |degrees_after: f64| self.first_peak_on(switching, Angle::from_si(degrees_after * degrees));
        let (mut worst, mut centre) = (look(0.0)?, 0.0);
        for angle in [-60.0, -30.0, 30.0, 60.0] {
            let found = look(angle)?;
            if found.peak > worst.peak {
                (worst, centre) = (found, angle);
            }
        }
        let mut reach = 15.0;
        while reach > 1.0 {
            let (left, right) = (look(centre - reach)?, look(centre + reach)?);
            let (down, up) = ((worst.peak - left.peak).si(), (worst.peak - right.peak).si());
            // The crest of the parabola through the three, kept between the outer two.
            let bend = down + up;
            let to = if bend > 0.0 {
                ((down - up) / (2.0 * bend)).clamp(-1.0, 1.0) * -reach
            } else {
                reach.copysign(down - up)
            };
            for (angle, found) in [
                (centre - reach, left),
                (centre + reach, right),
                (centre + to, look(centre + to)?),
            ] {
                if found.peak > worst.peak {
                    (worst, centre) = (found, angle);
                }
            }
            reach /= 4.0;
        }
        Some(worst)
    }

    /// [`Inrush::worst_first_peak`] with its uncertainty. `None` as there.
    #[must_use]
    pub fn worst_first_peak_with_uncertainty(&self) -> Option<(FirstPeakEstimate, Propagated<{ FirstPeak::COUNT }>)> {
        let switching = self.switching();
        // The angle of the best inputs stands for all: at the worst angle the peak is stationary.
        let angle = self.worst_first_peak_on(&switching)?.closing_angle;
        let spread = propagate(self, |inrush| {
            inrush.first_peak_on(&switching, angle).map(|peak| peak.to_si())
        })?;
        Some((FirstPeakEstimate::from_propagated(&spread), spread))
    }

    /// Permeance in H of the air inside the mean turn and outside the tongue's steel.
    fn air_permeance(&self) -> f64 {
        let away = self.core.window_width.value / 2.0;
        let (tongue, stack) = (self.core.tongue.value, self.core.stack.value);
        let turn: Area = tongue * stack + 2.0 * (away * (tongue + stack)) + std::f64::consts::PI * (away * away);
        MU_0 * (turn - self.core.net_area()).si().max(0.0) / self.core.window_height.value.si()
    }

    /// The core's path laid down, for this inrush and those that differ in voltage, turns,
    /// resistance or remanence.
    #[must_use]
    pub fn switching(&self) -> Switching {
        let path = CorePath::new(&self.core, &self.steel, &self.gaps);
        let most = self.most_flux() * 1.1;
        Switching {
            of: (self.core, self.steel, self.gaps),
            laid: path.tabulated(most),
            path,
            most,
        }
    }

    /// The most flux that a first peak can have: the whole swing on top of what was left.
    fn most_flux(&self) -> f64 {
        let running = peak_flux(self.voltage.value, self.frequency, self.turns.value).si();
        running * (2.2 + self.remanence.value.si().abs())
    }

    /// The flux at the first crest, in Wb.
    fn integrate(&self, path: &TabulatedCurve, closing: f64) -> Option<f64> {
        let (turns, ohms) = (self.turns.value.si(), self.resistance.value.si());
        let omega = self.frequency.angular();
        let crest = SQRT_2 * self.voltage.value.si();
        let air = self.air_permeance();
        let rate = |volts: f64, flux: f64| {
            let (mmf, slope) = path.at(flux);
            (volts - ohms * mmf / turns) / (turns * (1.0 + air * slope))
        };
        let running = peak_flux(self.voltage.value, self.frequency, self.turns.value).si();
        let mut flux = running * self.remanence.value.si();
        let offset = flux + running * closing.cos();
        let step = 1.0 / (self.frequency.si() * STEPS as f64);
        let volts = |time: f64| crest * (omega * time + closing).sin();
        let mut k1 = rate(volts(0.0), flux);
        let (mut rising, mut most) = (false, 0.0_f64);
        for count in 0..STEPS + STEPS / 4 {
            let (here, there) = (path.at(flux), path.at(flux + k1 * step));
            let ahead = there.0.abs().max(here.0.abs());
            // How fast a departure dies away: far above the knee, or behind much resistance, an explicit
            // method diverges on longer steps than its reciprocal (2.8 of it for this one).
            let slope = here.1.max(there.1);
            let stiffness = step * ohms * slope / (turns * turns * (1.0 + air * slope));
            let least = stiffness.ceil();
            if least.is_nan() || least > MOST_CUTS {
                return None;
            }
            let cut = cuts(ohms * ahead / (turns * crest)).max(least as u32);
            let h = step / f64::from(cut);
            for part in 0..cut {
                let time = step * count as f64 + h * f64::from(part);
                let (middle, end) = (volts(time + h / 2.0), volts(time + h));
                let k2 = rate(middle, flux + k1 * h / 2.0);
                let k3 = rate(middle, flux + k2 * h / 2.0);
                let k4 = rate(end, flux + k3 * h);
                let next = flux + h / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
                let after = rate(end, next);
                rising |= k1 > 1e-9 * crest / turns;
                most = most.max(next);
                if rising && after <= 0.0 {
                    // The cubic through both ends with their rates, where the rate passes zero.
                    let part = if k1 > 0.0 { k1 / (k1 - after) } else { 0.0 };
                    let (rise, s) = (next - flux, 1.0 - part);
                    let bow = (k1 * h - rise) * s + (rise - after * h) * part;
                    most = most.max(s * flux + part * next + part * s * bow);
                    rising = false;
                    // A flux that swings about much more than zero sinks from crest to crest.
                    if offset >= 0.4 * running {
                        return most.is_finite().then_some(most);
                    }
                }
                (flux, k1) = (next, after);
            }
        }
        (most.is_finite() && most > 0.0).then_some(most)
    }
}

/// A core's path laid down for many first peaks.
#[derive(Debug, Clone)]
pub struct Switching {
    of: (EiCore, Steel, Gaps),
    path: CorePath,
    laid: TabulatedCurve,
    most: f64,
}

impl Switching {
    fn serves(&self, inrush: &Inrush) -> bool {
        self.of == (inrush.core, inrush.steel, inrush.gaps) && inrush.most_flux() <= self.most
    }
}

impl UncertainInputs for Inrush {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.core.visit(visitor);
        self.steel.visit(visitor);
        self.gaps.visit(visitor);
        self.turns.visit(Input::Turns, visitor);
        self.voltage.visit(Input::MainsVoltage, visitor);
        self.resistance.visit(Input::LoopResistance, visitor);
        self.remanence.visit(Input::Remanence, visitor);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::magnetics::core::steel_grades::SteelGrade;
    use crate::quantity::Length;

    /// The crest of the flux by 40,000 equal steps a cycle of Heun's method (any text on numerical
    /// analysis), over the path itself.
    fn by_small_steps(inrush: &Inrush, closing: f64) -> f64 {
        let path = CorePath::new(&inrush.core, &inrush.steel, &inrush.gaps);
        let laid = path.tabulated(inrush.most_flux() * 1.1);
        let (turns, air) = (inrush.turns.value.si(), inrush.air_permeance());
        let running = peak_flux(inrush.voltage.value, inrush.frequency, inrush.turns.value).si();
        let h = 1.0 / (40_000.0 * inrush.frequency.si());
        let rate = |time: f64, flux: f64| {
            let (mmf, slope) = laid.at(flux);
            let volts = SQRT_2 * inrush.voltage.value.si() * (inrush.frequency.angular() * time + closing).sin();
            (volts - inrush.resistance.value.si() * mmf / turns) / (turns * (1.0 + air * slope))
        };
        let mut flux = running * inrush.remanence.value.si();
        let mut most = 0.0_f64;
        for k in 0..50_000 {
            let time = h * f64::from(k);
            let first = rate(time, flux);
            let second = rate(time + h, flux + h * first);
            flux += h * f64::midpoint(first, second);
            most = most.max(flux);
        }
        laid.at(most).0 / turns
    }

    /// What a second opinion found by its own load line: with 0.06 mm at each face about a tenth of the
    /// running peak remains. And the ends: no gap keeps what the steel keeps; a wide one keeps next to
    /// nothing, which textbooks say of a gap of some tenths of a millimetre.
    #[test]
    fn a_gap_lets_little_remain() {
        let mm = |mm: f64| Measured::exact(Length::from_mm(mm), Origin::Calipers);
        let core = EiCore::new(mm(35.0), mm(60.0), mm(18.0), mm(55.0));
        let keeps = |gaps: &Gaps| remanence_of(&core, gaps, FluxDensity::from_si(1.6));
        let reassembled = keeps(&Gaps::REASSEMBLED);
        assert!((0.06..0.14).contains(&reassembled.value.si()), "{reassembled:?}");
        assert!(reassembled.plus_minus.si() > 0.05, "{reassembled:?}");
        assert!((keeps(&Gaps::NONE).value.si() - 0.75).abs() < 1e-9);
        assert!(keeps(&Gaps::NONE.with_shim(mm(0.4))).value.si() < 0.02);
        let welded = keeps(&Gaps::WELDED).value.si();
        assert!(welded > 1.5 * reassembled.value.si() && welded < 0.5, "{welded}");
    }

    #[test]
    fn long_steps_find_the_crest_of_short_ones() {
        let mm = |mm: f64| Measured::exact(Length::from_mm(mm), Origin::Calipers);
        for (grade, ohms, remanence, gaps) in [
            (SteelGrade::M400_50A, 0.1, 0.6, Gaps::NONE),
            (SteelGrade::M530_50A, 0.5, 0.9, Gaps::REASSEMBLED),
            (SteelGrade::M800_50A, 2.0, 0.3, Gaps::NONE),
            (SteelGrade::M19, 8.0, 0.0, Gaps::REASSEMBLED),
            (SteelGrade::M530_50A, 0.02, 0.8, Gaps::NONE),
        ] {
            let inrush = Inrush {
                core: EiCore::new(mm(36.0), mm(60.0), mm(18.0), mm(54.0)),
                steel: Steel::exactly(grade),
                gaps,
                turns: Measured::exact(Turns::from_si(210.0), Origin::Counted),
                voltage: Measured::exact(Voltage::from_si(230.0), Origin::Meter),
                frequency: Frequency::from_si(50.0),
                resistance: Measured::exact(Resistance::from_si(ohms), Origin::Meter),
                remanence: Measured::exact(Ratio::from_si(remanence), Origin::Typical),
            };
            for degrees in [-60.0, -20.0, 0.0, 30.0, 75.0, 90.0] {
                let angle = Angle::from_degrees(degrees);
                let peak = inrush.first_peak(angle).unwrap().peak.si();
                let fine = by_small_steps(&inrush, angle.si());
                assert!(
                    (peak / fine - 1.0).abs() < 5e-3,
                    "{grade:?} {ohms} Ω {degrees}°: {peak} for {fine}"
                );
            }
        }
    }
}
