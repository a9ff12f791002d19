//! Angles between two edges: whether a core was cut and put together square.

use dioxus::prelude::*;

use super::super::super::words::{say, say_with, tell};
use super::lengths::{EdgePoints, spread};
use super::{Handle, PhotoEditor, Readings, RemoveButton};
use crate::job::{PhotoMarks, Place};
use crate::text::Arg;

/// A new right angle near the middle of the photo: along a lower edge, then up a left one.
fn fresh_angle(marks: &PhotoMarks) -> [Place; 4] {
    let [w, h] = marks.frame;
    let at = |x: f64, y: f64| [w * x, h * y];
    [at(0.42, 0.6), at(0.62, 0.6), at(0.4, 0.57), at(0.4, 0.37)]
}

/// The part of the screen.
#[component]
pub fn Angles() -> Element {
    let mut editor = use_context::<PhotoEditor>();
    let answer = use_context::<Readings>();
    let Some(marks) = (editor.marks)() else { return rsx! {} };
    let found = answer()
        .and_then(Result::ok)
        .map(|answer| answer.angles)
        .unwrap_or_default();
    rsx! {
        h3 { {say("ui-photo-angles")} }
        p { class: "hint", {say("ui-photo-angles-help")} }
        button {
            class: "second",
            onclick: move |_| {
                let at = editor.marks.read().as_ref().map_or(0, |marks| marks.angles.len());
                editor.change(|marks| marks.angles.push(fresh_angle(marks)));
                editor.handle.set(Some(Handle::Angle(at, 0)));
            },
            {say("ui-photo-angle-add")}
        }
        ul { class: "marks",
            for index in 0..marks.angles.len() {
                li { key: "angle-{index}",
                    span {
                        match found.get(index) {
                            Some(Ok(degrees)) => say_with("ui-photo-angle", &[("degrees", Arg::Text(&spread(*degrees)))]),
                            Some(Err(message)) => tell(message),
                            None => say("ui-photo-angle-open"),
                        }
                    }
                    EdgePoints { handles: [0, 1, 2, 3].map(|end| Handle::Angle(index, end)) }
                    RemoveButton { change: move |editor: PhotoEditor| editor.change(|marks| { marks.angles.remove(index); }) }
                }
            }
        }
    }
}
