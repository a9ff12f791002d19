//! Straight pieces of edges.

use super::edges::Edges;
use super::point::Point;

/// A straight piece of an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Segment {
    /// One end.
    pub from: Point,
    /// The other end, the brighter side being to the left on the way to it as seen.
    pub to: Point,
    /// Mean slope across it, in grey values per pixel.
    pub slope: f64,
    /// From the one end to the other.
    length: f64,
    along: Point,
}

impl Segment {
    pub fn new(from: Point, to: Point, slope: f64) -> Self {
        Self {
            from,
            to,
            slope,
            length: from.distance(to),
            along: unit(to - from),
        }
    }

    pub fn length(&self) -> f64 {
        self.length
    }

    /// Its direction, of length 1.
    pub fn direction(&self) -> Point {
        self.along
    }

    /// Long and clear ones first: length times the root of the slope.
    pub fn weight(&self) -> f64 {
        self.length() * self.slope.sqrt()
    }

    /// How far a place is from its line, with a sign.
    pub fn offset(&self, place: Point) -> f64 {
        self.direction().cross(place - self.from)
    }
}

/// A vector made 1 long; zero stays zero.
pub(super) fn unit(vector: Point) -> Point {
    let length = vector.length();
    if length > 0.0 { vector * (1.0 / length) } else { vector }
}

/// Where two lines meet, each given by a place and a direction.
pub(super) fn meeting(a: Point, along_a: Point, b: Point, along_b: Point) -> Option<Point> {
    let cross = along_a.cross(along_b);
    (cross.abs() > 1e-9).then(|| a + along_a * ((b - a).cross(along_b) / cross))
}

/// Widest distance of an edge pixel from the line it is added to, in pixels.
const STRAY: f64 = 1.3;
/// Pixels that may be missing in a row.
const GAP: usize = 3;
/// Pixels of other pieces that may follow each other, as where one crosses: more are a piece that is
/// known.
const TAKEN: usize = 8;

/// Of the pixels of an edge one in so many is begun from, in columns where it runs more across and in
/// rows where it runs more down: each piece of [`segments`]' length has several of them.
const SEEDED: usize = 4;

/// Grows straight pieces from edge pixels whose gradients agree, the longest first.
pub(super) fn segments(edges: &Edges, shortest: f64) -> Vec<Segment> {
    let width = edges.width();
    let mut used = vec![false; width * edges.height()];
    let mut found = Vec::new();
    for (x, y) in edges.places() {
        let Point { x: gx, y: gy } = edges.gradient(x as isize, y as isize);
        let across = if gx.abs() < gy.abs() { x } else { y };
        if across % SEEDED == 0
            && !used[y * width + x]
            && let Some(segment) = grow(edges, &mut used, (x as isize, y as isize), shortest)
        {
            found.push(segment);
        }
    }
    found.sort_by(|a: &Segment, b| b.weight().total_cmp(&a.weight()));
    found
}

/// The sums of a fitted line.
#[derive(Default)]
struct Line {
    count: f64,
    sum: Point,
    square: [f64; 3],
    gradient: Point,
    slope: f64,
    /// Its direction, of length 1, as of a few pixels ago.
    along: Point,
}

impl Line {
    fn add(&mut self, place: Point, slope: Point) {
        let length = slope.length();
        let gradient = slope * (1.0 / length);
        self.slope += length;
        self.count += 1.0;
        self.sum = self.sum + place;
        self.square[0] += place.x * place.x;
        self.square[1] += place.x * place.y;
        self.square[2] += place.y * place.y;
        self.gradient = self.gradient + gradient;
        if self.count < 16.0 || self.count % 8.0 == 0.0 {
            self.along = self.direction();
        }
    }

    fn centre(&self) -> Point {
        self.sum * (1.0 / self.count)
    }

    /// Its direction: of the gradients while it is short, then of its places.
    fn direction(&self) -> Point {
        let by_gradient = unit(Point::new(-self.gradient.y, self.gradient.x));
        if self.count < 10.0 {
            return by_gradient;
        }
        let centre = self.centre();
        let xx = self.square[0] / self.count - centre.x * centre.x;
        let xy = self.square[1] / self.count - centre.x * centre.y;
        let yy = self.square[2] / self.count - centre.y * centre.y;
        // The eigenvector of the larger eigenvalue, in whichever of its two forms is not zero.
        let spread = Point::new(xx - yy, 2.0 * xy).length();
        let by_places = if xx > yy {
            Point::new(xx - yy + spread, 2.0 * xy)
        } else {
            Point::new(2.0 * xy, yy - xx + spread)
        };
        unit(by_places) * by_places.dot(by_gradient).signum()
    }
}

