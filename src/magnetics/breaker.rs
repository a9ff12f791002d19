//! Which breaker holds a first peak.

use std::f64::consts::SQRT_2;

use crate::quantity::Current;

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
