//! What time it is where the person stands: the one place that asks the device.

use chrono::Datelike;

use crate::safety::Moment;

/// Days from the first day of the calendar's first year to 1970-01-01.
const FIRST_DAY: i32 = 719_163;

/// The moment, with the calendar day of the device's time zone.
#[must_use]
pub fn now() -> Moment {
    let now = chrono::Local::now();
    Moment {
        unix_ms: now.timestamp_millis(),
        local_day: now.num_days_from_ce() - FIRST_DAY,
    }
}

/// A moment's time of day where the person stands, such as 14:05.
#[must_use]
pub fn clock_time(moment: Moment) -> String {
    chrono::DateTime::from_timestamp_millis(moment.unix_ms).map_or_else(String::new, |utc| {
        utc.with_timezone(&chrono::Local).format("%H:%M").to_string()
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Day 0 is 1970-01-01, day 20,000 is 2024-10-04 (any calendar).
    #[test]
    fn days_are_counted_from_1970() {
        for (day, date) in [(0, (1970, 1, 1)), (20_000, (2024, 10, 4))] {
            let date = chrono::NaiveDate::from_ymd_opt(date.0, date.1, date.2).unwrap();
            assert_eq!(date.num_days_from_ce() - FIRST_DAY, day);
        }
        let now = now();
        let by_utc = (now.unix_ms / 86_400_000) as i32;
        assert!((now.local_day - by_utc).abs() <= 1, "{now:?}");
    }
}
