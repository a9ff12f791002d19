//! The page for the bench: one HTML document with its drawings, for A4 and Letter.

use std::fmt::Write;

use super::behaviour::{self as told, Told};
use super::draw::{CurvePlot, core_isometric, core_section, escape, voltage_plot};
use super::numbers::{index, show};
use crate::app::answer::{Answer, Design, layer_schedule, placement_label};
use crate::app::behaviour;
use crate::app::bench::{Tests, amount_text, band_text};
use crate::app::listing::winding_title;
use crate::app::materials::Amount;
use crate::app::shop::{range_text, shown_number, unit_symbol};
use crate::bench::{Stage, Status};
use crate::job::{JobFile, fields, leaf_readings};
use crate::quantity::LengthUnit;
use crate::rewind::goal::Goal;
use crate::text::Texts;

/// Numbers on the page, in order.
const PAGE_NUMBERS: &[&str] = &[
    "open_circuit",
    "working_current",
    "working_voltage",
    "short_circuit",
    "series_reactance",
    "regulation",
    "volts_per_turn",
    "flux_density",
    "cold_resistance",
    "total_resistance",
    "leakage_reactance",
    "winding_loss",
    "primary_loss",
    "winding_steady_density",
    "primary_steady_density",
    "mains_current",
    "mains_steady_current",
    "build",
    "spare",
    "mean_turn",
    "wire_length",
    "wire_mass",
    "fill_factor",
];

/// The whole page, complete in itself: styles and drawings inside, nothing fetched. With the
/// tests of the job, their record stands on it.
#[must_use]
pub fn page(file: &JobFile, answer: &Answer, tests: Option<&Tests>, unit: LengthUnit) -> String {
    let mut html = String::with_capacity(64 * 1024);
    let title = escape(&file.name);
    let _ = write!(
        html,
        "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><title>{title}</title>\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><style>{}{}</style></head>\
         <body class=\"paper\"><h1><bdi>{title}</bdi></h1>",
        include_str!("../../assets/drawing.css"),
        include_str!("../../assets/page.css"),
    );
    if !file.note.is_empty() {
        let _ = write!(html, "<p>{}</p>", escape(&file.note));
    }
    html.push_str(&body(file, answer, tests, unit));
    html.push_str("</body></html>\n");
    html
}

/// What stands between the page's title and its end.
fn body(file: &JobFile, answer: &Answer, tests: Option<&Tests>, unit: LengthUnit) -> String {
    let mut html = String::new();
    cautions(&mut html, answer);
    if let Some(design) = &answer.design {
        schedule(&mut html, design, answer, unit);
    } else if answer.goal.is_some() {
        html.push_str("<p class=\"danger\">No winding was found for this goal: see the limits below.</p>");
    }
    behaves(&mut html, file, answer);
    if let Some(tests) = tests {
        commissioning(&mut html, tests);
    }
    dropped(&mut html, answer);
    measures(&mut html, file, unit);
    assumed(&mut html, answer);
    html
}

/// How it will behave: what a person needs of it at the bench.
fn behaves(html: &mut String, file: &JobFile, answer: &Answer) {
    let Ok(texts) = Texts::english() else { return };
    let found = behaviour::everything(file, answer);
    if let Some(Err(trouble)) = &found.inductor {
        let _ = write!(
            html,
            "<p class=\"danger\">{}</p>",
            escape(&told::inductor_trouble(trouble, &texts))
        );
    }
    let inductor = found.inductor.as_ref().and_then(|found| found.as_ref().ok());
    let other = answer.beside.as_ref().map_or("", |other| other.0.as_str());
    let told: [(&str, Option<Told>); 7] = [
        ("ui-panel-inductor", inductor.map(|a| told::inductor(a, &texts))),
        ("ui-panel-heat", found.heat.as_ref().map(|a| told::heat(a, &texts))),
        ("ui-panel-idle", found.idle.as_ref().map(|a| told::idle(a, &texts))),
        (
            "ui-panel-inrush",
            found.inrush.as_ref().map(|a| told::inrush(a, &texts)),
        ),
        (
            "ui-panel-shunts",
            found.shunts.as_ref().map(|a| told::shunts(a, &texts)),
        ),
        (
            "ui-panel-direct",
            found.direct.as_ref().map(|a| told::direct_current(a, &texts)),
        ),
        (
            "ui-panel-pairs",
            found
                .pairs
                .as_ref()
                .map(|a| told::pairs(a, [&file.name, other], &texts)),
        ),
    ];
    for (title, told) in told {
        let Some(told) = told else { continue };
        let _ = write!(html, "<section><h2>{}</h2>", escape(&texts.text(title)));
        for remark in &told.remarks {
            let class = if remark.danger { " class=\"danger\"" } else { "" };
            let _ = write!(html, "<p{class}>{}</p>", escape(&remark.text));
        }
        html.push_str("<table>");
        for (shown, _) in &told.numbers {
            let half = if shown.plus_minus.is_empty() {
                String::new()
            } else {
                format!(" ± {}", shown.plus_minus)
            };
            let _ = write!(
                html,
                "<tr><th>{}</th><td>{}{half} {}</td></tr>",
                escape(&shown.label),
                shown.value,
                shown.unit
            );
        }
        html.push_str("</table>");
        if let Some(figure) = told.figures.first() {
            let _ = write!(html, "<figure class=\"small\">{figure}</figure>");
        }
        html.push_str("</section>");
    }
}

