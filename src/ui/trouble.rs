//! What can be done with a job that cannot be evaluated.

use std::path::PathBuf;

use dioxus::prelude::*;

use super::share;
use super::state::{AppState, Trouble};
use super::words::{say, say_with};
use crate::text::Arg;

/// The job in trouble by its name, why, and the ways out; nothing where there is none.
#[component]
pub fn JobInTrouble() -> Element {
    let mut app = use_context::<Signal<AppState>>();
    let mut saved = use_signal(|| None::<PathBuf>);
    let mut sure = use_signal(|| false);
    let (troubled, undo, on_shelf) = {
        let app = app.read();
        {
            let undo = app.query(|workspace| workspace.store().undo_op());
            (app.troubled(), matches!(undo, Ok(Some(_))), !app.has_job())
        }
    };
    let Some(troubled) = troubled else { return rsx! {} };
    let (key, what) = troubled.why.text();
    let readable = !matches!(troubled.why, Trouble::Unreadable(_));
    rsx! {
        section { class: "caution in-trouble", role: "alert",
            h2 { {say_with("ui-trouble", &[("job", Arg::Text(&troubled.name))])} }
            p { {say_with(key, &[("what", Arg::Text(what))])} }
            div { class: "row",
                if readable {
                    button {
                        class: "main",
                        onclick: move |_| {
                            let told = match app.write().repair() {
                                Some(part) => say_with("ui-repaired", &[("part", Arg::Text(&say(part.key())))]),
                                None => say("ui-repaired-not"),
                            };
                            app.write().tell(told);
                        },
                        {say("ui-repair")}
                    }
                    button {
                        class: "second",
                        onclick: move |_| {
                            let place = app.write().save_troubled();
                            share::share_files(place.iter().flat_map(|place| crate::app::files_in(place)).collect());
                            saved.set(place);
                        },
                        {say("ui-trouble-save")}
                    }
                }
                if sure() {
                    button { class: "second", onclick: move |_| { sure.set(false); app.write().remove_troubled(); }, {say("ui-trouble-remove-sure")} }
                } else {
                    button { class: "second", onclick: move |_| sure.set(true), {say("ui-trouble-remove")} }
                }
                if on_shelf {
                    if readable {
                        button { class: "second", onclick: move |_| app.write().open_troubled(), {say("ui-trouble-open")} }
                    }
                    button { class: "quiet", onclick: move |_| app.write().leave_trouble(), {say("ui-trouble-leave")} }
                } else if undo {
                    button { class: "second", onclick: move |_| app.write().undo(), {say("ui-trouble-undo")} }
                }
            }
            if readable { p { class: "hint", {say("ui-repair-how")} } }
            if let Some(place) = saved() {
                p { class: "told", role: "status", {say_with("ui-saved-in", &[("path", Arg::Text(&place.display().to_string()))])} }
            }
        }
    }
}
