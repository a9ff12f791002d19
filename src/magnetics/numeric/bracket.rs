//! A zero between two ends, closed in on by regula falsi with the Illinois rule (M. Dowell and
//! P. Jarratt, BIT 11, 1971): an end that stays for two steps counts half, so that both ends move.

/// Two ends with a function's zero between them, and its values there.
#[derive(Debug, Clone, Copy)]
pub struct Bracket {
    /// Where the function has the sign that it has at the lower end.
    pub low: f64,
    /// Where it has the other.
    pub high: f64,
    /// The value at the lower end; half of it, or a quarter, where the upper one moved alone.
    pub at_low: f64,
    /// The value at the upper end, likewise.
    pub at_high: f64,
    /// Which end moved last.
    moved_low: Option<bool>,
}

impl Bracket {
    /// From both ends and the values there.
    #[must_use]
    pub const fn new((low, at_low): (f64, f64), (high, at_high): (f64, f64)) -> Self {
        Self {
            low,
            high,
            at_low,
            at_high,
            moved_low: None,
        }
    }

    /// From the lower to the upper end.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.high - self.low
    }

    /// Where the straight line between the ends has its zero: where to look next, if both values are
    /// finite and they differ.
    #[must_use]
    pub fn on_line(&self) -> f64 {
        self.low + self.width() * self.at_low / (self.at_low - self.at_high)
    }

    /// Halfway: where to look next if there is no such line.
    #[must_use]
    pub fn middle(&self) -> f64 {
        self.low + self.width() / 2.0
    }

    /// Moves one end to a place, by the function's value there.
    pub fn narrow(&mut self, at: f64, value: f64, is_low: bool) {
        let again = self.moved_low == Some(is_low);
        if is_low {
            (self.low, self.at_low) = (at, value);
            if again {
                self.at_high /= 2.0;
            }
        } else {
            (self.high, self.at_high) = (at, value);
            if again {
                self.at_low /= 2.0;
            }
        }
        self.moved_low = Some(is_low);
    }
}
