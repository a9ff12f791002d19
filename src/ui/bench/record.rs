//! The commissioning record: every prediction beside its reading.

use dioxus::prelude::*;

use super::super::words::{say, told};
use super::stage::winding_name;
use crate::app::bench::{amount_like, band_text};
use crate::app::now::clock_time;
use crate::bench::{Bench, Status};

/// The record so far.
#[component]
pub fn Record(bench: Bench) -> Element {
    let lines = bench.record();
    rsx! {
        section { class: "record",
            h2 { {say("ui-record-title")} }
            dl {
                for line in lines {
                    div { key: "{line.prediction.stage.word()}-{line.prediction.of}",
                        dt {
                            {say(line.prediction.stage.key())} ", " {winding_name(line.prediction.of)}
                            small { {say("ui-expected")} " " {told(|texts| Some(band_text(&line.prediction, texts))).unwrap_or_default()} }
                        }
                        dd {
                            match line.outcome {
                                Some(outcome) => rsx! {
                                    {told(|texts| Some(amount_like(outcome.amount, line.prediction.value, texts))).unwrap_or_default()}
                                    " "
                                    span { class: "mark", title: "{clock_time(outcome.at)}",
                                        match outcome.status { Status::InBand => "✓", Status::Explained(..) => "(✓)", Status::Outside(_) => "!" }
                                    }
                                },
                                None => rsx! { "–" },
                            }
                        }
                    }
                }
            }
        }
    }
}
