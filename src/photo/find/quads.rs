//! Four-sided outlines from straight edges.

use std::collections::BTreeSet;

use super::segments::{Segment, meeting};
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;

/// A four-sided outline and its support by the picture's edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Quad {
    /// Corners, clockwise as seen.
    pub corners: [Point; 4],
    /// Share of the outline on edges, reduced where lines continue beyond its corners; 0 to 1.
    pub support: f64,
    /// Relative likelihood of being the reference.
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

pub(crate) fn sides(corners: &[Point; 4]) -> impl Iterator<Item = (Point, Point)> {
    let corners = *corners;
    (0..4).map(move |index| (corners[index], corners[(index + 1) % 4]))
}

/// The mean of the four corners.
pub(crate) fn middle(corners: &[Point; 4]) -> Point {
    corners.iter().fold(Point::default(), |sum, corner| sum + *corner) * 0.25
}

fn area(corners: &[Point; 4]) -> f64 {
    (corners[2] - corners[0]).cross(corners[3] - corners[1]) / 2.0
}

/// Largest number of segments that outlines are made of.
const MAX_SEGMENTS: usize = 160;
/// Largest gap between a segment's end and a corner, as a fraction of the segment's length.
const REACH: f64 = 1.0;
/// Largest overshoot of a segment beyond a corner, as a fraction of its length.
const OVERSHOOT: f64 = 0.15;
/// Sine of the largest angle between opposite sides.
const MAX_CONVERGING: f64 = 0.5;
/// Minimum share of each side covered by its segment; [`MEAN_COVER`] applies to the mean of four.
const MIN_COVER: f64 = 0.12;
const MEAN_COVER: f64 = 0.4;
/// Minimum support of an outline.
const MIN_SUPPORT: f64 = 0.45;

/// A corner where ends of two segments meet.
#[derive(Clone, Copy)]
struct Joint {
    other: usize,
    at: Point,
}

/// All outlines accepted by `plausible` that are made of a segment, one segment at each of its
/// ends, and a fourth across both.
pub(crate) fn quads(edges: &Edges, segments: &[Segment], plausible: impl Fn(&[Point; 4]) -> bool) -> Vec<Quad> {
    let (segments, joints) = meeting_both_ways(segments);
    let mut found: Vec<Quad> = Vec::new();
    // Each outline is reached from several of its sides.
    let mut seen: BTreeSet<[usize; 4]> = BTreeSet::new();
    for (first, [lefts, rights]) in joints.iter().enumerate() {
        for left in lefts {
            for right in rights {
                let (one, two) = (&segments[left.other], &segments[right.other]);
                if left.other == right.other || one.direction().cross(two.direction()).abs() > MAX_CONVERGING {
                    continue;
                }
                let near = cover(&segments[first], left.at, right.at);
                if near < MIN_COVER {
                    continue;
                }
                for (far, across) in segments.iter().enumerate() {
                    if far == first || across.direction().cross(segments[first].direction()).abs() > MAX_CONVERGING {
                        continue;
                    }
                    let corner = |side: &Segment| meeting(side.from, side.direction(), across.from, across.direction());
                    let (Some(on_left), Some(on_right)) = (corner(one), corner(two)) else {
                        continue;
                    };
                    let covers = [
                        cover(one, left.at, on_left),
                        cover(two, right.at, on_right),
                        cover(across, on_left, on_right),
                    ];
                    if covers.iter().any(|cover| *cover < MIN_COVER)
                        || near + covers.iter().sum::<f64>() < 4.0 * MEAN_COVER
                    {
                        continue;
                    }
                    let mut sides = [first, left.other, right.other, far];
                    sides.sort_unstable();
                    if !seen.insert(sides) {
                        continue;
                    }
                    let corners = [left.at, right.at, on_right, on_left];
                    found.extend(quad(edges, corners, MIN_SUPPORT, &plausible));
                }
            }
        }
    }
    found
}

/// Share of a side covered by a segment on its line, less a penalty where the segment runs beyond
/// the corners.
fn cover(segment: &Segment, from: Point, to: Point) -> f64 {
    let side = to - from;
    let t = |place: Point| (place - from).dot(side) / side.dot(side);
    let (one, two) = (t(segment.from), t(segment.to));
    let (low, high) = (one.min(two), one.max(two));
    let beyond = (-low).max(0.0) + (high - 1.0).max(0.0);
    high.min(1.0) - low.max(0.0) - 0.7 * (beyond - 0.1).max(0.0)
}

