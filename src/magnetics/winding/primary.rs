//! The donor's primary: how many turns it has, by every test that the person made, and its
//! resistance.

use crate::magnetics::circuit::mains::MainsRating;
use crate::quantity::{
    Area, Current, Frequency, Input, Length, Mass, Measured, Origin, Resistance, Temperature, Turns, UncertainInputs,
    Visitor, Voltage,
};
use crate::wire::Metal;

/// A few turns wound round the tongue by hand, and what they gave.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TestTurn {
    /// Turns wound.
    pub turns: Turns,
    /// Volts across them.
    pub volts: Measured<Voltage>,
    /// Volts on the primary at the same time.
    pub primary_volts: Measured<Voltage>,
}

/// The old high-voltage winding used as a measure: its turns were counted as they came off, and
/// before that a low, isolated voltage on the primary gave so many volts on it (or the other
/// way round).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OldSecondary {
    /// Turns counted.
    pub turns: Measured<Turns>,
    /// Volts across it.
    pub volts: Measured<Voltage>,
    /// Volts on the primary at the same time.
    pub primary_volts: Measured<Voltage>,
}

/// Everything that tells of the number of primary turns.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct TurnsEvidence {
    /// A test turn.
    pub test_turn: Option<TestTurn>,
    /// Primary turns counted.
    pub counted: Option<Measured<Turns>>,
    /// The old secondary's ratio.
    pub old_secondary: Option<OldSecondary>,
}

/// Which test a number of turns comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Test {
    /// [`TurnsEvidence::test_turn`].
    TestTurn,
    /// [`TurnsEvidence::counted`].
    Counted,
    /// [`TurnsEvidence::old_secondary`].
    OldSecondary,
}

/// Why two tests may disagree, most likely first guess.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LikelyCause {
    /// One says about twice the other: the test turn went round an outer limb (half the flux),
    /// or once more or less than was thought.
    TestTurnMissesFlux,
    /// The test turn's own count is off by one.
    TestTurnMiscounted,
    /// A layer, or a few turns, were missed in counting.
    CountOff,
    /// Less than a tenth apart: a meter out of its range, or a mains voltage that was assumed
    /// and not measured.
    MeterOrMains,
}

impl LikelyCause {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            LikelyCause::TestTurnMissesFlux => "test_turn_misses_flux",
            LikelyCause::TestTurnMiscounted => "test_turn_miscounted",
            LikelyCause::CountOff => "count_off",
            LikelyCause::MeterOrMains => "meter_or_mains",
        }
    }
}

/// Two tests that disagree beyond their uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Disagreement {
    /// One test and the primary turns it gives.
    pub first: (Test, Turns),
    /// The other.
    pub second: (Test, Turns),
    /// The likely cause.
    pub cause: LikelyCause,
}

/// Primary turns, from all tests together.
#[derive(Debug, Clone, PartialEq)]
pub struct TurnsEstimate {
    /// The weighted mean.
    pub turns: Measured<Turns>,
    /// What each test gives by itself.
    pub by_test: Vec<(Test, Measured<Turns>)>,
    /// Tests that disagree.
    pub disagreements: Vec<Disagreement>,
}

