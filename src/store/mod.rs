//! The only owner of the disk: SQLite in one folder, one writer at a time.
//!
//! Reading is by methods of [`Store`]. Every change goes through [`Store::edit`]: one named
//! operation, one transaction, one step of undo.

mod arrive;
mod backup;
mod carried;
mod clock;
mod columns;
mod core_photos;
mod cores;
mod designs;
#[cfg(not(target_family = "wasm"))]
mod disk;
mod documents;
mod donors;
mod edit;
mod error;
mod folder;
mod forks;
mod guided;
mod histories;
mod ids;
#[cfg(any(test, target_family = "wasm"))]
mod image;
mod jobs;
mod judge;
mod leave;
mod ledger;
mod measurements;
mod migrations;
mod notes;
mod open;
mod photos;
mod rows;
mod search;
mod settings;
mod stock;
#[cfg(test)]
mod tests;
mod undo;
#[cfg(target_family = "wasm")]
mod web;

pub use arrive::{Arrival, Arriving, Mode, Tally};
pub use backup::{Backup, backups, check_and_copy, go_back_to};
pub use carried::Carried;
pub use clock::Clock;
pub use core_photos::CorePhoto;
pub use edit::Edit;
pub use error::StoreError;
pub use folder::{data_folder, private_files, private_folder};
pub use forks::{Fork, Side};
pub use guided::BenchRun;
pub use jobs::{Cursor, JobSummary};
pub use leave::{Peer, Which};
pub use ledger::Own;
pub use open::Store;
pub use photos::{MAX_PHOTO_BYTES, Photo};
pub use settings::Setting;
#[cfg(target_family = "wasm")]
pub use web::fetch_data;

#[cfg(target_family = "wasm")]
use web as disk;
