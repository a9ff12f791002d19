//! The scale from a disc's outline, and from two marks: references whose plane is ambiguous.
//!
//! An ellipse fits two planes, one leaning towards the camera and one away, mirrored about the line
//! of sight. Without perspective, lengths on both are equal; with it they differ the more, the
//! farther from the disc one measures. One ellipse cannot distinguish them, so a result is the mean
//! of the two and its ± covers both, unless the marked corners of the face decide. Two marks give no
//! lean at all: the ± allows for a camera that was held nearly straight.

use nalgebra::{Matrix2, Matrix3, SymmetricEigen, Vector2, Vector3};

use super::CheckedOptions;
use super::homography::Homography;
use super::lens::Lens;
use super::maps::{Candidates, Maps, Move, PlaneMap};
use super::pose::{Camera, Focal};
use crate::photo::geometry::{Frame, Point};
use crate::quantity::{Angle, Input, Length, Measured};

/// Tilt each way of a photo meant to be taken from straight above, in degrees (half-width at about
/// 95 %). Common practice, no source.
const HELD_STRAIGHT_DEGREES: f64 = 15.0;
/// Largest angle between the plane of a marked face and one of the disc's two planes, in degrees: a
/// nearly round outline determines its plane no better. Common practice, no source.
const MAX_TURNED_DEGREES: f64 = 15.0;
/// Standard uncertainty of a punched lamination's corner relative to a square one, as a fraction of
/// the side. Common practice, no source.
const OUT_OF_SQUARE: f64 = 0.001;
/// Factor by which the half-width of a result extends beyond either plane of a disc.
const BEYOND_BOTH: f64 = 1.2;

/// The inputs of the map besides the outline.
#[derive(Clone, Copy)]
struct RoundInputs {
    size: f64,
    height: f64,
    focal: Focal,
    lens: Lens,
}

impl RoundInputs {
    fn best(known: &CheckedOptions, size: Measured<Length>) -> Self {
        Self {
            size: size.value.mm(),
            height: known.height.value.mm(),
            focal: known.focal,
            lens: known.lens,
        }
    }

    fn camera(&self, known: &CheckedOptions) -> Camera {
        Camera {
            focal: self.focal.pixels,
            centre: known.frame.centre(),
        }
    }

    fn map(&self, known: &CheckedOptions, plane: &CameraPlane, origin: Point) -> Option<PlaneMap> {
        let there = plane.lifted(self.height).map(self.camera(known), origin)?;
        Some(PlaneMap {
            frame: known.frame,
            lens: self.lens,
            back: there.inverse()?,
        })
    }
}

/// The moves of size, height, focal length and lens, for maps made by `maps`.
fn common_moves(
    known: &CheckedOptions,
    size: Measured<Length>,
    maps: impl Fn(RoundInputs) -> Option<Candidates>,
) -> Option<Vec<Move>> {
    let best = RoundInputs::best(known, size);
    let (half_size, half_height) = (size.plus_minus.mm() / 2.0, known.height.plus_minus.mm() / 2.0);
    let pair = |cause, sigmas, change: &dyn Fn(f64) -> RoundInputs| {
        Some(Move {
            cause,
            up: maps(change(1.0))?,
            down: maps(change(-1.0))?,
            sigmas,
        })
    };
    Some(vec![
        pair(Input::ReferenceSize, 1.0, &|by| RoundInputs {
            size: best.size + by * half_size,
            ..best
        })?,
        pair(Input::HeightOfTheFace, 1.0, &|by| RoundInputs {
            height: best.height + by * half_height,
            ..best
        })?,
        pair(Input::FocalLength, 2.0, &|by| RoundInputs {
            focal: known.focal.moved(2.0 * by),
            ..best
        })?,
        pair(Input::Lens, 1.0, &|by| RoundInputs {
            lens: known.lens.moved(by),
            ..best
        })?,
    ])
}

/// The plane of a disc that lies parallel to a marked face with square corners, at the distance
/// where the cone through its outline has the disc's size.
///
/// The direction of two parallel edges is the cross product of the normals of the planes through the
/// eye and each edge. Two directions give the face's normal; the area of the outline on a plane one
/// unit away gives the distance.
fn plane_of_face(known: &CheckedOptions, oval: Oval, state: RoundInputs, face: &[Point; 4]) -> Option<CameraPlane> {
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
    let plane = CameraPlane {
        normal,
        distance: state.size / 2.0 / radius,
    };
    (radius.is_finite() && radius > 0.0).then_some(plane)
}

/// Whether a face's plane is near one of the disc's two planes.
fn agrees(face: &CameraPlane, planes: &[CameraPlane; 2]) -> bool {
    let turn = |plane: &CameraPlane| plane.normal.dot(&face.normal).clamp(-1.0, 1.0).acos().to_degrees();
    planes.iter().any(|plane| turn(plane) < MAX_TURNED_DEGREES)
}

