//! What leads to the text files: enums whose members have a word, and sentences as data.

use std::borrow::Cow;
use std::fmt;

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

/// A sentence for a person, as data: the id of its text, and what goes into it.
#[derive(Debug, Clone, PartialEq)]
pub struct Message {
    /// The id of its text.
    pub key: Cow<'static, str>,
    /// What goes into the text, by name.
    pub arguments: Vec<(&'static str, Argument)>,
}

/// What goes into a [`Message`].
#[derive(Debug, Clone, PartialEq)]
pub enum Argument {
    /// As it is: a name, or a number already written with its unit.
    Text(String),
    /// A number that the text chooses its plural by.
    Number(f64),
    /// A text of its own.
    Message(Message),
}

impl Message {
    /// The text with an id, without arguments.
    #[must_use]
    pub fn new(key: impl Into<Cow<'static, str>>) -> Self {
        Self {
            key: key.into(),
            arguments: Vec::new(),
        }
    }

    /// With a name or a written number put in.
    #[must_use]
    pub fn with(mut self, name: &'static str, text: impl fmt::Display) -> Self {
        self.arguments.push((name, Argument::Text(text.to_string())));
        self
    }

    /// With a number put in that the text chooses its plural by.
    #[must_use]
    pub fn number(mut self, name: &'static str, number: f64) -> Self {
        self.arguments.push((name, Argument::Number(number)));
        self
    }

    /// With another text put in.
    #[must_use]
    pub fn within(mut self, name: &'static str, message: Message) -> Self {
        self.arguments.push((name, Argument::Message(message)));
        self
    }
}

/// For the log: the id, and what goes into the text.
impl fmt::Display for Message {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.key)?;
        for (name, argument) in &self.arguments {
            match argument {
                Argument::Text(text) => write!(f, ", {name}: {text}")?,
                Argument::Number(number) => write!(f, ", {name}: {number}")?,
                Argument::Message(message) => write!(f, ", {name}: ({message})")?,
            }
        }
        Ok(())
    }
}

/// An error or a refusal whose sentence for a person is in the text files. Its `Display` is for the log and
/// the command line.
pub trait Explain {
    /// The sentence.
    fn message(&self) -> Message;
}
