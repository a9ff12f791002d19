//! Finds the face of an E-I core: its outline, both windows and the tongue between them.
//!
//! The scale of the reference gives the face's plane, so the picture is laid on it (`rectified`) and a
//! pattern of an outline and two windows is searched there at one millimetre (`template`). The edges
//! of the likeliest patterns are then fitted in the photo itself. The result is a proposal for a person
//! to correct; [`CoreFace::doubts`] lists what they must check.

mod rectified;
mod template;

use self::rectified::{Rectified, directions};
use self::template::{Pattern, patterns};
use super::{Dimension, Mark, Span};
use crate::photo::Cancelled;
use crate::photo::find::quads::same;
use crate::photo::find::segments::{joined, segments};
use crate::photo::geometry::{Point, StraightLine};
use crate::photo::image::edges::Edges;
use crate::photo::image::profile::{FittedSide, fit_side};
use crate::photo::image::{Gray, Photo};
use crate::photo::reference::ReferenceOutline;
use crate::photo::scale::{PlaneMap, Scale};

/// The face of a core, as proposed.
#[derive(Debug, Clone, PartialEq)]
pub struct CoreFace {
    /// Its four corners in the picture, clockwise as seen; the first side runs across both windows.
    pub corners: [Point; 4],
    /// The corners of the two windows, each in the same order.
    pub windows: [[Point; 4]; 2],
    /// The dimensions whose edges were found, each marked by two points on either edge.
    pub marks: Vec<Mark>,
    /// Reasons to compare it with the picture; empty where there are none.
    pub doubts: Vec<CoreDoubt>,
}

/// A reason to doubt a core's face or stack.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum CoreDoubt {
    /// Another outline fits nearly as well.
    SecondAsLikely,
    /// Long parts of an edge cannot be seen, or it hardly stands out.
    WeakEdges,
    /// Windows, limbs or yokes of one face differ from each other, or edges are not square.
    Uneven,
    /// Its proportions are not those of an E-I core.
    OddProportions,
    /// A stack is always to be compared: other rectangles look like a pile's side.
    Side,
    /// In a stack's side no lines of sheets are seen: it may be another side.
    NoSheets,
}

impl CoreDoubt {
    /// The identifier used for texts.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            CoreDoubt::SecondAsLikely => "core-second",
            CoreDoubt::WeakEdges => "core-edges",
            CoreDoubt::Uneven => "core-uneven",
            CoreDoubt::OddProportions => "core-proportions",
            CoreDoubt::Side => "core-side",
            CoreDoubt::NoSheets => "core-sheets",
        }
    }
}

/// Patterns whose edges are fitted in the reduced photo.
const FITTED: usize = 16;
/// Reach of the search for an edge about a pattern's, in millimetres: the first time, and again about the
/// edges made symmetric.
const REACH: [f64; 2] = [1.8, 1.0];
/// Distances towards the iron at which another edge is looked for, in millimetres, and the reach there.
const TOWARDS_IRON: [f64; 5] = [5.0, 4.2, 3.4, 2.6, 1.8];
const NEAR: f64 = 0.6;
/// Least share and step of such an edge.
const CLEAR: (f64, f64) = (0.7, 0.15);
/// Reach at full size.
const FULL_REACH: f64 = 0.8;
/// Part of an edge that is left out at either end.
const MARGIN: f64 = 0.08;
/// A second face with at least this fraction of the best one's score is a doubt.
const CLOSE: f64 = 0.9;
/// Least share of an edge's positions that lie on its line, and of all edges together.
const LEAST_SHARE: f64 = 0.5;
const LEAST_MEAN_SHARE: f64 = 0.7;
/// Weak edges without a doubt, where each dimension is marked at another place too.
const MOST_WEAK: usize = 2;
/// Largest difference between the two windows, limbs or yokes, in millimetres, and as a part of the
/// tongue.
const UNEVEN: (f64, f64) = (0.5, 0.012);
/// Largest angle between edges that should be parallel or square, in radians, on the shortest edge.
const OUT_OF_SQUARE: f64 = 0.025;
/// Ranges of window width, window height, limb and yoke in tongues, without a doubt.
const PROPORTIONS: [(f64, f64); 4] = [(0.34, 0.66), (1.15, 1.85), (0.34, 0.66), (0.34, 0.66)];

