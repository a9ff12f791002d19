//! Things told from what is drawn: the edge of a thing is a step of brightness, a line is none; and a
//! reference is whole, where a core's face has windows.

use super::gray::Gray;
use super::perspective::square_to_quad;
use super::point::Point;
use super::quads::sides;
use super::segments::Segment;

/// Segments that are looked at for whether they are a thing's edge.
const MOST_SORTED: usize = 1500;
/// Light of a hole, at most, as a part of what is round it.
const DARK: f64 = 0.33;
/// The share of an edge that must be a step from bright to dark, not a line between two alike.
const LEAST_STEPPED: f64 = 0.45;

/// Takes away lines that are drawn, as on a cutting mat or in the grain of a board, and puts what
/// is likeliest the edge of a thing first.
pub(super) fn things_first(gray: &Gray, segments: &mut Vec<Segment>) {
    segments.truncate(MOST_SORTED);
    let mut weighed: Vec<(f64, Segment)> = segments
        .iter()
        .map(|segment| (stepped(gray, segment.from, segment.to), segment))
        .filter(|(stepped, _)| *stepped >= LEAST_STEPPED)
        .map(|(stepped, segment)| (segment.weight() * (0.2 + 0.8 * stepped), *segment))
        .collect();
    weighed.sort_by(|a, b| b.0.total_cmp(&a.0));
    *segments = weighed.into_iter().map(|(_, segment)| segment).collect();
}

/// The same of an outline: the mean over its sides.
pub(super) fn all_stepped(gray: &Gray, corners: &[Point; 4]) -> f64 {
    sides(corners).map(|(from, to)| stepped(gray, from, to)).sum::<f64>() / 4.0
}

/// The share of an outline's inside that is far darker than the most of it, as a core's windows are
/// in its face.
pub(super) fn holes(gray: &Gray, corners: &[Point; 4]) -> f64 {
    const COUNT: usize = 20;
    let at = |index: usize| 0.08 + 0.84 * (index as f64 + 0.5) / COUNT as f64;
    let place = |index: usize| square_to_quad(corners, at(index % COUNT), at(index / COUNT));
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
