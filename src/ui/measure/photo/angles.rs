//! Angles between two edges: whether a core was cut and put together square.

use dioxus::prelude::*;

use super::super::super::words::{say, say_with};
use super::lengths::{EdgePoints, spread};
use super::{Answered, Handle, TakeAway, Work};
use crate::job::{PhotoMarks, Place};
use crate::text::Arg;

/// A new corner about the middle of the photo: along its lower edge, then up its left one.
fn fresh_angle(marks: &PhotoMarks) -> [Place; 4] {
    let [w, h] = marks.frame;
    let at = |x: f64, y: f64| [w * x, h * y];
    [at(0.42, 0.6), at(0.62, 0.6), at(0.4, 0.57), at(0.4, 0.37)]
}

/// The part of the screen.
#[component]
pub fn Angles() -> Element {
    let mut work = use_context::<Work>();
    let answer = use_context::<Answered>();
    let Some(marks) = (work.marks)() else { return rsx! {} };
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
                let at = work.marks.read().as_ref().map_or(0, |marks| marks.angles.len());
                work.change(|marks| marks.angles.push(fresh_angle(marks)));
                work.handle.set(Some(Handle::Angle(at, 0)));
            },
            {say("ui-photo-angle-add")}
        }
        ul { class: "marks",
            for index in 0..marks.angles.len() {
                li { key: "angle-{index}",
                    span {
                        match found.get(index) {
                            Some(Ok(degrees)) => say_with("ui-photo-angle", &[("degrees", Arg::Text(&spread(*degrees)))]),
                            Some(Err(message)) => message.clone(),
                            None => say("ui-photo-angle-open"),
                        }
                    }
                    EdgePoints { handles: [0, 1, 2, 3].map(|end| Handle::Angle(index, end)) }
                    TakeAway { change: move |work: Work| work.change(|marks| { marks.angles.remove(index); }) }
                }
            }
        }
    }
}
