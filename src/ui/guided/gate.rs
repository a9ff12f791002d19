//! A gate: a full stop in front of a hazard. Each item is held by itself, in order; there is no
//! way to confirm them together, and none is confirmed by itself.

use dioxus::prelude::*;

use super::super::controls::HoldButton;
use super::super::words::{say, say_part, say_with};
use crate::app::now::clock_time;
use crate::report::draw::stop_sign;
use crate::safety::{Gate, Item, Moment};
use crate::text::Arg;

/// The gate over the whole screen. `own` stands in for the button of the next item where that
/// needs more than a press (the readings that prove the capacitor). `told` is what the design says of the
/// items, as the fuse's rating.
#[component]
pub fn GateScreen(
    gate: Gate,
    confirmed: Vec<Item>,
    #[props(default)] failed: Option<String>,
    #[props(default)] own: Option<Element>,
    #[props(default)] told: Option<String>,
    onconfirm: EventHandler<Item>,
    oncouldnot: EventHandler<Item>,
    onback: EventHandler<()>,
) -> Element {
    let items = gate.items();
    let next = items.iter().copied().find(|item| !confirmed.contains(item));
    let done = confirmed.len();
    rsx! {
        div { class: "gate", role: "dialog", aria_modal: "true", aria_labelledby: "gate-title",
            header {
                span { class: "stop-of", dangerous_inner_html: stop_sign(gate) }
                h2 { id: "gate-title", {say(gate.key())} }
                span { class: "count", {say_with("ui-gate-count", &[("done", Arg::Number(done as f64)), ("all", Arg::Number(items.len() as f64))])} }
            }
            p { class: "why", {say_part(gate.key(), "why")} }
            if gate == Gate::Capacitor { p { class: "contact-time", {say("ui-contact-time")} } }
            if let Some(told) = told { p { class: "note", "{told}" } }
            if let Some(failed) = failed { p { class: "stop", role: "alert", "{failed}" } }
            ol { class: "items",
                for item in items.iter().copied() {
                    li { key: "{item.word()}", class: if confirmed.contains(&item) { "confirmed" } else if Some(item) == next { "next" } else { "later" },
                        if confirmed.contains(&item) {
                            p { span { class: "mark", aria_hidden: "true", "✓" } " " {say(item.key())} }
                        } else if Some(item) == next {
                            if let Some(own) = own.clone() { {own} } else {
                                HoldButton { label: say(item.key()), onheld: move |()| onconfirm.call(item) }
                            }
                            button { class: "could-not", onclick: move |_| oncouldnot.call(item), {say("ui-could-not")} }
                        } else {
                            p { {say(item.key())} }
                        }
                    }
                }
            }
            button { class: "quiet wide", onclick: move |_| onback.call(()), {say("ui-gate-back")} }
        }
    }
}

/// Gates that were confirmed earlier the same day: what was confirmed and when, and one hold for all
/// that is still true.
#[component]
pub fn RepeatedScreen(
    gates: Vec<(Gate, Moment)>,
    onrenew: EventHandler<()>,
    ondoubt: EventHandler<()>,
    onback: EventHandler<()>,
) -> Element {
    rsx! {
        div { class: "gate", role: "dialog", aria_modal: "true", aria_labelledby: "gate-title",
            header {
                span { class: "stop-mark", aria_hidden: "true", "!" }
                h2 { id: "gate-title", {say("ui-repeated")} }
            }
            p { class: "why", {say("ui-repeated-why")} }
            for (gate, at) in gates {
                section { key: "{gate.word()}", class: "repeated",
                    h3 { span { class: "stop-of small", dangerous_inner_html: stop_sign(gate) } {say(gate.key())} }
                    p { class: "hint", {say_with("ui-repeated-at", &[("time", Arg::Text(&clock_time(at)))])} }
                    ul { for item in gate.items() { li { key: "{item.word()}", {say(item.key())} } } }
                }
            }
            HoldButton { label: say("ui-repeated-hold"), onheld: move |()| onrenew.call(()) }
            button { class: "could-not", onclick: move |_| ondoubt.call(()), {say("ui-repeated-doubt")} }
            button { class: "quiet wide", onclick: move |_| onback.call(()), {say("ui-gate-back")} }
        }
    }
}

