//! Cues that an outline is an object: its edge is a step of brightness, while a drawn line is not;
//! a reference is whole, while a core's face has dark windows; a thick object may show a flank.

use super::perspective::Square;
use super::quads::{Quad, middle, same, sides};
use super::segments::Segment;
use crate::photo::geometry::Point;
use crate::photo::image::Gray;
use crate::photo::image::profile::slopes;

/// Largest number of segments ranked.
const MAX_SORTED: usize = 1500;
/// Light inside a window, at most, as a fraction of the face's median.
const DARK: f64 = 0.33;
/// Minimum share of a segment that is a step of brightness.
const MIN_STEPPED: f64 = 0.45;

/// Removes drawn lines, as on a cutting mat or in the grain of a board, and sorts the rest by how
/// likely they are an object's edge.
pub(crate) fn rank_segments(gray: &Gray, segments: &mut Vec<Segment>) {
    segments.truncate(MAX_SORTED);
    let mut weighed: Vec<(f64, Segment)> = segments
        .iter()
        .map(|segment| (step_share(gray, segment.from, segment.to), segment))
        .filter(|(stepped, _)| *stepped >= MIN_STEPPED)
        .map(|(stepped, segment)| (segment.weight() * (0.2 + 0.8 * stepped), *segment))
        .collect();
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    *segments = weighed.into_iter().map(|(_, segment)| segment).collect();
}

/// Mean over an outline's sides of the share that is a step of brightness.
pub(crate) fn outline_step_share(gray: &Gray, corners: &[Point; 4]) -> f64 {
    sides(corners).map(|(from, to)| step_share(gray, from, to)).sum::<f64>() / 4.0
}

/// Share of an outline's inside that is far darker than its median, as a core's windows are in its
/// face.
pub(crate) fn dark_share(gray: &Gray, corners: &[Point; 4]) -> f64 {
    const COUNT: usize = 20;
    let at = |index: usize| 0.08 + 0.84 * (index as f64 + 0.5) / COUNT as f64;
    let Some(square) = Square::of(corners) else {
        return 0.0;
    };
    let place = |index: usize| square.place(at(index % COUNT), at(index / COUNT));
    let mut light: Vec<f64> = (0..COUNT * COUNT)
        .filter_map(place)
        .map(|place| gray.light(place))
        .collect();
    light.sort_by(f64::total_cmp);
    let Some(most) = light.get(light.len() / 2).copied() else {
        return 0.0;
    };
    light.partition_point(|light| *light < DARK * most) as f64 / light.len() as f64
}

/// Marks the dark outlines that are likely a core's windows: a second dark outline of the same shape
/// lies beside, farther than the narrower side.
pub(crate) fn windows(quads: &[Quad], dark: &[bool]) -> Vec<bool> {
    let is_pair = |one: &Quad, other: &Quad| {
        let way = middle(&other.corners) - middle(&one.corners);
        let side = one.shortest_side();
        let moved = one.corners.map(|corner| corner + way);
        way.length() > 1.3 * side && way.length() < 6.0 * side && same(&moved, &other.corners, 2.0 + 0.12 * side)
    };
    let is_window = |index: usize| {
        let mut others = (0..quads.len()).filter(|&other| other != index && dark[other]);
        dark[index] && others.any(|other| is_pair(&quads[index], &quads[other]))
    };
    (0..quads.len()).map(is_window).collect()
}

/// Mean light 4 pixels inside and outside each side.
fn beside(gray: &Gray, corners: &[Point; 4]) -> [(f64, f64); 4] {
    const COUNT: i32 = 12;
    let clockwise: Vec<(Point, Point)> = sides(corners).collect();
    [0, 1, 2, 3].map(|index| {
        let (from, to) = clockwise[index];
        let side = to - from;
        // Clockwise, inside is to the right.
        let inwards = Point::new(-side.y, side.x) * (4.0 / side.length());
        let mean = |off: Point| {
            let at = |k: i32| gray.light(from + side * ((f64::from(k) + 1.0) / f64::from(COUNT + 1)) + off);
            (0..COUNT).map(at).sum::<f64>() / f64::from(COUNT)
        };
        (mean(inwards), mean(inwards * -1.0))
    })
}

/// Whether light inside is below `part` of the light outside, on every side.
fn is_darker(gray: &Gray, corners: &[Point; 4], part: f64) -> bool {
    beside(gray, corners)
        .iter()
        .all(|(inside, outside)| *inside < part * outside)
}

/// Whether an outline is far darker inside than outside, on every side.
pub(crate) fn is_dark(gray: &Gray, corners: &[Point; 4]) -> bool {
    is_darker(gray, corners, 0.6)
}

/// Light inside a hole, at most, as a fraction of the light outside; black print and black plastic
/// reflect more.
const BLACK: f64 = 0.1;

/// Whether an outline is dark enough inside, on every side, to be a core's window rather than an
/// object.
pub(crate) fn is_hole(gray: &Gray, corners: &[Point; 4]) -> bool {
    is_darker(gray, corners, BLACK)
}