fn cautions(html: &mut String, answer: &Answer) {
    html.push_str("<section><h2>Cautions</h2><ul class=\"cautions\">");
    for text in STANDING_CAUTIONS {
        let _ = write!(html, "<li>{text}</li>");
    }
    for warning in answer.design.iter().flat_map(|d| &d.warnings) {
        let class = if warning.is_danger() { "danger" } else { "note" };
        let _ = write!(html, "<li class=\"{class}\">{}</li>", escape(warning.text()));
    }
    html.push_str("</ul></section>");
}

/// Cautions that stand on every page. Local codes and licensed practice come first.
pub const STANDING_CAUTIONS: &[&str] = &[
    "Stop unless the old high-voltage winding is out of the core before any mains reaches it.",
    "Stop unless the core is earthed, the mains side has a fuse and a strain relief, and everything live is enclosed.",
    "Mains wiring follows your local code; where it asks for a licensed person, so does this page.",
    "Pull the plug before you touch; a switch is not enough.",
];

fn schedule(html: &mut String, design: &Design, answer: &Answer, unit: LengthUnit) {
    let rebuild = &answer.problem.rebuild;
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    let title = escape(&winding_title(&design.candidate, &answer.catalogue, false));
    let per_layer: Vec<String> = layer_schedule(winding, layers)
        .iter()
        .map(ToString::to_string)
        .collect();
    let _ = write!(
        html,
        "<section><h2>Winding</h2><p class=\"headline\">{title}</p>\
         <p>Lies {}, in {} layer{}; turns in each: {}.</p>",
        placement_label(rebuild.placement),
        layers.layers,
        if layers.layers == 1 { "" } else { "s" },
        per_layer.join(" + "),
    );
    for limit in design.candidate.broken.iter() {
        let _ = write!(html, "<p class=\"danger\">Stop: {}.</p>", limit.label());
    }
    html.push_str("<div class=\"drawings\">");
    html.push_str(&core_section(rebuild, Some((winding, layers)), unit));
    html.push_str(&voltage_drawing(design, answer));
    html.push_str("</div></section><section><h2>What to expect</h2><table><thead><tr><th>Quantity</th><th>Value</th><th>±</th><th>Unit</th><th>Measured</th></tr></thead><tbody>");
    let values = design.estimate.to_si();
    // A charger's reactor follows from its diodes' current, further down.
    let charger = matches!(answer.goal, Some(Goal::BatteryCharger { .. }));
    let names = PAGE_NUMBERS
        .iter()
        .filter(|name| !(charger && **name == "series_reactance"));
    for shown in names.filter_map(|name| show(name, values[index(name)?])) {
        let _ = write!(
            html,
            "<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{}</td><td>{}</td><td class=\"blank\"></td></tr>",
            shown.label, shown.value, shown.plus_minus, shown.unit
        );
    }
    html.push_str("</tbody></table><p class=\"small\">± is the half-width that holds the truth about 95 times in 100 (k = 2), from the uncertainties below.</p></section>");
    html.push_str("<section><h2>Materials</h2><table><tbody>");
    for material in &design.materials {
        let amount = match material.amount {
            Amount::Wire { length, mass } => format!("{:.2} m, {:.2} kg", length.si(), mass.si()),
            Amount::Sheet { width, length } => format!("{:.0} × {:.0} mm", width.mm(), length.mm()),
            Amount::Pieces(n) => n.to_string(),
        };
        let _ = write!(
            html,
            "<tr><td>{}</td><td class=\"n\">{amount}</td><td>{}</td></tr>",
            escape(&material.what),
            material.purpose
        );
    }
    html.push_str("</tbody></table>");
    match design.outlet {
        Some(outlet) => {
            let _ = write!(html, "<p>Outlet: {} or more; check your local code.</p>", outlet.label);
        }
        None => html
            .push_str("<p class=\"danger\">No common outlet of this mains feeds it; ask a licensed electrician.</p>"),
    }
    html.push_str("</section>");
}

