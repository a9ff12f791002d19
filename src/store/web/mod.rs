//! The browser's half of the store. SQLite works on files in memory; at each commit the blocks of
//! the data file that have changed go to the browser's database, as one transaction of it. So a
//! page that is killed leaves the data of its last commit or of the one before, and never half.
//!
//! A browser hands out its own files (OPFS) only to a worker, and the screens cannot live there.

mod keep;
mod lock;
mod script;
mod vfs;

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;

use super::error::StoreError;
use super::folder::FILE;
use super::image::Image;
use crate::merge::Device;

/// The folder that the data file is said to lie in.
const FOLDER: &str = "/curbcore";

thread_local! {
    static STATE: RefCell<Result<Rc<RefCell<Image>>, Refusal>> =
        RefCell::new(Err(Refusal::NoPlace("it was not asked for one yet".to_owned())));
}

/// Why there are no data in this page.
#[derive(Debug, Clone)]
enum Refusal {
    /// Another page has them.
    InUse,
    /// The browser gives no place for them.
    NoPlace(String),
}

impl From<Refusal> for StoreError {
    fn from(refusal: Refusal) -> Self {
        match refusal {
            Refusal::InUse => StoreError::InUseElsewhere {
                path: "Curbcore".into(),
            },
            Refusal::NoPlace(detail) => StoreError::Browser { detail },
        }
    }
}

/// Fetches the data from the browser's database, before the store is opened. Where that fails,
/// opening tells why. `troubled` is called whenever changes could not be kept, with the reason.
pub async fn fetch_data(troubled: impl Fn(String) + 'static) {
    let state = fetch(Box::new(troubled)).await;
    STATE.set(state);
}

async fn fetch(troubled: Box<dyn Fn(String)>) -> Result<Rc<RefCell<Image>>, Refusal> {
    if !lock::take().await.map_err(Refusal::NoPlace)? {
        return Err(Refusal::InUse);
    }
    let image = keep::fetch(troubled).await.map_err(Refusal::NoPlace)?;
    let path = Path::new(FOLDER).join(FILE);
    vfs::install(&path.to_string_lossy(), Rc::clone(&image)).map_err(Refusal::NoPlace)?;
    Ok(image)
}

/// Where the data file is said to lie.
pub(super) fn own_folder() -> Option<PathBuf> {
    Some(PathBuf::from(FOLDER))
}

/// What stands for the folder's lock: the page holds it until it is closed.
pub(super) type Lock = ();

/// Whether the data were fetched and are this page's.
pub(super) fn lock(_: &Path) -> Result<Lock, StoreError> {
    STATE.with_borrow(|state| state.as_ref().map(|_| ()).map_err(|refusal| refusal.clone().into()))
}

/// What tells this place from a copy of it: a browser's database is not copied.
pub(super) fn home(_: &Lock) -> String {
    "browser".to_owned()
}

/// The folder of the copies: none are made in a browser.
pub(super) const COPIES: &str = "backups";

/// How far the data had come when they were last written. A browser's database is not put back from
/// elsewhere, so nothing is kept of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Mark {
    pub(super) device: Device,
    pub(super) changes: i64,
}

pub(super) fn was_put_back(_: &Lock, _: Mark) -> bool {
    false
}

pub(super) fn set_mark(_: &Lock, _: Mark) {}

pub(super) fn had_data(_: &Path) -> bool {
    false
}

pub(super) fn has_copies(_: &Path) -> bool {
    false
}

// A browser's data are the page's alone.
pub(super) fn make_private(_: &Path) -> Result<(), StoreError> {
    Ok(())
}

pub(super) fn make_file_private(_: &Path) -> Result<(), StoreError> {
    Ok(())
}

pub(super) fn close_files(_: &Path) -> Result<(), StoreError> {
    Ok(())
}

pub(super) fn prepare_file(_: &Path) -> Result<(), StoreError> {
    Ok(())
}

/// The file's first bytes and its length; none where there is no file.
pub(super) fn first_bytes(_: &Path) -> Result<Option<([u8; 100], u64)>, StoreError> {
    STATE.with_borrow(|state| {
        let image = state
            .as_ref()
            .map_err(|refusal| StoreError::from(refusal.clone()))?
            .borrow();
        let mut header = [0; 100];
        image.read(&mut header, 0);
        Ok((image.length() > 0).then_some((header, image.length())))
    })
}

/// There is no write-ahead log in a browser.
pub(super) fn has_log(_: &Path) -> bool {
    false
}
