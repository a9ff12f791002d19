//! A record's history as one line of JSON: in the store and in the file that travels.

use std::collections::BTreeMap;
use std::fmt;

use compact_str::CompactString;
use serde::de::{MapAccess, Visitor};
use serde::{Deserialize, Deserializer, Serialize, Serializer};
use serde_json::Value;
use uuid::Uuid;

use super::history::{RecordHistory, StampedValue, StampedValues, in_order};
use super::kind::Kind;
use super::stamp::{Stamp, VersionVector};

/// A record with its history.
#[derive(Debug, Clone, PartialEq)]
pub struct RecordLine {
    /// What it is.
    pub kind: Kind,
    /// Which one.
    pub id: Uuid,
    /// What is known of it.
    pub known: RecordHistory,
}

/// What is wrong with a line.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct LineError(pub String);

/// How a history is read. `values` is what a person wants; the rest is for the merge.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct History {
    /// Left out in the store, whose rows tell it.
    #[serde(default)]
    kind: Option<Kind>,
    #[serde(default)]
    id: Option<Uuid>,
    /// The change that wrote most fields.
    stamp: Stamp,
    /// The changes that wrote the others.
    #[serde(default)]
    stamps: BTreeMap<String, Stamp>,
    /// How far the history is known, where that is more than `stamp`.
    #[serde(default)]
    seen: Option<VersionVector>,
    /// The value of each field.
    values: Fields,
    /// The values that other devices wrote meanwhile.
    #[serde(default)]
    others: BTreeMap<String, Vec<Other>>,
}

/// Fields in the order in which they are written. A list, since each goes into a map of its own
/// at once.
struct Fields(Vec<(CompactString, Value)>);

impl<'de> Deserialize<'de> for Fields {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Pairs;
        impl<'de> Visitor<'de> for Pairs {
            type Value = Fields;

            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("an object with the value of each field")
            }

            fn visit_map<A: MapAccess<'de>>(self, mut map: A) -> Result<Fields, A::Error> {
                let mut pairs = Vec::with_capacity(8);
                while let Some(pair) = map.next_entry()? {
                    pairs.push(pair);
                }
                Ok(Fields(pairs))
            }
        }
        deserializer.deserialize_map(Pairs)
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Other {
    stamp: Stamp,
    value: Value,
}

/// How a history is written: [`History`], borrowed.
#[derive(Serialize)]
struct HistoryJson<'a> {
    stamp: Stamp,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    stamps: BTreeMap<&'a str, Stamp>,
    #[serde(skip_serializing_if = "Option::is_none")]
    seen: Option<&'a VersionVector>,
    values: Shown<'a>,
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    others: BTreeMap<&'a str, &'a [StampedValue]>,
}

/// The value of each field.
struct Shown<'a>(&'a RecordHistory);

impl Serialize for Shown<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_map(
            self.0
                .fields
                .iter()
                .filter_map(|(field, entries)| Some((field, &entries.last()?.value))),
        )
    }
}

impl<'a> HistoryJson<'a> {
    fn of(known: &'a RecordHistory) -> Option<Self> {
        let shown = || {
            known
                .fields
                .iter()
                .filter_map(|(field, entries)| Some((field.as_str(), entries.last()?)))
        };
        let stamp = most_common(shown().map(|(_, entry)| entry.stamp))?;
        Some(HistoryJson {
            stamp,
            stamps: shown()
                .filter(|(_, entry)| entry.stamp != stamp)
                .map(|(field, entry)| (field, entry.stamp))
                .collect(),
            seen: (!known.seen.is_only(stamp)).then_some(&known.seen),
            values: Shown(known),
            others: known
                .fields
                .iter()
                .filter(|(_, entries)| entries.len() > 1)
                .map(|(field, entries)| (field.as_str(), &entries[..entries.len() - 1]))
                .collect(),
        })
    }
}

