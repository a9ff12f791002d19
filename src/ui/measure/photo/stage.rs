//! The photo with its marks: tap or drag to move the selected handle.

use std::rc::Rc;

use dioxus::prelude::*;

use super::super::super::words::say;
use super::{Handle, PhotoEditor, closeup};
use crate::app::photo::handles;
use crate::job::{PhotoFound, Place};

/// Radius within which a tap selects a handle, as a fraction of the photo's long side.
const REACH: f64 = 0.035;

/// All handles with their positions.
fn points(editor: PhotoEditor) -> Vec<(Handle, Place)> {
    let marks = editor.marks.read();
    let Some(marks) = marks.as_ref() else { return Vec::new() };
    let mut all = Vec::new();
    if let Some(found) = &marks.found {
        all.extend(
            handles(found)
                .into_iter()
                .enumerate()
                .map(|(i, p)| (Handle::Object(i), p)),
        );
        if let PhotoFound::Ellipse { centre, .. } = found {
            all.push((Handle::Whole, *centre));
        }
    }
    if let Some(face) = marks.face {
        all.extend(face.into_iter().enumerate().map(|(i, p)| (Handle::Face(i), p)));
    }
    for (m, mark) in marks.marks.iter().enumerate() {
        all.extend(mark.points.iter().enumerate().map(|(e, p)| (Handle::Mark(m, e), *p)));
    }
    for (e, edge) in marks.straight.iter().enumerate() {
        all.extend(edge.iter().enumerate().map(|(i, p)| (Handle::Straight(e, i), *p)));
    }
    for (a, angle) in marks.angles.iter().enumerate() {
        all.extend(angle.iter().enumerate().map(|(i, p)| (Handle::Angle(a, i), *p)));
    }
    all
}

/// The photo.
#[component]
pub fn Stage() -> Element {
    let mut editor = use_context::<PhotoEditor>();
    let mut element = use_signal(|| None::<Rc<MountedData>>);
    let mut held = use_signal(|| false);
    let Some(open) = (editor.open)() else { return rsx! {} };
    let Some(marks) = (editor.marks)() else { return rsx! {} };
    let [w, h] = marks.frame;
    // Converts a position on the element to one in the photo.
    let place = move |x: f64, y: f64| async move {
        let rect = element()?.get_client_rect().await.ok()?;
        let scale = w / rect.width().max(1.0);
        Some([x * scale, y * scale])
    };
    let radius = w.max(h) / 90.0;
    let stroke = w.max(h) / 400.0;
    let all = points(editor);
    // Pairs of points: the ends of a dimension, or two points along one of its edges or an angle's.
    let ends = marks.marks.iter().map(|mark| mark.points.as_slice());
    let spans = ends
        .chain(marks.angles.iter().map(<[Place; 4]>::as_slice))
        .flat_map(|points| points.chunks(2));
    let outline = match &marks.found {
        Some(PhotoFound::Rectangle { corners }) => path(corners, true),
        Some(PhotoFound::Marks { points }) => path(points, false),
        Some(PhotoFound::Lattice { corners }) => corners
            .iter()
            .map(|(_, _, x, y)| format!("M{:.0} {y:.0}h{:.0}", x - stroke * 2.0, stroke * 4.0))
            .collect(),
        _ => String::new(),
    };
    let ellipse = match &marks.found {
        Some(PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        }) => Some((*centre, *half_axes, angle.to_degrees())),
        _ => None,
    };
    rsx! {
        // The box handles the pointer, not its children, because coordinates start at its corner.
        div {
            class: "photo-stage",
            onmounted: move |event| element.set(Some(event.data())),
            onpointerdown: move |event| {
                let at = event.element_coordinates();
                held.set(true);
                async move {
                    let Some(at) = place(at.x, at.y).await else { return };
                    let near = points(editor)
                        .into_iter()
                        .map(|(handle, p)| (handle, (p[0] - at[0]).hypot(p[1] - at[1])))
                        .min_by(|a, b| a.1.total_cmp(&b.1))
                        .filter(|(_, distance)| *distance < w.max(h) * REACH);
                    match near {
                        Some((handle, _)) => editor.handle.set(Some(handle)),
                        None => editor.move_handle(at, true),
                    }
                }
            },
            onpointermove: move |event| {
                let at = event.element_coordinates();
                async move {
                    if held() && let Some(at) = place(at.x, at.y).await {
                        editor.move_handle(at, false);
                    }
                }
            },
            onpointerup: move |_| held.set(false),
            onpointerleave: move |_| held.set(false),
            if held() { closeup::Magnifier {} }
            svg {
            view_box: "0 0 {w} {h}", role: "img", "aria-label": say("ui-photo-stage"),
            image { href: "{open.address}", width: "{w}", height: "{h}" }
            path { class: "object", stroke_width: "{stroke}", d: "{outline}" }
            if let Some((centre, axes, turn)) = ellipse {
                ellipse {
                    class: "object", stroke_width: "{stroke}", cx: "{centre[0]}", cy: "{centre[1]}", rx: "{axes[0]}", ry: "{axes[1]}",
                    transform: "rotate({turn} {centre[0]} {centre[1]})",
                }
            }
            if let Some(face) = marks.face {
                path { class: "face", stroke_width: "{stroke}", d: path(&face, true) }
            }
            for (index, points) in spans.enumerate() {
                path { key: "{index}", class: "span", stroke_width: "{stroke}", d: path(points, false) }
            }
            for (index, edge) in marks.straight.iter().enumerate() {
                path { key: "straight-{index}", class: "face", stroke_width: "{stroke}", d: path(edge, false) }
            }
            for (handle, p) in all {
                circle {
                    key: "{handle:?}",
                    class: if (editor.handle)() == Some(handle) { "handle in-hand" } else { "handle" },
                    stroke_width: "{stroke}", cx: "{p[0]}", cy: "{p[1]}",
                    // Edges are to be seen beside their points.
                    r: if matches!(handle, Handle::Mark(..)) && (editor.handle)() != Some(handle) { radius / 2.0 } else { radius },
                }
            }
        }
        }
    }
}

/// The line through points, as SVG writes it.
pub fn path(points: &[Place], closed: bool) -> String {
    let mut d = String::new();
    for (index, [x, y]) in points.iter().enumerate() {
        d += &format!("{}{x:.1} {y:.1}", if index == 0 { "M" } else { "L" });
    }
    if closed {
        d.push('Z');
    }
    d
}
