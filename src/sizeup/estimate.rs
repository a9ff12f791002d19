//! The transformer that is probably inside, as ranges.
//!
//! Logarithms of mass, net core area and volts per turn are straight lines over the logarithm
//! of size: apparent power goes as frequency times area product, and that as the fourth power
//! of a length, so mass goes as (P/f)^¾, area as (P/f)^½ and volts per turn as (P·f)^½
//! (`McLyman`, Transformer and Inductor Design Handbook, area-product chapter; from memory). The
//! heights of the lines and their scatter are common practice, no source.

use super::belief::{Line, combine};
use super::sighting::{OvenKind, Sighting};
use crate::quantity::{ApparentPower, Area, Frequency, Mass, Power, Quantity, Ratio, VoltsPerTurn};
use crate::wire::Metal;

/// A range that holds the truth about 95 times in 100, and the likely value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Range<Q> {
    /// Low end.
    pub low: Q,
    /// Likely value.
    pub likely: Q,
    /// High end.
    pub high: Q,
}

impl<Q: Quantity> Range<Q> {
    /// From mean and standard deviation of the logarithm, in the unit that `unit` is one of.
    fn from_log((mean, deviation): (f64, f64), unit: f64) -> Self {
        let at = |k: f64| Q::from_si((mean + k * deviation).exp() * unit);
        Self {
            low: at(-2.0),
            likely: at(0.0),
            high: at(2.0),
        }
    }
}

/// One of the person's own donors that was finished.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PastDonor {
    /// Rated input of its microwave part.
    pub input: Power,
    /// Mains frequency.
    pub frequency: Frequency,
    /// Mass of its transformer.
    pub mass: Option<Mass>,
    /// Net steel area of its tongue.
    pub net_area: Option<Area>,
    /// Volts per turn of its primary.
    pub volts_per_turn: Option<VoltsPerTurn>,
    /// Its primary's metal.
    pub primary: Option<Metal>,
}

/// What common practice and the person's own donors say about transformers.
#[derive(Debug, Clone, PartialEq)]
pub struct Experience {
    mass: Line,
    area: Line,
    volts_per_turn: Line,
    copper: f64,
    aluminium: f64,
    donors: usize,
}

/// What is probably inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TransformerGuess {
    /// Input of the microwave part.
    pub input: Range<Power>,
    /// Mass of the transformer.
    pub mass: Range<Mass>,
    /// What it carries in the oven's duty: minutes, fan on.
    pub oven_duty: Range<ApparentPower>,
    /// What it carries without a pause.
    pub continuous: Range<ApparentPower>,
    /// Net steel area of the tongue.
    pub net_area: Range<Area>,
    /// Volts per turn of the primary.
    pub volts_per_turn: Range<VoltsPerTurn>,
    /// Chance that the primary is aluminium.
    pub aluminium: Ratio,
    /// How many of the person's own donors the guess learned from.
    pub learned_from: usize,
}

/// Input where nothing is known: 1250 W within a factor of 1.6 (common practice, no source).
const INPUT_PRIOR: (f64, f64) = (7.131, 0.22);
/// Logarithm of output over input, 0.64 ± 0.08 (usual labels; common practice, no source).
const EFFICIENCY: (f64, f64) = (-0.446, 0.06);
/// Logarithm of continuous over oven-duty rating: 0.5, 0.35 to 0.7 (common practice, no source).
const CONTINUOUS: (f64, f64) = (-0.693, 0.17);
/// How far a printed input may lie from what the transformer takes (lamp, fan, tolerance).
const LABEL_SCATTER: f64 = 0.06;
/// Whole appliance of microwaves alone: 13.5 kg at 1250 W, input goes as weight^0.8, within a
/// factor of 1.6 (common practice, no source).
pub(super) const USUAL_WEIGHT: f64 = 13.5;
const WEIGHT_TO_INPUT: (f64, f64) = (0.8, 0.24);

impl Default for Experience {
    /// Common practice alone.
    fn default() -> Self {
        Self {
            // 3.6 kg at 1000 W and 50 Hz.
            mass: Line::prior((1.281, 0.15), (0.75, 0.10), 0.12),
            // 20 cm² at 1000 W and 50 Hz.
            area: Line::prior((2.996, 0.12), (0.50, 0.08), 0.12),
            // 0.69 V a turn at 1000 W and 50 Hz: 20 cm² at about 1.55 T.
            volts_per_turn: Line::prior((-0.371, 0.13), (0.50, 0.08), 0.12),
            copper: 0.0,
            aluminium: 0.0,
            donors: 0,
        }
    }
}

