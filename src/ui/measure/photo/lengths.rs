//! The marks on the core, the lengths computed from them, and their transfer into the job.

use dioxus::prelude::*;

use super::super::super::controls::Choices;
use super::super::super::state::AppState;
use super::super::super::words::{say, say_with, tell, told};
use super::{
    Handle, PhotoEditor, Readings, RemoveButton, along_edges, doubt, new_mark, search_core, search_object, search_stack,
};
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

pub(super) fn label(dimension: &str) -> String {
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
                        editor.change(|marks| {
                            marks.found = default_outline(marks);
                            marks.object_doubts.clear();
                        });
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
                button {
                    class: "main",
                    onclick: move |_| async move {
                        search_core(editor).await;
                    },
                    {say("ui-photo-find-core")}
                }
                button {
                    class: "second",
                    onclick: move |_| async move {
                        search_stack(editor).await;
                    },
                    {say("ui-photo-find-stack")}
                }
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
                            editor.change(|marks| {
                                marks.marks = found;
                                marks.doubts.clear();
                            });
                            editor.handle.set(Some(Handle::Mark(0, 0)));
                        }
                    },
                    {say("ui-photo-suggest")}
                }
            }
        }
        if !marks.doubts.is_empty() { Doubts { words: marks.doubts.clone() } }
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
        h3 { {say("ui-photo-edges")} }
        p { class: "hint", {say("ui-photo-edges-help")} }
        p { class: "hint", {say("ui-photo-stack-help")} }
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

