//! The preview of an import.

use dioxus::prelude::*;

use super::super::words::{say, say_with};
use crate::app::sync::{ImportResult, local_time, size_text};
use crate::merge::Kind;
use crate::store::Tally;
use crate::text::Arg;

/// What a person calls some records of a kind; none for those that come with others.
#[allow(clippy::unnecessary_wraps)] // A kind to come may have no name of its own.
const fn kind_key(kind: Kind) -> Option<&'static str> {
    Some(match kind {
        Kind::Donor => "ui-kind-donor",
        Kind::Core => "ui-kind-core",
        Kind::Job => "ui-kind-job",
        Kind::Design => "ui-kind-design",
        Kind::Stock => "ui-kind-stock",
        Kind::Measurement => "ui-kind-measurement",
        Kind::Note => "ui-kind-note",
        Kind::Photo | Kind::CorePhoto => "ui-kind-photo",
        Kind::Teardown => "ui-kind-teardown",
        Kind::JobRun => "ui-kind-job-run",
    })
}

fn count(key: &str, what: &str, count: u64) -> Option<String> {
    (count > 0).then(|| say_with(key, &[("what", Arg::Text(what)), ("count", Arg::Number(count as f64))]))
}

fn rows(kind: Kind, tally: Tally) -> Option<(String, String)> {
    let what = say(kind_key(kind)?);
    let parts = [
        count("ui-sync-new", &what, tally.new),
        count("ui-sync-changed", &what, tally.changed),
        count("ui-sync-removed", &what, tally.removed),
    ];
    let text: Vec<String> = parts.into_iter().flatten().collect();
    (!text.is_empty()).then(|| (what, text.join(", ")))
}

/// The file in hand.
#[component]
pub fn Preview(parcel: ImportResult, ontake: EventHandler<()>, onleave: EventHandler<()>) -> Element {
    let ImportResult {
        manifest,
        unpacked,
        arrival,
        voided,
    } = parcel;
    let from = if manifest.from.name.is_empty() {
        manifest.from.device.to_string()
    } else {
        manifest.from.name
    };
    let lines: Vec<(String, String)> = arrival
        .tallies
        .iter()
        .filter_map(|(kind, tally)| rows(*kind, *tally))
        .collect();
    let made = local_time(manifest.made_ms);
    let photos = manifest.photos;
    rsx! {
        section { class: "parcel",
            h2 { {say_with("ui-sync-from", &[("name", Arg::Text(&from)), ("time", Arg::Text(&made))])} }
            if arrival.is_nothing() {
                p { {say("ui-sync-nothing")} }
            } else {
                dl { class: "tallies",
                    for (what, text) in lines {
                        dt { "{what}" }
                        dd { "{text}" }
                    }
                }
            }
            p { class: "soft", {say_with("ui-sync-size", &[("size", Arg::Text(&size_text(unpacked)))])} }
            if photos > 0 {
                p { class: "soft", {say_with("ui-sync-photos", &[("count", Arg::Number(photos as f64))])} }
            }
            if !arrival.removed.is_empty() {
                p { {say("ui-sync-removes")} }
                ul { for (_, name) in &arrival.removed { li { bdi { "{name}" } } } }
            }
            if !arrival.conflicting.is_empty() {
                p { {say("ui-sync-conflicts")} }
                ul { for (_, name) in &arrival.conflicting { li { bdi { "{name}" } } } }
            }
            if !voided.is_empty() {
                p { class: "caution", {say("ui-sync-voids")} }
                super::super::asked::Lost { voided, in_hand: None }
            }
            p { class: "soft", {say("ui-sync-gates")} }
            div { class: "row",
                if !arrival.is_nothing() {
                    button { class: "main", onclick: move |_| ontake.call(()), {say("ui-sync-take")} }
                }
                button { class: "second", onclick: move |_| onleave.call(()), {say("ui-sync-leave")} }
            }
        }
    }
}
