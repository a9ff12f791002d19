//! A diode's exponential law, and the straight line that stands for it in a rectifier.

use crate::magnetics::rectifier::{DiodeLine, Rectifier, RectifierAnswer, RectifierError};
use crate::quantity::{Current, Measured, Origin, Resistance, Temperature, Voltage};

/// Shockley's law with a series resistance, `v = n (kT/q) ln(1 + i/I_s) + R i`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DiodeLaw {
    /// Saturation current `I_s`.
    pub saturation: Current,
    /// Emission coefficient n, 1 to 2.
    pub emission: f64,
    /// Series resistance R.
    pub series: Resistance,
    /// Temperature of the junction.
    pub junction: Temperature,
}

impl DiodeLaw {
    /// Forward voltage at a current (at zero for currents below it).
    #[must_use]
    pub fn forward(&self, current: Current) -> Voltage {
        let i = current.si().max(0.0);
        let thermal = BOLTZMANN_OVER_CHARGE * self.junction.kelvins();
        Voltage::from_si(self.emission * thermal * (i / self.saturation.si()).ln_1p() + self.series.si() * i)
    }

    /// The line that meets the law at `peak` and at a quarter of it: the two currents between
    /// which most of a pulse's charge flows. Between them the law lies above it by at most
    /// 0.16 n kT/q, some 7 mV; the choice is ours.
    #[must_use]
    pub fn line(&self, peak: Current) -> DiodeLine {
        let low = peak / 4.0;
        let slope = (self.forward(peak).si() - self.forward(low).si()) / (peak.si() - low.si());
        let threshold = self.forward(peak).si() - slope * peak.si();
        DiodeLine {
            threshold: Measured::exact(Voltage::from_si(threshold), Origin::Computed),
            slope: Measured::exact(Resistance::from_si(slope), Origin::Computed),
        }
    }
}

/// Boltzmann's constant over the charge of an electron, V/K (exact since the SI of 2019).
const BOLTZMANN_OVER_CHARGE: f64 = 1.380_649e-23 / 1.602_176_634e-19;

impl Rectifier {
    /// The steady state with diodes that follow `law`: the line is laid again through the peak
    /// current found until that moves by less than 0.1 %. The rectifier's own
    /// [`Rectifier::diode`] is not used. Returns the line as well.
    ///
    /// # Errors
    /// As [`Rectifier::steady`]; [`RectifierError::NotPositive`] for a saturation current or
    /// emission coefficient at or below zero.
    pub fn steady_with_law(&self, law: &DiodeLaw) -> Result<(RectifierAnswer, DiodeLine), RectifierError> {
        if !(law.saturation.si() > 0.0 && law.saturation.is_finite()) {
            return Err(RectifierError::NotPositive("saturation current"));
        }
        if !(law.emission > 0.0 && law.emission.is_finite()) {
            return Err(RectifierError::NotPositive("emission coefficient"));
        }
        let mut peak = Current::from_si(1.0);
        let mut found = None;
        for _ in 0..12 {
            let line = law.line(peak);
            let answer = Self { diode: line, ..*self }.steady()?;
            found = Some((answer, line));
            let now = answer.peak_current;
            if now <= Current::ZERO || (now / peak - 1.0).abs() < 1e-3 {
                break;
            }
            peak = now;
        }
        found.ok_or(RectifierError::NoSteadyState)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 60 mV a decade at room temperature for n = 1 (2.303 kT/q = 59.5 mV at 26.85 °C; any
    /// text on semiconductors).
    #[test]
    fn sixty_millivolts_a_decade() {
        let law = DiodeLaw {
            saturation: Current::from_si(1e-14),
            emission: 1.0,
            series: Resistance::ZERO,
            junction: Temperature::from_si(26.85),
        };
        let rise = law.forward(Current::from_si(1.0)) - law.forward(Current::from_si(0.1));
        assert!((rise.mv() - 59.5).abs() < 0.1, "{} mV", rise.mv());
        let line = law.line(Current::from_si(8.0));
        for amps in [2.0, 8.0] {
            let on_line = line.threshold.value + line.slope.value * Current::from_si(amps);
            assert!((on_line - law.forward(Current::from_si(amps))).abs().si() < 1e-12);
        }
    }
}
