//! Ids, times and revisions.

use serde::{Deserialize, Serialize};
use uuid::Uuid;

macro_rules! ids {
    ($( $(#[$meta:meta])* $name:ident, )*) => { $(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub Uuid);

        impl From<Uuid> for $name {
            fn from(id: Uuid) -> Self {
                Self(id)
            }
        }

        impl From<$name> for Uuid {
            fn from(id: $name) -> Self {
                id.0
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                self.0.fmt(f)
            }
        }
    )* };
}

ids! {
    /// Names a donor.
    DonorId,
    /// Names a core.
    CoreId,
    /// Names a job.
    JobId,
    /// Names a design.
    DesignId,
    /// Names a note.
    NoteId,
    /// Names a measurement.
    MeasurementId,
    /// Names a wire on the shelf.
    StockId,
    /// Names a photo.
    PhotoId,
    /// Names a winding or a run of bench tests.
    RunId,
}

/// What every record carries beside its contents.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Meta<I> {
    /// UUID version 7, given by the caller.
    pub id: I,
    /// When it was made, in milliseconds since 1970-01-01 UTC.
    pub created_ms: i64,
    /// When it was last changed, in milliseconds since 1970-01-01 UTC.
    pub edited_ms: i64,
    /// 1 when made, one more with each change.
    pub revision: u32,
}

impl<I> Meta<I> {
    /// The meta of a record made at `now_ms`.
    #[must_use]
    pub fn new(id: I, now_ms: i64) -> Self {
        Self {
            id,
            created_ms: now_ms,
            edited_ms: now_ms,
            revision: 1,
        }
    }

    /// The meta after a change at `now_ms`.
    #[must_use]
    pub fn edited(self, now_ms: i64) -> Self {
        Self {
            edited_ms: now_ms,
            revision: self.revision.saturating_add(1),
            ..self
        }
    }
}

/// Something recorded, with its id, times and revision.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Record<I, T> {
    /// Id, times and revision.
    pub meta: Meta<I>,
    /// The contents.
    pub body: T,
}

/// What a note or a measurement belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Owner {
    /// A donor.
    Donor(DonorId),
    /// A core.
    Core(CoreId),
    /// A job.
    Job(JobId),
    /// A design.
    Design(DesignId),
}
