//! The cores on the shelf for one use, alone and as pairs.

use dioxus::prelude::*;

use super::super::background::run_in_background;
use super::super::controls::{Unreadable, or_why};
use super::super::state::{AppState, Screen};
use super::super::words::{say, say_with, tell};
use super::{amps, because, drawn, verdict};
use crate::app::compare::{ForUse, OnShelf, Row, advised, alike, alone, ranked};
use crate::job::{Goal, Joining};
use crate::text::Arg;

/// The most jobs that are looked at.
const LOOKED_AT: u32 = 200;

/// The rows, worked out beside the screen.
#[component]
pub(super) fn Cores(goal: Goal) -> Element {
    let app = use_context::<Signal<AppState>>();
    let mut done = use_signal(|| 0_usize);
    let (cores, unread) = use_hook(|| or_why(app.peek().query(|data| data.cores_on_shelf(LOOKED_AT))));
    if unread.is_some() {
        return rsx! { Unreadable { why: unread } };
    }
    let count = cores.len();
    let worked_on = cores.clone();
    let found = use_resource(move || {
        let cores = worked_on.clone();
        async move {
            let mut offers = Vec::with_capacity(cores.len());
            for core in &cores {
                let file = core.file.clone();
                offers.push(run_in_background(move || alone(&file, &goal)).await?);
                done.set(offers.len());
            }
            run_in_background(move || ranked(&cores, offers, &goal)).await?
        }
    });
    if count == 0 {
        return rsx! { p { {say("ui-compare-none")} } };
    }
    let found = found.read();
    match found.as_ref() {
        None => rsx! {
            p { class: "busy", role: "status",
                {say_with("ui-compare-busy", &[("done", Arg::Number(done() as f64)), ("count", Arg::Number(count as f64))])}
            }
            progress { max: "{count}", value: "{done}" }
        },
        Some(None) => rsx! { p { {say("ui-compare-no-answer")} } },
        Some(Some(found)) => rsx! { Rows { found: found.clone(), cores, goal } },
    }
}

#[component]
fn Rows(found: ForUse, cores: Vec<OnShelf>, goal: Goal) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let name = |row: &Row| {
        let of = |place: usize| cores.get(place).map_or_else(String::new, |core| core.file.name.clone());
        match row.cores {
            (one, None) => of(one),
            (one, Some(other)) => {
                let (one, other) = (of(one), of(other));
                let key = match row.windings {
                    Some(Joining::Parallel) => "ui-compare-pair",
                    _ => "ui-compare-pair-series",
                };
                say_with(key, &[("one", Arg::Text(&one)), ("other", Arg::Text(&other))])
            }
        }
    };
    let best = advised(&found);
    let amount = |row: &Row| row.offer.as_ref().map(|offer| offer.current);
    let top = found.rows.first().and_then(amount);
    let most = found
        .rows
        .iter()
        .filter_map(amount)
        .map(|current| (current.value + current.plus_minus).si())
        .fold(found.wanted.si() * 1.1, f64::max);
    let as_good = best.and_then(amount).map_or(0, |best| {
        let alone = found.rows.iter().filter(|row| row.cores.1.is_none());
        alone.filter_map(amount).filter(|other| alike(other, &best)).count()
    });
    let wanted = crate::quantity::format_significant(found.wanted.si(), 3);
    rsx! {
        if let Some(best) = best {
            p { class: "headline",
                {say_with("ui-compare-take", &[("core", Arg::Text(&name(best))), ("wanted", Arg::Text(&wanted))])}
                if as_good > 1 { " " {say("ui-compare-alike")} }
            }
        } else {
            p { class: "caution", {say("ui-compare-nothing")} }
        }
        ol { class: "ranked",
            for row in found.rows.iter() {
                li { key: "{row.cores:?}",
                    button {
                        class: if Some(row) == best { "winding-card chosen" } else { "winding-card" },
                        onclick: {
                            let job = cores.get(row.cores.0).map(|core| core.job);
                            let pair = row.pair(&cores);
                            move |_| match (job, pair.clone()) {
                                (Some(job), Some(pair)) => app.write().open_pair(job, goal, pair),
                                (Some(job), None) => app.write().open_job(job, Screen::Rewind),
                                (None, _) => {}
                            }
                        },
                        strong { {name(row)} }
                        match &row.offer {
                            Some(offer) => rsx! {
                                span { "{amps(offer)}. {verdict(offer, found.wanted)}" }
                                span { class: "bar-of", dangerous_inner_html: drawn(offer, found.wanted, most) }
                                span { class: "facts", {tell(&offer.winding)} }
                                span { class: "facts", {because(offer)} }
                            },
                            None => rsx! { span { {say("ui-compare-no-winding")} } },
                        }
                    }
                }
            }
        }
        if top.is_some() { p { class: "hint", {say("ui-compare-range")} } }
    }
}
