//! The windings found, as a list for a person.

use super::basis::Basis;
use crate::quantity::{Frequency, Resistance, format_significant, format_with_spread};
use crate::rewind::goal::{Goal, Target};
use crate::rewind::handwork::{Ease, Group, ease, work};
use crate::rewind::limits::Limit;
use crate::rewind::search::Candidate;
use crate::wire::{AwgSize, Catalogue, Metal};
use crate::words::Message;

/// A winding of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Its place in the search's ranking.
    pub index: usize,
    /// True for the one shown in full.
    pub chosen: bool,
    /// Where its conductor comes from.
    pub group: Group,
    /// Turns and conductor.
    pub title: Message,
    /// The conductor's name in the catalogue.
    pub conductor: String,
    /// Amperes at the load.
    pub amps: String,
    /// Volts there.
    pub volts: String,
    /// Volts without load.
    pub open_circuit: String,
    /// Amperes from the mains.
    pub mains: String,
    /// How far its hotter winding stays below its limit, in kelvins; none where it was not judged.
    pub margin: Option<String>,
    /// Metal in the room left, in per cent.
    pub fill: String,
    /// Room left, in millimetres.
    pub spare: String,
    /// Of own wire: the metres to cut, for all cores.
    pub own_metres: Option<String>,
    /// What it loses or gains against the recommended winding; none for that one itself.
    pub against: Option<Vec<Against>>,
}

/// How a winding differs from the recommended one.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Against {
    /// Needs a reactor of so many millihenries.
    NeedsReactor(String),
    /// Needs no reactor.
    NoReactor,
    /// Less current, by so many per cent.
    LessCurrent(String),
    /// More current, by so many per cent.
    MoreCurrent(String),
    /// Hotter against its limit, by so many kelvins.
    Hotter(String),
    /// Cooler against its limit, by so many kelvins.
    Cooler(String),
    /// So many conductors together, where the recommended one has fewer.
    Together(u32),
    /// Hardly any room left.
    Tight,
    /// Harder for hands: stiffer, or a form that suits so many turns less.
    MoreWork,
    /// Farther from the voltage that is best.
    OffVoltage,
    /// More metal to buy, by so many per cent.
    MoreMetal(String),
    /// It is to be bought, where the recommended one is of own wire.
    ToBuy,
    /// No shop of the trade sells it.
    HarderToGet,
}

/// Two windings side by side, the one shown in full first.
#[derive(Debug, Clone, PartialEq)]
pub struct SideBySide {
    /// Turns and conductor of each.
    pub titles: [Message; 2],
    /// What is compared.
    pub rows: Vec<SideRow>,
}

/// One row of two windings side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct SideRow {
    /// The id of what is compared.
    pub id: &'static str,
    /// What each has.
    pub values: [Message; 2],
    /// Which of them has more of what is wanted; `None` where neither, or where nobody can say.
    pub better: Option<usize>,
}

/// The id of where a use takes its current.
#[must_use]
pub const fn current_at(goal: &Goal) -> &'static str {
    match goal {
        Goal::SpotWelder { .. } => "ui-side-at-tips",
        Goal::StickWelder { .. } => "ui-side-at-electrode",
        Goal::ArcFurnace { .. } => "ui-side-at-arc",
        Goal::PlasmaCutter { .. } => "ui-side-at-torch",
        Goal::BatteryCharger { .. } => "ui-side-at-battery",
        Goal::PlainSupply { .. } => "ui-side-at-terminals",
    }
}

