//! Finds the stack in a photo of a core's side: the pile of sheets is a rectangle there, and its depth lies
//! across the lines of the sheets.
//!
//! Four-sided outlines that are rectangles on the measured plane are ranked by their edges and by the lines
//! inside; the two edges along the sheets are then fitted at full size. The result is a proposal for a person
//! to correct, never without a doubt; [`CoreStack::doubts`] lists what they must check.

use super::core_face::CoreDoubt;
use super::{Dimension, Mark, Span};
use crate::photo::Cancelled;
use crate::photo::find::perspective::Square;
use crate::photo::find::quads::{Quad, distinct, middle, quads, same, sides};
use crate::photo::find::segments::{joined, segments};
use crate::photo::find::{centre_prior, object_cues};
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;
use crate::photo::image::profile::fit_side;
use crate::photo::image::{Gray, Photo};
use crate::photo::reference::ReferenceOutline;
use crate::photo::scale::{PlaneMap, Scale};

/// The stack, as proposed.
#[derive(Debug, Clone, PartialEq)]
pub struct CoreStack {
    /// Two points on either edge of the pile.
    pub mark: Mark,
    /// Reasons to compare it with the picture, [`CoreDoubt::Side`] always.
    pub doubts: Vec<CoreDoubt>,
}

/// Ranges of the pile's sides in millimetres: the shorter and the longer one. Common practice, no source.
const SIDES: [(f64, f64); 2] = [(12.0, 130.0), (30.0, 260.0)];
/// Largest difference of opposite sides, as a part, and largest cosine at a corner.
const RECTANGULAR: (f64, f64) = (0.06, 0.06);
/// Ratio of the lines across and along from which the sheets are seen.
const SHEETS: f64 = 1.3;
/// Factor on the weight of an outline inside which no sheets are seen.
const SMOOTH: f64 = 0.6;
/// A second outline with at least this fraction of the best one's weight is a doubt; a larger one, of which the
/// best one may be a part, from the second fraction on.
const CLOSE: (f64, f64) = (0.85, 0.6);
/// Ratio of the areas of a larger outline and one that may be a part of it.
const LARGER: f64 = 1.15;
/// Least share of an edge's positions that lie on its line, without a doubt.
const LEAST_SHARE: f64 = 0.6;
/// Most outlines that are looked into.
const MOST: usize = 60;

/// Finds the stack in a photo whose scale is known; `None` where nothing looks like a pile of sheets, or where
/// the search was cancelled. `object` is the outline of the object of known size, which is none.
#[must_use]
pub fn find_core_stack(
    photo: &Photo,
    scale: &Scale,
    object: &ReferenceOutline,
    cancelled: Cancelled<'_>,
) -> Option<CoreStack> {
    let gray = photo.working();
    let map = scale.candidates().first()?;
    let edges = Edges::of(gray);
    let long_side = gray.width().max(gray.height()) as f64;
    let mut lines = joined(&segments(&edges, (0.012 * long_side).max(10.0)));
    object_cues::rank_segments(gray, &mut lines);
    if cancelled() {
        return None;
    }
    let search = StackSearch { photo, map };
    let plausible = |corners: &[Point; 4]| search.size(corners).is_some() && !search.covers(object, corners);
    let mut found = distinct(quads(&edges, &lines, plausible));
    found.truncate(MOST);
    let centre = Point::new(gray.width() as f64 / 2.0, gray.height() as f64 / 2.0);
    let mut weighed: Vec<(f64, Pile)> = Vec::new();
    for quad in &found {
        if cancelled() {
            return None;
        }
        if let Some(pile) = search.pile(quad) {
            let sheets = if pile.lines >= SHEETS { 1.0 } else { SMOOTH };
            let seen = quad.support * (0.3 + 0.7 * object_cues::outline_step_share(gray, &quad.corners));
            let large = (quad.area() / (long_side * long_side)).powf(0.4);
            weighed.push((
                seen * sheets * large * centre_prior(middle(&quad.corners), centre),
                pile,
            ));
        }
    }
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    let (most, best) = weighed.first()?;
    let mut rivals = weighed[1..]
        .iter()
        .filter(|(_, other)| !same(&best.corners, &other.corners, 0.02 * long_side));
    let rival = rivals.any(|(weight, other)| {
        let close = if other.area > LARGER * best.area {
            CLOSE.1
        } else {
            CLOSE.0
        };
        *weight > close * most
    });
    search.at_full_size(best, rival)
}

/// A rectangle that may be the pile: its first and third side lie along the sheets.
struct Pile {
    /// In pixels of the reduced picture.
    corners: [Point; 4],
    /// In square pixels of the reduced picture.
    area: f64,
    /// Ratio of the lines across the sheets to those along them.
    lines: f64,
}

/// A photo, and the map of the measured plane.
struct StackSearch<'a> {
    photo: &'a Photo,
    map: &'a PlaneMap,
}

