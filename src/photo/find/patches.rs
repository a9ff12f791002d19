//! Even patches: connected areas above or below a grey level, their convex hulls, and the four sides
//! or the ellipse that bound a hull.
//!
//! Among the lines of a cutting mat or the grain of a board, a card or a coin is hard to find by
//! edges alone, but forms one patch at some grey level once thin lines are eroded.

use super::ellipse::Ellipse;
use super::segments::meeting;
use crate::photo::geometry::{Point, StraightLine, unit};
use crate::photo::image::Gray;

/// Number of grey levels.
const LEVELS: usize = 40;
/// Erosion radius, in pixels of the halved picture: thinner lines vanish.
const THIN: usize = 2;
/// Smallest patch, as a fraction of the picture.
const MIN_AREA: f64 = 0.0008;
/// Largest patch, as a fraction of the picture.
const MAX_AREA: f64 = 0.7;
/// Minimum share of its hull that a patch fills; print makes holes.
const MIN_FILLED: f64 = 0.6;

/// The convex hulls of a picture's patches, in its own pixels, and the erosion in pixels by which
/// the true edges lie further out.
pub(crate) fn hulls(gray: &Gray) -> (Vec<Vec<Point>>, f64) {
    let halved = gray.shrunk(2);
    let levels = levels(&halved);
    let most = levels.len() as u8;
    // The number of levels that each grey value reaches.
    let bright: [u8; 256] = std::array::from_fn(|value| levels.iter().filter(|level| **level <= value).count() as u8);
    let mut found = Vec::new();
    for steps in [bright.map(|step| most - step), bright] {
        let pixels = halved.pixels().iter().map(|value| steps[usize::from(*value)]).collect();
        found.extend(patches(&eroded(pixels, halved.width()), halved.width(), levels.len()));
    }
    for place in found.iter_mut().flatten() {
        *place = *place * 2.0 + Point::new(0.5, 0.5);
    }
    (found, 2.0 * THIN as f64 + 1.0)
}

/// Evenly spaced grey levels between the picture's dark and bright extremes.
fn levels(gray: &Gray) -> Vec<usize> {
    let mut histogram = [0_usize; 256];
    for &value in gray.pixels() {
        histogram[usize::from(value)] += 1;
    }
    let few = gray.pixels().len() / 300;
    let enough = |count: &mut usize, value: &usize| {
        *count += histogram[*value];
        *count > few
    };
    let (mut dark, mut bright) = (0, 0);
    let least = (0..256).find(|value| enough(&mut dark, value)).unwrap_or(0);
    let most = (0..256).rev().find(|value| enough(&mut bright, value)).unwrap_or(255);
    let mut levels: Vec<usize> = (1..=LEVELS)
        .map(|step| least + most.saturating_sub(least) * step / (LEVELS + 1))
        .collect();
    levels.dedup();
    levels
}

/// Erosion: each value becomes the minimum over a square of radius [`THIN`].
fn eroded(pixels: Vec<u8>, width: usize) -> Vec<u8> {
    let near = 2 * THIN + 1;
    let mut rows = pixels.clone();
    for (out, row) in rows.chunks_exact_mut(width).zip(pixels.chunks_exact(width)) {
        for x in (0..width.min(THIN)).chain(width.saturating_sub(THIN)..width) {
            let beside = &row[x.saturating_sub(THIN)..(x + THIN + 1).min(width)];
            out[x] = beside.iter().copied().fold(u8::MAX, u8::min);
        }
        for first in 0..near.min(width + 1 - near.min(width)) {
            for (out, value) in out
                .iter_mut()
                .skip(THIN)
                .zip(&row[first..(width + first + 1).saturating_sub(near)])
            {
                *out = (*out).min(*value);
            }
        }
    }
    let mut pixels = rows.clone();
    let height = pixels.len() / width;
    for (y, out) in pixels.chunks_exact_mut(width).enumerate() {
        for other in y.saturating_sub(THIN)..(y + THIN + 1).min(height) {
            for (out, value) in out.iter_mut().zip(&rows[other * width..(other + 1) * width]) {
                *out = (*out).min(*value);
            }
        }
    }
    pixels
}

