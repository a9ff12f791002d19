//! A pair of cores: whose winding is shown, and how the ends of both meet.

use dioxus::prelude::*;

use super::super::controls::{Choices, Unreadable, or_why};
use super::super::guided::why;
use super::super::state::AppState;
use super::super::words::{drawn, say, say_with};
use crate::app::next_step::is_wound;
use crate::report::behaviour::pair_joints;
use crate::text::Arg;
use crate::wind::{CoreOfPair, PairJoints};

/// The word of a core among the choices.
const fn word(core: CoreOfPair) -> &'static str {
    match core {
        CoreOfPair::First => "first",
        CoreOfPair::Second => "second",
    }
}

/// Both cores of a pair with how far each winding is; the one that is shown is chosen. Nothing for a core alone.
#[component]
pub fn CoreChoice() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let (label, options, unread, shown) = {
        let app = app.read();
        let Some(name) = app.second_core_name() else {
            return rsx! {};
        };
        let mut unread = None;
        let options: Vec<_> = [CoreOfPair::First, CoreOfPair::Second]
            .into_iter()
            .map(|core| {
                let (wind, why) = or_why(app.winding(core));
                unread = unread.take().or(why);
                let name = [("name", Arg::Text(&name))];
                let label = match core {
                    CoreOfPair::First => say("ui-pair-on-first"),
                    CoreOfPair::Second => say_with("ui-pair-on-second", &name),
                };
                let so_far = match &wind {
                    None => say("ui-core-not-begun"),
                    Some(wind) if is_wound(wind) => say("ui-core-wound"),
                    Some(wind) => say_with(
                        "ui-core-so-far",
                        &[
                            ("turns", Arg::Number(f64::from(wind.facts().counter.turns()))),
                            ("all", Arg::Number(f64::from(wind.plan().turns))),
                        ],
                    ),
                };
                (word(core).to_owned(), format!("{label} – {so_far}"))
            })
            .collect();
        (say("ui-core-shown"), options, unread, app.wound_core())
    };
    rsx! {
        Unreadable { why: unread }
        Choices {
            label, options,
            chosen: word(shown),
            onchoose: move |chosen: String| {
                let core = if chosen == word(CoreOfPair::Second) { CoreOfPair::Second } else { CoreOfPair::First };
                app.write().show_winding(core);
            },
        }
    }
}

/// The way to the second core while it is not wound, then the joints.
#[component]
pub fn JoinPair(joints: PairJoints, joined: bool) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| None::<String>);
    let Some(name) = app.read().second_core_name() else {
        return rsx! {};
    };
    let own = app.read().title();
    let (second, unread) = or_why(app.read().winding(CoreOfPair::Second));
    if !second.is_some_and(|second| is_wound(&second)) {
        return rsx! {
            Unreadable { why: unread }
            p { class: "caution", role: "alert", {say_with("ui-pair-other-first", &[("name", Arg::Text(&name))])} }
            button {
                class: "main wide",
                onclick: move |_| app.write().show_winding(CoreOfPair::Second),
                {say("ui-to-second-core")}
            }
        };
    }
    rsx! {
        figure { dangerous_inner_html: drawn(|texts| pair_joints(joints, [&own, &name], texts)) }
        Choices {
            label: say("wind-join-pair"),
            options: vec![("pair-joined".to_owned(), say("ui-pair-is-joined"))],
            chosen: if joined { "pair-joined" } else { "" },
            onchoose: move |_| {
                let done = app.write().join_pair();
                refused.set(done.err().map(|blocked| why(&blocked)));
            },
        }
        if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
    }
}