/// The maps from the outline of a disc `thickness` millimetres thick, the viewing angle, and whether
/// a marked face decided which way the disc leans.
pub(crate) fn disc(
    known: &CheckedOptions,
    oval: Oval,
    diameter: Measured<Length>,
    thickness: f64,
) -> Option<(Maps, Angle, bool)> {
    let best = RoundInputs::best(known, diameter);
    let both = |oval: Oval, state: RoundInputs| -> Option<Candidates> {
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
    let with_face = |oval: Oval, state: RoundInputs, face: &[Point; 4]| -> Option<Candidates> {
        let origin = oval.straightened(known.frame, state.lens).centre;
        let plane = plane_of_face(known, oval, state, face)?;
        Some(vec![state.map(known, &plane, origin)?])
    };
    let with = |oval: Oval, state: RoundInputs| match &face {
        Some(face) => with_face(oval, state, face),
        None => both(oval, state),
    };
    let mut moves = common_moves(known, diameter, |state| with(oval, state))?;
    let sigma = known.reference_noise / 2.0;
    // Independent, isotropic changes of a symmetric matrix.
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
            cause: Input::ReferenceInThePicture,
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
    // Viewed obliquely, a disc shows its rim on one side, and the outline may include it: half the
    // foreshortened thickness on the short half axis.
    let pixels_per_mm = oval.shape.determinant().abs().sqrt() / (best.size / 2.0);
    let rim = thickness * angle.sin() / 2.0 * pixels_per_mm;
    let rimmed = |by: f64| with(oval.grown(camera, (0.0, by * rim)), best);
    moves.push(Move {
        cause: Input::RimOfTheDisc,
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
                    cause: Input::CornersOfTheFace,
                    up: moved(away)?,
                    down: moved(away * -1.0)?,
                    sigmas: 1.0,
                });
            }
        }
        return Some((Maps { moves, ..flat }, angle, true));
    }
    // The two leans, for an outline as flat as its noise allows: a disc that appears round by chance
    // may still lean.
    let mut leans = with(oval.grown(camera, (sigma, -sigma)), best)?;
    let (away, towards) = (leans.pop()?, leans.pop()?);
    moves.push(Move {
        cause: Input::WhichWayTheDiscLeans,
        up: vec![towards],
        down: vec![away],
        sigmas: 2.0 / BEYOND_BOTH,
    });
    Some((Maps { moves, ..flat }, angle, false))
}

