//! Lengths from a photo: opening it, finding the object of known size, and reading the stored marks.
//!
//! Begin at [`OpenedPhoto`], a photo on the screen, and [`read_marks`], which turns stored marks into
//! the core's dimensions.

mod combined;
mod handles;
mod live;
mod marks;
mod readings;
mod records;

pub use combined::{CombinedPhotos, CombinedRow, combined_photos};
pub use handles::{default_outline, handles, with_centre_moved, with_handle_moved};
pub use live::{CameraFrame, LiveSession, LiveSight};
pub use marks::{ENOUGH_POINTS, height_on_face};
pub use readings::{Askew, PhotoReadings, PhotoRow, read_marks};
pub use records::MEASURED;

use self::handles::can_lie_on;
use self::marks::{marks_from_stored, point, reference_from_stored, stored_mark, stored_outline};
use crate::job::{DimensionMark, PhotoFound, PhotoMarks, PhotoReference, Place};
use crate::photo::find::core_parts::suggest_face;
use crate::photo::find::{Trust, find_reference_unless};
use crate::photo::image::Flaw;
use crate::photo::measure::core_face::find_core_face;
use crate::photo::measure::core_stack::find_core_stack;
use crate::photo::measure::snap::snap;
use crate::photo::{Cancelled, Dimension, Gray, Photo, Point};
use crate::words::{Explain, Message};

/// A photo that is open on the screen.
#[derive(Debug)]
pub struct OpenedPhoto {
    photo: Photo,
    /// The upright picture in grey, reduced for the screen, as PNG.
    pub png: Vec<u8>,
}

impl OpenedPhoto {
    /// Opens a photo.
    ///
    /// # Errors
    /// A sentence for the person: neither JPEG nor PNG, too large, too small, cut short, damaged.
    pub fn new(bytes: &[u8]) -> Result<Self, Message> {
        Self::new_unless(bytes, &|| false)
    }

    /// Opens a photo, unless `cancelled` says that nobody waits for it any more.
    ///
    /// # Errors
    /// As [`OpenedPhoto::new`], or that it was cancelled.
    pub fn new_unless(bytes: &[u8], cancelled: Cancelled<'_>) -> Result<Self, Message> {
        let photo = Photo::decode_unless(bytes, cancelled).map_err(|error| error.message())?;
        let png = gray_png(
            photo.working(),
            (0, 0),
            (photo.working().width(), photo.working().height()),
        )?;
        Ok(Self { photo, png })
    }

    /// Width and height of the photo, in pixels.
    #[must_use]
    pub fn frame(&self) -> [f64; 2] {
        let full = self.photo.full();
        [full.width() as f64, full.height() as f64]
    }

    /// Empty marks for this photo.
    #[must_use]
    pub fn empty_marks(&self, reference: PhotoReference) -> PhotoMarks {
        let height_mm = height_on_face(&reference);
        PhotoMarks {
            frame: self.frame(),
            focal_35mm: self.photo.focal_35mm(),
            reference,
            found: None,
            height_mm,
            face: None,
            straight: Vec::new(),
            marks: Vec::new(),
            angles: Vec::new(),
            object_doubts: Vec::new(),
            doubts: Vec::new(),
        }
    }

    /// Searches for the object of known size.
    ///
    /// # Errors
    /// A sentence for the person: not found, to be marked by hand, or a size out of range.
    pub fn find(&self, reference: &PhotoReference) -> Result<FoundObject, Message> {
        self.find_unless(reference, &|| false)
    }

    /// Searches for the object of known size, unless `cancelled` says that nobody waits for it any more.
    ///
    /// # Errors
    /// As [`OpenedPhoto::find`], or that it was cancelled.
    pub fn find_unless(&self, reference: &PhotoReference, cancelled: Cancelled<'_>) -> Result<FoundObject, Message> {
        let reference = reference_from_stored(reference)?;
        let object = find_reference_unless(&self.photo, &reference, cancelled).map_err(|error| error.message())?;
        Ok(FoundObject {
            found: stored_outline(&object.outline),
            doubts: object.warnings.iter().map(|warning| warning.word()).collect(),
            doubtful: object.trust == Trust::Doubtful,
        })
    }

    /// The strongest edge near a point, or the point itself.
    #[must_use]
    pub fn snapped(&self, place: Place) -> Place {
        let radius = (self.frame()[0].max(self.frame()[1]) / 200.0).max(4.0);
        snap(self.photo.full(), point(place), None, radius).map_or(place, |found| [found.place.x, found.place.y])
    }

