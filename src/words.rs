//! Enums whose members have a word: for files, and to find their text.

/// Declares an enum whose members each have a word.
///
/// The enum gets `ALL` (every member, in order), `word` (what files hold), `from_word`, and
/// `key`: the id of its text, `group-word`, with `-` between. The text room holds one message
/// for each key.
#[macro_export]
macro_rules! words {
    (
        $(#[$meta:meta])*
        pub enum $name:ident, $group:literal {
            $( $(#[$doc:meta])* $member:ident = $word:literal ),* $(,)?
        }
    ) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum $name { $( $(#[$doc])* $member ),* }

        impl $name {
            /// Every member, in order.
            pub const ALL: &'static [Self] = &[ $( Self::$member ),* ];
            /// The word that files use for it.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $( Self::$member => $word ),* }
            }
            /// The member that a word names.
            #[must_use]
            pub fn from_word(word: &str) -> Option<Self> {
                match word { $( $word => Some(Self::$member), )* _ => None }
            }
            /// The id of its text.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self { $( Self::$member => concat!($group, "-", $word) ),* }
            }
        }
    };
}

pub use words;
