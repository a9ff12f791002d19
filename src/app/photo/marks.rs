//! Conversion between stored marks and those of the photo room.

use crate::job::{DimensionMark, PhotoFound, PhotoMarks, PhotoReference, Place, Reading};
use crate::photo::{
    Coin, Dimension, Focal, Frame, Lens, LensError, Mark, Marks, Options, Paper, Point, Reference, ReferenceOutline,
    Sheet, Span, rectangle_by_hand,
};
use crate::quantity::{Length, Origin};
use crate::words::{Explain, Message};

/// ± of a corner set by hand, in pixels (half-width at about 95 %). Common practice, no source.
const HAND_NOISE: f64 = 3.0;
/// Minimum number of points along a straight edge that determine a bend.
pub const ENOUGH_POINTS: usize = 3;

/// Height of the face above a reference that lies on it: minus the reference's thickness.
#[must_use]
pub fn height_on_face(reference: &PhotoReference) -> Reading {
    let thickness = reference_from_stored(reference).map(|reference| reference.thickness());
    thickness.map_or(Reading::new(0.0, 1.0, Origin::Typical), |t| {
        Reading::new(-t.value.mm(), t.plus_minus.mm().max(0.2), Origin::Typical)
    })
}

pub(super) fn point(place: Place) -> Point {
    Point::new(place[0], place[1])
}

fn mm(reading: &Reading) -> crate::quantity::Measured<Length> {
    reading.measured(Length::from_mm)
}

pub(super) fn reference_from_stored(reference: &PhotoReference) -> Result<Reference, Message> {
    let unknown = |word: &str| Message::new("refused-no-reference").with("word", word);
    let made = match reference {
        PhotoReference::Card => Reference::Card,
        PhotoReference::Paper { size } => Reference::Paper(Paper::from_word(size).ok_or_else(|| unknown(size))?),
        PhotoReference::Coin { coin } => Reference::Coin(Coin::from_word(coin).ok_or_else(|| unknown(coin))?),
        PhotoReference::Rectangle { width_mm, height_mm } => Reference::Rectangle {
            width: mm(width_mm),
            height: mm(height_mm),
        },
        PhotoReference::Disc { diameter_mm } => Reference::Disc {
            diameter: mm(diameter_mm),
        },
        PhotoReference::Rule { length_mm } => Reference::Rule { length: mm(length_mm) },
        PhotoReference::Target { sheet, check_mm } => Reference::Target {
            sheet: Sheet::from_word(sheet).ok_or_else(|| unknown(sheet))?,
            check_line: mm(check_mm),
        },
    };
    made.check().map_err(|error| error.message())?;
    Ok(made)
}

pub(super) fn stored_outline(found: &ReferenceOutline) -> PhotoFound {
    let place = |p: &Point| [p.x, p.y];
    match found {
        ReferenceOutline::Rectangle(corners) => PhotoFound::Rectangle {
            corners: corners.map(|p| [p.x, p.y]),
        },
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => PhotoFound::Ellipse {
            centre: place(centre),
            half_axes: [half_axes.0, half_axes.1],
            angle: *angle,
        },
        ReferenceOutline::Lattice(corners) => PhotoFound::Lattice {
            corners: corners.iter().map(|(c, r, p)| (*c, *r, p.x, p.y)).collect(),
        },
        ReferenceOutline::Marks(points) => PhotoFound::Marks {
            points: points.map(|p| [p.x, p.y]),
        },
    }
}

/// A mark as it is stored: two points, or two on each edge.
pub(super) fn stored_mark(mark: &Mark) -> DimensionMark {
    let points = match &mark.span {
        Span::Points(points) => points.to_vec(),
        Span::Edges([first, second]) => first.iter().chain(second).copied().collect(),
    };
    DimensionMark {
        dimension: mark.dimension.word().to_owned(),
        points: points.iter().map(|p| [p.x, p.y]).collect(),
    }
}

/// The lens distortion from marked straight edges, with a prior up to a strong wide angle. Where the
/// result agrees with a phone's residual distortion, that narrower prior is used instead.
fn lens_of(frame: Frame, edges: &[Vec<Place>]) -> Result<Lens, LensError> {
    let edges: Vec<Vec<Point>> = edges
        .iter()
        .map(|edge| edge.iter().copied().map(point).collect())
        .collect();
    let usual = Lens::default();
    if !edges.iter().any(|edge| edge.len() >= ENOUGH_POINTS) {
        return Ok(usual);
    }
    let noise = Options::default().point_noise;
    let alone = Lens::from_edges(frame, &edges, Lens::UNKNOWN, noise)?;
    if alone.k.abs() > usual.plus_minus + alone.plus_minus {
        return Ok(alone);
    }
    Lens::from_edges(frame, &edges, usual, noise)
}