/// A run of pixels in a row, `from..to`, and the patch that it belongs to.
struct PixelRun {
    from: u32,
    to: u32,
    row: u32,
    patch: u32,
}

/// The patches at one level, built run by run from the top (union-find).
#[derive(Default)]
struct LevelSet {
    runs: Vec<PixelRun>,
    /// Parent of each patch in the union-find forest.
    parent: Vec<u32>,
    /// Index of the first run of the row above, and of this row.
    above: usize,
    here: usize,
    /// Index of the first run of the row above that may touch the next run.
    over: usize,
    /// Start of the open run.
    from: u32,
}

/// The hulls of the connected patches at each level that are large enough and do not touch the
/// border. One pass over the pixels serves all levels, because a change from one pixel to the next
/// concerns only the levels in between.
fn patches(steps: &[u8], width: usize, levels: usize) -> Vec<Vec<Point>> {
    let mut cuts: Vec<LevelSet> = (0..levels).map(|_| LevelSet::default()).collect();
    for (row, pixels) in steps.chunks_exact(width).enumerate() {
        for cut in &mut cuts {
            (cut.above, cut.here) = (cut.here, cut.runs.len());
            cut.over = cut.above;
        }
        let mut last = 0;
        let ends = pixels.iter().copied().chain([0]).enumerate();
        for (x, step) in ends {
            if step > last {
                for cut in &mut cuts[usize::from(last)..usize::from(step)] {
                    cut.from = x as u32;
                }
            } else if step < last {
                for cut in &mut cuts[usize::from(step)..usize::from(last)] {
                    cut.end_run(x as u32, row as u32);
                }
            }
            last = step;
        }
    }
    cuts.into_iter()
        .flat_map(|cut| cut.hulls(width, steps.len() / width))
        .collect()
}

impl LevelSet {
    /// Ends a run and merges it with the runs of the row above that touch it.
    fn end_run(&mut self, to: u32, row: u32) {
        let from = self.from;
        while self.over < self.here && self.runs[self.over].to < from {
            self.over += 1;
        }
        let new = self.parent.len() as u32;
        let mut patch = new;
        let mut touching = self.over;
        while touching < self.here && self.runs[touching].from <= to {
            let root = self.root(self.runs[touching].patch);
            if patch == new || patch == root {
                patch = root;
            } else {
                self.parent[root as usize] = patch;
            }
            touching += 1;
        }
        if patch == new {
            self.parent.push(new);
        }
        self.runs.push(PixelRun { from, to, row, patch });
    }

    fn root(&mut self, mut patch: u32) -> u32 {
        while self.parent[patch as usize] != patch {
            let above = self.parent[self.parent[patch as usize] as usize];
            self.parent[patch as usize] = above;
            patch = above;
        }
        patch
    }

    fn hulls(mut self, width: usize, height: usize) -> Vec<Vec<Point>> {
        let frame = (width * height) as f64;
        let mut areas = vec![0_u32; self.parent.len()];
        let mut at_border = vec![false; self.parent.len()];
        for index in 0..self.runs.len() {
            let patch = self.root(self.runs[index].patch);
            let run = &mut self.runs[index];
            run.patch = patch;
            areas[patch as usize] += run.to - run.from;
            at_border[patch as usize] |=
                run.from == 0 || run.to as usize == width || run.row == 0 || run.row as usize + 1 == height;
        }
        let counts = |patch: usize| {
            let part = f64::from(areas[patch]) / frame;
            !at_border[patch] && (MIN_AREA..MAX_AREA).contains(&part)
        };
        let mut outlines: Vec<(usize, Vec<Point>)> = (0..areas.len())
            .filter(|&patch| counts(patch))
            .map(|patch| (patch, Vec::new()))
            .collect();
        for run in &self.runs {
            if let Ok(index) = outlines.binary_search_by_key(&(run.patch as usize), |(patch, _)| *patch) {
                let ends = [run.from, run.to - 1].map(|x| Point::new(f64::from(x), f64::from(run.row)));
                outlines[index].1.extend(ends);
            }
        }
        outlines
            .into_iter()
            .map(|(patch, places)| (areas[patch], hull(places)))
            .filter(|(filled, hull)| f64::from(*filled) > MIN_FILLED * area(hull))
            .map(|(_, hull)| hull)
            .collect()
    }
}

