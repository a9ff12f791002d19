//! Records with a row of their own: read, added, changed and deleted, all by the format's table.

use rusqlite::{Connection, OptionalExtension};
use serde::Serialize;
use serde::de::DeserializeOwned;
use serde_json::{Value, json};
use uuid::Uuid;

use super::columns::{self, ExistingRow, RowValues};
use super::edit::Edit;
use super::error::{StoreError, damaged};
use super::measurements::{self, owner_column};
use super::open::Store;
use super::rows::{self, blob};
use crate::job::{
    Check, CoreId, Design, DesignId, Donor, DonorId, Job, JobId, LeafReading, Meta, Note, NoteId, Owner, Record,
    ShelfCore, StockId, StockWire, leaf_readings, put_reading,
};
use crate::merge::{FieldShape, Kind, owner_of};

/// A record with a row of its own.
pub trait Stored: Check + Serialize + DeserializeOwned {
    /// What names it.
    type Id: RecordId<Body = Self>;
    /// Its kind.
    const KIND: Kind;
    /// The key that its readings lie under in its JSON; none where they lie at its top.
    const READINGS_KEY: Option<&'static str> = None;

    /// The readings in it.
    fn readings(&self) -> Vec<LeafReading> {
        Vec::new()
    }
}

/// The id of a record with a row of its own.
pub trait RecordId: Copy + From<Uuid> + Into<Uuid> {
    /// The record.
    type Body: Stored<Id = Self>;
}

macro_rules! stored {
    ($( $body:ident, $id:ident { $($own:tt)* } )*) => { $(
        impl Stored for $body {
            type Id = $id;
            $($own)*
        }
        impl RecordId for $id {
            type Body = $body;
        }
    )* };
}

stored! {
    Donor, DonorId {
        const KIND: Kind = Kind::Donor;
        fn readings(&self) -> Vec<LeafReading> {
            leaf_readings("donor", self)
        }
    }
    ShelfCore, CoreId {
        const KIND: Kind = Kind::Core;
        const READINGS_KEY: Option<&'static str> = Some("core");
        fn readings(&self) -> Vec<LeafReading> {
            leaf_readings("core", &self.core)
        }
    }
    Job, JobId {
        const KIND: Kind = Kind::Job;
        const READINGS_KEY: Option<&'static str> = Some("mains");
        fn readings(&self) -> Vec<LeafReading> {
            leaf_readings("mains", &self.mains)
        }
    }
    Design, DesignId {
        const KIND: Kind = Kind::Design;
    }
    Note, NoteId {
        const KIND: Kind = Kind::Note;
    }
    StockWire, StockId {
        const KIND: Kind = Kind::Stock;
    }
}

/// Who has readings as a part of its record.
fn readings_owner(kind: Kind, id: Uuid) -> Option<Owner> {
    match kind {
        Kind::Donor => Some(Owner::Donor(DonorId(id))),
        Kind::Core => Some(Owner::Core(CoreId(id))),
        Kind::Job => Some(Owner::Job(JobId(id))),
        _ => None,
    }
}

/// A record by its id.
///
/// # Errors
/// [`StoreError::NotFound`]; [`StoreError::Damaged`] where its row makes up no record.
pub(super) fn read<I: RecordId>(connection: &Connection, id: I) -> Result<Record<I, I::Body>, StoreError> {
    let kind = I::Body::KIND;
    let uuid: Uuid = id.into();
    let fields = columns::read_row(connection, kind, uuid)?.ok_or(StoreError::NotFound { what: kind.word() })?;
    let mut record = columns::json_of(kind, &fields);
    if let Some(owner) = readings_owner(kind, uuid) {
        let place = match I::Body::READINGS_KEY {
            Some(key) => &mut record[key],
            None => &mut record,
        };
        measurements::current(connection, owner)?
            .iter()
            .for_each(|leaf| put_reading(place, leaf));
    }
    Ok(Record {
        meta: meta(connection, id)?,
        body: serde_json::from_value(record).map_err(|e| damaged(kind.word(), e))?,
    })
}

/// The records that a query names, in its order.
pub(super) fn read_all<I: RecordId>(
    connection: &Connection,
    query: &str,
    arguments: impl rusqlite::Params,
) -> Result<Vec<Record<I, I::Body>>, StoreError> {
    rows::ids(connection, query, arguments)?
        .into_iter()
        .map(|id| read(connection, I::from(id)))
        .collect()
}

/// Times and revision of a record.
fn meta<I: RecordId>(connection: &Connection, id: I) -> Result<Meta<I>, StoreError> {
    let table = I::Body::KIND.word();
    connection
        .prepare_cached(&format!(
            "SELECT created_ms, edited_ms, revision FROM {table} WHERE id = ?1"
        ))?
        .query_row([blob(id.into())], |row| {
            Ok(Meta {
                id,
                created_ms: row.get(0)?,
                edited_ms: row.get(1)?,
                revision: row.get(2)?,
            })
        })
        .optional()?
        .ok_or(StoreError::NotFound { what: table })
}

