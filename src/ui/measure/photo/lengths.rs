//! The marks on the core, the lengths computed from them, and their transfer into the job.

use dioxus::prelude::*;

use super::super::super::controls::Choices;
use super::super::super::state::AppState;
use super::super::super::words::{say, say_with, tell, told};
use super::{Handle, PhotoEditor, Readings, RemoveButton, along_edges, new_mark, search_core, search_object};
use crate::app::photo::{PhotoReadings, default_outline};
use crate::job::Reading;
use crate::quantity::{VarianceShare, format_with_spread};
use crate::report::widened_by;
use crate::text::Arg;

/// The dimensions with their texts.
const DIMENSIONS: [(&str, &str); 6] = [
    ("tongue", "ui-dimension-tongue"),
    ("window_width", "ui-dimension-window-width"),
    ("window_height", "ui-dimension-window-height"),
    ("outer_limb", "ui-dimension-outer-limb"),
    ("yoke", "ui-dimension-yoke"),
    ("stack", "ui-dimension-stack"),
];

/// A value with its ±, as text.
pub(super) fn spread([value, half]: [f64; 2]) -> String {
    let (value, half) = format_with_spread(value, half);
    format!("{value} ± {half}")
}

fn label(dimension: &str) -> String {
    DIMENSIONS
        .iter()
        .find(|(word, _)| *word == dimension)
        .map_or_else(String::new, |(_, key)| say(key))
}

/// The marks, and the lengths computed from them.
#[component]
pub fn Lengths() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut editor = use_context::<PhotoEditor>();
    let answer = use_context::<Readings>();
    let Some(marks) = (editor.marks)() else { return rsx! {} };
    let answer = answer().filter(|_| marks.found.is_some());
    let ready: Vec<(&'static str, Reading)> = match &answer {
        Some(Ok(answer)) => answer
            .rows
            .iter()
            .filter_map(|row| Some((row.path, *row.reading.as_ref().ok()?)))
            .collect(),
        _ => Vec::new(),
    };
    let by_hand = default_outline(&marks).is_some();
    rsx! {
        div { class: "row",
            button { class: "second", onclick: move |_| search_object(editor), {say("ui-photo-look")} }
            if by_hand {
                button {
                    class: "second",
                    onclick: move |_| {
                        editor.change(|marks| marks.found = default_outline(marks));
                        editor.handle.set(Some(Handle::Object(0)));
                    },
                    {say("ui-photo-by-hand")}
                }
            }
        }
        h3 { {say("ui-photo-face")} }
        p { class: "hint", {say("ui-photo-face-help")} }
        div { class: "row",
            if marks.found.is_some() {
                button { class: "main", onclick: move |_| search_core(editor), {say("ui-photo-find-core")} }
            }
            button {
                class: "second",
                onclick: move |_| {
                    editor.change(|marks| {
                        let [w, h] = marks.frame;
                        let fresh = [[w * 0.2, h * 0.2], [w * 0.8, h * 0.2], [w * 0.8, h * 0.8], [w * 0.2, h * 0.8]];
                        marks.face.get_or_insert(fresh);
                    });
                    editor.handle.set(Some(Handle::Face(0)));
                },
                {say("ui-photo-mark-face")}
            }
            if let Some(face) = marks.face {
                button {
                    class: "second",
                    onclick: move |_| {
                        let found = editor.open.read().as_ref().map(|open| open.photo.propose_parts(face)).unwrap_or_default();
                        if found.is_empty() {
                            editor.message.set(Some(say("ui-photo-no-parts")));
                        } else {
                            editor.message.set(None);
                            editor.change(|marks| marks.marks = found);
                            editor.handle.set(Some(Handle::Mark(0, 0)));
                        }
                    },
                    {say("ui-photo-suggest")}
                }
            }
        }
        h3 { {say("ui-photo-edges")} }
        p { class: "hint", {say("ui-photo-edges-help")} }
        Choices {
            label: say("ui-photo-edges"),
            options: DIMENSIONS.iter().map(|(word, key)| ((*word).to_owned(), say(key))).collect::<Vec<_>>(),
            chosen: "",
            onchoose: move |word: String| {
                let at = editor.marks.read().as_ref().map_or(0, |marks| marks.marks.len());
                editor.change(|marks| {
                    let mark = new_mark(marks, &word);
                    marks.marks.push(mark);
                });
                editor.handle.set(Some(Handle::Mark(at, 0)));
            },
        }
        ul { class: "marks",
            for (index, mark) in marks.marks.iter().enumerate() {
                li { key: "{index}-{mark.dimension}",
                    span { {label(&mark.dimension)} }
                    if mark.points.len() == 2 {
                        for end in 0..2usize {
                            button {
                                class: if (editor.handle)() == Some(Handle::Mark(index, end)) { "option chosen" } else { "option" },
                                onclick: move |_| editor.handle.set(Some(Handle::Mark(index, end))),
                                {say(if end == 0 { "ui-photo-from" } else { "ui-photo-to" })}
                            }
                        }
                        button {
                            class: "option",
                            onclick: move |_| {
                                editor.change(|marks| {
                                    let along = marks.marks.get(index).and_then(|mark| along_edges(marks, &mark.points));
                                    if let (Some(along), Some(mark)) = (along, marks.marks.get_mut(index)) {
                                        mark.points = along;
                                    }
                                });
                                editor.handle.set(Some(Handle::Mark(index, 0)));
                            },
                            {say("ui-photo-along-edges")}
                        }
                    } else {
                        EdgePoints { handles: [0, 1, 2, 3].map(|end| Handle::Mark(index, end)) }
                    }
                    RemoveButton { change: move |editor: PhotoEditor| editor.change(|marks| { marks.marks.remove(index); }) }
                }
            }
        }
        match answer {
            None => rsx! {},
            Some(Err(message)) => rsx! { p { class: "caution", role: "alert", {tell(&message)} } },
            Some(Ok(answer)) => rsx! { LengthList { answer } },
        }
        if !ready.is_empty() {
            button {
                class: "main wide",
                onclick: move |_| {
                    let mut app = app.write();
                    editor.save(&mut app);
                    app.take_lengths(&ready);
                },
                {say("ui-photo-use")}
            }
        }
        button { class: "second wide", onclick: move |_| editor.save(&mut app.write()), {say("ui-photo-keep")} }
    }
}

