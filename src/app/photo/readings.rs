//! Dimensions, angles and warnings computed from the marks on a photo.

use super::marks::{marks_from_stored, point};
use crate::job::{PhotoMarks, Reading};
use crate::photo::measure::{angle, gap};
use crate::photo::scale::Scale;
use crate::photo::{Dimension, Lens, Marks, Span};
use crate::quantity::{Angle, Measured, Origin, VarianceShare};
use crate::words::{Explain, Message};

/// A dimension of the core from a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoRow {
    /// The dimension's identifier.
    pub dimension: &'static str,
    /// The path of the job's number that it fills.
    pub path: &'static str,
    /// Millimetres, ± and origin; or the reason why there is none.
    pub reading: Result<Reading, Message>,
    /// The largest contributors to the ±.
    pub variance_shares: Vec<VarianceShare>,
}

/// Everything computed from the marks on a photo.
#[derive(Debug, Clone, PartialEq)]
pub struct PhotoReadings {
    /// The core's dimensions.
    pub rows: Vec<PhotoRow>,
    /// Warnings, as sentences.
    pub warnings: Vec<Message>,
    /// Angle between the line of sight and the face's normal, in degrees, where determined.
    pub viewing_angle: Option<f64>,
    /// The lens's distortion at the picture's corner and its ±, in per cent, where straight edges or
    /// the printed target determined it.
    pub lens: Option<[f64; 2]>,
    /// Edges marked as parallel that deviate by more than their ±.
    pub askew: Vec<Askew>,
    /// The marked angles in degrees with their ±, 0 to 90; or the reason why there is none.
    pub angles: Vec<Result<[f64; 2], Message>>,
}

/// Two edges that are not parallel: their distance depends on where it is taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Askew {
    /// The dimension's identifier.
    pub dimension: &'static str,
    /// The angle between them and its ±, in degrees.
    pub degrees: [f64; 2],
}

/// Finds edges marked as parallel that are not.
fn askew(marks: &Marks, scale: &Scale) -> Vec<Askew> {
    let edges = marks.marks.iter().filter_map(|mark| match &mark.span {
        Span::Edges([first, second]) => Some((mark.dimension, gap(scale, first, second).ok()?)),
        Span::Points(_) => None,
    });
    edges
        .filter(|(_, gap)| gap.is_askew())
        .map(|(dimension, gap)| Askew {
            dimension: dimension.word(),
            degrees: degrees(gap.out_of_parallel),
        })
        .collect()
}

fn degrees(angle: Measured<Angle>) -> [f64; 2] {
    [angle.value.degrees(), angle.plus_minus.degrees()]
}

/// Computes the core's dimensions from stored marks.
///
/// # Errors
/// A sentence for the person where the marks give no scale: no outline, an unknown object, corners
/// that make no quadrilateral, a height or size out of range.
pub fn read_marks(stored: &PhotoMarks) -> Result<PhotoReadings, Message> {
    let (marks, bent) = marks_from_stored(stored)?;
    let scale = marks.scale().map_err(|error| error.message())?;
    let rows = marks
        .readings(&scale)
        .into_iter()
        .map(|(dimension, found)| {
            let (reading, variance_shares) = match found {
                Ok(found) => {
                    let length = found.length.length;
                    let reading = Reading::new(length.value.mm(), length.plus_minus.mm(), Origin::Photo);
                    (Ok(reading), found.length.variance_shares)
                }
                Err(error) => (Err(error.message()), Vec::new()),
            };
            PhotoRow {
                dimension: dimension.word(),
                path: path_of(dimension),
                reading,
                variance_shares,
            }
        })
        .collect();
    Ok(PhotoReadings {
        rows,
        warnings: scale
            .warnings
            .iter()
            .map(Explain::message)
            .chain(bent.map(|error| error.message()))
            .collect(),
        lens: (scale.lens != Lens::default()).then_some([100.0 * scale.lens.k, 100.0 * scale.lens.plus_minus]),
        askew: askew(&marks, &scale),
        angles: stored
            .angles
            .iter()
            .map(|points| {
                let [a, b, c, d] = points.map(point);
                let found = angle(&scale, &[a, b], &[c, d]);
                found.map(degrees).map_err(|error| error.message())
            })
            .collect(),
        viewing_angle: scale.viewing_angle.map(|angle| angle.degrees()),
    })
}

