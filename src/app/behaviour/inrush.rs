//! What flows when the switch closes at a bad instant, and which breaker holds it.

use super::{Number, Row, gaps, mains_loop, numbers, primary_resistance, steel};
use crate::app::answer::Answer;
use crate::job::JobFile;
use crate::magnetics::inrush::{BreakerCurve, FirstPeak, FirstPeakEstimate, Inrush, Tripping, typical_remanence};
use crate::quantity::{Angle, Current, Measured, Origin, Resistance, Temperature, UncertainInputs, first_order};

const ROWS: &[Row] = &[
    ("peak", "ui-inrush-peak", 1.0, "A"),
    ("density", "ui-inrush-density", 1.0, "T"),
];

/// The first peak.
#[derive(Debug, Clone, PartialEq)]
pub struct InrushAnswer {
    /// Its numbers, at the worst instant.
    pub numbers: Vec<Number>,
    /// First peak against the instant of closing, from the zero of the rising voltage on.
    pub by_angle: Vec<(Angle, Current)>,
    /// Rating of the breaker.
    pub rating: Current,
    /// What each class of breaker does, at the likely peak and at the high end of its range.
    pub breakers: Vec<(BreakerCurve, Tripping, Tripping)>,
    /// The quickest class that holds at the high end of the range.
    pub holds: Option<BreakerCurve>,
}

fn inrush_of(file: &JobFile, answer: &Answer) -> Inrush {
    let rebuild = &answer.problem.rebuild;
    let primary = primary_resistance(answer, Temperature::from_si(20.0));
    let mains = mains_loop(file, answer);
    Inrush {
        core: rebuild.core,
        steel: steel(&file.conditions),
        gaps: gaps(&file.core),
        turns: rebuild.primary.turns,
        voltage: rebuild.mains.voltage,
        frequency: rebuild.mains.frequency,
        resistance: Measured::new(
            primary.value + mains.value,
            Resistance::from_si(primary.plus_minus.si().hypot(mains.plus_minus.si())),
            Origin::Computed,
        ),
        remanence: typical_remanence(),
    }
}

/// What of it is uncertain enough to matter.
#[derive(Clone)]
struct Uncertain(Inrush);

impl UncertainInputs for Uncertain {
    fn visit(&mut self, visitor: &mut dyn FnMut(&'static str, &mut f64, f64)) {
        let inrush = &mut self.0;
        inrush.core.stacking_factor.visit("stacking factor", visitor);
        inrush.steel.field_factor.visit("steel magnetisation", visitor);
        inrush.turns.visit("turns", visitor);
        inrush.voltage.visit("mains voltage", visitor);
        inrush.resistance.visit("loop resistance", visitor);
        inrush.remanence.visit("remanence", visitor);
    }
}

/// The first peak of a job's primary on its mains; none where its numbers give none.
#[must_use]
pub fn inrush(file: &JobFile, answer: &Answer) -> Option<InrushAnswer> {
    let inrush = inrush_of(file, answer);
    // The angle of the best inputs stands for all: at the worst angle the peak is stationary.
    let switching = inrush.switching();
    let angle = inrush.worst_first_peak_on(&switching)?.closing_angle;
    let propagated = first_order(&Uncertain(inrush), |Uncertain(inrush)| {
        inrush.first_peak_on(&switching, angle).map(|peak| peak.to_si())
    })?;
    let estimate = FirstPeakEstimate::from_propagated(&propagated);
    let rating = answer.problem.rebuild.mains.breaker;
    let (likely, high) = (estimate.peak.value, estimate.peak.high());
    Some(InrushAnswer {
        numbers: numbers(FirstPeak::FIELDS, FirstPeak::UNITS, &propagated, ROWS),
        by_angle: (0..=12)
            .map(|k| Angle::from_degrees(15.0 * f64::from(k)))
            .filter_map(|angle| Some((angle, inrush.first_peak_on(&switching, angle)?.peak)))
            .collect(),
        rating,
        breakers: BreakerCurve::ALL
            .into_iter()
            .map(|class| {
                (
                    class,
                    class.at_first_peak(rating, likely),
                    class.at_first_peak(rating, high),
                )
            })
            .collect(),
        holds: BreakerCurve::that_holds(rating, high),
    })
}
