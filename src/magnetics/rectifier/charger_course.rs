//! A charge with its range: five figures, and the current through it.

use crate::magnetics::rectifier::RectifierError;
use crate::magnetics::rectifier::charger::{
    ChargeAnswer, ChargeEstimate, ChargeLimits, ChargePoint, Charger, ChargingCurve,
};
use crate::quantity::{Current, Propagated, Time, propagate};

/// Points of the band: as many as a curve has.
const BAND: usize = 21;
const ALL: usize = ChargeAnswer::COUNT + BAND;

/// A charge with its range.
#[derive(Debug, Clone, PartialEq)]
pub struct ChargeSpread {
    /// The charge at the best inputs.
    pub curve: ChargingCurve,
    /// Its five figures, and what each input adds to them.
    pub answers: Propagated<{ ChargeAnswer::COUNT }>,
    /// The ends of the current's range at each time of the curve; the lower end is not below zero.
    pub band: Vec<(Time, [Current; 2])>,
}

/// The current at a time, straight between points; after the last it stays, as a plain rectifier
/// goes on feeding.
fn current_at(points: &[ChargePoint], time: Time) -> f64 {
    let after = points.partition_point(|point| point.elapsed < time);
    match (
        after.checked_sub(1).and_then(|before| points.get(before)),
        points.get(after),
    ) {
        (Some(before), Some(next)) => {
            let part = (time - before.elapsed) / (next.elapsed - before.elapsed);
            before.current.si() + part * (next.current - before.current).si()
        }
        (Some(last), None) => last.current.si(),
        (None, Some(first)) => first.current.si(),
        (None, None) => 0.0,
    }
}

impl Charger {
    /// [`Charger::answer`] and [`Charger::curve`] with uncertainty.
    ///
    /// # Errors
    /// As [`Charger::curve`].
    pub fn charge_with_uncertainty(&self, limits: ChargeLimits) -> Result<ChargeSpread, RectifierError> {
        self.check()?;
        let states = self.states()?;
        let curve = self.timed(&states, limits);
        let times: Vec<Time> = curve.points.iter().map(|point| point.elapsed).collect();
        let spread = propagate(self, |charger| {
            // Capacity and efficiency move the times only.
            let same = Self {
                battery: crate::magnetics::rectifier::charger::LeadAcid {
                    capacity: self.battery.capacity,
                    efficiency: self.battery.efficiency,
                    ..charger.battery
                },
                ..*charger
            } == *self;
            let own = if same { None } else { Some(charger.states().ok()?) };
            let states = own.as_ref().unwrap_or(&states);
            let curve = charger.timed(states, limits);
            let figures = Self::figures(states, &curve)?.to_si();
            let current = |index: usize| times.get(index).map_or(0.0, |time| current_at(&curve.points, *time));
            Some(std::array::from_fn::<f64, ALL, _>(|k| match figures.get(k) {
                Some(figure) => *figure,
                None => current(k - ChargeAnswer::COUNT),
            }))
        })
        .ok_or(RectifierError::NoSteadyState)?;
        let figures = |all: &[f64; ALL]| std::array::from_fn(|k| all[k]);
        let end = |index: usize, sigmas: f64| {
            let at = ChargeAnswer::COUNT + index;
            let (value, sigma) = (spread.value.get(at), spread.sigma.get(at));
            let current = value.zip(sigma).map_or(0.0, |(value, sigma)| value + sigmas * sigma);
            Current::from_si(current.max(0.0))
        };
        let band = times
            .iter()
            .enumerate()
            .map(|(k, time)| (*time, [end(k, -2.0), end(k, 2.0)]));
        Ok(ChargeSpread {
            band: band.collect(),
            answers: Propagated {
                value: figures(&spread.value),
                sigma: figures(&spread.sigma),
                shares: spread
                    .shares
                    .iter()
                    .map(|(name, share)| (*name, figures(share)))
                    .collect(),
                inputs: spread.inputs,
            },
            curve,
        })
    }

    /// [`Charger::answer`] with uncertainty, and what each input adds to it.
    ///
    /// # Errors
    /// As [`Charger::curve`].
    pub fn answer_with_uncertainty(
        &self,
    ) -> Result<(ChargeEstimate, Propagated<{ ChargeAnswer::COUNT }>), RectifierError> {
        let answers = self.charge_with_uncertainty(ChargeLimits::common_practice())?.answers;
        Ok((ChargeEstimate::from_propagated(&answers), answers))
    }
}
