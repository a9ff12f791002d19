//! Temperatures of a load cycle that repeats itself.

use nalgebra::{Matrix3, Vector3};

use crate::magnetics::heat::RUNAWAY;
use crate::magnetics::heat::duty::DutyQuestion;
use crate::magnetics::heat::network::{Network, Temperatures};
use crate::magnetics::heat::step::{Warming, inverse};
use crate::quantity::{Ratio, Time};

/// What one search for a repeating cycle leaves to the next: where its cycle began, and how the
/// beginning moves with a miss.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct PeriodicGuess {
    start: Option<[f64; 3]>,
    gain: Option<Matrix3<f64>>,
}

/// How far the temperatures may be off after a whole cycle, in kelvins.
const CLOSED: f64 = 0.02;

impl Network {
    /// Temperatures at the end of the load once the cycle repeats itself: the start that a cycle
    /// comes back to within 0.02 K, found by shooting (Newton's method on `end − start`, its
    /// matrix by differences over one cycle and kept while it serves; any text on boundary value
    /// problems). `None` if it runs away.
    #[must_use]
    pub fn repeated_peak(&self, question: &DutyQuestion, duty: Ratio, period: Time) -> Option<Temperatures> {
        self.warming()
            .repeated_peak(question, duty, period, &mut PeriodicGuess::default())
    }
}

impl Warming {
    /// [`Network::repeated_peak`] with the help of an earlier search.
    pub(super) fn repeated_peak(
        &self,
        question: &DutyQuestion,
        duty: Ratio,
        period: Time,
        guess: &mut PeriodicGuess,
    ) -> Option<Temperatures> {
        let on = period.si() * duty.si();
        let cycle = |start: [f64; 3]| {
            let peak = self.after(start, &question.on, on);
            (peak, self.after(peak, &question.pause, period.si() - on))
        };
        let mut start = match guess.start {
            Some(start) => start,
            None => self
                .network
                .steady(&question.on.averaged(duty, &question.pause))?
                .array(),
        };
        let mut before = f64::INFINITY;
        for _ in 0..40 {
            let (peak, end) = cycle(start);
            let miss: [f64; 3] = std::array::from_fn(|k| end[k] - start[k]);
            let largest = miss.iter().fold(0.0_f64, |most, m| most.max(m.abs()));
            if !(largest.is_finite() && Temperatures::of(peak).hottest() < RUNAWAY) {
                *guess = PeriodicGuess::default();
                return None;
            }
            if largest < CLOSED {
                guess.start = Some(start);
                return Some(Temperatures::of(peak));
            }
            if largest > 0.5 * before {
                guess.gain = None;
            }
            before = largest;
            let gain = *guess.gain.get_or_insert_with(|| {
                // (1 − M)⁻¹, the columns of M by a kelvin more in each lump.
                let columns = [0, 1, 2].map(|column| {
                    let mut moved = start;
                    moved[column] += 1.0;
                    let (_, other) = cycle(moved);
                    Vector3::from(other) - Vector3::from(end)
                });
                inverse(Matrix3::identity() - Matrix3::from_columns(&columns))
            });
            start = (Vector3::from(start) + gain * Vector3::from(miss)).into();
        }
        *guess = PeriodicGuess::default();
        None
    }
}
