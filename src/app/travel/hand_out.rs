//! A new shelf file on its way to the person: into the folder for downloads, in a browser as a
//! download, on a phone into the app's own storage, from where it is passed on.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Export, Progress};
use crate::app::shop::{Shop, ShopError};
use crate::exchange::{ENDING, Manifest, Passphrase};

/// A file that the person got.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Handed {
    /// What it says of itself.
    pub manifest: Manifest,
    /// Where it is; its name alone where it is a download.
    pub place: PathBuf,
    /// What is in it, where it has no path.
    pub bytes: Option<Arc<[u8]>>,
}

impl Shop {
    /// Makes a shelf file and gives it to the person.
    ///
    /// # Errors
    /// [`ShopError::Exchange`], [`ShopError::Store`]; no half a file is left.
    #[cfg(not(target_family = "wasm"))]
    pub fn hand_out_shelf(
        &mut self,
        data: &Path,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<Handed, ShopError> {
        let folder = outgoing_folder(data);
        std::fs::create_dir_all(&folder).map_err(|source| crate::exchange::ExchangeError::Disk {
            path: folder.display().to_string(),
            source,
        })?;
        let place = folder.join(new_file_name(&self.own_device()?.name));
        let manifest = self.write_shelf(&place, export, passphrase, told)?;
        Ok(Handed {
            manifest,
            place,
            bytes: None,
        })
    }

    /// Makes a shelf file and gives it to the person as a download of the browser's.
    ///
    /// # Errors
    /// [`ShopError::Exchange`], also where the browser does not take it; [`ShopError::Store`].
    #[cfg(target_family = "wasm")]
    pub fn hand_out_shelf(
        &mut self,
        _: &Path,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<Handed, ShopError> {
        let mut bytes = Vec::new();
        let (manifest, until) = self.fill_shelf(&mut bytes, export, passphrase, told)?;
        let name = new_file_name(&self.own_device()?.name);
        crate::app::page_file::download(&name, KIND, &bytes).map_err(|error| {
            crate::exchange::ExchangeError::Stopped(std::io::Error::other(format!(
                "the browser does not save the file: {error:?}"
            )))
        })?;
        self.note_sent(&export.sending, &manifest, until)?;
        Ok(Handed {
            manifest,
            place: PathBuf::from(name),
            bytes: Some(bytes.into()),
        })
    }

    /// A shelf file in memory. Nothing is noted as sent.
    ///
    /// # Errors
    /// [`ShopError::Exchange`], [`ShopError::Store`].
    pub fn pack_shelf(
        &self,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<(Vec<u8>, Manifest), ShopError> {
        let mut bytes = Vec::new();
        let (manifest, _) = self.fill_shelf(&mut bytes, export, passphrase, told)?;
        Ok((bytes, manifest))
    }
}

/// What a browser calls such a file: nothing that it would open by itself.
#[cfg(target_family = "wasm")]
const KIND: &str = "application/octet-stream";

/// Where files go that leave: the person's folder for downloads or documents, else the data folder.
#[cfg(all(not(target_family = "wasm"), not(target_os = "android")))]
fn outgoing_folder(data: &Path) -> PathBuf {
    let own = || {
        let dirs = directories::UserDirs::new()?;
        dirs.download_dir().or_else(|| dirs.document_dir()).map(Path::to_owned)
    };
    let named = std::env::var_os("CURBCORE_DATA").is_some();
    (!named)
        .then(own)
        .flatten()
        .filter(|folder| folder.is_dir())
        .unwrap_or_else(|| data.to_owned())
}

/// Where files go that leave: a folder of the app's own, out of which they are passed on.
#[cfg(target_os = "android")]
fn outgoing_folder(data: &Path) -> PathBuf {
    data.join("outgoing")
}

/// A name for a new file: the device's, and the moment.
#[must_use]
pub fn new_file_name(device: &str) -> String {
    let plain: String = device
        .chars()
        .map(|c| if c.is_alphanumeric() { c } else { '-' })
        .take(40)
        .collect();
    let device = if plain.is_empty() { "shelf" } else { &plain };
    format!("{device}-{}.{ENDING}", chrono::Local::now().format("%Y-%m-%d-%H%M%S"))
}
