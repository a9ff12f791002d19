//! The hour that a plot of heat shows, and how far off it may be.

use super::heat_run::{History, Run, cycle};
use crate::magnetics::heat::Cycle;
use crate::magnetics::heat::network::Temperatures;
use crate::quantity::{Temperature, Time, UncertainInputs, Visitor, propagate};
use crate::rewind::goal::Goal;

/// Longest step of the history, and of those that only tell its ±.
pub(super) const FINE: Time = Time::from_si(15.0);
const COARSE: Time = Time::from_si(60.0);

/// An hour of a cycle, from cold, by steps of at most `every`.
pub(super) fn hour(run: &Run, cycle: &Cycle, every: Time) -> History {
    let cold = Temperatures::all(run.inputs.ambient.value);
    let network = run.inputs.network();
    let points = network.history(cold, cycle, Time::from_minutes(60.0), every);
    points.into_iter().map(|p| (p.time, p.temperatures)).collect()
}

/// Points of the band.
pub(super) const BAND: usize = 61;

/// A run for its mean temperatures, which the hot spot's doubt does not touch.
#[derive(Clone, Copy)]
struct Mean(Run);

impl UncertainInputs for Mean {
    fn visit(&mut self, visitor: &mut Visitor<'_>) {
        self.0.visit_mean(visitor);
    }
}

/// How far off the new winding's temperature may be through that hour (k = 2).
pub(super) fn band(run: &Run, goal: &Goal) -> Vec<(Time, [Temperature; 2])> {
    // The cycle's times are the goal's: every history has its points at the same times.
    let points = |run: &Run| {
        let history = hour(run, &cycle(goal, &run.question()).1, COARSE);
        let last = history.len().checked_sub(1)?;
        Some((0..BAND).map(|k| history[k * last / (BAND - 1)]).collect::<Vec<_>>())
    };
    let (Some(times), Some(spread)) = (
        points(run),
        propagate(&Mean(*run), |Mean(run)| {
            let points = points(run)?;
            Some(std::array::from_fn::<f64, BAND, _>(|k| points[k].1.winding.si()))
        }),
    ) else {
        return Vec::new();
    };
    let end = |k: usize, sigmas: f64| Temperature::from_si(spread.value[k] + sigmas * spread.sigma[k]);
    times
        .iter()
        .enumerate()
        .map(|(k, (time, _))| (*time, [end(k, -2.0), end(k, 2.0)]))
        .collect()
}
