//! Enums whose members have a word: for files, and to find their text.

/// An enum that [`words!`](crate::words!) declared, for what is written once for several of them.
pub trait Word: Copy + Ord + std::hash::Hash + std::fmt::Debug + 'static {
    /// Every member, in order.
    const ALL: &'static [Self];
    /// The word that files use for it.
    fn word(self) -> &'static str;
    /// The member that a word names.
    fn from_word(word: &str) -> Option<Self>;
    /// The id of its text.
    fn key(self) -> &'static str;
}

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

        impl $crate::words::Word for $name {
            const ALL: &'static [Self] = Self::ALL;
            fn word(self) -> &'static str {
                self.word()
            }
            fn from_word(word: &str) -> Option<Self> {
                Self::from_word(word)
            }
            fn key(self) -> &'static str {
                self.key()
            }
        }
    };
}

pub use words;
