//! Two rebuilt donors together: which other job, how both sides are joined.

use dioxus::prelude::*;

use super::super::super::controls::{Choices, Unreadable, or_why};
use super::super::super::state::AppState;
use super::super::super::words::{say, told};
use super::TopicPanel;
use crate::app::guard::guarded;
use crate::job::{JobId, Joining, PairChoice};
use crate::report;
use crate::store::Op;

/// The pair with one of its choices changed; before the first, primaries side by side and windings
/// end to end.
fn changed(pair: Option<PairChoice>, other: JobId, change: impl FnOnce(&mut PairChoice)) -> PairChoice {
    let mut pair = pair.unwrap_or(PairChoice {
        other,
        primaries: Joining::Parallel,
        windings: Joining::Series,
    });
    change(&mut pair);
    pair
}

/// The panel.
#[component]
pub fn Pairs() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let chosen: Option<PairChoice> = app.read().file().and_then(|file| file.conditions.pair);
    let (jobs, unread): (Vec<(JobId, String)>, _) = {
        let app = app.read();
        let here = app.job_id();
        or_why(app.jobs().map(|(listed, _)| {
            let others = listed.iter().filter(|job| Some(job.id) != here);
            others.map(|job| (job.id, job.name.clone())).collect()
        }))
    };
    let found = {
        let app = app.read();
        match (app.file(), app.answer()) {
            (Some(file), Some(Ok(answer))) => guarded(|| {
                let other = answer.beside.as_ref()?;
                let found = answer.pair()?;
                told(|texts| Some(report::behaviour::pairs(found, [&file.name, &other.0], texts)))
            })
            .ok()
            .flatten(),
            _ => None,
        }
    };
    let ways = || {
        vec![
            ("series".to_owned(), say("ui-series")),
            ("parallel".to_owned(), say("ui-parallel")),
        ]
    };
    if unread.is_some() {
        return rsx! { Unreadable { why: unread } };
    }
    if jobs.is_empty() {
        return rsx! { p { class: "hint", {say("ui-pair-needs")} } };
    }
    rsx! {
        h4 { {say("ui-pair-other")} }
        Choices {
            label: say("ui-pair-other"),
            options: jobs.iter().map(|(id, name)| (id.to_string(), name.clone())).collect::<Vec<_>>(),
            chosen: chosen.map_or_else(String::new, |pair| pair.other.to_string()),
            onchoose: move |word: String| {
                if let Some((id, _)) = jobs.iter().find(|(id, _)| id.to_string() == word) {
                    let id = *id;
                    app.write().set_conditions(Op::SecondCore, |c| {
                        c.pair = Some(changed(c.pair, id, |pair| pair.other = id));
                    });
                }
            },
        }
        if let Some(pair) = chosen {
            h4 { {say("ui-pair-primaries")} }
            Choices {
                label: say("ui-pair-primaries"), options: ways(), chosen: pair.primaries.word(),
                onchoose: move |word: String| app.write().set_conditions(Op::Primaries, |c| {
                    c.pair = Joining::from_word(&word).map(|way| changed(c.pair, pair.other, |pair| pair.primaries = way));
                }),
            }
            h4 { {say("ui-pair-windings")} }
            Choices {
                label: say("ui-pair-windings"), options: ways(), chosen: pair.windings.word(),
                onchoose: move |word: String| app.write().set_conditions(Op::Windings, |c| {
                    c.pair = Joining::from_word(&word).map(|way| changed(c.pair, pair.other, |pair| pair.windings = way));
                }),
            }
        }
        match found {
            Some(found) => rsx! { TopicPanel { view: found } },
            None if chosen.is_some() => rsx! { p { class: "hint", {say("ui-none-pairs")} } },
            None => rsx! {},
        }
    }
}
