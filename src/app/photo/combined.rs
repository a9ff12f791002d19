//! The core's dimensions from all its photos together.

use super::marks::marks_from_stored;
use super::object_is_doubtful;
use super::readings::path_of;
use crate::job::{PhotoMarks, PhotoReference, Reading};
use crate::photo::Dimension;
use crate::photo::measure::combined::{OnePhoto, combined};
use crate::quantity::{Origin, VarianceShare};

/// A dimension of the core from two or more photos.
#[derive(Debug, Clone, PartialEq)]
pub struct CombinedRow {
    /// The dimension's identifier.
    pub dimension: &'static str,
    /// The path of the job's number that it fills.
    pub path: &'static str,
    /// Millimetres and ±, own and common errors together.
    pub reading: Reading,
    /// Half-width from the photos' own errors, in millimetres.
    pub own_mm: f64,
    /// Half-width from the errors common to the photos, in millimetres.
    pub common_mm: f64,
    /// The common causes with their shares of the variance, largest first.
    pub variance_shares: Vec<VarianceShare>,
    /// Number of photos whose mean it is.
    pub photos: usize,
    /// Whether the photos differ more than their own errors explain.
    pub differ: bool,
}

/// The dimensions from all photos of a core together.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct CombinedPhotos {
    /// A row for each dimension that at least two photos give.
    pub rows: Vec<CombinedRow>,
    /// Number of photos left out because a person has not compared their marks yet.
    pub doubtful: usize,
}

/// Combines the dimensions of a core over its photos. Photos without a scale are passed over.
#[must_use]
pub fn combined_photos(photos: &[PhotoMarks]) -> CombinedPhotos {
    let (doubtful, sure): (Vec<&PhotoMarks>, Vec<&PhotoMarks>) = photos
        .iter()
        .partition(|marks| !marks.doubts.is_empty() || object_is_doubtful(marks));
    let mut references: Vec<&PhotoReference> = Vec::new();
    let mut singles: Vec<(Dimension, OnePhoto)> = Vec::new();
    for stored in sure {
        let Ok((marks, _)) = marks_from_stored(stored) else {
            continue;
        };
        let Ok(scale) = marks.scale() else { continue };
        let group = references
            .iter()
            .position(|reference| **reference == stored.reference)
            .unwrap_or_else(|| {
                references.push(&stored.reference);
                references.len() - 1
            });
        for (dimension, reading) in marks.readings(&scale) {
            if let Ok(reading) = reading {
                let length = reading.length;
                singles.push((dimension, OnePhoto { length, group }));
            }
        }
    }
    let row = |dimension: Dimension| {
        let of_it = singles.iter().filter(|(which, _)| *which == dimension);
        let photos: Vec<OnePhoto> = of_it.map(|(_, photo)| photo.clone()).collect();
        let found = combined(&photos).filter(|_| photos.len() > 1)?;
        Some(CombinedRow {
            dimension: dimension.word(),
            path: path_of(dimension),
            reading: Reading::new(found.length.value.mm(), found.length.plus_minus.mm(), Origin::Photo),
            own_mm: found.own.mm(),
            common_mm: found.common.mm(),
            variance_shares: found.variance_shares,
            photos: found.taken.len(),
            differ: found.differ,
        })
    };
    CombinedPhotos {
        rows: Dimension::ALL.into_iter().filter_map(row).collect(),
        doubtful: doubtful.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::marks::card_from_above;
    use super::super::read_marks;
    use super::*;
    use crate::job::{DimensionMark, Place};

    /// A photo with a tongue of this width marked along its edges, at ten pixels to the millimetre; the face
    /// is level with the card to 2 mm.
    fn photo(width: f64) -> PhotoMarks {
        let at = |x: f64, y: f64| -> Place { [x * 10.0, y * 10.0] };
        let mut marks = card_from_above(at);
        marks.height_mm.plus_minus = 2.0;
        marks.marks = vec![DimensionMark {
            dimension: "tongue".to_owned(),
            points: vec![
                at(150.0, 100.0),
                at(150.0, 160.0),
                at(150.0 + width, 100.0),
                at(150.0 + width, 160.0),
            ],
        }];
        marks
    }

    /// Three photos with the same reference: the common part is that of one photo, the own part is smaller by the
    /// root of three (JCGM 100:2008, 4.2.3), and both make up the ±.
    #[test]
    fn own_errors_average_out_and_common_ones_stay() {
        let pair = combined_photos(&[photo(30.0), photo(30.0)]).rows.remove(0);
        let three = combined_photos(&[photo(30.0), photo(30.0), photo(30.0)]).rows.remove(0);
        assert_eq!(
            (three.dimension, three.path, three.photos),
            ("tongue", "core.tongue_mm", 3)
        );
        assert!((three.common_mm / pair.common_mm - 1.0).abs() < 1e-9, "{three:?}");
        assert!((pair.own_mm / three.own_mm - 1.5_f64.sqrt()).abs() < 1e-9, "{three:?}");
        let alone = read_marks(&photo(30.0)).unwrap().rows.remove(0).reading.unwrap();
        assert!(three.common_mm < three.reading.plus_minus && three.reading.plus_minus < alone.plus_minus);
        let whole = three.own_mm.hypot(three.common_mm);
        assert!((three.reading.plus_minus - whole).abs() < 1e-9 && (three.reading.value - 30.0).abs() < 0.05);
    }

    /// A photo that is still to be compared is left out and counted; one alone gives no row.
    #[test]
    fn doubtful_photos_are_left_out() {
        let mut doubtful = photo(36.0);
        doubtful.doubts.push("core-uneven".to_owned());
        let found = combined_photos(&[photo(30.0), doubtful.clone(), photo(30.0)]);
        assert_eq!((found.rows[0].photos, found.doubtful), (2, 1));
        assert!((found.rows[0].reading.value - 30.0).abs() < 0.05);
        let alone = combined_photos(&[photo(30.0), doubtful]);
        assert_eq!((alone.rows, alone.doubtful), (Vec::new(), 1));
        // The same for the object of known size; glare alone is no doubt about it.
        for (word, count) in [("second-as-likely", 1), ("glare", 0)] {
            let mut other = photo(30.0);
            other.object_doubts.push(word.to_owned());
            assert_eq!(combined_photos(&[photo(30.0), other]).doubtful, count, "{word}");
        }
    }

    #[test]
    fn photos_that_differ_are_told() {
        let found = combined_photos(&[photo(30.0), photo(31.0)]);
        assert!(found.rows[0].differ, "{found:?}");
        assert!(!combined_photos(&[photo(30.0), photo(30.05)]).rows[0].differ);
    }
}
