//! Iron core or inverter?

use super::belief::normal_weight;
use super::estimate::{USUAL_WEIGHT, log_input};
use super::sighting::{Damage, OvenKind, Sighting, Sign};

impl Sign {
    /// How often the sign is there with an inverter and with a core (common practice, no source).
    const fn how_often(self) -> (f64, f64) {
        match self {
            Sign::Word => (0.85, 0.005),
            Sign::CoreSeen => (0.01, 0.50),
            Sign::BoardSeen => (0.50, 0.02),
            Sign::HeavySide => (0.15, 0.75),
        }
    }
}

/// How often an oven of that age has an iron core (common practice, no source).
const fn by_age(age_years: Option<u16>) -> f64 {
    match age_years {
        Some(25..) => 0.97,
        Some(10..) => 0.80,
        Some(_) => 0.70,
        None => 0.75,
    }
}

/// The chance that there is an iron-core transformer inside, 0 to 1: Bayes' rule over age,
/// signs and weight, taken as independent.
///
/// Weight counts for ovens of microwaves alone: 13.5 kg at 1250 W with a core, 2.5 kg less with
/// an inverter, each within a factor of 1.4 (common practice, no source).
#[must_use]
pub fn chance_of_iron_core(sighting: &Sighting) -> f64 {
    let core = by_age(sighting.age_years);
    let mut odds = core / (1.0 - core);
    for (sign, &there) in &sighting.signs {
        let (inverter, core) = sign.how_often();
        odds *= if there {
            core / inverter
        } else {
            (1.0 - core) / (1.0 - inverter)
        };
    }
    if let (Some(weight), None | Some(OvenKind::Solo)) = (sighting.weight, sighting.kind) {
        let known = sighting
            .microwave_input
            .or(sighting.whole_input)
            .or(sighting.output)
            .is_some();
        let size = if known {
            (log_input(sighting).0.exp() / 1250.0).powf(0.4)
        } else {
            1.0
        };
        let of = |kilograms: f64| normal_weight(weight.si().ln(), (kilograms * size).ln(), 0.17);
        // A weight far from both says little about either.
        odds *= (of(USUAL_WEIGHT) / of(USUAL_WEIGHT - 2.5)).clamp(0.1, 10.0);
    }
    let chance = odds / (1.0 + odds);
    let seen = sighting.signs.get(&Sign::CoreSeen) == Some(&true);
    if sighting.damage.contains(&Damage::PartsMissing) && !seen {
        // Whoever opened it before may have wanted the same part.
        chance * 0.4
    } else {
        chance
    }
}
