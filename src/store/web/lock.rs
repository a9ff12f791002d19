//! One page has the data at a time.

use js_sys::{Function, Object, Promise, Reflect};
use wasm_bindgen::JsValue;
use wasm_bindgen::prelude::Closure;
use wasm_bindgen_futures::JsFuture;

use super::script::{method, pause, told, window};

/// Looks at the lock this often; a page that was just left lets go a moment later.
const LOOKS: u32 = 10;

/// Takes the lock for as long as the page lives; false where another page has it.
///
/// # Errors
/// A sentence, where the browser has no locks for this page.
pub(super) async fn take() -> Result<bool, String> {
    let navigator = JsValue::from(window()?.navigator());
    let locks = Reflect::get(&navigator, &"locks".into()).map_err(|error| told(&error))?;
    if locks.is_undefined() {
        return Err(
            "the page must come from an https address, or from this device itself (localhost); \
             only then does a browser keep data safely"
                .to_owned(),
        );
    }
    for look in 0..LOOKS {
        if look > 0 {
            pause(200).await?;
        }
        if took(&locks).await? {
            return Ok(true);
        }
    }
    Ok(false)
}

async fn took(locks: &JsValue) -> Result<bool, String> {
    let request = method(locks, "request")?;
    let options = Object::new();
    Reflect::set(&options, &"ifAvailable".into(), &JsValue::TRUE).map_err(|error| told(&error))?;
    let mut failure = None;
    let waits = Promise::new(&mut |resolve: Function, _: Function| {
        let granted = Closure::once_into_js(move |lock: JsValue| {
            let got = !lock.is_null();
            let _ = resolve.call1(&JsValue::NULL, &JsValue::from_bool(got));
            // The lock is held until this promise ends: never, while the page lives.
            let held = got.then(|| JsValue::from(Promise::new(&mut |_: Function, _: Function| {})));
            held.unwrap_or(JsValue::UNDEFINED)
        });
        if let Err(error) = request.call3(locks, &"curbcore".into(), &options, &granted) {
            failure = Some(told(&error));
        }
    });
    match failure {
        Some(said) => Err(said),
        None => JsFuture::from(waits)
            .await
            .map(|got| got.is_truthy())
            .map_err(|error| told(&error)),
    }
}
