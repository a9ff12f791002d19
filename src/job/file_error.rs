//! What is wrong with a job file.

use super::fields::{self, FieldError};
use super::strict;
use crate::words::{Explain, Message};

/// Why a job file was not read. Nothing of it has been taken over.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum JobFileError {
    /// Larger than a job can be.
    #[error("this file has {bytes} bytes; a job file has at most {most}")]
    TooLarge {
        /// Its size.
        bytes: usize,
        /// Largest accepted.
        most: usize,
    },
    /// Not JSON.
    #[error("line {line}, column {column}{}: this is not valid JSON ({message})", at(.path))]
    Syntax {
        /// Line, from 1.
        line: usize,
        /// Column, from 1.
        column: usize,
        /// The field being read, or empty.
        path: String,
        /// What the JSON reader met.
        message: String,
    },
    /// JSON, but not a job file.
    #[error("this is not a job file: it must start with \"curbcore_job\": {known}", known = super::FORMAT_VERSION)]
    NotAJobFile,
    /// From a newer program.
    #[error("this job file has format {found}; this program reads format {known}. Update the program to open it")]
    Newer {
        /// The file's version.
        found: u64,
        /// The newest version known here.
        known: u32,
    },
    /// Something needed is not there.
    #[error("{path} is missing; add it")]
    Missing {
        /// What.
        path: String,
    },
    /// A key that means nothing here.
    #[error("{path} is not a key known here{}", .nearest.as_ref().map_or_else(String::new, |key| format!("; did you mean \"{key}\"?")))]
    UnknownKey {
        /// The key with its path.
        path: String,
        /// The known key that looks most like it.
        nearest: Option<String>,
    },
    /// A key twice in the same object.
    #[error("{path} is given twice; leave one of them out")]
    GivenTwice {
        /// Which.
        path: String,
    },
    /// Null.
    #[error("{path} is null; leave the key out where there is no value")]
    Null {
        /// Where.
        path: String,
    },
    /// A word that means nothing here.
    #[error("{path} is \"{found}\"; use one of: {}", .accepted.join(", "))]
    UnknownWord {
        /// Where.
        path: String,
        /// The word given.
        found: String,
        /// The words accepted.
        accepted: Vec<String>,
    },
    /// A text where a number belongs, and the like.
    #[error("{path} is {found}; expected {expected}")]
    WrongType {
        /// Where.
        path: String,
        /// What was given.
        found: String,
        /// What belongs there.
        expected: String,
    },
    /// Something else about one place.
    #[error("{path}: {message}")]
    Other {
        /// Where.
        path: String,
        /// What.
        message: String,
    },
    /// A number or text that is not accepted.
    #[error(transparent)]
    Field(#[from] FieldError),
}

impl JobFileError {
    /// The field that the error is about, where it is about one.
    #[must_use]
    pub fn path(&self) -> Option<&str> {
        match self {
            JobFileError::TooLarge { .. } | JobFileError::NotAJobFile | JobFileError::Newer { .. } => None,
            JobFileError::Syntax { path, .. } => Some(path).filter(|path| !path.is_empty()).map(String::as_str),
            JobFileError::Missing { path }
            | JobFileError::UnknownKey { path, .. }
            | JobFileError::GivenTwice { path }
            | JobFileError::Null { path }
            | JobFileError::UnknownWord { path, .. }
            | JobFileError::WrongType { path, .. }
            | JobFileError::Other { path, .. } => Some(path),
            JobFileError::Field(error) => Some(error.path()),
        }
    }

    /// From what the JSON reader says and where.
    pub(super) fn from_reader(error: &serde_path_to_error::Error<serde_json::Error>) -> Self {
        // The reader writes "." for the whole document and "?" for a key it could not read.
        let path = error.path().to_string();
        let path = path.trim_end_matches(['.', '?']).to_owned();
        let inner = error.inner();
        let text = inner.to_string();
        // "... at line 3 column 7" is the reader's own ending.
        let message = text
            .rsplit_once(" at line ")
            .map_or(text.as_str(), |(message, _)| message);
        if inner.is_syntax() || inner.is_eof() {
            return JobFileError::Syntax {
                line: inner.line(),
                column: inner.column(),
                path,
                message: message.to_owned(),
            };
        }
        Self::from_message(path, message)
    }

