//! Scenes with a reference, a pair of edges and a camera, for the geometry's tests.

use super::numbers::{Eye, Numbers};
use crate::photo::geometry::Frame;
use crate::photo::geometry::Point;
use crate::photo::measure::{Dimension, Mark, Span};
use crate::photo::reference::ReferenceOutline;
use crate::photo::reference::{Reference, ReferenceShape};
use crate::photo::scale::Options;
use crate::photo::scale::lens::Lens;
use crate::photo::scale::pose::Focal;
use crate::quantity::{Length, Measured, Origin};

pub const FRAME: Frame = Frame::new(4000.0, 3000.0);

/// What is true in a scene.
#[derive(Clone)]
pub struct Truth {
    pub eye: Eye,
    /// The reference's real size as a part of its nominal one, each way.
    pub stretch: (f64, f64),
    /// The face above the reference's upper face, mm.
    pub height: f64,
    pub lens: Lens,
}

impl Truth {
    /// The picture of a place on the reference's plane, `up` above it.
    pub fn picture(&self, place: Point, up: f64) -> Point {
        self.lens.bent(FRAME, self.eye.sees(place, up)).unwrap()
    }

    /// A rectangle seen from aside whose edges were found somewhere on its rim.
    pub fn show_rim(&mut self, reference: &Reference, seen_at: f64, numbers: &mut Numbers) {
        if let ReferenceShape::Rectangle { width, height, .. } = reference.shape() {
            let half = reference.thickness().value.mm() * seen_at.tan() / 2.0;
            self.stretch.0 *= 1.0 + numbers.normal() * half / width.value.mm();
            self.stretch.1 *= 1.0 + numbers.normal() * half / height.value.mm();
        }
    }

    /// The reference as it is seen without noise.
    pub fn found(&self, reference: &Reference) -> ReferenceOutline {
        let at = |x: f64, y: f64| self.picture(Point::new(x * self.stretch.0, y * self.stretch.1), 0.0);
        match reference.shape() {
            ReferenceShape::Rectangle { width, height, .. } => {
                let (w, h) = (width.value.mm(), height.value.mm());
                ReferenceOutline::Rectangle([at(0.0, 0.0), at(w, 0.0), at(w, h), at(0.0, h)])
            }
            ReferenceShape::Marks { length } => ReferenceOutline::Marks([at(0.0, 0.0), at(length.value.mm(), 0.0)]),
            ReferenceShape::Lattice { across, .. } => {
                let side = across.value.mm();
                let corner = |i: i32| {
                    let (column, row) = (i % 6, i / 6);
                    (column + 3, row - 2, at(f64::from(column) * side, f64::from(row) * side))
                };
                ReferenceOutline::Lattice((0..30).map(corner).collect())
            }
            ReferenceShape::Disc { diameter } => {
                let r = diameter.value.mm() / 2.0;
                let outline: Vec<Point> = (0..48)
                    .map(|i| {
                        let (s, c) = (f64::from(i) * std::f64::consts::TAU / 48.0).sin_cos();
                        at(r * (1.0 + c), r * (1.0 + s))
                    })
                    .collect();
                ellipse(&outline)
            }
        }
    }
}

/// The ellipse through an outline: least squares of `A x² + B xy + C y² + D x + E y = 1`.
pub fn ellipse(outline: &[Point]) -> ReferenceOutline {
    let middle = outline.iter().fold(Point::default(), |sum, p| sum + *p) * (1.0 / outline.len() as f64);
    let unit = outline[0].distance(middle);
    let mut normal = nalgebra::SMatrix::<f64, 5, 5>::zeros();
    let mut right = nalgebra::SVector::<f64, 5>::zeros();
    for point in outline {
        let p = (*point - middle) * (1.0 / unit);
        let row = nalgebra::SVector::<f64, 5>::from([p.x * p.x, p.x * p.y, p.y * p.y, p.x, p.y]);
        normal += row * row.transpose();
        right += row;
    }
    let k = normal.try_inverse().unwrap() * right;
    let quadratic = nalgebra::Matrix2::new(k[0], k[1] / 2.0, k[1] / 2.0, k[2]);
    let linear = nalgebra::Vector2::new(k[3], k[4]);
    let centre = quadratic.try_inverse().unwrap() * linear * -0.5;
    let level = 1.0 + centre.dot(&(quadratic * centre));
    let eigen = quadratic.symmetric_eigen();
    let half = |i: usize| (level / eigen.eigenvalues[i]).sqrt() * unit;
    let long = usize::from(half(1) > half(0));
    let axis = eigen.eigenvectors.column(long);
    ReferenceOutline::Ellipse {
        centre: middle + Point::new(centre.x, centre.y) * unit,
        half_axes: (half(long), half(1 - long)),
        angle: axis[1].atan2(axis[0]),
    }
}

