//! A button that must be held: nothing is confirmed by a brush of the hand.

use dioxus::prelude::*;

use super::super::phone;
use super::super::words::say;

/// Held for the time that `assets/app.css` gives the animation `hold`, it calls `onheld` once.
/// Letting go, sliding off or losing the focus starts it over. The bar shows how long is left;
/// the device shakes once where it can.
#[component]
pub fn HoldButton(label: String, #[props(default)] class: String, onheld: EventHandler<()>) -> Element {
    let mut holding = use_signal(|| false);
    let state = if holding() { "holding" } else { "" };
    rsx! {
        button {
            class: "hold {class} {state}",
            aria_describedby: "hold-help",
            onpointerdown: move |_| holding.set(true),
            onpointerup: move |_| holding.set(false),
            onpointerleave: move |_| holding.set(false),
            onpointercancel: move |_| holding.set(false),
            onblur: move |_| holding.set(false),
            onkeydown: move |event| {
                if event.key() == Key::Enter || event.key() == Key::Character(" ".to_owned()) {
                    event.prevent_default();
                    holding.set(true);
                }
            },
            onkeyup: move |_| holding.set(false),
            oncontextmenu: move |event| event.prevent_default(),
            span {
                class: "fill",
                aria_hidden: "true",
                onanimationend: move |_| {
                    if holding() {
                        holding.set(false);
                        phone::held();
                        onheld.call(());
                    }
                },
            }
            span { class: "hold-label", "{label}" }
            span { class: "hold-help", {say("ui-hold")} }
        }
    }
}