/// The strongest segments that meet others, and the joints at both ends of each.
fn meeting_both_ways(segments: &[Segment]) -> (Vec<Segment>, Vec<[Vec<Joint>; 2]>) {
    let mut kept = segments.to_vec();
    let mut joined = joints(&kept);
    for _ in 0..2 {
        let mut index = 0;
        kept.retain(|_| {
            index += 1;
            joined[index - 1].iter().any(|end| !end.is_empty())
        });
        joined = joints(&kept);
    }
    kept.truncate(MAX_SEGMENTS);
    joined = joints(&kept);
    (kept, joined)
}

/// Removes near-duplicates, keeping the best supported; best first.
pub(crate) fn distinct(mut found: Vec<Quad>) -> Vec<Quad> {
    found.sort_by(|a, b| b.support.total_cmp(&a.support));
    found.truncate(MAX_COMPARED);
    let mut distinct: Vec<Quad> = Vec::new();
    for quad in found {
        if !distinct.iter().any(|other| same(&other.corners, &quad.corners, 3.0)) {
            distinct.push(quad);
        }
    }
    distinct
}

/// Whether the corners of two outlines agree within `reach` pixels, in any rotation.
pub(crate) fn same(a: &[Point; 4], b: &[Point; 4], reach: f64) -> bool {
    (0..4).any(|turn| (0..4).all(|index| a[index].distance(b[(index + turn) % 4]) <= reach))
}

/// The outline of four corners if it is convex, plausible, and supported by at least `least`.
pub(crate) fn quad(
    edges: &Edges,
    mut corners: [Point; 4],
    least: f64,
    plausible: impl Fn(&[Point; 4]) -> bool,
) -> Option<Quad> {
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
    (support >= least).then_some(Quad {
        corners,
        support,
        weight: support,
    })
}

/// Geometric mean over the sides of the share on edges, less a penalty where edges continue
/// straight beyond the corners, as the grain of a board does and a card does not.
pub(crate) fn support(edges: &Edges, corners: &[Point; 4]) -> f64 {
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
        // A side has one sign of contrast along its length, unless the ground changes.
        product *= (up.max(down) + 0.7 * up.min(down)) / f64::from(count);
        let past = (1..=8).flat_map(|step| {
            let t = 0.02 + 0.02 * f64::from(step);
            [-t, 1.0 + t]
        });
        beyond += past.filter(|&t| on_edge(t).is_some()).count() as f64 / 16.0;
    }
    product.powf(0.25) * (1.0 - 0.7 * (beyond / 4.0 - 0.25).max(0.0))
}

/// Largest number of outlines compared with each other.
const MAX_COMPARED: usize = 1000;

/// The joints at both ends of each segment.
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
            let (ends_one, ends_two) = (ends_near(&one, &two, at), ends_near(&two, &one, at));
            if ends_two.is_empty() {
                continue;
            }
            for &end in ends_one {
                joints[a][end].push(Joint { other: b, at });
            }
            if !ends_one.is_empty() {
                for &end in ends_two {
                    joints[b][end].push(Joint { other: a, at });
                }
            }
        }
    }
    joints
}

/// The ends of a segment that a corner may belong to: the nearer one if it is near enough (part of
/// a side may be hidden or faint, and a corner round), or both where the other segment ends on
/// this one, as a card's side does at a gap between boards.
fn ends_near(segment: &Segment, other: &Segment, corner: Point) -> &'static [usize] {
    let nearest = |segment: &Segment| {
        let (from, to) = (segment.from.distance(corner), segment.to.distance(corner));
        if from < to { (0, from) } else { (1, to) }
    };
    let (end, distance) = nearest(segment);
    let inside = (corner - segment.from).dot(corner - segment.to) < 0.0;
    let reach = if inside { OVERSHOOT } else { REACH };
    if distance <= 8.0 + reach * segment.length() {
        return if end == 0 { &[0] } else { &[1] };
    }
    if inside && nearest(other).1 <= 8.0 {
        &[0, 1]
    } else {
        &[]
    }
}
