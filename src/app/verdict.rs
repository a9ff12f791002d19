//! Sizing up a find: from what was recorded of it to the verdict.

use super::problem::problem;
use super::start;
use super::translate::transformer_goal;
use super::workspace::{Workspace, WorkspaceError};
use crate::job::{self, Conditions, Donor, DonorId, Goal, PrimaryMetal, Record};
use crate::magnetics::core::EiCore;
use crate::quantity::{ApparentPower, Frequency, Mass, Money, Origin, Power, Voltage, VoltsPerTurn, parse_number};
use crate::sizeup::{
    Damage, Experience, OvenKind, PastDonor, Prices, Rust, ShelfDonor, Sighting, Sign, SizeUp, TransformerGuess, Want,
    size_up,
};
use crate::store::Setting;
use crate::wire::Metal;

/// How many of the newest donors the estimate learns from.
const LEARN_FROM: usize = 100;

/// Gives each recorded answer its counterpart in the verdict's room.
macro_rules! taken {
    ($( $(#[$doc:meta])* $name:ident: $kind:ident { $( $member:ident )* } )*) => { $(
        $(#[$doc])*
        #[must_use]
        pub const fn $name(recorded: job::$kind) -> $kind {
            match recorded { $( job::$kind::$member => $kind::$member ),* }
        }
    )* };
}

taken! {
    /// The kind of oven.
    oven_kind: OvenKind { Solo Grill Combination }
    /// A sign looked for.
    sign: Sign { Word CoreSeen BoardSeen HeavySide }
    /// How rusty.
    rust: Rust { Clean Surface Deep }
    /// A damage.
    damage: Damage { Burnt Flooded Crushed PartsMissing CordCut DoorBroken }
}

/// What the donor's record says, as the verdict takes it.
#[must_use]
pub fn sighting(donor: &Donor) -> Sighting {
    let watts = |reading: &Option<job::Reading>| reading.map(|r| Power::from_si(r.value));
    let look = &donor.look;
    Sighting {
        kind: look.kind.map(oven_kind),
        signs: look.signs.iter().map(|(seen, there)| (sign(*seen), *there)).collect(),
        microwave_input: watts(&donor.microwave_watts),
        whole_input: watts(&donor.input_watts),
        output: watts(&donor.output_watts),
        mains_voltage: donor.mains_volts.map(|r| Voltage::from_si(r.value)),
        mains_frequency: donor.hertz.map(|hertz| Frequency::from_si(f64::from(hertz))),
        weight: donor.mass_kg.map(|r| Mass::from_si(r.value)),
        age_years: look.age_years.and_then(|years| u16::try_from(years).ok()),
        rust: look.rust.map(rust),
        damage: look.damage.iter().copied().map(damage).collect(),
        price: look.price.map(Money::from_si),
        openable_here: look.openable,
    }
}

/// What a use needs of a core without a pause, with its usual targets: open-circuit volts (load
/// volts where no open-circuit voltage is asked for) times amperes times the root of the duty.
#[must_use]
pub fn need(word: &str) -> Option<ApparentPower> {
    let required = transformer_goal(&start::goal_of(word), &Conditions::default())?.requirements();
    let demand = required.demand;
    let volts = required
        .open_circuit_best
        .unwrap_or_else(|| demand.load.volts(demand.current));
    Some((volts * demand.current) * demand.duty.si().sqrt())
}

/// The uses that a person can want a core for: those that put a load on a transformer.
#[must_use]
pub fn wantable() -> Vec<&'static str> {
    Goal::USES.iter().copied().filter(|word| need(word).is_some()).collect()
}

/// A verdict with what it rests on.
#[derive(Debug, Clone, PartialEq)]
pub struct Verdict {
    /// The verdict.
    pub answer: SizeUp,
    /// The words of the uses wanted, in the order of the verdict's fits.
    pub wants: Vec<&'static str>,
    /// The names of the donors on the shelf that the fits count with.
    pub shelf: Vec<String>,
}

impl Workspace {
    /// The uses that the person wants a core for: all of them until they choose.
    ///
    /// # Errors
    /// The data cannot be read.
    pub fn wants(&self) -> Result<Vec<&'static str>, WorkspaceError> {
        let all = wantable();
        Ok(match self.store.setting(Setting::Wants)? {
            Some(words) => all
                .into_iter()
                .filter(|word| words.split(' ').any(|w| w == *word))
                .collect(),
            None => all,
        })
    }

    /// The person's prices; `None` until both are set.
    ///
    /// # Errors
    /// The data cannot be read.
    pub fn prices(&self) -> Result<Option<Prices>, WorkspaceError> {
        let price = |setting| -> Result<Option<f64>, WorkspaceError> {
            let text = self.store.setting(setting)?;
            let value = text.and_then(|text| parse_number(&text).ok());
            Ok(value.filter(|v| v.is_finite() && *v >= 0.0))
        };
        let new = price(Setting::PriceNew)?.filter(|v| *v > 0.0);
        Ok(new.zip(price(Setting::PriceCopper)?).map(|(new, copper)| Prices {
            new_per_100_va: Money::from_si(new),
            copper_per_kg: Money::from_si(copper),
        }))
    }

    /// What the person's own finished donors say.
    ///
    /// # Errors
    /// [`WorkspaceError::Store`] where the data cannot be read or written.
    pub fn experience(&self) -> Result<Experience, WorkspaceError> {
        self.learn(&self.store.donors()?)
    }

    /// What the newest of these donors say.
    fn learn(&self, donors: &[Record<DonorId, Donor>]) -> Result<Experience, WorkspaceError> {
        let mut past = Vec::new();
        for record in donors.iter().take(LEARN_FROM) {
            if let Some(donor) = self.past(record.meta.id, &record.body)? {
                past.push(donor);
            }
        }
        Ok(Experience::learn(&past))
    }

    /// A donor whose core was measured, as a lesson; `None` where there is nothing to learn.
    fn past(&self, id: DonorId, donor: &Donor) -> Result<Option<PastDonor>, WorkspaceError> {
        let Some(&job) = self.store.jobs_from(id)?.first() else {
            return Ok(None);
        };
        let file = self.store.job_file(job)?;
        let seen = sighting(donor);
        let alone = matches!(seen.kind, None | Some(OvenKind::Solo));
        let Some(input) = seen.microwave_input.or(if alone { seen.whole_input } else { None }) else {
            return Ok(None);
        };
        let problem = problem(&file);
        let core: &EiCore = &problem.rebuild.core;
        let measured = [&file.core.tongue_mm, &file.core.stack_mm]
            .iter()
            .all(|reading| reading.origin != Origin::Typical);
        let rated = problem.rebuild.primary.rated;
        Ok(Some(PastDonor {
            input,
            frequency: rated.frequency,
            mass: self.teardown(id).ok().and_then(|t| t.findings().transformer_mass),
            net_area: measured.then(|| core.net_area()),
            volts_per_turn: problem
                .turns
                .map(|t| VoltsPerTurn::from_si(rated.voltage.si() / t.turns.value.si())),
            primary: match file.core.primary.metal {
                PrimaryMetal::Copper => Some(Metal::Copper),
                PrimaryMetal::Aluminium => Some(Metal::Aluminium),
                PrimaryMetal::Unknown => None,
            },
        }))
    }

    /// The verdict on a find, from whatever is known of it. `id` is the find's own, if it is on
    /// the shelf already: it does not count as its own partner.
    ///
    /// # Errors
    /// A number that can't be right, by name and range; [`WorkspaceError::Store`].
    pub fn verdict(&self, id: Option<DonorId>, donor: &Donor) -> Result<Verdict, WorkspaceError> {
        let donors = self.store.donors()?;
        let experience = self.learn(&donors)?;
        let wants = self.wants()?;
        let asked: Vec<Want> = wants
            .iter()
            .filter_map(|word| need(word))
            .map(|continuous| Want {
                continuous,
                may_share: true,
            })
            .collect();
        let others: Vec<_> = donors
            .into_iter()
            .filter(|other| Some(other.meta.id) != id)
            .take(LEARN_FROM)
            .collect();
        let shelf: Vec<ShelfDonor> = others
            .iter()
            .map(|other| ShelfDonor {
                continuous: experience.guess(&sighting(&other.body)).continuous.likely,
            })
            .collect();
        let answer = size_up(&sighting(donor), &experience, self.prices()?.as_ref(), &asked, &shelf)?;
        Ok(Verdict {
            answer,
            wants,
            shelf: others.into_iter().map(|other| other.body.name).collect(),
        })
    }
}