impl TurnsEvidence {
    /// Primary turns from every test given, weighted by the inverse of their variances. Where
    /// the tests scatter more than their uncertainties allow, the mean's uncertainty is widened
    /// by the Birge ratio √(χ²/(n − 1)) (R. T. Birge, Phys. Rev. 40 (1932) 207).
    ///
    /// `None` where there is no test.
    #[must_use]
    pub fn primary_turns(&self) -> Option<TurnsEstimate> {
        let mut by_test = Vec::new();
        if let Some(test) = self.test_turn {
            by_test.push((
                Test::TestTurn,
                from_ratio(test.turns, 0.0, test.volts, test.primary_volts),
            ));
        }
        if let Some(counted) = self.counted {
            by_test.push((Test::Counted, counted));
        }
        if let Some(old) = self.old_secondary {
            let spread = old.turns.plus_minus / old.turns.value;
            by_test.push((
                Test::OldSecondary,
                from_ratio(old.turns.value, spread, old.volts, old.primary_volts),
            ));
        }
        by_test.retain(|(_, turns)| turns.value.si().is_finite() && turns.value.si() > 0.0);
        if by_test.is_empty() {
            return None;
        }
        let weight = |m: &Measured<Turns>| 1.0 / m.sigma_si().max(1e-3 * m.value.si()).powi(2);
        let total: f64 = by_test.iter().map(|(_, m)| weight(m)).sum();
        let mean: f64 = by_test.iter().map(|(_, m)| weight(m) * m.value.si()).sum::<f64>() / total;
        let chi2: f64 = by_test
            .iter()
            .map(|(_, m)| weight(m) * (m.value.si() - mean).powi(2))
            .sum();
        let birge = if by_test.len() > 1 {
            (chi2 / (by_test.len() as f64 - 1.0)).sqrt().max(1.0)
        } else {
            1.0
        };
        let sigma = birge / total.sqrt();
        Some(TurnsEstimate {
            turns: Measured::new(Turns::from_si(mean), Turns::from_si(2.0 * sigma), Origin::Computed),
            disagreements: disagreements(&by_test),
            by_test,
        })
    }
}

/// Primary turns from a winding of `turns` with `volts` across it while the primary has
/// `primary_volts`: N = n `V_p` / V, relative uncertainties added in squares.
fn from_ratio(turns: Turns, spread: f64, volts: Measured<Voltage>, primary: Measured<Voltage>) -> Measured<Turns> {
    let value = turns * (primary.value / volts.value);
    let relative =
        (spread.powi(2) + (volts.plus_minus / volts.value).powi(2) + (primary.plus_minus / primary.value).powi(2))
            .sqrt();
    Measured::new(value, value * relative, Origin::Computed)
}

fn disagreements(by_test: &[(Test, Measured<Turns>)]) -> Vec<Disagreement> {
    let mut found = Vec::new();
    for (i, (test_a, a)) in by_test.iter().enumerate() {
        for (test_b, b) in &by_test[i + 1..] {
            let apart = (a.value - b.value).abs();
            let allowed = (a.plus_minus.si().powi(2) + b.plus_minus.si().powi(2)).sqrt();
            if apart.si() > allowed {
                let cause = likely_cause((*test_a, a.value), (*test_b, b.value));
                found.push(Disagreement {
                    first: (*test_a, a.value),
                    second: (*test_b, b.value),
                    cause,
                });
            }
        }
    }
    found
}

fn likely_cause(a: (Test, Turns), b: (Test, Turns)) -> LikelyCause {
    let ratio = (a.1 / b.1).max(b.1 / a.1);
    let with_test_turn = a.0 == Test::TestTurn || b.0 == Test::TestTurn;
    if ratio < 1.1 {
        LikelyCause::MeterOrMains
    } else if with_test_turn && (1.85..2.15).contains(&ratio) {
        LikelyCause::TestTurnMissesFlux
    } else if with_test_turn && ratio > 1.15 && a.0 != Test::Counted && b.0 != Test::Counted {
        LikelyCause::TestTurnMiscounted
    } else {
        LikelyCause::CountOff
    }
}

/// The primary as it stays in the core.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Primary {
    /// Its metal; aluminium is common.
    pub metal: Metal,
    /// Turns, from [`TurnsEvidence::primary_turns`].
    pub turns: Measured<Turns>,
    /// Bare diameter of its wire.
    pub wire_diameter: Measured<Length>,
    /// How much of the window's height it takes, along the limb.
    pub height: Measured<Length>,
    /// How much of the window's width it takes.
    pub build: Measured<Length>,
    /// Resistance where it was measured, with the temperature it had.
    pub resistance: Option<(Measured<Resistance>, Temperature)>,
    /// No-load current at rated mains where it was measured.
    pub idle_current: Option<Measured<Current>>,
    /// What the donor was made for.
    pub rated: MainsRating,
}

impl Primary {
    /// Section of its wire.
    #[must_use]
    pub fn wire_area(&self) -> Area {
        self.wire_diameter.value * self.wire_diameter.value * std::f64::consts::FRAC_PI_4
    }

