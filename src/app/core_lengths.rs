//! The lengths of a core that are measured on its drawing, and which of them to measure next.

use super::evaluation::Evaluation;
use super::summary::MeasuresNumber;
use crate::job::fields::{self, Field};
use crate::job::{Held, JobFile, Places};
use crate::magnetics::circuit::performance::{PerformanceNumber, Rebuild};
use crate::quantity::{Input, Length, Number, NumberKind, Origin};

/// A length on the drawing of the core.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoreLength {
    /// Width of the tongue.
    Tongue,
    /// Height of the pile of laminations.
    Stack,
    /// Window, from the tongue to the outer limb.
    WindowWidth,
    /// Window, from yoke to yoke.
    WindowHeight,
    /// Width of an outer limb.
    OuterLimb,
    /// Width of a yoke.
    Yoke,
    /// How far the primary reaches along the limb.
    PrimaryHeight,
    /// From the tongue to the outside of the primary.
    PrimaryBuild,
}

impl CoreLength {
    /// All of them, in the order of a keyboard: along the drawing from top to bottom.
    pub const ALL: [CoreLength; 8] = [
        CoreLength::Yoke,
        CoreLength::Stack,
        CoreLength::PrimaryBuild,
        CoreLength::WindowHeight,
        CoreLength::PrimaryHeight,
        CoreLength::OuterLimb,
        CoreLength::WindowWidth,
        CoreLength::Tongue,
    ];

    /// The field's path in a job file.
    #[must_use]
    pub const fn path(self) -> &'static str {
        match self {
            CoreLength::Tongue => "core.tongue_mm",
            CoreLength::Stack => "core.stack_mm",
            CoreLength::WindowWidth => "core.window_width_mm",
            CoreLength::WindowHeight => "core.window_height_mm",
            CoreLength::OuterLimb => "core.outer_limb_mm",
            CoreLength::Yoke => "core.yoke_mm",
            CoreLength::PrimaryHeight => "core.primary.height_mm",
            CoreLength::PrimaryBuild => "core.primary.build_mm",
        }
    }

    /// The input of the computation that it is.
    #[must_use]
    pub const fn input(self) -> Input {
        match self {
            CoreLength::Tongue => Input::Tongue,
            CoreLength::Stack => Input::Stack,
            CoreLength::WindowWidth => Input::WindowWidth,
            CoreLength::WindowHeight => Input::WindowHeight,
            CoreLength::OuterLimb => Input::OuterLimb,
            CoreLength::Yoke => Input::Yoke,
            CoreLength::PrimaryHeight => Input::PrimaryHeight,
            CoreLength::PrimaryBuild => Input::PrimaryBuild,
        }
    }

    /// Its row of the field table.
    #[must_use]
    pub fn field(self) -> Option<&'static Field> {
        fields::find(self.path())
    }

    /// The value that the computation has for it: measured, or usual.
    #[must_use]
    pub const fn used(self, rebuild: &Rebuild) -> Length {
        let (core, primary) = (&rebuild.core, &rebuild.primary);
        match self {
            CoreLength::Tongue => core.tongue.value,
            CoreLength::Stack => core.stack.value,
            CoreLength::WindowWidth => core.window_width.value,
            CoreLength::WindowHeight => core.window_height.value,
            CoreLength::OuterLimb => core.outer_limb.value,
            CoreLength::Yoke => core.yoke.value,
            CoreLength::PrimaryHeight => primary.height.value,
            CoreLength::PrimaryBuild => primary.build.value,
        }
    }

    /// True where somebody measured it.
    #[must_use]
    pub fn is_measured(self, file: &JobFile) -> bool {
        matches!(file.get(self.path()), Some(Held::Reading(reading)) if reading.origin != Origin::Typical)
    }
}

/// The length to measure next, and what that brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MeasureNext {
    /// The length.
    pub length: CoreLength,
    /// The number of the answer that it narrows.
    pub number: NumberKind,
    /// Half-width (k = 2) of that number in its SI unit: now, and once the length is measured with
    /// calipers and its value is confirmed.
    pub half_width: (f64, f64),
}

/// The least part of a half-width that is worth a measurement.
const WORTH: f64 = 0.02;

/// The length whose measuring with calipers would narrow the answer most; `None` where none would narrow it
/// by 2 % or more. Where the working current has wider causes, flux density and window area decide.
#[must_use]
pub fn measure_next(answer: &Evaluation) -> Option<MeasureNext> {
    numbers_of_answer(answer).iter().find_map(narrowed_most)
}

