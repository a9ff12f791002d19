//! Straight segments grown from ridge pixels.

use crate::photo::geometry::{Point, unit};
use crate::photo::image::edges::Edges;

/// A straight segment of an edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Segment {
    /// One end.
    pub from: Point,
    /// The other end; the brighter side is to the left, looking from `from` to `to`.
    pub to: Point,
    /// Mean slope across it, in grey values per pixel.
    pub slope: f64,
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

    /// Direction from `from` to `to`, of length 1.
    pub fn direction(&self) -> Point {
        self.along
    }

    /// Ranking weight: length times the root of the slope.
    pub fn weight(&self) -> f64 {
        self.length() * self.slope.sqrt()
    }

    /// Signed distance of a point from the segment's line.
    pub fn offset(&self, place: Point) -> f64 {
        self.direction().cross(place - self.from)
    }
}

/// The intersection of two lines, each by a point and a direction; `None` if parallel.
pub(crate) fn meeting(a: Point, along_a: Point, b: Point, along_b: Point) -> Option<Point> {
    let cross = along_a.cross(along_b);
    (cross.abs() > 1e-9).then(|| a + along_a * ((b - a).cross(along_b) / cross))
}

/// Largest distance of an added pixel from the line, in pixels.
const STRAY: f64 = 1.3;
/// Largest number of consecutive missing pixels.
const GAP: usize = 3;
/// Largest number of consecutive pixels that belong to other segments: a crossing has few, a
/// segment found before has many.
const TAKEN: usize = 8;

/// Seed stride along an edge, in columns where it runs across and in rows where it runs down: each
/// segment of the minimum length has several seeds.
const SEEDED: usize = 4;

/// Grows segments of at least `shortest` pixels from ridge pixels whose gradients agree; by weight,
/// largest first.
pub(crate) fn segments(edges: &Edges, shortest: f64) -> Vec<Segment> {
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

/// Running sums of a line fitted to pixels.
#[derive(Default)]
struct LineFit {
    count: f64,
    sum: Point,
    square: [f64; 3],
    gradient: Point,
    slope: f64,
    /// Direction, of length 1, updated every few pixels.
    along: Point,
}

impl LineFit {
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

    /// The current direction: from the gradients while the line is short, then from its points.
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
    let mut line = LineFit::default();
    line.add(place(seed), edges.gradient(seed.0, seed.1));
    used[seed.1 as usize * width + seed.0 as usize] = true;
    let mut ends = [place(seed); 2];
    for (end, sign) in ends.iter_mut().zip([1.0, -1.0]) {
        let mut at = place(seed);
        let (mut missing, mut taken) = (0, 0);
        while missing <= GAP && taken <= TAKEN {
            let along = line.along * sign;
            // Steps of one pixel along the fitted line, not from the last pixel.
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

/// Whether a gradient is within 23° of a unit normal.
fn is_along(gradient: Point, normal: Point) -> bool {
    let along = gradient.dot(normal);
    along > 0.0 && along * along > 0.92 * 0.92 * gradient.dot(gradient)
}

/// The segments, and in addition their unions along one line: directions within 3°, the same
/// brighter side, slopes within a factor of 2.5, ends within about 2 pixels of the line, a gap no
/// longer than half of both together.
pub(crate) fn joined(segments: &[Segment]) -> Vec<Segment> {
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