impl StackSearch<'_> {
    fn place(&self, reduced: Point) -> Option<Point> {
        self.map.place(self.photo.to_full(reduced))
    }

    /// Both sides of an outline in millimetres, if it is a rectangle of a pile's size on the plane.
    fn size(&self, corners: &[Point; 4]) -> Option<(f64, f64)> {
        let [a, b, c, d] = corners.map(|corner| self.place(corner));
        let flat = [a?, b?, c?, d?];
        let ways: Vec<Point> = sides(&flat).map(|(from, to)| to - from).collect();
        let length = |index: usize| ways[index].length();
        let differ = |one: f64, other: f64| (one - other).abs() > RECTANGULAR.0 * one.max(other);
        if differ(length(0), length(2)) || differ(length(1), length(3)) {
            return None;
        }
        let square = |index: usize| {
            let (one, next) = (ways[index], ways[(index + 1) % 4]);
            one.dot(next).abs() <= RECTANGULAR.1 * one.length() * next.length()
        };
        let size = (f64::midpoint(length(0), length(2)), f64::midpoint(length(1), length(3)));
        let (short, long) = (size.0.min(size.1), size.0.max(size.1));
        let [(least, most), (long_least, long_most)] = SIDES;
        let fits = (least..=most).contains(&short) && (long_least..=long_most).contains(&long);
        ((0..4).all(square) && fits).then_some(size)
    }

    /// Whether an outline is the object of known size, or lies on it.
    fn covers(&self, object: &ReferenceOutline, corners: &[Point; 4]) -> bool {
        let at = self.photo.to_full(middle(corners));
        match object {
            ReferenceOutline::Rectangle(outline) => {
                let around: Vec<(Point, Point)> = sides(outline).collect();
                let turns = around.iter().map(|(from, to)| (*to - *from).cross(at - *from));
                let turns: Vec<f64> = turns.collect();
                turns.iter().all(|turn| *turn > 0.0) || turns.iter().all(|turn| *turn < 0.0)
            }
            ReferenceOutline::Ellipse { centre, half_axes, .. } => at.distance(*centre) < half_axes.1,
            ReferenceOutline::Lattice(marks) => {
                let near = |place: &Point| {
                    let (one, other) = (self.map.place(*place), self.map.place(at));
                    one.zip(other).is_some_and(|(one, other)| one.distance(other) < 10.0)
                };
                marks.iter().any(|mark| near(&mark.2))
            }
            ReferenceOutline::Marks(_) => false,
        }
    }

    /// An outline with its first side along the sheets; where none are seen, along the longer side.
    fn pile(&self, quad: &Quad) -> Option<Pile> {
        let (first, second) = self.size(&quad.corners)?;
        let full = quad.corners.map(|corner| self.photo.to_full(corner));
        let square = Square::of(&full)?;
        let gray = self.photo.full();
        // Lines along the first side are steps down the second.
        let down = roughness(gray, &square, second, false);
        let across = roughness(gray, &square, first, true);
        let [a, b, c, d] = quad.corners;
        let turned = if (down / across.max(1e-9)).max(across / down.max(1e-9)) >= SHEETS {
            across > down
        } else {
            second > first
        };
        let (corners, lines) = if turned {
            ([b, c, d, a], across / down.max(1e-9))
        } else {
            ([a, b, c, d], down / across.max(1e-9))
        };
        Some(Pile {
            corners,
            area: quad.area(),
            lines,
        })
    }

    /// The pile's edges fitted at full size, and what is to be doubted.
    fn at_full_size(&self, best: &Pile, rival: bool) -> Option<CoreStack> {
        let full = best.corners.map(|corner| self.photo.to_full(corner));
        let reach = (1.0 + 0.5 * self.photo.factor() as f64).max(2.0);
        let mut doubts = vec![CoreDoubt::Side];
        if rival {
            doubts.push(CoreDoubt::SecondAsLikely);
        }
        let mut weak = false;
        let mut edge = |from: Point, to: Point| {
            let side = fit_side(self.photo.full(), from, to, 0.1, reach, 7.0)?;
            weak |= side.share < LEAST_SHARE;
            let at = |part: f64| side.place + side.along * (from.distance(to) * part);
            Some(vec![at(0.15), at(0.85)])
        };
        let span = Span::Edges([edge(full[0], full[1])?, edge(full[3], full[2])?]);
        if weak {
            doubts.push(CoreDoubt::WeakEdges);
        }
        if best.lines < SHEETS {
            doubts.push(CoreDoubt::NoSheets);
        }
        Some(CoreStack {
            mark: Mark {
                dimension: Dimension::Stack,
                span,
            },
            doubts,
        })
    }
}

/// Strips whose lines are looked at, and the part of a side that each takes.
const STRIPS: usize = 5;
/// Positions averaged along a strip's lines.
const AVERAGED: usize = 40;
/// Spacing of positions across the lines, in millimetres: sheets are 0.35 to 0.65 mm thick.
const STEP_MM: f64 = 0.15;

/// How rough a rectangle is along one of its sides, `length` millimetres long: the first side, or the second.
/// Light is averaged across that side in strips, so that lines count and noise does not; slow changes are left
/// out.
fn roughness(gray: &Gray, square: &Square, length: f64, along_first: bool) -> f64 {
    let count = ((0.8 * length / STEP_MM) as usize).clamp(8, 600);
    let mut sum = 0.0;
    for strip in 0..STRIPS {
        let light = |index: usize| {
            let along = 0.1 + 0.8 * (index as f64 + 0.5) / count as f64;
            let values = (0..AVERAGED).filter_map(|k| {
                let part = (strip as f64 + (k as f64 + 0.5) / AVERAGED as f64) / STRIPS as f64;
                let across = 0.1 + 0.8 * part;
                let (u, v) = if along_first { (along, across) } else { (across, along) };
                Some(gray.light(square.place(u, v)?))
            });
            (values.sum::<f64>() / AVERAGED as f64 + 0.01).ln()
        };
        let profile: Vec<f64> = (0..count).map(light).collect();
        let bend = |window: &[f64]| (window[0] - 2.0 * window[2] + window[4]).abs();
        let bends: Vec<f64> = profile.windows(5).map(bend).collect();
        sum += bends.iter().sum::<f64>() / bends.len().max(1) as f64;
    }
    sum / STRIPS as f64
}