/// Most corners of the printed target inside a face: some may be seen through its windows. The target's own
/// squares have the proportions of an E-I face.
const PRINTED: usize = 6;

/// Finds the face of a core in a photo whose scale is known; `None` where nothing looks like one, or
/// where the search was cancelled. `object` is the outline of the object of known size, whose print is no core.
#[must_use]
pub fn find_core_face(
    photo: &Photo,
    scale: &Scale,
    object: &ReferenceOutline,
    cancelled: Cancelled<'_>,
) -> Option<CoreFace> {
    let edges = Edges::of(photo.working());
    let long_side = photo.working().width().max(photo.working().height()) as f64;
    let lines = joined(&segments(&edges, (0.015 * long_side).max(12.0)));
    let mut faces: Vec<Face> = Vec::new();
    for map in scale.candidates() {
        if cancelled() {
            return None;
        }
        let Some(rectified) = Rectified::of(photo, map) else {
            continue;
        };
        let flat: Vec<(Point, Point)> = lines
            .iter()
            .filter_map(|line| {
                let [from, to] = [line.from, line.to].map(|end| map.place(photo.to_full(end)));
                Some((from?, to?))
            })
            .collect();
        let mut found: Vec<Pattern> = Vec::new();
        for angle in directions(&flat) {
            if cancelled() {
                return None;
            }
            for turn in [0.0, std::f64::consts::FRAC_PI_2] {
                found.extend(patterns(&rectified, angle + turn));
            }
        }
        found.sort_by(|a, b| b.score.total_cmp(&a.score));
        let print = printed(object, map);
        found.retain(|pattern| !pattern.is_on(&print, rectified.middle));
        found.truncate(FITTED);
        let face = |pattern: &Pattern| {
            let search = Search {
                photo,
                map,
                middle: rectified.middle,
            };
            search.face(*pattern)
        };
        faces.extend(found.iter().map(face));
    }
    faces.sort_by(|a, b| b.score.total_cmp(&a.score));
    let best = faces.first()?;
    let rival = faces
        .iter()
        .skip(1)
        .any(|other| other.score > CLOSE * best.score && !other.is_same(best, photo));
    let search = Search {
        photo,
        map: best.map,
        middle: best.middle,
    };
    search.at_full_size(best, rival)
}

/// Largest angle of a fitted edge to its pattern, in radians.
const MAX_TURN: f64 = 0.05;
/// The twelve edges of a face: the outline's from the upper one clockwise, then the left window's, then
/// the right window's.
const EDGES: usize = 12;

/// A photo, and the map of the face's plane.
#[derive(Clone, Copy)]
struct Search<'a> {
    photo: &'a Photo,
    map: &'a PlaneMap,
    /// Middle of the rectified picture, in millimetres.
    middle: Point,
}

/// A pattern with its edges fitted in the reduced photo.
struct Face<'a> {
    map: &'a PlaneMap,
    middle: Point,
    pattern: Pattern,
    score: f64,
}

/// Largest distance of the corners of two faces that are the same one, in millimetres.
const SAME_MM: f64 = 3.0;

impl Face<'_> {
    /// The outline's corners in the picture.
    fn corners(&self, photo: &Photo) -> Option<[Point; 4]> {
        let search = Search {
            photo,
            map: self.map,
            middle: self.middle,
        };
        let [a, b, c, d] = self
            .pattern
            .outline()
            .map(|at| search.picture(self.pattern.place(self.middle, at.x, at.y)));
        Some([a?, b?, c?, d?])
    }

    /// Whether both are the same face in the picture: on the plane they may differ, as the maps of a disc that
    /// leans either way do.
    fn is_same(&self, other: &Face<'_>, photo: &Photo) -> bool {
        let (Some(own), Some(others)) = (self.corners(photo), other.corners(photo)) else {
            return false;
        };
        let per_mm = own[0].distance(own[1]) / (self.pattern.across[5] - self.pattern.across[0]);
        same(&own, &others, SAME_MM * per_mm)
    }
}

