//! Small bridges to the browser's script: waiting, and what its errors say.

use js_sys::{Function, Promise, Reflect};
use wasm_bindgen::{JsCast, JsValue};
use wasm_bindgen_futures::JsFuture;
use web_sys::{IdbRequest, Window};

/// The page's window.
pub(super) fn window() -> Result<Window, String> {
    web_sys::window().ok_or_else(|| "there is no window".to_owned())
}

/// What an error of the browser says.
pub(super) fn told(error: &JsValue) -> String {
    let said = Reflect::get(error, &"message".into())
        .ok()
        .and_then(|said| said.as_string());
    let name = Reflect::get(error, &"name".into())
        .ok()
        .and_then(|name| name.as_string());
    match (name, said) {
        (Some(name), Some(said)) if !said.is_empty() => format!("{name}: {said}"),
        (Some(name), _) => name,
        (None, _) => format!("{error:?}"),
    }
}

/// Waits for an answer of the browser's database.
pub(super) async fn answer(request: &IdbRequest) -> Result<JsValue, String> {
    let waits = Promise::new(&mut |resolve: Function, reject: Function| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    match JsFuture::from(waits).await {
        Ok(_) => request.result().map_err(|error| told(&error)),
        Err(_) => Err(request
            .error()
            .ok()
            .flatten()
            .map_or_else(|| "it did not answer".to_owned(), |error| told(&error))),
    }
}

/// Waits some time.
pub(super) async fn pause(milliseconds: i32) -> Result<(), String> {
    let window = window()?;
    let waits = Promise::new(&mut |resolve: Function, _: Function| {
        // A clock that does not start ends the wait at once.
        if window
            .set_timeout_with_callback_and_timeout_and_arguments_0(&resolve, milliseconds)
            .is_err()
        {
            let _ = resolve.call0(&JsValue::NULL);
        }
    });
    JsFuture::from(waits).await.map(|_| ()).map_err(|error| told(&error))
}

/// A method of a script object.
pub(super) fn method(object: &JsValue, name: &str) -> Result<Function, String> {
    Reflect::get(object, &name.into())
        .map_err(|error| told(&error))?
        .dyn_into()
        .map_err(|_| format!("this browser is too old: it has no {name}"))
}
