//! What a phone asks of an app: its back button, and a screen that stays on beside the work.

use dioxus::prelude::*;

use super::state::{AppState, Screen};

/// What a photo may be. Android's web view opens the camera for any picture only; what it gives is
/// a JPEG.
pub const PHOTOS: &str = if cfg!(feature = "mobile") {
    "image/*"
} else {
    "image/jpeg,image/png"
};

/// Follows the person: each screen is a step that the phone's back button or gesture walks back,
/// and the phone does not go dark in Teardown, Wind and Bench. A step back shows a former screen; what
/// was done and confirmed stays as it is, so it never leads past a gate.
pub fn follow(mut app: Signal<AppState>) {
    if !cfg!(any(feature = "web", feature = "mobile")) {
        return;
    }
    let screen = use_memo(move || app.read().screen());
    use_future(move || async move {
        let mut back = document::eval(include_str!("../../assets/phone.js"));
        while let Ok(word) = back.recv::<String>().await {
            app.write().back_to(&word);
        }
    });
    use_effect(move || {
        let screen = screen();
        let awake = matches!(screen, Screen::Teardown | Screen::Wind | Screen::Bench);
        #[cfg(all(feature = "mobile", target_os = "android"))]
        super::android::stay_awake(awake);
        let shown = format!("{:?}, {awake}", screen.word());
        // The script above may start later.
        document::eval(&format!(
            "if (globalThis.curbcore) curbcore.shown({shown}); else globalThis.curbcoreFirst = [{shown}];"
        ));
    });
}

/// A button was held for as long as it wants: the phone gives a short push under the finger, and
/// letting go is no tap on what stands there by then.
pub fn held() {
    document::eval(include_str!("../../assets/held.js"));
    shake();
}

/// A turn was counted: a short push, and three at a layer's end.
pub fn counted(layer_end: bool) {
    if layer_end {
        let script = "for (const at of [0, 160, 320]) setTimeout(() => globalThis.CurbcoreShell ? CurbcoreShell.shake() : navigator.vibrate?.(80), at)";
        document::eval(script);
    } else {
        shake();
    }
}

#[cfg(not(all(feature = "mobile", target_os = "android")))]
fn shake() {
    document::eval("globalThis.CurbcoreShell ? CurbcoreShell.shake() : navigator.vibrate?.(40)");
}

#[cfg(all(feature = "mobile", target_os = "android"))]
use super::android::shake;

/// Runs the app in the phone's web view.
#[cfg(feature = "mobile")]
pub fn launch_on_phone(folder: &std::path::Path) {
    dioxus::LaunchBuilder::mobile()
        .with_context(super::DataFolder(folder.to_owned()))
        .launch(super::App);
}