/// The corners of the printed target on the plane; none of another object.
fn printed(object: &ReferenceOutline, map: &PlaneMap) -> Vec<Point> {
    match object {
        ReferenceOutline::Lattice(corners) => corners.iter().filter_map(|corner| map.place(corner.2)).collect(),
        _ => Vec::new(),
    }
}

impl Pattern {
    /// Whether more than [`PRINTED`] of these places lie inside its outline.
    fn is_on(&self, print: &[Point], middle: Point) -> bool {
        let inside = |place: &&Point| {
            let at = self.turned(middle, **place);
            (self.across[0]..self.across[5]).contains(&at.x) && (self.down[0]..self.down[3]).contains(&at.y)
        };
        print.iter().filter(inside).count() > PRINTED
    }

    /// The outline's corners, clockwise from the upper left.
    fn outline(&self) -> [Point; 4] {
        corners(self.across[0], self.across[5], self.down[0], self.down[3])
    }

    /// The corners of the left and the right window.
    fn windows(&self) -> [[Point; 4]; 2] {
        [
            corners(self.across[1], self.across[2], self.down[1], self.down[2]),
            corners(self.across[3], self.across[4], self.down[1], self.down[2]),
        ]
    }

    /// Both ends of the twelve edges.
    fn edges(&self) -> [[Point; 2]; EDGES] {
        let [left, right] = self.windows();
        let all = [self.outline(), left, right];
        std::array::from_fn(|index| {
            let corners = all[index / 4];
            [corners[index % 4], corners[(index + 1) % 4]]
        })
    }
}

fn corners(left: f64, right: f64, upper: f64, lower: f64) -> [Point; 4] {
    [(left, upper), (right, upper), (right, lower), (left, lower)].map(|(x, y)| Point::new(x, y))
}

/// An edge as fitted: two points on it in the turned picture, in millimetres, and how clear it is.
#[derive(Clone, Copy)]
struct FittedEdge {
    ends: [Point; 2],
    share: f64,
    /// Step of the logarithm of light across it, at most 1.
    step: f64,
}

impl<'a> Search<'a> {
    /// The picture of a place on the face.
    fn picture(&self, place: Point) -> Option<Point> {
        let straight = self.map.back.inverse()?.apply(place)?;
        self.map.lens.bent(self.map.frame, straight)
    }

    /// Fits the edges of a pattern in a grey picture; `factor` is its reduction.
    fn fitted(&self, pattern: &Pattern, gray: &Gray, factor: f64, reach_mm: f64) -> [Option<FittedEdge>; EDGES] {
        pattern
            .edges()
            .map(|ends| self.fitted_edge(pattern, ends, gray, factor, reach_mm))
    }

    /// Fits the edge near a line of the turned picture, from one end to the other.
    fn fitted_edge(
        &self,
        pattern: &Pattern,
        [from, to]: [Point; 2],
        gray: &Gray,
        factor: f64,
        reach_mm: f64,
    ) -> Option<FittedEdge> {
        let to_gray = |place: Point| {
            if factor > 1.0 {
                self.photo.to_reduced(place)
            } else {
                place
            }
        };
        let from_gray = |place: Point| if factor > 1.0 { self.photo.to_full(place) } else { place };
        let at = |end: Point| self.picture(pattern.place(self.middle, end.x, end.y)).map(to_gray);
        let (first, last) = (at(from)?, at(to)?);
        let per_mm = first.distance(last) / from.distance(to);
        let side = fit_side(gray, first, last, MARGIN, (reach_mm * per_mm).max(1.5), 5.0)?;
        let length = first.distance(last);
        let on_line = |part: f64| {
            let place = side.place + side.along * (length * part);
            Some(pattern.turned(self.middle, self.map.place(from_gray(place))?))
        };
        let ends = [on_line(0.15)?, on_line(0.85)?];
        // A short edge may be fitted to a shadow or to rust that crosses it.
        let way = ends[1] - ends[0];
        (way.x.abs().min(way.y.abs()) <= MAX_TURN * way.length()).then(|| FittedEdge {
            ends,
            share: side.share,
            step: step(gray, &side, length, per_mm),
        })
    }

