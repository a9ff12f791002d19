//! The windings found: what the answer card does not say of the one shown, and the others folded below it (own
//! wire, what shops sell, the rest); or why there is none and what is nearest.

use dioxus::prelude::*;

use super::super::controls::Fold;
use super::super::state::{AppState, Screen};
use super::super::words::{say, say_with, tell};
use super::reach::WhatItTakes;
use crate::app::guard::guarded;
use crate::app::listing::{Against, Listing, Row, SideBySide, listing, side_by_side};
use crate::rewind::handwork::Group;
use crate::text::Arg;

/// The id of a group's heading.
const fn heading(group: Group) -> &'static str {
    match group {
        Group::Own => "ui-group-own",
        Group::Common => "ui-group-common",
        Group::Rest => "ui-group-rest",
    }
}

/// What a winding loses or gains, in a few words.
fn against_text(against: &[Against]) -> String {
    let text = |one: &Against| match one {
        Against::NeedsReactor(mh) => say_with("ui-needs-reactor", &[("mh", Arg::Text(mh))]),
        Against::NoReactor => say("ui-no-reactor"),
        Against::LessCurrent(part) => say_with("ui-less-current", &[("part", Arg::Text(part))]),
        Against::MoreCurrent(part) => say_with("ui-more-current", &[("part", Arg::Text(part))]),
        Against::Hotter(kelvins) => say_with("ui-hotter", &[("kelvins", Arg::Text(kelvins))]),
        Against::Cooler(kelvins) => say_with("ui-cooler", &[("kelvins", Arg::Text(kelvins))]),
        Against::Together(count) => say_with("ui-together", &[("count", Arg::Number(f64::from(*count)))]),
        Against::Tight => say("ui-tight"),
        Against::MoreWork => say("ui-more-work"),
        Against::OffVoltage => say("ui-off-voltage"),
        Against::MoreMetal(part) => say_with("ui-more-metal", &[("part", Arg::Text(part))]),
        Against::ToBuy => say("ui-to-buy"),
        Against::HarderToGet => say("ui-harder-to-get"),
    };
    if against.is_empty() {
        say("ui-about-the-same")
    } else {
        against.iter().map(text).collect::<Vec<_>>().join("; ")
    }
}

/// The list.
#[component]
pub fn Ranked() -> Element {
    let app = use_context::<Signal<AppState>>();
    let found: Option<Listing> = {
        let app = app.read();
        match app.answer() {
            Some(Ok(answer)) => Some(listing(answer, app.awg())),
            _ => None,
        }
    };
    let Some(found) = found else { return rsx! {} };
    if found.rows.is_empty() {
        return rsx! { NoneFits { found } };
    }
    let shown = found.rows.iter().find(|row| row.chosen).cloned();
    let others = found.rows.len().saturating_sub(1);
    rsx! {
        section {
            Shown { row: shown, why: found.why.map(|why| say(why.key())) }
            details { class: "others",
                summary { {say_with("ui-ranked-others", &[("count", Arg::Number(others as f64))])} }
                Groups { found }
            }
        }
    }
}

/// The nearest winding and the requirements of the target, shown if no winding fits.
#[component]
fn NoneFits(found: Listing) -> Element {
    rsx! {
        section {
            p { class: "caution",
                match &found.nearest {
                    Some(nearest) => say_with("ui-nearest", &[
                        ("part", Arg::Text(&nearest.part)), ("amps", Arg::Text(&nearest.amps)), ("winding", Arg::Text(&tell(&nearest.title))),
                    ]),
                    None => say("ui-nearest-none"),
                }
            }
            WhatItTakes {}
            Tried { found }
        }
    }
}

/// The winding that the answer card names: why it is recommended, and the button that takes it or goes back to
/// the recommended one. A person's own turns are no row of the list.
#[component]
fn Shown(row: Option<Row>, why: Option<String>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let chosen =
        matches!(app.read().answer(), Some(Ok(answer)) if answer.design.as_ref().is_some_and(|design| design.chosen));
    let index = row.as_ref().map(|row| row.index);
    rsx! {
        div { class: "shown-winding",
            p { class: "hint",
                if chosen {
                    {say("ui-design-chosen")}
                } else if let Some(why) = why {
                    strong { {say("ui-recommended")} ". " }
                    "{why}"
                }
            }
            div { class: "row",
                if chosen {
                    button { class: "second", id: "best-winding", onclick: move |_| app.write().choose(None), {say("ui-design-back")} }
                } else if let Some(index) = index {
                    button { class: "main", id: "take-winding", onclick: move |_| choose_at(app, index), {say("ui-winding-take")} }
                }
                button { class: if chosen { "main" } else { "second" }, id: "bench-page", onclick: move |_| app.write().go(Screen::Page), {say("ui-to-page")} }
            }
        }
    }
}

/// Chooses the winding at a place of the list.
fn choose_at(mut app: Signal<AppState>, index: usize) {
    let candidate = match app.read().answer() {
        Some(Ok(answer)) => answer.found.ranked.get(index).copied(),
        _ => None,
    };
    if let Some(candidate) = candidate {
        app.write().choose_candidate(&candidate);
    }
}

