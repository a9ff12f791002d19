//! The place of an exported file: the downloads folder, a download of the browser, or on a phone the app's
//! own storage, from where it is shared.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Export, Progress};
use crate::app::workspace::{Workspace, WorkspaceError};
use crate::exchange::{ENDING, Manifest, Passphrase};

/// An exported file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ExportedFile {
    /// The file's manifest.
    pub manifest: Manifest,
    /// Its path; its name alone if it is a download.
    pub place: PathBuf,
    /// Its contents, if it has no path.
    pub bytes: Option<Arc<[u8]>>,
}

impl Workspace {
    /// Exports a shelf file to the downloads folder, or the data folder where there is none.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], [`WorkspaceError::Store`]; no half a file is left.
    #[cfg(not(target_family = "wasm"))]
    pub fn export_file(
        &mut self,
        data: &Path,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<ExportedFile, WorkspaceError> {
        let folder = outgoing_folder(data);
        std::fs::create_dir_all(&folder).map_err(|source| crate::exchange::ExchangeError::Disk {
            path: folder.display().to_string(),
            source,
        })?;
        let place = folder.join(new_file_name(&self.store.own()?.name));
        let manifest = self.export_shelf(&place, export, passphrase, told)?;
        Ok(ExportedFile {
            manifest,
            place,
            bytes: None,
        })
    }

    /// Exports a shelf file as a download of the browser.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], also where the browser does not take it; [`WorkspaceError::Store`].
    #[cfg(target_family = "wasm")]
    pub fn export_file(
        &mut self,
        _: &Path,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<ExportedFile, WorkspaceError> {
        let mut told = told;
        let (bytes, manifest, until) = super::in_some_packing(|packing| {
            let mut bytes = Vec::new();
            let (manifest, until) = self.write_export(&mut bytes, export, passphrase, packing, &mut told)?;
            Ok((bytes, manifest, until))
        })?;
        let name = new_file_name(&self.store.own()?.name);
        crate::app::page_file::download(&name, KIND, &bytes).map_err(|error| {
            crate::exchange::ExchangeError::Stopped(std::io::Error::other(format!(
                "the browser does not save the file: {error:?}"
            )))
        })?;
        self.note_sent(&export.sending, &manifest, until)?;
        Ok(ExportedFile {
            manifest,
            place: PathBuf::from(name),
            bytes: Some(bytes.into()),
        })
    }

    /// Exports a shelf file to memory, without recording what was sent.
    ///
    /// # Errors
    /// [`WorkspaceError::Exchange`], [`WorkspaceError::Store`].
    pub fn export_bytes(
        &self,
        export: &Export,
        passphrase: Option<&Passphrase>,
        told: impl FnMut(&Progress),
    ) -> Result<(Vec<u8>, Manifest), WorkspaceError> {
        let mut told = told;
        super::in_some_packing(|packing| {
            let mut bytes = Vec::new();
            let (manifest, _) = self.write_export(&mut bytes, export, passphrase, packing, &mut told)?;
            Ok((bytes, manifest))
        })
    }
}

/// The file's media type: one that no browser opens by itself.
#[cfg(target_family = "wasm")]
const KIND: &str = "application/octet-stream";

/// The folder for exported files: downloads or documents, else the data folder.
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

/// The folder for exported files: one of the app's own, from which they are shared.
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