/// Whether an outline is brighter inside than outside, summed over its sides.
pub(crate) fn is_brighter(gray: &Gray, corners: &[Point; 4]) -> bool {
    let sum = |pick: fn(&(f64, f64)) -> f64| beside(gray, corners).iter().map(pick).sum::<f64>();
    sum(|side| side.0) > sum(|side| side.1)
}

/// Largest depth of a flank, as a fraction of the outline.
const MAX_FLANK: f64 = 0.2;
/// Minimum relative contrast between a face and its flank.
const MIN_FLANK: f64 = 0.08;

/// Whether an edge runs along the whole length of one side, inside the outline: the outline may
/// then include the flank of a thick object.
pub(crate) fn has_flank(gray: &Gray, corners: &[Point; 4]) -> bool {
    const PLACES: i32 = 24;
    let along = |turn: usize| {
        let turned = [0, 1, 2, 3].map(|index| corners[(index + turn) % 4]);
        let Some(square) = Square::of(&turned) else {
            return false;
        };
        let depth = turned[0].distance(turned[3]).min(turned[1].distance(turned[2]));
        // Samples half a pixel apart, from the side inwards.
        let steps = (2.0 * MAX_FLANK * depth) as usize;
        let profile = |part: f64| -> Vec<f64> {
            (0..steps)
                .filter_map(|step| square.place(part, 0.5 * step as f64 / depth))
                .map(|place| gray.light(place))
                .collect()
        };
        let profiles: Vec<Vec<f64>> = (0..PLACES)
            .map(|k| profile(0.1 + 0.8 * f64::from(k) / f64::from(PLACES - 1)))
            .collect();
        let mean = |step: usize| profiles.iter().filter_map(|one| one.get(step)).sum::<f64>() / f64::from(PLACES);
        let light: Vec<f64> = (0..steps).map(mean).collect();
        // Peaks nearer to the side belong to its own blur.
        let near = (0.04 * depth).max(10.0) as usize;
        let steep: Vec<f64> = slopes(&light).iter().map(|slope| slope.abs()).collect();
        let is_peak = |step: &usize| steep[*step] >= steep[*step - 1] && steep[*step] >= steep[*step + 1];
        let peaks = (near..steps.saturating_sub(8)).filter(is_peak);
        let Some(best) = peaks.max_by(|a, b| steep[*a].total_cmp(&steep[*b])) else {
            return false;
        };
        let (outer, inner) = (best - 6, best + 6);
        let change = |one: &[f64]| {
            let mean = |from: usize| one[from - 2..=from + 2].iter().sum::<f64>() / 5.0;
            (mean(inner) - mean(outer)) / mean(inner).max(mean(outer)).max(1e-3)
        };
        let all = change(&light);
        let same = profiles
            .iter()
            .filter(|one| one.len() == steps && change(one) * all.signum() > 0.4 * all.abs());
        all.abs() > MIN_FLANK && same.count() * 10 >= 8 * profiles.len()
    };
    (0..4).any(along)
}

/// Shortest distance, in pixels, between a square corner and a round one at which the two can be told
/// apart.
const MIN_CORNER_GAP: f64 = 2.5;
/// Position of the edge on a corner's diagonal, in radii along both sides: 0 for a square corner,
/// 1 − 1/√2 = 0.293 for a round one. Halfway is the limit.
const SQUARE_CORNER: f64 = 0.146;

/// Whether most corners of an outline are square although the reference has corners of this radius, a
/// fraction of the width and of the height. The edge is located on each corner's diagonal, in the
/// full-size picture; `false` where the radius is too small in the picture.
pub(crate) fn has_square_corners(gray: &Gray, corners: &[Point; 4], radius: (f64, f64)) -> bool {
    const STEPS: i32 = 56;
    if radius.0 <= 0.0 || radius.1 <= 0.0 {
        return false;
    }
    let edge = |turn: usize| {
        let turned = [0, 1, 2, 3].map(|index| corners[(index + turn) % 4]);
        let (along, down) = if turn.is_multiple_of(2) {
            radius
        } else {
            (radius.1, radius.0)
        };
        let square = Square::of(&turned)?;
        // From 0.9 radii outside the corner to 1.4 inside it.
        let part = |step: i32| -0.9 + 2.3 * f64::from(step) / f64::from(STEPS);
        let at = |part: f64| square.place(part * along, part * down);
        let pixels = at(0.0)?.distance(at(1.0)?);
        if 0.293 * pixels < MIN_CORNER_GAP {
            return None;
        }
        let light: Option<Vec<f64>> = (0..=STEPS).map(|step| Some(gray.light(at(part(step))?))).collect();
        let slopes = slopes(&light?);
        let best = (1..slopes.len() - 1).max_by(|a, b| slopes[*a].abs().total_cmp(&slopes[*b].abs()))?;
        Some(part(best as i32))
    };
    let edges: Vec<f64> = (0..4).filter_map(edge).collect();
    let square = edges.iter().filter(|part| part.abs() < SQUARE_CORNER).count();
    edges.len() >= 3 && square >= 3
}

/// Share of a side where brightness changes and stays changed, as at an object's edge, instead of
/// returning, as across a drawn line.
fn step_share(gray: &Gray, from: Point, to: Point) -> f64 {
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
