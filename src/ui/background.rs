//! Long operations in the background.

/// Runs an operation on a thread of its own; the screen stays responsive.
#[cfg(not(target_family = "wasm"))]
pub async fn run_in_background<T: Send + 'static>(work: impl FnOnce() -> T + Send + 'static) -> Option<T> {
    let (done, waits) = futures_channel::oneshot::channel();
    std::thread::spawn(move || {
        // Nobody waits any more where the screen was left.
        let _ = done.send(work());
    });
    waits.await.ok()
}

/// Runs an operation after the next frame has been shown: a page has only one thread, which the
/// operation then blocks.
#[cfg(target_family = "wasm")]
pub async fn run_in_background<T: 'static>(work: impl FnOnce() -> T + 'static) -> Option<T> {
    let shown = js_sys::Promise::new(&mut |resolve: js_sys::Function, _: js_sys::Function| {
        // A second frame begins when the first is on the screen.
        let next = wasm_bindgen::closure::Closure::once_into_js(move || {
            if let Some(window) = web_sys::window() {
                let _ = window.request_animation_frame(&resolve);
            }
        });
        if let Some(window) = web_sys::window() {
            let _ = window.request_animation_frame(wasm_bindgen::JsCast::unchecked_ref(&next));
        }
    });
    wasm_bindgen_futures::JsFuture::from(shown).await.ok()?;
    Some(work())
}