    /// Proposed marks of the core's parts inside a face's four corners; empty where the corners make
    /// no face.
    #[must_use]
    pub fn propose_parts(&self, face: [Place; 4]) -> Vec<DimensionMark> {
        let Some(found) = suggest_face(self.photo.full(), &face.map(point)) else {
            return Vec::new();
        };
        [
            (Dimension::Tongue, found.tongue),
            (Dimension::WindowWidth, found.left_window),
            (Dimension::WindowWidth, found.right_window),
            (Dimension::WindowHeight, found.window_height),
        ]
        .into_iter()
        .map(|(dimension, [a, b])| {
            // The proposal assumes a symmetric face; the edges themselves need not be.
            let reach = a.distance(b) * 0.12;
            let edge = |p: Point| snap(self.photo.full(), p, Some(b - a), reach).map_or(p, |found| found.place);
            let (a, b) = (edge(a), edge(b));
            DimensionMark {
                dimension: dimension.word().to_owned(),
                points: vec![[a.x, a.y], [b.x, b.y]],
            }
        })
        .collect()
    }

    /// Searches for the core's face, with the scale of the object of known size; `None` where the object
    /// is not marked yet, nothing looks like a core, or `cancelled` says that nobody waits for it.
    #[must_use]
    pub fn find_core(&self, marks: &PhotoMarks, cancelled: Cancelled<'_>) -> Option<FoundCore> {
        let (converted, _) = marks_from_stored(marks).ok()?;
        let scale = converted.scale().ok()?;
        let face = find_core_face(&self.photo, &scale, &converted.outline, cancelled)?;
        let places = |corners: [Point; 4]| corners.map(|corner| [corner.x, corner.y]);
        let mut doubts: Vec<&'static str> = face.doubts.iter().map(|doubt| doubt.word()).collect();
        let corners = places(face.corners);
        let said_on = marks.height_mm == height_on_face(&marks.reference);
        if said_on && marks.found.as_ref().is_some_and(|found| !can_lie_on(found, &corners)) {
            doubts.push("core-level");
        }
        Some(FoundCore {
            face: corners,
            windows: face.windows.map(places),
            marks: face.marks.iter().map(stored_mark).collect(),
            doubts,
        })
    }

    /// Searches for the stack in a photo of the core's side, with the scale of the object of known size; `None`
    /// where the object is not marked yet, nothing looks like a pile of sheets, or `cancelled` says that nobody
    /// waits for it.
    #[must_use]
    pub fn find_stack(&self, marks: &PhotoMarks, cancelled: Cancelled<'_>) -> Option<FoundStack> {
        let (converted, _) = marks_from_stored(marks).ok()?;
        let scale = converted.scale().ok()?;
        let stack = find_core_stack(&self.photo, &scale, &converted.outline, cancelled)?;
        Some(FoundStack {
            mark: stored_mark(&stack.mark),
            doubts: stack.doubts.iter().map(|doubt| doubt.word()).collect(),
        })
    }

    /// The surroundings of a point at full size, as a PNG of `side` pixels square, and the point's
    /// position in it.
    ///
    /// # Errors
    /// A sentence where the PNG cannot be encoded.
    pub fn closeup(&self, place: Place, side: usize) -> Result<(Vec<u8>, Place), Message> {
        let full = self.photo.full();
        let start = |at: f64, most: usize| {
            let first = (at - side as f64 / 2.0).round().max(0.0) as usize;
            first.min(most.saturating_sub(side))
        };
        let (x, y) = (start(place[0], full.width()), start(place[1], full.height()));
        let size = (side.min(full.width()), side.min(full.height()));
        let png = gray_png(full, (x, y), size)?;
        Ok((png, [place[0] - x as f64, place[1] - y as f64]))
    }
}

/// Whether a person must compare the outline of the object with the photo before its lengths count.
#[must_use]
pub fn object_is_doubtful(marks: &PhotoMarks) -> bool {
    // Glare and darkness are the photo's; the outline was found all the same.
    let light = [Flaw::Glare.word(), Flaw::Dark.word()];
    marks.object_doubts.iter().any(|doubt| !light.contains(&doubt.as_str()))
}