/// The winding in hand beside another of the list; `None` without either.
#[must_use]
pub fn side_by_side(answer: &Basis, other: usize, awg: bool) -> Option<SideBySide> {
    let (goal, design) = (answer.goal.as_ref()?, answer.design.as_ref()?);
    let listed = answer.found.ranked.get(other)?;
    // The one in hand is in the list, too, but where the person wound it otherwise.
    let same = |candidate: &&Candidate| candidate.winding == design.candidate.winding;
    let shown = answer.found.ranked.iter().find(same).unwrap_or(&design.candidate);
    let both = [shown, listed];
    let number =
        |id: &'static str, name: &'static str, value: f64| Message::new(id).with(name, format_significant(value, 3));
    let more = |of: fn(&Candidate) -> f64, least: f64| {
        let [a, b] = both.map(of);
        match a - b {
            apart if !apart.is_finite() || apart.abs() <= least => None,
            apart => Some(usize::from(apart < 0.0)),
        }
    };
    let amps = |c: &Candidate| c.performance.working_current.si();
    let margin = |c: &Candidate| c.heat_margin.map_or(f64::NAN, |margin| margin.si());
    let metres = |c: &Candidate| c.wire.si();
    let margin_text = |c: &Candidate| match margin(c) {
        kelvins if !kelvins.is_finite() => Message::new("ui-side-no-margin"),
        kelvins if kelvins.abs() < 0.5 => Message::new("ui-winding-at-limit"),
        kelvins => Message::new("ui-winding-margin").with("margin", format!("{kelvins:.0}")),
    };
    let fill_text = |c: &Candidate| {
        let fill = format!("{:.0}", c.performance.fill_factor.si() * 100.0);
        let spare = format!("{:.1}", c.performance.spare.mm());
        Message::new("ui-side-filled").with("fill", fill).with("spare", spare)
    };
    let wire_text = |c: &Candidate| {
        let id = if c.group == Group::Own {
            "ui-side-own-metres"
        } else {
            "ui-side-metres"
        };
        number(id, "metres", metres(c))
    };
    let mut rows = vec![
        SideRow {
            id: current_at(goal),
            values: both.map(|c| number("ui-side-amps", "amps", amps(c))),
            better: more(|c| c.performance.working_current.si(), amps(shown) * SAME_CURRENT),
        },
        SideRow {
            id: "ui-side-heat",
            values: both.map(margin_text),
            better: more(|c| c.heat_margin.map_or(f64::NAN, |margin| margin.si()), SAME_HEAT),
        },
        SideRow {
            id: "ui-side-window",
            values: both.map(fill_text),
            better: None,
        },
        SideRow {
            id: "ui-side-ease",
            values: both.map(|c| ease_text(&c.winding)),
            better: more(|c| -work(&c.winding), 0.5),
        },
        SideRow {
            id: "ui-side-wire",
            values: both.map(wire_text),
            better: None,
        },
        SideRow {
            id: "ui-side-mains",
            values: both.map(|c| number("ui-side-amps", "amps", c.performance.mains_current.si())),
            better: None,
        },
    ];
    let reactor = |c: &Candidate| c.performance.series_reactance;
    if both.iter().any(|c| reactor(c) > Resistance::ZERO) {
        let angular = answer.problem.rebuild.mains.frequency.angular();
        rows.push(SideRow {
            id: "ui-side-reactor",
            values: both.map(|c| match reactor(c).si() {
                ohms if ohms > 0.0 => number("ui-side-mh", "mh", ohms / angular * 1000.0),
                _ => Message::new("ui-side-none"),
            }),
            better: more(|c| -f64::from(c.performance.series_reactance > Resistance::ZERO), 0.5),
        });
    }
    Some(SideBySide {
        titles: both.map(|c| winding_title(c, &answer.catalogue, awg)),
        rows,
    })
}

/// How hard a winding is, and how many of its conductors go together.
fn ease_text(winding: &crate::magnetics::winding::Winding) -> Message {
    let id = match ease(winding) {
        Ease::Easy => "ui-ease-easy",
        Ease::SomeWork => "ui-ease-some-work",
        Ease::Hard => "ui-ease-hard",
    };
    Message::new(id).number("count", f64::from(winding.parallel))
}

/// Why the recommended winding is the recommended one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Why {
    /// Own wire, and as strong as any.
    OwnBest,
    /// Own wire, within what own wire may lack.
    OwnNear,
    /// The strongest of what is commonly sold.
    SoldStrongest,
    /// It keeps the target and is the easiest.
    SoldEasiest,
    /// Nothing that is commonly sold does it.
    Rest,
}

impl Why {
    /// The id of its text.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Why::OwnBest => "ui-why-own-best",
            Why::OwnNear => "ui-why-own-near",
            Why::SoldStrongest => "ui-why-sold-strongest",
            Why::SoldEasiest => "ui-why-sold-easiest",
            Why::Rest => "ui-why-rest",
        }
    }
}

/// Where no winding keeps the target: what is nearest.
#[derive(Debug, Clone, PartialEq)]
pub struct Nearest {
    /// Its part of the wanted current, in per cent.
    pub part: String,
    /// Its amperes.
    pub amps: String,
    /// Its turns and conductor.
    pub title: Message,
}

