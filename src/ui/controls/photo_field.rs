//! A photo kept with the donor: take or pick one, see the ones there.

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dioxus::prelude::*;

use super::super::phone::PHOTOS;
use super::super::state::AppState;
use super::super::words::say;
use super::{FilePick, Picked, Unreadable, or_why};
use crate::job::PhotoId;
use crate::store::{MAX_PHOTO_BYTES, Photo};

/// Photos of the donor in hand that show `what`; `onkept` gets the id of a new one.
#[component]
pub fn PhotoField(what: String, label: String, onkept: EventHandler<PhotoId>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut shown = use_signal(|| false);
    let mut refused = use_signal(|| false);
    let (photos, unread): (Vec<Photo>, _) = {
        let app = app.read();
        let of_what = |all: Vec<Photo>| all.into_iter().filter(|photo| photo.what == what).collect();
        or_why(app.photos().map(of_what))
    };
    let id = format!("photo-{what}");
    let count = photos.len();
    rsx! {
        FilePick {
            id, label, accept: PHOTOS, camera: true,
            most: MAX_PHOTO_BYTES as u64,
            onpick: move |file: Picked| {
                let what = what.clone();
                spawn(async move {
                    // Looked at before anything is read, so that memory stays bounded.
                    let short = file.size() <= MAX_PHOTO_BYTES as u64;
                    let bytes = if short { file.bytes().await } else { None };
                    refused.set(bytes.is_none());
                    let Some(bytes) = bytes else { return };
                    let kept = app.write().add_photo(&what, &bytes);
                    if let Some(id) = kept {
                        onkept.call(id);
                    }
                });
            },
        }
        Unreadable { why: unread }
        if refused() || count > 0 {
            div { class: "field photo",
            if refused() {
                p { class: "refused", role: "alert", {say("ui-photo-refused")} }
            }
            if count > 0 {
                button { class: "quiet", aria_expanded: "{shown}", onclick: move |_| shown.toggle(),
                    if shown() { {say("ui-photo-hide")} } else { {super::super::words::say_with("ui-photo-show", &[("count", crate::text::Arg::Number(count as f64))])} }
                }
            }
            if shown() {
                for photo in photos { Picture { key: "{photo.id}", photo: photo.id, kind: photo.kind.clone() } }
            }
            }
        }
    }
}

/// The photos of the donor in hand that show `what`, in full sight.
#[component]
pub fn KeptPhotos(what: String) -> Element {
    let app = use_context::<Signal<AppState>>();
    let (photos, unread) = or_why(app.read().photos());
    rsx! {
        Unreadable { why: unread }
        for photo in photos.into_iter().filter(|photo| photo.what == what) {
            Picture { key: "{photo.id}", photo: photo.id, kind: photo.kind.clone() }
        }
    }
}

/// One photo, out of the store.
#[component]
fn Picture(photo: PhotoId, kind: String) -> Element {
    let app = use_context::<Signal<AppState>>();
    let address = use_memo(move || {
        let bytes = app.peek().query(|data| data.photo_bytes(photo))?;
        Ok(format!("data:{kind};base64,{}", BASE64_STANDARD.encode(&bytes)))
    });
    match address() {
        Ok(address) => rsx! { img { class: "kept-photo", src: "{address}", alt: "" } },
        Err(why) => rsx! { Unreadable { why: Some(why) } },
    }
}
