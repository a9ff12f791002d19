//! What the desk does with other devices: files out and in, two values, good copies.

use std::path::{Path, PathBuf};

use uuid::Uuid;

use super::Desk;
use crate::app::guard::guarded;
use crate::app::materials::materials_table;
use crate::app::shop::Shop;
use crate::app::sync::{Sending, copies};
use crate::exchange::table;
use crate::job::JobId;
use crate::merge::Kind;
use crate::store::{Backup, Conflict, Peer, RemoteHistory, StoreError};

impl Desk {
    /// Lends the shop to a longer piece of work; until it is given back, nothing else happens.
    pub fn lend(&mut self) -> Option<Shop> {
        let lent = std::mem::replace(&mut self.shop, Err(String::new()));
        match lent {
            Ok(shop) => {
                self.lent = true;
                Some(shop)
            }
            Err(why) => {
                self.shop = Err(why);
                None
            }
        }
    }

    /// Takes the shop back.
    pub fn give_back(&mut self, shop: Shop) {
        self.shop = Ok(shop);
        self.lent = false;
        self.reload();
        self.list_again();
    }

    /// Whether the shop is lent.
    #[must_use]
    pub fn is_lent(&self) -> bool {
        self.lent
    }

    /// What this device is called; empty where nobody named it.
    #[must_use]
    pub fn device_name(&self) -> String {
        let own = self.shop.as_ref().ok().and_then(|shop| shop.own_device().ok());
        own.map(|own| own.name).unwrap_or_default()
    }

    /// Names this device.
    pub fn name_device(&mut self, name: &str) {
        self.with_shop(|shop| shop.name_device(name));
    }

    /// The devices that files came from.
    #[must_use]
    pub fn peers(&self) -> Vec<Peer> {
        self.shop
            .as_ref()
            .ok()
            .and_then(|shop| shop.peers().ok())
            .unwrap_or_default()
    }

    /// Everything, or the job in hand, or what is new for a device.
    #[must_use]
    pub fn sending(&self, word: &str) -> Sending {
        match (word, self.job_id()) {
            ("job", Some(id)) => Sending::Jobs(vec![id]),
            (number, _) => number.parse().map_or(Sending::All, Sending::NewFor),
        }
    }

    /// How many records have two values in a field.
    #[must_use]
    pub fn conflict_count(&self) -> u32 {
        self.shop.as_ref().map_or(0, Shop::conflict_count)
    }

    /// The fields with two values.
    #[must_use]
    pub fn conflicts(&self) -> Vec<Conflict> {
        self.shop
            .as_ref()
            .ok()
            .and_then(|shop| shop.conflicts(100).ok())
            .unwrap_or_default()
    }

    /// Settles one.
    pub fn settle(&mut self, kind: Kind, id: Uuid, field: &str, side: usize) {
        self.with_shop(|shop| shop.resolve_conflict(kind, id, field, side));
        self.reload();
        self.list_again();
    }

    /// Tells that the check of the data found it damaged, or that no copy could be made. Where it is
    /// damaged, nothing more is done with it.
    pub fn checked(&mut self, found: &Result<bool, StoreError>) {
        match found {
            Ok(_) => {}
            Err(StoreError::Damaged { .. }) => {
                self.shop = Err(found.as_ref().err().map(ToString::to_string).unwrap_or_default());
            }
            Err(error) => {
                tracing::warn!("no copy was made: {error}");
                self.notice = Some(error.to_string());
            }
        }
    }

    /// Saves the job's drawings; gives the folder.
    pub fn save_drawings(&mut self) -> Option<PathBuf> {
        let unit = self.unit();
        let answer = self.answer()?.ok()?;
        let drawings = guarded(|| crate::report::drawings(answer, unit)).ok()?;
        let files: Vec<(String, String)> = drawings
            .into_iter()
            .map(|(name, svg)| (format!("{name}.svg"), svg))
            .collect();
        self.save_files(self.job_id()?, &files)
    }

    /// Saves the job's tables; gives the folder.
    pub fn save_tables(&mut self) -> Option<PathBuf> {
        let id = self.job_id()?;
        let measured = self.with_shop(|shop| shop.measurements_table(id))?;
        let mut files = vec![("measurements.csv".to_owned(), table(&measured))];
        if let Some(design) = self
            .answer()
            .and_then(Result::ok)
            .and_then(|answer| answer.design.as_ref())
        {
            files.push(("materials.csv".to_owned(), table(&materials_table(&design.materials))));
        }
        self.save_files(self.job_id()?, &files)
    }

    pub(super) fn save_files(&mut self, job: JobId, files: &[(String, String)]) -> Option<PathBuf> {
        match crate::app::save_files(&self.folder, job, files) {
            Ok(place) => Some(place),
            Err(message) => {
                self.notice = Some(message);
                None
            }
        }
    }

    /// What was done in the donor's teardown on other devices.
    #[must_use]
    pub fn remote_teardowns(&self) -> Vec<RemoteHistory> {
        let (Ok(shop), Some(donor)) = (&self.shop, self.donor) else {
            return Vec::new();
        };
        shop.remote_teardowns(donor).unwrap_or_default()
    }

    /// What was done in the job's tests on other devices.
    #[must_use]
    pub fn remote_bench_runs(&self) -> Vec<RemoteHistory> {
        let (Ok(shop), Some(job)) = (&self.shop, self.job_id()) else {
            return Vec::new();
        };
        shop.remote_bench_runs(job).unwrap_or_default()
    }

    /// The folder of the data.
    #[must_use]
    pub fn folder(&self) -> PathBuf {
        self.folder.clone()
    }

    /// The last good copies of the data.
    #[must_use]
    pub fn copies(&self) -> Vec<Backup> {
        copies::of(&self.folder)
    }

    /// Goes back to a copy, and opens it.
    pub fn restore_backup(&mut self, copy: &Backup) {
        self.shop = Err(String::new());
        let gone_back = copies::go_back(&self.folder, copy);
        let folder: &Path = &self.folder.clone();
        *self = Desk::open(folder);
        if let Err(error) = gone_back {
            self.notice = Some(error.to_string());
        }
    }
}
