//! The core's lengths from all its photos together, and their transfer into the job.

use dioxus::prelude::*;

use super::super::super::state::AppState;
use super::super::super::words::{say, say_with};
use super::lengths::{label, widened};
use crate::app::photo::{CombinedPhotos, MEASURED, combined_photos};
use crate::job::{PhotoMarks, Reading};
use crate::quantity::format_with_spread;
use crate::text::Arg;

/// The part of the screen: nothing where no two photos give the same length.
#[component]
pub fn Together() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found = use_memo(move || {
        let photos = app.read().core_photos(MEASURED).unwrap_or_default();
        let marks: Vec<PhotoMarks> = photos.into_iter().filter_map(|photo| photo.marks).collect();
        combined_photos(&marks)
    });
    if found.read().rows.is_empty() {
        return rsx! {};
    }
    rsx! { Combined { found: found() } }
}

#[component]
fn Combined(found: CombinedPhotos) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let ready: Vec<(&'static str, Reading)> = found.rows.iter().map(|row| (row.path, row.reading)).collect();
    let mm = |half: f64| format_with_spread(half, half).1;
    rsx! {
        h3 { {say("ui-photo-together")} }
        p { class: "hint", {say("ui-photo-together-help")} }
        if found.doubtful > 0 {
            p { class: "caution",
                {say_with("ui-photo-together-doubtful", &[("count", Arg::Number(found.doubtful as f64))])}
            }
        }
        for row in found.rows.iter().filter(|row| row.differ) {
            p { key: "{row.dimension}", class: "caution",
                {say_with("ui-photo-together-differ", &[("dimension", Arg::Text(&label(row.dimension)))])}
            }
        }
        dl { class: "numbers",
            for row in found.rows.iter() {
                div { key: "{row.dimension}",
                    dt { {label(row.dimension)}
                        small {
                            {say_with("ui-photo-together-row", &[
                                ("count", Arg::Number(row.photos as f64)),
                                ("own", Arg::Text(&mm(row.own_mm))),
                                ("common", Arg::Text(&mm(row.common_mm))),
                            ])}
                        }
                        if !row.variance_shares.is_empty() {
                            small { {say_with("number-widened", &[("inputs", Arg::Text(&widened(&row.variance_shares)))])} }
                        }
                    }
                    dd {
                        {format_with_spread(row.reading.value, row.reading.plus_minus).0}
                        " "
                        span { class: "plus-minus", {format!("± {} ", format_with_spread(row.reading.value, row.reading.plus_minus).1)} }
                        "mm"
                    }
                }
            }
        }
        button {
            class: "main wide",
            onclick: move |_| app.write().take_lengths(&ready),
            {say("ui-photo-together-use")}
        }
    }
}
