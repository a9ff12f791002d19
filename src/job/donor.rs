//! The machine that the transformer comes from.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::look::Look;
use super::place::records;
use super::reading::Reading;

records! {
    /// A donor, with what its label says.
    #[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Donor {
        /// What the person calls it.
        pub name: String,
        /// Mains voltage on the label, in volts.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub mains_volts: Option<Reading>,
        /// Mains frequency on the label: 50 or 60 Hz.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub hertz: Option<u32>,
        /// Power taken from the mains, in watts.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub input_watts: Option<Reading>,
        /// Power that its microwave part alone takes, in watts.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub microwave_watts: Option<Reading>,
        /// Cooking power, in watts.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub output_watts: Option<Reading>,
        /// Mass of the whole donor, in kilograms.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub mass_kg: Option<Reading>,
        /// What was seen from the outside.
        #[serde(default, skip_serializing_if = "Look::is_empty")]
        pub look: Look,
        /// Anything else.
        #[serde(default, skip_serializing_if = "String::is_empty")]
        pub notes: String,
    }
}
