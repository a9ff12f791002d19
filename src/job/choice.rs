//! The winding that was chosen.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::place::{no_places, records};

records! {
    /// A winding that the person chose, or holds fast while the rest is searched.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Choice {
        /// Turns.
        pub turns: u32,
        /// Id of the conductor in the wire tables, such as `awg-6` or `iec-16-stranded`.
        pub conductor: String,
        /// Conductors side by side in each turn.
        pub parallel: u32,
        /// Metal of the conductor.
        pub metal: WireMetal,
        /// Where it goes.
        pub placement: Placement,
        /// Insulation between the winding and the core, in millimetres.
        pub ground_mm: f64,
        /// Insulation between two layers, in millimetres.
        pub interlayer_mm: f64,
        /// What a new search must not change.
        #[serde(default)]
        pub pinned: Pinned,
    }
}

/// Metal of a new winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WireMetal {
    /// Copper.
    Copper,
    /// Aluminium.
    Aluminium,
}

/// Where the new winding lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Placement {
    /// Beside the primary, along the limb.
    BesidePrimary,
    /// Over the primary.
    OverPrimary,
    /// At the other end of the tongue, as far from the primary as the window allows.
    FarEnd,
}

/// What a search must leave as it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pinned {
    /// The turns.
    #[serde(default)]
    pub turns: bool,
    /// The conductor.
    #[serde(default)]
    pub conductor: bool,
    /// The number of conductors side by side.
    #[serde(default)]
    pub parallel: bool,
}

no_places! { WireMetal, Placement, Pinned }
