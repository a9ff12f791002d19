//! The second core of a pair: what is wound on it first, and how the ends of both meet.

use dioxus::prelude::*;

use super::super::controls::Choices;
use super::super::state::AppState;
use super::super::words::{drawn, say, say_with};
use crate::report::behaviour::pair_joints;
use crate::text::Arg;
use crate::wind::{Act, PairJoints};

/// Both cores: the second one's winding first, then the joints.
#[component]
pub fn JoinPair(pair: PairJoints, joined: bool, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let other = app.read().other_of_pair();
    let Some(other) = other else {
        return rsx! {};
    };
    let own = app.read().title();
    let name = other.name.clone();
    let first = [
        ("name", Arg::Text(&name)),
        ("turns", Arg::Number(f64::from(other.turns))),
    ];
    rsx! {
        if !joined { p { class: "caution", role: "alert", {say_with("ui-pair-other-first", &first)} } }
        figure { dangerous_inner_html: drawn(|texts| pair_joints(pair, [&own, &name], texts)) }
        Choices {
            label: say("wind-join-pair"),
            options: vec![("pair-joined".to_owned(), say("ui-pair-is-joined"))],
            chosen: if joined { "pair-joined" } else { "" },
            onchoose: move |_| onact.call(Act::PairJoined),
        }
    }
}
