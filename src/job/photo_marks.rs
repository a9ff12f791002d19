//! What a person marked on a photo of a core: the object of known size, where it lies, and the
//! core's edges. Places are pixels right and down from the centre of the photo's upper left pixel.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::check::{Check, check_text};
use super::fields::FieldError;
use super::reading::Reading;

/// A place in a photo: across, down.
pub type Place = [f64; 2];

/// The object of known size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum PhotoReference {
    /// A bank or identity card.
    Card,
    /// A sheet of paper.
    Paper {
        /// `a4`, `letter`, ...
        size: String,
    },
    /// A coin.
    Coin {
        /// Its word in the list of coins.
        coin: String,
    },
    /// Any rectangle.
    Rectangle {
        /// One side, in millimetres.
        width_mm: Reading,
        /// The other, in millimetres.
        height_mm: Reading,
    },
    /// Any disc.
    Disc {
        /// Across it, in millimetres.
        diameter_mm: Reading,
    },
    /// Two marks of a rule.
    Rule {
        /// From one to the other, in millimetres.
        length_mm: Reading,
    },
    /// The printed target.
    Target {
        /// The paper that it was printed on: `a4` or `letter`.
        sheet: String,
        /// Its check lines as measured on the print, in millimetres; drawn 100 mm long.
        check_mm: Reading,
    },
}

/// Where the object lies.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "kind", rename_all = "snake_case", deny_unknown_fields)]
pub enum PhotoFound {
    /// A rectangle by its corners, round its outline.
    Rectangle {
        /// The corners.
        corners: [Place; 4],
    },
    /// A disc by its outline.
    Ellipse {
        /// The middle.
        centre: Place,
        /// Half the long axis and half the short one, in pixels.
        half_axes: [f64; 2],
        /// The long axis's angle, in radians.
        angle: f64,
    },
    /// The printed target by its corners.
    Lattice {
        /// Column, row, across, down.
        corners: Vec<(i32, i32, f64, f64)>,
    },
    /// Two marks of a rule.
    Marks {
        /// The marks.
        points: [Place; 2],
    },
}

/// One dimension of the core, from edge to edge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DimensionMark {
    /// `tongue`, `stack`, `window_width`, `window_height`, `outer_limb` or `yoke`.
    pub dimension: String,
    /// From, to; or, between two parallel edges, two points along the one and two along the other.
    #[schemars(length(min = 2, max = 4))]
    pub points: Vec<Place>,
}

/// Everything that was marked on one photo.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PhotoMarks {
    /// Width and height of the photo, in pixels.
    pub frame: [f64; 2],
    /// The camera's focal length as on 35 mm film, in millimetres, where the photo says.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub focal_35mm: Option<f64>,
    /// The object of known size.
    pub reference: PhotoReference,
    /// Where it lies; none until it was found or marked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub found: Option<PhotoFound>,
    /// How much nearer to the camera the core's face lies than the object's upper face, in
    /// millimetres.
    pub height_mm: Reading,
    /// The face's four corners, round its outline, where they were marked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub face: Option<[Place; 4]>,
    /// Edges that are straight on the part, each by points along it: how the lens bends them tells
    /// its distortion.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub straight: Vec<Vec<Place>>,
    /// The core's dimensions.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub marks: Vec<DimensionMark>,
    /// Angles: two points along one edge, two along the other.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub angles: Vec<[Place; 4]>,
    /// Reasons to compare the object's outline with the photo, and the photo's defects, by their words, until a
    /// person has moved or confirmed it.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub object_doubts: Vec<String>,
    /// Reasons to compare the marks of a core that was found by itself with the photo, by their words; none
    /// where there are no reasons, or where a person has compared them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub doubts: Vec<String>,
}

/// The most pixels along a side of a photo.
const LARGEST_SIDE: f64 = 100_000.0;
/// How far a mark may lie from the photo's middle, in pixels: handles may be dragged off its edge.
const FARTHEST: f64 = 1_000_000.0;
/// The longest size or height, in millimetres, and its largest ±.
const LONGEST_MM: f64 = 1_000.0;
const WIDEST_MM: f64 = 100.0;
/// The most marks of a kind, and points of one.
const MOST: usize = 1_000;