    /// Length of its wire: turns × `mean_turn`.
    #[must_use]
    pub fn wire_length(&self, mean_turn: Length) -> Length {
        mean_turn * self.turns.value.si()
    }

    /// Mass of its metal.
    #[must_use]
    pub fn mass(&self, mean_turn: Length) -> Mass {
        self.metal.density() * (self.wire_area() * self.wire_length(mean_turn))
    }

    /// Resistance at a temperature: the measured one carried there by the metal's coefficient,
    /// else from turns, mean turn and wire section.
    #[must_use]
    pub fn resistance_at(&self, mean_turn: Length, at: Temperature) -> Resistance {
        match self.resistance {
            Some((measured, cold)) => measured.value * (self.metal.resistivity(at) / self.metal.resistivity(cold)),
            None => {
                let ohms = self.metal.resistivity(at).si() * self.wire_length(mean_turn).si() / self.wire_area().si();
                Resistance::from_si(ohms)
            }
        }
    }
}

impl UncertainInputs for Primary {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.turns.visit(Input::PrimaryTurns, visitor);
        self.wire_diameter.visit(Input::PrimaryWire, visitor);
        self.height.visit(Input::PrimaryHeight, visitor);
        self.build.visit(Input::PrimaryBuild, visitor);
        if let Some((resistance, _)) = &mut self.resistance {
            resistance.visit(Input::PrimaryResistance, visitor);
        }
        if let Some(idle) = &mut self.idle_current {
            idle.visit(Input::IdleCurrent, visitor);
        }
    }
}

/// How the flux density stands when the donor runs on given mains.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FluxVerdict {
    /// At or below what the donor was made for, or with room to the knee.
    Fine,
    /// Above [`FLUX_WARN`] and above the donor's own rating: hot and humming.
    High,
    /// Above [`FLUX_REFUSE`] on the donor's own mains: possible, but its no-load current would be heavy.
    Doubtful,
    /// Above [`FLUX_REFUSE`] on mains that it was not made for: it saturates.
    Saturates,
    /// Above what lamination steel can do on the donor's own mains: area or turns are wrong.
    Impossible,
}

impl FluxVerdict {
    /// The word that files use.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            FluxVerdict::Fine => "fine",
            FluxVerdict::Doubtful => "doubtful",
            FluxVerdict::High => "high",
            FluxVerdict::Saturates => "saturates",
            FluxVerdict::Impossible => "impossible",
        }
    }
}

/// Peak flux density above which another mains is warned of, 1.65 T: past the knee of poor
/// lamination steel (M800-50A needs 2500 A/m at 1.64 T; Modelica Standard Library 4.0,
/// SoftMagnetic.RawData).
pub const FLUX_WARN: f64 = 1.65;
/// Peak flux density above which other mains are refused, and the donor's own are doubted, 1.80 T: the
/// same steel needs 7300 A/m there (pyleecan, Data/Material/M800-50A.json), which drives a no-load current of
/// well over 10 A peak through a hundred turns on 0.2 m of steel.
pub const FLUX_REFUSE: f64 = 1.80;
/// Peak flux density above which measurements must be wrong, 2.05 T: saturation polarization of
/// 2 to 3 % silicon steel is 2.0 to 2.05 T (Bozorth, Ferromagnetism, from memory).
pub const FLUX_IMPOSSIBLE: f64 = 2.05;

