//! The search for the pattern of an E-I face among the edges of a rectified picture: an outline and two
//! equal windows either side of a tongue, symmetric both ways.

use super::rectified::{CELL, Rectified, Turned, Way};
use crate::photo::geometry::Point;

/// A face's edges in a rectified picture that is turned by `angle`: distances in millimetres from the
/// rectified picture's middle, to the right and down.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Pattern {
    /// Direction of the face's width, in radians.
    pub angle: f64,
    /// Left limb's outer and inner edge, the tongue's two edges, right limb's inner and outer edge.
    pub across: [f64; 6],
    /// Upper yoke's outer and inner edge, lower yoke's inner and outer edge.
    pub down: [f64; 4],
    /// Sum of the edges' clearness; larger is better.
    pub score: f32,
}

/// Widths of the tongue that are tried, in millimetres: steps of a ninth.
const TONGUES: [f64; 9] = [22.0, 24.4, 27.1, 30.1, 33.4, 37.1, 41.2, 45.7, 50.7];
/// Ranges of half the tongue, the windows' outer edges and the limbs' outer edges from the middle, in
/// tongues: scrapless laminations have 0.5, 1 and 1.5.
const ACROSS: [(f64, f64); 3] = [(0.45, 0.55), (0.86, 1.15), (1.28, 1.76)];
/// The same for the windows' ends and the yokes' outer edges: 0.75 and 1.25.
const DOWN: [(f64, f64); 2] = [(0.61, 0.91), (1.03, 1.5)];
/// Least width of a limb or a yoke, in tongues.
const LEAST_IRON: f64 = 0.3;
/// Step of the middle's position along the lines that are summed, in tongues; across them it is a cell.
const COARSE: f64 = 0.1;
/// Weight of the outline, which clutter and shadow hide more often than they hide the windows.
const OUTLINE: f32 = 0.8;
/// Least distance of two different patterns' middles, in cells.
const APART: usize = 7;
/// Weight of an edge of a window whose parts have steps of either sign: seen from aside, a window shows its dark
/// wall along one edge and a bright or printed ground along the other.
const OTHER_SIGN: f32 = 0.75;
/// Parts of a window's edge whose steps may have different signs.
const WINDOW_PARTS: usize = 3;
/// Patterns kept for each direction.
const KEPT: usize = 6;

/// The likeliest patterns with their width along `angle`, best first.
pub(super) fn patterns(rectified: &Rectified, angle: f64) -> Vec<Pattern> {
    let turned = Turned::of(rectified, angle);
    let mut found: Vec<Found> = Vec::new();
    for tongue in TONGUES {
        of_size(&turned, tongue / CELL, &mut found);
    }
    found.sort_by(|a, b| b.score.total_cmp(&a.score));
    let mut kept: Vec<Found> = Vec::new();
    for one in found {
        let near = |other: &Found| {
            one.x.abs_diff(other.x) < APART
                && one.y.abs_diff(other.y) < APART
                && (one.size / other.size - 1.0).abs() < 0.16
        };
        if !kept.iter().any(near) {
            kept.push(one);
            if kept.len() == KEPT {
                break;
            }
        }
    }
    kept.iter().map(|one| one.pattern(&turned, angle)).collect()
}

/// A middle, a size (the tongue in cells), and whether the windows are darker (1) or brighter (-1).
#[derive(Clone, Copy)]
struct Found {
    score: f32,
    x: usize,
    y: usize,
    size: f64,
    sign: f32,
}

/// Adds the better positions for one size.
fn of_size(turned: &Turned, size: f64, found: &mut Vec<Found>) {
    let side = turned.side;
    let (wide, high) = ((1.4 * size) as usize, (1.15 * size) as usize);
    if 2 * wide + 2 > side || 2 * high + 2 > side {
        return;
    }
    let coarse = (COARSE * size) as usize;
    let rows: Vec<usize> = (high..side - high).step_by(coarse).collect();
    let columns: Vec<usize> = (wide..side - wide).step_by(coarse).collect();
    // The best of the pairs across, for each row of the middle and each finer column.
    let across: Vec<[Vec<f32>; 2]> = rows.iter().map(|&y| pairs_across(turned, size, y).best()).collect();
    let down: Vec<[Vec<f32>; 2]> = columns.iter().map(|&x| pairs_down(turned, size, x).best()).collect();
    for (&y, across) in rows.iter().zip(&across) {
        for (&x, down) in columns.iter().zip(&down) {
            for (index, sign) in [1.0, -1.0].into_iter().enumerate() {
                // Half a coarse step either way, finer.
                let mut best = Found {
                    score: f32::NEG_INFINITY,
                    x,
                    y,
                    size,
                    sign,
                };
                let near = |at: usize| at.saturating_sub(coarse / 2)..=(at + coarse / 2).min(side - 1);
                let (mut best_x, mut best_y) = (f32::NEG_INFINITY, f32::NEG_INFINITY);
                for fine in near(x) {
                    if across[index][fine] > best_x {
                        best_x = across[index][fine];
                        best.x = fine;
                    }
                }
                for fine in near(y) {
                    if down[index][fine] > best_y {
                        best_y = down[index][fine];
                        best.y = fine;
                    }
                }
                best.score = best_x + best_y;
                if best.score > LEAST_SCORE {
                    found.push(best);
                }
            }
        }
    }
}

