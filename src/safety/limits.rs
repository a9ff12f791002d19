//! Limits that decide what the app refuses. They come from secondary pages (R2), so the app shows
//! them with "check your local code".

use crate::quantity::{Charge, Voltage};

/// Stored charge above which a part that can be touched counts as live, 45 µC for 450 V to
/// 15 kV (IEC 60335-1, 8.1.4; R2: manufacturers' test manuals).
pub const CHARGE_LIMIT: Charge = Charge::from_si(45e-6);

/// Most direct voltage, in volts, that a touchable part may keep: 42.4 V (IEC 60335-1, 8.1.4, the
/// standard of household appliances; R2: manufacturers' test manuals). IEC 61010-1 and IEC 62368-1
/// allow 60 V dry, which is not enough here.
const MOST_VOLTS: f64 = 42.4;

/// The direct voltage below which a capacitor counts as discharged.
///
/// A person can make it stricter for the local code, not laxer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TouchLimit(Voltage);

/// Why a touch limit is refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{volts} V cannot be the touch limit: give more than 0 V and at most 42.4 V d.c. (check your local code)")]
pub struct LimitError {
    /// The voltage that was asked for, in volts.
    pub volts: f64,
}

impl TouchLimit {
    /// A limit of one's own.
    ///
    /// # Errors
    /// [`LimitError`] unless 0 V < limit ≤ 42.4 V.
    pub fn new(limit: Voltage) -> Result<Self, LimitError> {
        if limit.si() > 0.0 && limit.si() <= MOST_VOLTS {
            Ok(Self(limit))
        } else {
            Err(LimitError { volts: limit.si() })
        }
    }

    /// The limit as a voltage.
    #[must_use]
    pub const fn volts(self) -> Voltage {
        self.0
    }

    /// True if a meter's reading, of either sign, is below the limit.
    #[must_use]
    pub fn holds(self, reading: Voltage) -> bool {
        reading.is_finite() && reading.abs() < self.0
    }
}

impl Default for TouchLimit {
    /// 42.4 V d.c.
    fn default() -> Self {
        Self(Voltage::from_si(MOST_VOLTS))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// IEC 60335-1, 8.1.4: 42.4 V d.c. (R2).
    #[test]
    fn a_limit_can_only_be_made_stricter() {
        for volts in [42.4, 30.0, 0.1] {
            assert!(TouchLimit::new(Voltage::from_si(volts)).is_ok(), "{volts}");
        }
        for volts in [60.0, 42.41, 0.0, -5.0, f64::NAN, f64::INFINITY] {
            assert!(TouchLimit::new(Voltage::from_si(volts)).is_err(), "{volts}");
        }
    }

    #[test]
    fn a_reading_counts_by_its_size() {
        let limit = TouchLimit::default();
        for (volts, holds) in [
            (0.0, true),
            (42.3, true),
            (-42.3, true),
            (42.4, false),
            (60.0, false),
            (-2000.0, false),
            (f64::NAN, false),
        ] {
            assert_eq!(limit.holds(Voltage::from_si(volts)), holds, "{volts}");
        }
    }
}