impl Experience {
    /// Common practice and the person's own donors. A donor whose input is outside 300 to
    /// 4000 W, or frequency outside 45 to 65 Hz, is passed over; so is a measure that is not
    /// a positive number.
    #[must_use]
    pub fn learn(donors: &[PastDonor]) -> Self {
        donors
            .iter()
            .fold(Self::default(), |experience, donor| experience.with(donor))
    }

    fn with(mut self, donor: &PastDonor) -> Self {
        let (power, frequency) = (donor.input.si(), donor.frequency.si());
        if !((300.0..=4000.0).contains(&power) && (45.0..=65.0).contains(&frequency)) {
            return self;
        }
        let (size, swing) = axes(power.ln(), donor.frequency);
        let known = |value: f64| (value.is_finite() && value > 0.0).then(|| value.ln());
        if let Some(y) = donor.mass.and_then(|mass| known(mass.si())) {
            self.mass = self.mass.learn(size, y);
        }
        if let Some(y) = donor.net_area.and_then(|area| known(area.cm2())) {
            self.area = self.area.learn(size, y);
        }
        if let Some(y) = donor.volts_per_turn.and_then(|volts| known(volts.si())) {
            self.volts_per_turn = self.volts_per_turn.learn(swing, y);
        }
        match donor.primary {
            Some(Metal::Copper) => self.copper += 1.0,
            Some(Metal::Aluminium) => self.aluminium += 1.0,
            None => {}
        }
        self.donors += 1;
        self
    }

    /// What is probably inside, if it is an iron core.
    #[must_use]
    pub fn guess(&self, sighting: &Sighting) -> TransformerGuess {
        let input = log_input(sighting);
        let frequency = sighting.frequency();
        let (size, swing) = axes(input.0, frequency);
        let continuous = (input.0 + CONTINUOUS.0, input.1.hypot(CONTINUOUS.1));
        TransformerGuess {
            input: Range::from_log(input, 1.0),
            mass: Range::from_log(self.mass.predict(size, input.1), 1.0),
            oven_duty: Range::from_log(input, 1.0),
            continuous: Range::from_log(continuous, 1.0),
            net_area: Range::from_log(self.area.predict(size, input.1), 1e-4),
            volts_per_turn: Range::from_log(self.volts_per_turn.predict(swing, input.1), 1.0),
            aluminium: self.aluminium(sighting.age_years),
            learned_from: self.donors,
        }
    }

    /// Chance of an aluminium primary: by age 10 to 50 %, counted as four donors seen (common
    /// practice, no source), and the person's own donors one each (beta-binomial rule).
    fn aluminium(&self, age_years: Option<u16>) -> Ratio {
        let usual = match age_years {
            Some(30..) => 0.10,
            Some(15..) => 0.30,
            Some(_) => 0.50,
            None => 0.35,
        };
        let weight = 4.0;
        Ratio::from_si((usual * weight + self.aluminium) / (weight + self.aluminium + self.copper))
    }
}

/// Logarithms of (P / 1 kW)(50 Hz / f) and of (P / 1 kW)(f / 50 Hz).
fn axes(log_power: f64, frequency: Frequency) -> (f64, f64) {
    let power = log_power - 1000f64.ln();
    let frequency = (frequency.si() / 50.0).ln();
    (power - frequency, power + frequency)
}

/// Mean and standard deviation of the logarithm of the microwave part's input in watts.
pub(super) fn log_input(sighting: &Sighting) -> (f64, f64) {
    let alone = matches!(sighting.kind, None | Some(OvenKind::Solo));
    let printed = sighting
        .microwave_input
        .or(if alone { sighting.whole_input } else { None });
    if let Some(input) = printed {
        return (input.si().ln(), LABEL_SCATTER);
    }
    if let Some(output) = sighting.output {
        return (output.si().ln() - EFFICIENCY.0, EFFICIENCY.1.hypot(LABEL_SCATTER));
    }
    match sighting.weight {
        Some(weight) if alone => {
            let (power, scatter) = WEIGHT_TO_INPUT;
            let by_weight = INPUT_PRIOR.0 + power * (weight.si() / USUAL_WEIGHT).ln();
            combine(INPUT_PRIOR, (by_weight, scatter))
        }
        _ => INPUT_PRIOR,
    }
}

/// The chance that the continuous rating is at least `need`.
pub(super) fn chance_of(continuous: &Range<ApparentPower>, need: ApparentPower) -> f64 {
    let mean = continuous.likely.si().ln();
    let deviation = (continuous.high.si() / continuous.likely.si()).ln() / 2.0;
    super::belief::normal_below((mean - need.si().ln()) / deviation)
}