/// Least score of a position.
const LEAST_SCORE: f32 = 1.2;

/// The clearness of lines in one direction: steps along windows (of both signs) and along the outline.
struct Lines {
    side: usize,
    /// Mean step at each line along the windows, -1 to 1.
    windows: Vec<f32>,
    /// Mean of the sizes of the steps in parts of each line along the windows, 0 to 1.
    patterned: Vec<f32>,
    /// Mean of the sizes of the steps in parts of each line along the outline, 0 to 1.
    outline: Vec<f32>,
    /// Ranges of the pairs of window edges from the middle, in cells, and whether the window lies outside
    /// (its edge towards the tongue) or inside.
    pairs: Vec<(usize, usize, bool)>,
    /// Range of the outline.
    outer: (usize, usize),
}

/// Upright lines for a middle in row `y`.
fn pairs_across(turned: &Turned, size: f64, y: usize) -> Lines {
    let half = |part: f64| (part * size) as usize;
    let rows = |reach: usize| (y.saturating_sub(reach), (y + reach).min(turned.side));
    let (from, to) = rows(half(0.58));
    let (outer_from, outer_to) = rows(half(1.05));
    Lines::of(
        turned,
        Way::Upright,
        &[(from, to)],
        (outer_from, outer_to),
        4,
        &ACROSS,
        size,
    )
}

/// Level lines for a middle in column `x`.
fn pairs_down(turned: &Turned, size: f64, x: usize) -> Lines {
    let at = |part: f64| ((x as f64 + part * size).max(0.0) as usize).min(turned.side);
    let windows = [(at(-0.9), at(-0.6)), (at(0.6), at(0.9))];
    Lines::of(turned, Way::Level, &windows, (at(-1.3), at(1.3)), 5, &DOWN, size)
}

impl Lines {
    fn of(
        turned: &Turned,
        way: Way,
        windows: &[(usize, usize)],
        outline: (usize, usize),
        parts: usize,
        ranges: &[(f64, f64)],
        size: f64,
    ) -> Self {
        let side = turned.side;
        // Neighbouring lines are summed together, each range in turn.
        let summed = |ranges: &[(usize, usize)], size: fn(f32) -> f32| {
            let mut sums = vec![0.0_f32; side];
            for (from, to) in ranges {
                for (sum, mean) in sums.iter_mut().zip(turned.means(way, *from, *to)) {
                    *sum += size(mean);
                }
            }
            let count = ranges.len() as f32;
            for sum in &mut sums {
                *sum /= count;
            }
            sums
        };
        let parted = |(from, to): (usize, usize), parts: usize| {
            let length = (to - from) / parts;
            (0..parts).map(move |index| (from + index * length, from + (index + 1) * length))
        };
        let in_parts: Vec<(usize, usize)> = windows.iter().flat_map(|range| parted(*range, WINDOW_PARTS)).collect();
        let of_outline: Vec<(usize, usize)> = parted(outline, parts).collect();
        let cells = |part: f64| (part * size).round() as usize;
        let (last, inner) = ranges.split_last().unwrap_or((&(0.0, 0.0), &[]));
        // The tongue's edges come first where there are any: the window lies outside of them.
        let count = inner.len();
        Self {
            side,
            windows: summed(windows, |mean| mean),
            patterned: summed(&in_parts, f32::abs),
            outline: summed(&of_outline, f32::abs),
            pairs: inner
                .iter()
                .enumerate()
                .map(|(index, (low, high))| (cells(*low), cells(*high), count == 2 && index == 0))
                .collect(),
            outer: (cells(last.0), cells(last.1)),
        }
    }

    /// The clearness of a line as a window's edge whose step has this sign.
    fn window_edge(&self, sign: f32, line: usize) -> f32 {
        (sign * self.windows[line]).max(OTHER_SIGN * self.patterned[line])
    }

    /// The step into the window of the pair's edge before and after the middle.
    fn step(&self, sign: f32, outside: bool, before: bool, line: usize) -> f32 {
        let into = if outside == before { 1.0 } else { -1.0 };
        self.window_edge(sign * into, line)
    }