    /// The pattern with each edge moved to the first clear one from the iron: the wall of a window, or a flank
    /// below the face, has a second edge towards the ground that may be clearer.
    fn at_the_iron(&self, pattern: &Pattern) -> Pattern {
        let (gray, factor) = (self.photo.working(), self.photo.factor() as f64);
        let mut edges = self.fitted(pattern, gray, factor, REACH[1]);
        for (index, (edge, [from, to])) in edges.iter_mut().zip(pattern.edges()).enumerate() {
            // To the right of an edge lies the inside of its box: the outline's has the iron, a window's has none.
            let along = (to - from) * (1.0 / from.distance(to));
            let iron = Point::new(-along.y, along.x) * if index < 4 { 1.0 } else { -1.0 };
            let nearer = TOWARDS_IRON.iter().find_map(|far| {
                let shifted = [from, to].map(|end| end + iron * *far);
                self.fitted_edge(pattern, shifted, gray, factor, NEAR)
                    .filter(|edge| edge.share >= CLEAR.0 && edge.step >= CLEAR.1)
            });
            *edge = nearer.or(*edge);
        }
        symmetric(pattern, &edges)
    }

    /// The face of a pattern: its edges fitted, made symmetric, fitted again.
    fn face(&self, mut pattern: Pattern) -> Face<'a> {
        let (gray, factor) = (self.photo.working(), self.photo.factor() as f64);
        let mut score = 0.0;
        for reach in REACH {
            let edges = self.fitted(&pattern, gray, factor, reach);
            score = clearness(&edges);
            pattern = symmetric(&pattern, &edges);
        }
        let tongue = pattern.across[3] - pattern.across[2];
        let usual: f64 = [
            (pattern.across[2] - pattern.across[1], 0.5),
            (pattern.down[2] - pattern.down[1], 1.5),
            (pattern.across[1] - pattern.across[0], 0.5),
            (pattern.down[1] - pattern.down[0], 0.5),
        ]
        .iter()
        .map(|(length, usual)| (length / tongue / usual).max(0.05).ln().powi(2))
        .sum();
        Face {
            map: self.map,
            middle: self.middle,
            pattern,
            score: score * (-usual / 0.25).exp(),
        }
    }

    /// The edges fitted at full size, and what is to be doubted.
    fn at_full_size(&self, best: &Face<'_>, rival: bool) -> Option<CoreFace> {
        let pattern = &self.at_the_iron(&best.pattern);
        let edges = self.fitted(pattern, self.photo.full(), 1.0, FULL_REACH);
        let mut doubts = Vec::new();
        if rival {
            doubts.push(CoreDoubt::SecondAsLikely);
        }
        let clear = edges.map(|edge| edge.filter(|edge| edge.share >= LEAST_SHARE && edge.step >= LEAST_STEP));
        let weak = clear.iter().filter(|edge| edge.is_none()).count();
        let is_marked = |dimension: Dimension| {
            let both =
                |(_, first, second): &(Dimension, usize, usize)| clear[*first].is_some() && clear[*second].is_some();
            DIMENSIONS.iter().any(|one| one.0 == dimension && both(one))
        };
        if weak > MOST_WEAK
            || !DIMENSIONS.iter().all(|one| is_marked(one.0))
            || edges.iter().flatten().map(|edge| edge.share).sum::<f64>() < LEAST_MEAN_SHARE * EDGES as f64
        {
            doubts.push(CoreDoubt::WeakEdges);
        }
        let lines = lines(pattern, &edges);
        if is_uneven(&lines, &clear) {
            doubts.push(CoreDoubt::Uneven);
        }
        let tongue = lines.upright[3] - lines.upright[2];
        let parts = [
            lines.upright[2] - lines.upright[1],
            lines.level_left[1] - lines.level_left[0],
            lines.upright[1] - lines.upright[0],
            lines.level_left[0] - lines.outer_level[0],
        ];
        let odd = |(length, (low, high)): (&f64, &(f64, f64))| !(*low..=*high).contains(&(length / tongue));
        if parts.iter().zip(&PROPORTIONS).any(odd) {
            doubts.push(CoreDoubt::OddProportions);
        }
        let to_picture = |at: Point| self.picture(pattern.place(self.middle, at.x, at.y));
        let meet = |index: usize| -> Option<Point> {
            // The corner where an edge of a box and the one before it meet.
            let before = index / 4 * 4 + (index + 3) % 4;
            match (edges[before], edges[index]) {
                (Some(first), Some(second)) => crossing(first.ends, second.ends),
                _ => Some(pattern.edges()[index][0]),
            }
            .and_then(to_picture)
        };
        let boxed = |start: usize| Some([meet(start)?, meet(start + 1)?, meet(start + 2)?, meet(start + 3)?]);
        let points = |edge: Option<FittedEdge>| -> Option<Vec<Point>> {
            let [first, second] = edge?.ends;
            Some(vec![to_picture(first)?, to_picture(second)?])
        };
        let mut marks = Vec::new();
        for (dimension, first, second) in DIMENSIONS {
            // A weak edge only where there is no clear one for the dimension.
            let from = if is_marked(dimension) { &clear } else { &edges };
            if let (Some(first), Some(second)) = (points(from[first]), points(from[second])) {
                marks.push(Mark {
                    dimension,
                    span: Span::Edges([first, second]),
                });
            }
        }
        Some(CoreFace {
            corners: boxed(0)?,
            windows: [boxed(4)?, boxed(8)?],
            marks,
            doubts,
        })
    }
}

