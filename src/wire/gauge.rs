//! American Wire Gauge.

use crate::quantity::{Area, Length};

/// An AWG number; 1/0 to 4/0 are 0 to −3.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct AwgSize(i8);

/// The number is outside 4/0 to 40.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("AWG {0} is outside the range known here: 4/0 (written -3) to 40")]
pub struct AwgSizeOutOfRange(pub i8);

impl AwgSize {
    /// A gauge from its number, −3 (4/0) to 40.
    ///
    /// # Errors
    /// [`AwgSizeOutOfRange`] for any other number.
    pub const fn new(number: i8) -> Result<Self, AwgSizeOutOfRange> {
        if number < -3 || number > 40 {
            Err(AwgSizeOutOfRange(number))
        } else {
            Ok(Self(number))
        }
    }

    /// Bare diameter: `0.127 mm × 92^((36 − n)/39)` (ASTM B258).
    #[must_use]
    pub fn diameter(self) -> Length {
        Length::from_mm(0.127 * 92f64.powf((36.0 - f64::from(self.0)) / 39.0))
    }

    /// Bare section, π/4 d².
    #[must_use]
    pub fn area(self) -> Area {
        round_area(self.diameter())
    }

    /// "AWG 6", "AWG 2/0".
    #[must_use]
    pub fn label(self) -> String {
        format!("AWG {}", self.digits())
    }

    /// "6", "2/0".
    #[must_use]
    pub fn digits(self) -> String {
        if self.0 > 0 {
            self.0.to_string()
        } else {
            format!("{}/0", 1 - self.0)
        }
    }

    /// The gauge whose section is nearest to `area`, by ratio.
    #[must_use]
    pub fn nearest(area: Area) -> Self {
        let diameter_mm = (area.mm2() * 4.0 / std::f64::consts::PI).sqrt();
        let number = 36.0 - 39.0 * (diameter_mm / 0.127).ln() / 92f64.ln();
        Self(number.round().clamp(-3.0, 40.0) as i8)
    }
}

/// Section of a round wire, π/4 d².
pub(crate) fn round_area(diameter: Length) -> Area {
    diameter * diameter * std::f64::consts::FRAC_PI_4
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ASTM B258 diameters in millimetres.
    #[test]
    fn diameters_of_b258() {
        for (number, mm) in [
            (0, 8.251),
            (4, 5.189),
            (10, 2.588),
            (14, 1.628),
            (18, 1.024),
            (24, 0.5106),
            (30, 0.2546),
        ] {
            let got = AwgSize::new(number).unwrap().diameter().mm();
            assert!((got / mm - 1.0).abs() < 1e-3, "AWG {number}: {got} mm, table {mm} mm");
        }
    }

    #[test]
    fn nearest_finds_its_own_area_back() {
        for number in -3..=40 {
            let size = AwgSize::new(number).unwrap();
            assert_eq!(AwgSize::nearest(size.area()), size);
        }
        assert!(AwgSize::new(41).is_err());
        assert_eq!(AwgSize::new(-1).unwrap().label(), "AWG 2/0");
    }
}
