//! What can be seen at the curb. Every part of it may be unknown.

use std::collections::{BTreeMap, BTreeSet};

use crate::quantity::{Frequency, Mass, Money, Power, Voltage};
use crate::words::words;
use crate::words::{Explain, Message};

words! {
    /// What kind of oven it is.
    pub enum OvenKind, "oven" {
        /// Microwaves alone.
        Solo = "solo",
        /// With a grill.
        Grill = "grill",
        /// With hot air or steam: only its microwave part has a transformer.
        Combination = "combination",
    }
}

words! {
    /// Something that is there or not and tells a core from an inverter.
    pub enum Sign, "sign" {
        /// The word "inverter" on door, panel or label.
        Word = "word",
        /// An iron block with windings, seen through the vents with a lamp.
        CoreSeen = "core-seen",
        /// A circuit board with a small transformer, seen through the vents.
        BoardSeen = "board-seen",
        /// Clearly heavier on the side of the control panel.
        HeavySide = "heavy-side",
    }
}

words! {
    /// How rusty it is.
    pub enum Rust, "rust" {
        /// None to be seen.
        Clean = "clean",
        /// On screws and edges.
        Surface = "surface",
        /// Scales, holes, or rust seen on the core.
        Deep = "deep",
    }
}

words! {
    /// Damage.
    pub enum Damage, "damage" {
        /// It smells or looks burnt.
        Burnt = "burnt",
        /// It stood in water or rain.
        Flooded = "flooded",
        /// Crushed or dropped hard: the magnetron may be broken.
        Crushed = "crushed",
        /// Opened before, parts missing.
        PartsMissing = "parts-missing",
        /// The cord is cut off.
        CordCut = "cord-cut",
        /// The door is broken.
        DoorBroken = "door-broken",
    }
}

/// What was seen, asked or weighed. The default is: nothing.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Sighting {
    /// Kind of oven.
    pub kind: Option<OvenKind>,
    /// Signs looked for: true if there.
    pub signs: BTreeMap<Sign, bool>,
    /// Rated input of the microwave part, 300 to 4000 W.
    pub microwave_input: Option<Power>,
    /// Rated input of the whole appliance, 300 to 8000 W. Used for the transformer only where
    /// there is no grill and no hot air.
    pub whole_input: Option<Power>,
    /// Rated microwave output, 200 to 3000 W.
    pub output: Option<Power>,
    /// Mains voltage on the label, 90 to 260 V.
    pub mains_voltage: Option<Voltage>,
    /// Mains frequency on the label, 45 to 65 Hz.
    pub mains_frequency: Option<Frequency>,
    /// Weight of the whole appliance, 5 to 60 kg.
    pub weight: Option<Mass>,
    /// Age in years.
    pub age_years: Option<u16>,
    /// Rust.
    pub rust: Option<Rust>,
    /// Damage seen.
    pub damage: BTreeSet<Damage>,
    /// Price asked, 0 or more; 0 if free.
    pub price: Option<Money>,
    /// Whether it can be opened and looked at here. Opening goes through the teardown's gates.
    pub openable_here: Option<bool>,
}

/// A number that can't be right.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
#[error("{value} is not a likely {what}; the range is {range}. Read the label again or leave it out")]
pub struct SightingError {
    /// What it should be.
    pub what: &'static str,
    /// What was given, in the unit of the range.
    pub value: f64,
    /// The accepted range.
    pub range: &'static str,
}

impl Explain for SightingError {
    fn message(&self) -> Message {
        Message::new("refused-sighting")
            .within(
                "what",
                Message::new(format!("refused-what-{}", self.what.replace(' ', "-"))),
            )
            .with("value", self.value)
            .with("range", self.range)
    }
}

impl Sighting {
    /// Checks every number against its range.
    ///
    /// # Errors
    /// [`SightingError`] names the first number outside the range of its field.
    pub fn check(&self) -> Result<(), SightingError> {
        let numbers = [
            (
                "microwave input",
                self.microwave_input.map(Power::si),
                300.0,
                4000.0,
                "300 to 4000 W",
            ),
            (
                "input of the whole appliance",
                self.whole_input.map(Power::si),
                300.0,
                8000.0,
                "300 to 8000 W",
            ),
            (
                "microwave output",
                self.output.map(Power::si),
                200.0,
                3000.0,
                "200 to 3000 W",
            ),
            (
                "mains voltage",
                self.mains_voltage.map(Voltage::si),
                90.0,
                260.0,
                "90 to 260 V",
            ),
            (
                "mains frequency",
                self.mains_frequency.map(Frequency::si),
                45.0,
                65.0,
                "45 to 65 Hz",
            ),
            ("weight", self.weight.map(Mass::si), 5.0, 60.0, "5 to 60 kg"),
            ("price", self.price.map(Money::si), 0.0, 1e9, "0 or more"),
        ];
        for (what, value, low, high, range) in numbers {
            if let Some(value) = value
                && !(low..=high).contains(&value)
            {
                return Err(SightingError { what, value, range });
            }
        }
        Ok(())
    }

    /// Mains frequency: as printed, else 60 Hz for 90 to 130 V, else 50 Hz (the usual pairs;
    /// common practice, no source).
    #[must_use]
    pub fn frequency(&self) -> Frequency {
        self.mains_frequency.unwrap_or_else(|| {
            let low = self.mains_voltage.is_some_and(|v| v.si() < 130.0);
            Frequency::from_si(if low { 60.0 } else { 50.0 })
        })
    }
}
