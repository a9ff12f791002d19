//! Edges that are straight on the part, marked by points along them: they determine lens distortion.

use dioxus::prelude::*;

use super::super::super::words::{say, say_with};
use super::{Handle, PhotoEditor, Readings, RemoveButton};
use crate::app::photo::ENOUGH_POINTS;
use crate::job::{PhotoMarks, Place};
use crate::text::Arg;

/// Number of points along a new edge.
const NEW_POINTS: usize = ENOUGH_POINTS + 2;

/// A new edge near the photo's upper border; each further one is lower.
fn fresh_edge(marks: &PhotoMarks) -> Vec<Place> {
    let [w, h] = marks.frame;
    let down = (0.15 + 0.1 * marks.straight.len() as f64).min(0.9);
    let at = |index: usize| [w * (0.15 + 0.7 * index as f64 / (NEW_POINTS - 1) as f64), h * down];
    (0..NEW_POINTS).map(at).collect()
}

/// One more point, beyond an edge's last one if inside the photo, else before it.
fn one_more(edge: &[Place], [w, h]: [f64; 2]) -> Option<Place> {
    let &[.., before, last] = edge else { return None };
    let beyond = [2.0 * last[0] - before[0], 2.0 * last[1] - before[1]];
    let inside = (0.0..w).contains(&beyond[0]) && (0.0..h).contains(&beyond[1]);
    let between = [f64::midpoint(before[0], last[0]), f64::midpoint(before[1], last[1])];
    Some(if inside { beyond } else { between })
}

/// The part of the screen.
#[component]
pub fn Straight() -> Element {
    let mut editor = use_context::<PhotoEditor>();
    let answer = use_context::<Readings>();
    let Some(marks) = (editor.marks)() else { return rsx! {} };
    let lens = answer().and_then(Result::ok).and_then(|answer| answer.lens);
    rsx! {
        h3 { {say("ui-photo-straight")} }
        p { class: "hint", {say("ui-photo-straight-help")} }
        if let Some([k, half]) = lens {
            p { {say_with("ui-photo-lens", &[("percent", Arg::Text(&format!("{k:.1}"))), ("half", Arg::Text(&format!("{half:.1}")))])} }
        }
        button {
            class: "second",
            onclick: move |_| {
                let at = editor.marks.read().as_ref().map_or(0, |marks| marks.straight.len());
                editor.change(|marks| {
                    let edge = fresh_edge(marks);
                    marks.straight.push(edge);
                });
                editor.handle.set(Some(Handle::Straight(at, 0)));
            },
            {say("ui-photo-straight-add")}
        }
        ul { class: "marks",
            for (edge, points) in marks.straight.iter().enumerate() {
                li { key: "straight-{edge}",
                    span { {say_with("ui-photo-straight-edge", &[("number", Arg::Number((edge + 1) as f64))])} }
                    for point in 0..points.len() {
                        button {
                            key: "{point}",
                            class: if (editor.handle)() == Some(Handle::Straight(edge, point)) { "option chosen" } else { "option" },
                            aria_label: say_with("ui-photo-straight-point", &[("number", Arg::Number((point + 1) as f64))]),
                            onclick: move |_| editor.handle.set(Some(Handle::Straight(edge, point))),
                            "{point + 1}"
                        }
                    }
                    button {
                        class: "option",
                        onclick: move |_| {
                            editor.change(|marks| {
                                let frame = marks.frame;
                                if let Some(points) = marks.straight.get_mut(edge)
                                    && let Some(place) = one_more(points, frame)
                                {
                                    points.push(place);
                                }
                            });
                        },
                        {say("ui-photo-straight-more")}
                    }
                    RemoveButton { change: move |editor: PhotoEditor| editor.change(|marks| { marks.straight.remove(edge); }) }
                }
            }
        }
    }
}
