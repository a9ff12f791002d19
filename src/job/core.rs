//! The core and the primary left on it, as measured.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::place::{no_places, records};
use super::reading::Reading;
use crate::quantity::Origin;

records! {
    /// An E-I core with its primary in place. Names as in the drawing in `magnetics::core`.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Core {
        /// Width of the centre limb, in millimetres.
        pub tongue_mm: Reading,
        /// Depth of the pile of laminations, in millimetres.
        pub stack_mm: Reading,
        /// Clear width of one window, from tongue to outer limb, in millimetres.
        pub window_width_mm: Reading,
        /// Clear height of one window, along the limbs, in millimetres.
        pub window_height_mm: Reading,
        /// Width of an outer limb, in millimetres; half the tongue where it was not measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub outer_limb_mm: Option<Reading>,
        /// Width of a yoke, in millimetres; half the tongue where it was not measured.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub yoke_mm: Option<Reading>,
        /// Steel in the stack: net area over gross area.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub stacking_factor: Option<Reading>,
        /// Mass of the bare core, in kilograms.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub mass_kg: Option<Reading>,
        /// Whether the magnetic shunts stay in.
        #[serde(default)]
        pub shunts_kept: bool,
        /// Thickness of one shunt along the limbs, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub shunt_thickness_mm: Option<Reading>,
        /// Length of one shunt along the stack, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub shunt_width_mm: Option<Reading>,
        /// Air gap between a shunt and the limbs, both sides together, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub shunt_gap_mm: Option<Reading>,
        /// Gap left at the seam when the core was put together again, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub seam_gap_mm: Option<Reading>,
        /// The primary left in place.
        pub primary: Primary,
    }

    /// The donor's primary winding.
    #[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct Primary {
        /// Metal of its wire.
        #[serde(default)]
        pub metal: PrimaryMetal,
        /// Diameter of its wire over the enamel, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub wire_diameter_mm: Option<Reading>,
        /// How much of the window height it takes, in millimetres.
        pub height_mm: Reading,
        /// How thick it lies on the tongue, across the window, in millimetres.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub build_mm: Option<Reading>,
        /// Resistance, in ohms.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub resistance_ohm: Option<Reading>,
        /// Temperature at which the resistance was taken, in °C; 20 ± 5 where it was not noted.
        #[serde(default = "room_temperature")]
        pub resistance_at_c: Reading = room_temperature(),
        /// Mains voltage that the donor was made for, in volts.
        pub rated_volts: f64,
        /// Mains frequency that the donor was made for: 50 or 60 Hz.
        pub rated_hertz: u32,
        /// Current it takes with nothing on the secondary, at rated voltage, in amperes.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub idle_current_a: Option<Reading>,
        /// A few turns of hook-up wire put on the core, and what they gave.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub test_turn: Option<TurnsTest>,
        /// Turns counted on the primary itself.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub counted_turns: Option<Reading>,
        /// Turns counted on the old secondary, and its voltage for a primary voltage.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        pub old_secondary: Option<TurnsTest>,
    }

    /// A winding of known turns, its voltage, and the primary's voltage at that moment.
    #[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
    #[serde(deny_unknown_fields)]
    pub struct TurnsTest {
        /// Turns of the winding.
        pub turns: Reading,
        /// Its voltage, in volts r.m.s.
        pub volts: Reading,
        /// The primary's voltage at the same time, in volts r.m.s.
        pub primary_volts: Reading,
    }
}

/// Metal of the primary's wire.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PrimaryMetal {
    /// Copper.
    Copper,
    /// Aluminium.
    Aluminium,
    /// Nobody has looked yet.
    #[default]
    Unknown,
}

no_places! { PrimaryMetal }

/// The temperature of a winding whose temperature was not noted: 20 ± 5 °C.
fn room_temperature() -> Reading {
    Reading::new(20.0, 5.0, Origin::Typical)
}
