//! The core as a choke or a ballast: turns, wire, gap.

use super::{Number, Row, exact, gaps, numbers, single, steel};
use crate::app::answer::Answer;
use crate::job::{self, JobFile};
use crate::magnetics::inductor::{Conductor, Inductor, InductorWork, Load, sheets};
use crate::magnetics::inductor_design::{Ballast, InductorWish};
use crate::quantity::{
    Current, Estimate, FluxDensity, Frequency, Inductance, Length, Measured, Origin, Ratio, Temperature, Voltage,
};
use crate::wire::{self, Envelope, Family};

const ROWS: &[Row] = &[
    ("inductance", "ui-inductance", 1e-3, "mH"),
    ("peak_density", "ui-peak-density", 1.0, "T"),
    ("resistance", "ui-coil-resistance", 1e-3, "mΩ"),
    ("copper_loss", "ui-copper-loss", 1.0, "W"),
    ("core_loss", "ui-core-loss", 1.0, "W"),
    ("fringing", "ui-fringing", 1.0, ""),
    ("window_share", "ui-window-share", 0.01, "%"),
];

/// Highest flux density that a choke of unknown steel is made for. Common practice, no source.
const LIMIT: FluxDensity = FluxDensity::from_si(1.2);

/// Equivalent steady current density of a coil in still air: 4 A/mm² of copper, for a coil that
/// fills the windows. Common practice, no source.
const DENSITY_A_PER_MM2: f64 = 4.0;

/// Most wires wound together.
const MOST_PARALLEL: u32 = 6;

/// Share of the window that the wire's square cells may take. Common practice, no source.
const USABLE: f64 = 0.75;

/// A choke or ballast that can be wound.
#[derive(Debug, Clone, PartialEq)]
pub struct InductorAnswer {
    /// Label of the wire.
    pub wire: String,
    /// How many are wound together.
    pub parallel: u32,
    /// Turns.
    pub turns: u32,
    /// Shim in each of the three faces, with its half-width.
    pub shim: Estimate<Length>,
    /// The same in sheets of paper.
    pub sheets: f64,
    /// Thickness of a sheet.
    pub sheet: Length,
    /// Its numbers.
    pub numbers: Vec<Number>,
    /// Inductance against the direct current (or the alternating current's crest).
    pub curve: Vec<(Current, Inductance)>,
    /// The current asked for, at its crest.
    pub crest: Current,
    /// Inductance there, for small changes about it, as the curve has it.
    pub asked: Inductance,
}

/// Why there is none, as a sentence.
pub type Trouble = String;

/// The choke or ballast of a job; none for another use. The thinnest enamelled copper wire
/// that bears the current is taken, and as few of it in parallel as will do.
#[must_use]
pub fn inductor(file: &JobFile, answer: &Answer) -> Option<Result<InductorAnswer, Trouble>> {
    let rebuild = &answer.problem.rebuild;
    let mains = &rebuild.mains;
    let (load, asked, ballast) = match file.goal {
        job::Goal::Choke {
            inductance_mh,
            dc_current_a,
            ripple_a,
            frequency_hz,
        } => (
            Load {
                direct: Current::from_si(dc_current_a),
                swing: Current::from_si(ripple_a / 2.0),
                frequency: Frequency::from_si(frequency_hz),
            },
            Inductance::from_millihenries(inductance_mh),
            None,
        ),
        job::Goal::Ballast { arc_volts, current_a } => {
            let current = Current::from_si(current_a);
            let ballast = Ballast {
                mains: mains.voltage.value,
                frequency: mains.frequency,
                arc: Voltage::from_si(arc_volts),
                current,
            };
            (
                Load::alternating(current, mains.frequency),
                Inductance::ZERO,
                Some(ballast),
            )
        }
        _ => return None,
    };
    let rms = load.rms().si();
    let mut wires: Vec<&wire::Conductor> = answer
        .catalogue
        .conductors()
        .iter()
        .filter(|c| c.family == Family::Enamelled && c.metal == wire::Metal::Copper)
        .collect();
    wires.sort_by(|a, b| a.area.si().total_cmp(&b.area.si()));
    let mut trouble = None;
    for parallel in 1..=MOST_PARALLEL {
        let count = f64::from(parallel);
        let bears = |c: &&&wire::Conductor| rms / (c.area * count).mm2() <= DENSITY_A_PER_MM2;
        let Some(conductor) = wires.iter().find(bears) else {
            continue;
        };
        let Envelope::Round { outer } = conductor.envelope else {
            continue;
        };
        let wish = InductorWish {
            core: rebuild.core,
            steel: steel(&file.conditions),
            gaps: gaps(&file.core),
            conductor: Conductor {
                metal: conductor.metal,
                section: conductor.area * count,
                insulated_diameter: outer * count.sqrt(),
            },
            usable: Ratio::from_si(USABLE),
            inductance: asked,
            load,
            limit: LIMIT,
            temperature: Measured::new(Temperature::from_si(80.0), Temperature::from_si(30.0), Origin::Typical),
        };
        match ballast.map_or_else(|| wish.design(), |ballast| ballast.design(&wish)) {
            Ok(built) => {
                let found = told(file, answer, &built, conductor, parallel);
                return Some(found.ok_or_else(|| "This core gives no answer. Measure it first.".to_owned()));
            }
            Err(error) => trouble = Some(error),
        }
    }
    Some(Err(trouble.map_or_else(
        || {
            format!(
                "No wire here carries {rms:.0} A at {DENSITY_A_PER_MM2} A/mm², not even {MOST_PARALLEL} in parallel. \
                 Ask for less current."
            )
        },
        |error| sentence(&error.to_string()),
    )))
}

fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}.", letters.as_str())
}

fn told(
    file: &JobFile,
    answer: &Answer,
    built: &Inductor,
    conductor: &wire::Conductor,
    parallel: u32,
) -> Option<InductorAnswer> {
    let (_, propagated) = built.work_with_uncertainty()?;
    let shim = built.gaps.shim.value;
    let sheet = file
        .conditions
        .sheet_mm
        .map_or(Length::from_mm(0.1), |mm| Length::from_mm(mm.value));
    let crest = built.load.crest();
    let curve = built.inductance_curve(crest * 2.0, 25);
    let mut rows = numbers(InductorWork::FIELDS, InductorWork::UNITS, &propagated, ROWS);
    // What the faces leave open by themselves is open in the shim too: their doubt is the shim's.
    let shim = Estimate {
        value: shim,
        plus_minus: built.gaps.face.plus_minus,
    };
    rows.insert(0, single(("shim", "ui-shim", 1e-3, "mm"), shim));
    rows.push(exact(("crest", "ui-crest", 1.0, "A"), crest));
    Some(InductorAnswer {
        wire: answer.catalogue.label(conductor).to_owned(),
        parallel,
        turns: built.turns.value.si().round() as u32,
        sheets: sheets(shim.value, sheet),
        shim,
        sheet,
        asked: curve
            .iter()
            .min_by(|a, b| (a.0 - crest).si().abs().total_cmp(&(b.0 - crest).si().abs()))
            .map_or(Inductance::ZERO, |point| point.1),
        curve,
        numbers: rows,
        crest,
    })
}
