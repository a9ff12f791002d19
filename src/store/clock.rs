//! Where the store's times come from.

use std::time::{SystemTime, UNIX_EPOCH};

/// A source of times.
#[derive(Debug, Clone)]
pub enum Clock {
    /// The machine's own.
    System,
    /// Starts at a time in milliseconds since 1970 and is one later at each look; for tests.
    Steps(i64),
}

impl Clock {
    /// Milliseconds since 1970-01-01 UTC.
    pub(super) fn now_ms(&mut self) -> i64 {
        match self {
            Clock::System => SystemTime::now()
                .duration_since(UNIX_EPOCH)
                .map_or(0, |since| i64::try_from(since.as_millis()).unwrap_or(i64::MAX)),
            Clock::Steps(now) => {
                *now += 1;
                *now
            }
        }
    }
}
