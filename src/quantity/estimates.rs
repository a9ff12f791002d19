//! A struct of computed quantities, its counterpart with uncertainty, and the enum of those of its
//! numbers that are shown, from one list of fields.

/// Declares a struct of computed quantities `$plain`, its counterpart `$estimated`, in which each
/// field is an [`Estimate`](super::Estimate) of the same quantity, and the enum `$numbers` of the
/// fields that are shown.
///
/// A field that is shown has in brackets its member of the enum, the unit that a person reads (a
/// constant of its quantity) and the id of its text; digits where they are not
/// [`DIGITS`](super::DIGITS):
///
/// ```
/// use curbcore::quantity::{Area, Length, estimates, propagate};
/// estimates! {
///     /// A rectangle.
///     pub struct Rectangle / RectangleEstimate / RectangleNumber {
///         /// All round.
///         border: Length [Border, MM, "number-border"],
///         /// Inside; not shown.
///         area: Area,
///     }
/// }
/// assert_eq!(RectangleNumber::ALL.len(), 1);
/// assert_eq!(RectangleNumber::Border.kind().file_key(), "border_m");
/// ```
///
/// The plain struct gets `to_si` (all fields as an array, in declaration order) and the names of the
/// fields (`FIELDS`); the estimate gets `from_propagated`; the enum gets `ALL`, `kind`, `index` (the place
/// of its field) and `of`, which takes a [`Number`](super::Number) out of propagated answers.
#[macro_export]
macro_rules! estimates {
    (
        $(#[$meta:meta])*
        pub struct $plain:ident / $estimated:ident / $numbers:ident {
            $( $(#[$doc:meta])* $field:ident : $quantity:ty
                $( [ $member:ident, $unit:ident, $text:literal $(, $digits:literal)? ] )? ),* $(,)?
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $plain { $( $(#[$doc])* pub $field: $quantity ),* }

        $(#[$meta])*
        ///
        /// Each value with its half-width at about 95 %.
        #[derive(Debug, Clone, Copy, PartialEq)]
        pub struct $estimated { $( $(#[$doc])* pub $field: $crate::quantity::Estimate<$quantity> ),* }

        #[doc = concat!("The numbers of [`", stringify!($plain), "`] that are shown.")]
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum $numbers { $( $(
            #[doc = concat!("The field [`", stringify!($field), "`](", stringify!($plain), "::", stringify!($field), ").")]
            $member,
        )? )* }

        impl $plain {
            /// The names of the fields, in order.
            pub const FIELDS: &'static [&'static str] = &[ $( stringify!($field) ),* ];
            /// How many fields there are.
            pub const COUNT: usize = Self::FIELDS.len();
            /// All fields in their SI units, in order.
            #[must_use]
            pub fn to_si(&self) -> [f64; Self::COUNT] {
                [ $( $crate::quantity::Quantity::si(self.$field) ),* ]
            }
        }

        impl $estimated {
            /// Each value with its half-width, from the answers of propagation.
            #[must_use]
            pub fn from_propagated(answers: &$crate::quantity::Propagated<{ $plain::COUNT }>) -> Self {
                let mut fields = answers.value.iter().zip(answers.sigma.iter());
                $(
                    let (value, sigma) = fields.next().map_or((f64::NAN, f64::NAN), |(v, s)| (*v, *s));
                    let $field = $crate::quantity::Estimate {
                        value: <$quantity as $crate::quantity::Quantity>::from_si(value),
                        plus_minus: <$quantity as $crate::quantity::Quantity>::from_si(2.0 * sigma),
                    };
                )*
                Self { $( $field ),* }
            }
        }

        impl $numbers {
            /// Every number, in the order of the fields.
            pub const ALL: &'static [Self] = &[ $( $( Self::$member, )? )* ];
            /// How a file names it and how a person reads it.
            #[must_use]
            pub const fn kind(self) -> $crate::quantity::NumberKind {
                match self { $( $( Self::$member => {
                    let digits = [ $( $digits, )? $crate::quantity::DIGITS ][0];
                    $crate::quantity::NumberKind::of::<$quantity>(stringify!($field), $text, <$quantity>::$unit, digits)
                } )? )* }
            }
            /// The place of its field among all fields.
            #[must_use]
            pub const fn index(self) -> usize {
                #[allow(non_camel_case_types, dead_code)]
                enum Place { $( $field ),* }
                match self { $( $( Self::$member => Place::$field as usize, )? )* }
            }
            /// The number, out of propagated answers.
            #[must_use]
            pub fn of(self, answers: &$crate::quantity::Propagated<{ $plain::COUNT }>) -> $crate::quantity::Number {
                $crate::quantity::Number::propagated(self.kind(), answers, self.index())
            }
        }
    };
}

pub use estimates;