/// Buttons that select a point along one of two edges.
#[component]
pub fn EdgePoints(handles: [Handle; 4]) -> Element {
    let mut editor = use_context::<PhotoEditor>();
    let points = [("1a", 1, 1), ("1b", 1, 2), ("2a", 2, 1), ("2b", 2, 2)];
    rsx! {
        for ((mark, edge, point), handle) in points.into_iter().zip(handles) {
            button {
                key: "{mark}",
                class: if (editor.handle)() == Some(handle) { "option chosen" } else { "option" },
                aria_label: say_with("ui-photo-edge-point", &[
                    ("mark", Arg::Text(mark)), ("edge", Arg::Number(f64::from(edge))), ("point", Arg::Number(f64::from(point))),
                ]),
                onclick: move |_| editor.handle.set(Some(handle)),
                {mark}
            }
        }
    }
}

/// The lengths.
#[component]
fn LengthList(answer: PhotoReadings) -> Element {
    rsx! {
        if let Some(degrees) = answer.viewing_angle {
            p { class: "hint", {say_with("ui-photo-viewing-angle", &[("degrees", Arg::Text(&format!("{degrees:.0}")))])} }
        }
        for warning in answer.warnings.iter() { p { key: "{warning.key}", class: "caution", {tell(warning)} } }
        for (index, askew) in answer.askew.iter().enumerate() {
            p { key: "askew-{index}", class: "caution",
                {say_with("ui-photo-askew", &[
                    ("dimension", Arg::Text(&label(askew.dimension))),
                    ("degrees", Arg::Text(&spread(askew.degrees))),
                ])}
            }
        }
        dl { class: "numbers",
            for row in answer.rows.iter() {
                div { key: "{row.dimension}",
                    dt { {label(row.dimension)}
                        if !row.variance_shares.is_empty() {
                            small { {say_with("number-widened", &[("inputs", Arg::Text(&widened(&row.variance_shares)))])} }
                        }
                    }
                    match &row.reading {
                        Ok(reading) => {
                            let (value, half) = format_with_spread(reading.value, reading.plus_minus);
                            rsx! { dd { "{value} " span { class: "plus-minus", "± {half} " } "mm" } }
                        }
                        Err(message) => rsx! { dd { class: "words", {tell(message)} } },
                    }
                }
            }
        }
    }
}

/// What widens a length most, in one line.
fn widened(variance_shares: &[VarianceShare]) -> String {
    told(|texts| Some(widened_by(texts, variance_shares))).unwrap_or_default()
}