/// The maps from two marks on a photo meant to be taken from straight above.
pub(crate) fn two_marks(known: &CheckedOptions, marks: [Point; 2], length: Measured<Length>) -> Option<Maps> {
    let best = RoundInputs::best(known, length);
    let with = |marks: [Point; 2], lean: (f64, f64), state: RoundInputs| -> Option<Candidates> {
        let straight = marks.map(|mark| state.lens.straightened(known.frame, mark));
        let camera = state.camera(known);
        let normal = Vector3::new(lean.0, lean.1, 1.0).normalize();
        // The distance between the two lines of sight on a plane one unit away.
        let [first, second] = straight.map(|mark| camera.sight(mark));
        let unit = (first / first.dot(&normal) - second / second.dot(&normal)).norm();
        let plane = CameraPlane {
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
                cause: Input::ReferenceInThePicture,
                up: shifted(by)?,
                down: shifted(by * -1.0)?,
                sigmas: 1.0,
            });
        }
    }
    let tilt = HELD_STRAIGHT_DEGREES.to_radians().tan();
    for lean in [(tilt, 0.0), (0.0, tilt)] {
        moves.push(Move {
            cause: Input::ViewingAngle,
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

/// A disc's outline in a picture: `centre + shape · (points of the unit circle)`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Oval {
    pub centre: Point,
    pub shape: Matrix2<f64>,
}

/// A plane before a camera: its normal (away from the camera) and its distance from it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct CameraPlane {
    pub normal: Vector3<f64>,
    pub distance: f64,
}

impl Oval {
    /// From half axes and the first one's angle.
    pub fn new(centre: Point, (a, b): (f64, f64), angle: f64) -> Self {
        let (s, c) = angle.sin_cos();
        let turn = Matrix2::new(c, -s, s, c);
        Self {
            centre,
            shape: turn * Matrix2::new(a, 0.0, 0.0, b) * turn.transpose(),
        }
    }

    /// The outline with distortion removed, to first order about its centre.
    pub fn straightened(&self, frame: Frame, lens: Lens) -> Self {
        let at = |x: f64, y: f64| lens.straightened(frame, self.centre + Point::new(x, y));
        let (dx, dy) = ((at(0.5, 0.0) - at(-0.5, 0.0)), (at(0.0, 0.5) - at(0.0, -0.5)));
        Self {
            centre: at(0.0, 0.0),
            shape: Matrix2::new(dx.x, dy.x, dx.y, dy.y) * self.shape,
        }
    }

    /// The outline with its long and short half axes extended by a number of pixels each, measured
    /// as if the camera looked straight at it. (Off-centre, a disc perpendicular to the line of
    /// sight is stretched by 1/cos of the angle to the optical axis.)
    pub fn grown(&self, camera: Camera, (long_by, short_by): (f64, f64)) -> Self {
        let away = self.centre - camera.centre;
        let cosine = camera.focal / camera.focal.hypot(away.length());
        let out = Vector2::new(away.x, away.y)
            .try_normalize(1e-9)
            .unwrap_or_else(Vector2::zeros);
        let look = (Matrix2::identity() - out * out.transpose() * (1.0 - cosine)) * cosine;
        let Some(back) = look.try_inverse() else { return *self };
        let looked = look * self.shape;
        let square = SymmetricEigen::new(looked * looked.transpose());
        let long = usize::from(square.eigenvalues[1] > square.eigenvalues[0]);
        let mut axes = Matrix2::zeros();
        for index in 0..2 {
            let half = square.eigenvalues[index].max(0.0).sqrt();
            let by = if index == long { long_by } else { short_by };
            let axis = square.eigenvectors.column(index);
            axes += axis * axis.transpose() * (half + by).max(half / 10.0);
        }
        Self {
            centre: self.centre,
            shape: back * axes,
        }
    }

    /// The two planes on which a disc of this radius has this outline; `None` for no ellipse.
    ///
    /// The cone through the outline is `xᵀQx = 0` with eigenvalues λ₁ ≥ λ₂ > 0 > λ₃. The planes
    /// that cut a circle from it have the normals `±√((λ₁−λ₂)/(λ₁−λ₃)) e₁ ± √((λ₂−λ₃)/(λ₁−λ₃)) e₃`,
    /// and one that cuts the radius r is `λ₂ r / √(−λ₁λ₃)` away. Source: Chen, Wu and Wada, Camera
    /// Calibration with Two Arbitrary Coplanar Circles, 2004, section 2 (from memory; checked in
    /// the tests against projected circles).
    pub fn planes(&self, camera: Camera, radius: f64) -> Option<[CameraPlane; 2]> {
        let inverse = self.shape.try_inverse()?;
        let shift = inverse * Vector2::new(self.centre.x, self.centre.y);
        let to_unit = Matrix3::new(
            inverse[(0, 0)],
            inverse[(0, 1)],
            -shift.x,
            inverse[(1, 0)],
            inverse[(1, 1)],
            -shift.y,
            0.0,
            0.0,
            1.0,
        ) * camera.matrix();
        let eigen = SymmetricEigen::new(
            to_unit.transpose() * Matrix3::new(1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, -1.0) * to_unit,
        );
        let mut order = [0, 1, 2];
        order.sort_by(|a, b| eigen.eigenvalues[*b].total_cmp(&eigen.eigenvalues[*a]));
        let [l1, l2, l3] = order.map(|index| eigen.eigenvalues[index]);
        if !(l2 > 0.0 && l3 < 0.0) {
            return None;
        }
        let axis = |index: usize| eigen.eigenvectors.column(order[index]).into_owned();
        let (first, third) = (
            axis(0) * ((l1 - l2) / (l1 - l3)).max(0.0).sqrt(),
            axis(2) * ((l2 - l3) / (l1 - l3)).sqrt(),
        );
        let sight = camera.sight(self.centre);
        let distance = l2 * radius / (-l1 * l3).sqrt();
        Some([first + third, first - third].map(|normal| CameraPlane {
            normal: if normal.dot(&sight) > 0.0 { normal } else { -normal },
            distance,
        }))
    }
}

impl CameraPlane {
    /// The map from this plane to the picture: the origin on the line of sight through `origin`, x
    /// as close to the picture's x as possible. `None` where that line of sight misses the plane.
    pub fn map(&self, camera: Camera, origin: Point) -> Option<Homography> {
        let sight = camera.sight(origin);
        let along = sight.dot(&self.normal);
        if !(along > 1e-6 && self.distance > 0.0) {
            return None;
        }
        let right = Vector3::x() - self.normal * self.normal.x;
        let right = right.try_normalize(1e-9)?;
        let down = self.normal.cross(&right);
        let start = sight * (self.distance / along);
        Some(Homography::from_matrix(
            camera.matrix() * Matrix3::from_columns(&[right, down, start]),
        ))
    }

    /// The plane `height` nearer to the camera.
    pub fn lifted(&self, height: f64) -> Self {
        Self {
            distance: self.distance - height,
            ..*self
        }
    }

    /// Angle between the line of sight to a point in the picture and the normal, radians.
    pub fn viewing_angle(&self, camera: Camera, place: Point) -> f64 {
        let sight = camera.sight(place);
        (sight.dot(&self.normal) / sight.norm()).clamp(-1.0, 1.0).acos()
    }
}
