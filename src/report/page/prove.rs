//! The second sheet: the circuit, the tests with their bands and boxes, what to expect.

use std::fmt::Write;

use super::Page;
use super::drawings::{voltage_drawing, wiring};
use crate::app::basis::Design;
use crate::app::bench::{PRIMARY, SECOND_PRIMARY, SECOND_WINDING, Tests, amount_like, band_text, plan_of};
use crate::bench::{Line, Status};
use crate::magnetics::circuit::performance::PerformanceNumber;
use crate::report::behaviour as told;
use crate::report::circuit_parts::{circuit_lines, outlet_line};
use crate::report::draw::escape;
use crate::report::numbers::show;

/// Numbers on the sheet, in order.
const NUMBERS: &[PerformanceNumber] = &[
    PerformanceNumber::OpenCircuit,
    PerformanceNumber::WorkingCurrent,
    PerformanceNumber::WorkingVoltage,
    PerformanceNumber::ShortCircuit,
    PerformanceNumber::Regulation,
    PerformanceNumber::FluxDensity,
    PerformanceNumber::TotalResistance,
    PerformanceNumber::LeakageReactance,
    PerformanceNumber::WindingLoss,
    PerformanceNumber::PrimaryLoss,
    PerformanceNumber::WindingSteadyDensity,
    PerformanceNumber::PrimarySteadyDensity,
    PerformanceNumber::MainsCurrent,
    PerformanceNumber::MainsSteadyCurrent,
];

pub(super) fn sheet(html: &mut String, page: &Page<'_>, tests: Option<&Tests>) {
    let Some(design) = &page.answer.design else { return };
    page.head(html, "page-sheet-prove");
    html.push_str("<div class=\"halves\"><div>");
    let _ = write!(html, "<h2>{}</h2>", page.say("page-wiring"));
    html.push_str(&wiring(page.answer, &page.texts).unwrap_or_default());
    outlet(html, page, design);
    html.push_str("</div><div>");
    heat(html, page);
    // A pair needs the room.
    if page.answer.second.is_none() {
        html.push_str(&voltage_drawing(design, page.answer, &page.texts));
    }
    html.push_str("</div></div>");
    circuit(html, page);
    pair(html, page);
    bands(html, page, tests);
    numbers(html, page, design);
    html.push_str("</section>");
}

/// The parts round the winding or the coil, from the outlet to the load.
pub(super) fn circuit(html: &mut String, page: &Page<'_>) {
    let Some(parts) = page.answer.circuit_parts() else {
        return;
    };
    html.push_str("<div class=\"circuit\">");
    for line in circuit_lines(parts, &page.texts) {
        let class = if line.danger { " class=\"danger\"" } else { "" };
        let _ = write!(
            html,
            "<p{class}><b>{}</b> {}</p>",
            escape(&line.label),
            escape(&line.text)
        );
    }
    html.push_str("</div>");
}

fn outlet(html: &mut String, page: &Page<'_>, design: &Design) {
    let (line, danger) = outlet_line(page.file, &design.outlet, &page.texts);
    let class = if danger { " class=\"danger\"" } else { "" };
    let _ = write!(html, "<p{class}>{}</p>", escape(&line));
}

/// What the winding's duty is, and what cautions come with it.
fn heat(html: &mut String, page: &Page<'_>) {
    let Some(heat) = page.answer.heat() else {
        return;
    };
    let told = told::heat(heat, &page.texts);
    let _ = write!(html, "<h2>{}</h2>", page.say("page-heat"));
    for remark in &told.remarks {
        let class = if remark.danger { " class=\"danger\"" } else { "" };
        let _ = write!(html, "<p{class}>{}</p>", escape(&remark.text));
    }
}