impl Edit<'_> {
    /// Adds a record.
    ///
    /// # Errors
    /// [`StoreError::Field`] for a number or text that is not accepted; [`StoreError::NotFound`] for something
    /// that it names and that is not there.
    pub fn insert<T: Stored>(&self, body: &T) -> Result<T::Id, StoreError> {
        let id = self.new_id();
        self.write(body, id, self.now_ms)?;
        Ok(id.into())
    }

    /// Changes a record that has this revision, and gives its new revision.
    ///
    /// # Errors
    /// As [`Edit::insert`]; [`StoreError::NotFound`]; [`StoreError::StaleRevision`].
    pub fn update<I: RecordId>(&self, id: I, expected: u32, body: &I::Body) -> Result<u32, StoreError> {
        let found = meta(self.transaction, id)?;
        if found.revision != expected {
            return Err(StoreError::StaleRevision {
                what: I::Body::KIND.word(),
                expected,
                found: found.revision,
            });
        }
        self.write(body, id.into(), found.created_ms)?;
        Ok(expected.saturating_add(1))
    }

    /// Deletes a record with what belongs to it: a donor with its notes and photos (cores that came from it
    /// stay), a job with its designs, runs, notes and measurements (its core stays).
    ///
    /// # Errors
    /// [`StoreError::NotFound`]; [`StoreError::CoreInUse`] for a core while jobs use it.
    pub fn delete<I: RecordId>(&self, id: I) -> Result<(), StoreError> {
        let kind = I::Body::KIND;
        let uuid: Uuid = id.into();
        if kind == Kind::Core {
            let jobs: u32 =
                self.transaction
                    .query_row("SELECT count(*) FROM job WHERE core_id = ?1", [blob(uuid)], |row| {
                        row.get(0)
                    })?;
            if jobs > 0 {
                return Err(StoreError::CoreInUse { jobs });
            }
        }
        let statement = format!("DELETE FROM {} WHERE id = ?1", kind.word());
        match self.transaction.execute(&statement, [blob(uuid)])? {
            0 => Err(StoreError::NotFound { what: kind.word() }),
            _ => Ok(()),
        }
    }

    fn write<T: Stored>(&self, body: &T, id: Uuid, created_ms: i64) -> Result<(), StoreError> {
        body.check()?;
        let record = serde_json::to_value(body).map_err(|e| damaged("writing", e))?;
        let mut fields = columns::fields_of(T::KIND, &record);
        self.names_what_is_there(T::KIND, &fields)?;
        fields.insert("created_ms".to_owned(), json!(created_ms));
        fields.insert("edited_ms".to_owned(), json!(self.now_ms));
        let values = RowValues::of_fields(&fields);
        columns::write_row(self.transaction, T::KIND, id, &values, ExistingRow::Unknown)?;
        match readings_owner(T::KIND, id) {
            Some(owner) => self.save_readings(owner, &body.readings()),
            None => Ok(()),
        }
    }

    /// Makes sure that the records which a record names are there.
    fn names_what_is_there(
        &self,
        kind: Kind,
        fields: &std::collections::BTreeMap<String, Value>,
    ) -> Result<(), StoreError> {
        for field in kind.fields() {
            let Some(value) = fields.get(field.key) else { continue };
            let named = match field.shape {
                FieldShape::Owner => owner_of(value),
                FieldShape::Id(named) => value.as_str().and_then(|id| id.parse().ok()).map(|id| (named, id)),
                _ => None,
            };
            if let Some((named, id)) = named {
                rows::exists(self.transaction, named.word(), id)?;
            }
        }
        Ok(())
    }
}

impl Store {
    /// A donor by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn donor(&self, id: DonorId) -> Result<Record<DonorId, Donor>, StoreError> {
        read(&self.connection, id)
    }

    /// All donors, newest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn donors(&self) -> Result<Vec<Record<DonorId, Donor>>, StoreError> {
        read_all(
            &self.connection,
            "SELECT id FROM donor ORDER BY created_ms DESC, id DESC",
            [],
        )
    }

    /// A core by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn core(&self, id: CoreId) -> Result<Record<CoreId, ShelfCore>, StoreError> {
        read(&self.connection, id)
    }

    /// All cores, newest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn cores(&self) -> Result<Vec<Record<CoreId, ShelfCore>>, StoreError> {
        read_all(
            &self.connection,
            "SELECT id FROM core ORDER BY created_ms DESC, id DESC",
            [],
        )
    }

    /// A job by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn job(&self, id: JobId) -> Result<Record<JobId, Job>, StoreError> {
        read(&self.connection, id)
    }

    /// A design by its id.
    ///
    /// # Errors
    /// [`StoreError::NotFound`].
    pub fn design(&self, id: DesignId) -> Result<Record<DesignId, Design>, StoreError> {
        read(&self.connection, id)
    }

    /// The designs of a job, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn designs_of(&self, job: JobId) -> Result<Vec<Record<DesignId, Design>>, StoreError> {
        let query = "SELECT id FROM design WHERE job_id = ?1 ORDER BY created_ms, id";
        read_all(&self.connection, query, [blob(job.0)])
    }

    /// The notes on something, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn notes_of(&self, owner: Owner) -> Result<Vec<Record<NoteId, Note>>, StoreError> {
        let (column, id, _) = owner_column(owner);
        let query = format!("SELECT id FROM note WHERE {column} = ?1 ORDER BY created_ms, id");
        read_all(&self.connection, &query, [blob(id)])
    }

    /// The wires on the shelf, oldest first.
    ///
    /// # Errors
    /// [`StoreError::Disk`], [`StoreError::DiskFull`] or [`StoreError::Damaged`] if the data file fails.
    pub fn stock(&self) -> Result<Vec<Record<StockId, StockWire>>, StoreError> {
        read_all(&self.connection, "SELECT id FROM stock ORDER BY created_ms, id", [])
    }
}