/// A range of the likely transformer, as shown.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LikelyRow {
    /// The id of its text.
    pub key: &'static str,
    /// Low end.
    pub low: String,
    /// Likely value.
    pub likely: String,
    /// High end.
    pub high: String,
    /// Unit.
    pub unit: &'static str,
}

/// The ranges of a guess, rounded to what they are worth: two digits.
#[must_use]
pub fn likely(guess: &TransformerGuess) -> Vec<LikelyRow> {
    let row = |key, unit, [low, likely, high]: [f64; 3]| LikelyRow {
        key,
        low: two_digits(low),
        likely: two_digits(likely),
        high: two_digits(high),
        unit,
    };
    vec![
        row(
            "ui-likely-mass",
            "kg",
            [guess.mass.low, guess.mass.likely, guess.mass.high].map(Mass::si),
        ),
        row(
            "ui-likely-oven",
            "VA",
            [guess.oven_duty.low, guess.oven_duty.likely, guess.oven_duty.high].map(ApparentPower::si),
        ),
        row(
            "ui-likely-continuous",
            "VA",
            [guess.continuous.low, guess.continuous.likely, guess.continuous.high].map(ApparentPower::si),
        ),
        row(
            "ui-likely-area",
            "cm²",
            [guess.net_area.low, guess.net_area.likely, guess.net_area.high].map(|area| area.cm2()),
        ),
        row(
            "ui-likely-volts",
            "V",
            [
                guess.volts_per_turn.low,
                guess.volts_per_turn.likely,
                guess.volts_per_turn.high,
            ]
            .map(VoltsPerTurn::si),
        ),
    ]
}

/// A positive number with two significant digits.
fn two_digits(value: f64) -> String {
    if !(value.is_finite() && value > 0.0) {
        return "0".to_owned();
    }
    let place = value.log10().floor() as i32 - 1;
    let step = 10f64.powi(place);
    let rounded = (value / step).round() * step;
    format!("{rounded:.*}", usize::try_from(-place).unwrap_or(0))
}

#[cfg(test)]
mod tests {
    use super::two_digits;

    #[test]
    fn two_digits_are_shown() {
        for (value, text) in [
            (3.612, "3.6"),
            (1234.0, "1200"),
            (0.0691, "0.069"),
            (20.4, "20"),
            (0.0, "0"),
        ] {
            assert_eq!(two_digits(value), text);
        }
    }
}