/// Each dimension with the two edges that it lies between, by their index in [`Pattern::edges`].
const DIMENSIONS: [(Dimension, usize, usize); 11] = [
    (Dimension::Tongue, 5, 11),
    (Dimension::WindowWidth, 7, 5),
    (Dimension::WindowWidth, 11, 9),
    (Dimension::WindowHeight, 4, 6),
    (Dimension::WindowHeight, 8, 10),
    (Dimension::OuterLimb, 3, 7),
    (Dimension::OuterLimb, 9, 1),
    (Dimension::Yoke, 0, 4),
    (Dimension::Yoke, 0, 8),
    (Dimension::Yoke, 6, 2),
    (Dimension::Yoke, 10, 2),
];

/// Least step of the logarithm of light across an edge, without a doubt.
const LEAST_STEP: f64 = 0.1;

/// Step of the logarithm of light across a fitted side, the median of places along it.
fn step(gray: &Gray, side: &FittedSide, length: f64, per_mm: f64) -> f64 {
    let normal = Point::new(-side.along.y, side.along.x) * (0.8 * per_mm).max(1.5);
    let mut steps: Vec<f64> = (0..25)
        .map(|index| {
            let at = side.place + side.along * (length * (0.1 + 0.8 * f64::from(index) / 24.0));
            let light = |place: Point| (gray.light(place) + 0.01).ln();
            (light(at + normal) - light(at - normal)).abs()
        })
        .collect();
    steps.sort_by(f64::total_cmp);
    steps[steps.len() / 2].min(1.0)
}