pub(super) const fn path_of(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Tongue => "core.tongue_mm",
        Dimension::Stack => "core.stack_mm",
        Dimension::WindowWidth => "core.window_width_mm",
        Dimension::WindowHeight => "core.window_height_mm",
        Dimension::OuterLimb => "core.outer_limb_mm",
        Dimension::Yoke => "core.yoke_mm",
    }
}

#[cfg(test)]
mod tests {
    use super::super::marks::card_from_above;
    use super::*;
    use crate::job::{DimensionMark, Place};

    /// A point in millimetres across and down, seen from straight above at ten pixels per millimetre.
    fn at(x: f64, y: f64) -> Place {
        [x * 10.0, y * 10.0]
    }

    fn photo() -> PhotoMarks {
        card_from_above(at)
    }

    fn tongue(points: Vec<Place>) -> PhotoReadings {
        let mut marks = photo();
        marks.marks.push(DimensionMark {
            dimension: "tongue".to_owned(),
            points,
        });
        read_marks(&marks).unwrap()
    }

    /// Two edges 30 mm apart by their equations; points along them at different heights, so that
    /// no two lie across from each other.
    #[test]
    fn the_length_between_parallel_edges_is_across_them() {
        let found = tongue(vec![
            at(150.0, 100.0),
            at(150.0, 160.0),
            at(180.0, 130.0),
            at(180.0, 190.0),
        ]);
        let reading = found.rows[0].reading.clone().unwrap();
        assert!((reading.value - 30.0).abs() < 0.05, "{reading:?}");
        assert!(reading.plus_minus > 0.05 && reading.plus_minus < 1.0, "{reading:?}");
        assert_eq!(found.askew, []);
    }

    /// The second edge leans by atan(6/60), 5.71°.
    #[test]
    fn edges_that_are_not_parallel_are_told() {
        let found = tongue(vec![
            at(150.0, 100.0),
            at(150.0, 160.0),
            at(180.0, 100.0),
            at(186.0, 160.0),
        ]);
        let [askew] = found.askew[..] else {
            panic!("{:?}", found.askew)
        };
        assert_eq!(askew.dimension, "tongue");
        let [value, half] = askew.degrees;
        assert!((value - 5.71).abs() < 0.05 && half < value, "{value} ± {half}");
    }

    /// A right angle, and atan(1/2), 26.57°.
    #[test]
    fn angles_are_those_on_the_face() {
        let mut marks = photo();
        marks.angles = vec![
            [at(150.0, 200.0), at(210.0, 200.0), at(150.0, 200.0), at(150.0, 140.0)],
            [at(150.0, 200.0), at(210.0, 200.0), at(150.0, 200.0), at(210.0, 170.0)],
            [at(150.0, 200.0), at(150.0, 200.0), at(150.0, 200.0), at(210.0, 170.0)],
        ];
        let again: PhotoMarks = serde_json::from_str(&serde_json::to_string(&marks).unwrap()).unwrap();
        assert_eq!(again, marks);
        let angles = read_marks(&again).unwrap().angles;
        for (found, truth) in angles.iter().zip([90.0, 26.57]) {
            let [value, half] = *found.as_ref().unwrap();
            assert!(
                (value - truth).abs() < half && half < 1.0,
                "{value} ± {half} for {truth}"
            );
        }
        let trouble = angles[2].as_ref().unwrap_err();
        assert_eq!(trouble.key, "refused-mark-few");
    }

    #[test]
    fn a_mark_with_a_point_missing_is_named() {
        let mut marks = photo();
        marks.marks.push(DimensionMark {
            dimension: "yoke".to_owned(),
            points: vec![at(1.0, 1.0), at(2.0, 2.0), at(3.0, 3.0)],
        });
        let trouble = read_marks(&marks).unwrap_err();
        assert_eq!(trouble.key, "refused-mark-points");
        assert!(trouble.to_string().ends_with("yoke"), "{trouble}");
    }
}
