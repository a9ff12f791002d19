//! A rectangle whose corners a person set, in whatever order.

use super::found::Found;
use super::frame::Frame;
use super::point::Point;
use super::pose::{Focal, plausibility};
use super::reference::{Reference, Shape};
use super::scale::ScaleError;

/// The rectangle of these four corners: put in order along its outline, clockwise as seen, the
/// first side being the reference's width. Which side that is follows from which of the two a
/// camera could have seen so; of a square, or in doubt, the side after the uppermost corner.
/// `noise` is how well the corners were set, in pixels (half-width at about 95 %).
///
/// # Errors
/// A reference that is no rectangle, or of no allowed size; corners that make no quadrilateral.
pub fn rectangle_by_hand(
    frame: Frame,
    reference: &Reference,
    corners: [Point; 4],
    noise: f64,
    focal: Option<Focal>,
) -> Result<Found, ScaleError> {
    reference.check()?;
    let Shape::Rectangle { width, height, .. } = reference.shape() else {
        return Err(ScaleError::WrongKind);
    };
    let middle = corners.iter().fold(Point::default(), |sum, corner| sum + *corner) * 0.25;
    let mut round = corners;
    round.sort_by(|a, b| {
        let angle = |corner: &Point| (corner.y - middle.y).atan2(corner.x - middle.x);
        angle(a).total_cmp(&angle(b))
    });
    let upper = (0..4).min_by(|a, b| round[*a].y.total_cmp(&round[*b].y)).unwrap_or(0);
    round.rotate_left(upper);
    let mut turned = round;
    turned.rotate_left(1);
    let known = focal.unwrap_or_else(|| Focal::usual(frame));
    let size = (width.value.mm(), height.value.mm());
    let misfit = |corners: &[Point; 4]| plausibility(frame, corners, size, noise, known).map(|seen| seen.misfit);
    let best = if misfit(&turned)? + 0.5 < misfit(&round)? {
        turned
    } else {
        round
    };
    Ok(Found::Rectangle(best))
}
