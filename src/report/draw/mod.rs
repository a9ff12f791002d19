//! Drawings as SVG text: pure functions, the same in the app, on the printed page and in a file.
//!
//! Colours are CSS classes, so that a drawing follows light, dark and paper; the stylesheet is
//! `assets/drawing.css`.

mod bar;
mod core_form;
mod curve;
mod icon;
mod isometric;
mod phasing;
mod plot;
mod section;
mod steps;
mod stop_sign;
mod svg;
mod term;
mod trace;
mod wiring;

pub use bar::{Bar, bar};
pub use core_form::{LengthLook, core_form, jaws};
pub use curve::{CurvePlot, voltage_plot};
pub use icon::{Icon, icon};
pub use isometric::{core_isometric, core_picture};
pub use phasing::phasing;
pub use plot::{Curve, Plot, plot};
pub use section::{SoFar, coil_section, coil_so_far, core_section, section_so_far};
pub use steps::{oven_becomes, oven_picture, stage_drawing, step_drawing};
pub use stop_sign::stop_sign;
pub use svg::{Svg, escape};
pub use term::term_drawing;
pub use wiring::{Behind, Feeds, Wiring, wiring};