    /// Sorts serde's messages, which name the key but not its path. Every form is pinned by
    /// the tests, so a change of wording in serde fails there.
    fn from_message(path: String, message: &str) -> Self {
        let quoted = quoted_words(message);
        let first = quoted.first().cloned().unwrap_or_default();
        let rest = || quoted.get(1..).unwrap_or_default().to_vec();
        if message == strict::NULL {
            return JobFileError::Null { path };
        }
        if message.starts_with("missing field") {
            return JobFileError::Missing {
                path: join(&path, &first),
            };
        }
        if message.starts_with("duplicate field") {
            return JobFileError::GivenTwice {
                path: join(&path, &first),
            };
        }
        if message.starts_with("unknown field") {
            return JobFileError::UnknownKey {
                nearest: nearest(&first, &rest()),
                path: join(&path, &first),
            };
        }
        if message.starts_with("unknown variant") {
            return JobFileError::UnknownWord {
                path,
                found: first,
                accepted: rest(),
            };
        }
        let wrong = message
            .strip_prefix("invalid type: ")
            .or_else(|| message.strip_prefix("invalid value: "))
            .and_then(|text| text.split_once(", expected "));
        match wrong {
            Some((found, expected)) => JobFileError::WrongType {
                expected: plain_expected(&path, expected),
                found: found.to_owned(),
                path,
            },
            None => JobFileError::Other {
                path,
                message: message.to_owned(),
            },
        }
    }
}

/// What belongs at a path, in words for the bench.
fn plain_expected(path: &str, expected: &str) -> String {
    if let Some(field) = fields::find(path) {
        match field.shape {
            fields::Shape::Reading => {}
            fields::Shape::Whole | fields::Shape::OneOf(_) => return "a whole number".to_owned(),
            fields::Shape::Number => return "a number".to_owned(),
        }
    }
    match expected {
        "f64" => "a number".to_owned(),
        "u32" => "a whole number".to_owned(),
        "a boolean" => "true or false".to_owned(),
        "a string" | "string or map" => "a text in quotes".to_owned(),
        "a sequence" => "a list in [ ]".to_owned(),
        other if other.starts_with("struct ") || other == "a map" => "an object in { }".to_owned(),
        other => other.to_owned(),
    }
}

fn join(path: &str, key: &str) -> String {
    if path.is_empty() {
        key.to_owned()
    } else if path == key || path.ends_with(&format!(".{key}")) {
        // The reader was already inside the key.
        path.to_owned()
    } else {
        format!("{path}.{key}")
    }
}

/// The words between back quotes, in order.
fn quoted_words(message: &str) -> Vec<String> {
    message.split('`').skip(1).step_by(2).map(str::to_owned).collect()
}

/// The candidate with the fewest letters to change, if that is less than half of them.
fn nearest(word: &str, candidates: &[String]) -> Option<String> {
    let (changes, best) = candidates.iter().map(|c| (edit_distance(word, c), c)).min()?;
    (changes * 2 <= best.chars().count().max(2)).then(|| best.clone())
}

/// Letters to insert, remove or replace to make one word of the other (Levenshtein distance).
fn edit_distance(from: &str, to: &str) -> usize {
    let to: Vec<char> = to.chars().take(64).collect();
    let mut row: Vec<usize> = (0..=to.len()).collect();
    for (i, a) in from.chars().take(64).enumerate() {
        let mut next = vec![i + 1];
        for ((b, replace), remove) in to.iter().zip(&row).zip(row.iter().skip(1)) {
            let insert = next.last().copied().unwrap_or(0);
            next.push((replace + usize::from(a != *b)).min(remove + 1).min(insert + 1));
        }
        row = next;
    }
    row.last().copied().unwrap_or(0)
}

fn at(path: &str) -> String {
    if path.is_empty() {
        String::new()
    } else {
        format!(", at {path}")
    }
}

impl Explain for JobFileError {
    fn message(&self) -> Message {
        match self {
            JobFileError::TooLarge { bytes, most } => Message::new("refused-job-large")
                .with("bytes", bytes)
                .with("most", most),
            JobFileError::Syntax { line, column, .. } => Message::new("refused-job-syntax")
                .with("line", line)
                .with("column", column),
            JobFileError::NotAJobFile => Message::new("refused-job-other"),
            JobFileError::Newer { found, known } => Message::new("refused-job-newer")
                .with("found", found)
                .with("known", known),
            JobFileError::Missing { path } => Message::new("refused-job-missing").with("path", path),
            JobFileError::UnknownKey { path, nearest: None } => Message::new("refused-job-key").with("path", path),
            JobFileError::UnknownKey {
                path,
                nearest: Some(nearest),
            } => Message::new("refused-job-key-like")
                .with("path", path)
                .with("nearest", nearest),
            JobFileError::GivenTwice { path } => Message::new("refused-job-twice").with("path", path),
            JobFileError::Null { path } => Message::new("refused-job-null").with("path", path),
            JobFileError::UnknownWord { path, found, accepted } => Message::new("refused-job-word")
                .with("path", path)
                .with("found", found)
                .with("accepted", accepted.join(", ")),
            JobFileError::WrongType { path, .. } => Message::new("refused-job-type").with("path", path),
            JobFileError::Other { path, .. } => Message::new("refused-job-value").with("path", path),
            JobFileError::Field(error) => error.message(),
        }
    }
}
