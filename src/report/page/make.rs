//! The first sheet: core, winding schedule, materials, order of work, cautions.

use std::fmt::Write;

use super::work::{millimetres, work};
use super::{Page, coil, material_table};
use crate::app::basis::{Design, SecondCore, layer_schedule, placement_key};
use crate::app::behaviour::inductor::{InductorAnswer, Trouble};
use crate::app::bench::{PRIMARY, band_text, primary_predictions};
use crate::app::listing::winding_title;
use crate::app::materials::{cut_length, is_strip};
use crate::app::translate::has_centre_tap;
use crate::magnetics::circuit::performance::{PerformanceNumber, Prepared};
use crate::magnetics::pairs::Joined;
use crate::magnetics::winding::Placement;
use crate::quantity::{Length, Measured, Temperature, format_significant, format_with_spread};
use crate::report::conflicts;
use crate::report::draw::{core_isometric, core_section, escape};
use crate::report::numbers::show;
use crate::wind::WindStep;
use crate::wire::{Conductor, Metal};

/// Most layers listed one by one; more are told as one row each for the first, the last and all.
const MOST_LAYERS: usize = 5;

const CAUTIONS: [&str; 4] = [
    "page-caution-old-winding",
    "page-caution-earth",
    "page-caution-code",
    "page-caution-plug",
];

/// The sheet; `inductor` is the choke or ballast where the job is one.
pub(super) fn sheet(html: &mut String, page: &Page<'_>, inductor: Option<&Result<InductorAnswer, Trouble>>) {
    // Without a winding there is nothing to prove, and no second sheet.
    let second = page.answer.design.is_some() || matches!(inductor, Some(Ok(_)));
    page.head(html, if second { "page-sheet-make" } else { "page-sheet-only" });
    if !page.file.note.is_empty() {
        let short: String = page.file.note.chars().take(160).collect();
        let _ = write!(html, "<p class=\"small\">{}</p>", escape(&short));
    }
    unsettled(html, page);
    cautions(html, page);
    core(html, page, inductor);
    match &page.answer.design {
        Some(design) => {
            winding(html, page, design);
            html.push_str("<div class=\"halves wide-left\"><div>");
            material_table(html, page);
            html.push_str("</div><div>");
            work(html, page, |step| detail(page, design, step), "page-work-test");
            html.push_str("</div></div>");
        }
        None if page.answer.goal.is_some() => {
            let _ = write!(html, "<p class=\"danger\">{}</p>", page.say("page-none"));
        }
        None => inductor.iter().for_each(|found| coil::make(html, page, found)),
    }
    html.push_str("</section>");
}

/// Values that two devices wrote differently, and which of them this page uses.
fn unsettled(html: &mut String, page: &Page<'_>) {
    let lines = conflicts::unsettled(page.unsettled, page.unit, &page.texts);
    if lines.is_empty() {
        return;
    }
    let lines: String = lines.iter().map(|line| format!("<li>{}</li>", escape(line))).collect();
    let _ = write!(
        html,
        "<div class=\"danger unsettled\"><p>{}</p><ul>{lines}</ul></div>",
        page.say("page-unsettled")
    );
}

fn cautions(html: &mut String, page: &Page<'_>) {
    let _ = write!(html, "<h2>{}</h2><ul class=\"cautions\">", page.say("page-cautions"));
    for key in CAUTIONS {
        let _ = write!(html, "<li>{}</li>", page.say(key));
    }
    for warning in page.answer.design.iter().flat_map(|design| &design.warnings) {
        let class = if warning.is_danger() { "danger" } else { "note" };
        let _ = write!(html, "<li class=\"{class}\">{}</li>", page.say(warning.key()));
    }
    html.push_str("</ul>");
}

