//! The core as one magnetic path seen from the tongue: steel pieces and gaps in series.

use std::sync::Arc;

use crate::magnetics::core::EiCore;
use crate::magnetics::core::gap::Gaps;
use crate::magnetics::core::steel::{LossCurve, Magnetisation, Steel};
use crate::magnetics::numeric::tabulated::TabulatedCurve;
use crate::quantity::{Area, Current, Flux, FluxDensity, Frequency, Length, Power, Reluctance, Turns, Voltage};

/// A stretch of steel of one section.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Piece {
    length: Length,
    /// Its flux density over the tongue's flux, in 1/m².
    per_flux: f64,
    kilograms: f64,
}

/// A core with its steel and gaps, ready to be asked for ampere-turns and loss at any flux.
///
/// The tongue carries the whole flux; yokes and outer limbs half of it each, with their own
/// sections and so their own flux densities. Lengths are those of [`EiCore::path_length`], split
/// at the corners. Flux across the windows is not part of it: see `tongue_flux`.
#[derive(Debug, Clone, PartialEq)]
pub struct CorePath {
    pieces: [Piece; 3],
    curves: Arc<(Magnetisation, LossCurve)>,
    gap: Reluctance,
    tongue_area: Area,
}

/// From a flux density of one tesla this reaches any flux that is finite.
const MOST_DOUBLINGS: u32 = 1100;

impl CorePath {
    /// The path of a core.
    #[must_use]
    pub fn new(core: &EiCore, steel: &Steel, gaps: &Gaps) -> Self {
        Self::with(core, Arc::new((steel.magnetisation(), steel.loss())), gaps)
    }

    /// The path of another core of the same steel.
    #[must_use]
    pub fn of_same_steel(&self, core: &EiCore, gaps: &Gaps) -> Self {
        Self::with(core, Arc::clone(&self.curves), gaps)
    }

    fn with(core: &EiCore, curves: Arc<(Magnetisation, LossCurve)>, gaps: &Gaps) -> Self {
        let upright = core.window_height.value + core.yoke.value;
        let yokes = 2.0 * (core.window_width.value + core.tongue.value / 4.0 + core.outer_limb.value / 2.0);
        // Volume of both halves of a piece that carries half the flux: its section counts twice.
        let volume = |length: Length, area: Area, share: f64| (length * area).si() / share;
        let parts = [
            (upright, core.net_area(), 1.0),
            (yokes, core.yoke_area(), 0.5),
            (upright, core.outer_limb_area(), 0.5),
        ];
        let whole: f64 = parts.iter().map(|(l, a, s)| volume(*l, *a, *s)).sum();
        let mass = core.steel_mass().si();
        Self {
            pieces: parts.map(|(length, area, share)| Piece {
                length,
                per_flux: share / area.si(),
                kilograms: mass * volume(length, area, share) / whole,
            }),
            curves,
            gap: gaps.reluctance(core),
            tongue_area: core.net_area(),
        }
    }

    /// Ampere-turns and their derivative to the flux (ampere-turns per weber) at a tongue flux.
    pub(crate) fn at(&self, flux: f64) -> (f64, f64) {
        let gap = self.gap.si();
        let (mut mmf, mut slope) = (gap * flux, gap);
        // In a usual core all pieces have the same flux density: it is looked up once.
        let (mut last, mut field) = (f64::NAN, (0.0, 0.0));
        for &Piece { length, per_flux, .. } in &self.pieces {
            if per_flux != last {
                (last, field) = (per_flux, self.curves.0.at(flux * per_flux));
            }
            mmf += field.0 * length.si();
            slope += field.1 * per_flux * length.si();
        }
        (mmf, slope)
    }

    /// Tongue flux while a coil links `linked` webers a turn, of which `leakage` (webers for each ampere-turn)
    /// crosses the window: `Φ + P F(Φ) = linked`, by Newton's method from above, where it
    /// cannot overshoot as the ampere-turns rise ever faster.
    pub(crate) fn tongue_flux(&self, linked: f64, leakage: f64) -> f64 {
        let mut flux = linked;
        if leakage <= 0.0 {
            return flux;
        }
        for _ in 0..60 {
            let (mmf, slope) = self.at(flux);
            let step = (flux + leakage * mmf - linked) / (1.0 + leakage * slope);
            flux -= step;
            if step.abs() <= 1e-9 * linked.abs() {
                break;
            }
        }
        flux
    }

