//! The selected handle magnified to single pixels, and buttons that move it by one.

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dioxus::prelude::*;

use super::super::super::words::say;
use super::PhotoEditor;
use crate::job::Place;

/// Pixels across the close-up.
const SIDE: usize = 61;

/// The pixels around the selected handle as a data URL, and the handle's position in them.
fn pixels(editor: PhotoEditor) -> Option<(String, Place)> {
    let place = editor.place((editor.handle)()?)?;
    let open = (editor.open)()?;
    let (png, at) = open.photo.closeup(place, SIDE).ok()?;
    Some((format!("data:image/png;base64,{}", BASE64_STANDARD.encode(png)), at))
}

/// The magnifier near the finger that drags a handle: above it, or on the other side of the photo
/// without room above.
#[component]
pub fn Magnifier() -> Element {
    let editor = use_context::<PhotoEditor>();
    let shown = use_memo(move || pixels(editor));
    let (Some((address, at)), Some(marks)) = (shown(), (editor.marks)()) else {
        return rsx! {};
    };
    let Some(place) = (editor.handle)().and_then(|handle| editor.place(handle)) else {
        return rsx! {};
    };
    let part = [place[0] / marks.frame[0], place[1] / marks.frame[1]];
    let across = 100.0
        * if part[1] > 0.5 {
            part[0].clamp(0.2, 0.8)
        } else if part[0] > 0.5 {
            0.2
        } else {
            0.8
        };
    let down = 100.0 * if part[1] > 0.5 { part[1] - 0.32 } else { 0.22 };
    let (x, y) = (at[0] + 0.5, at[1] + 0.5);
    rsx! {
        div { class: "magnifier", "aria-hidden": "true", style: "left: {across:.0}%; top: {down:.0}%",
            svg { view_box: "0 0 {SIDE} {SIDE}",
                image { href: "{address}", width: "{SIDE}", height: "{SIDE}", style: "image-rendering: pixelated" }
                path { class: "cross", d: "M{x} 0V{SIDE}M0 {y}H{SIDE}" }
            }
        }
    }
}

/// The close-up.
#[component]
pub fn CloseUp() -> Element {
    let editor = use_context::<PhotoEditor>();
    let handle = (editor.handle)();
    let shown = use_memo(move || pixels(editor));
    if handle.is_none() {
        return rsx! { p { class: "hint", {say("ui-photo-take-point")} } };
    }
    let Some((address, at)) = shown() else { return rsx! {} };
    let nudge = move |x: f64, y: f64| {
        if let Some([px, py]) = (editor.handle)().and_then(|handle| editor.place(handle)) {
            editor.move_handle([px + x, py + y], false);
        }
    };
    // Coordinates are pixel centres; a pixel's square begins half a pixel before.
    let (x, y) = (at[0] + 0.5, at[1] + 0.5);
    rsx! {
        div { class: "closeup",
            svg { view_box: "0 0 {SIDE} {SIDE}", "aria-hidden": "true",
                image { href: "{address}", width: "{SIDE}", height: "{SIDE}", style: "image-rendering: pixelated" }
                path { class: "cross", d: "M{x} 0V{SIDE}M0 {y}H{SIDE}" }
            }
            div { class: "nudge",
                button { class: "second", aria_label: say("ui-nudge-up"), onclick: move |_| nudge(0.0, -1.0), "▲" }
                button { class: "second", aria_label: say("ui-nudge-left"), onclick: move |_| nudge(-1.0, 0.0), "◀" }
                button { class: "second", aria_label: say("ui-nudge-right"), onclick: move |_| nudge(1.0, 0.0), "▶" }
                button { class: "second", aria_label: say("ui-nudge-down"), onclick: move |_| nudge(0.0, 1.0), "▼" }
            }
        }
    }
}