/// The list, why it begins as it does, and what was left out of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Listing {
    /// How many windings were tried.
    pub tried: u64,
    /// How many of them keep every limit.
    pub within: u64,
    /// How many were left out for which limit; with those within they add up to those tried.
    pub left_out: Vec<(Limit, u64)>,
    /// Where there is none: the nearest that can be had.
    pub nearest: Option<Nearest>,
    /// Why the first row is recommended; none where there is no row.
    pub why: Option<Why>,
    /// The windings: the recommended one, then group by group.
    pub rows: Vec<Row>,
}

/// Lists what was found.
#[must_use]
pub fn listing(answer: &Basis, awg: bool) -> Listing {
    let found = &answer.found;
    let shown = answer.design.as_ref().map(|design| design.candidate.winding);
    let nearest = found.nearest.as_ref().map(|(part, candidate)| Nearest {
        part: format_significant(part * 100.0, 2),
        amps: format_significant(candidate.performance.working_current.si(), 3),
        title: winding_title(candidate, &answer.catalogue, awg),
    });
    let first = found.ranked.first();
    Listing {
        tried: found.tried,
        within: found.within_limits(),
        left_out: found.dropped.clone(),
        nearest,
        why: first.map(|first| why(first, answer)),
        rows: found
            .ranked
            .iter()
            .enumerate()
            .map(|(index, candidate)| Row {
                against: first
                    .filter(|_| index > 0)
                    .map(|first| against(candidate, first, answer.problem.rebuild.mains.frequency)),
                ..row(index, candidate, answer, awg, shown == Some(candidate.winding))
            })
            .collect(),
    }
}

/// Why the first of the list is the first.
fn why(first: &Candidate, answer: &Basis) -> Why {
    let current = first.performance.working_current;
    let stronger = answer
        .found
        .ranked
        .iter()
        .any(|other| other.group != Group::Rest && other.performance.working_current > current * 1.005);
    match (first.group, answer.target) {
        (Group::Own, Target::AsMuch) if stronger => Why::OwnNear,
        (Group::Own, _) => Why::OwnBest,
        (Group::Common, Target::AsMuch) => Why::SoldStrongest,
        (Group::Common, Target::Number) => Why::SoldEasiest,
        (Group::Rest, _) => Why::Rest,
    }
}

/// Differences in current below this part are not told.
const SAME_CURRENT: f64 = 0.015;
/// Differences in heat below this many kelvins are not told.
const SAME_HEAT: f64 = 5.0;
/// Differences in work below these points are not told.
const SAME_WORK: f64 = 0.5;
/// Differences in voltage below these points of the ranking are not told.
const SAME_VOLTAGE: f64 = 1.0;
/// Metal above which more of it is told.
const MUCH_METAL: f64 = 1.25;
/// Room below which a winding is told to be tight, in millimetres. Common practice, no source.
const TIGHT_MM: f64 = 0.5;

fn against(candidate: &Candidate, recommended: &Candidate, mains: Frequency) -> Vec<Against> {
    let mut list = Vec::new();
    let reactor = |candidate: &Candidate| candidate.performance.series_reactance;
    match (
        reactor(candidate) > Resistance::ZERO,
        reactor(recommended) > Resistance::ZERO,
    ) {
        (true, false) => {
            let millihenries = reactor(candidate).si() / mains.angular() * 1000.0;
            list.push(Against::NeedsReactor(format_significant(millihenries, 2)));
        }
        (false, true) => list.push(Against::NoReactor),
        _ => {}
    }
    let ratio = candidate.performance.working_current / recommended.performance.working_current;
    if ratio.is_finite() && (ratio - 1.0).abs() > SAME_CURRENT {
        let percent = format_significant((ratio - 1.0).abs() * 100.0, 2);
        list.push(if ratio < 1.0 {
            Against::LessCurrent(percent)
        } else {
            Against::MoreCurrent(percent)
        });
    }
    if let (Some(own), Some(other)) = (candidate.heat_margin, recommended.heat_margin) {
        let hotter = (other - own).si();
        if hotter.abs() > SAME_HEAT {
            let kelvins = format!("{:.0}", hotter.abs());
            list.push(if hotter > 0.0 {
                Against::Hotter(kelvins)
            } else {
                Against::Cooler(kelvins)
            });
        }
    }
    if candidate.winding.parallel > recommended.winding.parallel {
        list.push(Against::Together(candidate.winding.parallel));
    }
    if candidate.performance.spare.mm() < TIGHT_MM && recommended.performance.spare.mm() >= TIGHT_MM {
        list.push(Against::Tight);
    }
    let (own, other) = (work(&candidate.winding), work(&recommended.winding));
    if own > other + SAME_WORK && candidate.winding.parallel <= recommended.winding.parallel {
        list.push(Against::MoreWork);
    }
    let metal = candidate.performance.wire_mass / recommended.performance.wire_mass;
    if metal > MUCH_METAL {
        list.push(Against::MoreMetal(format_significant((metal - 1.0) * 100.0, 2)));
    }
    if candidate.score.voltage > recommended.score.voltage + SAME_VOLTAGE {
        list.push(Against::OffVoltage);
    }
    match (candidate.group, recommended.group) {
        (Group::Common, Group::Own) => list.push(Against::ToBuy),
        (Group::Rest, Group::Own | Group::Common) => list.push(Against::HarderToGet),
        _ => {}
    }
    list
}

