//! The scale from a disc's outline, and from two marks: planes that lean one does not know how.

use nalgebra::{Matrix2, Vector2, Vector3};

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
/// How far the plane of a marked face may be turned from one that the disc itself allows: a disc that
/// is nearly round in the picture tells its own no better. Common practice, no source.
const MOST_TURNED_DEGREES: f64 = 15.0;
/// How far a corner of a punched lamination is from where square corners would put it, as a part of
/// the side (one standard uncertainty). Common practice, no source.
const OUT_OF_SQUARE: f64 = 0.001;
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

/// The plane of a marked face with square corners that cuts a disc of this radius from the cone
/// through its outline, the disc lying parallel to the face.
///
/// Opposite edges are parallel: their direction lies in both planes through the eye and an edge, and
/// so is the product of these planes' normals. Two directions give the face's normal; the area of the
/// outline on it gives the distance.
fn plane_of_face(known: &Known, oval: Oval, state: State, face: &[Point; 4]) -> Option<Plane> {
    let camera = state.camera(known);
    let [a, b, c, d] = face.map(|corner| camera.sight(state.lens.straightened(known.frame, corner)));
    let direction = |one: Vector3<f64>, two: Vector3<f64>| one.cross(&two).try_normalize(1e-12);
    let along = direction(a.cross(&b), d.cross(&c))?;
    let across = direction(b.cross(&c), a.cross(&d))?;
    let normal = direction(along, across)?;
    let straight = oval.straightened(known.frame, state.lens);
    let normal = normal * normal.dot(&camera.sight(straight.centre)).signum();
    // The outline on the plane one unit away.
    const PLACES: u32 = 64;
    let step = std::f64::consts::TAU / f64::from(PLACES);
    let place = |index: u32| {
        let (sine, cosine) = (f64::from(index) * step).sin_cos();
        let away = straight.shape * Vector2::new(cosine, sine);
        let sight = camera.sight(straight.centre + Point::new(away.x, away.y));
        sight / sight.dot(&normal)
    };
    let twice_area: f64 = (0..PLACES)
        .map(|index| place(index).cross(&place(index + 1)).dot(&normal))
        .sum();
    let radius = (twice_area.abs() / (f64::from(PLACES) * step.sin())).sqrt();
    let plane = Plane {
        normal,
        distance: state.size / 2.0 / radius,
    };
    (radius.is_finite() && radius > 0.0).then_some(plane)
}

/// Whether a face's plane is near one of the two that the disc itself allows.
fn agrees(face: &Plane, planes: &[Plane; 2]) -> bool {
    let turn = |plane: &Plane| plane.normal.dot(&face.normal).clamp(-1.0, 1.0).acos().to_degrees();
    planes.iter().any(|plane| turn(plane) < MOST_TURNED_DEGREES)
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
    let straight = oval.straightened(known.frame, known.lens);
    let camera = best.camera(known);
    let planes = straight.planes(camera, best.size / 2.0)?;
    let face = known
        .face
        .filter(|face| plane_of_face(known, oval, best, face).is_some_and(|plane| agrees(&plane, &planes)));
    let with_face = |oval: Oval, state: State, face: &[Point; 4]| -> Option<Candidates> {
        let origin = oval.straightened(known.frame, state.lens).centre;
        let plane = plane_of_face(known, oval, state, face)?;
        Some(vec![state.map(known, &plane, origin)?])
    };
    let with = |oval: Oval, state: State| match &face {
        Some(face) => with_face(oval, state, face),
        None => both(oval, state),
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
    let angle = match &face {
        Some(face) => plane_of_face(known, oval, best, face)?.viewing_angle(camera, straight.centre),
        None => {
            let [one, two] = planes.map(|plane| plane.viewing_angle(camera, straight.centre));
            one.max(two)
        }
    };
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
    if let Some(face) = &face {
        for index in 0..4 {
            let side = face[index].distance(face[(index + 1) % 4]);
            let by = known.point_sigma.hypot(OUT_OF_SQUARE * side);
            for away in [Point::new(by, 0.0), Point::new(0.0, by)] {
                let moved = |away: Point| {
                    let mut moved = *face;
                    moved[index] = moved[index] + away;
                    with_face(oval, best, &moved)
                };
                moves.push(Move {
                    cause: "corners of the face",
                    up: moved(away)?,
                    down: moved(away * -1.0)?,
                    sigmas: 1.0,
                });
            }
        }
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