fn between(path: &str, value: f64, min: f64, max: f64, unit: &'static str) -> Result<(), FieldError> {
    let path = path.to_owned();
    if !value.is_finite() {
        return Err(FieldError::NotFinite { path, min, max, unit });
    }
    if !(min..=max).contains(&value) {
        return Err(FieldError::OutOfRange {
            path,
            value,
            min,
            max,
            unit,
        });
    }
    Ok(())
}

fn length(path: &str, reading: &Reading) -> Result<(), FieldError> {
    between(path, reading.value, -LONGEST_MM, LONGEST_MM, "mm")?;
    if !(0.0..=WIDEST_MM).contains(&reading.plus_minus) {
        return Err(FieldError::BadSpread {
            path: path.to_owned(),
            plus_minus: reading.plus_minus,
            widest: WIDEST_MM,
            unit: "mm",
        });
    }
    Ok(())
}

fn few(path: &str, count: usize) -> Result<(), FieldError> {
    between(path, count as f64, 0.0, MOST as f64, "")
}

fn places<'a>(path: &str, places: impl IntoIterator<Item = &'a Place>) -> Result<(), FieldError> {
    places
        .into_iter()
        .flatten()
        .try_for_each(|pixel| between(path, *pixel, -FARTHEST, FARTHEST, "px"))
}

impl Check for PhotoMarks {
    fn check(&self) -> Result<(), FieldError> {
        for side in self.frame {
            between("marks.frame", side, 1.0, LARGEST_SIDE, "px")?;
        }
        if let Some(focal) = self.focal_35mm {
            between("marks.focal_35mm", focal, 1.0, 10_000.0, "mm")?;
        }
        length("marks.height_mm", &self.height_mm)?;
        self.reference.check()?;
        self.found.as_ref().map_or(Ok(()), Check::check)?;
        places("marks.face", self.face.iter().flatten())?;
        few("marks.straight", self.straight.len())?;
        for edge in &self.straight {
            few("marks.straight", edge.len())?;
            places("marks.straight", edge)?;
        }
        few("marks.marks", self.marks.len())?;
        for mark in &self.marks {
            check_text("marks.marks.dimension", &mark.dimension, 60, true)?;
            between("marks.marks.points", mark.points.len() as f64, 2.0, 4.0, "points")?;
            places("marks.marks.points", &mark.points)?;
        }
        few("marks.angles", self.angles.len())?;
        places("marks.angles", self.angles.iter().flatten())?;
        for (path, doubts) in [
            ("marks.object_doubts", &self.object_doubts),
            ("marks.doubts", &self.doubts),
        ] {
            few(path, doubts.len())?;
            doubts.iter().try_for_each(|doubt| check_text(path, doubt, 60, true))?;
        }
        Ok(())
    }
}

impl Check for PhotoReference {
    fn check(&self) -> Result<(), FieldError> {
        let word = |word: &str| check_text("marks.reference", word, 60, true);
        let size = |reading: &Reading| length("marks.reference", reading);
        match self {
            PhotoReference::Card => Ok(()),
            PhotoReference::Paper { size } => word(size),
            PhotoReference::Coin { coin } => word(coin),
            PhotoReference::Rectangle { width_mm, height_mm } => size(width_mm).and_then(|()| size(height_mm)),
            PhotoReference::Disc { diameter_mm } => size(diameter_mm),
            PhotoReference::Rule { length_mm } => size(length_mm),
            PhotoReference::Target { sheet, check_mm } => word(sheet).and_then(|()| size(check_mm)),
        }
    }
}

impl Check for PhotoFound {
    fn check(&self) -> Result<(), FieldError> {
        match self {
            PhotoFound::Rectangle { corners } => places("marks.found", corners),
            PhotoFound::Ellipse {
                centre,
                half_axes,
                angle,
            } => {
                places("marks.found", [centre, half_axes])?;
                between("marks.found", *angle, -FARTHEST, FARTHEST, "rad")
            }
            PhotoFound::Lattice { corners } => {
                few("marks.found", corners.len())?;
                corners
                    .iter()
                    .try_for_each(|(_, _, across, down)| places("marks.found", [&[*across, *down]]))
            }
            PhotoFound::Marks { points } => places("marks.found", points),
        }
    }
}
