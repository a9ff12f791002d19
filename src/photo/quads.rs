//! Four-sided outlines from straight edges.

use super::edges::Edges;
use super::gray::Gray;
use super::point::Point;
use super::segments::{Segment, meeting};

/// A four-sided outline and how well the picture's edges bear it out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Quad {
    /// Its corners, clockwise as seen.
    pub corners: [Point; 4],
    /// 0 to 1: the share of its outline that lies on edges, less what runs on beyond its corners.
    pub support: f64,
    /// How likely it is the reference, beside others.
    pub weight: f64,
}

impl Quad {
    pub fn area(&self) -> f64 {
        area(&self.corners)
    }

    pub fn shortest_side(&self) -> f64 {
        sides(&self.corners)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min)
    }
}

pub(super) fn sides(corners: &[Point; 4]) -> impl Iterator<Item = (Point, Point)> {
    let corners = *corners;
    (0..4).map(move |index| (corners[index], corners[(index + 1) % 4]))
}

fn area(corners: &[Point; 4]) -> f64 {
    (corners[2] - corners[0]).cross(corners[3] - corners[1]) / 2.0
}

/// Straight edges that outlines are made of, at most.
const MOST_SEGMENTS: usize = 140;
/// How far beyond its end, or before it, a segment may meet another, as a part of its length.
const REACH: f64 = 1.0;
/// Support that an outline needs to be considered.
const LEAST_SUPPORT: f64 = 0.45;

/// One end of a segment that meets an end of another.
#[derive(Clone, Copy)]
struct Joint {
    other: usize,
    other_end: usize,
    at: Point,
}

/// All outlines that four segments make whose ends meet, and that `plausible` lets through.
pub(super) fn quads(edges: &Edges, segments: &[Segment], plausible: impl Fn(&[Point; 4]) -> bool) -> Vec<Quad> {
    let segments = &segments[..segments.len().min(MOST_SEGMENTS)];
    let joints = joints(segments);
    let mut found: Vec<Quad> = Vec::new();
    for first in 0..segments.len() {
        for left in &joints[first][0] {
            for right in &joints[first][1] {
                // Each outline is met from all four of its sides: take it from its lowest number.
                if left.other == right.other || left.other < first || right.other < first {
                    continue;
                }
                for far in &joints[left.other][1 - left.other_end] {
                    let back = |joint: &&Joint| joint.other == right.other && joint.other_end == 1 - right.other_end;
                    if far.other <= first || far.other == right.other {
                        continue;
                    }
                    let Some(last) = joints[far.other][1 - far.other_end].iter().find(back) else {
                        continue;
                    };
                    let corners = [left.at, right.at, last.at, far.at];
                    if let Some(quad) = quad(edges, corners, &plausible) {
                        found.push(quad);
                    }
                }
            }
        }
    }
    found.sort_by(|a, b| b.support.total_cmp(&a.support));
    let mut distinct: Vec<Quad> = Vec::new();
    for quad in found {
        if !distinct.iter().any(|other| same(&other.corners, &quad.corners, 3.0)) {
            distinct.push(quad);
        }
    }
    distinct
}

/// Whether two outlines have their corners within `reach` pixels, from whichever they start.
pub(super) fn same(a: &[Point; 4], b: &[Point; 4], reach: f64) -> bool {
    (0..4).any(|turn| (0..4).all(|index| a[index].distance(b[(index + turn) % 4]) <= reach))
}

fn quad(edges: &Edges, mut corners: [Point; 4], plausible: impl Fn(&[Point; 4]) -> bool) -> Option<Quad> {
    if area(&corners) < 0.0 {
        corners.reverse();
    }
    let convex = (0..4).all(|index| {
        let (a, b, c) = (corners[index], corners[(index + 1) % 4], corners[(index + 2) % 4]);
        (b - a).cross(c - b) > 0.1 * a.distance(b) * b.distance(c)
    });
    if !convex || sides(&corners).any(|(a, b)| a.distance(b) < 14.0) || !plausible(&corners) {
        return None;
    }
    let support = support(edges, &corners);
    (support >= LEAST_SUPPORT).then_some(Quad {
        corners,
        support,
        weight: support,
    })
}