/// Asks to renew what was confirmed before the work goes on here.
#[component]
pub fn RenewFirst(onrenew: EventHandler<()>) -> Element {
    rsx! {
        p { class: "caution", role: "alert", {say("ui-renew-first")} }
        button { class: "main wide", onclick: move |_| onrenew.call(()), {say("ui-renew-now")} }
    }
}

/// A safe stop: what to do next, and the way to take the work up again.
#[component]
pub fn Stopped(item: Item, onagain: EventHandler<()>) -> Element {
    rsx! {
        section { class: "stopped", role: "alert",
            h2 { {say("ui-stopped")} }
            p { class: "what", {say(item.key())} }
            p { class: "stop", {say_part(item.key(), "stop")} }
            p { class: "hint", {say("ui-stopped-help")} }
            button { class: "second wide", onclick: move |_| onagain.call(()), {say("ui-again")} }
        }
    }
}

/// When a gate was passed.
pub fn passed_at(gate: Gate, at: Moment) -> String {
    say_with(
        "ui-passed",
        &[
            ("gate", Arg::Text(&say(gate.key()))),
            ("time", Arg::Text(&clock_time(at))),
        ],
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ui::pictures::keep_picture;
    use crate::ui::words::Words;

    #[component]
    fn Asked(gate: Gate, confirmed: Vec<Item>) -> Element {
        use_context_provider(Words::english);
        rsx! {
            GateScreen { gate, confirmed, onconfirm: |_| {}, oncouldnot: |_| {}, onback: |()| {} }
        }
    }

    /// A gate as it is shown, left in `artefacts/html` to be looked at.
    fn shown(gate: Gate, confirmed: Vec<Item>) -> String {
        let mut dom = VirtualDom::new_with_props(Asked, AskedProps { gate, confirmed });
        dom.rebuild_in_place();
        let html = dioxus_ssr::render(&dom);
        keep_picture(&format!("gate-{}", gate.word()), &html);
        html
    }

    /// Every gate says why, how many items it has, and asks for the first alone; the others are to be read.
    #[test]
    fn every_gate_asks_for_one_item_at_a_time() {
        let texts = crate::text::Texts::english().unwrap();
        let escaped = |text: &str| text.replace('&', "&#38;").replace('\'', "&#39;").replace('"', "&#34;");
        for &gate in Gate::ALL {
            let html = shown(gate, Vec::new());
            let count = format!("0 of {}", gate.items().len());
            assert!(html.contains(&count), "{gate:?}: {count} in {html}");
            assert_eq!(html.matches("class=\"hold").count(), 1 + 2, "{gate:?}: {html}");
            let keys = [gate.key().to_owned(), format!("{}.why", gate.key())];
            let items = gate.items().iter().map(|item| item.key().to_owned());
            for key in keys.into_iter().chain(items) {
                let text = escaped(&texts.text(&key));
                assert!(html.contains(&text), "{gate:?}: {text} in {html}");
            }
        }
    }

    /// The capacitor's gate says how long the contact lasts, in sight, and asks for one item at a time.
    #[test]
    fn the_capacitors_gate_shows_its_contact_time() {
        let html = shown(Gate::Capacitor, vec![Item::ChassisClipOn]);
        assert!(
            html.contains("Contact: a slow count of ten at each point, each time."),
            "{html}"
        );
        assert_eq!(
            html.matches("class=\"hold").count(),
            1 + 2,
            "one button, its label and its help: {html}"
        );
        let at = |part: &str| html.find(part).unwrap_or_else(|| panic!("{part} is missing in {html}"));
        assert!(at("oven chassis") < at("first terminal"));
        assert!(at("second terminal") < at("Tool held across"));
    }
}