    /// The clearness of the best pairs about each middle, for dark and for bright windows.
    fn best(&self) -> [Vec<f32>; 2] {
        let near = |values: &dyn Fn(usize) -> f32| -> Vec<f32> {
            let own: Vec<f32> = (0..self.side).map(values).collect();
            let mut most: Vec<f32> = own.iter().map(|value| value.max(-1.0)).collect();
            for (most, next) in most.iter_mut().zip(&own[1..]) {
                *most = most.max(*next);
            }
            for (most, before) in most[1..].iter_mut().zip(&own) {
                *most = most.max(*before);
            }
            most
        };
        let rise = near(&|at| self.window_edge(1.0, at));
        let fall = near(&|at| self.window_edge(-1.0, at));
        let outline = near(&|at| self.outline[at]);
        // A face that is cut off by more than a limb is no face.
        let margin = self.outer.0.min(self.side / 2);
        let middles = margin..self.side - margin;
        [1.0, -1.0].map(|sign: f32| {
            let mut out = vec![f32::NEG_INFINITY; self.side];
            let mut add = |(low, high): (usize, usize), first: &[f32], second: &[f32], weight: f32| {
                let mut best = vec![-1.0_f32; middles.len()];
                for half in low..=high {
                    // Middles whose pair lies within the picture.
                    let from = middles.start.max(half);
                    let to = middles.end.min(self.side.saturating_sub(half));
                    if from >= to {
                        break;
                    }
                    let firsts = &first[from - half..to - half];
                    let seconds = &second[from + half..to + half];
                    let best = &mut best[from - middles.start..to - middles.start];
                    for ((best, first), second) in best.iter_mut().zip(firsts).zip(seconds) {
                        let value = both(*first, *second);
                        *best = if value > *best { value } else { *best };
                    }
                }
                for (out, best) in out[middles.clone()].iter_mut().zip(best) {
                    *out = if *out == f32::NEG_INFINITY { 0.0 } else { *out } + weight * best;
                }
            };
            add(self.outer, &outline, &outline, OUTLINE);
            for (low, high, outside) in &self.pairs {
                // Darker windows outside of the tongue: light rises at its left edge.
                let rises = *outside == (sign > 0.0);
                let (first, second) = if rises { (&rise, &fall) } else { (&fall, &rise) };
                add((*low, *high), first, second, 1.0);
            }
            out
        })
    }

    /// The positions of the best pairs about a middle, outermost first, in cells; and their clearness.
    fn places(&self, middle: usize, sign: f32, size: f64) -> (Vec<f64>, f32) {
        let mut score = 0.0;
        let mut halves: Vec<(usize, usize)> = Vec::new();
        let mut least = 0;
        let mut pick = |low: usize, high: usize, weight: f32, values: &dyn Fn(bool, usize) -> f32| {
            let mut best = (f32::NEG_INFINITY, (low, low));
            for half in low.max(least)..=high {
                if half > middle || middle + half >= self.side {
                    break;
                }
                // The edges of a pair lie within a millimetre of symmetry about the middle.
                let near = |line: usize, before: bool| {
                    (line.saturating_sub(1)..=(line + 1).min(self.side - 1))
                        .max_by(|a, b| values(before, *a).total_cmp(&values(before, *b)))
                        .unwrap_or(line)
                };
                let (first, second) = (near(middle - half, true), near(middle + half, false));
                let value = both(values(true, first), values(false, second));
                if value > best.0 {
                    best = (value, (first, second));
                }
            }
            score += weight * best.0;
            halves.push(best.1);
            least = (best.1.1.saturating_sub(best.1.0)) / 2 + (LEAST_IRON * size) as usize;
        };
        for (low, high, outside) in &self.pairs {
            pick(*low, *high, 1.0, &|before, line| {
                self.step(sign, *outside, before, line)
            });
        }
        pick(self.outer.0, self.outer.1, OUTLINE, &|_, line| self.outline[line]);
        halves.reverse();
        let places: Vec<f64> = halves
            .iter()
            .map(|pair| pair.0 as f64)
            .chain(halves.iter().rev().map(|pair| pair.1 as f64))
            .collect();
        (places, score)
    }
}

/// The clearness of two edges together: a missing one counts twice.
fn both(first: f32, second: f32) -> f32 {
    let least = if first < second { first } else { second };
    0.5 * (0.5 * (first + second) + least)
}

impl Found {
    fn pattern(&self, turned: &Turned, angle: f64) -> Pattern {
        let (across, x_score) = pairs_across(turned, self.size, self.y).places(self.x, self.sign, self.size);
        let (down, y_score) = pairs_down(turned, self.size, self.x).places(self.y, self.sign, self.size);
        let centre = (turned.side as f64 - 1.0) / 2.0;
        let mm = |cell: f64| (cell - centre) * CELL;
        Pattern {
            angle,
            across: std::array::from_fn(|index| mm(across.get(index).copied().unwrap_or_default())),
            down: std::array::from_fn(|index| mm(down.get(index).copied().unwrap_or_default())),
            score: x_score + y_score,
        }
    }
}

impl Pattern {
    /// A position in the turned picture as one on the face, in millimetres; `middle` is the rectified
    /// picture's.
    pub fn place(&self, middle: Point, x: f64, y: f64) -> Point {
        let (sine, cosine) = self.angle.sin_cos();
        middle + Point::new(x * cosine - y * sine, x * sine + y * cosine)
    }

    /// The opposite of [`Pattern::place`].
    pub fn turned(&self, middle: Point, place: Point) -> Point {
        let (sine, cosine) = self.angle.sin_cos();
        let from = place - middle;
        Point::new(from.x * cosine + from.y * sine, from.y * cosine - from.x * sine)
    }
}
