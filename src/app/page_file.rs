//! The page, drawings and tables as files: in the data folder, or in a browser as downloads.

use std::path::{Path, PathBuf};

use crate::job::JobId;
use crate::words::Message;

/// Writes a job's page into the folder `pages` of the data folder and gives its path.
///
/// # Errors
/// A sentence for the person, where the folder or the file cannot be written.
#[cfg(not(target_family = "wasm"))]
pub fn save_page(folder: &Path, job: JobId, page: &str) -> Result<PathBuf, Message> {
    let pages = folder.join("pages");
    let path = pages.join(format!("{job}.html"));
    let written = std::fs::create_dir_all(&pages).and_then(|()| write_private(&path, page));
    written.map_err(|error| not_written(&path, &error))?;
    Ok(path)
}

/// Hands a job's page to the browser as a download and gives the file's name.
///
/// # Errors
/// A sentence for the person, where the browser does not take it.
#[cfg(target_family = "wasm")]
pub fn save_page(_: &Path, job: JobId, page: &str) -> Result<PathBuf, Message> {
    let name = format!("curbcore-{job}.html");
    download(&name, "text/html", page.as_bytes()).map_err(|error| not_downloaded(&name, &error))?;
    Ok(PathBuf::from(name))
}

/// Writes files of a job into a folder of its own below `pages`, and tells where.
///
/// # Errors
/// The sentence to show where the folder or a file cannot be written.
#[cfg(not(target_family = "wasm"))]
pub fn save_files(folder: &Path, job: JobId, files: &[(String, String)]) -> Result<PathBuf, Message> {
    let place = folder.join("pages").join(job.to_string());
    let written = std::fs::create_dir_all(&place).and_then(|()| {
        files
            .iter()
            .try_for_each(|(name, text)| write_private(&place.join(name), text))
    });
    written.map_err(|error| not_written(&place, &error))?;
    Ok(place)
}

#[cfg(not(target_family = "wasm"))]
fn not_written(path: &Path, error: &std::io::Error) -> Message {
    Message::new("refused-file")
        .with("path", path.display())
        .with("system", error)
}

#[cfg(target_family = "wasm")]
fn not_downloaded(name: &str, error: &wasm_bindgen::JsValue) -> Message {
    tracing::error!("a download: {error:?}");
    Message::new("refused-download").with("name", name)
}

/// Writes a file that its owner alone can read, in the place of an earlier one.
#[cfg(not(target_family = "wasm"))]
fn write_private(path: &Path, text: &str) -> std::io::Result<()> {
    use std::io::Write;
    match std::fs::remove_file(path) {
        Err(error) if error.kind() != std::io::ErrorKind::NotFound => return Err(error),
        _ => {}
    }
    crate::exchange::create_private(path)?.write_all(text.as_bytes())
}

/// The files in a folder that was told by [`save_files`]; none in a browser, where they are downloads.
#[must_use]
pub fn files_in(place: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(place).into_iter().flatten().flatten();
    entries
        .map(|entry| entry.path())
        .filter(|path| path.is_file())
        .collect()
}

/// Hands files of a job to the browser as downloads and gives the start of their names.
///
/// # Errors
/// A sentence for the person, where the browser does not take one.
#[cfg(target_family = "wasm")]
pub fn save_files(_: &Path, job: JobId, files: &[(String, String)]) -> Result<PathBuf, Message> {
    let start = format!("curbcore-{job}");
    for (name, text) in files {
        download(&format!("{start}-{name}"), "text/plain", text.as_bytes())
            .map_err(|error| not_downloaded(name, &error))?;
    }
    Ok(PathBuf::from(start))
}

/// Saves bytes as a file of the person's, by the browser's own way for it.
#[cfg(target_family = "wasm")]
pub(super) fn download(name: &str, kind: &str, bytes: &[u8]) -> Result<(), wasm_bindgen::JsValue> {
    use wasm_bindgen::{JsCast, JsValue};
    let missing = || JsValue::from_str("there is no page");
    let options = web_sys::BlobPropertyBag::new();
    options.set_type(kind);
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(bytes));
    let blob = web_sys::Blob::new_with_u8_array_sequence_and_options(&parts, &options)?;
    // What carries the page may have a way of its own to save (platform/web/page/start.js).
    let save = js_sys::Reflect::get(&js_sys::global(), &"curbcoreSave".into())?;
    if let Ok(save) = save.dyn_into::<js_sys::Function>() {
        return save.call2(&JsValue::UNDEFINED, &blob, &name.into()).map(|_| ());
    }
    let document = web_sys::window()
        .and_then(|window| window.document())
        .ok_or_else(missing)?;
    let address = web_sys::Url::create_object_url_with_blob(&blob)?;
    let link: web_sys::HtmlAnchorElement = document.create_element("a")?.unchecked_into();
    link.set_href(&address);
    link.set_download(name);
    link.click();
    // The download has taken hold of the bytes when the click returns.
    web_sys::Url::revoke_object_url(&address)
}