/// The windings in groups, the recommended one first.
#[component]
fn Groups(found: Listing) -> Element {
    let groups: Vec<(Group, Vec<Row>)> = Group::ALL
        .into_iter()
        .map(|group| {
            // The recommended one stands above the groups.
            let rows = found.rows.iter().skip(1).filter(|row| row.group == group);
            (group, rows.cloned().collect::<Vec<_>>())
        })
        .filter(|(_, rows)| !rows.is_empty())
        .collect();
    rsx! {
        if let Some(row) = found.rows.first().cloned() {
            h3 { {say("ui-recommended")} }
            div { class: "ranked", Card { row } }
        }
        for (group, rows) in groups {
            // The person's own wire stands open; the others are long lists.
            if group != Group::Own {
                Fold { word: if group == Group::Common { "shop-windings" } else { "other-windings" }, title: format!("{} ({})", say(heading(group)), rows.len()),
                    Cards { rows }
                }
            } else {
                h3 { {say(heading(group))} }
                Cards { rows }
            }
        }
        Tried { found: found.clone() }
    }
}

/// How many windings were tried, and what left the others out.
#[component]
fn Tried(found: Listing) -> Element {
    let counts = say_with(
        "ui-tried",
        &[
            ("tried", Arg::Number(found.tried as f64)),
            ("within", Arg::Number(found.within as f64)),
        ],
    );
    rsx! {
        details {
            summary { "{counts}" }
            ul { class: "plain",
                for (limit, count) in &found.left_out {
                    li { {say_with("ui-left-out", &[("count", Arg::Number(*count as f64)), ("limit", Arg::Text(&say(limit.key())))])} }
                }
            }
        }
    }
}

/// How far below its insulation's limit a winding stays.
fn margin_text(row: &Row) -> Option<String> {
    let margin = row.margin.as_ref()?;
    Some(if margin == "0" {
        say("ui-winding-at-limit")
    } else {
        say_with("ui-winding-margin", &[("margin", Arg::Text(margin))])
    })
}

/// What a winding takes of the window and of the mains.
fn room_text(row: &Row) -> String {
    say_with(
        "ui-winding-room",
        &[
            ("fill", Arg::Text(&row.fill)),
            ("spare", Arg::Text(&row.spare)),
            ("mains", Arg::Text(&row.mains)),
        ],
    )
}

/// Windings one below the other.
#[component]
fn Cards(rows: Vec<Row>) -> Element {
    rsx! {
        ul { class: "ranked",
            for row in rows { li { key: "{row.index}", Card { row } } }
        }
    }
}

/// One winding of the list: a tap chooses it, and shows all that is known of it.
#[component]
fn Card(row: Row) -> Element {
    let app = use_context::<Signal<AppState>>();
    let index = row.index;
    let facts = say_with(
        "ui-winding-facts",
        &[
            ("amps", Arg::Text(&row.amps)),
            ("volts", Arg::Text(&row.volts)),
            ("open", Arg::Text(&row.open_circuit)),
        ],
    );
    rsx! {
        button {
            class: if row.chosen { "winding-card chosen" } else { "winding-card" },
            aria_pressed: if row.chosen { "true" } else { "false" },
            onclick: move |_| choose_at(app, index),
            strong { {tell(&row.title)} }
            span { class: "facts", "{facts}" }
            if row.chosen {
                if let Some(margin) = margin_text(&row) { span { class: "facts", "{margin}" } }
                span { class: "facts", {room_text(&row)} }
            }
            if let Some(metres) = &row.own_metres {
                span { class: "facts", {say_with("ui-own-metres", &[("metres", Arg::Text(metres))])} }
            }
            if let Some(against) = &row.against { span { class: "facts", "{against_text(against)}" } }
        }
        if !row.chosen { Beside { index, conductor: row.conductor.clone(), title: tell(&row.title) } }
    }
}

/// The winding in hand and another of the list in two columns, opened below that one.
#[component]
fn Beside(index: usize, conductor: String, title: String) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let word = format!("beside-{conductor}");
    let (open, side): (bool, Option<SideBySide>) = {
        let app = app.read();
        let open = app.panel_open(&word);
        let side = match app.answer() {
            Some(Ok(answer)) if open => guarded(|| side_by_side(answer, index, app.awg())).ok().flatten(),
            _ => None,
        };
        (open, side)
    };
    let words = say(if open { "ui-side-close" } else { "ui-side-open" });
    rsx! {
        button {
            class: "quiet beside", aria_expanded: "{open}", aria_label: "{words}: {title}",
            onclick: move |_| app.write().toggle_panel(&word),
            "{words}"
        }
        if let Some(side) = side {
            table { class: "side-by-side",
                thead {
                    tr {
                        td {}
                        th { scope: "col", span { class: "soft", {say("ui-side-shown")} } " " {tell(&side.titles[0])} }
                        th { scope: "col", {tell(&side.titles[1])} }
                    }
                }
                tbody {
                    for row in side.rows {
                        tr { key: "{row.id}",
                            th { scope: "row", {say(row.id)} }
                            for (at, value) in row.values.iter().enumerate() {
                                td { key: "{at}",
                                    if row.better == Some(at) { strong { {tell(value)} } } else { {tell(value)} }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
