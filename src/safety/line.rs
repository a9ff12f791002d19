//! A stored entry as one line of words and numbers, and reading it back.

use super::moment::Moment;
use crate::quantity::Quantity;

/// A stored line that can't be read.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("the stored line \"{line}\" can't be read; it was edited or written by a newer version")]
pub struct LineError {
    /// The line, shortened.
    pub line: String,
}

impl LineError {
    /// The error for a line.
    #[must_use]
    pub fn of(line: &str) -> Self {
        Self {
            line: line.chars().take(120).collect(),
        }
    }
}

/// Takes a stored line apart, one word after the other.
#[derive(Debug, Clone)]
pub struct Words<'a>(std::str::SplitAsciiWhitespace<'a>);

impl<'a> Words<'a> {
    /// The words of a line.
    #[must_use]
    pub fn of(line: &'a str) -> Self {
        Self(line.split_ascii_whitespace())
    }

    /// The next word.
    pub fn word(&mut self) -> Option<&'a str> {
        self.0.next()
    }

    /// The next word as anything that reads from text.
    pub fn parse<T: std::str::FromStr>(&mut self) -> Option<T> {
        self.word()?.parse().ok()
    }

    /// The next word as a quantity in its SI unit.
    pub fn quantity<Q: Quantity>(&mut self) -> Option<Q> {
        self.parse().map(Q::from_si)
    }

    /// The next two words as a moment.
    pub fn moment(&mut self) -> Option<Moment> {
        Some(Moment {
            unix_ms: self.parse()?,
            local_day: self.parse()?,
        })
    }

    /// The value, if no word is left.
    pub fn end<T>(mut self, value: T) -> Option<T> {
        self.word().is_none().then_some(value)
    }
}

impl Moment {
    /// The moment as two words.
    #[must_use]
    pub fn words(self) -> String {
        format!("{} {}", self.unix_ms, self.local_day)
    }
}