fn core(html: &mut String, page: &Page<'_>, inductor: Option<&Result<InductorAnswer, Trouble>>) {
    let rebuild = &page.answer.problem.rebuild;
    let core = &rebuild.core;
    let length = |measured: &Measured<Length>| {
        let count = |length: Length| page.unit.count(length);
        let (value, half) = format_with_spread(count(measured.value), count(measured.plus_minus));
        if half.is_empty() {
            format!("{value} {}", page.unit.symbol())
        } else {
            format!("{value} ± {half} {}", page.unit.symbol())
        }
    };
    let lengths = page.say_with(
        "page-core-lengths",
        &[
            ("tongue", &length(&core.tongue)),
            ("stack", &length(&core.stack)),
            ("width", &length(&core.window_width)),
            ("height", &length(&core.window_height)),
            ("limb", &length(&core.outer_limb)),
            ("yoke", &length(&core.yoke)),
        ],
    );
    let primary = &rebuild.primary;
    let stays = if inductor.is_some() {
        page.say("page-coil-empty")
    } else {
        let mean_turn = core.turn_length(primary.build.value / 2.0);
        let ohms = primary.resistance_at(mean_turn, Temperature::from_si(20.0)).si();
        page.say_with(
            "page-primary",
            &[
                ("turns", &format!("{:.0}", primary.turns.value.si())),
                ("ohms", &format!("{} Ω", format_significant(ohms, 3))),
            ],
        )
    };
    let _ = write!(html, "<h2>{}</h2><p>{lengths} {stays}</p>", page.say("page-core"));
    html.push_str("<div class=\"drawings\">");
    // Of two cores both sections stand there.
    if page.answer.second.is_none() {
        html.push_str(&core_isometric(core, page.unit, &page.texts));
    }
    if let Some(Ok(found)) = inductor {
        html.push_str(&coil::section(page, found));
    } else {
        let wound = page.answer.design.as_ref();
        let wound = wound.map(|design| (&design.candidate.winding, &design.candidate.layers));
        html.push_str(&core_section(rebuild, wound, page.unit, &page.texts));
    }
    if let Some(second) = &page.answer.second {
        let wound = second.design.as_ref();
        let wound = wound.map(|design| (&design.candidate.winding, &design.candidate.layers));
        html.push_str(&core_section(&second.problem.rebuild, wound, page.unit, &page.texts));
    }
    html.push_str("</div>");
    if let Some(second) = &page.answer.second {
        let _ = write!(html, "<p>{}</p>", second_core(page, second));
    }
}

/// What the second core takes: the same winding, or its own turns.
fn second_core(page: &Page<'_>, second: &SecondCore) -> String {
    let of = |design: &Option<Design>| design.as_ref().map(|design| design.candidate.winding.turns);
    match (of(&page.answer.design), of(&second.design)) {
        (Some(turns), Some(other)) if turns != other => {
            let args = [("name", second.name.as_str()), ("turns", &other.to_string())];
            page.say_with("page-second-core-turns", &args)
        }
        _ => page.say_with("page-second-core", &[("name", &second.name)]),
    }
}

fn winding(html: &mut String, page: &Page<'_>, design: &Design) {
    let rebuild = &page.answer.problem.rebuild;
    let winding = &design.candidate.winding;
    let shown = |number: PerformanceNumber| show(&page.texts, &number.of(&design.propagated)).amount();
    let title = escape(
        &page
            .texts
            .message(&winding_title(&design.candidate, &page.answer.catalogue, false)),
    );
    let lies = page.say_with("page-lies", &[("where", &page.say(placement_key(rebuild.placement)))]);
    let _ = write!(
        html,
        "<h2>{}</h2><p class=\"headline\">{title}</p><div class=\"halves\"><div><p>{lies} {}</p>",
        page.say("page-winding"),
        page.say_with(
            "page-build",
            &[
                ("build", &shown(PerformanceNumber::Build)),
                ("spare", &shown(PerformanceNumber::Spare))
            ]
        ),
    );
    page.stops(html, design.candidate.broken);
    if winding.parallel > 1 {
        let count = winding.parallel.to_string();
        let _ = write!(html, "<p>{}</p>", page.say_with("page-parallel", &[("count", &count)]));
    }
    let each = page.unit.count(rebuild.leads.value / 2.0);
    let each = format!("{} {}", format_significant(each, 3), page.unit.symbol());
    let one = shown(PerformanceNumber::WireLength);
    let cut = cut_length(design.estimate.wire_length.value, design.estimate.mean_turn.value);
    let cut = format!("{:.2} m", cut.si());
    let _ = write!(
        html,
        "<p>{}</p>",
        page.say_with("page-leads", &[("each", &each), ("one", &one), ("cut", &cut)])
    );
    html.push_str("</div><div>");
    schedule(html, page, design);
    html.push_str("</div></div>");
}

