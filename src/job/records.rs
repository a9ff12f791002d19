//! What is recorded around donor, core, goal and choice.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::choice::Choice;
use super::conditions::Conditions;
use super::core::Core;
use super::goal::Goal;
use super::meta::{CoreId, DonorId, JobId, Owner};
use super::place::records;
use super::reading::Reading;

/// A core with the donor it came from.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct ShelfCore {
    /// Where it came from.
    pub donor: Option<DonorId>,
    /// As measured.
    pub core: Core,
}

records! {
    /// The outlet that the finished machine is plugged into.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Mains {
        /// Voltage, in volts r.m.s.
        pub volts: Reading,
        /// Frequency: 50 or 60 Hz.
        pub hertz: u32,
        /// What protects it.
        pub circuit: Circuit,
    }

    /// Breaker and plug.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Circuit {
        /// Rating of the breaker, in amperes.
        pub breaker_a: f64,
        /// The plug's name where the person lives.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        pub plug: String,
    }
}

/// A core to be wound for a use.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// What the person calls it.
    pub name: String,
    /// The core.
    pub core: CoreId,
    /// The outlet.
    pub mains: Mains,
    /// What it shall become.
    pub goal: Goal,
    /// How it is run.
    pub conditions: Conditions,
    /// The winding chosen, once there is one.
    pub choice: Option<Choice>,
    /// Anything else.
    pub note: String,
}

/// A winding kept for comparison.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Design {
    /// The job it is for.
    pub job: JobId,
    /// What the person calls it.
    pub name: String,
    /// The winding.
    pub choice: Choice,
    /// Anything else.
    pub note: String,
}

/// Words about something.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Note {
    /// What it is about.
    pub owner: Owner,
    /// The words.
    pub text: String,
}

/// One value read, kept so that the history of a field can be seen.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Measurement {
    /// What was measured.
    pub owner: Owner,
    /// Which field of it: the path below its owner, such as `tongue_mm` or `primary.build_mm`.
    pub field: String,
    /// The value with its ± and origin.
    pub reading: Reading,
}

records! {
    /// A wire that the person has.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct StockWire {
        /// Id of the conductor in the wire tables.
        pub conductor: String,
        /// How much of it, in metres.
        pub length_m: f64,
        /// What a metre cost, in the person's own money.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub price_per_m: Option<f64>,
    }
}
