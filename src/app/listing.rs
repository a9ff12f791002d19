//! The windings found, as a list for a person.

use super::basis::Basis;
use crate::quantity::{format_significant, format_with_spread};
use crate::rewind::search::Candidate;
use crate::wire::{AwgSize, Catalogue, Metal};

/// A winding of the list.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Its place in the search's ranking.
    pub index: usize,
    /// True for the one shown in full.
    pub chosen: bool,
    /// Turns and conductor.
    pub title: String,
    /// Volts and amperes.
    pub facts: String,
    /// Room, heat and mains.
    pub fit: String,
}

/// The list and its headline.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Listing {
    /// How many were tried and what dropped most.
    pub headline: String,
    /// Where there is none: the nearest that can be had.
    pub nearest: Option<String>,
    /// The windings.
    pub rows: Vec<Row>,
}

/// Lists what was found.
#[must_use]
pub fn listing(answer: &Basis, awg: bool) -> Listing {
    let found = &answer.found;
    // Where nothing is left, one limit alone seldom tells why.
    let told = if found.ranked.is_empty() { 3 } else { 1 };
    let reasons: Vec<String> = found
        .dropped
        .iter()
        .take(told)
        .map(|(limit, count)| format!("{} ({count})", limit.label()))
        .collect();
    let dropped = match reasons.as_slice() {
        [] => String::new(),
        [one] => format!(" Most were left out because {one}."),
        more => format!(" They were left out because {}.", more.join("; because ")),
    };
    let shown = answer.design.as_ref().map(|design| design.candidate.winding);
    let nearest = found.nearest.as_ref().map(|(part, candidate)| {
        format!(
            "No winding meets this target. The nearest that can be had is {:.0} % of the current, {} A: {}. Lower the current or the duty, take a larger outlet, or use two cores.",
            part * 100.0,
            format_significant(candidate.performance.working_current.si(), 3),
            winding_title(candidate, &answer.catalogue, awg),
        )
    });
    let none = (found.ranked.is_empty() && found.nearest.is_none())
        .then(|| "No winding meets this target, not even for a fraction of the current.".to_owned());
    Listing {
        headline: format!("{} windings tried.{dropped}", found.tried),
        nearest: nearest.or(none),
        rows: found
            .ranked
            .iter()
            .enumerate()
            .map(|(index, candidate)| row(index, candidate, answer, awg, shown == Some(candidate.winding)))
            .collect(),
    }
}

/// "3 turns of 16 mm² flexible × 2", with AWG beside mm² where the person thinks so.
#[must_use]
pub fn winding_title(candidate: &Candidate, catalogue: &Catalogue, awg: bool) -> String {
    let winding = &candidate.winding;
    let label = catalogue.label(&winding.conductor);
    let section = winding.conductor.area;
    let other = if section.mm2() == 0.0 {
        String::new()
    } else if awg && !label.starts_with("AWG") {
        format!(" ({})", AwgSize::nearest(section).label())
    } else if !awg && label.starts_with("AWG") {
        format!(" ({} mm²)", format_significant(section.mm2(), 3))
    } else {
        String::new()
    };
    let parallel = if winding.parallel > 1 {
        format!(", {} in parallel", winding.parallel)
    } else {
        String::new()
    };
    let turns = if winding.turns == 1 { "turn" } else { "turns" };
    format!("{} {turns} of {label}{other}{parallel}", winding.turns)
}

fn row(index: usize, candidate: &Candidate, answer: &Basis, awg: bool, chosen: bool) -> Row {
    let p = &candidate.performance;
    let text = |value: f64| format_significant(value, 3);
    Row {
        index,
        chosen,
        title: winding_title(candidate, &answer.catalogue, awg),
        facts: format!(
            "{} V open, {} A at {} V",
            text(p.open_circuit.si()),
            text(p.working_current.si()),
            text(p.working_voltage.si())
        ),
        fit: format!(
            "{:.1} mm to spare, {} A from the mains, {} kg of wire",
            p.spare.mm(),
            text(p.mains_current.si()),
            text(p.wire_mass.si())
        ),
    }
}

/// The winding shown in full, in one line: what a person sees first.
#[must_use]
pub fn headline(answer: &Basis, awg: bool) -> Option<String> {
    let design = answer.design.as_ref()?;
    let title = winding_title(&design.candidate, &answer.catalogue, awg);
    // A current that the load sets has no ± of its own.
    let told = |value: f64, half: f64| match format_with_spread(value, half) {
        (value, spread) if spread.is_empty() => value,
        (value, spread) => format!("{value} ± {spread}"),
    };
    let (volts, amps) = (design.estimate.open_circuit, design.estimate.working_current);
    let volts = told(volts.value.si(), volts.plus_minus.si());
    let amps = told(amps.value.si(), amps.plus_minus.si());
    let whose = if design.chosen { "Your choice" } else { "Best found" };
    let stop = if design.candidate.broken.is_empty() {
        ""
    } else {
        " It breaks a limit: see below."
    };
    Some(format!("{whose}: {title}. {volts} V open, {amps} A at work.{stop}"))
}

/// The label of a wire; `None` where the catalogue lacks it. A wire that came from another version may
/// be unknown here: the search leaves it out.
#[must_use]
pub fn wire_label(name: &str) -> Option<String> {
    let mut catalogue = Catalogue::standard();
    let conductor = catalogue.find_in_any_metal(name).ok()?;
    Some(catalogue.label(&conductor).to_owned())
}

/// The conductors that a person may put on the shelf: name and label.
#[must_use]
pub fn wires_offered() -> Vec<(String, String)> {
    let catalogue = Catalogue::standard();
    catalogue
        .conductors()
        .iter()
        .filter(|conductor| conductor.metal == Metal::Copper)
        .map(|conductor| {
            (
                catalogue.name(conductor).to_owned(),
                catalogue.label(conductor).to_owned(),
            )
        })
        .collect()
}
