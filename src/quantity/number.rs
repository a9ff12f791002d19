//! Computed numbers that are shown: how a file names each and how a person reads it.

use super::uncertain::{Estimate, Propagated, VarianceShare, widening_inputs};
use super::units::{Quantity, Unit};

/// How a file names a computed number, and how a person reads it.
///
/// Each is declared once, beside the field that holds it: see [`estimates!`](crate::estimates) and
/// [`numbers!`](crate::numbers).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NumberKind {
    /// Name in a file, unit left out.
    pub name: &'static str,
    /// Ending of that name for the SI unit that files count in.
    pub ending: &'static str,
    /// Id of its label; `.what`, `.formula` and `.source` of it say what the number is.
    pub text: &'static str,
    /// Unit that a person reads it in.
    pub unit: Unit,
    /// Significant digits where it has no ±.
    pub digits: usize,
}

/// Significant digits of a number without a ±, unless its declaration says otherwise.
pub const DIGITS: usize = 3;

impl NumberKind {
    /// The kind of a number that counts in `Q`.
    #[must_use]
    pub const fn of<Q: Quantity>(name: &'static str, text: &'static str, unit: Unit, digits: usize) -> Self {
        let ending = Q::FILE_ENDING;
        Self {
            name,
            ending,
            text,
            unit,
            digits,
        }
    }

    /// The key under which a file has it.
    #[must_use]
    pub fn file_key(&self) -> String {
        format!("{}{}", self.name, self.ending)
    }
}

/// One number of an answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Number {
    /// Which number it is.
    pub kind: NumberKind,
    /// Value and half-width (k = 2) in the SI unit.
    pub si: (f64, f64),
    /// What widens it, most first.
    pub variance_shares: Vec<VarianceShare>,
}

impl Number {
    /// Answer `index` of a propagation.
    #[must_use]
    pub fn propagated<const M: usize>(kind: NumberKind, answers: &Propagated<M>, index: usize) -> Self {
        Self {
            kind,
            si: (answers.value[index], 2.0 * answers.sigma[index]),
            variance_shares: widening_inputs(answers, index),
        }
    }

    /// A number of which only value and half-width are known.
    #[must_use]
    pub fn alone<Q: Quantity>(kind: NumberKind, estimate: Estimate<Q>) -> Self {
        Self {
            kind,
            si: (estimate.value.si(), estimate.plus_minus.si()),
            variance_shares: Vec::new(),
        }
    }
}

/// Declares an enum of numbers that no [`estimates!`](crate::estimates) holds: for each member a
/// field name, its quantity, and in brackets the unit that a person reads and the id of its text.
///
/// The enum gets `ALL` and `kind`, and a constructor for each member that takes an
/// [`Estimate`](super::Estimate) of its quantity.
#[macro_export]
macro_rules! numbers {
    (
        $(#[$meta:meta])*
        pub enum $name:ident {
            $( $(#[$doc:meta])* $member:ident = $field:ident : $quantity:ty [ $unit:ident, $text:literal ] ),* $(,)?
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $name { $( $(#[$doc])* $member ),* }

        impl $name {
            /// Every number, in order.
            pub const ALL: &'static [Self] = &[ $( Self::$member ),* ];
            /// How a file names it and how a person reads it.
            #[must_use]
            pub const fn kind(self) -> $crate::quantity::NumberKind {
                match self { $( Self::$member => $crate::quantity::NumberKind::of::<$quantity>(
                    stringify!($field), $text, <$quantity>::$unit, $crate::quantity::DIGITS,
                ) ),* }
            }
            $(
                $(#[$doc])*
                #[must_use]
                pub fn $field(estimate: $crate::quantity::Estimate<$quantity>) -> $crate::quantity::Number {
                    $crate::quantity::Number::alone(Self::$member.kind(), estimate)
                }
            )*
        }
    };
}

pub use numbers;