fn grow(edges: &Edges, used: &mut [bool], seed: (isize, isize), shortest: f64) -> Option<Segment> {
    let width = edges.width();
    let place = |(x, y): (isize, isize)| Point::new(x as f64, y as f64);
    let mut line = Line::default();
    line.add(place(seed), edges.gradient(seed.0, seed.1));
    used[seed.1 as usize * width + seed.0 as usize] = true;
    let mut ends = [place(seed); 2];
    for (end, sign) in ends.iter_mut().zip([1.0, -1.0]) {
        let mut at = place(seed);
        let (mut missing, mut taken) = (0, 0);
        while missing <= GAP && taken <= TAKEN {
            let along = line.along * sign;
            // On from the line, not from the last pixel: steps of one pixel along it.
            let centre = line.centre();
            let next = centre + along * ((at - centre).dot(along) + 1.0);
            let normal = Point::new(line.along.y, -line.along.x);
            let candidate = [0.0, 1.0, -1.0].into_iter().find_map(|offset| {
                let spot = next + normal * offset;
                let (x, y) = spot.pixel();
                let gradient = edges.on_edge(x, y)?;
                let stray = along.cross(place((x, y)) - centre).abs();
                (is_along(gradient, normal) && (line.count < 10.0 || stray <= STRAY)).then_some(((x, y), gradient))
            });
            match candidate {
                Some(((x, y), gradient)) => {
                    let index = y as usize * width + x as usize;
                    if used[index] {
                        taken += 1;
                    } else {
                        used[index] = true;
                        line.add(place((x, y)), gradient);
                        taken = 0;
                    }
                    missing = 0;
                    *end = next;
                }
                None => missing += 1,
            }
            at = next;
        }
    }
    let along = line.direction();
    let on_line = |end: Point| line.centre() + along * (end - line.centre()).dot(along);
    let segment = Segment::new(on_line(ends[1]), on_line(ends[0]), line.slope / line.count);
    let length = segment.length();
    (length >= shortest && line.count >= 0.6 * length).then_some(segment)
}

/// Whether a gradient runs along a normal of length 1, within 23°.
fn is_along(gradient: Point, normal: Point) -> bool {
    let along = gradient.dot(normal);
    along > 0.0 && along * along > 0.92 * 0.92 * gradient.dot(gradient)
}

/// The pieces, and with them what pieces of one line make together: directions within 3°, the same
/// brighter side, slopes within a factor of 2.5, ends within 2 pixels or so, a gap no longer than
/// half of both.
pub(super) fn joined(segments: &[Segment]) -> Vec<Segment> {
    let mut gone = vec![false; segments.len()];
    let mut out = segments.to_vec();
    for first in 0..segments.len() {
        if gone[first] {
            continue;
        }
        let mut whole = segments[first];
        for other in first + 1..segments.len() {
            if !gone[other]
                && let Some(longer) = whole.joined_with(&segments[other])
            {
                gone[other] = true;
                whole = longer;
            }
        }
        if whole != segments[first] {
            out.push(whole);
        }
    }
    out.sort_by(|a, b| b.weight().total_cmp(&a.weight()));
    out
}

impl Segment {
    fn joined_with(&self, piece: &Segment) -> Option<Segment> {
        let along = self.direction();
        let alike = (0.4..2.5).contains(&(piece.slope / self.slope));
        if !alike || along.dot(piece.direction()) < 0.9986 {
            return None;
        }
        let stray = 2.0 + 0.003 * self.length();
        if self.offset(piece.from).abs() > stray || self.offset(piece.to).abs() > stray {
            return None;
        }
        let t = |place: Point| (place - self.from).dot(along);
        let (low, high) = (t(piece.from), t(piece.to));
        let (own, other) = (self.length(), piece.length());
        if (low - own).max(-high) > 0.5 * (own + other) {
            return None;
        }
        Some(Segment::new(
            if low < 0.0 { piece.from } else { self.from },
            if high > own { piece.to } else { self.to },
            (self.slope * own + piece.slope * other) / (own + other),
        ))
    }
}
