//! The circuit round a finished part, told: for screen, page, materials and JSON.

use serde_json::{Value, json};

use super::behaviour::{fuse_label, protection_label};
use crate::app::basis::OutletFeeds;
use crate::app::circuit_parts::{CircuitParts, MainsSide, StartReason};
use crate::app::design_state::NeededParts;
use crate::app::materials::{Amount, Material, Purpose};
use crate::job::JobFile;
use crate::magnetics::circuit::mains::Outlet;
use crate::magnetics::circuit::protection::{DeviceKind, Tripping};
use crate::quantity::{Current, format_significant};
use crate::text::{Arg, Texts};
use crate::words::Message;

/// A part of the circuit, or a current in it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CircuitLine {
    /// What it is.
    pub label: String,
    /// Its values.
    pub text: String,
    /// True where it stops the work.
    pub danger: bool,
}

fn three(si: f64, unit: &str) -> String {
    format!("{} {unit}", format_significant(si, 3))
}

/// A standard rating, as it is printed on the part.
fn rating(rating: Current) -> String {
    format!("{} A", rating.si())
}

/// The lines of a circuit, from the outlet to the load.
#[must_use]
pub fn circuit_lines(parts: &CircuitParts, texts: &Texts) -> Vec<CircuitLine> {
    let mut lines = Vec::new();
    let mut line = |id: &str, text: &str, danger: bool, values: &[(&str, String)]| {
        let args: Vec<(&str, Arg<'_>)> = values.iter().map(|(name, value)| (*name, Arg::Text(value))).collect();
        lines.push(CircuitLine {
            label: texts.text(id),
            text: texts.text_with(text, &args),
            danger,
        });
    };
    if let Some(mains) = &parts.mains {
        line(
            "circuit-breaker",
            "circuit-breaker-is",
            false,
            &[("breaker", protection_label(&mains.breaker, texts))],
        );
        match mains.cord {
            Some(cord) => {
                let values = [("size", cord.label.to_owned()), ("amps", rating(cord.carries))];
                line("circuit-cord", "circuit-cord-is", false, &values);
            }
            None => line("circuit-cord", "circuit-cord-none", true, &[]),
        }
        match &mains.fuse {
            Some(fuse) => line(
                "circuit-fuse",
                "circuit-fuse-is",
                false,
                &[("fuse", fuse_label(fuse, texts))],
            ),
            None => line("circuit-fuse", "page-no-fuse", true, &[]),
        }
        if let Some((reason, start)) = mains.soft_start {
            let text = match reason {
                StartReason::Opens => "circuit-start-opens",
                StartReason::MayOpen => "circuit-start-may",
            };
            let values = [
                ("ohms", format!("{} Ω", start.resistor.si())),
                ("seconds", format!("{} s", start.bridged_after.si())),
                ("watts", three(start.power.si(), "W")),
            ];
            line("circuit-start", text, false, &values);
        }
    }
    let values = [
        ("degrees", format!("{:.0} °C", parts.cut_out.opens_at.si())),
        ("amps", three(parts.cut_out.carries.si(), "A")),
    ];
    line("circuit-cut-out", "circuit-cut-out-is", false, &values);
    if let Some(reactor) = parts.reactor {
        let values = [
            ("mh", three(reactor.inductance.millihenries(), "mH")),
            ("amps", three(reactor.current.si(), "A")),
        ];
        line("circuit-reactor", "circuit-reactor-is", false, &values);
    }
    if let Some(diodes) = parts.diodes {
        let values = [
            ("count", diodes.count.to_string()),
            ("amps", rating(diodes.current)),
            ("volts", format!("{:.0} V", diodes.reverse.si())),
        ];
        line("circuit-diodes", "circuit-diodes-are", false, &values);
    }
    if let Some(fuse) = parts.battery_fuse {
        line(
            "circuit-battery-fuse",
            "circuit-battery-fuse-is",
            false,
            &[("amps", rating(fuse))],
        );
    }
    let leads = &parts.leads;
    let values = [
        ("each", three(leads.each.si(), "m")),
        ("section", three(leads.section.mm2(), "mm²")),
        ("drop", three(leads.drop.si(), "V")),
        ("watts", three(leads.heat.si(), "W")),
    ];
    line("circuit-leads", "circuit-leads-are", false, &values);
    if let Some(more) = leads.at_half {
        let values = [
            ("half", three(leads.each.si() / 2.0, "m")),
            ("amps", three(more.si(), "A")),
            ("now", three(parts.output.on.si(), "A")),
        ];
        line("circuit-shorter", "circuit-shorter-is", false, &values);
    }
    let values = [
        ("on", three(parts.output.on.si(), "A")),
        ("steady", three(parts.output.steady.si(), "A")),
    ];
    line("circuit-output", "circuit-output-is", false, &values);
    lines
}

/// The parts that a design needs, with their values, as one list in words.
#[must_use]
pub fn needed_text(needed: &NeededParts, texts: &Texts) -> String {
    let say = |id: &str, values: &[(&str, String)]| {
        let args: Vec<(&str, Arg<'_>)> = values.iter().map(|(name, value)| (*name, Arg::Text(value))).collect();
        texts.text_with(id, &args)
    };
    let reactor = needed.reactor.map(|reactor| {
        let values = [
            ("mh", three(reactor.inductance.millihenries(), "mH")),
            ("amps", three(reactor.current.si(), "A")),
        ];
        say("ui-part-reactor", &values)
    });
    let diodes = needed.diodes.map(|diodes| {
        let values = [
            ("count", diodes.count.to_string()),
            ("amps", rating(diodes.current)),
            ("volts", format!("{:.0} V", diodes.reverse.si())),
        ];
        say("ui-part-diodes", &values)
    });
    let fuse = needed
        .battery_fuse
        .map(|fuse| say("ui-part-battery-fuse", &[("amps", rating(fuse))]));
    [reactor, diodes, fuse]
        .into_iter()
        .flatten()
        .collect::<Vec<_>>()
        .join("; ")
}

/// A fuse's kind in a word or two, as a drawing and a card have room for.
pub(super) fn fuse_kind(kind: DeviceKind, texts: &Texts) -> String {
    match kind {
        DeviceKind::TimeLagFuse => texts.text("page-fuse-time-lag"),
        DeviceKind::TimeDelayFuse => texts.text("page-fuse-time-delay"),
        DeviceKind::GeneralFuse => texts.text("page-fuse-general"),
        DeviceKind::IecBreaker(_)
        | DeviceKind::UlBreaker
        | DeviceKind::JapaneseBreaker
        | DeviceKind::PlugFuse
        | DeviceKind::UnknownBreaker => String::new(),
    }
}

/// The mains fuse of a circuit as the state of a design names it; `None` where there is none.
#[must_use]
pub fn state_fuse(parts: &CircuitParts, texts: &Texts) -> Option<String> {
    let fuse = parts.mains?.fuse?;
    let (kind, rating) = (fuse_kind(fuse.protection.kind, texts), rating(fuse.protection.rating));
    Some(texts.text_with(
        "ui-state-fuse",
        &[("kind", Arg::Text(&kind)), ("rating", Arg::Text(&rating))],
    ))
}

/// Whether the job's outlet feeds the part, in one sentence; true where it does not.
#[must_use]
pub fn outlet_line(file: &JobFile, feeds: &OutletFeeds, texts: &Texts) -> (String, bool) {
    let named = Outlet::of_word(&file.mains.circuit.plug);
    let own = protection_label(&feeds.own, texts);
    let plug = named.map_or_else(|| file.mains.circuit.plug.clone(), |outlet| outlet.label.to_owned());
    let other = feeds.holds.map_or("", |outlet| outlet.label);
    let id = match (feeds.verdict, feeds.holds) {
        (Tripping::Holds, _) => "page-outlet-holds",
        (Tripping::MayTrip, Some(_)) => "page-outlet-may-open",
        (Tripping::MayTrip, None) => "page-outlet-may-open-alone",
        (Tripping::Trips, Some(_)) => "page-outlet-opens",
        (Tripping::Trips, None) => "page-no-outlet",
    };
    let args = [
        ("plug", Arg::Text(&plug)),
        ("own", Arg::Text(&own)),
        ("other", Arg::Text(other)),
    ];
    (texts.text_with(id, &args), feeds.verdict == Tripping::Trips)
}

/// What of the circuit is to be got, the mains fuse left out.
#[must_use]
pub fn circuit_materials(parts: &CircuitParts) -> Vec<Material> {
    let mut list = Vec::new();
    let mut part = |id: &'static str, pieces: u32, purpose: Purpose, values: &[(&'static str, String)]| {
        let what = values
            .iter()
            .fold(Message::new(id), |what, (name, value)| what.with(name, value));
        list.push(Material {
            what,
            amount: Amount::Pieces(pieces),
            purpose,
        });
    };
    if let Some(MainsSide { cord: Some(cord), .. }) = parts.mains {
        part(
            "material-cord",
            1,
            Purpose::MainsSide,
            &[("size", cord.label.to_owned())],
        );
    }
    let values = [
        ("degrees", format!("{:.0} °C", parts.cut_out.opens_at.si())),
        ("amps", three(parts.cut_out.carries.si(), "A")),
    ];
    part("material-cut-out", 1, Purpose::OnWinding, &values);
    if let Some((_, start)) = parts.mains.and_then(|mains| mains.soft_start) {
        part(
            "material-start",
            1,
            Purpose::LiveWire,
            &[("ohms", format!("{} Ω", start.resistor.si()))],
        );
    }
    if let Some(reactor) = parts.reactor {
        let values = [
            ("mh", three(reactor.inductance.millihenries(), "mH")),
            ("amps", three(reactor.current.si(), "A")),
        ];
        part("material-reactor", 1, Purpose::InSeries, &values);
    }
    if let Some(diodes) = parts.diodes {
        let values = [
            ("amps", rating(diodes.current)),
            ("volts", format!("{:.0} V", diodes.reverse.si())),
        ];
        part("material-diodes", diodes.count, Purpose::BehindWinding, &values);
    }
    if let Some(fuse) = parts.battery_fuse {
        part(
            "material-battery-fuse",
            1,
            Purpose::BatteryPlus,
            &[("amps", rating(fuse))],
        );
    }
    list
}