/// The stamp that is there most often; the highest of several.
fn most_common(stamps: impl Iterator<Item = Stamp> + Clone) -> Option<Stamp> {
    let first = stamps.clone().next()?;
    if stamps.clone().all(|stamp| stamp == first) {
        return Some(first);
    }
    let mut counts: BTreeMap<Stamp, usize> = BTreeMap::new();
    for stamp in stamps {
        *counts.entry(stamp).or_default() += 1;
    }
    counts
        .into_iter()
        .max_by_key(|(stamp, count)| (*count, *stamp))
        .map(|(stamp, _)| stamp)
}

impl History {
    fn parse(text: &str) -> Result<Self, LineError> {
        serde_json::from_str(text).map_err(|error| LineError(without_place(&error.to_string())))
    }

    fn known(self) -> Result<RecordHistory, LineError> {
        let History {
            stamp,
            mut stamps,
            mut others,
            ..
        } = self;
        let seen = self.seen.unwrap_or_else(|| VersionVector::from(stamp));
        let mut entries_of = |field: &str, value: Value| {
            let mut entries = StampedValues::new();
            for other in others.remove(field).unwrap_or_default() {
                entries.push(StampedValue {
                    stamp: other.stamp,
                    value: other.value,
                });
            }
            entries.push(StampedValue {
                stamp: stamps.remove(field).unwrap_or(stamp),
                value,
            });
            if let Some(entry) = entries.iter().find(|entry| !seen.covers(entry.stamp)) {
                return Err(LineError(format!(
                    "{field}: its stamp {} is not among those seen",
                    entry.stamp
                )));
            }
            if !entries.windows(2).all(|pair| in_order(&pair[0], &pair[1]).is_lt()) {
                return Err(LineError(format!(
                    "{field}: its values are not in the order of their stamps"
                )));
            }
            Ok(entries)
        };
        let mut fields = Vec::with_capacity(self.values.0.len());
        for (field, value) in self.values.0 {
            let entries = entries_of(&field, value)?;
            fields.push((field, entries));
        }
        if !fields.is_sorted_by(|(a, _), (b, _)| a < b) {
            fields.sort_by(|(a, _), (b, _)| a.cmp(b));
            if fields.windows(2).any(|pair| pair[0].0 == pair[1].0) {
                return Err(LineError("values: a field is there twice".to_owned()));
            }
        }
        if let Some(field) = stamps.keys().chain(others.keys()).next() {
            return Err(LineError(format!("{field}: it has a stamp but no value")));
        }
        if fields.is_empty() {
            return Err(LineError("values: there are none".to_owned()));
        }
        Ok(RecordHistory { seen, fields })
    }
}

impl RecordLine {
    /// The line as JSON, without its end.
    #[must_use]
    pub fn to_json(&self) -> String {
        line_of(self.kind, self.id, &self.known.to_json())
    }

    /// Reads a line.
    ///
    /// # Errors
    /// [`LineError`] with the field, where it is no JSON, has an unknown key, or its history
    /// contradicts itself. The values are judged by [`accept`](super::accept).
    pub fn parse(text: &str) -> Result<Self, LineError> {
        let history = History::parse(text)?;
        let missing = |key: &str| LineError(format!("{key}: it is missing"));
        Ok(RecordLine {
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

impl RecordHistory {
    /// The history as the store keeps it: a line without kind and id.
    #[must_use]
    pub fn to_json(&self) -> String {
        // Most are shorter; a text that grows is copied again and again.
        let mut bytes = Vec::with_capacity(512);
        let written = HistoryJson::of(self).is_some_and(|telling| serde_json::to_writer(&mut bytes, &telling).is_ok());
        let text = String::from_utf8(bytes).ok().filter(|_| written);
        text.unwrap_or_else(|| "{}".to_owned())
    }

    /// Reads a history as [`RecordHistory::to_json`] writes it.
    ///
    /// # Errors
    /// [`LineError`].
    pub fn parse(text: &str) -> Result<Self, LineError> {
        History::parse(text)?.known()
    }
}

/// The message without "at line 1 column 17": a line is always line 1.
fn without_place(message: &str) -> String {
    message.split(" at line ").next().unwrap_or(message).to_owned()
}
