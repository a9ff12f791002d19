//! What a person can do, as plain functions over store and core: one use case each, no widgets.

pub mod answer;
pub mod behaviour;
pub mod bench;
pub mod donors;
pub mod listing;
pub mod materials;
pub mod now;
pub mod photo;
pub mod shop;
pub mod start;
pub mod summary;
pub mod teardown;
pub mod translate;
pub mod travel;
pub mod verdict;

use std::path::{Path, PathBuf};

/// Writes a job's page into the folder `pages` of the data folder and gives its path.
///
/// # Errors
/// A sentence for the person, where the folder or the file cannot be written.
pub fn save_page(folder: &Path, job: crate::job::JobId, page: &str) -> Result<PathBuf, String> {
    let pages = folder.join("pages");
    let path = pages.join(format!("{job}.html"));
    let written = std::fs::create_dir_all(&pages).and_then(|()| std::fs::write(&path, page));
    written.map_err(|error| format!("The page cannot be written to {}: {error}.", path.display()))?;
    Ok(path)
}

/// Writes files of a job into a folder of its own below `pages`, and tells where.
///
/// # Errors
/// A sentence that says what the disk says.
pub fn save_files(folder: &Path, job: crate::job::JobId, files: &[(String, String)]) -> Result<PathBuf, String> {
    let place = folder.join("pages").join(job.to_string());
    let written = std::fs::create_dir_all(&place).and_then(|()| {
        files
            .iter()
            .try_for_each(|(name, text)| std::fs::write(place.join(name), text))
    });
    written.map_err(|error| format!("The files cannot be written to {}: {error}.", place.display()))?;
    Ok(place)
}
