//! The physics of the rebuilt transformer: pure functions over quantities, each beside its source.
//!
//! Begin with [`circuit::performance`]: a core, its primary, the mains and a new winding go in, and
//! what the finished machine does comes out. [`core`] and [`winding`] are what it is made of;
//! [`idle`], [`heat`], [`rectifier`], [`inductor`] and [`pairs`] each answer one question more.

pub mod circuit;
pub mod core;
pub mod heat;
pub mod idle;
pub mod inductor;
pub mod numeric;
pub mod pairs;
pub mod rectifier;
pub mod winding;
