//! The scale from a disc's outline, and from two marks: planes that lean one does not know how.

use nalgebra::{Matrix2, Vector3};

use super::conic::{Oval, Plane};
use super::lens::Lens;
use super::maps::{Candidates, Maps, Move, PlaneMap};
use super::point::Point;
use super::pose::{Camera, Focal};
use super::scale::Known;
use crate::quantity::{Angle, Length, Measured};

/// How far a photo that was meant to be taken from straight above leans each way, in degrees
/// (half-width at about 95 %). Common practice, no source.
const HELD_STRAIGHT_DEGREES: f64 = 15.0;
/// Cosine of the most that a marked face's corners may be from square, and by how much the other
/// plane's must be farther from it. Common practice, no source.
const MOST_ASKEW: f64 = 0.06;
const LEAST_TOLD: f64 = 0.015;
/// An answer's half-width reaches so much farther than either of the two planes of a disc.
const BEYOND_BOTH: f64 = 1.2;

/// Everything but the outline that the map depends on.
#[derive(Clone, Copy)]
struct State {
    size: f64,
    height: f64,
    focal: Focal,
    lens: Lens,
}

impl State {
    fn best(known: &Known, size: Measured<Length>) -> Self {
        Self {
            size: size.value.mm(),
            height: known.height.value.mm(),
            focal: known.focal,
            lens: known.lens,
        }
    }

    fn camera(&self, known: &Known) -> Camera {
        Camera {
            focal: self.focal.pixels,
            centre: known.frame.centre(),
        }
    }

    fn map(&self, known: &Known, plane: &Plane, origin: Point) -> Option<PlaneMap> {
        let there = plane.lifted(self.height).map(self.camera(known), origin)?;
        Some(PlaneMap {
            frame: known.frame,
            lens: self.lens,
            back: there.inverse()?,
        })
    }
}

/// The moves of the size, the height, the focal length and the lens, for maps made by `maps`.
fn common_moves(
    known: &Known,
    size: Measured<Length>,
    maps: impl Fn(State) -> Option<Candidates>,
) -> Option<Vec<Move>> {
    let best = State::best(known, size);
    let (half_size, half_height) = (size.plus_minus.mm() / 2.0, known.height.plus_minus.mm() / 2.0);
    let pair = |cause, sigmas, change: &dyn Fn(f64) -> State| {
        Some(Move {
            cause,
            up: maps(change(1.0))?,
            down: maps(change(-1.0))?,
            sigmas,
        })
    };
    Some(vec![
        pair("reference size", 1.0, &|by| State {
            size: best.size + by * half_size,
            ..best
        })?,
        pair("height", 1.0, &|by| State {
            height: best.height + by * half_height,
            ..best
        })?,
        pair("focal length", 2.0, &|by| State {
            focal: known.focal.moved(2.0 * by),
            ..best
        })?,
        pair("lens", 1.0, &|by| State {
            lens: known.lens.moved(by),
            ..best
        })?,
    ])
}

/// How far a face's corners are from square on the plane of a map: the largest cosine.
fn askew(map: &PlaneMap, face: &[Point; 4]) -> Option<f64> {
    let corners: Option<Vec<Point>> = face.iter().map(|corner| map.place(*corner)).collect();
    let corners = corners?;
    let cosine = |index: usize| {
        let (before, at, after) = (corners[index], corners[(index + 1) % 4], corners[(index + 2) % 4]);
        let (one, two) = (before - at, after - at);
        one.dot(two).abs() / (one.length() * two.length())
    };
    let most = (0..4).map(cosine).fold(0.0, f64::max);
    most.is_finite().then_some(most)
}

/// Which of two planes has the marked face's corners square, where one clearly has and the other
/// has not.
fn squarer(maps: &Candidates, face: Option<[Point; 4]>) -> Option<PlaneMap> {
    let &[one, two] = maps.as_slice() else { return None };
    let face = face?;
    let (first, second) = (askew(&one, &face)?, askew(&two, &face)?);
    let (better, worse) = (first.min(second), first.max(second));
    (better < MOST_ASKEW && worse > 2.0 * better + LEAST_TOLD).then_some(if first < second { one } else { two })
}

