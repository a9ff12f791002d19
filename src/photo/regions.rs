//! Even patches: a card or a coin that is darker, or brighter, than all around it.
//!
//! Edges alone lose it among the lines of a cutting mat or the grain of a board. There its patch
//! stands out whole at some level of brightness, thin lines taken away.

use std::collections::BTreeMap;

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
    let (dark, bright) = (spread(&halved, u8::max), spread(&halved, u8::min));
    let mut found = Vec::new();
    for level in levels(&halved) {
        found.extend(hulls_at(&dark, |value| value < level));
        found.extend(hulls_at(&bright, |value| value >= level));
    }
    for place in found.iter_mut().flatten() {
        *place = *place * 2.0 + Point::new(0.5, 0.5);
    }
    (found, 2.0 * THIN as f64 + 1.0)
}

/// Levels from the darkest to the brightest that the picture has some of, evenly.
fn levels(gray: &Gray) -> impl Iterator<Item = u8> {
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
    (1..=LEVELS).map(move |step| (least + (most - least) * step / (LEVELS + 1)) as u8)
}

/// The picture with each value the largest (or the least) of those near: dark (or bright) lines
/// are gone, and patches smaller by [`THIN`] all round.
fn spread(gray: &Gray, pick: fn(u8, u8) -> u8) -> Gray {
    let (width, height) = (gray.width(), gray.height());
    let mut rows = Vec::with_capacity(width * height);
    for y in 0..height {
        let row = gray.row(y);
        let near = |x: usize| &row[x.saturating_sub(THIN)..(x + THIN + 1).min(width)];
        rows.extend((0..width).map(|x| near(x).iter().copied().fold(row[x], pick)));
    }
    let mut pixels = Vec::with_capacity(width * height);
    for y in 0..height {
        let start = pixels.len();
        pixels.extend_from_slice(&rows[y * width..(y + 1) * width]);
        for other in y.saturating_sub(THIN)..(y + THIN + 1).min(height) {
            let from = &rows[other * width..(other + 1) * width];
            for (value, near) in pixels[start..].iter_mut().zip(from) {
                *value = pick(*value, *near);
            }
        }
    }
    Gray::new(width, height, pixels).unwrap_or_else(|| gray.clone())
}

/// Pixels side by side in a row: from, to (not with it), row; and the patch they belong to.
struct Run {
    from: usize,
    to: usize,
    row: usize,
    patch: usize,
}

/// The hulls of the connected patches that are large enough and do not touch the border.
fn hulls_at(gray: &Gray, inside: impl Fn(u8) -> bool) -> Vec<Vec<Point>> {
    let (width, height) = (gray.width(), gray.height());
    let mut runs: Vec<Run> = Vec::new();
    let mut parent: Vec<usize> = Vec::new();
    let mut above = 0;
    for row in 0..height {
        let pixels = gray.row(row);
        let here = runs.len();
        let (mut x, mut over) = (0, above);
        while let Some(from) = pixels[x..].iter().position(|&value| inside(value)).map(|skip| x + skip) {
            let length = pixels[from..].iter().position(|&value| !inside(value));
            let to = length.map_or(width, |length| from + length);
            let mut patch = parent.len();
            // Runs of the row above that touch it.
            while over < here && runs[over].to < from {
                over += 1;
            }
            let mut touching = over;
            while touching < here && runs[touching].from <= to {
                let root = root(&mut parent, runs[touching].patch);
                if patch == parent.len() || patch == root {
                    patch = root;
                } else {
                    parent[root] = patch;
                }
                touching += 1;
            }
            if patch == parent.len() {
                parent.push(patch);
            }
            runs.push(Run { from, to, row, patch });
            x = to;
        }
        above = here;
    }
    let frame = (width * height) as f64;
    let mut areas = vec![0_usize; parent.len()];
    let mut cut = vec![false; parent.len()];
    for run in &mut runs {
        run.patch = root(&mut parent, run.patch);
        areas[run.patch] += run.to - run.from;
        cut[run.patch] |= run.from == 0 || run.to == width || run.row == 0 || run.row + 1 == height;
    }
    let counts = |patch: usize| {
        let part = areas[patch] as f64 / frame;
        !cut[patch] && (LEAST_AREA..MOST_AREA).contains(&part)
    };
    let mut outlines: BTreeMap<usize, Vec<Point>> = BTreeMap::new();
    for run in runs.iter().filter(|run| counts(run.patch)) {
        let ends = [run.from, run.to - 1].map(|x| Point::new(x as f64, run.row as f64));
        outlines.entry(run.patch).or_default().extend(ends);
    }
    outlines
        .into_iter()
        .map(|(patch, places)| (areas[patch], hull(places)))
        .filter(|(filled, hull)| *filled as f64 > LEAST_FILLED * area(hull))
        .map(|(_, hull)| hull)
        .collect()
}

fn root(parent: &mut [usize], mut patch: usize) -> usize {
    while parent[patch] != patch {
        parent[patch] = parent[parent[patch]];
        patch = parent[patch];
    }
    patch
}
