//! What the measures of a core say by themselves, before any winding.

use super::basis::Basis;
use crate::magnetics::circuit::performance::Rebuild;
use crate::magnetics::core::induction::{peak_flux_density, per_turn};
use crate::magnetics::winding::primary::{FluxVerdict, LikelyCause, Test};
use crate::quantity::{Area, FluxDensity, Length, Mass, Number, Turns, VoltsPerTurn, estimates, first_order};

estimates! {
    /// What the measures of a core and its primary come to.
    pub struct Measures / MeasuresEstimate / MeasuresNumber {
        /// Turns of the primary.
        primary_turns: Turns [PrimaryTurns, COUNT, "measures-primary-turns", 4],
        /// Volts r.m.s. in each turn.
        volts_per_turn: VoltsPerTurn [VoltsPerTurn, V, "measures-volts-per-turn", 4],
        /// Peak flux density in the tongue.
        flux_density: FluxDensity [FluxDensity, T, "measures-flux-density", 4],
        /// Steel in the tongue's section.
        net_area: Area [NetArea, CM2, "measures-net-area", 4],
        /// One window.
        window_area: Area [WindowArea, CM2, "measures-window-area", 4],
        /// Magnetic path, once round a window.
        path: Length [Path, MM, "measures-path", 4],
        /// Mean turn of a full window.
        mean_turn: Length [MeanTurn, MM, "measures-mean-turn", 4],
        /// Steel of the core.
        mass: Mass [Mass, KG, "measures-mass", 4],
    }
}

/// The summary.
#[derive(Debug, Clone, PartialEq)]
pub struct Summary {
    /// Numbers.
    pub rows: Vec<Number>,
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
    let measures = |moved: &Rebuild| {
        let volts_per_turn = per_turn(moved.mains.voltage.value, moved.primary.turns.value);
        let net_area = moved.core.net_area();
        let measures = Measures {
            primary_turns: moved.primary.turns.value,
            volts_per_turn,
            flux_density: peak_flux_density(volts_per_turn, moved.mains.frequency, net_area),
            net_area,
            window_area: moved.core.window_area(),
            path: moved.core.path_length(),
            mean_turn: moved.core.mean_turn(),
            mass: moved.core.computed_mass(),
        };
        Some(measures.to_si())
    };
    let rows = first_order(rebuild, measures).map_or_else(Vec::new, |found| {
        MeasuresNumber::ALL.iter().map(|number| number.of(&found)).collect()
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