/// Judges the flux density on the mains at hand against that on the donor's own mains.
/// Flux goes with volts over hertz.
#[must_use]
pub fn judge_flux(density: f64, mains: (Voltage, Frequency), rated: MainsRating) -> FluxVerdict {
    let stress = (mains.0.si() / mains.1.si()) / (rated.voltage.si() / rated.frequency.si());
    if density / stress > FLUX_IMPOSSIBLE {
        FluxVerdict::Impossible
    } else if stress > 1.06 && density > FLUX_REFUSE {
        FluxVerdict::Saturates
    } else if density > FLUX_REFUSE || density / stress > FLUX_REFUSE {
        FluxVerdict::Doubtful
    } else if stress > 1.02 && density > FLUX_WARN {
        FluxVerdict::High
    } else {
        FluxVerdict::Fine
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn volts(v: f64, pm: f64) -> Measured<Voltage> {
        Measured::new(Voltage::from_si(v), Voltage::from_si(pm), Origin::Meter)
    }
    fn turns(n: f64, pm: f64) -> Measured<Turns> {
        Measured::new(Turns::from_si(n), Turns::from_si(pm), Origin::Counted)
    }

    /// A field of 7300 A/m at 1.8 T (pyleecan, M800-50A, the steel that saturates last of those listed) is no
    /// ordinary no-load current, on whatever mains: 0.2 m of it take 1460 ampere-turns.
    #[test]
    fn deep_saturation_is_never_fine() {
        let own = MainsRating {
            voltage: Voltage::from_si(120.0),
            frequency: Frequency::from_si(60.0),
        };
        let on = |density, volts| judge_flux(density, (Voltage::from_si(volts), own.frequency), own);
        assert_eq!(on(1.60, 120.0), FluxVerdict::Fine);
        assert_eq!(on(1.79, 120.0), FluxVerdict::Fine);
        assert_eq!(on(1.81, 120.0), FluxVerdict::Doubtful);
        assert_eq!(on(2.04, 120.0), FluxVerdict::Doubtful);
        assert_eq!(on(2.06, 120.0), FluxVerdict::Impossible);
        assert_eq!(on(1.81, 126.0), FluxVerdict::Doubtful);
        assert_eq!(on(1.81, 132.0), FluxVerdict::Saturates);
        let worst = crate::magnetics::core::steel::Magnetisation::of(
            crate::magnetics::core::steel_grades::SteelGrade::M800_50A,
        );
        let field = worst.field(crate::quantity::FluxDensity::from_si(FLUX_REFUSE)).si();
        assert!((field / 7300.0 - 1.0).abs() < 0.2, "{field}");
    }

    #[test]
    fn tests_that_agree_are_weighted() {
        let evidence = TurnsEvidence {
            test_turn: Some(TestTurn {
                turns: Turns::from_si(10.0),
                volts: volts(10.0, 0.1),
                primary_volts: volts(118.0, 0.5),
            }),
            counted: Some(turns(117.0, 2.0)),
            old_secondary: None,
        };
        let got = evidence.primary_turns().unwrap();
        assert!(got.disagreements.is_empty());
        assert!(got.turns.value.si() > 117.0 && got.turns.value.si() < 118.0);
        assert!(got.turns.plus_minus.si() < 1.3, "two tests are better than one");
    }

    #[test]
    fn round_an_outer_limb_is_half_the_flux() {
        let evidence = TurnsEvidence {
            test_turn: Some(TestTurn {
                turns: Turns::from_si(1.0),
                volts: volts(0.5, 0.01),
                primary_volts: volts(118.0, 0.5),
            }),
            counted: Some(turns(117.0, 2.0)),
            old_secondary: None,
        };
        let got = evidence.primary_turns().unwrap();
        assert_eq!(got.disagreements.len(), 1);
        assert_eq!(got.disagreements[0].cause, LikelyCause::TestTurnMissesFlux);
        assert!(got.turns.plus_minus.si() > 2.0, "a disagreement widens the answer");
    }

    #[test]
    fn moved_mains() {
        let us = MainsRating {
            voltage: Voltage::from_si(120.0),
            frequency: Frequency::from_si(60.0),
        };
        let eu = (Voltage::from_si(230.0), Frequency::from_si(50.0));
        let home = (Voltage::from_si(120.0), Frequency::from_si(60.0));
        let japan = (Voltage::from_si(100.0), Frequency::from_si(50.0));
        assert_eq!(judge_flux(1.6, home, us), FluxVerdict::Fine);
        assert_eq!(judge_flux(1.6 * 2.3, eu, us), FluxVerdict::Saturates);
        assert_eq!(judge_flux(1.6, japan, us), FluxVerdict::Fine);
        assert_eq!(judge_flux(2.2, home, us), FluxVerdict::Impossible);
    }
}