/// The layers, innermost first: turns, the length of one, and the wire in it.
fn schedule(html: &mut String, page: &Page<'_>, design: &Design) {
    let rebuild = &page.answer.problem.rebuild;
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    let space = Prepared::new(rebuild).space;
    let turns = layer_schedule(winding, layers);
    let lengths = layers.turn_lengths(&rebuild.core, &space, &winding.conductor, rebuild.insulation.interlayer);
    let _ = write!(html, "<table class=\"schedule\"><thead><tr>");
    for key in ["page-layer", "page-turns", "page-turn-length", "page-layer-length"] {
        let _ = write!(html, "<th>{}</th>", page.say(key));
    }
    html.push_str("</tr></thead><tbody>");
    let rows: Vec<(usize, u32, Length)> = (1..)
        .zip(turns)
        .zip(lengths)
        .map(|((layer, turns), length)| (layer, turns, length))
        .collect();
    let row = |html: &mut String, layer: &str, turns: u32, one: Length, all: Length| {
        let _ = write!(
            html,
            "<tr><td>{layer}</td><td class=\"n\">{turns}</td><td class=\"n\">{} {}</td><td class=\"n\">{:.2} m</td></tr>",
            format_significant(page.unit.count(one), 4),
            page.unit.symbol(),
            all.si(),
        );
    };
    for (layer, turns, one) in &rows {
        if rows.len() <= MOST_LAYERS || *layer <= 2 || *layer == rows.len() {
            row(html, &layer.to_string(), *turns, *one, *one * f64::from(*turns));
        } else if *layer == 3 {
            html.push_str("<tr><td>…</td><td></td><td></td><td></td></tr>");
        }
    }
    if rows.len() > 1 {
        let all = rows
            .iter()
            .fold(Length::ZERO, |sum, (_, turns, one)| sum + *one * f64::from(*turns));
        let mean = all / f64::from(winding.turns);
        row(html, &page.say("page-all-layers"), winding.turns, mean, all);
    }
    html.push_str("</tbody></table>");
}

