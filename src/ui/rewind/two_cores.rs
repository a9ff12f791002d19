//! Two cores as one design: which second core, how the windings are best joined and why; a second core from
//! the shelf or one like the job's own.

use dioxus::prelude::*;

use super::super::background::run_in_background;
use super::super::controls::{Choices, Unreadable, or_why};
use super::super::state::AppState;
use super::super::words::{say, say_with};
use crate::app::compare::OnShelf;
use crate::app::reach::{JoinAdvice, JoinReason, Spare, Step, join_advice, joined_best, wants_two};
use crate::job::{Core, JobFile, Joining, PairChoice};
use crate::quantity::{Current, format_significant};
use crate::text::Arg;

/// The most jobs that are looked at.
const LOOKED_AT: u32 = 200;

/// The cores on the shelf but for the one of the job in hand; what the second of each may be called.
pub(super) fn spares(app: &AppState) -> (Vec<Spare>, Option<super::super::state::Unread>) {
    let own = app.job_id();
    let (cores, unread): (Vec<OnShelf>, _) = or_why(app.query(|data| data.cores_on_shelf(LOOKED_AT)));
    // Another core may have the very same measures: the job tells it apart.
    let others = cores.iter().filter(|core| Some(core.job) != own);
    (others.map(Spare::from).collect(), unread)
}

/// What to look for: the measures of the job's own core.
fn find_another(core: &Core) -> String {
    let mm = |value: f64| format_significant(value, 3);
    let (tongue, stack) = (mm(core.tongue_mm.value), mm(core.stack_mm.value));
    let (width, height) = (mm(core.window_width_mm.value), mm(core.window_height_mm.value));
    let volts = mm(core.primary.rated_volts);
    say_with(
        "ui-pair-find",
        &[
            ("tongue", Arg::Text(&tongue)),
            ("stack", Arg::Text(&stack)),
            ("width", Arg::Text(&width)),
            ("height", Arg::Text(&height)),
            ("volts", Arg::Text(&volts)),
        ],
    )
}

/// What a core like the job's own is called.
pub(super) fn name_of_another(name: &str) -> String {
    let short: String = name.chars().take(160).collect();
    say_with("ui-pair-another", &[("name", Arg::Text(&short))])
}

/// The section; nothing for a use that one core serves, unless the job has a second.
#[component]
pub fn TwoCores() -> Element {
    let app = use_context::<Signal<AppState>>();
    let Some((goal, pair, core, name)) = app.read().file().map(|file| {
        let pair = crate::app::translate::pair_of(file).cloned();
        (file.goal, pair, file.core.clone(), file.name.clone())
    }) else {
        return rsx! {};
    };
    match pair {
        Some(pair) => rsx! { Joined { pair } },
        None if wants_two(&goal) => rsx! { Offered { core, name } },
        None => rsx! {},
    }
}

/// The second core of the job.
#[component]
fn Joined(pair: PairChoice) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let ways = vec![
        ("series".to_owned(), say("ui-series")),
        ("parallel".to_owned(), say("ui-parallel")),
    ];
    let turns = match app.read().answer() {
        Some(Ok(answer)) => answer.second.as_ref().and_then(|second| {
            let second = second.design.as_ref()?.candidate.winding.turns;
            let first = answer.design.as_ref()?.candidate.winding.turns;
            (first != second).then_some(second)
        }),
        _ => None,
    };
    let file = app.read().file().cloned();
    let key = file
        .as_ref()
        .map(|file| format!("{:?}", (&file.goal, &file.mains, &file.conditions, &file.core)));
    rsx! {
        section { class: "two-cores",
            h2 { {say("ui-two-cores")} }
            p { {say_with("ui-pair-with", &[("name", Arg::Text(&pair.name))])} }
            h3 { {say("ui-pair-windings")} }
            Choices {
                label: say("ui-pair-windings"), options: ways, chosen: pair.windings.word(),
                onchoose: move |word: String| {
                    if let Some(windings) = Joining::from_word(&word) {
                        app.write().take_steps(&[Step::Joined(windings)]);
                    }
                },
            }
            if let (Some(file), Some(key)) = (file, key) { Advice { key: "{key}", file, pair: pair.clone() } }
            p { class: "hint",
                match turns {
                    Some(turns) => say_with("ui-pair-list-turns", &[("turns", Arg::Number(f64::from(turns)))]),
                    None => say("ui-pair-list"),
                }
            }
            button { class: "second", onclick: move |_| app.write().take_steps(&[Step::OneCore]), {say("ui-pair-one")} }
        }
    }
}

