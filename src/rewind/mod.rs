//! The search for a winding: what each use asks, what may not be exceeded, and the ranking.

pub mod goal;
pub mod handwork;
pub mod heat;
pub mod limits;
pub mod search;
pub mod warnings;