fn detail(page: &Page<'_>, design: &Design, step: WindStep) -> Option<String> {
    let rebuild = &page.answer.problem.rebuild;
    let (winding, layers) = (&design.candidate.winding, &design.candidate.layers);
    Some(match step {
        WindStep::Prepare => page.say("page-work-old-winding"),
        WindStep::CleanCore => {
            let ground = millimetres(rebuild.insulation.ground);
            page.say_with("page-work-ground", &[("ground", &ground)])
        }
        WindStep::PrimaryBack => page.say(match page.answer.primary_came_off() {
            Some(_) => "page-work-primary-back",
            None => "page-work-primary-back-if-off",
        }),
        WindStep::ProvePrimary => {
            let [ohms, insulation] = primary_predictions(page.answer, PRIMARY)
                .map(|prediction| escape(&band_text(&prediction, &page.texts)));
            page.say_with("page-work-prove", &[("ohms", &ohms), ("insulation", &insulation)])
        }
        WindStep::ShuntsBack => page.say("page-work-shunts"),
        WindStep::Barrier => {
            let placed = match rebuild.placement {
                Placement::BesidePrimary | Placement::FarEnd => "page-work-barrier",
                Placement::OverPrimary => "page-work-over",
            };
            page.say_with(placed, &[("barrier", &millimetres(rebuild.insulation.barrier))])
        }
        WindStep::WindTurns => {
            let turns = winding.turns.to_string();
            let half = (winding.turns / 2).to_string();
            let count = layers.layers.to_string();
            let args = [("turns", turns.as_str()), ("half", &half), ("layers", &count)];
            let key = match (has_centre_tap(page.file), winding.turns, layers.layers) {
                (true, ..) => "page-work-wind-tapped",
                (false, 1, _) => "page-work-wind-turn",
                (false, _, 1) => "page-work-wind-one",
                (false, ..) => "page-work-wind",
            };
            page.say_with(key, &args)
        }
        WindStep::LeadOut => page.say(lead_step(&winding.conductor)),
        WindStep::Close => page.say(close_step(page)),
        // Where the core is closed, its text names the ground, too.
        WindStep::Ground if page.answer.core_opened() == Some(false) => page.say(close_step(page)),
        WindStep::Fix => page.say("page-work-fix"),
        WindStep::JoinPair => {
            let pair = page.answer.second.as_ref()?;
            let joined = |joined| {
                page.say(if joined == Joined::Series {
                    "ui-series"
                } else {
                    "ui-parallel"
                })
            };
            let (primaries, windings) = (joined(Joined::Parallel), joined(pair.windings));
            page.say_with("page-work-pair", &[("primaries", &primaries), ("windings", &windings)])
        }
        WindStep::Enclose => page.say("page-work-wire"),
        WindStep::Ground | WindStep::Choose | WindStep::CutShims => return None,
    })
}

/// How the ends are joined: strip is drilled and bolted, wire gets lugs; aluminium needs joint
/// compound either way.
const fn lead_step(conductor: &Conductor) -> &'static str {
    match (is_strip(conductor), conductor.metal) {
        (true, Metal::Copper) => "page-work-leads-strip",
        (true, Metal::Aluminium) => "page-work-leads-strip-aluminium",
        (false, Metal::Copper) => "page-work-leads",
        (false, Metal::Aluminium) => "page-work-leads-aluminium",
    }
}

/// The core is closed only where it was opened.
fn close_step(page: &Page<'_>) -> &'static str {
    match page.answer.core_opened() {
        Some(true) => "page-work-close",
        Some(false) => "page-work-close-whole",
        None => "page-work-close-if-opened",
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::quantity::LengthUnit;
    use crate::text::Texts;
    use crate::wire::Catalogue;

    /// Strip and foil are bolted and take no crimped lug; aluminium has joint compound at every joint.
    #[test]
    fn the_ends_are_joined_as_the_conductor_asks() {
        let texts = Texts::english().unwrap();
        let catalogue = Catalogue::standard();
        let (mut flat, mut aluminium) = (0, 0);
        for conductor in catalogue.conductors() {
            let said = texts.text(lead_step(conductor));
            let strip = is_strip(conductor);
            assert_eq!(said.contains("Bolt"), strip, "{said}");
            assert_eq!(said.contains("Crimp"), !strip, "{said}");
            let light = conductor.metal == Metal::Aluminium;
            assert_eq!(said.contains("joint compound"), light, "{said}");
            flat += u32::from(strip);
            aluminium += u32::from(light);
        }
        assert!(flat > 0 && aluminium > 0);
    }

    /// A choke's page speaks of no primary that stays, and of a gap that sheets make.
    #[test]
    fn a_chokes_page_speaks_of_the_coil_alone() {
        let mut file = demo_job();
        file.goal = goal_of("choke");
        let answer = evaluate(&file).unwrap();
        let page = super::super::page(&answer, None, &[], LengthUnit::Millimetre).unwrap();
        let texts = Texts::english().unwrap();
        assert!(page.contains(&escape(&texts.text("page-coil-empty"))), "{page}");
        assert!(!page.contains("Primary, kept"), "{page}");
        assert!(page.contains("sheet of ") || page.contains("sheets of "), "{page}");
    }
}