/// How two donors are joined, where the job is one of a pair.
fn pair(html: &mut String, page: &Page<'_>) {
    let Some(pairing) = page.answer.pair() else {
        return;
    };
    let other = page.answer.second.as_ref().map_or("", |other| other.name.as_str());
    let told = told::pairs(pairing, [&page.file.name, other], &page.texts);
    let _ = write!(
        html,
        "<h2>{}</h2><div class=\"halves pair\"><div>",
        page.say("ui-panel-pairs")
    );
    html.push_str(told.figures.first().map_or("", String::as_str));
    html.push_str("</div><ul>");
    for remark in &told.remarks {
        let class = if remark.danger { " class=\"danger\"" } else { "" };
        let _ = write!(html, "<li{class}>{}</li>", escape(&remark.text));
    }
    html.push_str("</ul></div>");
}

/// The most tests whose boxes have their full height.
const MOST_AT_EASE: usize = 12;

/// Every test with its band, and what was read or a box for it.
pub(super) fn bands(html: &mut String, page: &Page<'_>, tests: Option<&Tests>) {
    let lines: Vec<Line> = match tests {
        Some(tests) => tests.bench.record(),
        None => match plan_of(page.file, page.answer) {
            None => return,
            Some(Ok(plan)) => plan
                .predictions()
                .iter()
                .map(|&prediction| Line {
                    prediction,
                    outcome: None,
                })
                .collect(),
            Some(Err(trouble)) => {
                let _ = write!(
                    html,
                    "<p class=\"danger\">{}</p>",
                    escape(&page.texts.message(&trouble))
                );
                return;
            }
        },
    };
    let _ = write!(html, "<h2>{}</h2>", page.say("page-tests"));
    if tests.is_some_and(|tests| tests.outdated) {
        let _ = write!(html, "<p class=\"danger\">{}</p>", page.say("page-tests-old"));
    }
    // The tests of two cores leave less room for each.
    let many = if lines.len() > MOST_AT_EASE { " many" } else { "" };
    let _ = write!(html, "<table class=\"tests{many}\"><thead><tr>");
    for key in ["page-test", "page-expected", "page-read"] {
        let _ = write!(html, "<th>{}</th>", page.say(key));
    }
    html.push_str("</tr></thead><tbody>");
    for line in lines {
        let of = match line.prediction.of {
            PRIMARY => "page-on-primary",
            SECOND_PRIMARY => "page-on-second-primary",
            SECOND_WINDING => "page-on-second-winding",
            _ => "page-on-winding",
        };
        let read = line.outcome.map_or_else(String::new, |outcome| {
            let read = amount_like(outcome.amount, line.prediction.value, &page.texts);
            format!("{read}, {}", page.say(status_key(outcome.status)))
        });
        let _ = write!(
            html,
            "<tr><td>{}, {}</td><td class=\"n\">{}</td><td class=\"blank\">{read}</td></tr>",
            page.say(line.prediction.stage.key()),
            page.say(of),
            band_text(&line.prediction, &page.texts),
        );
    }
    let _ = write!(
        html,
        "</tbody></table><p><strong>{}</strong></p><p class=\"small\">{}</p>",
        page.say("page-stop-outside"),
        page.say("page-by")
    );
}

/// How a reading compares with its band, as a file says it.
pub(in crate::report) const fn status_word(status: Status) -> &'static str {
    match status {
        Status::InBand => "in_band",
        Status::Outside(_) => "outside",
        Status::Explained(..) => "explained",
    }
}

const fn status_key(status: Status) -> &'static str {
    match status {
        Status::InBand => "page-in-band",
        Status::Outside(_) => "page-outside",
        Status::Explained(..) => "page-explained",
    }
}

/// The design's numbers, in two columns.
fn numbers(html: &mut String, page: &Page<'_>, design: &Design) {
    let _ = write!(html, "<h2>{}</h2><div class=\"numbers\">", page.say("page-expect"));
    for number in design.numbers(NUMBERS) {
        let shown = show(&page.texts, &number);
        let _ = write!(html, "<p><span>{}</span><b>{}</b></p>", shown.label, shown.amount());
    }
    let _ = write!(html, "</div><p class=\"small\">{}</p>", page.say("page-plus-minus"));
}