/// Encodes a part of a grey picture as PNG.
fn gray_png(gray: &Gray, from: (usize, usize), size: (usize, usize)) -> Result<Vec<u8>, Message> {
    let failed = |error: png::EncodingError| {
        tracing::error!("a picture: {error}");
        Message::new("refused-picture-shown")
    };
    let mut bytes = Vec::new();
    let side = |pixels: usize| u32::try_from(pixels).unwrap_or(u32::MAX);
    let mut encoder = png::Encoder::new(&mut bytes, side(size.0), side(size.1));
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    encoder.set_compression(png::Compression::Fast);
    let mut writer = encoder.write_header().map_err(failed)?;
    let mut pixels = Vec::with_capacity(size.0 * size.1);
    for y in from.1..from.1 + size.1 {
        pixels.extend_from_slice(gray.row(y).get(from.0..from.0 + size.0).unwrap_or_default());
    }
    writer.write_image_data(&pixels).map_err(failed)?;
    writer.finish().map_err(failed)?;
    Ok(bytes)
}

/// The core's face as found.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundCore {
    /// The four corners of the face.
    pub face: [Place; 4],
    /// The corners of the two windows.
    pub windows: [[Place; 4]; 2],
    /// The dimensions whose edges were found.
    pub marks: Vec<DimensionMark>,
    /// Identifiers of the reasons for doubt: a person must compare the marks with the photo where there
    /// are any.
    pub doubts: Vec<&'static str>,
}

/// The stack as found.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundStack {
    /// Its two edges.
    pub mark: DimensionMark,
    /// Identifiers of the reasons for doubt, as in [`FoundCore`].
    pub doubts: Vec<&'static str>,
}

/// The object of known size as found.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundObject {
    /// Its outline.
    pub found: PhotoFound,
    /// Identifiers of the reasons for doubt and of the photo's defects.
    pub doubts: Vec<&'static str>,
    /// Whether a person must compare it with the picture.
    pub doubtful: bool,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::Reading;
    use crate::quantity::Origin;

    const RENDERED: &[u8] = include_bytes!("../../../tests/reference/photo/rectangle.png");

    /// The rendered rectangle's own sides are measured as given, and stored marks are read back
    /// unchanged.
    #[test]
    fn a_rectangle_measures_itself() {
        let opened = OpenedPhoto::new(RENDERED).unwrap();
        let own = |mm: f64| Reading::new(mm, 0.1, Origin::Calipers);
        let reference = PhotoReference::Rectangle {
            width_mm: own(60.0),
            height_mm: own(40.0),
        };
        let mut marks = opened.empty_marks(reference);
        marks.height_mm = Reading::new(0.0, 0.1, Origin::Chosen);
        let object = opened.find(&marks.reference).unwrap();
        let PhotoFound::Rectangle { corners } = object.found.clone() else {
            panic!("{object:?}")
        };
        marks.found = Some(object.found);
        marks.marks = vec![
            DimensionMark {
                dimension: "tongue".to_owned(),
                points: vec![corners[0], corners[1]],
            },
            DimensionMark {
                dimension: "stack".to_owned(),
                points: vec![corners[1], corners[2]],
            },
        ];
        let again: PhotoMarks = serde_json::from_str(&serde_json::to_string(&marks).unwrap()).unwrap();
        assert_eq!(again, marks);
        let answer = read_marks(&marks).unwrap();
        let mut sides: Vec<Reading> = answer.rows.iter().map(|row| *row.reading.as_ref().unwrap()).collect();
        sides.sort_by(|a, b| a.value.total_cmp(&b.value));
        for (side, truth) in sides.iter().zip([40.0, 60.0]) {
            assert!(
                (side.value - truth).abs() <= side.plus_minus && side.plus_minus < 3.0,
                "{side:?} for {truth}"
            );
            assert_eq!(side.origin, Origin::Photo);
        }
    }

    #[test]
    fn errors_have_their_texts() {
        for (bytes, key) in [
            (&b"GIF89a"[..], "refused-picture"),
            (&RENDERED[..2000], "refused-picture-cut"),
        ] {
            assert_eq!(OpenedPhoto::new(bytes).unwrap_err().key, key);
        }
        let opened = OpenedPhoto::new(RENDERED).unwrap();
        let coin = PhotoReference::Coin {
            coin: "shell-1".to_owned(),
        };
        assert_eq!(opened.find(&coin).unwrap_err().key, "refused-no-reference");
        let unmarked = read_marks(&opened.empty_marks(PhotoReference::Card)).unwrap_err();
        assert_eq!(unmarked.key, "refused-mark-object");
    }
}
