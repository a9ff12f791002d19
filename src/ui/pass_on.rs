//! Passing a file on to another app. A phone's files in the app's own storage are reached by nobody
//! else, so there it follows each saving; a browser may offer it beside the download.

use std::path::PathBuf;

use crate::app::travel::Handed;

/// Whether a shelf file can be passed on from here.
#[cfg(not(any(target_family = "wasm", all(feature = "mobile", target_os = "android"))))]
pub fn possible(_: &Handed) -> bool {
    false
}

/// Passes a shelf file on.
#[cfg(not(any(target_family = "wasm", all(feature = "mobile", target_os = "android"))))]
pub fn pass_on(_: &Handed) {}

/// Brings files that were just saved within the person's reach.
#[cfg(not(all(feature = "mobile", target_os = "android")))]
pub fn reach(_: Vec<PathBuf>) {}

/// Whether a shelf file can be passed on from here.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn possible(_: &Handed) -> bool {
    true
}

/// Passes a shelf file on.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn pass_on(handed: &Handed) {
    reach(vec![handed.place.clone()]);
}

/// Brings files that were just saved within the person's reach: by the phone's share sheet.
#[cfg(all(feature = "mobile", target_os = "android"))]
pub fn reach(files: Vec<PathBuf>) {
    super::android::share(files);
}

/// Whether the browser passes such a file on to another app.
#[cfg(target_family = "wasm")]
pub fn possible(handed: &Handed) -> bool {
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
pub fn pass_on(handed: &Handed) {
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
fn share_data(handed: &Handed) -> Result<js_sys::Object, wasm_bindgen::JsValue> {
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
