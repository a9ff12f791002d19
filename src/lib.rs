//! Curbcore: from a scrapped microwave oven's transformer to a winding that suits its new use.
//!
//! The modules and which may use which are in DEVELOPERS.md; `tests/house/layering.rs` refuses any other
//! use. Three examples lead into them.
//!
//! # From a core to a winding
//!
//! A job holds what was measured, with its uncertainty, and what the transformer is to become. The
//! evaluation has the windings that fit the window, the best first, and one of them in full.
//!
//! ```
//! use curbcore::app::evaluation::evaluate;
//! use curbcore::app::start::demo_job;
//! use curbcore::job::Reading;
//! use curbcore::quantity::Origin;
//!
//! let mut job = demo_job();
//! job.core.stack_mm = Reading::new(60.0, 0.2, Origin::Calipers);
//! let evaluation = evaluate(&job)?;
//! let design = evaluation.design.as_ref().expect("a winding fits into this core");
//!
//! // The voltage without load is that of one turn times the turns, and has an uncertainty.
//! let (open, turn) = (design.estimate.open_circuit, design.estimate.volts_per_turn);
//! let turns = f64::from(design.candidate.winding.turns);
//! assert!((open.value.si() - turns * turn.value.si()).abs() < 1e-9);
//! assert!(open.plus_minus.si() > 0.0);
//! # Ok::<(), curbcore::wire::UnknownConductor>(())
//! ```
//!
//! # From a photo to millimetres
//!
//! A photo shows an object of known size; what lies in the same plane is measured by it. Here the object is
//! a rectangle of 60 mm by 40 mm, and its own longer side is measured.
//!
//! ```
//! use curbcore::app::photo::{OpenedPhoto, read_marks};
//! use curbcore::job::{DimensionMark, PhotoFound, PhotoReference, Reading};
//! use curbcore::quantity::Origin;
//!
//! let bytes = include_bytes!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/photo/rectangle.png"));
//! let photo = OpenedPhoto::new(bytes)?;
//! let side = |mm| Reading::new(mm, 0.1, Origin::Calipers);
//! let mut marks = photo.empty_marks(PhotoReference::Rectangle { width_mm: side(60.0), height_mm: side(40.0) });
//! let found = photo.find(&marks.reference)?.found;
//! let PhotoFound::Rectangle { corners } = found else { panic!("it is a rectangle") };
//! marks.found = Some(PhotoFound::Rectangle { corners });
//! marks.marks = vec![DimensionMark { dimension: "tongue".to_owned(), points: corners[..2].to_vec() }];
//!
//! let tongue = read_marks(&marks)?.rows[0].reading.clone()?;
//! let truth = if (tongue.value - 60.0).abs() < 10.0 { 60.0 } else { 40.0 };
//! assert!((tongue.value - truth).abs() <= tongue.plus_minus);
//! # Ok::<(), curbcore::words::Message>(())
//! ```
//!
//! # Two histories merged
//!
//! Two devices change the same record without knowing of each other. The merge keeps both changes; where
//! both changed one field, both values stay until a person chooses.
//!
//! ```
//! use curbcore::merge::{Device, RecordHistory, Stamp};
//! use serde_json::json;
//!
//! let by = |count, device| Stamp { count, device: Device(device) };
//! let values = [("name".to_owned(), json!("welder")), ("note".to_owned(), json!(""))];
//! let first = RecordHistory::new(by(1, 0xA), values);
//! let (mut phone, mut desktop) = (first.clone(), first);
//! phone.write(by(2, 0xA), "name", json!("tab welder"));
//! desktop.write(by(2, 0xB), "note", json!("from the green oven"));
//! desktop.write(by(3, 0xB), "name", json!("spot welder"));
//!
//! let merged = phone.merge(&desktop);
//! assert_eq!(merged, desktop.merge(&phone), "the order does not matter");
//! assert_eq!(merged.shown("note"), Some(&json!("from the green oven")));
//! assert_eq!(merged.entries("name").len(), 2, "both names are kept");
//! ```

pub mod app;
pub mod bench;
pub mod exchange;
pub mod job;
pub mod magnetics;
pub mod merge;
pub mod photo;
pub mod procedure;
pub mod quantity;
pub mod report;
pub mod rewind;
pub mod safety;
pub mod sizeup;
pub mod store;
pub mod teardown;
pub mod text;
#[cfg(feature = "ui")]
pub mod ui;
pub mod wind;
pub mod wire;
pub mod words;
