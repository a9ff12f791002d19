//! A job's drawings as files of their own.

use crate::app::basis::Design;
use crate::app::evaluation::Evaluation;
use crate::job::RectifierKind;
use crate::magnetics::rectifier::Connection;
use crate::quantity::{Current, LengthUnit, Voltage, format_significant};
use crate::report::behaviour::protection_label;
use crate::report::circuit_parts::fuse_kind;
use crate::report::draw::{
    Behind, CurvePlot, Feeds, Wiring, core_isometric, core_section, voltage_plot, wiring as draw_wiring,
};
use crate::rewind::goal::Goal;
use crate::text::{Arg, Texts};

/// A job's drawings, each complete in itself: a name and the SVG with its styles.
#[must_use]
pub fn drawings(answer: &Evaluation, unit: LengthUnit) -> Vec<(&'static str, String)> {
    let Ok(texts) = Texts::english() else { return Vec::new() };
    let rebuild = &answer.problem.rebuild;
    let mut drawn = vec![("core", core_isometric(&rebuild.core, unit, &texts))];
    match &answer.design {
        Some(design) => {
            let wound = (&design.candidate.winding, &design.candidate.layers);
            drawn.push(("section", core_section(rebuild, Some(wound), unit, &texts)));
            drawn.push(("voltage", voltage_drawing(design, answer, &texts)));
        }
        None => drawn.push(("section", core_section(rebuild, None, unit, &texts))),
    }
    drawn.extend(wiring(answer, &texts).map(|svg| ("wiring", svg)));
    let styles = include_str!("../../../assets/drawing.css");
    drawn
        .into_iter()
        .filter_map(|(name, svg)| {
            let (head, rest) = svg.split_once('>')?;
            Some((name, format!("{head}><style>{styles}</style>{rest}\n")))
        })
        .collect()
}

/// The voltage plot of a design.
#[must_use]
pub fn voltage_drawing(design: &Design, answer: &Evaluation, texts: &Texts) -> String {
    let required = answer.goal.map(|goal| goal.requirements());
    let Some(required) = required else { return String::new() };
    let estimate = &design.estimate;
    // Behind diodes neither the load nor its current lies in this picture.
    let on_curve = required.demand.direct.is_none();
    let working = (estimate.working_current.value, estimate.working_voltage.value);
    let plot = CurvePlot {
        points: &design.curve,
        load: on_curve.then_some((required.demand.load, working)),
        limit: required.open_circuit_most.map(|limit| limit.volts),
    };
    voltage_plot(&plot, texts)
}

/// The circuit of the finished supply; none without a design.
#[must_use]
pub fn wiring(answer: &Evaluation, texts: &Texts) -> Option<String> {
    let (file, direct) = (answer.file(), answer.direct_current());
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let estimate = &design.estimate;
    let behind = match (direct, direct.map(|direct| direct.connection)) {
        (None, _) | (_, None) => Behind::Nothing,
        (_, Some(Connection::Bridge)) => Behind::Bridge,
        (_, Some(Connection::CentreTap)) => Behind::CentreTap,
    };
    let feeds = match goal {
        Goal::BatteryCharger { .. } => Feeds::Battery,
        Goal::PlainSupply { .. } if behind != Behind::Nothing => Feeds::Reservoir,
        _ => Feeds::Leads,
    };
    let parts = answer.circuit_parts()?;
    let three = |si: f64| format_significant(si, 3);
    let mains = &file.mains;
    let mains = [
        ("volts", format_significant(mains.volts.value, 4)),
        ("hertz", mains.hertz.to_string()),
        ("amps", three(estimate.mains_current.value.si())),
    ];
    let (amps, volts): (Current, Voltage) = match goal {
        Goal::BatteryCharger { battery_volts, .. } => (estimate.working_current.value, *battery_volts),
        _ => (estimate.working_current.value, estimate.working_voltage.value),
    };
    let load = texts.text(&format!("page-load-{}", file.goal.word()));
    let output = [("load", load), ("amps", three(amps.si())), ("volts", three(volts.si()))];
    let say = |key: &str, args: &[(&str, String)]| {
        let args: Vec<(&str, Arg<'_>)> = args.iter().map(|(name, value)| (*name, Arg::Text(value))).collect();
        texts.text_with(key, &args)
    };
    let amperes = |rating: Current| format!("{} A", rating.si());
    let cord = parts.mains.and_then(|mains| mains.cord);
    let mains = match cord {
        Some(cord) => format!(
            "{}; {}",
            say("page-mains", &mains),
            say("page-mains-cord", &[("size", cord.label.to_owned())])
        ),
        None => say("page-mains", &mains),
    };
    let leads = [
        ("each", format!("{} m", three(parts.leads.each.si()))),
        ("section", format!("{} mm²", three(parts.leads.section.mm2()))),
        (
            "half",
            parts
                .leads
                .at_half
                .map_or_else(String::new, |more| format!("{} A", three(more.si()))),
        ),
    ];
    let leads_key = if parts.leads.at_half.is_some() {
        "page-two-leads-shorter"
    } else {
        "page-two-leads"
    };
    let ends = [
        ("on", format!("{} A", three(parts.output.on.si()))),
        ("steady", format!("{} A", three(parts.output.steady.si()))),
    ];
    let start = parts.mains.and_then(|mains| mains.soft_start);
    let fuse = parts.mains.and_then(|mains| mains.fuse);
    let circuit = Wiring {
        behind,
        feeds,
        reactor: parts.reactor.map_or_else(String::new, |reactor| {
            format!("{} mH", three(reactor.inductance.millihenries()))
        }),
        soft_start: start.map_or_else(String::new, |(_, start)| format!("{} Ω", start.resistor.si())),
        cut_out: format!("{:.0} °C", parts.cut_out.opens_at.si()),
        diodes: parts.diodes.map_or_else(String::new, |diodes| {
            format!("{}, {:.0} V", amperes(diodes.current), diodes.reverse.si())
        }),
        battery_fuse: parts.battery_fuse.map_or_else(String::new, amperes),
        fuse: fuse.map_or_else(String::new, |fuse| format!("{} A", fuse.protection.rating.si())),
        mains,
        output: say("page-output", &output),
        leads: say(leads_key, &leads),
        ends: say("page-ends-carry", &ends),
        fuse_kind: fuse.map_or_else(String::new, |fuse| fuse_kind(fuse.protection.kind, texts)),
        breaker: parts.mains.map_or_else(String::new, |mains| {
            say(
                "page-at-outlet",
                &[("breaker", protection_label(&mains.breaker, texts))],
            )
        }),
        ground: cord.map_or_else(String::new, |cord| cord.label.to_owned()),
    };
    debug_assert!(behind != Behind::CentreTap || file.conditions.rectifier == Some(RectifierKind::CentreTap));
    Some(draw_wiring(&circuit, texts))
}