/// "3 turns of 16 mm² flexible (AWG 5), 2 in parallel": in the other measure too, where the person thinks in it.
#[must_use]
pub fn winding_title(candidate: &Candidate, catalogue: &Catalogue, awg: bool) -> Message {
    let winding = &candidate.winding;
    let (label, section) = (catalogue.label(&winding.conductor), winding.conductor.area);
    let sold_by_awg = catalogue.name(&winding.conductor).starts_with("awg-");
    let other = match (awg, sold_by_awg) {
        // A foil's section is that of its winding.
        _ if section.mm2() == 0.0 => None,
        (true, false) => Some(AwgSize::nearest(section).label()),
        (false, true) => Some(format!("{} mm²", format_significant(section.mm2(), 3))),
        (true, true) | (false, false) => None,
    };
    let conductor = match other {
        Some(size) => Message::new("conductor-also")
            .within("conductor", label)
            .with("size", size),
        None => label,
    };
    let title = |key: &'static str| {
        Message::new(key)
            .number("turns", f64::from(winding.turns))
            .within("conductor", conductor)
    };
    match winding.parallel {
        0 | 1 => title("winding-title"),
        parallel => title("winding-title-parallel").with("parallel", parallel),
    }
}

fn row(index: usize, candidate: &Candidate, answer: &Basis, awg: bool, chosen: bool) -> Row {
    let p = &candidate.performance;
    let text = |value: f64| format_significant(value, 3);
    let margin = candidate
        .heat_margin
        .map(|margin| margin.si())
        .filter(|si| si.is_finite());
    let metres = candidate.wire.si();
    Row {
        index,
        chosen,
        group: candidate.group,
        title: winding_title(candidate, &answer.catalogue, awg),
        conductor: answer.catalogue.name(&candidate.winding.conductor).to_owned(),
        amps: text(p.working_current.si()),
        volts: text(p.working_voltage.si()),
        open_circuit: text(p.open_circuit.si()),
        mains: text(p.mains_current.si()),
        margin: margin.map(|kelvins| format!("{:.0}", kelvins.round() + 0.0)),
        fill: format!("{:.0}", p.fill_factor.si() * 100.0),
        spare: format!("{:.1}", p.spare.mm()),
        own_metres: (candidate.group == Group::Own).then(|| text(metres)),
        against: None,
    }
}

/// The winding shown in full, in one line: what a person sees first.
#[must_use]
pub fn headline(answer: &Basis, awg: bool) -> Option<Message> {
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
    let key = match (design.chosen, design.candidate.broken.is_empty()) {
        (true, true) => "ui-headline-chosen",
        (true, false) => "ui-headline-chosen-breaks",
        (false, true) => "ui-headline-best",
        (false, false) => "ui-headline-best-breaks",
    };
    let headline = Message::new(key).within("title", title);
    Some(headline.with("volts", volts).with("amps", amps))
}

/// The label of a wire; `None` where the catalogue lacks it. A wire that came from another version may
/// be unknown here: the search leaves it out.
#[must_use]
pub fn wire_label(name: &str) -> Option<Message> {
    let mut catalogue = Catalogue::standard();
    let conductor = catalogue.find_in_any_metal(name).ok()?;
    Some(catalogue.label(&conductor))
}