/// The share of each side on edges across it, their product's fourth root; less a part of what
/// goes straight on beyond the corners, as the grain of a board does and a card does not.
pub(super) fn support(edges: &Edges, corners: &[Point; 4]) -> f64 {
    let mut product = 1.0;
    let mut beyond = 0.0;
    for (from, to) in sides(corners) {
        let side = to - from;
        let normal = Point::new(-side.y, side.x) * (1.0 / side.length());
        let on_edge = |t: f64| edges.near(from + side * t, normal, 2);
        let count = 48;
        let (mut up, mut down) = (0.0_f64, 0.0_f64);
        for index in 0..count {
            match on_edge(0.07 + 0.86 * (f64::from(index) + 0.5) / f64::from(count)) {
                Some((_, along)) if along > 0.0 => up += 1.0,
                Some(_) => down += 1.0,
                None => {}
            }
        }
        // A side brightens all along, or darkens all along, unless what lies around changes.
        product *= (up.max(down) + 0.7 * up.min(down)) / f64::from(count);
        let past = (1..=8).flat_map(|step| {
            let t = 0.02 + 0.02 * f64::from(step);
            [-t, 1.0 + t]
        });
        beyond += past.filter(|&t| on_edge(t).is_some()).count() as f64 / 16.0;
    }
    product.powf(0.25) * (1.0 - 0.7 * (beyond / 4.0 - 0.25).max(0.0))
}

/// Segments that are looked at for whether they are a thing's edge.
const MOST_SORTED: usize = 1500;

/// Puts edges of things before lines that are drawn, as on a cutting mat or in the grain of a
/// board, which may be longer and clearer than they.
pub(super) fn things_first(gray: &Gray, segments: &mut Vec<Segment>) {
    segments.truncate(MOST_SORTED);
    let mut weighed: Vec<(f64, Segment)> = segments
        .iter()
        .map(|segment| {
            (
                segment.weight() * (0.2 + 0.8 * stepped(gray, segment.from, segment.to)),
                *segment,
            )
        })
        .collect();
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    *segments = weighed.into_iter().map(|(_, segment)| segment).collect();
}

/// The same of an outline: the mean over its sides.
pub(super) fn all_stepped(gray: &Gray, corners: &[Point; 4]) -> f64 {
    sides(corners).map(|(from, to)| stepped(gray, from, to)).sum::<f64>() / 4.0
}

/// The share of a side where the picture stays brighter (or darker) beyond it, as at the edge of a
/// thing, and does not come back, as across a line that is drawn.
fn stepped(gray: &Gray, from: Point, to: Point) -> f64 {
    const COUNT: i32 = 16;
    const REACH: i32 = 5;
    let side = to - from;
    let normal = Point::new(-side.y, side.x) * (1.0 / side.length());
    let is_step = |index: &i32| {
        let middle = from + side * (0.08 + 0.84 * (f64::from(*index) + 0.5) / f64::from(COUNT));
        let light = |step: i32| gray.light(middle + normal * f64::from(step));
        let all = (-REACH..=REACH).map(light);
        let (least, most) = all.fold((1.0_f64, 0.0_f64), |(least, most), l| (least.min(l), most.max(l)));
        let ends = |sign: i32| f64::midpoint(light(sign * REACH), light(sign * (REACH - 1)));
        (ends(1) - ends(-1)).abs() >= 0.45 * (most - least)
    };
    (0..COUNT).filter(is_step).count() as f64 / f64::from(COUNT)
}

/// For each segment and each of its ends: which ends of others meet it.
fn joints(segments: &[Segment]) -> Vec<[Vec<Joint>; 2]> {
    let mut joints: Vec<[Vec<Joint>; 2]> = vec![[Vec::new(), Vec::new()]; segments.len()];
    for a in 0..segments.len() {
        for b in a + 1..segments.len() {
            let (one, two) = (segments[a], segments[b]);
            let (along_one, along_two) = (one.direction(), two.direction());
            // At least 35° between them.
            if along_one.cross(along_two).abs() < 0.57 {
                continue;
            }
            let Some(at) = meeting(one.from, along_one, two.from, along_two) else {
                continue;
            };
            for &end_one in ends_near(&one, &two, at) {
                for &end_two in ends_near(&two, &one, at) {
                    joints[a][end_one].push(Joint {
                        other: b,
                        other_end: end_two,
                        at,
                    });
                    joints[b][end_two].push(Joint {
                        other: a,
                        other_end: end_one,
                        at,
                    });
                }
            }
        }
    }
    joints
}