/// The length that narrows a number most.
///
/// Of a number's variance an input brings its share; with a smaller ± of the input that part falls with the
/// square of the ± (JCGM 100:2008, 5.1.2, equation 10).
fn narrowed_most(number: &Number) -> Option<MeasureNext> {
    let now = number.si.1;
    let narrowed = |length: CoreLength| {
        let share = number
            .variance_shares
            .iter()
            .find(|share| share.input == length.input())?;
        let (value, half_width) = share.value?.si;
        let field = length.field()?;
        // The table counts lengths in millimetres.
        let tool = field.usual_plus_minus(value * 1e3, Origin::Calipers) * 1e-3;
        let saved = share.share * (1.0 - (tool / half_width).powi(2));
        (tool < half_width).then(|| MeasureNext {
            length,
            number: number.kind,
            half_width: (now, now * (1.0 - saved).max(0.0).sqrt()),
        })
    };
    CoreLength::ALL
        .into_iter()
        .filter_map(narrowed)
        .filter(|next| next.half_width.1 < (1.0 - WORTH) * now)
        .min_by(|a, b| a.half_width.1.total_cmp(&b.half_width.1))
}

/// The numbers that a person wants to know, most wanted first: the working current, of a choke or ballast its
/// inductance, then flux density and window area.
fn numbers_of_answer(answer: &Evaluation) -> Vec<Number> {
    let mut numbers = Vec::new();
    numbers.extend(
        answer
            .design
            .as_ref()
            .map(|design| design.number(PerformanceNumber::WorkingCurrent)),
    );
    if let Some(Ok(inductor)) = answer.inductor() {
        let told = |number: &&Number| !number.variance_shares.is_empty();
        numbers.extend(inductor.numbers.iter().find(told).cloned());
    }
    for wanted in [MeasuresNumber::FluxDensity, MeasuresNumber::WindowArea] {
        let rows = &answer.summary().rows;
        numbers.extend(rows.iter().find(|number| number.kind == wanted.kind()).cloned());
    }
    numbers
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::basis::as_choice;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of, new_job};
    use crate::job::{Entered, Reading};
    use crate::magnetics::circuit::mains::OUTLETS;

    /// What is foretold, against the whole evaluation done again with the measured length: the winding in hand is
    /// held, the value stays, its ± becomes the calipers'.
    #[test]
    fn what_a_measurement_brings_is_what_it_brought() {
        let mut seen = 0;
        for word in ["spot_welder", "plain_supply", "battery_charger", "choke"] {
            let mut file = new_job("new", &OUTLETS[0]);
            file.goal = goal_of(word);
            for _ in 0..4 {
                let before = evaluate(&file).unwrap();
                if let (None, Some(design)) = (&file.choice, &before.design) {
                    file.choice = Some(as_choice(&design.candidate, &before.problem.rebuild, &before.catalogue));
                }
                let Some(next) = measure_next(&before) else { break };
                let mm = next.length.used(&before.problem.rebuild).mm();
                let field = next.length.field().unwrap();
                let half_width = field.usual_plus_minus(mm, Origin::Calipers);
                let reading = Reading::new(mm, half_width, Origin::Calipers);
                assert!(!next.length.is_measured(&file));
                assert!(file.put(next.length.path(), Some(Entered::Reading(reading))));
                assert!(next.length.is_measured(&file));
                let after = evaluate(&file).unwrap();
                let found = numbers_of_answer(&after)
                    .iter()
                    .find(|number| number.kind == next.number)
                    .unwrap()
                    .si
                    .1;
                let (now, then) = next.half_width;
                assert!(
                    (found / then - 1.0).abs() < 0.03 && then < now,
                    "{word}, {:?}: ± {now} now, ± {then} foretold, ± {found} found",
                    next.length
                );
                seen += 1;
            }
        }
        assert!(seen >= 14, "{seen}");
    }

    /// By hand: with no winding the flux density is B = V / (√2 π f N t s k), so that the wider of tongue and
    /// stack, relative to its size, is the one to measure.
    #[test]
    fn without_a_winding_the_flux_density_decides() {
        let mut file = demo_job();
        file.goal = goal_of("spot_welder");
        if let crate::job::Goal::SpotWelder { weld_current_a, .. } = &mut file.goal {
            *weld_current_a = 10_000.0;
        }
        file.choice = None;
        file.core.stack_mm.plus_minus = 14.0;
        let goal = file.goal;
        file.conditions.want_as_much(&goal, false);
        let answer = evaluate(&file).unwrap();
        assert!(answer.design.is_none());
        assert_eq!(measure_next(&answer).unwrap().length, CoreLength::Stack);
    }

    /// What is measured as well as calipers measure is not asked for again.
    #[test]
    fn nothing_is_asked_for_where_nothing_narrows_the_answer() {
        let mut file = demo_job();
        for length in CoreLength::ALL {
            let mm = length.used(&evaluate(&file).unwrap().problem.rebuild).mm();
            let half_width = length.field().unwrap().usual_plus_minus(mm, Origin::Calipers);
            let reading = Reading::new(mm, half_width, Origin::Calipers);
            assert!(file.put(length.path(), Some(Entered::Reading(reading))));
        }
        assert_eq!(measure_next(&evaluate(&file).unwrap()), None);
    }
}
