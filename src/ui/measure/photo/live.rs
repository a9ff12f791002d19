//! The camera's live view: the object drawn over the picture, one hint at a time, and the picture that
//! takes itself.

use dioxus::prelude::*;

use super::super::super::words::{say, tell};
use super::camera::{self, Opened};
use super::{PhotoEditor, stage};
use crate::app::photo::{CameraFrame, LiveSession, LiveSight};
use crate::job::PhotoFound;
use crate::photo::live::{FRAME_SIDE, Hint};
use crate::store::MAX_PHOTO_BYTES;
use crate::words::Message;

/// The id of the video element.
const VIDEO: &str = "live-video";

/// A state of the live view; as a root context of [`App`](crate::ui::App) the one that it begins in, for
/// tests of each.
#[derive(Debug, Clone, PartialEq, Default)]
pub enum LiveState {
    /// The camera is off, and can be asked for.
    #[default]
    Closed,
    /// The person is asked for the camera.
    Asking,
    /// The camera is on; what was seen in the newest frame.
    On(Option<LiveSight>),
    /// The picture is being taken.
    Taking,
    /// The camera was refused.
    Refused,
    /// There is no camera.
    Absent,
    /// The camera gives no picture.
    Busy,
    /// The camera went off, as the page was left.
    Off,
    /// The object chosen cannot be looked for.
    Object(Message),
}

/// The text of a hint.
const fn hint_text(hint: Hint) -> &'static str {
    match hint {
        Hint::Nothing => "ui-live-nothing",
        Hint::Flat => "ui-live-flat",
        Hint::Glare => "ui-live-glare",
        Hint::Dark => "ui-live-dark",
        Hint::Closer => "ui-live-closer",
        Hint::Tilt => "ui-live-tilt",
        Hint::Alone => "ui-live-alone",
        Hint::Still => "ui-live-still",
        Hint::Good => "ui-live-good",
        Hint::Button => "ui-live-button",
    }
}

/// The live view, where this place has a camera. `ontaken` gets the bytes of the picture.
#[component]
pub fn LiveCamera(ontaken: EventHandler<Vec<u8>>) -> Element {
    let begins = try_consume_context::<LiveState>();
    let offered = camera::OFFERED || begins.is_some();
    let state = use_signal(|| begins.unwrap_or_default());
    let editor = use_context::<PhotoEditor>();
    // The screen was left, or the panel folded.
    use_drop(camera::close);
    if !offered {
        return rsx! {};
    }
    let open = move |_| {
        spawn(async move {
            if let Some(bytes) = watch(state, editor).await {
                ontaken.call(bytes);
            }
        });
    };
    let now = state.read().clone();
    let asks = match now {
        LiveState::Closed => Some(None),
        LiveState::Off => Some(Some(say("ui-live-off"))),
        LiveState::Refused => Some(Some(say("ui-live-refused"))),
        LiveState::Absent => Some(Some(say("ui-live-absent"))),
        LiveState::Busy => Some(Some(say("ui-live-busy"))),
        LiveState::Object(ref message) => Some(Some(tell(message))),
        LiveState::Asking | LiveState::On(_) | LiveState::Taking => None,
    };
    let asking = now == LiveState::Asking;
    // One place for both, so that the video goes on.
    let view = match now {
        LiveState::On(sight) => Some((false, sight)),
        LiveState::Taking => Some((true, None)),
        _ => None,
    };
    rsx! {
        div { class: "live-camera",
            if let Some(why) = asks {
                p { class: "hint", id: "live-why", {say("ui-live-why")} }
                button {
                    id: "live-open", class: "second wide", aria_describedby: "live-why", onclick: open,
                    {say("ui-live-open")}
                }
                if let Some(text) = why { p { class: "caution", role: "alert", "{text}" } }
            }
            if asking { p { class: "busy", role: "status", {say("ui-live-asking")} } }
            if let Some((taking, sight)) = view {
                View { state, taking, sight }
            }
        }
    }
}