/// Which ends of a segment a corner may belong to: one that is near enough (some of a side may be
/// hidden or faint, and a corner may be round), or both where the other segment ends on this one,
/// as a card's side does that lies on a gap between boards.
fn ends_near(segment: &Segment, other: &Segment, corner: Point) -> &'static [usize] {
    let nearest = |segment: &Segment| {
        let (from, to) = (segment.from.distance(corner), segment.to.distance(corner));
        if from < to { (0, from) } else { (1, to) }
    };
    let (end, distance) = nearest(segment);
    if distance <= 8.0 + REACH * segment.length() {
        return if end == 0 { &[0] } else { &[1] };
    }
    let inside = (corner - segment.from).dot(corner - segment.to) < 0.0;
    if inside && nearest(other).1 <= 8.0 {
        &[0, 1]
    } else {
        &[]
    }
}

/// How far an outline is from a rectangle of this width to height, seen by some camera whose
/// focal length is 0.65 to 1.6 of the picture's long side: the logarithm of its ratio's error, or
/// the cosine between its sides where that is larger.
///
/// The homography of the unit square has the columns λK(w r₁), λK(h r₂) with r₁ ⊥ r₂ (Hartley and
/// Zisserman, Multiple View Geometry, 8.1), so each focal length gives a ratio and an angle.
pub(super) fn misfit(corners: &[Point; 4], centre: Point, long_side: f64, ratio: f64) -> f64 {
    let scaled = corners.map(|corner| (corner - centre) * (1.0 / long_side));
    let Some((first, second)) = square_columns(&scaled) else {
        return f64::INFINITY;
    };
    let at_focal = |focal: f64| {
        let length = |v: [f64; 3]| (v[0].hypot(v[1]) / focal).hypot(v[2]);
        let product = (first[0] * second[0] + first[1] * second[1]) / (focal * focal) + first[2] * second[2];
        let (one, two) = (length(first), length(second));
        (one / two / ratio).ln().abs().max((product / one / two).abs())
    };
    (0..=10)
        .map(|step| at_focal(0.65 * (1.6_f64 / 0.65).powf(f64::from(step) / 10.0)))
        .fold(f64::INFINITY, f64::min)
}

/// The first two columns of the homography from the unit square to an outline (Heckbert 1989,
/// Fundamentals of Texture Mapping, 2.2.3).
fn square_columns(corners: &[Point; 4]) -> Option<([f64; 3], [f64; 3])> {
    let (g, h) = square_bend(corners)?;
    let [a, b, _, d] = *corners;
    let column = |corner: Point, bend: f64| [corner.x - a.x + bend * corner.x, corner.y - a.y + bend * corner.y, bend];
    Some((column(b, g), column(d, h)))
}

/// The two perspective terms of that homography.
fn square_bend(corners: &[Point; 4]) -> Option<(f64, f64)> {
    let [a, b, c, d] = *corners;
    let (one, two) = (b - c, d - c);
    let sum = a - b + (c - d);
    let cross = one.cross(two);
    (cross.abs() > 1e-15).then(|| (sum.cross(two) / cross, one.cross(sum) / cross))
}

/// The place that (`u`, `v`) of the unit square has in an outline, corner 0 being (0, 0) and
/// corner 1 being (1, 0).
pub(super) fn square_to_quad(corners: &[Point; 4], u: f64, v: f64) -> Option<Point> {
    let (g, h) = square_bend(corners)?;
    let [a, b, _, d] = *corners;
    let w = 1.0 + g * u + h * v;
    let place = a + (b - a + b * g) * u + (d - a + d * h) * v;
    (w.abs() > 1e-12).then(|| place * (1.0 / w))
}
