//! The numbers and texts of a record by their paths, typed: what the field table judges, a person enters and
//! a screen shows. The path of a member is its name, that of a member of a part `part.member`.

use super::reading::Reading;
use crate::quantity::Origin;

/// What stands at a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Held<'a> {
    /// A value with its ± and origin.
    Reading(Reading),
    /// A number.
    Number(f64),
    /// A text.
    Text(&'a str),
}

/// What is put at a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Entered {
    /// A value with its ± and origin.
    Reading(Reading),
    /// A number.
    Number(f64),
}

/// A record, or a part or a member of one.
pub trait Places {
    /// What stands at a path; none where nothing does, or there is no such place.
    fn get(&self, path: &str) -> Option<Held<'_>>;

    /// Puts a number at a path, or takes away what is optional there; false where that cannot be, and
    /// nothing is changed then. Whether the number is accepted is for [`Check`](super::Check).
    fn put(&mut self, path: &str, value: Option<Entered>) -> bool;

    /// A part that numbers can be put into one by one where there is none yet; none where it has more than
    /// numbers. Those still missing are NaN, which no check accepts.
    #[must_use]
    fn unset() -> Option<Self>
    where
        Self: Sized,
    {
        None
    }
}

/// The first member's name of a path, and the path below it.
pub(super) fn step(path: &str) -> (&str, &str) {
    path.split_once('.').unwrap_or((path, ""))
}

impl Places for Reading {
    fn get(&self, path: &str) -> Option<Held<'_>> {
        path.is_empty().then_some(Held::Reading(*self))
    }

    fn put(&mut self, path: &str, value: Option<Entered>) -> bool {
        match value {
            Some(Entered::Reading(reading)) if path.is_empty() => *self = reading,
            _ => return false,
        }
        true
    }

    fn unset() -> Option<Self> {
        Some(Reading::new(f64::NAN, 0.0, Origin::Typical))
    }
}

impl Places for f64 {
    fn get(&self, path: &str) -> Option<Held<'_>> {
        path.is_empty().then_some(Held::Number(*self))
    }

    fn put(&mut self, path: &str, value: Option<Entered>) -> bool {
        match value {
            Some(Entered::Number(number)) if path.is_empty() => *self = number,
            _ => return false,
        }
        true
    }

    fn unset() -> Option<Self> {
        Some(f64::NAN)
    }
}

impl Places for u32 {
    fn get(&self, path: &str) -> Option<Held<'_>> {
        path.is_empty().then_some(Held::Number(f64::from(*self)))
    }

    fn put(&mut self, path: &str, value: Option<Entered>) -> bool {
        match value {
            Some(Entered::Number(number))
                if path.is_empty() && number.fract() == 0.0 && (0.0..=f64::from(u32::MAX)).contains(&number) =>
            {
                *self = number as u32;
            }
            _ => return false,
        }
        true
    }

    fn unset() -> Option<Self> {
        Some(0)
    }
}

impl Places for String {
    fn get(&self, path: &str) -> Option<Held<'_>> {
        path.is_empty().then_some(Held::Text(self))
    }

    fn put(&mut self, _path: &str, _value: Option<Entered>) -> bool {
        false
    }
}

impl<T: Places> Places for Option<T> {
    fn get(&self, path: &str) -> Option<Held<'_>> {
        self.as_ref()?.get(path)
    }

    fn put(&mut self, path: &str, value: Option<Entered>) -> bool {
        if path.is_empty() && value.is_none() {
            *self = None;
            return true;
        }
        if let Some(inner) = self {
            return inner.put(path, value);
        }
        let Some(mut fresh) = T::unset() else { return false };
        let put = fresh.put(path, value);
        if put {
            *self = Some(fresh);
        }
        put
    }
}

/// Members without a number or text.
macro_rules! no_places {
    ($( $kind:ty ),* $(,)?) => { $(
        impl $crate::job::Places for $kind {
            fn get(&self, _path: &str) -> Option<$crate::job::Held<'_>> {
                None
            }

            fn put(&mut self, _path: &str, _value: Option<$crate::job::Entered>) -> bool {
                false
            }
        }
    )* };
}
pub(super) use no_places;

/// Defines structs whose members have paths. `= usual` behind a member's type is what stands there once it is
/// taken away.
macro_rules! records {
    ($(
        $(#[$meta:meta])*
        pub struct $name:ident {
            $( $(#[$attribute:meta])* pub $member:ident : $kind:ty $(= $usual:expr)? ),* $(,)?
        }
    )*) => { $(
        $(#[$meta])*
        pub struct $name {
            $( $(#[$attribute])* pub $member: $kind ),*
        }

        impl $crate::job::Places for $name {
            fn get(&self, path: &str) -> Option<$crate::job::Held<'_>> {
                let (member, below) = $crate::job::place::step(path);
                match member {
                    $( stringify!($member) => $crate::job::Places::get(&self.$member, below), )*
                    _ => None,
                }
            }

            fn put(&mut self, path: &str, value: Option<$crate::job::Entered>) -> bool {
                let (member, below) = $crate::job::place::step(path);
                match member {
                    $( stringify!($member) => {
                        $( if below.is_empty() && value.is_none() {
                            self.$member = $usual;
                            return true;
                        } )?
                        $crate::job::Places::put(&mut self.$member, below, value)
                    } )*
                    _ => false,
                }
            }

            fn unset() -> Option<Self> {
                Some(Self { $( $member: $crate::job::Places::unset()? ),* })
            }
        }
    )* };
}
pub(super) use records;

impl<T> Places for Vec<T> {
    fn get(&self, _path: &str) -> Option<Held<'_>> {
        None
    }

    fn put(&mut self, _path: &str, _value: Option<Entered>) -> bool {
        false
    }
}

no_places! { bool }