/// Which way the windings are best joined and why; computed beside the screen.
#[component]
fn Advice(file: JobFile, pair: PairChoice) -> Element {
    let spare = Spare {
        name: pair.name,
        core: *pair.core,
    };
    let found = use_resource(move || {
        let (file, spare) = (file.clone(), spare.clone());
        async move { run_in_background(move || join_advice(&file, &spare)).await.flatten() }
    });
    let found = found.read();
    let text = match found.as_ref() {
        None => say("ui-reach-busy"),
        Some(None) => return rsx! {},
        Some(Some(advice)) => advice_text(advice),
    };
    rsx! { p { class: "hint", role: "status", "{text}" } }
}

/// The advice in a sentence or two.
fn advice_text(advice: &JoinAdvice) -> String {
    let (best, other) = match advice.best {
        Joining::Series => ("ui-series", "ui-parallel"),
        Joining::Parallel => ("ui-parallel", "ui-series"),
    };
    let (best, other) = (say(best), say(other));
    let amps = |current: Current| format_significant(current.si(), 3);
    let (gives, less) = (amps(advice.gives), advice.other.map_or_else(String::new, amps));
    let id = match advice.why {
        JoinReason::OnlyWay => "ui-join-only",
        JoinReason::GivesMore => "ui-join-more",
        JoinReason::SameCurrent => "ui-join-same",
    };
    say_with(
        id,
        &[
            ("best", Arg::Text(&best)),
            ("other", Arg::Text(&other)),
            ("gives", Arg::Text(&gives)),
            ("less", Arg::Text(&less)),
        ],
    )
}

/// Second cores to choose from.
#[component]
fn Offered(core: Core, name: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (on_shelf, unread) = spares(&app.read());
    if unread.is_some() {
        return rsx! { Unreadable { why: unread } };
    }
    let mut busy = use_signal(|| false);
    // Joined as the search recommends, which takes two searches: beside the screen.
    let mut take = move |spare: &Spare| {
        let Some(file) = app.peek().file().cloned() else { return };
        let spare = spare.clone();
        busy.set(true);
        spawn(async move {
            let pair = PairChoice {
                name: spare.name.clone(),
                core: Box::new(spare.core.clone()),
                windings: Joining::Series,
            };
            let best = run_in_background(move || joined_best(&file, &spare)).await.flatten();
            let pair = best.map_or(pair, |(pair, _)| pair);
            busy.set(false);
            app.write().take_steps(&[Step::Pair(pair)]);
        });
    };
    let another = Spare {
        name: name_of_another(&name),
        core: core.clone(),
    };
    rsx! {
        details { class: "two-cores",
            summary { {say("ui-two-cores")} }
            p { class: "hint", {say("ui-two-cores-why")} }
            if busy() { p { class: "busy", role: "status", {say("ui-reach-busy")} } }
            for (at, spare) in on_shelf.iter().cloned().enumerate() {
                button { key: "{at}", class: "second wide", onclick: move |_| take(&spare),
                    {say_with("ui-pair-add", &[("name", Arg::Text(&spare.name))])}
                }
            }
            p { class: "hint", {find_another(&core)} }
            button { class: "second wide", onclick: move |_| take(&another), {say("ui-pair-alike")} }
        }
    }
}
