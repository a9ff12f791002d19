//! The two sheets of a choke or a ballast: what to make, and how to prove it.

use std::fmt::Write;

use super::work::{millimetres, work};
use super::{Page, material_table, more, prove};
use crate::app::behaviour::inductor::{InductorAnswer, Trouble};
use crate::app::bench::Tests;
use crate::app::materials::cut_length;
use crate::quantity::{Length, LengthUnit, format_significant};
use crate::report::behaviour::{self as told};
use crate::report::draw::{coil_section, escape};
use crate::wind::WindStep;

/// The coil, its layers, its gap, the materials and the order of work, or why there is none.
pub(super) fn make(html: &mut String, page: &Page<'_>, found: &Result<InductorAnswer, Trouble>) {
    let found = match found {
        Ok(found) => found,
        Err(trouble) => {
            let text = told::inductor_trouble(trouble, &page.texts);
            let _ = write!(html, "<p class=\"danger\">{}</p>", escape(&text));
            return;
        }
    };
    let coil = &found.coil;
    let _ = write!(html, "<h2>{}</h2>", page.say("ui-panel-inductor"));
    page.stops(html, found.broken());
    for (at, line) in told::inductor_build(found, &page.texts).iter().enumerate() {
        let class = if at == 0 { " class=\"headline\"" } else { "" };
        let _ = write!(html, "<p{class}>{}</p>", escape(line));
    }
    let layers = page.say_with(
        "page-coil-layers",
        &[
            ("layers", &coil.layers.to_string()),
            ("each", &coil.per_layer.to_string()),
            ("last", &coil.last_layer.to_string()),
            ("build", &length(page, coil.build)),
            ("turn", &length(page, coil.mean_turn)),
        ],
    );
    let wire = page.say_with(
        "page-coil-wire",
        &[
            ("each", &format!("{:.2} m", coil.wire_length.si())),
            (
                "cut",
                &format!("{:.2} m", cut_length(coil.wire_length, coil.mean_turn).si()),
            ),
            ("lead", &length(page, page.answer.problem.rebuild.leads.value / 2.0)),
        ],
    );
    let _ = write!(html, "<p>{layers} {wire}</p>");
    html.push_str("<div class=\"halves wide-left\"><div>");
    material_table(html, page);
    html.push_str("</div><div>");
    work(html, page, |step| detail(page, found, step), "page-coil-work-test");
    html.push_str("</div></div>");
}

/// The core in section with coil and gap.
pub(super) fn section(page: &Page<'_>, found: &InductorAnswer) -> String {
    let rebuild = &page.answer.problem.rebuild;
    let label = page.texts.text_with(
        "page-coil-gap",
        &[(
            "shim",
            crate::text::Arg::Text(&format!("{} mm", format_significant(found.shim.value.mm(), 3))),
        )],
    );
    coil_section(
        &rebuild.core,
        rebuild.insulation.ground,
        &found.coil,
        &label,
        page.unit,
        &page.texts,
    )
}

fn length(page: &Page<'_>, length: Length) -> String {
    format!(
        "{} {}",
        format_significant(page.unit.count(length), 3),
        page.unit.symbol()
    )
}

fn detail(page: &Page<'_>, found: &InductorAnswer, step: WindStep) -> Option<String> {
    let insulation = &page.answer.problem.rebuild.insulation;
    Some(match step {
        WindStep::Prepare => page.say("page-coil-work-empty"),
        WindStep::CleanCore => page.say_with("page-work-ground", &[("ground", &millimetres(insulation.ground))]),
        WindStep::WindTurns => page.say_with(
            "page-coil-work-wind",
            &[
                ("turns", &found.turns.to_string()),
                ("layers", &found.coil.layers.to_string()),
            ],
        ),
        WindStep::LeadOut => page.say("page-work-leads"),
        WindStep::CutShims => page.say_with(
            "page-coil-work-gap",
            &[("stack", &told::stack_text(&found.stack, LengthUnit::Millimetre))],
        ),
        WindStep::Close => page.say("page-coil-work-close"),
        WindStep::Fix => page.say("page-work-fix"),
        WindStep::Enclose => page.say("page-coil-work-wire"),
        _ => return None,
    })
}

/// The second sheet: the tests with their bands, and what the coil does.
pub(super) fn prove(html: &mut String, page: &Page<'_>, found: &InductorAnswer, tests: Option<&Tests>) {
    page.head(html, "page-sheet-prove");
    let _ = write!(html, "<h2>{}</h2>", page.say("circuit-of-coil"));
    prove::circuit(html, page);
    prove::bands(html, page, tests);
    more::topic(html, page, "page-expect", &told::inductor(found, &page.texts));
    let _ = write!(html, "<p class=\"small\">{}</p></section>", page.say("page-plus-minus"));
}
