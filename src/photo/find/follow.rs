//! Follows an object of known size from one frame of a camera to the next: its outline is fitted anew near
//! where it was, without a search of the whole picture.
//!
//! The fit is the one that ends a search, so a followed outline is as exact as one that was searched. What
//! only a search can tell (a second object, say) is taken over from the last one.

use super::disc::disc_near;
use super::ellipse::Ellipse;
use super::rectangle::{SoughtRectangle, rectangle_near};
use super::{FindWarning, FoundReference, Trust};
use crate::photo::geometry::Point;
use crate::photo::image::{Gray, Photo};
use crate::photo::reference::{Reference, ReferenceOutline, ReferenceShape};

/// Reduction of the pictures whose shift is sought.
const REDUCED: usize = 4;
/// Largest shift either way, in reduced pixels: 48 pixels of the frame.
const MOST: i32 = 12;
/// Positions compared along and across the object.
const COMPARED: i32 = 16;

/// An object of known size as it was last seen.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Followed {
    found: FoundReference,
    /// The frame that it was seen in, reduced.
    small: Gray,
}

impl Followed {
    /// An object that was found in this frame.
    pub fn new(frame: &Photo, found: FoundReference) -> Self {
        Self {
            found,
            small: frame.full().shrunk(REDUCED),
        }
    }

    /// Its outline there, in pixels of the frame.
    pub const fn outline(&self) -> &ReferenceOutline {
        &self.found.outline
    }

    /// The same object in the next frame; `None` where its outline is not clear there, or where the object
    /// is not one that can be followed.
    pub fn next(&self, frame: &Photo, reference: &Reference) -> Option<FoundReference> {
        let shift = self.shift(&frame.full().shrunk(REDUCED))?;
        let near = match (&self.found.outline, reference.shape()) {
            (ReferenceOutline::Rectangle(corners), ReferenceShape::Rectangle { .. }) => {
                let sought = SoughtRectangle::of(reference)?;
                rectangle_near(frame, &sought, &corners.map(|corner| corner + shift))?
            }
            (
                ReferenceOutline::Ellipse {
                    centre,
                    half_axes,
                    angle,
                },
                ReferenceShape::Disc { .. },
            ) => {
                let expected = Ellipse {
                    centre: *centre + shift,
                    half_axes: *half_axes,
                    angle: *angle,
                };
                disc_near(frame, expected)?
            }
            _ => return None,
        };
        let mut warnings = near.doubts;
        let kept = |warning: &&FindWarning| warning.needs_search();
        warnings.extend(self.found.warnings.iter().filter(kept));
        let trust = if warnings.iter().any(|warning| warning.is_doubt()) {
            Trust::Doubtful
        } else {
            Trust::Good
        };
        Some(FoundReference {
            outline: near.outline,
            trust,
            warnings,
            rms: near.rms,
            quality: self.found.quality,
        })
    }

    /// How far the object has moved, in pixels of the frame: the shift with the least mean difference of the
    /// grey values about it, less their means, so that light may change.
    fn shift(&self, now: &Gray) -> Option<Point> {
        if now.width() != self.small.width() || now.height() != self.small.height() {
            return None;
        }
        let by = REDUCED as f64;
        let (low, high) = extent(&self.found.outline);
        // A margin, as what lies about it moves along.
        let (low, high) = (
            low * (1.0 / by) - Point::new(2.0, 2.0),
            high * (1.0 / by) + Point::new(2.0, 2.0),
        );
        let at = |index: i32, from: f64, to: f64| from + (to - from) * (f64::from(index) + 0.5) / f64::from(COMPARED);
        let (width, height) = (now.width() as i32, now.height() as i32);
        let places: Vec<(i32, i32)> = (0..COMPARED * COMPARED)
            .map(|index| {
                let x = at(index % COMPARED, low.x, high.x).round() as i32;
                let y = at(index / COMPARED, low.y, high.y).round() as i32;
                (x, y)
            })
            .filter(|(x, y)| (0..width).contains(x) && (0..height).contains(y))
            .collect();
        let value = |gray: &Gray, x: i32, y: i32| i32::from(gray.pixels()[(y * width + x) as usize]);
        let before: Vec<i32> = places.iter().map(|(x, y)| value(&self.small, *x, *y)).collect();
        let difference = |dx: i32, dy: i32| {
            let (mut count, mut sum, mut squares) = (0_i64, 0_i64, 0_i64);
            for ((x, y), before) in places.iter().zip(&before) {
                let (x, y) = (x + dx, y + dy);
                if (0..width).contains(&x) && (0..height).contains(&y) {
                    let step = i64::from(value(now, x, y) - before);
                    (count, sum, squares) = (count + 1, sum + step, squares + step * step);
                }
            }
            if 2 * count < places.len() as i64 || count == 0 {
                return f64::INFINITY;
            }
            let (count, sum) = (count as f64, sum as f64);
            squares as f64 / count - (sum / count).powi(2)
        };
        let mut best = (f64::INFINITY, (0, 0));
        for dy in -MOST..=MOST {
            for dx in -MOST..=MOST {
                let one = difference(dx, dy);
                if one < best.0 {
                    best = (one, (dx, dy));
                }
            }
        }
        let (variance, (dx, dy)) = best;
        let inside = variance.is_finite() && dx.abs() < MOST && dy.abs() < MOST;
        inside.then(|| Point::new(f64::from(dx), f64::from(dy)) * by)
    }
}

impl FindWarning {
    /// Whether only a search of the whole picture can tell.
    const fn needs_search(self) -> bool {
        matches!(
            self,
            FindWarning::SecondAsLikely | FindWarning::WeakOutline | FindWarning::Photo(_)
        )
    }
}

/// The least and the largest coordinates of an outline.
fn extent(outline: &ReferenceOutline) -> (Point, Point) {
    let around = |places: &[Point]| {
        places.iter().fold(
            (
                Point::new(f64::INFINITY, f64::INFINITY),
                Point::new(f64::NEG_INFINITY, f64::NEG_INFINITY),
            ),
            |(low, high), place| {
                (
                    Point::new(low.x.min(place.x), low.y.min(place.y)),
                    Point::new(high.x.max(place.x), high.y.max(place.y)),
                )
            },
        )
    };
    match outline {
        ReferenceOutline::Rectangle(corners) => around(corners),
        ReferenceOutline::Ellipse { centre, half_axes, .. } => {
            let reach = Point::new(half_axes.0, half_axes.0);
            (*centre - reach, *centre + reach)
        }
        ReferenceOutline::Lattice(corners) => around(&corners.iter().map(|corner| corner.2).collect::<Vec<_>>()),
        ReferenceOutline::Marks(points) => around(points),
    }
}