/// Largest relative difference between a hull's area and that of its four sides.
const MAX_OFF: f64 = 0.06;
/// Largest root mean square distance of a round hull from its ellipse, as a fraction of the radius.
const MAX_UNEVEN: f64 = 0.03;
/// Largest number of hull vertices that four corners are chosen from.
const MAX_CORNERS: usize = 40;

/// The convex hull, clockwise on a picture (Andrew's monotone chain, 1979).
pub(crate) fn hull(mut places: Vec<Point>) -> Vec<Point> {
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
        // The last point begins the second half.
        chain.pop();
        places.reverse();
    }
    chain
}

/// The area of a polygon, positive where it goes clockwise on a picture.
pub(crate) fn area(corners: &[Point]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    corners.iter().zip(next).map(|(a, b)| a.cross(*b)).sum::<f64>() / 2.0
}

/// The four corners of a hull bounded by four straight sides, moved `out` pixels outward; `None`
/// for another shape. The hull's own corners may be round.
pub(crate) fn four_sided(hull: &[Point], out: f64) -> Option<[Point; 4]> {
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
            let line = StraightLine::through(&near)?;
            // Clockwise, outward is to the left.
            lines.push((line.middle + Point::new(along.y, -along.x) * out, line.direction));
        }
        for (index, corner) in corners.iter_mut().enumerate() {
            let (before, after) = (lines[(index + 3) % 4], lines[index]);
            *corner = meeting(before.0, before.1, after.0, after.1)?;
        }
    }
    let perimeter: f64 = (0..4).map(|k| corners[k].distance(corners[(k + 1) % 4])).sum();
    let grown = area(hull) + perimeter * out;
    ((area(&corners) / grown - 1.0).abs() < MAX_OFF).then_some(corners)
}

/// The ellipse of a round hull, enlarged by `out` pixels; `None` for another shape.
pub(crate) fn round(hull: &[Point], out: f64) -> Option<Ellipse> {
    let places = outline(hull);
    let middle = places.iter().fold(Point::default(), |sum, place| sum + *place) * (1.0 / places.len() as f64);
    let mut ellipse = Ellipse::fit(&places, middle, |_| 1.0)?;
    let gauge = ellipse.gauge();
    let square: f64 = places.iter().map(|place| gauge(*place).powi(2)).sum();
    let rms = (square / places.len() as f64).sqrt();
    ellipse.half_axes = (ellipse.half_axes.0 + out, ellipse.half_axes.1 + out);
    (rms < 1.5 + MAX_UNEVEN * ellipse.radius()).then_some(ellipse)
}

/// Points along a hull, about a pixel apart.
fn outline(hull: &[Point]) -> Vec<Point> {
    let mut places = Vec::new();
    for (index, from) in hull.iter().enumerate() {
        let way = hull[(index + 1) % hull.len()] - *from;
        let count = way.length().ceil().max(1.0);
        places.extend((0..count as usize).map(|k| *from + way * (k as f64 / count)));
    }
    places
}

/// The four vertices of a hull that enclose the largest area.
fn largest_inside(hull: &[Point]) -> Option<[Point; 4]> {
    let step = hull.len().div_ceil(MAX_CORNERS).max(1);
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
