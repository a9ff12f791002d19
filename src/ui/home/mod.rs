//! Home: at the first start what becomes of an oven; afterwards a card for each oven and core.

mod card;
mod doors;

use dioxus::prelude::*;

use super::background::run_in_background;
use super::controls::{Unreadable, or_why};
use super::state::{AppState, Screen};
use super::words::{drawn, say, say_with};
use crate::report::oven_becomes;
use crate::text::Arg;

/// Cards from which on a search is offered.
const SEARCH_FROM: usize = 6;

/// The screen.
#[component]
pub fn Home() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    use_evaluations(app);
    let (cards, unread) = app.read().cards();
    let searching = !app.read().wanted().is_empty();
    if cards.is_empty() && unread.is_empty() && !searching {
        return rsx! { First {} };
    }
    let more = !searching && app.read().jobs().is_ok_and(|(jobs, count)| (jobs.len() as u32) < count);
    rsx! {
        Differ {}
        for why in unread { Unreadable { why: Some(why) } }
        if cards.len() >= SEARCH_FROM || more || searching || app.read().looks_for_cards() {
            Search {}
        }
        if cards.is_empty() && searching {
            p { class: "hint", {say("ui-find-none")} }
        }
        ul { class: "cards",
            for (card, way) in cards {
                li { key: "{card.job:?}{card.donor:?}", class: "card", card::CardView { card, way } }
            }
        }
        if more {
            button { class: "quiet wide", onclick: move |_| app.write().list_more(), {say("ui-more-jobs")} }
        }
        section { class: "add",
            h2 { {say("ui-add")} }
            doors::Doors {}
        }
    }
}

/// Evaluates the jobs behind the cards and reduces their photos, one after the other, beside the screen.
fn use_evaluations(mut app: Signal<AppState>) {
    let pending = use_memo(move || app.read().pending_card());
    let _evaluation = use_resource(move || async move {
        let Some(job) = pending() else { return };
        let evaluate = app.peek().evaluation_of(job);
        let answer = match evaluate {
            Some(evaluate) => run_in_background(evaluate).await,
            None => None,
        };
        app.write().complete_card(job, answer);
    });
    // One photo at a time: a large one takes much memory while it is reduced.
    let photo = use_memo(move || {
        app.read()
            .pending_picture()
            .filter(|_| app.read().pending_card().is_none())
    });
    let _picture = use_resource(move || async move {
        let Some(photo) = photo() else { return };
        let reduce = app.peek().reduction_of(photo);
        let file = match reduce {
            Some(reduce) => run_in_background(reduce).await.flatten(),
            None => None,
        };
        app.write().keep_picture(photo, file);
    });
}

/// The first start: what becomes of an oven, what can kill, and the ways in.
#[component]
fn First() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    rsx! {
        div { class: "first",
            div { class: "first-look",
                h2 { {say("ui-welcome")} }
                figure { class: "becomes", dangerous_inner_html: drawn(oven_becomes) }
                p { class: "caution", {say("ui-welcome-danger")} }
            }
            div { class: "first-doors",
                h2 { {say("ui-first-have")} }
                doors::Doors {}
                button { class: "quiet wide", onclick: move |_| app.write().open_demo(), {say("ui-open-demo")} }
            }
        }
    }
}

/// Where two devices disagree, it is said first.
#[component]
fn Differ() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (count, unread) = or_why(app.read().query(|workspace| workspace.store().conflict_count()));
    if count == 0 {
        return rsx! { Unreadable { why: unread } };
    }
    rsx! {
        button { class: "second wide differ", onclick: move |_| app.write().go(Screen::Sync),
            {say_with("ui-conflicts-wait", &[("count", Arg::Number(f64::from(count)))])}
        }
    }
}

/// Finds a card by the words of its job or the name of its oven.
#[component]
fn Search() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let wanted = app.read().wanted().to_owned();
    rsx! {
        div { class: "field search",
            label { r#for: "find-job", {say("ui-find-job")} }
            input {
                id: "find-job", class: "value long", r#type: "search", autocomplete: "off", initial_value: "{wanted}",
                onchange: move |event| app.write().want(&event.value()),
            }
        }
    }
}