/// The marks, and the error where straight edges were marked but gave no lens.
///
/// # Errors
/// A message for the person: no outline yet, an unknown object or dimension, a size out of range, a
/// mark without enough points.
pub(super) fn marks_from_stored(marks: &PhotoMarks) -> Result<(Marks, Option<LensError>), Message> {
    let frame = Frame::new(marks.frame[0], marks.frame[1]);
    let reference = reference_from_stored(&marks.reference)?;
    let focal = marks.focal_35mm.map(|mm| Focal::from_35mm(frame, mm));
    let stored = marks
        .found
        .as_ref()
        .ok_or_else(|| Message::new("refused-mark-object"))?;
    let found = match stored {
        // A person may set corners in any order.
        PhotoFound::Rectangle { corners } => {
            rectangle_by_hand(frame, &reference, corners.map(point), HAND_NOISE, focal)
                .map_err(|error| error.message())?
        }
        PhotoFound::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (long, short, angle) = if half_axes[0] >= half_axes[1] {
                (half_axes[0], half_axes[1], *angle)
            } else {
                (half_axes[1], half_axes[0], angle + std::f64::consts::FRAC_PI_2)
            };
            ReferenceOutline::Ellipse {
                centre: point(*centre),
                half_axes: (long, short),
                angle,
            }
        }
        PhotoFound::Lattice { corners } => ReferenceOutline::Lattice(
            corners
                .iter()
                .map(|(c, r, x, y)| (*c, *r, Point::new(*x, *y)))
                .collect(),
        ),
        PhotoFound::Marks { points } => ReferenceOutline::Marks(points.map(point)),
    };
    let lens = lens_of(frame, &marks.straight);
    let options = Options {
        height: mm(&marks.height_mm),
        focal,
        lens: lens.unwrap_or(Lens::UNKNOWN),
        face: marks.face.map(|corners| corners.map(point)),
        ..Options::default()
    };
    let unknown = |word: &str| Message::new("refused-no-dimension").with("word", word);
    let spans: Result<Vec<Mark>, Message> = marks
        .marks
        .iter()
        .map(|mark| {
            let dimension = Dimension::from_word(&mark.dimension).ok_or_else(|| unknown(&mark.dimension))?;
            let at = |index: usize| mark.points.get(index).copied().map(point);
            let span = match [at(0), at(1), at(2), at(3)] {
                [Some(a), Some(b), None, None] => Span::Points([a, b]),
                [Some(a), Some(b), Some(c), Some(d)] => Span::Edges([vec![a, b], vec![c, d]]),
                _ => {
                    return Err(Message::new("refused-mark-points").with("dimension", mark.dimension.replace('_', " ")));
                }
            };
            Ok(Mark { dimension, span })
        })
        .collect();
    let marks = Marks {
        frame,
        reference,
        outline: found,
        options,
        marks: spans?,
    };
    Ok((marks, lens.err()))
}

/// A photo of 4000 × 3000 pixels with nothing marked but a card whose upper left corner is 20, 20 mm
/// from the photo's: 85.6 × 53.98 mm (ISO/IEC 7810 ID-1). `at` places millimetres in the photo.
#[cfg(test)]
pub(super) fn card_from_above(at: impl Fn(f64, f64) -> Place) -> PhotoMarks {
    PhotoMarks {
        frame: [4000.0, 3000.0],
        focal_35mm: None,
        reference: PhotoReference::Card,
        found: Some(PhotoFound::Rectangle {
            corners: [at(20.0, 20.0), at(105.6, 20.0), at(105.6, 73.98), at(20.0, 73.98)],
        }),
        height_mm: Reading::new(0.0, 0.1, Origin::Chosen),
        face: None,
        straight: Vec::new(),
        marks: Vec::new(),
        angles: Vec::new(),
        object_doubts: Vec::new(),
        doubts: Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::super::read_marks;
    use super::*;

    /// Edges bent by a lens of -5 % at the corner correct the lengths; stored marks are read back
    /// unchanged.
    #[test]
    fn straight_edges_tell_the_lens() {
        let frame = Frame::new(4000.0, 3000.0);
        let lens = Lens {
            k: -0.05,
            plus_minus: 0.0,
        };
        // FoundObject from straight above, ten pixels to the millimetre.
        let at = |x: f64, y: f64| {
            let place = lens.bent(frame, Point::new(x * 10.0, y * 10.0)).unwrap();
            [place.x, place.y]
        };
        let mut marks = card_from_above(at);
        marks.marks.push(DimensionMark {
            dimension: "tongue".to_owned(),
            points: vec![at(250.0, 200.0), at(330.0, 240.0)],
        });
        let truth = 80.0_f64.hypot(40.0);
        let read = |marks: &PhotoMarks| read_marks(marks).unwrap().rows[0].reading.clone().unwrap();
        let bent = read(&marks);
        assert!((bent.value - truth).abs() > 1.5, "{bent:?}");
        for y in [10.0, 290.0] {
            marks
                .straight
                .push((0..6).map(|k| at(10.0 + 76.0 * f64::from(k), y)).collect());
        }
        let again: PhotoMarks = serde_json::from_str(&serde_json::to_string(&marks).unwrap()).unwrap();
        assert_eq!(again, marks);
        let straight = read(&again);
        assert!(
            (straight.value - truth).abs() < 0.4 && (straight.value - truth).abs() < straight.plus_minus,
            "{straight:?}"
        );
        let [k, half] = read_marks(&again).unwrap().lens.unwrap();
        assert!((k + 5.0).abs() < half.max(0.5) && half < 2.0, "{k} ± {half} %");
    }
}
