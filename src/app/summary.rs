//! What the measures of a core say by themselves, before any winding.

use super::basis::Basis;
use crate::magnetics::circuit::performance::Rebuild;
use crate::magnetics::core::induction::{peak_flux_density, per_turn};
use crate::magnetics::winding::primary::{FluxVerdict, LikelyCause, Test};
use crate::quantity::{VarianceShare, first_order, format_with_spread, widening_inputs};

/// One number with its half-width.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// What it is.
    pub label: &'static str,
    /// Value.
    pub value: String,
    /// Half-width at about 95 %.
    pub plus_minus: String,
    /// Unit.
    pub unit: &'static str,
    /// Its name in the texts on numbers.
    pub about: &'static str,
    /// What widens it, most first.
    pub variance_shares: Vec<VarianceShare>,
}

/// What is summed up: name in the texts on numbers, label, unit.
pub const LABELS: [(&str, &str, &str); 8] = [
    ("primary-turns", "Primary turns", ""),
    ("volts-per-turn", "Volts per turn", "V"),
    ("flux-density", "Peak flux density", "T"),
    ("net-area", "Net steel area", "cm²"),
    ("window-area", "Window area", "cm²"),
    ("path", "Magnetic path", "mm"),
    ("mean-turn", "Mean turn, full window", "mm"),
    ("mass", "Mass of steel, computed", "kg"),
];

/// The summary.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Numbers.
    pub rows: Vec<Row>,
    /// What the flux means on these mains.
    pub flux: &'static str,
    /// True where the mains must not be put on.
    pub flux_is_danger: bool,
    /// Tests that disagree, with the likely cause.
    pub disagreements: Vec<String>,
    /// What is assumed.
    pub assumed: Vec<&'static str>,
}

/// Sums up the measures.
#[must_use]
pub fn summary(answer: &Basis) -> Summary {
    let rebuild = &answer.problem.rebuild;
    let numbers = |moved: &Rebuild| {
        let e = per_turn(moved.mains.voltage.value, moved.primary.turns.value);
        let area = moved.core.net_area();
        Some([
            moved.primary.turns.value.si(),
            e.si(),
            peak_flux_density(e, moved.mains.frequency, area).si(),
            area.cm2(),
            moved.core.window_area().cm2(),
            moved.core.path_length().mm(),
            moved.core.mean_turn().mm(),
            moved.core.computed_mass().si(),
        ])
    };
    let rows = first_order(rebuild, numbers).map_or_else(Vec::new, |got| {
        LABELS
            .iter()
            .zip(got.value.iter().zip(got.sigma))
            .enumerate()
            .map(|(at, ((about, label, unit), (value, sigma)))| {
                let (value, plus_minus) = format_with_spread(*value, 2.0 * sigma);
                Row {
                    label,
                    value,
                    plus_minus,
                    unit,
                    about,
                    variance_shares: widening_inputs(&got, at),
                }
            })
            .collect()
    });
    Summary {
        rows,
        flux: flux_text(answer.flux),
        flux_is_danger: matches!(answer.flux, FluxVerdict::Saturates | FluxVerdict::Impossible),
        disagreements: answer
            .problem
            .turns
            .iter()
            .flat_map(|turns| &turns.disagreements)
            .map(|d| {
                format!(
                    "{} gives {:.0} primary turns, {} gives {:.0}. Likely: {}",
                    test_label(d.first.0),
                    d.first.1.si(),
                    test_label(d.second.0),
                    d.second.1.si(),
                    cause_text(d.cause)
                )
            })
            .collect(),
        assumed: answer.problem.assumed.iter().map(|assumed| assumed.text()).collect(),
    }
}

const fn flux_text(verdict: FluxVerdict) -> &'static str {
    match verdict {
        FluxVerdict::Fine => "The flux is what such cores are made for.",
        FluxVerdict::High => {
            "These mains drive the core harder than its own did: it hums, runs hot and draws more no-load current."
        }
        FluxVerdict::Doubtful => {
            "Such steel carries this flux only with a heavy no-load current. Measure tongue and stack again, find the primary turns by a second way, and test behind a lamp first."
        }
        FluxVerdict::Saturates => {
            "Stop: on these mains the core saturates and the primary burns. Use mains with the volts per hertz that the donor was made for."
        }
        FluxVerdict::Impossible => {
            "No steel carries this flux. Measure tongue and stack again, and find the primary turns by a second way."
        }
    }
}

const fn test_label(test: Test) -> &'static str {
    match test {
        Test::TestTurn => "The test turn",
        Test::Counted => "Counting",
        Test::OldSecondary => "The old secondary",
    }
}

const fn cause_text(cause: LikelyCause) -> &'static str {
    match cause {
        LikelyCause::TestTurnMissesFlux => {
            "the test turn went round an outer limb, which carries half the flux, or through one window only."
        }
        LikelyCause::TestTurnMiscounted => {
            "the test turns are one more or less than was thought: each pass through the window is a turn."
        }
        LikelyCause::CountOff => "a layer, or some turns, were missed in counting.",
        LikelyCause::MeterOrMains => {
            "a meter out of its range, or a voltage that was assumed and not measured at the same moment."
        }
    }
}