/// The maps from the outline of a disc `thickness` millimetres thick, the angle it is seen at, and
/// whether a marked face told which way it leans.
pub(super) fn disc(
    known: &Known,
    oval: Oval,
    diameter: Measured<Length>,
    thickness: f64,
) -> Option<(Maps, Angle, bool)> {
    let best = State::best(known, diameter);
    let both = |oval: Oval, state: State| -> Option<Candidates> {
        let straight = oval.straightened(known.frame, state.lens);
        let planes = straight.planes(state.camera(known), state.size / 2.0)?;
        planes
            .iter()
            .map(|plane| state.map(known, plane, straight.centre))
            .collect()
    };
    let told = squarer(&both(oval, best)?, known.face);
    // Of the planes of a changed outline or camera that one counts which is nearest to the one told.
    let with = |oval: Oval, state: State| -> Option<Candidates> {
        let maps = both(oval, state)?;
        let (Some(told), Some(face)) = (told, known.face) else {
            return Some(maps);
        };
        let apart = |map: &PlaneMap| {
            let off = |corner: &Point| Some(map.place(*corner)?.distance(told.place(*corner)?));
            face.iter()
                .map(|corner| off(corner).unwrap_or(f64::INFINITY))
                .fold(0.0, f64::max)
        };
        let nearest = maps.into_iter().min_by(|a, b| apart(a).total_cmp(&apart(b)))?;
        Some(vec![nearest])
    };
    let mut moves = common_moves(known, diameter, |state| with(oval, state))?;
    let sigma = known.reference_noise / 2.0;
    // Independent changes of a symmetric shape that look the same in every direction.
    let skew = sigma * std::f64::consts::FRAC_1_SQRT_2;
    for change in [
        Matrix2::new(sigma, 0.0, 0.0, 0.0),
        Matrix2::new(0.0, 0.0, 0.0, sigma),
        Matrix2::new(0.0, skew, skew, 0.0),
    ] {
        let shaped = |by: f64| {
            with(
                Oval {
                    shape: oval.shape + change * by,
                    ..oval
                },
                best,
            )
        };
        moves.push(Move {
            cause: "reference in the picture",
            up: shaped(1.0)?,
            down: shaped(-1.0)?,
            sigmas: 1.0,
        });
    }
    let straight = oval.straightened(known.frame, known.lens);
    let camera = best.camera(known);
    let angles = straight
        .planes(camera, best.size / 2.0)?
        .map(|plane| plane.viewing_angle(camera, straight.centre));
    let angle = angles[0].max(angles[1]);
    // Seen from aside a disc shows its rim on one side, and the outline may have been found with
    // it or without: half the thickness, foreshortened, on the short half axis.
    let pixels_per_mm = oval.shape.determinant().abs().sqrt() / (best.size / 2.0);
    let rim = thickness * angle.sin() / 2.0 * pixels_per_mm;
    let rimmed = |by: f64| with(oval.grown(camera, (0.0, by * rim)), best);
    moves.push(Move {
        cause: "rim of the disc",
        up: rimmed(1.0)?,
        down: rimmed(-1.0)?,
        sigmas: 2.0,
    });
    let angle = Angle::from_si(angle);
    let flat = Maps {
        best: with(oval, best)?,
        moves: Vec::new(),
    };
    if told.is_some() {
        return Some((Maps { moves, ..flat }, angle, true));
    }
    // Which of the two it is; on an outline as flat as its noise allows, so that a disc which
    // happens to look round is not taken for one seen from straight above.
    let mut leans = with(oval.grown(camera, (sigma, -sigma)), best)?;
    let (away, towards) = (leans.pop()?, leans.pop()?);
    moves.push(Move {
        cause: "which way the disc leans",
        up: vec![towards],
        down: vec![away],
        sigmas: 2.0 / BEYOND_BOTH,
    });
    Some((Maps { moves, ..flat }, angle, false))
}

/// The maps from two marks on a photo that was meant to be taken from straight above.
pub(super) fn two_marks(known: &Known, marks: [Point; 2], length: Measured<Length>) -> Option<Maps> {
    let best = State::best(known, length);
    let with = |marks: [Point; 2], lean: (f64, f64), state: State| -> Option<Candidates> {
        let straight = marks.map(|mark| state.lens.straightened(known.frame, mark));
        let camera = state.camera(known);
        let normal = Vector3::new(lean.0, lean.1, 1.0).normalize();
        // Where the two lines of sight meet a plane one unit away: so long is that unit.
        let [first, second] = straight.map(|mark| camera.sight(mark));
        let unit = (first / first.dot(&normal) - second / second.dot(&normal)).norm();
        let plane = Plane {
            normal,
            distance: state.size / unit,
        };
        Some(vec![state.map(known, &plane, straight[0])?])
    };
    let mut moves = common_moves(known, length, |state| with(marks, (0.0, 0.0), state))?;
    let sigma = known.reference_noise / 2.0;
    for index in 0..2 {
        for by in [Point::new(sigma, 0.0), Point::new(0.0, sigma)] {
            let shifted = |by: Point| {
                let mut shifted = marks;
                shifted[index] = shifted[index] + by;
                with(shifted, (0.0, 0.0), best)
            };
            moves.push(Move {
                cause: "reference in the picture",
                up: shifted(by)?,
                down: shifted(by * -1.0)?,
                sigmas: 1.0,
            });
        }
    }
    let tilt = HELD_STRAIGHT_DEGREES.to_radians().tan();
    for lean in [(tilt, 0.0), (0.0, tilt)] {
        moves.push(Move {
            cause: "viewing angle",
            up: with(marks, lean, best)?,
            down: with(marks, (-lean.0, -lean.1), best)?,
            sigmas: 2.0,
        });
    }
    Some(Maps {
        best: with(marks, (0.0, 0.0), best)?,
        moves,
    })
}
