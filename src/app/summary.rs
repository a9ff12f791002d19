//! What the measures of a core say by themselves, before any winding.

use super::basis::Basis;
use crate::magnetics::circuit::performance::Rebuild;
use crate::magnetics::core::induction::{peak_flux_density, per_turn};
use crate::magnetics::winding::primary::{FluxVerdict, LikelyCause, Test};
use crate::quantity::{Area, FluxDensity, Length, Mass, Number, Turns, VoltsPerTurn, estimates, propagate};
use crate::words::Message;

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
    /// The id of what the flux means on these mains.
    pub flux: &'static str,
    /// True where the mains must not be put on.
    pub flux_is_danger: bool,
    /// Tests that disagree, with the likely cause.
    pub disagreements: Vec<Message>,
    /// The ids of what is assumed.
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
    let rows = propagate(rebuild, measures).map_or_else(Vec::new, |found| {
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
                Message::new("summary-disagreement")
                    .within("first", Message::new(test_text(d.first.0)))
                    .with("first-turns", format!("{:.0}", d.first.1.si()))
                    .within("second", Message::new(test_text(d.second.0)))
                    .with("second-turns", format!("{:.0}", d.second.1.si()))
                    .within("cause", Message::new(cause_text(d.cause)))
            })
            .collect(),
        assumed: answer.problem.assumed.iter().map(|assumed| assumed.key()).collect(),
    }
}

const fn flux_text(verdict: FluxVerdict) -> &'static str {
    match verdict {
        FluxVerdict::Fine => "summary-flux-fine",
        FluxVerdict::High => "summary-flux-high",
        FluxVerdict::Doubtful => "summary-flux-doubtful",
        FluxVerdict::Saturates => "summary-flux-saturates",
        FluxVerdict::Impossible => "summary-flux-impossible",
    }
}

const fn test_text(test: Test) -> &'static str {
    match test {
        Test::TestTurn => "summary-turns-by-test-turn",
        Test::Counted => "summary-turns-by-counted",
        Test::OldSecondary => "summary-turns-by-old-secondary",
    }
}

const fn cause_text(cause: LikelyCause) -> &'static str {
    match cause {
        LikelyCause::TestTurnMissesFlux => "summary-turns-cause-test-turn-misses-flux",
        LikelyCause::TestTurnMiscounted => "summary-turns-cause-test-turn-miscounted",
        LikelyCause::CountOff => "summary-turns-cause-count-off",
        LikelyCause::MeterOrMains => "summary-turns-cause-meter-or-mains",
    }
}