/// The clearness of all edges, 0 to 1: the shares of their positions on a line, weighed by the step.
fn clearness(edges: &[Option<FittedEdge>; EDGES]) -> f64 {
    let one = |edge: &Option<FittedEdge>| edge.map_or(0.0, |edge| edge.share * (edge.step / 0.25).min(1.0).sqrt());
    let all: Vec<f64> = edges.iter().map(one).collect();
    let mean = all.iter().sum::<f64>() / EDGES as f64;
    let least = all.iter().copied().fold(1.0, f64::min);
    0.8 * mean + 0.2 * least
}

/// Positions of a face's lines in the turned picture, in millimetres.
struct FaceLines {
    /// The six upright ones from the left, at the middle of the face.
    upright: [f64; 6],
    /// Upper and lower end of the left and the right window, at the window's middle.
    level_left: [f64; 2],
    level_right: [f64; 2],
    /// Upper and lower side of the outline.
    outer_level: [f64; 2],
}

/// The lines of fitted edges, and a pattern's where an edge was not found.
fn lines(pattern: &Pattern, edges: &[Option<FittedEdge>; EDGES]) -> FaceLines {
    let (middle_x, middle_y) = (
        f64::midpoint(pattern.across[0], pattern.across[5]),
        f64::midpoint(pattern.down[0], pattern.down[3]),
    );
    let upright = |index: usize, usual: f64| edges[index].map_or(usual, |edge| at(edge.ends, middle_y, false));
    let level = |index: usize, x: f64, usual: f64| edges[index].map_or(usual, |edge| at(edge.ends, x, true));
    let left_x = f64::midpoint(pattern.across[1], pattern.across[2]);
    let right_x = f64::midpoint(pattern.across[3], pattern.across[4]);
    FaceLines {
        upright: std::array::from_fn(|index| upright([3, 7, 5, 11, 9, 1][index], pattern.across[index])),
        level_left: [level(4, left_x, pattern.down[1]), level(6, left_x, pattern.down[2])],
        level_right: [level(8, right_x, pattern.down[1]), level(10, right_x, pattern.down[2])],
        outer_level: [level(0, middle_x, pattern.down[0]), level(2, middle_x, pattern.down[3])],
    }
}

/// Where a line through two points is at an x (its y) or at a y (its x).
fn at([first, second]: [Point; 2], place: f64, is_x: bool) -> f64 {
    let way = second - first;
    if is_x {
        first.y + way.y * (place - first.x) / way.x
    } else {
        first.x + way.x * (place - first.y) / way.y
    }
}

/// The pattern moved to its fitted edges, symmetric about the middle of the tongue and the windows.
fn symmetric(pattern: &Pattern, edges: &[Option<FittedEdge>; EDGES]) -> Pattern {
    // The turn, from the longer and clearer edges.
    let mut turns: Vec<(f64, f64)> = edges
        .iter()
        .enumerate()
        .filter_map(|(index, edge)| {
            let edge = edge.filter(|edge| edge.share >= LEAST_SHARE)?;
            let way = edge.ends[1] - edge.ends[0];
            // Even indices are level edges.
            let turn = if index % 2 == 0 { way.y / way.x } else { -way.x / way.y };
            Some((turn, edge.share * way.length()))
        })
        .collect();
    let turn = weighted_median(&mut turns);
    let kept: [Option<FittedEdge>; EDGES] = edges.map(|edge| edge.filter(|edge| edge.share >= LEAST_SHARE));
    let found = lines(pattern, &kept);
    let x = &found.upright;
    let level = |index: usize| f64::midpoint(found.level_left[index], found.level_right[index]);
    let y = [found.outer_level[0], level(0), level(1), found.outer_level[1]];
    let mut middles = [
        (f64::midpoint(x[0], x[5]), 0.9),
        (f64::midpoint(x[1], x[4]), 1.0),
        (f64::midpoint(x[2], x[3]), 1.1),
    ];
    let middle_x = weighted_median(&mut middles);
    let middle_y = f64::midpoint(y[1], y[2]);
    // The two of a pair that disagree about the middle: the one nearer to the usual proportions.
    let half = |first: f64, second: f64, middle: f64, usual: f64| {
        let (one, two) = (middle - first, second - middle);
        if (one - two).abs() < 1.0 {
            f64::midpoint(one, two)
        } else if (one - usual).abs() < (two - usual).abs() {
            one
        } else {
            two
        }
    };
    let tongue = half(x[2], x[3], middle_x, f64::midpoint(x[3] - x[2], 0.0));
    let window = half(x[1], x[4], middle_x, 2.0 * tongue);
    let outer = half(x[0], x[5], middle_x, window + tongue);
    let high = f64::midpoint(y[2] - y[1], 0.0);
    let outer_high = half(y[0], y[3], middle_y, high + tongue);
    // The turn is about the rectified picture's middle: the face's middle goes round with it.
    let (sine, cosine) = turn.sin_cos();
    let (new_x, new_y) = (middle_x * cosine + middle_y * sine, middle_y * cosine - middle_x * sine);
    Pattern {
        angle: pattern.angle + turn,
        across: [
            new_x - outer,
            new_x - window,
            new_x - tongue,
            new_x + tongue,
            new_x + window,
            new_x + outer,
        ],
        down: [new_y - outer_high, new_y - high, new_y + high, new_y + outer_high],
        score: pattern.score,
    }
}

