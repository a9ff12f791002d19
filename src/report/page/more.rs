//! What stands below the sheets, on a screen only: how the part will behave, what the search left
//! out, what was measured and what was not.

use std::fmt::Write;

use super::Page;
use crate::app::workspace::{range_text, shown_number, unit_symbol};
use crate::job::{fields, leaf_readings};
use crate::report::behaviour::{self as view, TopicView};
use crate::report::draw::escape;

pub(super) fn below(html: &mut String, page: &Page<'_>) {
    let _ = write!(html, "<section class=\"more\"><h2>{}</h2>", page.say("page-more"));
    behaves(html, page);
    left_out(html, page);
    measured(html, page);
    assumed(html, page);
    html.push_str("</section>");
}

/// A topic of how the part behaves: remarks, numbers, the first drawing.
pub(super) fn topic(html: &mut String, page: &Page<'_>, title: &str, view: &TopicView) {
    let _ = write!(html, "<h2>{}</h2>", page.say(title));
    for remark in &view.remarks {
        let class = if remark.danger { " class=\"danger\"" } else { "" };
        let _ = write!(html, "<p{class}>{}</p>", escape(&remark.text));
    }
    html.push_str("<div class=\"numbers\">");
    for (shown, _) in &view.numbers {
        let half = if shown.plus_minus.is_empty() {
            String::new()
        } else {
            format!(" ± {}", shown.plus_minus)
        };
        let _ = write!(
            html,
            "<p><span>{}</span><b>{}{half} {}</b></p>",
            escape(&shown.label),
            shown.value,
            shown.unit
        );
    }
    html.push_str("</div>");
    if let Some(figure) = view.figures.first() {
        let _ = write!(html, "<figure class=\"small\">{figure}</figure>");
    }
}

/// The expected behaviour, every topic that has an answer.
fn behaves(html: &mut String, page: &Page<'_>) {
    // A choke or a ballast has no primary: its numbers are on the second sheet.
    if page.answer.goal.is_none() {
        return;
    }
    let found = page.answer;
    let texts = &page.texts;
    let other = page.answer.second.as_ref().map_or("", |other| other.name.as_str());
    let view: [(&str, Option<TopicView>); 6] = [
        ("ui-panel-heat", found.heat().map(|a| view::heat(a, texts))),
        ("ui-panel-idle", found.idle().map(|a| view::idle(a, texts))),
        ("ui-panel-inrush", found.inrush().map(|a| view::inrush(a, texts))),
        ("ui-panel-shunts", found.shunts().map(|a| view::shunts(a, texts))),
        (
            "ui-panel-direct",
            found.direct_current().map(|a| view::direct_current(a, texts)),
        ),
        (
            "ui-panel-pairs",
            found.pair().map(|a| view::pairs(a, [&page.file.name, other], texts)),
        ),
    ];
    for (title, view) in view {
        if let Some(view) = view {
            topic(html, page, title, &view);
        }
    }
}

fn left_out(html: &mut String, page: &Page<'_>) {
    let found = &page.answer.found;
    if found.dropped.is_empty() {
        return;
    }
    let tried = page.say_with("page-tried", &[("count", &found.tried.to_string())]);
    let _ = write!(html, "<h2>{}</h2><p>{tried}</p><ul>", page.say("page-left-out"));
    for (limit, count) in &found.dropped {
        let _ = write!(html, "<li>{count}: {}</li>", page.say(limit.key()));
    }
    html.push_str("</ul>");
}

fn measured(html: &mut String, page: &Page<'_>) {
    let (file, unit) = (page.file, page.unit);
    let _ = write!(html, "<h2>{}</h2><table><tbody>", page.say("page-measured"));
    let of_core = leaf_readings("core", &file.core).into_iter().map(|leaf| ("core", leaf));
    let of_mains = leaf_readings("mains", &file.mains)
        .into_iter()
        .map(|leaf| ("mains", leaf));
    for (root, leaf) in of_core.chain(of_mains) {
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
    html.push_str("</tbody></table>");
    if let Some(field) = fields::find("mains.circuit.breaker_a") {
        let amps = shown_number(field, file.mains.circuit.breaker_a, unit);
        let range = range_text(field, unit);
        let _ = write!(
            html,
            "<p>{}</p>",
            page.say_with("page-breaker", &[("amps", &amps), ("range", &range)])
        );
    }
}

fn assumed(html: &mut String, page: &Page<'_>) {
    let assumed = &page.answer.problem.assumed;
    if assumed.is_empty() {
        return;
    }
    let _ = write!(html, "<h2>{}</h2><ul>", page.say("page-not-measured"));
    for assumed in assumed {
        let _ = write!(html, "<li>{}</li>", page.say(assumed.key()));
    }
    html.push_str("</ul>");
}
