//! The only owner of the disk: SQLite in one folder, one writer at a time.
//!
//! Reading is by methods of [`Store`]. Every change goes through [`Store::edit`]: one named
//! operation, one transaction, one step of undo.

mod backup;
mod clock;
mod columns;
mod conflicts;
mod core_photos;
#[cfg(not(target_family = "wasm"))]
mod disk;
mod documents;
mod edit;
mod error;
mod export;
mod folder;
mod guided;
mod histories;
mod ids;
#[cfg(any(test, target_family = "wasm"))]
mod image;
mod import;
mod jobs;
mod ledger;
mod measurements;
mod migrations;
mod op;
mod open;
mod photos;
mod records;
mod remote_histories;
mod rows;
mod search;
mod settings;
#[cfg(test)]
mod tests;
mod undo;
mod validate;
#[cfg(target_family = "wasm")]
mod web;

pub use backup::{Backup, backups, restore_backup, verify_and_back_up};
pub use clock::Clock;
pub use conflicts::{Conflict, Side};
pub use core_photos::CorePhoto;
pub use documents::StoredJob;
pub use edit::Edit;
pub use error::StoreError;
pub use export::{ExportScope, Peer};
pub use folder::{data_folder, private_files, private_folder};
pub use guided::{History, JobProcedure, JobRun};
pub use import::{ImportMode, ImportSummary, Importer, Tally};
pub use jobs::{Cursor, JobSummary};
pub use ledger::LocalDevice;
pub use op::Op;
pub use open::Store;
pub use photos::{MAX_PHOTO_BYTES, Photo};
pub use records::{RecordId, Stored};
pub use remote_histories::RemoteHistory;
pub use settings::Setting;
#[cfg(target_family = "wasm")]
pub use web::fetch_data;

#[cfg(target_family = "wasm")]
use web as disk;
