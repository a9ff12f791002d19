//! A record's history as one line of JSON: in the store and in the file that travels.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};
use serde_json::Value;
use uuid::Uuid;

use super::kind::Kind;
use super::known::{Entry, Known};
use super::stamp::{Seen, Stamp};

/// A record with its history.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// What it is.
    pub kind: Kind,
    /// Which one.
    pub id: Uuid,
    /// What is known of it.
    pub known: Known,
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct WrongLine(pub String);

/// How a history is written. `values` is what a reader wants; the rest is for the merge.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct History {
    /// Left out in the store, whose rows tell it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    kind: Option<Kind>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    id: Option<Uuid>,
    /// The change that wrote most fields.
    stamp: Stamp,
    /// The changes that wrote the others.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    stamps: BTreeMap<String, Stamp>,
    /// How far the history is known, where that is more than `stamp`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    seen: Option<Seen>,
    /// The value of each field.
    values: BTreeMap<String, Value>,
    /// The values that other devices wrote meanwhile.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    others: BTreeMap<String, Vec<Other>>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Other {
    stamp: Stamp,
    value: Value,
}

impl History {
    fn parse(text: &str) -> Result<Self, WrongLine> {
        serde_json::from_str(text).map_err(|error| WrongLine(without_place(&error.to_string())))
    }

    fn of(known: &Known) -> Option<Self> {
        let mut counts: BTreeMap<Stamp, usize> = BTreeMap::new();
        let last = |entries: &[Entry]| entries.last().cloned();
        for entry in known.fields.values().filter_map(|entries| entries.last()) {
            *counts.entry(entry.stamp).or_default() += 1;
        }
        let stamp = counts.iter().max_by_key(|(stamp, count)| (**count, **stamp)).map(|(stamp, _)| *stamp)?;
        let mut history = History {
            kind: None,
            id: None,
            stamp,
            stamps: BTreeMap::new(),
            seen: (!known.seen.is_only(stamp)).then(|| known.seen.clone()),
            values: BTreeMap::new(),
            others: BTreeMap::new(),
        };
        for (field, entries) in &known.fields {
            let Some(shown) = last(entries) else { continue };
            if shown.stamp != stamp {
                history.stamps.insert(field.clone(), shown.stamp);
            }
            history.values.insert(field.clone(), shown.value);
            if entries.len() > 1 {
                let others = entries[..entries.len() - 1].iter().map(|entry| Other {
                    stamp: entry.stamp,
                    value: entry.value.clone(),
                });
                history.others.insert(field.clone(), others.collect());
            }
        }
        Some(history)
    }

    fn known(mut self) -> Result<Known, WrongLine> {
        let mut known = Known {
            seen: self.seen.unwrap_or_else(|| Seen::from(self.stamp)),
            fields: BTreeMap::new(),
        };
        for (field, value) in self.values {
            let mut entries: Vec<Entry> = self
                .others
                .remove(&field)
                .unwrap_or_default()
                .into_iter()
                .map(|other| Entry {
                    stamp: other.stamp,
                    value: other.value,
                })
                .collect();
            entries.push(Entry {
                stamp: self.stamps.remove(&field).unwrap_or(self.stamp),
                value,
            });
            for entry in &entries {
                if !known.seen.covers(entry.stamp) {
                    return Err(WrongLine(format!("{field}: its stamp {} is not among those seen", entry.stamp)));
                }
            }
            if !entries.windows(2).all(|pair| pair[0].stamp < pair[1].stamp) {
                return Err(WrongLine(format!("{field}: its values are not in the order of their stamps")));
            }
            known.fields.insert(field, entries);
        }
        if let Some(field) = self.stamps.keys().chain(self.others.keys()).next() {
            return Err(WrongLine(format!("{field}: it has a stamp but no value")));
        }
        if known.fields.is_empty() {
            return Err(WrongLine("values: there are none".to_owned()));
        }
        Ok(known)
    }
}

impl Line {
    /// The line as JSON, without its end.
    #[must_use]
    pub fn to_json(&self) -> String {
        line_of(self.kind, self.id, &self.known.to_json())
    }

    /// Reads a line.
    ///
    /// # Errors
    /// [`WrongLine`] with the field, where it is no JSON, has an unknown key, or its history
    /// contradicts itself. The values are judged by [`accept`](super::accept).
    pub fn parse(text: &str) -> Result<Self, WrongLine> {
        let history = History::parse(text)?;
        let missing = |key: &str| WrongLine(format!("{key}: it is missing"));
        Ok(Line {
            kind: history.kind.ok_or_else(|| missing("kind"))?,
            id: history.id.ok_or_else(|| missing("id"))?,
            known: history.known()?,
        })
    }
}

/// A line from a history as the store keeps it.
#[must_use]
pub fn line_of(kind: Kind, id: Uuid, history: &str) -> String {
    let rest = history.strip_prefix('{').unwrap_or(history);
    format!("{{\"kind\":\"{}\",\"id\":\"{id}\",{rest}", kind.word())
}

impl Known {
    /// The history as the store keeps it: a line without kind and id.
    #[must_use]
    pub fn to_json(&self) -> String {
        History::of(self)
            .and_then(|history| serde_json::to_string(&history).ok())
            .unwrap_or_else(|| "{}".to_owned())
    }

    /// Reads a history as [`Known::to_json`] writes it.
    ///
    /// # Errors
    /// [`WrongLine`].
    pub fn parse(text: &str) -> Result<Self, WrongLine> {
        History::parse(text)?.known()
    }
}

/// The message without "at line 1 column 17": a line is always line 1.
fn without_place(message: &str) -> String {
    message.split(" at line ").next().unwrap_or(message).to_owned()
}
