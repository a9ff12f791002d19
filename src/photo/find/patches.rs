//! Even patches: a card or a coin that is darker, or brighter, than all around it.
//!
//! Edges alone lose it among the lines of a cutting mat or the grain of a board. There its patch
//! stands out whole at some level of brightness, thin lines taken away.

use super::gray::Gray;
use super::hull::{area, hull};
use super::point::Point;

/// Levels of brightness that the picture is cut at.
const LEVELS: usize = 40;
/// Half the width of lines that are taken away, in pixels of the halved picture.
const THIN: usize = 2;
/// Smallest patch, as a part of the picture.
const LEAST_AREA: f64 = 0.0008;
/// Largest patch, as a part of the picture.
const MOST_AREA: f64 = 0.7;
/// Least share of its hull that a patch fills: print makes holes in it.
const LEAST_FILLED: f64 = 0.6;

/// The hulls of the patches of a picture, in its own pixels, and how many pixels further out the
/// patches' edges lie.
pub(super) fn hulls(gray: &Gray) -> (Vec<Vec<Point>>, f64) {
    let halved = gray.shrunk(2);
    let levels = levels(&halved);
    let most = levels.len() as u8;
    // How many of the levels each value reaches, and how many it stays below.
    let bright: [u8; 256] = std::array::from_fn(|value| levels.iter().filter(|level| **level <= value).count() as u8);
    let mut found = Vec::new();
    for steps in [bright.map(|step| most - step), bright] {
        let pixels = halved.pixels().iter().map(|value| steps[usize::from(*value)]).collect();
        found.extend(patches(&thinned(pixels, halved.width()), halved.width(), levels.len()));
    }
    for place in found.iter_mut().flatten() {
        *place = *place * 2.0 + Point::new(0.5, 0.5);
    }
    (found, 2.0 * THIN as f64 + 1.0)
}

/// Levels from the darkest to the brightest that the picture has some of, evenly.
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

/// The picture with each value the least of those near: lines that stand out from it are gone, and
/// patches smaller by [`THIN`] all round.
fn thinned(pixels: Vec<u8>, width: usize) -> Vec<u8> {
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

/// Pixels side by side in a row: from, to (not with it), row; and the patch they belong to.
struct Run {
    from: u32,
    to: u32,
    row: u32,
    patch: u32,
}

/// What one level cuts out, run by run from above.
#[derive(Default)]
struct Cut {
    runs: Vec<Run>,
    /// The patch that each patch has become part of, or itself.
    parent: Vec<u32>,
    /// Where the runs of the row above begin, and those of this row.
    above: usize,
    here: usize,
    /// The first run of the row above that may touch the next run.
    over: usize,
    /// Where the run that is not yet at its end began.
    from: u32,
}

/// The hulls of the connected patches at each of some levels that are large enough and do not touch
/// the border: a patch is where the steps are above the level. All levels in one pass over the
/// pixels, as a change from one to the next concerns those levels only that lie between.
fn patches(steps: &[u8], width: usize, levels: usize) -> Vec<Vec<Point>> {
    let mut cuts: Vec<Cut> = (0..levels).map(|_| Cut::default()).collect();
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

impl Cut {
    /// Ends a run and joins it with the runs of the row above that touch it.
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
        self.runs.push(Run { from, to, row, patch });
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
            !at_border[patch] && (LEAST_AREA..MOST_AREA).contains(&part)
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
            .filter(|(filled, hull)| f64::from(*filled) > LEAST_FILLED * area(hull))
            .map(|(_, hull)| hull)
            .collect()
    }
}
