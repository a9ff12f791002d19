//! The transformer and its core, in the proportions of a lamination that wastes no steel:
//! window ½ × 1½ tongue, limbs and yokes half a tongue.

use super::super::svg::Svg;
use super::super::trace::{Point, Pose, Trace};

/// The face of an E with its limbs up. (0, 0) is the lower left corner of the yoke; the unit is
/// a tongue: 3 wide, 2 high. Clockwise.
pub(super) fn e_corners() -> [Point; 12] {
    [
        (0.0, 0.0),
        (0.0, -2.0),
        (0.5, -2.0),
        (0.5, -0.5),
        (1.0, -0.5),
        (1.0, -2.0),
        (2.0, -2.0),
        (2.0, -0.5),
        (2.5, -0.5),
        (2.5, -2.0),
        (3.0, -2.0),
        (3.0, 0.0),
    ]
}

/// An E from the front; the size of the pose is its tongue.
pub(super) fn e_face(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.area(&e_corners()));
}

/// The I of the same core from the front, by its lower left corner.
pub(super) fn i_face(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.block(0.0, -0.5, 3.0, 0.5));
}

/// The transformer from the front, on its feet. (0, 0) is the middle of its foot; 132 wide,
/// 104 high. The seam is at the top.
pub(super) fn transformer(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.block(-66.0, -8.0, 132.0, 8.0));
    svg.trace("iron", &pose.block(-54.0, -104.0, 108.0, 96.0));
    svg.trace("edge", &pose.line(&[(-54.0, -86.0), (54.0, -86.0)]));
    for x in [-54.0, 54.0] {
        let (x, y) = pose.put(x, -86.0);
        svg.circle("solid", x, y, 4.0 * pose.size());
    }
    coil(svg, pose, (-40.0, -80.0), (80.0, 32.0), 4);
    coil(svg, pose, (-40.0, -44.0), (80.0, 30.0), 7);
    // Two tabs of the primary.
    for x in [-24.0, 24.0] {
        svg.trace("body", &pose.block(x - 4.0, -100.0, 8.0, 20.0));
    }
}

/// A coil from the front: `turns` lines along it.
fn coil(svg: &mut Svg, pose: Pose, at: Point, size: Point, turns: u8) {
    let ((x, y), (w, h)) = (at, size);
    let r = h * 0.3;
    let outline = Trace::at(pose.put(x + r, y))
        .to(pose.put(x + w - r, y))
        .bend(pose.put(x + w, y), pose.put(x + w, y + r))
        .to(pose.put(x + w, y + h - r))
        .bend(pose.put(x + w, y + h), pose.put(x + w - r, y + h))
        .to(pose.put(x + r, y + h))
        .bend(pose.put(x, y + h), pose.put(x, y + h - r))
        .to(pose.put(x, y + r))
        .bend(pose.put(x, y), pose.put(x + r, y))
        .close();
    svg.trace("copper", &outline);
    for turn in 1..turns {
        let level = y + h * f64::from(turn) / f64::from(turns);
        svg.trace("grain", &pose.line(&[(x + 3.0, level), (x + w - 3.0, level)]));
    }
}

/// A winding in section: a rectangle filled with wires, `across` of them.
pub(super) fn wires(svg: &mut Svg, at: Point, size: Point, across: u8) {
    let ((x, y), (w, h)) = (at, size);
    svg.rect("copper", x, y, w, h);
    let pitch = w / f64::from(across);
    let mut level = y + pitch / 2.0;
    while level + pitch / 2.0 <= y + h + 0.1 {
        for i in 0..across {
            svg.circle("wire-end", x + pitch * (f64::from(i) + 0.5), level, pitch * 0.36);
        }
        level += pitch;
    }
}

/// A solid drawn with its depth going up to the right.
#[derive(Debug, Clone, Copy)]
pub(super) struct Solid {
    /// Where the front face stands; its size is the unit.
    pub pose: Pose,
    /// How far the back is from the front on the sheet.
    pub depth: Point,
}

impl Solid {
    /// A point: right, down, and depth from 0 (front) to 1 (back).
    pub(super) fn put(self, x: f64, y: f64, z: f64) -> Point {
        let (px, py) = self.pose.put(x, y);
        (px + self.depth.0 * z, py + self.depth.1 * z)
    }

    /// The face behind a front edge.
    fn behind(self, from: Point, to: Point) -> Trace {
        Trace::through(&[
            self.put(from.0, from.1, 0.0),
            self.put(from.0, from.1, 1.0),
            self.put(to.0, to.1, 1.0),
            self.put(to.0, to.1, 0.0),
        ])
        .close()
    }

    /// The face behind a front edge, with the edges of laminations on it.
    fn laminated(self, svg: &mut Svg, from: Point, to: Point) {
        svg.trace("iron", &self.behind(from, to));
        for z in [0.2, 0.4, 0.6, 0.8] {
            let (a, b) = (self.put(from.0, from.1, z), self.put(to.0, to.1, z));
            svg.line("grain", a, b);
        }
    }

    /// A pile of equal sheets with these corners, given clockwise as seen from the front.
    /// Faces that look up or right are seen; hidden ones are covered by the front.
    pub(super) fn pile(self, svg: &mut Svg, corners: &[Point]) {
        let next = corners.iter().cycle().skip(1);
        let mut faces: Vec<(Point, Point)> = corners
            .iter()
            .zip(next)
            .map(|(a, b)| (*a, *b))
            .filter(|(a, b)| {
                let ((ax, ay), (bx, by)) = (self.put(a.0, a.1, 0.0), self.put(b.0, b.1, 0.0));
                // Cross product of the edge with the depth: the sign tells which side is seen.
                (bx - ax) * self.depth.1 - (by - ay) * self.depth.0 < 0.0
            })
            .collect();
        // Lower and further left is further from the eye in its own pile: draw it first.
        faces.sort_by(|a, b| {
            let low = |e: &(Point, Point)| {
                let (p, q) = (self.put(e.0.0, e.0.1, 0.0), self.put(e.1.0, e.1.1, 0.0));
                f64::midpoint(p.0, q.0) - 2.0 * f64::midpoint(p.1, q.1)
            };
            low(a).total_cmp(&low(b))
        });
        for (a, b) in faces {
            self.laminated(svg, a, b);
        }
        svg.trace("iron", &self.pose.area(corners));
    }

    /// A bar: the pile of an upright rectangle by its upper left corner.
    pub(super) fn bar(self, svg: &mut Svg, at: Point, size: Point) {
        let ((x, y), (w, h)) = (at, size);
        self.pile(svg, &[(x, y), (x + w, y), (x + w, y + h), (x, y + h)]);
    }
}
