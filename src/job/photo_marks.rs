//! What a person marked on a photo of a core: the object of known size, where it lies, and the
//! core's edges. Places are pixels right and down from the centre of the photo's upper left pixel.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

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
}
