//! The turn counter: one large button, and the winding as far as it is wound.

use dioxus::prelude::*;

use super::super::phone;
use super::super::state::AppState;
use super::super::words::{drawn, explain, say, say_with};
use crate::quantity::{Length, LengthUnit, format_significant, parse_length};
use crate::report::draw::{SoFar, coil_so_far, section_so_far};
use crate::text::Arg;
use crate::wind::{Act, Wind};

/// The counter. The button has the focus, so that the space bar counts, too.
#[component]
pub fn TurnCounter(wind: Wind, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let plan = *wind.plan();
    let counter = wind.facts().counter.clone();
    let (turns, left) = (counter.turns(), counter.left_in_layer(&plan));
    let (layer, in_layer) = counter.place(&plan);
    let forecast = counter.forecast(&plan);
    let done = turns >= plan.turns;
    let unit = app.read().unit();
    let begun = !counter.layers().is_empty();
    let first_done = counter.layers().len() > 1 || counter.is_full(&plan);
    let number = |count: usize| count as f64;
    // Each turn of foil or strip as wide as the room is a layer of its own.
    let one_a_layer = plan.turns_per_layer == 1;
    let at_tap = counter.is_at_tap(&plan);
    let at_layer_end = begun && !done && counter.is_full(&plan);
    let next = match (at_layer_end, one_a_layer) {
        (true, true) => "ui-layer-end-strip",
        (true, false) => "ui-layer-end",
        (false, _) if SoFar::goes_down(layer) => "ui-layer-down",
        (false, _) => "ui-layer-up",
    };
    rsx! {
        section { class: "counter",
            if !forecast.fits() {
                p { class: "caution", role: "alert", {say_with("ui-will-not-fit", &[("over", Arg::Text(&shown(forecast.spare.abs(), unit)))])} }
            }
            if done { p { class: "note", {say("ui-all-wound")} } }
            if at_tap { p { class: "note", role: "status", {say_with("ui-at-tap", &[("turns", Arg::Number(f64::from(turns)))])} } }
            div { class: "row",
                button { class: "second", onclick: move |_| onact.call(Act::TakeBack), {say("ui-take-back")} }
                if !done && !at_tap && !one_a_layer {
                    button { class: "quiet", onclick: move |_| onact.call(Act::EndLayer), {say("ui-end-layer")} }
                }
            }
            Picture { wind: wind.clone() }
            dl { class: "numbers",
                div { dt { {say("ui-wire-used")} } dd { {metres(counter.wire_used(&plan))} } }
                div { dt { {say("ui-wire-left")} } dd { {metres(counter.wire_left(&plan))} } }
                div { dt { {say("ui-room-left")} } dd { class: if forecast.fits() { "" } else { "danger-number" }, {shown(forecast.spare, unit)} } }
            }
            if first_done && !one_a_layer { FirstLayer { measured: counter.first_width(), onact } }
            p { class: "hint", {say("ui-turn-help")} }
            if at_tap {
                button {
                    class: "count-turn layer-end",
                    onclick: move |_| {
                        phone::counted(true);
                        onact.call(Act::LeadTapOut);
                    },
                    span { class: "turn-number", "{turns}" }
                    span { class: "turn-next", {say("ui-tap-is-out")} }
                }
            } else if !done {
                button {
                    class: if at_layer_end { "count-turn layer-end" } else { "count-turn" },
                    onmounted: move |event| async move {
                        let _ = event.set_focus(true).await;
                    },
                    onclick: move |_| {
                        phone::counted(left == 1 && !one_a_layer);
                        onact.call(Act::Turn);
                    },
                    span { class: "turn-number", "{turns}" }
                    span { {say_with("ui-turn-count", &[("turns", Arg::Number(f64::from(turns))), ("all", Arg::Number(f64::from(plan.turns)))])} }
                    span { class: "turn-layer",
                        {say_with("ui-layer-count", &[
                            ("layer", Arg::Number(number(layer + 1))), ("layers", Arg::Number(number(forecast.layers.max(layer + 1)))),
                            ("turns", Arg::Number(f64::from(in_layer))), ("most", Arg::Number(f64::from(in_layer + left))),
                        ])}
                    }
                    span { class: "turn-next", role: "status", {say(next)} }
                }
            }
        }
    }
}

/// The section to scale with what is wound, where today's design is the one that is wound.
#[component]
fn Picture(wind: Wind) -> Element {
    let app = use_context::<Signal<AppState>>();
    let app = app.read();
    let Some(Ok(answer)) = app.answer() else {
        return rsx! {};
    };
    if !app.winds_todays_design() {
        return rsx! {};
    }
    let (plan, counter) = (wind.plan(), &wind.facts().counter);
    let so_far = SoFar {
        layers: counter.layers(),
        next: (counter.turns() < plan.turns).then(|| counter.place(plan).0),
        turn_width: counter.turn_width(plan),
    };
    let rebuild = &answer.problem.rebuild;
    let drawing = match (&answer.design, answer.inductor()) {
        (Some(design), _) => {
            let wound = (&design.candidate.winding, &design.candidate.layers);
            drawn(|texts| section_so_far(rebuild, wound, &so_far, app.unit(), texts))
        }
        (None, Some(Ok(found))) => {
            let coil = (&found.coil, found.parallel);
            drawn(|texts| coil_so_far(&rebuild.core, coil, plan, &so_far, app.unit(), texts))
        }
        (None, _) => return rsx! {},
    };
    rsx! { figure { dangerous_inner_html: drawing } }
}

/// The width of the whole first layer, which corrects the rest.
#[component]
fn FirstLayer(measured: Option<Length>, onact: EventHandler<Act>) -> Element {
    let app = use_context::<Signal<AppState>>();
    let mut refused = use_signal(|| None::<String>);
    let unit = app.read().unit();
    let held = measured.map_or_else(String::new, |width| format_significant(unit.count(width), 4));
    rsx! {
        div { class: "field",
            label { r#for: "first-layer", {say("ui-first-layer")} }
            div { class: "entry",
                input {
                    id: "first-layer", class: "value", inputmode: "decimal", autocomplete: "off", value: "{held}",
                    onchange: move |event| match parse_length(&event.value(), unit) {
                        Ok(width) => {
                            refused.set(None);
                            onact.call(Act::FirstLayer(width));
                        }
                        Err(error) => refused.set(Some(explain(&error))),
                    },
                }
                span { class: "unit", {unit.symbol()} }
            }
            p { class: "hint", {say("ui-first-layer-help")} }
            if let Some(message) = refused() { p { class: "refused", role: "alert", "{message}" } }
        }
    }
}

fn shown(length: Length, unit: LengthUnit) -> String {
    let digits = match unit {
        LengthUnit::Millimetre => 1,
        LengthUnit::Inch => 2,
    };
    format!("{:.digits$} {}", unit.count(length), unit.symbol())
}

fn metres(length: Length) -> String {
    format!("{:.1} m", length.si())
}