/// The same found with noise.
pub fn perturbed(found: &ReferenceOutline, sigma: f64, numbers: &mut Numbers) -> ReferenceOutline {
    match found {
        ReferenceOutline::Rectangle(corners) => {
            ReferenceOutline::Rectangle(corners.map(|p| numbers.perturbed(p, sigma)))
        }
        ReferenceOutline::Marks(marks) => ReferenceOutline::Marks(marks.map(|p| numbers.perturbed(p, sigma))),
        ReferenceOutline::Lattice(all) => ReferenceOutline::Lattice(
            all.iter()
                .map(|(c, r, p)| (*c, *r, numbers.perturbed(*p, sigma)))
                .collect(),
        ),
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            // The three numbers of its shape, moved by the same in every direction.
            let (s, c) = angle.sin_cos();
            let turn = nalgebra::Matrix2::new(c, -s, s, c);
            let shape = turn * nalgebra::Matrix2::new(half_axes.0, 0.0, 0.0, half_axes.1) * turn.transpose();
            let skew = sigma * numbers.normal() / std::f64::consts::SQRT_2;
            let moved = shape + nalgebra::Matrix2::new(sigma * numbers.normal(), skew, skew, sigma * numbers.normal());
            let eigen = moved.symmetric_eigen();
            let long = usize::from(eigen.eigenvalues[1] > eigen.eigenvalues[0]);
            let axis = eigen.eigenvectors.column(long);
            ReferenceOutline::Ellipse {
                centre: *centre,
                half_axes: (eigen.eigenvalues[long], eigen.eigenvalues[1 - long]),
                angle: axis[1].atan2(axis[0]),
            }
        }
    }
}

/// A scene drawn at random within what the options state, `lean` at most, and the options.
pub fn scene(numbers: &mut Numbers, reference: &Reference, options: &Options, lean: f64) -> Truth {
    let known = options.focal.unwrap_or_else(|| Focal::usual(FRAME));
    let (lean, round) = (numbers.between(0.0, lean), numbers.between(0.0, std::f64::consts::TAU));
    let spread =
        |size: Measured<Length>, numbers: &mut Numbers| 1.0 + numbers.normal() * size.sigma_si() / size.value.si();
    let stretch = match reference.shape() {
        ReferenceShape::Rectangle { width, height, .. } => (spread(width, numbers), spread(height, numbers)),
        ReferenceShape::Lattice { across, down } => (spread(across, numbers), spread(down, numbers)),
        ReferenceShape::Disc { diameter } => [spread(diameter, numbers); 2].into(),
        ReferenceShape::Marks { length } => [spread(length, numbers); 2].into(),
    };
    Truth {
        eye: Eye {
            focal: known.pixels * (numbers.normal() * known.spread / 2.0).exp(),
            centre: FRAME.centre(),
            tilt: lean * round.cos(),
            pan: lean * round.sin(),
            roll: numbers.between(-3.1, 3.1),
            target: Point::new(60.0, 40.0),
            distance: numbers.between(350.0, 500.0),
        },
        stretch,
        height: options.height.value.mm() + numbers.normal() * options.height.plus_minus.mm() / 2.0,
        lens: Lens {
            k: options.lens.k + numbers.normal() * options.lens.plus_minus / 2.0,
            plus_minus: 0.0,
        },
    }
}

/// Two parallel edges, true places on the face.
pub fn edges(from: Point, width: f64, length: f64, turned: f64) -> [Vec<Point>; 2] {
    let (s, c) = turned.sin_cos();
    let place = |along: f64, across: f64| from + Point::new(c * along - s * across, s * along + c * across);
    [0.0, width].map(|across| [0.0, 0.5, 1.0].map(|part| place(part * length, across)).to_vec())
}

pub fn mark(dimension: Dimension, edges: [Vec<Point>; 2]) -> Mark {
    Mark {
        dimension,
        span: Span::Edges(edges),
    }
}

pub fn mm(value: f64, plus_minus: f64) -> Measured<Length> {
    Measured::new(Length::from_mm(value), Length::from_mm(plus_minus), Origin::Calipers)
}