/// The median of values by weight; 0 for none.
fn weighted_median(values: &mut [(f64, f64)]) -> f64 {
    values.sort_by(|a, b| a.0.total_cmp(&b.0));
    let half = values.iter().map(|value| value.1).sum::<f64>() / 2.0;
    let mut sum = 0.0;
    for (value, weight) in values.iter() {
        sum += weight;
        if sum >= half {
            return *value;
        }
    }
    0.0
}

/// Whether parts that are equal on an E-I face differ, or edges are out of parallel or square; of `edges`, those
/// that are clear.
fn is_uneven(lines: &FaceLines, edges: &[Option<FittedEdge>; EDGES]) -> bool {
    let x = &lines.upright;
    let pairs = [
        (x[2] - x[1], x[4] - x[3]),
        (x[1] - x[0], x[5] - x[4]),
        (
            lines.level_left[1] - lines.level_left[0],
            lines.level_right[1] - lines.level_right[0],
        ),
        (
            lines.level_left[0] - lines.outer_level[0],
            lines.outer_level[1] - lines.level_left[1],
        ),
    ];
    // The edges that each pair lies between.
    const BETWEEN: [[usize; 4]; 4] = [[7, 5, 11, 9], [3, 7, 9, 1], [4, 6, 8, 10], [0, 4, 6, 2]];
    let most = UNEVEN.0 + UNEVEN.1 * (x[3] - x[2]);
    let differs = |((one, two), between): (&(f64, f64), &[usize; 4])| {
        (one - two).abs() > most && between.iter().all(|index| edges[*index].is_some())
    };
    pairs.iter().zip(&BETWEEN).any(differs) || turn_spread(edges) > OUT_OF_SQUARE
}

/// Largest difference of the edges' turns, in radians.
fn turn_spread(edges: &[Option<FittedEdge>; EDGES]) -> f64 {
    let mut turns: Vec<f64> = edges
        .iter()
        .enumerate()
        .filter_map(|(index, edge)| {
            let [first, second] = (*edge)?.ends;
            let way = StraightLine::through(&[first, second])?.direction;
            let turn = if index % 2 == 0 { way.y / way.x } else { -way.x / way.y };
            // Short edges are less sure of their direction.
            Some(turn * (first.distance(second) / 40.0).min(1.0))
        })
        .collect();
    turns.sort_by(f64::total_cmp);
    turns.last().copied().unwrap_or_default() - turns.first().copied().unwrap_or_default()
}

/// The crossing of two lines, each through two points.
fn crossing([a, b]: [Point; 2], [c, d]: [Point; 2]) -> Option<Point> {
    crate::photo::find::segments::meeting(a, b - a, c, d - c)
}