/// The picture with the object drawn over it, the hint, and the buttons.
#[component]
fn View(state: Signal<LiveState>, sight: Option<LiveSight>, taking: bool) -> Element {
    let mut state = state;
    let hint = match &sight {
        _ if taking => "ui-live-taking",
        Some(sight) => hint_text(sight.hint),
        None => "ui-live-begins",
    };
    let good = sight.as_ref().is_some_and(|sight| sight.hint == Hint::Good);
    rsx! {
        div { class: "photo-stage live",
            video { id: VIDEO, autoplay: true, muted: true, "playsinline": "true" }
            if let Some(sight) = sight { Outline { sight } }
        }
        p { class: if good { "live-hint good" } else { "live-hint" }, role: "status", {say(hint)} }
        div { class: "row",
            button {
                id: "live-shutter", class: "main", disabled: taking, onclick: move |_| state.set(LiveState::Taking),
                {say("ui-live-shutter")}
            }
            button {
                class: "second", disabled: taking,
                onclick: move |_| {
                    camera::close();
                    state.set(LiveState::Closed);
                },
                {say("ui-live-close")}
            }
        }
    }
}

/// The outline of the object found in a frame.
#[component]
fn Outline(sight: LiveSight) -> Element {
    let [w, h] = sight.frame;
    let stroke = w.max(h) / 160.0;
    let class = if sight.hint == Hint::Good {
        "object good"
    } else {
        "object"
    };
    let shape = match sight.outline {
        None => rsx! {},
        Some(PhotoFound::Ellipse {
            centre: [x, y],
            half_axes: [rx, ry],
            angle,
        }) => rsx! {
            ellipse {
                class, stroke_width: "{stroke}", cx: "{x:.1}", cy: "{y:.1}", rx: "{rx:.1}", ry: "{ry:.1}",
                transform: "rotate({angle.to_degrees():.1} {x:.1} {y:.1})",
            }
        },
        Some(PhotoFound::Rectangle { corners }) => rsx! {
            path { class, stroke_width: "{stroke}", d: stage::path(&corners, true) }
        },
        Some(PhotoFound::Marks { points }) => rsx! {
            path { class, stroke_width: "{stroke}", d: stage::path(&points, false) }
        },
        Some(PhotoFound::Lattice { corners }) => rsx! {
            for (_, _, x, y) in corners {
                circle { class, stroke_width: "{stroke}", cx: "{x:.1}", cy: "{y:.1}", r: "{stroke}" }
            }
        },
    };
    rsx! {
        svg { view_box: "0 0 {w} {h}", "aria-hidden": "true", {shape} }
    }
}

/// Watches the camera until a picture is taken, and gives its bytes; `None` where the camera went off
/// before. A frame is asked for when the one before has been looked at: none waits.
async fn watch(mut state: Signal<LiveState>, editor: PhotoEditor) -> Option<Vec<u8>> {
    state.set(LiveState::Asking);
    match camera::open().await {
        Opened::Open => state.set(LiveState::On(None)),
        Opened::Refused => state.set(LiveState::Refused),
        Opened::Absent => state.set(LiveState::Absent),
        Opened::Busy => state.set(LiveState::Busy),
        Opened::Off => state.set(LiveState::Off),
    }
    let mut session = LiveSession::default();
    let mut pixels = Vec::new();
    while matches!(*state.peek(), LiveState::On(_)) {
        let Some(size) = camera::frame(VIDEO, FRAME_SIDE, &mut pixels).await else {
            // The person closed it, or the page was left.
            if matches!(*state.peek(), LiveState::On(_) | LiveState::Taking) {
                state.set(LiveState::Off);
            }
            break;
        };
        if !matches!(*state.peek(), LiveState::On(_)) {
            break;
        }
        let frame = CameraFrame {
            width: size.width,
            height: size.height,
            still: size.still,
            rgba: &pixels,
        };
        let object = editor.reference.peek().clone();
        match session.look(&object, &frame) {
            Ok(Some(sight)) if sight.take => state.set(LiveState::Taking),
            Ok(sight) => state.set(LiveState::On(sight)),
            Err(message) => {
                camera::close();
                state.set(LiveState::Object(message));
            }
        }
    }
    if *state.peek() != LiveState::Taking {
        return None;
    }
    let taken = camera::take(VIDEO, MAX_PHOTO_BYTES).await;
    camera::close();
    state.set(if taken.is_some() {
        LiveState::Closed
    } else {
        LiveState::Busy
    });
    taken
}
