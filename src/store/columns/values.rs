//! What a row is to say.

use std::collections::BTreeMap;

use serde_json::Value;

use crate::merge::RecordHistory;

/// Where the values of a row come from.
#[derive(Debug, Clone, Copy)]
enum Source<'a> {
    /// What is known of a record: the values shown.
    Known(&'a RecordHistory),
    /// A record that the person changed, by field.
    Fields(&'a BTreeMap<String, Value>),
}

/// The values of a row: those of a record, but for some fields.
#[derive(Debug, Clone)]
pub(in crate::store) struct RowValues<'a> {
    source: Source<'a>,
    but: Vec<(&'a str, Option<&'a Value>)>,
}

impl<'a> RowValues<'a> {
    /// What is known of a record.
    pub(in crate::store) fn of(known: &'a RecordHistory) -> Self {
        RowValues {
            source: Source::Known(known),
            but: Vec::new(),
        }
    }

    /// The fields of a record.
    pub(in crate::store) fn of_fields(fields: &'a BTreeMap<String, Value>) -> Self {
        RowValues {
            source: Source::Fields(fields),
            but: Vec::new(),
        }
    }

    /// Another value of a field, or none.
    pub(in crate::store) fn but(&mut self, field: &'a str, value: Option<&'a Value>) {
        self.but.retain(|(other, _)| *other != field);
        self.but.push((field, value));
    }

    /// A field's value.
    pub(in crate::store) fn get(&self, field: &str) -> Option<&'a Value> {
        let other = self.but.iter().find(|(other, _)| *other == field);
        other.map_or_else(
            || match self.source {
                Source::Known(known) => known.shown(field),
                Source::Fields(fields) => fields.get(field),
            },
            |(_, value)| *value,
        )
    }

    /// The fields whose name begins with a prefix, in order.
    pub(super) fn under(&self, prefix: &'a str) -> Vec<(&'a str, &'a Value)> {
        let names: Vec<&'a str> = match self.source {
            Source::Known(known) => known.values_under(prefix).map(|(field, _)| field).collect(),
            Source::Fields(fields) => fields
                .range(prefix.to_owned()..)
                .map(|(field, _)| field.as_str())
                .take_while(|field| field.starts_with(prefix))
                .collect(),
        };
        names
            .into_iter()
            .filter_map(|field| Some((field, self.get(field)?)))
            .collect()
    }
}
