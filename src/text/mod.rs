//! The words of the app, as data: Fluent files in `assets/text`, one folder for each language.
//!
//! English is complete and built in. Another language is a folder beside it; where it lacks a
//! text the English one is shown.

mod glossary;

pub use glossary::Term;

use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

use crate::words::{Argument, Explain, Message};

/// The English files: name and content.
pub const ENGLISH: &[(&str, &str)] = &[
    ("safety.ftl", include_str!("../../assets/text/en/safety.ftl")),
    ("teardown.ftl", include_str!("../../assets/text/en/teardown.ftl")),
    ("wind.ftl", include_str!("../../assets/text/en/wind.ftl")),
    ("bench.ftl", include_str!("../../assets/text/en/bench.ftl")),
    ("sizeup.ftl", include_str!("../../assets/text/en/sizeup.ftl")),
    ("screens.ftl", include_str!("../../assets/text/en/screens.ftl")),
    ("drawings.ftl", include_str!("../../assets/text/en/drawings.ftl")),
    ("page.ftl", include_str!("../../assets/text/en/page.ftl")),
    ("glossary.ftl", include_str!("../../assets/text/en/glossary.ftl")),
    ("refusals.ftl", include_str!("../../assets/text/en/refusals.ftl")),
    ("fields.ftl", include_str!("../../assets/text/en/fields.ftl")),
    ("numbers.ftl", include_str!("../../assets/text/en/numbers.ftl")),
];

/// Something to put into a text.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Arg<'a> {
    /// Words, or a number already written with its unit.
    Text(&'a str),
    /// A number that the text chooses its plural by.
    Number(f64),
}

/// What is wrong with a language's files.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TextError {
    /// The language's name is none.
    #[error("\"{0}\" does not name a language; write it like \"de\" or \"pt-BR\"")]
    Language(String),
    /// A file does not read as Fluent, or repeats a text.
    #[error("the text file {file} is damaged: {problem}; install the app again or use English")]
    File {
        /// The file.
        file: String,
        /// What is wrong.
        problem: String,
    },
}

/// The texts of one language.
pub struct Texts {
    bundle: FluentBundle<FluentResource>,
    fallback: Option<Box<Texts>>,
}

impl Texts {
    /// The English texts.
    ///
    /// # Errors
    /// [`TextError`] if a built-in file is damaged, which a test rules out.
    pub fn english() -> Result<Self, TextError> {
        Self::load("en", ENGLISH, None)
    }

    /// The texts of another language, with English behind them.
    ///
    /// # Errors
    /// [`TextError`] for a name that is no language and for a file that can't be read.
    pub fn other(language: &str, files: &[(&str, &str)]) -> Result<Self, TextError> {
        Self::load(language, files, Some(Box::new(Self::english()?)))
    }

    fn load(language: &str, files: &[(&str, &str)], fallback: Option<Box<Texts>>) -> Result<Self, TextError> {
        let identifier: LanguageIdentifier = language.parse().map_err(|_| TextError::Language(language.to_owned()))?;
        let mut bundle = FluentBundle::new_concurrent(vec![identifier]);
        // Marks round what is put in matter where a language runs from right to left.
        bundle.set_use_isolating(fallback.is_some());
        for &(file, content) in files {
            let damaged = |problem: String| TextError::File {
                file: file.to_owned(),
                problem,
            };
            let resource = FluentResource::try_new(content.to_owned())
                .map_err(|(_, problems)| damaged(format!("{problems:?}")))?;
            bundle
                .add_resource(resource)
                .map_err(|problems| damaged(format!("{problems:?}")))?;
        }
        Ok(Self { bundle, fallback })
    }

    /// The text with an id: `message` or `message.attribute`.
    ///
    /// An id that no language has is shown as it is, so that a missing text is seen.
    #[must_use]
    pub fn text(&self, key: &str) -> String {
        self.text_with(key, &[])
    }

    /// The text with an id, with values put in.
    #[must_use]
    pub fn text_with(&self, key: &str, args: &[(&str, Arg<'_>)]) -> String {
        self.find(key, args).unwrap_or_else(|| key.to_owned())
    }

    /// A sentence that comes as data.
    #[must_use]
    pub fn message(&self, message: &Message) -> String {
        let written: Vec<(&str, Option<f64>, String)> = message
            .arguments
            .iter()
            .map(|(name, argument)| match argument {
                Argument::Text(text) => (*name, None, text.clone()),
                Argument::Number(number) => (*name, Some(*number), String::new()),
                Argument::Message(message) => (*name, None, self.message(message)),
            })
            .collect();
        let arguments: Vec<(&str, Arg<'_>)> = written
            .iter()
            .map(|(name, number, text)| (*name, number.map_or(Arg::Text(text), Arg::Number)))
            .collect();
        self.text_with(&message.key, &arguments)
    }

    /// What an error says to a person.
    #[must_use]
    pub fn explain(&self, error: &impl Explain) -> String {
        self.message(&error.message())
    }

    /// The text with an id, or `None` if no language has it.
    #[must_use]
    pub fn find(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        self.own(key, args)
            .or_else(|| self.fallback.as_ref().and_then(|english| english.find(key, args)))
    }

    fn own(&self, key: &str, args: &[(&str, Arg<'_>)]) -> Option<String> {
        let (id, attribute) = key.split_once('.').map_or((key, None), |(id, name)| (id, Some(name)));
        let message = self.bundle.get_message(id)?;
        let pattern = match attribute {
            Some(name) => message.get_attribute(name)?.value(),
            None => message.value()?,
        };
        let mut values = FluentArgs::new();
        for (name, arg) in args {
            match *arg {
                Arg::Text(text) => values.set(*name, text),
                Arg::Number(number) => values.set(*name, FluentValue::from(number)),
            }
        }
        let mut problems = Vec::new();
        let text = self.bundle.format_pattern(pattern, Some(&values), &mut problems);
        Some(text.into_owned())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn another_language_falls_back_to_english() {
        let german = Texts::other("de", &[("a.ftl", "gate-hands = Hände und Augen geschützt\n")]).unwrap();
        assert_eq!(german.text("gate-hands"), "Hände und Augen geschützt");
        assert!(german.text("gate-hands.why").starts_with("Do not go on"));
        assert_eq!(german.text("no-such-text"), "no-such-text");
    }

    #[test]
    fn values_and_plurals() {
        let text = "turns = { $count ->\n    [one] one turn\n   *[other] { $count } turns of { $wire }\n }\n";
        let texts = Texts::load("en", &[("a.ftl", text)], None).unwrap();
        let wire = ("wire", Arg::Text("2.5 mm"));
        assert_eq!(
            texts.text_with("turns", &[("count", Arg::Number(1.0)), wire]),
            "one turn"
        );
        assert_eq!(
            texts.text_with("turns", &[("count", Arg::Number(12.0)), wire]),
            "12 turns of 2.5 mm"
        );
    }

    #[test]
    fn damage_is_told() {
        assert!(matches!(Texts::other("no language", &[]), Err(TextError::Language(_))));
        let twice = Texts::other("fr", &[("a.ftl", "x = 1\n"), ("b.ftl", "x = 2\n")]);
        assert!(matches!(twice, Err(TextError::File { .. })));
        assert!(Texts::other("fr", &[("a.ftl", "x = { $\n")]).is_err());
    }
}