/// Why the marks of a core that was found by itself are to be compared with the photo, until a person says
/// that they were.
#[component]
fn Doubts(words: Vec<String>) -> Element {
    let editor = use_context::<PhotoEditor>();
    rsx! {
        div { class: "caution", role: "alert",
            p { {say("ui-photo-core-doubtful")} }
            for word in words { p { key: "{word}", {say(doubt(&word))} } }
            button {
                class: "second",
                onclick: move |_| editor.change(|marks| marks.doubts.clear()),
                {say("ui-photo-core-compared")}
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
pub(super) fn widened(variance_shares: &[VarianceShare]) -> String {
    told(|texts| Some(widened_by(texts, variance_shares))).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use base64::Engine;
    use base64::prelude::BASE64_STANDARD;

    use super::super::{OpenPhoto, Shown, search_core, search_object, use_photo_editor};
    use super::*;
    use crate::app::photo::OpenedPhoto;
    use crate::job::{DimensionMark, PhotoFound, PhotoId, PhotoMarks, PhotoReference, Place};
    use crate::quantity::Origin;
    use crate::ui::pictures::keep_picture;
    use crate::ui::words::Words;

    /// Core 1 of seed 1, 640 pixels wide, rendered (`tests/reference/photo/core_series.rs`); its true tongue is
    /// 33.71 mm, its windows 15.85 by 45.84, its outer limbs 15.41 and its yokes 16.45.
    const RENDERED: &[u8] = include_bytes!("../../../../tests/reference/photo/core.jpg");

    /// What the search finds in it.
    const FACE: [Place; 4] = [[320.11, 149.56], [211.38, 259.9], [118.24, 170.0], [229.37, 59.75]];
    const FOUND: [(&str, [Place; 4]); 11] = [
        (
            "tongue",
            [[258.29, 158.86], [220.81, 122.12], [182.18, 160.69], [219.92, 197.54]],
        ),
        (
            "window_width",
            [[238.8, 104.15], [276.23, 140.78], [258.29, 158.86], [220.81, 122.12]],
        ),
        (
            "window_width",
            [[182.18, 160.69], [219.92, 197.54], [201.76, 215.85], [163.96, 178.88]],
        ),
        (
            "window_height",
            [[281.46, 151.37], [269.07, 164.05], [215.47, 111.51], [228.04, 98.81]],
        ),
        (
            "window_height",
            [[225.39, 208.01], [212.8, 220.85], [158.51, 168.54], [171.27, 155.67]],
        ),
        (
            "outer_limb",
            [[243.05, 73.28], [306.56, 136.15], [238.8, 104.15], [276.23, 140.78]],
        ),
        (
            "outer_limb",
            [[201.76, 215.85], [163.96, 178.88], [197.47, 246.47], [132.26, 183.53]],
        ),
        (
            "yoke",
            [[303.76, 166.15], [227.78, 243.26], [281.46, 151.37], [269.07, 164.05]],
        ),
        (
            "yoke",
            [[303.76, 166.15], [227.78, 243.26], [225.39, 208.01], [212.8, 220.85]],
        ),
        (
            "yoke",
            [[215.47, 111.51], [228.04, 98.81], [134.7, 153.67], [212.62, 76.37]],
        ),
        (
            "yoke",
            [[158.51, 168.54], [171.27, 155.67], [134.7, 153.67], [212.62, 76.37]],
        ),
    ];

    fn as_found(marks: &mut PhotoMarks) {
        marks.found = Some(PhotoFound::Ellipse {
            centre: [318.54, 262.56],
            half_axes: [13.62, 13.57],
            angle: -0.868,
        });
        marks.face = Some(FACE);
        let mark = |(dimension, points): &(&str, [Place; 4])| DimensionMark {
            dimension: (*dimension).to_owned(),
            points: points.to_vec(),
        };
        marks.marks = FOUND.iter().map(mark).collect();
    }

    /// The photo as a person has it after choosing the coin and giving the height: searched, or as it
    /// is found with these doubts.
    #[component]
    fn Screen(doubts: Option<Vec<String>>) -> Element {
        use_context_provider(Words::english);
        let folder = use_hook(|| Arc::new(tempfile::tempdir().unwrap()));
        let app = use_signal(|| AppState::open(folder.path()));
        use_context_provider(|| app);
        let mut editor = use_photo_editor();
        use_hook(|| {
            spawn(async move {
                let photo = Arc::new(OpenedPhoto::new(RENDERED).unwrap());
                let mut marks = photo.empty_marks(PhotoReference::Coin {
                    coin: "eur-5c".to_owned(),
                });
                marks.height_mm = Reading::new(52.376, 1.0, Origin::Calipers);
                editor.marks.set(Some(marks));
                let address = format!("data:image/png;base64,{}", BASE64_STANDARD.encode(&photo.png)).into();
                let id = PhotoId(uuid::Uuid::nil());
                editor.open.set(Some(OpenPhoto { id, photo, address }));
                match doubts {
                    Some(doubts) => editor.change(|marks| {
                        as_found(marks);
                        (marks.doubts, marks.object_doubts) =
                            doubts.into_iter().partition(|doubt| doubt.starts_with("core-"));
                    }),
                    None => {
                        search_object(editor).await;
                        search_core(editor).await;
                    }
                }
            });
        });
        rsx! {
            if (editor.busy)().is_some() { p { "busy" } }
            if editor.open.read().is_some() { Shown {} }
        }
    }

    fn rendered(doubts: Option<&[&str]>) -> String {
        let doubts = doubts.map(|words| words.iter().map(|word| (*word).to_owned()).collect());
        let mut dom = VirtualDom::new_with_props(Screen, ScreenProps { doubts });
        dom.rebuild_in_place();
        let mut context = std::task::Context::from_waker(std::task::Waker::noop());
        for _ in 0..30_000 {
            let ready = {
                let waits = std::pin::pin!(dom.wait_for_work());
                std::future::Future::poll(waits, &mut context).is_ready()
            };
            if ready {
                dom.render_immediate_to_vec();
                let html = dioxus_ssr::render(&dom);
                if html.contains("class=\"numbers\"") && !html.contains("busy") {
                    return html;
                }
            }
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        panic!("nothing was found: {}", dioxus_ssr::render(&dom));
    }

    /// From the photo alone to the lengths on the screen.
    #[test]
    #[ignore = "a minute without optimisation"]
    fn a_core_is_found_by_itself() {
        shows_all_lengths(&rendered(None));
    }

    /// A core as it is found: the face with its edges is drawn, each length agrees with the true one within its ±,
    /// there is no doubt, and they can be put into the job.
    #[test]
    fn a_core_found_by_itself_shows_its_lengths() {
        let html = rendered(Some(&[]));
        keep_picture("photo-core-found", &html);
        shows_all_lengths(&html);
    }

    fn shows_all_lengths(html: &str) {
        assert!(
            html.contains("class=\"face\"") && html.contains("Use these lengths"),
            "{html}"
        );
        assert!(!html.contains("Compare every marked edge"), "{html}");
        for (name, truth) in [
            ("Tongue", 33.71),
            ("Window width", 15.85),
            ("Window height", 45.84),
            ("Outer limb", 15.41),
            ("Yoke", 16.45),
        ] {
            let numbers = html.split("class=\"numbers\"").nth(1).unwrap();
            let (_, row) = numbers
                .split_once(&format!("<dt>{name}"))
                .unwrap_or_else(|| panic!("{name}: {html}"));
            let (_, value) = row.split_once("<dd>").unwrap();
            let value: f64 = value.split_whitespace().next().unwrap().parse().unwrap();
            let (_, half) = row.split_once("class=\"plus-minus\">± ").unwrap();
            let half: f64 = half.split_whitespace().next().unwrap().parse().unwrap();
            assert!(
                (value - truth).abs() <= half && half < 0.12 * truth,
                "{name} {truth}: {value} ± {half}"
            );
        }
    }

    /// Each reason for doubt stands beside the lengths in words, until a person says that every edge was
    /// compared with the photo.
    #[test]
    fn a_doubtful_core_says_why_beside_its_lengths() {
        let words = [
            "core-second",
            "core-edges",
            "core-uneven",
            "core-proportions",
            "core-level",
            "core-side",
            "core-sheets",
        ];
        let html = rendered(Some(&words));
        keep_picture("photo-core-doubtful", &html);
        let (before, after) = html.split_once("Compare every marked edge").unwrap();
        assert!(
            !before.contains("class=\"numbers\""),
            "the doubt comes after the lengths"
        );
        let (said, _) = after.split_once("class=\"numbers\"").unwrap();
        for word in words {
            assert!(said.contains(&say_plain(doubt(word))), "{word}: {said}");
        }
        assert!(said.contains("Confirm: all edges compared"), "{said}");
    }

    /// A photo that is opened again still says why the object's outline is doubted, with a button for it;
    /// glare alone is only mentioned.
    #[test]
    fn a_doubtful_object_stays_doubtful_in_a_kept_photo() {
        let html = rendered(Some(&["second-as-likely"]));
        for key in ["ui-photo-doubtful", "ui-doubt-second", "ui-photo-object-compared"] {
            assert!(html.contains(&say_plain(key)), "{key}: {html}");
        }
        let html = rendered(Some(&["glare"]));
        assert!(html.contains(&say_plain("ui-doubt-glare")), "{html}");
        for key in ["ui-photo-doubtful", "ui-photo-object-compared"] {
            assert!(!html.contains(&say_plain(key)), "{key}: {html}");
        }
    }

    fn say_plain(key: &str) -> String {
        crate::text::Texts::english().unwrap().text(key)
    }
}
