//! What was seen of a donor from the outside.

use std::collections::{BTreeMap, BTreeSet};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::place::{no_places, records};

macro_rules! seen {
    ($( $(#[$meta:meta])* $name:ident { $( $(#[$doc:meta])* $member:ident, )* } )*) => { $(
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
        #[serde(rename_all = "snake_case")]
        pub enum $name { $( $(#[$doc])* $member, )* }

        no_places! { $name }

        impl $name {
            /// Every answer, in the order that a person is offered them.
            pub const ALL: &[Self] = &[ $( Self::$member ),* ];
        }
    )* };
}

seen! {
    /// What kind of oven it is.
    OvenKind {
        /// Microwaves alone.
        Solo,
        /// With a grill.
        Grill,
        /// With hot air or steam.
        Combination,
    }
    /// A sign that tells an iron core from an inverter.
    Sign {
        /// The word "inverter".
        Word,
        /// An iron block seen through the vents.
        CoreSeen,
        /// A circuit board with a small transformer seen through the vents.
        BoardSeen,
        /// One side is clearly heavier.
        HeavySide,
    }
    /// How rusty it is.
    Rust {
        /// None to be seen.
        Clean,
        /// On screws and edges.
        Surface,
        /// Scales or holes.
        Deep,
    }
    /// Damage.
    Damage {
        /// It smells or looks burnt.
        Burnt,
        /// It stood in water.
        Flooded,
        /// Crushed or dropped.
        Crushed,
        /// Parts are missing.
        PartsMissing,
        /// The cord is cut off.
        CordCut,
        /// The door is broken.
        DoorBroken,
    }
}

records! {
    /// What was seen from the outside; what was not looked at is left out.
    #[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Look {
        /// Kind of oven.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub kind: Option<OvenKind>,
        /// Signs looked for: true where there.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        pub signs: BTreeMap<Sign, bool>,
        /// Rust.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub rust: Option<Rust>,
        /// Damage.
        #[serde(default, skip_serializing_if = "BTreeSet::is_empty")]
        pub damage: BTreeSet<Damage>,
        /// Age in years.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub age_years: Option<u32>,
        /// Price asked, in the person's own money.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub price: Option<f64>,
        /// Whether it can be opened where it stands.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub openable: Option<bool>,
    }
}

no_places! { BTreeMap<Sign, bool>, BTreeSet<Damage> }

impl Look {
    /// True where nothing was looked at.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }
}
