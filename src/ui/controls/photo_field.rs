//! A photo kept with the donor or with the core: take or pick one, see the ones there.

use base64::Engine;
use base64::prelude::BASE64_STANDARD;
use dioxus::prelude::*;

use super::super::phone::PHOTOS;
use super::super::state::{AppState, Unread};
use super::super::words::say;
use super::{FilePick, Picked, Unreadable, or_why};
use crate::job::PhotoId;
use crate::store::{MAX_PHOTO_BYTES, Photo};

/// What photos are kept with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum PhotosOf {
    /// The donor in hand.
    Donor,
    /// The core of the job in hand.
    Core,
}

impl PhotosOf {
    /// Id and media type of the photos that show `what`.
    fn photos(self, app: &AppState, what: &str) -> Result<Vec<(PhotoId, String)>, Unread> {
        match self {
            PhotosOf::Donor => {
                let of_what = |photo: Photo| (photo.what == what).then_some((photo.id, photo.kind));
                Ok(app.photos()?.into_iter().filter_map(of_what).collect())
            }
            PhotosOf::Core => {
                let photos = app.core_photos(what)?.into_iter();
                Ok(photos.map(|photo| (photo.id, photo.kind)).collect())
            }
        }
    }

    fn keep(self, app: &mut AppState, what: &str, bytes: &[u8]) -> Option<PhotoId> {
        match self {
            PhotosOf::Donor => app.add_photo(what, bytes),
            PhotosOf::Core => app.add_core_photo(what, bytes),
        }
    }
}

/// Photos that show `what`; `onkept` gets the id of a new one.
#[component]
pub fn PhotoField(of: PhotosOf, what: String, label: String, onkept: EventHandler<PhotoId>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut shown = use_signal(|| false);
    let mut refused = use_signal(|| false);
    let (photos, unread) = or_why(of.photos(&app.read(), &what));
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
                    let kept = of.keep(&mut app.write(), &what, &bytes);
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
                for (photo, kind) in photos { Picture { key: "{photo}", of, photo, kind } }
            }
            }
        }
    }
}

/// The photos of the donor in hand that show `what`, in full sight.
#[component]
pub fn KeptPhotos(what: String) -> Element {
    let app = use_context::<Signal<AppState>>();
    let (photos, unread) = or_why(PhotosOf::Donor.photos(&app.read(), &what));
    rsx! {
        Unreadable { why: unread }
        for (photo, kind) in photos { Picture { key: "{photo}", of: PhotosOf::Donor, photo, kind } }
    }
}

/// One photo, out of the store.
#[component]
fn Picture(of: PhotosOf, photo: PhotoId, kind: String) -> Element {
    let app = use_context::<Signal<AppState>>();
    let address = use_memo(move || {
        let bytes = app.peek().query(|data| match of {
            PhotosOf::Donor => data.store().photo_bytes(photo),
            PhotosOf::Core => data.store().core_photo_bytes(photo),
        })?;
        Ok(format!("data:{kind};base64,{}", BASE64_STANDARD.encode(&bytes)))
    });
    match address() {
        Ok(address) => rsx! { img { class: "kept-photo", src: "{address}", alt: "" } },
        Err(why) => rsx! { Unreadable { why: Some(why) } },
    }
}
