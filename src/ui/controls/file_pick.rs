//! Picking a file, or taking a photo: the way in for anything that comes from outside.

use dioxus::html::FileData;
use dioxus::prelude::*;

use crate::exchange::Incoming;

/// A file that the person picked, and the most bytes of it that are read.
pub struct Picked(Inner, u64);

enum Inner {
    /// The framework hands it over.
    Given(FileData),
    /// It was read in the web view; none where it is larger than was asked for.
    #[cfg(feature = "mobile")]
    Read { size: u64, bytes: Option<Vec<u8>> },
}

impl Picked {
    /// How long it is, in bytes.
    pub fn size(&self) -> u64 {
        match &self.0 {
            Inner::Given(file) => file.size(),
            #[cfg(feature = "mobile")]
            Inner::Read { size, .. } => *size,
        }
    }

    /// All that is in it; none where it cannot be read, or is longer than was asked for.
    pub async fn bytes(self) -> Option<Vec<u8>> {
        match self.0 {
            Inner::Given(file) => read_given(file, self.1).await,
            #[cfg(feature = "mobile")]
            Inner::Read { bytes, .. } => bytes,
        }
    }

    /// As a file to be taken in: by its path, so that it need not be held in memory.
    #[cfg(not(any(target_family = "wasm", feature = "mobile")))]
    pub fn incoming(self) -> std::future::Ready<Option<Incoming>> {
        let Inner::Given(file) = self.0;
        std::future::ready(Some(Incoming::At(file.path())))
    }

    /// As a file to be taken in: what is in it, as it has no path.
    #[cfg(any(target_family = "wasm", feature = "mobile"))]
    pub async fn incoming(self) -> Option<Incoming> {
        self.bytes().await.map(|bytes| Incoming::Bytes(bytes.into()))
    }
}

/// Reads a file of this machine. Its length is not believed: a device has none, and no end.
#[cfg(not(any(target_family = "wasm", feature = "mobile")))]
async fn read_given(file: FileData, most: u64) -> Option<Vec<u8>> {
    super::super::background::run_in_background(move || read_at_most(&file.path(), most)).await?
}

/// The bytes of a file; none where it cannot be read or has more than `most`.
#[cfg(not(any(target_family = "wasm", feature = "mobile")))]
fn read_at_most(path: &std::path::Path, most: u64) -> Option<Vec<u8>> {
    use std::io::Read;
    let mut bytes = Vec::new();
    let file = std::fs::File::open(path).ok()?;
    file.take(most + 1).read_to_end(&mut bytes).ok()?;
    (bytes.len() as u64 <= most).then_some(bytes)
}

/// Reads what the framework hands over: its length is the browser's word.
#[cfg(any(target_family = "wasm", feature = "mobile"))]
async fn read_given(file: FileData, most: u64) -> Option<Vec<u8>> {
    if file.size() > most {
        return None;
    }
    file.read_bytes().await.ok().map(|bytes| bytes.to_vec())
}

/// A field to pick a file with. `accept` is what may be picked; with `camera`, a phone offers its
/// camera. Nothing longer than `most` bytes is read.
#[component]
pub fn FilePick(
    id: String,
    label: String,
    accept: String,
    #[props(default)] camera: bool,
    most: u64,
    onpick: EventHandler<Picked>,
) -> Element {
    read_in_web_view(&id, most, onpick);
    rsx! {
        div { class: "field photo",
            label { r#for: "{id}", "{label}" }
            input {
                id: "{id}",
                r#type: "file",
                accept: "{accept}",
                "capture": if camera { "environment" },
                onchange: move |event| {
                    for file in event.files() {
                        onpick.call(Picked(Inner::Given(file), most));
                    }
                },
            }
        }
    }
}

/// The framework hands files over by itself.
#[cfg(not(feature = "mobile"))]
fn read_in_web_view(_: &str, _: u64, _: EventHandler<Picked>) {}

/// On a phone the framework opens a dialog that exists on desktops only, and no file ever comes. So
/// the web view opens its own, and a script reads what was picked.
#[cfg(feature = "mobile")]
fn read_in_web_view(id: &str, most: u64, onpick: EventHandler<Picked>) {
    use base64::Engine;
    use base64::prelude::BASE64_STANDARD;
    let id = id.to_owned();
    use_future(move || {
        let id = id.clone();
        async move {
            let mut page = document::eval(include_str!("../../../assets/file-pick.js"));
            if page.send((id, most)).is_err() {
                return;
            }
            let mut bytes = Vec::new();
            // Pieces of the file, and at its end its length.
            while let Ok((size, piece)) = page.recv::<(Option<u64>, String)>().await {
                bytes.extend(BASE64_STANDARD.decode(piece).unwrap_or_default());
                if let Some(size) = size {
                    let bytes = std::mem::take(&mut bytes);
                    let bytes = (bytes.len() as u64 == size).then_some(bytes);
                    onpick.call(Picked(Inner::Read { size, bytes }, most));
                }
            }
        }
    });
}

#[cfg(all(test, unix, not(feature = "mobile")))]
mod tests {
    /// A device that never ends is given up after the most that was asked for.
    #[test]
    fn a_device_without_end_is_not_read() {
        assert_eq!(super::read_at_most(std::path::Path::new("/dev/zero"), 1 << 20), None);
        assert_eq!(
            super::read_at_most(std::path::Path::new("/dev/null"), 10),
            Some(Vec::new())
        );
    }
}
