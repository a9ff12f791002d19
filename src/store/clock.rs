//! Where the store's times come from.

/// A source of times.
#[derive(Debug, Clone)]
pub enum Clock {
    /// The machine's own.
    System,
    /// Starts at a time in milliseconds since 1970 and is one later at each look; for tests.
    Steps(i64),
}

impl Clock {
    /// Milliseconds since 1970-01-01 UTC; none below 0, whatever the clock says.
    pub(super) fn now_ms(&mut self) -> i64 {
        let now = match self {
            Clock::System => chrono::Utc::now().timestamp_millis(),
            Clock::Steps(now) => {
                *now += 1;
                *now
            }
        };
        now.max(0)
    }
}
