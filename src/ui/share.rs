//! Sharing a file with another app. No other app can read a phone's files in the app's own storage, so
//! there each save ends with the share sheet; a browser may offer sharing beside the download.

use std::path::PathBuf;

use crate::app::sync::ExportedFile;

/// Whether a shelf file can be shared from this platform.
#[cfg(not(any(target_family = "wasm", all(feature = "mobile", target_os = "android"))))]
pub fn is_possible(_: &ExportedFile) -> bool {
    false
}

/// Shares a shelf file.
#[cfg(not(any(target_family = "wasm", all(feature = "mobile", target_os = "android"))))]
pub fn share(_: &ExportedFile) {}

/// Shares files that were just saved, where the person cannot reach them otherwise.
#[cfg(not(all(feature = "mobile", target_os = "android")))]
pub fn share_files(_: Vec<PathBuf>) {}

/// Whether a shelf file can be shared from this platform.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn is_possible(_: &ExportedFile) -> bool {
    true
}

/// Shares a shelf file.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn share(handed: &ExportedFile) {
    share_files(vec![handed.place.clone()]);
}

/// Shares files that were just saved, by the phone's share sheet.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn share_files(files: Vec<PathBuf>) {
    super::android::share(files);
}

/// Whether the browser can share such a file.
#[cfg(target_family = "wasm")]
pub fn is_possible(handed: &ExportedFile) -> bool {
    let can = || -> Result<bool, wasm_bindgen::JsValue> {
        let (navigator, data) = (navigator()?, share_data(handed)?);
        let can = js_sys::Reflect::get(&navigator, &"canShare".into())?;
        let can: js_sys::Function = wasm_bindgen::JsCast::dyn_into(can)?;
        Ok(can.call1(&navigator, &data)?.is_truthy())
    };
    can().unwrap_or(false)
}

/// Opens the browser's share sheet. A person may close it again; that is no error.
#[cfg(target_family = "wasm")]
pub fn share(handed: &ExportedFile) {
    let share = || -> Result<(), wasm_bindgen::JsValue> {
        let (navigator, data) = (navigator()?, share_data(handed)?);
        let share = js_sys::Reflect::get(&navigator, &"share".into())?;
        let share: js_sys::Function = wasm_bindgen::JsCast::dyn_into(share)?;
        let promise: js_sys::Promise = wasm_bindgen::JsCast::dyn_into(share.call1(&navigator, &data)?)?;
        wasm_bindgen_futures::spawn_local(async move {
            let _ = wasm_bindgen_futures::JsFuture::from(promise).await;
        });
        Ok(())
    };
    if let Err(error) = share() {
        tracing::warn!("not passed on: {error:?}");
    }
}

#[cfg(target_family = "wasm")]
fn navigator() -> Result<web_sys::Navigator, wasm_bindgen::JsValue> {
    let window = web_sys::window().ok_or("there is no page")?;
    Ok(window.navigator())
}

/// What the browser's share sheet asks for.
#[cfg(target_family = "wasm")]
fn share_data(handed: &ExportedFile) -> Result<js_sys::Object, wasm_bindgen::JsValue> {
    let bytes = handed.bytes.as_deref().ok_or("it has no bytes")?;
    let parts = js_sys::Array::of1(&js_sys::Uint8Array::from(bytes));
    let options = web_sys::FilePropertyBag::new();
    options.set_type("application/octet-stream");
    let name = handed.place.to_string_lossy();
    let file = web_sys::File::new_with_u8_array_sequence_and_options(&parts, &name, &options)?;
    let data = js_sys::Object::new();
    js_sys::Reflect::set(&data, &"files".into(), &js_sys::Array::of1(&file))?;
    Ok(data)
}