/// The conductors that a person may put on the shelf: name and label.
#[must_use]
pub fn wires_offered() -> Vec<(String, Message)> {
    let catalogue = Catalogue::standard();
    catalogue
        .conductors()
        .iter()
        .filter(|conductor| conductor.metal == Metal::Copper)
        .map(|conductor| (catalogue.name(conductor).to_owned(), catalogue.label(conductor)))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::basis;
    use crate::app::start::{demo_job, goal_of};

    /// Arithmetic: the nearest is so many per cent of what is wanted as it says, one core or two.
    #[test]
    fn the_nearest_is_the_part_that_it_says() {
        for (word, amps, paired) in [
            ("spot_welder", 9000.0, false),
            ("stick_welder", 200.0, false),
            ("stick_welder", 300.0, true),
            ("battery_charger", 400.0, false),
            ("plain_supply", 500.0, false),
        ] {
            let mut file = demo_job();
            file.choice = None;
            file.goal = goal_of(word);
            crate::app::reach::Step::Nearest(crate::quantity::Current::from_si(amps)).apply(&mut file);
            file.conditions.as_much.clear();
            file.conditions.pair = paired.then(|| crate::job::PairChoice {
                name: "the other".into(),
                core: Box::new(file.core.clone()),
                windings: crate::job::Joining::Series,
            });
            let answer = basis(&file).unwrap();
            let nearest = listing(&answer, false)
                .nearest
                .unwrap_or_else(|| panic!("{word} at {amps} A"));
            let (given, part): (f64, f64) = (nearest.amps.parse().unwrap(), nearest.part.parse().unwrap());
            // Both are rounded: three digits and two.
            assert!((given / amps * 100.0 / part - 1.0).abs() < 0.06, "{word}: {nearest:?}");
            let exact = answer.found.nearest.as_ref().unwrap();
            let current = exact.1.performance.working_current.si();
            assert!((exact.0 * amps / current - 1.0).abs() < 1e-9, "{word}: {exact:?}");
        }
    }

    /// Side by side stand the numbers of the list, the better marked; each winding but the recommended one
    /// says how it differs.
    #[test]
    fn two_windings_stand_side_by_side() {
        for word in ["spot_welder", "stick_welder", "battery_charger", "plain_supply"] {
            let mut file = demo_job();
            file.choice = None;
            file.goal = goal_of(word);
            let answer = basis(&file).unwrap();
            let list = listing(&answer, false);
            assert!(list.rows.len() > 1, "{word}");
            for row in list.rows.iter().skip(1) {
                let side = side_by_side(&answer, row.index, false).unwrap();
                assert_eq!(side.titles[1], row.title);
                assert_eq!(side.titles[0], list.rows[0].title);
                let amps = |at: usize| match &side.rows[0].values[at].arguments[0].1 {
                    crate::words::Argument::Text(text) => text.clone(),
                    other => panic!("{other:?}"),
                };
                assert_eq!((amps(0), amps(1)), (list.rows[0].amps.clone(), row.amps.clone()));
                let (a, b): (f64, f64) = (amps(0).parse().unwrap(), amps(1).parse().unwrap());
                match side.rows[0].better {
                    Some(0) => assert!(a > b, "{word}: {a} {b}"),
                    Some(_) => assert!(b > a, "{word}: {a} {b}"),
                    None => assert!((a / b - 1.0).abs() < 0.02, "{word}: {a} {b}"),
                }
                assert!(row.against.is_some(), "{word}: {row:?}");
            }
            assert!(side_by_side(&answer, 10_000, false).is_none());
        }
    }

    /// Arithmetic: what was left out and what is within add up to what was tried, with an answer and without.
    #[test]
    fn counts_of_a_search_add_up() {
        for word in ["spot_welder", "stick_welder", "battery_charger", "plain_supply"] {
            for as_much in [true, false] {
                let mut file = demo_job();
                file.choice = None;
                file.goal = goal_of(word);
                let goal = file.goal;
                file.conditions.want_as_much(&goal, as_much);
                let found = listing(&basis(&file).unwrap(), false);
                let left_out: u64 = found.left_out.iter().map(|(_, count)| count).sum();
                assert!(found.tried > 0 && left_out <= found.tried, "{word}");
                assert_eq!(left_out + found.within, found.tried, "{word}, as much {as_much}");
                assert!(found.rows.len() as u64 <= found.within, "{word}: {}", found.within);
            }
        }
    }
}
