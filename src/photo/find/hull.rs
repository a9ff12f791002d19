//! The hull of a patch, and the four sides or the ellipse that bound it.

use super::ellipse::Ellipse;
use super::line::Line;
use super::point::Point;
use super::segments::{meeting, unit};

/// Largest difference of a hull's area from that of its four sides, as a part of it.
const MOST_OFF: f64 = 0.06;
/// Largest spread of a round hull about its ellipse, as a part of its radius.
const MOST_UNEVEN: f64 = 0.03;
/// Corners of a hull that four are chosen among, at most.
const MOST_CORNERS: usize = 40;

/// The convex hull, clockwise on a picture (Andrew's monotone chain, 1979).
pub(super) fn hull(mut places: Vec<Point>) -> Vec<Point> {
    places.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)));
    let mut chain: Vec<Point> = Vec::new();
    for _ in 0..2 {
        let start = chain.len();
        for &place in &places {
            while chain.len() >= start + 2 {
                let (a, b) = (chain[chain.len() - 2], chain[chain.len() - 1]);
                if (b - a).cross(place - b) > 0.0 {
                    break;
                }
                chain.pop();
            }
            chain.push(place);
        }
        // The last place begins the way back.
        chain.pop();
        places.reverse();
    }
    chain
}

/// The area of a polygon, positive where it goes clockwise on a picture.
pub(super) fn area(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| a.cross(*b)).sum::<f64>() / 2.0
}

/// The four corners of a hull that is bounded by four straight sides, `out` pixels further out;
/// none where it is of another shape. Its own corners may be round.
pub(super) fn four_sided(hull: &[Point], out: f64) -> Option<[Point; 4]> {
    let mut corners = largest_inside(hull)?;
    let places = outline(hull);
    for out in [0.0, out] {
        let mut lines = Vec::with_capacity(4);
        for index in 0..4 {
            let (from, to) = (corners[index], corners[(index + 1) % 4]);
            let (along, length) = (unit(to - from), from.distance(to));
            let on_side = |place: &&Point| {
                let t = (**place - from).dot(along) / length;
                (0.12..0.88).contains(&t) && along.cross(**place - from).abs() < 0.06 * length + 2.0
            };
            let near: Vec<Point> = places.iter().filter(on_side).copied().collect();
            let line = Line::through(&near)?;
            // Outward lies to the left on the way round.
            lines.push((line.middle + Point::new(along.y, -along.x) * out, line.direction));
        }
        for (index, corner) in corners.iter_mut().enumerate() {
            let (before, after) = (lines[(index + 3) % 4], lines[index]);
            *corner = meeting(before.0, before.1, after.0, after.1)?;
        }
    }
    let perimeter: f64 = (0..4).map(|k| corners[k].distance(corners[(k + 1) % 4])).sum();
    let grown = area(hull) + perimeter * out;
    ((area(&corners) / grown - 1.0).abs() < MOST_OFF).then_some(corners)
}

/// The ellipse that a hull is, `out` pixels further out; none where it is of another shape.
pub(super) fn round(hull: &[Point], out: f64) -> Option<Ellipse> {
    let places = outline(hull);
    let middle = places.iter().fold(Point::default(), |sum, place| sum + *place) * (1.0 / places.len() as f64);
    let mut ellipse = Ellipse::fit(&places, middle, |_| 1.0)?;
    let gauge = ellipse.gauge();
    let square: f64 = places.iter().map(|place| gauge(*place).powi(2)).sum();
    let rms = (square / places.len() as f64).sqrt();
    ellipse.half_axes = (ellipse.half_axes.0 + out, ellipse.half_axes.1 + out);
    (rms < 1.5 + MOST_UNEVEN * ellipse.radius()).then_some(ellipse)
}

/// Places along a hull, about a pixel apart.
fn outline(hull: &[Point]) -> Vec<Point> {
    let mut places = Vec::new();
    for (index, from) in hull.iter().enumerate() {
        let way = hull[(index + 1) % hull.len()] - *from;
        let count = way.length().ceil().max(1.0);
        places.extend((0..count as usize).map(|k| *from + way * (k as f64 / count)));
    }
    places
}

/// The four corners of a hull with the largest area between them.
fn largest_inside(hull: &[Point]) -> Option<[Point; 4]> {
    let step = hull.len().div_ceil(MOST_CORNERS).max(1);
    let some: Vec<Point> = hull.iter().step_by(step).copied().collect();
    let count = some.len();
    let mut best = (0.0, None);
    for first in 0..count {
        for third in first + 2..count {
            let way = some[third] - some[first];
            let far = |from: usize, to: usize, sign: f64| {
                (from..to)
                    .map(|index| (sign * way.cross(some[index % count] - some[first]), index % count))
                    .max_by(|a, b| a.0.total_cmp(&b.0))
            };
            let (Some(left), Some(right)) = (far(first + 1, third, -1.0), far(third + 1, first + count, 1.0)) else {
                continue;
            };
            if left.0 + right.0 > best.0 {
                best = (
                    left.0 + right.0,
                    Some([some[first], some[left.1], some[third], some[right.1]]),
                );
            }
        }
    }
    best.1
}
