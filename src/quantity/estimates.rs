//! A struct of computed quantities and its counterpart with uncertainty, from one list of fields.

/// Declares a struct of computed quantities `$plain` and its counterpart `$estimated`, in which each
/// field is an [`Estimate`](super::Estimate) of the same quantity.
///
/// The plain struct gets `to_si` (all fields as an array, in declaration order), the other gets
/// `from_propagated`, and both know the field names (`FIELDS`).
#[macro_export]
macro_rules! estimates {
    (
        $(#[$meta:meta])*
        pub struct $plain:ident / $estimated:ident {
            $( $(#[$doc:meta])* $field:ident : $quantity:ty ),* $(,)?
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

        impl $plain {
            /// The names of the fields, in order.
            pub const FIELDS: &'static [&'static str] = &[ $( stringify!($field) ),* ];
            /// The symbols of their SI units, in the same order.
            pub const UNITS: &'static [&'static str] = &[ $( <$quantity as $crate::quantity::Quantity>::UNIT ),* ];
            /// How many fields there are.
            pub const COUNT: usize = Self::FIELDS.len();
            /// All fields in their SI units, in order.
            #[must_use]
            pub fn to_si(&self) -> [f64; Self::COUNT] {
                [ $( $crate::quantity::Quantity::si(self.$field) ),* ]
            }
        }

        impl $estimated {
            /// Each field's value and half-width in its SI unit, in order.
            #[must_use]
            pub fn to_si(&self) -> [(f64, f64); $plain::COUNT] {
                [ $( (
                    $crate::quantity::Quantity::si(self.$field.value),
                    $crate::quantity::Quantity::si(self.$field.plus_minus),
                ) ),* ]
            }

            /// The counterpart of `$plain`, from what propagation gave.
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
    };
}

pub use estimates;