/// The circuit as JSON, in SI.
#[must_use]
pub fn json_of_circuit(parts: &CircuitParts) -> Value {
    json!({
        "mains": parts.mains.map(|mains| json!({
            "breaker": mains.breaker.kind.word(),
            "breaker_rating_a": mains.breaker.rating.si(),
            "fuse": mains.fuse.map(|fuse| json!({
                "kind": fuse.protection.kind.word(),
                "rating_a": fuse.protection.rating.si(),
                "time_delay": fuse.time_delay,
            })),
            "cord": mains.cord.map(|cord| json!({
                "size": cord.label,
                "section_m2": cord.section.si(),
                "ground_section_m2": cord.section.si(),
                "carries_a": cord.carries.si(),
            })),
            "soft_start": mains.soft_start.map(|(reason, start)| json!({
                "first_peak": reason.word(),
                "resistor_ohm": start.resistor.si(),
                "power_w": start.power.si(),
                "bridged_after_s": start.bridged_after.si(),
            })),
        })),
        "cut_out": { "opens_at_c": parts.cut_out.opens_at.si(), "carries_a": parts.cut_out.carries.si() },
        "leads": {
            "each_m": parts.leads.each.si(),
            "section_m2": parts.leads.section.si(),
            "both_ohm": parts.leads.resistance.si(),
            "drop_v": parts.leads.drop.si(),
            "heat_w": parts.leads.heat.si(),
            "current_at_half_length_a": parts.leads.at_half.map(|current| current.si()),
        },
        "output": { "current_a": parts.output.on.si(), "steady_current_a": parts.output.steady.si() },
        "diodes": parts.diodes.map(|diodes| json!({
            "count": diodes.count, "current_a": diodes.current.si(), "reverse_v": diodes.reverse.si(),
        })),
        "battery_fuse_a": parts.battery_fuse.map(|fuse| fuse.si()),
        "reactor": parts.reactor.map(|reactor| json!({
            "inductance_h": reactor.inductance.si(), "current_a": reactor.current.si(),
        })),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::quantity::LengthUnit;

    /// One outlet on one screen: the sentence of the outlet names the breaker of the circuit, no other as the
    /// least that will do; a larger one only where the job's own may open, and that one holds.
    #[test]
    fn the_outlet_is_that_of_the_circuit() {
        let texts = Texts::english().unwrap();
        let mut seen = [false; 2];
        for (word, breaker) in [("spot_welder", 15.0), ("spot_welder", 6.0), ("battery_charger", 15.0)] {
            let mut file = demo_job();
            file.mains.circuit.breaker_a = breaker;
            if file.goal.word() != word {
                file.goal = goal_of(word);
            }
            let answer = evaluate(&file).unwrap();
            let design = answer.design.as_ref().unwrap();
            let (line, danger) = outlet_line(&file, &design.outlet, &texts);
            let own = protection_label(&answer.circuit_parts().unwrap().mains.unwrap().breaker, &texts);
            assert!(line.contains(&own), "{line}: {own}");
            assert_eq!(danger, design.outlet.verdict == Tripping::Trips, "{line}");
            if design.outlet.verdict == Tripping::Holds {
                assert_eq!(design.outlet.holds, None);
            }
            if let Some(other) = design.outlet.holds {
                assert!(line.contains(other.label) && other.amps > breaker, "{line}");
                let draw = answer.goal.unwrap().requirements();
                let draw = draw.draw(design.estimate.mains_current.value);
                assert_eq!(other.protection().verdict_on(&draw), Tripping::Holds);
            }
            seen[usize::from(design.outlet.verdict == Tripping::Holds)] = true;
            // On the page once.
            let page = super::super::page(&answer, None, &[], LengthUnit::Millimetre).unwrap();
            assert!(page.contains(&super::super::draw::escape(&line)), "{line}");
        }
        assert_eq!(seen, [true, true], "the cases hold outlets that hold and that may open");
    }

    /// What the circuit needs stands alike on the page, in Materials and in the JSON.
    #[test]
    fn page_materials_and_json_have_one_circuit() {
        let texts = Texts::english().unwrap();
        for word in ["spot_welder", "battery_charger", "stick_welder", "choke", "ballast"] {
            let mut file = demo_job();
            if file.goal.word() != word {
                file.goal = goal_of(word);
                file.choice = None;
            }
            let answer = evaluate(&file).unwrap();
            let parts = answer.circuit_parts().unwrap();
            let page = super::super::page(&answer, None, &[], LengthUnit::Millimetre).unwrap();
            for line in circuit_lines(parts, &texts) {
                assert!(
                    page.contains(&super::super::draw::escape(&line.text)),
                    "{word}: {line:?}"
                );
            }
            let list = super::super::materials(&answer, &texts);
            for material in circuit_materials(parts) {
                assert_eq!(
                    list.iter().filter(|m| m.what == material.what).count(),
                    1,
                    "{material:?}"
                );
            }
            let json = super::super::json(&answer, None);
            let opens = json["circuit"]["cut_out"]["opens_at_c"].as_f64().unwrap();
            assert!((opens - parts.cut_out.opens_at.si()).abs() < 1e-9);
            assert_eq!(json["circuit"]["mains"].is_null(), word == "choke");
            assert_eq!(json["circuit"]["battery_fuse_a"].is_number(), word == "battery_charger");
        }
    }
}
