//! What is known of a record, field by field, and the merge.

use std::cmp::Ordering;

use compact_str::CompactString;
use serde::Serialize;
use serde_json::Value;
use smallvec::SmallVec;

use super::stamp::{Stamp, VersionVector};

/// The field that says that a record was removed.
pub const REMOVED: &str = "removed";

/// A value with the change that wrote it.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StampedValue {
    /// Which change.
    pub stamp: Stamp,
    /// What it wrote.
    pub value: Value,
}

/// The values of a field, the latest last; never none, and seldom more than one.
pub(super) type StampedValues = SmallVec<[StampedValue; 1]>;

/// What is known of a record. Each field has the values that nobody who saw them has replaced:
/// one, or, where devices changed it without knowing of each other, one of each.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RecordHistory {
    pub(super) seen: VersionVector,
    /// In the order of their names: a record has a dozen, which a list holds best.
    pub(super) fields: Vec<(CompactString, StampedValues)>,
}

impl RecordHistory {
    /// A new record.
    #[must_use]
    pub fn new(stamp: Stamp, values: impl IntoIterator<Item = (String, Value)>) -> Self {
        let mut known = RecordHistory::default();
        for (field, value) in values {
            known.write(stamp, &field, value);
        }
        known.seen.add(stamp);
        known
    }

    /// How far this history is known.
    #[must_use]
    pub fn seen(&self) -> &VersionVector {
        &self.seen
    }

    /// Writes a field, knowing all that is known here.
    pub fn write(&mut self, stamp: Stamp, field: &str, value: Value) {
        self.seen.add(stamp);
        let entries = self.entries_mut(field);
        entries.clear();
        entries.push(StampedValue { stamp, value });
    }

    /// Removes the record. Its values stay known, so that its return needs only a word.
    pub fn remove(&mut self, stamp: Stamp) {
        self.write(stamp, REMOVED, Value::Bool(true));
    }

    /// Takes some fields as another history of the record has them.
    pub fn take_fields(&mut self, from: &RecordHistory, which: impl Fn(&str) -> bool) {
        self.fields.retain(|(field, _)| !which(field));
        self.fields
            .extend(from.fields.iter().filter(|(field, _)| which(field)).cloned());
        self.fields.sort_by(|(one, _), (other, _)| one.cmp(other));
    }

    /// Whether the record is gone. A removal beats a return that did not know of it, and changes
    /// that did not know of it: what was removed comes back only by being put back.
    #[must_use]
    pub fn is_removed(&self) -> bool {
        self.entries(REMOVED)
            .iter()
            .any(|entry| entry.value == Value::Bool(true))
    }

    /// The values of a field, the latest last; empty where it was never written.
    #[must_use]
    pub fn entries(&self, field: &str) -> &[StampedValue] {
        self.place(field).map_or(&[], |at| self.fields[at].1.as_slice())
    }

    /// Where a field is in the list, or where it would be.
    fn place(&self, field: &str) -> Result<usize, usize> {
        self.fields.binary_search_by(|(name, _)| name.as_str().cmp(field))
    }

    fn entries_mut(&mut self, field: &str) -> &mut StampedValues {
        let at = self.place(field).unwrap_or_else(|at| {
            self.fields.insert(at, (field.into(), StampedValues::new()));
            at
        });
        &mut self.fields[at].1
    }

    /// The value to show: that of the highest stamp, the same on every device.
    #[must_use]
    pub fn shown(&self, field: &str) -> Option<&Value> {
        self.entries(field).last().map(|entry| &entry.value)
    }

    /// Names and shown values of all fields but the removal's.
    pub fn values(&self) -> impl Iterator<Item = (&str, &Value)> {
        self.fields
            .iter()
            .filter(|(field, _)| *field != REMOVED)
            .filter_map(|(field, entries)| Some((field.as_str(), &entries.last()?.value)))
    }

    /// As [`RecordHistory::values`], of the fields whose name begins with a prefix.
    pub fn values_under<'a>(&'a self, prefix: &'a str) -> impl Iterator<Item = (&'a str, &'a Value)> {
        let first = self.fields.partition_point(|(field, _)| field.as_str() < prefix);
        self.fields[first..]
            .iter()
            .take_while(move |(field, _)| field.starts_with(prefix))
            .filter_map(|(field, entries)| Some((field.as_str(), &entries.last()?.value)))
    }

    /// The fields that have more than one value: changed in two places to different things.
    pub fn conflicts(&self) -> impl Iterator<Item = (&str, &[StampedValue])> {
        self.fields
            .iter()
            .filter(|(field, _)| !matches!(field.as_str(), REMOVED | "created_ms" | "edited_ms"))
            .filter(|(_, entries)| entries.iter().any(|entry| entry.value != entries[0].value))
            .map(|(field, entries)| (field.as_str(), entries.as_slice()))
    }

    /// Two histories of the same record become one: a value stays if both have it, or if the
    /// side that lacks it has not seen it. (An observed-remove map of multi-value registers:
    /// Shapiro et al., "A comprehensive study of convergent and commutative replicated data
    /// types", INRIA RR-7506, 2011; with version vectors as contexts: Almeida, Shoker and
    /// Baquero, "Delta state replicated data types", 2018.)
    #[must_use]
    pub fn merge(&self, other: &RecordHistory) -> RecordHistory {
        let mut merged = self.clone();
        merged.merge_in(other);
        merged
    }

    /// As [`RecordHistory::merge`], in place; tells whether anything new came in.
    pub fn merge_in(&mut self, other: &RecordHistory) -> bool {
        if self == other {
            return false;
        }
        let before = self.clone();
        for (field, entries) in &mut self.fields {
            let theirs = other.entries(field);
            entries.retain(|entry| stays(entry, theirs, &other.seen));
        }
        for (field, entries) in &other.fields {
            let known = before.entries(field);
            let ours = self.entries_mut(field);
            for entry in entries {
                if !ours.contains(entry) && stays(entry, known, &before.seen) {
                    ours.push(entry.clone());
                }
            }
        }
        // Each side replaced the other's value without knowing of it, which only stamps that were
        // given twice can say. Both stay, as a conflict.
        for (field, entries) in &mut self.fields {
            if entries.is_empty() {
                entries.extend(before.entries(field).iter().cloned());
                for entry in other.entries(field) {
                    if !entries.contains(entry) {
                        entries.push(entry.clone());
                    }
                }
            }
            entries.sort_by(in_order);
        }
        self.seen.join(&other.seen);
        *self != before
    }
}

/// Whether a value stays where another history meets it: that has it too, has not seen the change that
/// wrote it, or has another value with the same stamp (a device that was copied gave it twice).
fn stays(entry: &StampedValue, others: &[StampedValue], seen: &VersionVector) -> bool {
    !seen.covers(entry.stamp) || others.iter().any(|other| other.stamp == entry.stamp)
}

/// The order of a field's values: that of their stamps, and of their JSON where a stamp was given twice.
pub(super) fn in_order(one: &StampedValue, other: &StampedValue) -> Ordering {
    one.stamp
        .cmp(&other.stamp)
        .then_with(|| one.value.to_string().cmp(&other.value.to_string()))
}
