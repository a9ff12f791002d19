//! A moment, as a value that comes in from outside.

/// When something happened. The core has no clock: whoever calls it says what time it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Moment {
    /// Milliseconds since 1970-01-01 00:00 UTC.
    pub unix_ms: i64,
    /// The calendar day where the person stands, counted from 1970-01-01.
    pub local_day: i32,
}

/// A pause of this length ends a stretch of work.
const PAUSE_MS: i64 = 60 * 60 * 1000;

/// No confirmation outlives this, whatever the calendar says (a journey west can make a day
/// longer than 24 hours).
const LONGEST_MS: i64 = 24 * 60 * 60 * 1000;

impl Moment {
    /// True if a confirmation given at `self` still counts at `now`: the same calendar day, not
    /// later than `now` (a clock that was set back proves nothing), and less than 24 hours old.
    #[must_use]
    pub const fn same_day(self, now: Moment) -> bool {
        self.local_day == now.local_day
            && now.unix_ms >= self.unix_ms
            && now.unix_ms.saturating_sub(self.unix_ms) < LONGEST_MS
    }

    /// True if `now` is not before `self` and less than an hour after.
    #[must_use]
    pub const fn within_the_hour(self, now: Moment) -> bool {
        now.unix_ms >= self.unix_ms && now.unix_ms.saturating_sub(self.unix_ms) < PAUSE_MS
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_day_ends_at_midnight_or_after_24_hours_and_never_runs_backwards() {
        let at = |unix_ms, local_day| Moment { unix_ms, local_day };
        assert!(at(1000, 5).same_day(at(1000, 5)));
        assert!(at(1000, 5).same_day(at(86_400_999, 5)));
        assert!(!at(1000, 5).same_day(at(86_401_000, 5)));
        assert!(!at(1000, 5).same_day(at(2000, 6)));
        assert!(!at(1000, 5).same_day(at(2000, 4)));
        assert!(!at(1000, 5).same_day(at(999, 5)));
        assert!(!at(i64::MIN, 5).same_day(at(i64::MAX, 5)));
    }
}
