//! Wire on the core: the donor's primary and the new winding.
//!
//! Begin with [`Winding`] and [`Layers`] (`layers.rs`): where the new winding lies in the window, how
//! it is layered, what wire it takes. [`primary`] finds the turns of the old one. [`skin`] has the
//! resistance at mains frequency, [`short_time`] the heating of a conductor in times too short to
//! lose heat.

mod layers;
pub mod primary;
pub mod short_time;
pub mod skin;

pub use layers::*;