    /// The same up to a flux, laid down once for many evaluations.
    pub(crate) fn tabulated(&self, most: f64) -> TabulatedCurve {
        TabulatedCurve::through(most, |flux| self.at(flux))
    }

    /// Ampere-turns (amperes in one turn) that drive a flux through the tongue.
    #[must_use]
    pub fn ampere_turns(&self, flux: Flux) -> Current {
        Current::from_si(self.at(flux.si()).0)
    }

    /// Flux of the tongue that ampere-turns drive: the inverse of [`CorePath::ampere_turns`], by
    /// Newton's method kept in a bracket, to 1e-12 of the ampere-turns; not a number where they
    /// aren't finite, or no flux drives so many (a core without area).
    #[must_use]
    pub fn flux(&self, ampere_turns: Current) -> Flux {
        let size = ampere_turns.si().abs();
        if !size.is_finite() {
            return Flux::from_si(f64::NAN);
        }
        let (mut low, mut high) = (0.0, self.tongue_area.si());
        let mut doublings = 0;
        while self.at(high).0 < size {
            (low, high) = (high, high * 2.0);
            doublings += 1;
            if doublings > MOST_DOUBLINGS {
                return Flux::from_si(f64::NAN);
            }
        }
        let mut flux = 0.5 * (low + high);
        for _ in 0..200 {
            let (mmf, slope) = self.at(flux);
            if mmf > size {
                high = flux;
            } else {
                low = flux;
            }
            if (mmf - size).abs() <= 1e-12 * size {
                break;
            }
            let newton = flux - (mmf - size) / slope;
            flux = if newton > low && newton < high {
                newton
            } else {
                0.5 * (low + high)
            };
        }
        Flux::from_si(flux.copysign(ampere_turns.si()))
    }

    /// Flux density of the tongue at a flux.
    #[must_use]
    pub fn tongue_density(&self, flux: Flux) -> FluxDensity {
        flux / self.tongue_area
    }

    /// Core loss at a sinusoidal flux of this peak in the tongue, each piece at its own density.
    #[must_use]
    pub fn core_loss(&self, flux: Flux, frequency: Frequency) -> Power {
        let watts = self.pieces.iter().map(|piece| {
            let density = FluxDensity::from_si(flux.si() * piece.per_flux);
            self.curves.1.at(density, frequency).si() * piece.kilograms
        });
        Power::from_si(watts.sum())
    }
}

/// Peak flux of a winding at a sinusoidal voltage, `Φ = √2 V / (2π f N)`: the EMF equation
/// `V = 4.44 f N Φ` of any machines textbook.
#[must_use]
pub fn peak_flux(volts_rms: Voltage, frequency: Frequency, turns: Turns) -> Flux {
    Flux::from_si(std::f64::consts::SQRT_2 * volts_rms.si() / (frequency.angular() * turns.si()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Measured, Origin};

    /// The pieces agree with the curve that they are laid through.
    #[test]
    fn tabulated_is_the_same_path() {
        let mm = |v: f64| Measured::exact(Length::from_mm(v), Origin::Calipers);
        let core = EiCore::new(mm(32.0), mm(60.0), mm(17.0), mm(50.0));
        let path = CorePath::new(&core, &Steel::UNKNOWN, &Gaps::REASSEMBLED);
        let laid = path.tabulated(5e-3);
        for k in 1..400 {
            let flux = f64::from(k) * 1.3e-5;
            let ((mmf, slope), (near, near_slope)) = (path.at(flux), laid.at(flux));
            assert!((near / mmf - 1.0).abs() < 2e-3, "{flux}: {near} for {mmf}");
            // The slope is only an aid to Newton's method and to the air's share.
            assert!(
                (near_slope / slope - 1.0).abs() < 0.1,
                "{flux}: {near_slope} for {slope}"
            );
            assert_eq!(laid.at(-flux).0, -near);
        }
    }
}
