//! Two rebuilt donors together: which other job, how both sides are joined.

use dioxus::prelude::*;

use super::super::super::controls::Choices;
use super::super::super::desk::Desk;
use super::super::super::words::{say, told};
use super::ToldView;
use crate::app::behaviour::pairs::pair;
use crate::job::JobId;
use crate::magnetics::pairs::Joined;
use crate::report;

fn joined(word: &str) -> Joined {
    if word == "series" {
        Joined::Series
    } else {
        Joined::Parallel
    }
}

/// The panel.
#[component]
pub fn Pairs() -> Element {
    let desk = use_context::<Signal<Desk>>();
    let mut other = use_signal(|| None::<JobId>);
    let mut primaries = use_signal(|| "parallel".to_owned());
    let mut windings = use_signal(|| "series".to_owned());
    let jobs: Vec<(JobId, String)> = {
        let desk = desk.read();
        let here = desk.job_id();
        let listed = desk.jobs().0;
        listed
            .iter()
            .filter(|job| Some(job.id) != here)
            .map(|job| (job.id, job.name.clone()))
            .collect()
    };
    let found = other().and_then(|id| {
        let desk = desk.read();
        let (second, second_answer) = desk.other_job(id)?;
        let (file, answer) = (desk.file()?, desk.answer()?.ok()?);
        let found = pair(answer, &second_answer, joined(&primaries()), joined(&windings()))?;
        told(|texts| Some(report::behaviour::pairs(&found, [&file.name, &second.name], texts)))
    });
    let ways = || {
        vec![
            ("series".to_owned(), say("ui-series")),
            ("parallel".to_owned(), say("ui-parallel")),
        ]
    };
    if jobs.is_empty() {
        return rsx! { p { class: "hint", {say("ui-pair-needs")} } };
    }
    rsx! {
        h4 { {say("ui-pair-other")} }
        Choices {
            label: say("ui-pair-other"),
            options: jobs.iter().map(|(id, name)| (id.to_string(), name.clone())).collect::<Vec<_>>(),
            chosen: other().map_or_else(String::new, |id| id.to_string()),
            onchoose: move |word: String| other.set(jobs.iter().map(|(id, _)| *id).find(|id| id.to_string() == word)),
        }
        h4 { {say("ui-pair-primaries")} }
        Choices { label: say("ui-pair-primaries"), options: ways(), chosen: primaries(), onchoose: move |word| primaries.set(word) }
        h4 { {say("ui-pair-windings")} }
        Choices { label: say("ui-pair-windings"), options: ways(), chosen: windings(), onchoose: move |word| windings.set(word) }
        match found {
            Some(found) => rsx! { ToldView { told: found } },
            None if other().is_some() => rsx! { p { class: "hint", {say("ui-none-pairs")} } },
            None => rsx! {},
        }
    }
}
