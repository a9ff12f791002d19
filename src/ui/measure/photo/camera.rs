//! The camera of the place that the screens are shown in: that of a browser's page
//! (`platform/web/page/camera.js`). Elsewhere there is none: a desktop's web view gives none to its
//! screens, and on Android the app of `platform/android/native` takes photos as files.

/// What became of the question for the camera.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Opened {
    /// It is on.
    Open,
    /// The person or the browser refused it.
    Refused,
    /// There is none.
    Absent,
    /// It gives no picture, as where another program has it.
    Busy,
    /// The page was left meanwhile.
    Off,
}

impl Opened {
    /// What the page's camera says.
    fn of_word(word: Option<&str>) -> Self {
        match word {
            Some("open") => Opened::Open,
            Some("refused") => Opened::Refused,
            Some("busy") => Opened::Busy,
            Some("off") => Opened::Off,
            _ => Opened::Absent,
        }
    }
}

/// The size of a frame, and the pixels of the picture that would be taken to one of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FrameSize {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Pixels of the picture to one of the frame.
    pub still: f64,
}

/// Whether the live view is offered here.
pub const OFFERED: bool = cfg!(all(feature = "web", target_family = "wasm"));

#[cfg(all(feature = "web", target_family = "wasm"))]
pub use page::{close, frame, open, take};

#[cfg(all(feature = "web", target_family = "wasm"))]
mod page {
    use js_sys::{Array, Function, Promise, Reflect, Uint8Array, Uint8ClampedArray};
    use wasm_bindgen::{JsCast, JsValue};
    use wasm_bindgen_futures::JsFuture;

    use super::{FrameSize, Opened};

    /// Calls a function of the page's camera.
    fn call(name: &str, values: &[JsValue]) -> Option<JsValue> {
        let camera = Reflect::get(&js_sys::global(), &"curbcoreCamera".into()).ok()?;
        let function: Function = Reflect::get(&camera, &name.into()).ok()?.dyn_into().ok()?;
        let values: Array = values.iter().collect();
        function.apply(&camera, &values).ok()
    }

    async fn answer(name: &str, values: &[JsValue]) -> Option<JsValue> {
        let promise: Promise = call(name, values)?.dyn_into().ok()?;
        JsFuture::from(promise).await.ok()
    }

    /// Asks for the camera.
    pub async fn open() -> Opened {
        let word = answer("open", &[]).await.and_then(|word| word.as_string());
        Opened::of_word(word.as_deref())
    }

    /// Waits for the next frame in the video element `id` and writes its pixels (red, green, blue, alpha)
    /// over `pixels`; `None` where the camera is off.
    pub async fn frame(id: &str, side: usize, pixels: &mut Vec<u8>) -> Option<FrameSize> {
        let found: Array = answer("frame", &[id.into(), (side as f64).into()])
            .await?
            .dyn_into()
            .ok()?;
        let data: Uint8ClampedArray = found.get(3).dyn_into().ok()?;
        pixels.resize(data.length() as usize, 0);
        data.copy_to(pixels);
        Some(FrameSize {
            width: found.get(0).as_f64()? as usize,
            height: found.get(1).as_f64()? as usize,
            still: found.get(2).as_f64()?,
        })
    }

    /// Takes the picture: the bytes of a JPEG or PNG file, at most `most`.
    pub async fn take(id: &str, most: usize) -> Option<Vec<u8>> {
        let bytes: Uint8Array = answer("take", &[id.into(), (most as f64).into()])
            .await?
            .dyn_into()
            .ok()?;
        Some(bytes.to_vec())
    }

    /// Switches the camera off.
    pub fn close() {
        call("close", &[]);
    }
}

#[cfg(not(all(feature = "web", target_family = "wasm")))]
pub use nowhere::{close, frame, open, take};

/// There is no camera here.
#[cfg(not(all(feature = "web", target_family = "wasm")))]
mod nowhere {
    use std::future::{Ready, ready};

    use super::{FrameSize, Opened};

    pub fn open() -> Ready<Opened> {
        ready(Opened::of_word(None))
    }

    pub fn frame(_: &str, _: usize, _: &mut Vec<u8>) -> Ready<Option<FrameSize>> {
        ready(None)
    }

    pub fn take(_: &str, _: usize) -> Ready<Option<Vec<u8>>> {
        ready(None)
    }

    pub fn close() {}
}