/// A job's drawings, each complete in itself: a name and the SVG with its styles.
#[must_use]
pub fn drawings(answer: &Answer, unit: LengthUnit) -> Vec<(&'static str, String)> {
    let rebuild = &answer.problem.rebuild;
    let mut drawn = vec![("core", core_isometric(&rebuild.core, unit))];
    match &answer.design {
        Some(design) => {
            let wound = (&design.candidate.winding, &design.candidate.layers);
            drawn.push(("section", core_section(rebuild, Some(wound), unit)));
            drawn.push(("voltage", voltage_drawing(design, answer)));
        }
        None => drawn.push(("section", core_section(rebuild, None, unit))),
    }
    let styles = include_str!("../../assets/drawing.css");
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
pub fn voltage_drawing(design: &Design, answer: &Answer) -> String {
    let required = answer.goal.map(|goal| goal.requirements());
    let Some(required) = required else { return String::new() };
    voltage_plot(&CurvePlot {
        points: &design.curve,
        load: required.demand.load,
        working: (
            design.estimate.working_current.value,
            design.estimate.working_voltage.value,
        ),
        limit: required.open_circuit_most.map(|limit| limit.volts),
    })
}

/// The commissioning record: what was predicted, what was read, how it compares.
fn commissioning(html: &mut String, tests: &Tests) {
    let Ok(texts) = Texts::english() else { return };
    html.push_str("<section><h2>Commissioning record</h2>");
    if tests.outdated {
        html.push_str(
            "<p class=\"danger\">The design has changed since these tests began. They prove another winding.</p>",
        );
    }
    html.push_str("<table><thead><tr><th>Test</th><th>Expected</th><th>Read</th><th></th></tr></thead><tbody>");
    for line in tests.bench.record() {
        let (read, status) = match line.outcome {
            Some(outcome) => (amount_text(outcome.amount, &texts), status_word(outcome.status)),
            None => (String::new(), "not read"),
        };
        let _ = write!(
            html,
            "<tr><td>{}, {}</td><td class=\"n\">{}</td><td class=\"n\">{read}</td><td>{status}</td></tr>",
            stage_word(line.prediction.stage),
            if line.prediction.of == crate::app::bench::PRIMARY {
                "primary"
            } else {
                "new winding"
            },
            band_text(&line.prediction, &texts),
        );
    }
    html.push_str("</tbody></table></section>");
}

/// How a reading compares with its band.
pub(super) const fn status_word(status: Status) -> &'static str {
    match status {
        Status::InBand => "in its band",
        Status::Outside(_) => "outside its band",
        Status::Explained(..) => "outside, explained",
    }
}

const fn stage_word(stage: Stage) -> &'static str {
    match stage {
        Stage::Prepare => "Prepare",
        Stage::Reassembly => "Reassembly",
        Stage::Continuity => "Resistance at 20 °C",
        Stage::Insulation => "Insulation resistance",
        Stage::RatioPolarity => "Ratio and polarity",
        Stage::LampIdle => "Idle current through a 100 W lamp",
        Stage::MainsIdle => "Idle current at full mains",
        Stage::Loaded => "Voltage under load",
        Stage::ShortCircuit => "Weld current",
        Stage::TemperatureRise => "Temperature rise",
    }
}

fn dropped(html: &mut String, answer: &Answer) {
    if answer.found.dropped.is_empty() {
        return;
    }
    let _ = write!(
        html,
        "<section><h2>What the search left out</h2><p>{} windings tried.</p><ul>",
        answer.found.tried
    );
    for (limit, count) in &answer.found.dropped {
        let _ = write!(html, "<li>{count}: {}</li>", limit.label());
    }
    html.push_str("</ul></section>");
}

fn measures(html: &mut String, file: &JobFile, unit: LengthUnit) {
    html.push_str("<section><h2>Measured</h2><table><tbody>");
    for root in ["core", "mains"] {
        let record = match root {
            "core" => serde_json::to_value(&file.core),
            _ => serde_json::to_value(&file.mains),
        };
        let Ok(record) = record else { continue };
        for leaf in leaf_readings(root, &record) {
            let path = format!("{root}.{}", leaf.field);
            let Some(field) = fields::find(&path) else { continue };
            let _ = write!(
                html,
                "<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">± {}</td><td>{}</td><td>{}</td></tr>",
                field.label,
                shown_number(field, leaf.reading.value, unit),
                shown_number(field, leaf.reading.plus_minus, unit),
                unit_symbol(field, unit),
                leaf.reading.origin.word(),
            );
        }
    }
    html.push_str("</tbody></table>");
    if let Some(field) = fields::find("mains.circuit.breaker_a") {
        let _ = write!(
            html,
            "<p>Breaker {} A (accepted: {}).</p>",
            shown_number(field, file.mains.circuit.breaker_a, unit),
            range_text(field, unit)
        );
    }
    html.push_str("</section>");
}

fn assumed(html: &mut String, answer: &Answer) {
    if answer.problem.assumed.is_empty() {
        return;
    }
    html.push_str("<section><h2>Not measured</h2><ul>");
    for assumed in &answer.problem.assumed {
        let _ = write!(html, "<li>{}</li>", assumed.text());
    }
    html.push_str("</ul></section>");
}
