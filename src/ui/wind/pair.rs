//! The second core of a pair: whether it is wound, and how the ends of both meet.

use dioxus::prelude::*;

use super::super::controls::Choices;
use super::super::state::{AppState, Screen};
use super::super::words::{drawn, say, say_with};
use crate::report::behaviour::pair_joints;
use crate::text::Arg;
use crate::wind::{Act, PairJoints};

/// Both cores: the other one's winding first, then the joints.
#[component]
pub fn JoinPair(pair: PairJoints, joined: bool, onact: EventHandler<Act>) -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let other = app.read().other_of_pair();
    let Some(other) = other else {
        return rsx! {};
    };
    let own = app.read().title();
    let name = other.name.clone();
    let named = [("name", Arg::Text(&name))];
    rsx! {
        if other.is_wound {
            p { class: "note", {say_with("ui-pair-other-wound", &named)} }
        } else {
            p { class: "caution", role: "alert", {say_with("ui-pair-other-first", &named)} }
            button {
                class: "second wide",
                onclick: move |_| app.write().open_job(other.id, Screen::Wind),
                {say_with("ui-pair-other-open", &named)}
            }
        }
        figure { dangerous_inner_html: drawn(|texts| pair_joints(pair, [&own, &name], texts)) }
        if other.is_wound || joined {
            Choices {
                label: say("wind-join-pair"),
                options: vec![("pair-joined".to_owned(), say("ui-pair-is-joined"))],
                chosen: if joined { "pair-joined" } else { "" },
                onchoose: move |_| onact.call(Act::PairJoined),
            }
        }
    }
}
