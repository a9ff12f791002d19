//! Finds the printed target: saddle points grown into the lattice of a checkerboard.

use std::collections::{BTreeMap, VecDeque};

use nalgebra::{SMatrix, SVector};

use super::{FindError, FindWarning, FoundReference, assessed, go_on, saddles};
use crate::photo::Cancelled;
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;
use crate::photo::image::{Gray, Photo, Quality};
use crate::photo::reference::ReferenceOutline;

/// Minimum number of corners.
const MIN_CORNERS: usize = 9;
/// Number of corners below which the target is doubtful.
const FEW_CORNERS: usize = 16;

/// Searches for the printed target by the corners of its squares.
pub(super) fn find_lattice(photo: &Photo, cancelled: Cancelled<'_>) -> Result<FoundReference, FindError> {
    go_on(cancelled)?;
    let gray = photo.working();
    let found = saddles::saddles(gray);
    go_on(cancelled)?;
    let rough = lattice(gray, &found);
    go_on(cancelled)?;
    let step = shortest_step(&rough).ok_or(FindError::Nothing)? * photo.factor() as f64;
    let radius = (0.4 * step).clamp(3.0, 14.0);
    let refined = rough
        .iter()
        .filter_map(|(at, corner)| Some((*at, saddles::refined(photo.full(), photo.to_full(*corner), radius)?)));
    go_on(cancelled)?;
    let lattice = without_outliers(refined.collect());
    let spans = |axis: fn(&(i32, i32)) -> i32| {
        let (least, most) = (lattice.keys().map(axis).min(), lattice.keys().map(axis).max());
        most.zip(least).is_some_and(|(most, least)| most - least >= 2)
    };
    if lattice.len() < MIN_CORNERS || !spans(|at| at.0) || !spans(|at| at.1) {
        return Err(FindError::Nothing);
    }
    let quality = Quality::of(gray, &Edges::of(gray), photo.factor());
    let mut doubts = Vec::new();
    if lattice.len() < FEW_CORNERS {
        doubts.push(FindWarning::Small);
    }
    let rms = roughness(&lattice);
    let corners = lattice
        .into_iter()
        .map(|((column, row), corner)| (column, row, corner))
        .collect();
    Ok(assessed(
        photo,
        ReferenceOutline::Lattice(corners),
        rms,
        doubts,
        quality,
    ))
}

/// Corners of squares by column and row.
type Lattice = BTreeMap<(i32, i32), Point>;

/// Largest distance of a corner from its expected position, as a fraction of the step.
const STRAY: f64 = 0.2;
/// Number of strongest saddles used as seeds.
const SEEDS: usize = 40;
/// Number of nearest neighbours that the first two steps are chosen from.
const NEIGHBOURS: usize = 8;

/// The largest lattice among a picture's saddles.
fn lattice(gray: &Gray, saddles: &[Point]) -> Lattice {
    let mut best = Lattice::new();
    let grid = Grid::new(saddles, gray);
    for &seed in saddles.iter().take(SEEDS) {
        if best.values().any(|corner| corner.distance(seed) < 1.0) {
            continue;
        }
        for (across, down) in first_steps(seed, saddles) {
            let grown = grow(gray, &grid, seed, across, down);
            if grown.len() > best.len() {
                best = grown;
            }
            // With more than half of the saddles, no other lattice can be larger.
            if best.len() * 2 > saddles.len() && best.len() >= 9 {
                return best;
            }
        }
    }
    best
}

/// Pairs of steps from a seed to neighbours that could be a column step and a row step.
fn first_steps(seed: Point, saddles: &[Point]) -> Vec<(Point, Point)> {
    let mut near: Vec<Point> = saddles
        .iter()
        .map(|&place| place - seed)
        .filter(|step| step.length() > 4.0)
        .collect();
    near.sort_by(|a, b| a.length().total_cmp(&b.length()));
    near.truncate(NEIGHBOURS);
    let mut pairs = Vec::new();
    for (index, &one) in near.iter().enumerate() {
        for &two in &near[index + 1..] {
            let turn = one.cross(two) / (one.length() * two.length());
            if turn.abs() > 0.6 && two.length() < 2.5 * one.length() {
                pairs.push(if turn > 0.0 { (one, two) } else { (two, one) });
            }
        }
    }
    pairs
}

/// Contrast of the four squares at a corner: positive where the two on the diagonal
/// `across + down` are brighter.
fn square_contrast(gray: &Gray, corner: Point, across: Point, down: Point) -> f64 {
    let (one, two) = ((across + down) * 0.25, (across - down) * 0.25);
    let light = |step: Point| gray.light(corner + step) + gray.light(corner - step);
    light(one) - light(two)
}

/// Grows a lattice from a seed by stepping to the nearest saddle in all four directions, as long as
/// the contrast alternates.
fn grow(gray: &Gray, grid: &Grid, seed: Point, across: Point, down: Point) -> Lattice {
    let contrast = square_contrast(gray, seed, across, down);
    let mut lattice = Lattice::new();
    if contrast.abs() < 0.02 {
        return lattice;
    }
    lattice.insert((0, 0), seed);
    let mut steps: BTreeMap<(i32, i32), [Point; 2]> = BTreeMap::from([((0, 0), [across, down])]);
    let mut queue = VecDeque::from([(0, 0)]);
    while let Some(at) = queue.pop_front() {
        let (Some(&corner), Some(&step)) = (lattice.get(&at), steps.get(&at)) else {
            continue;
        };
        for (column, row) in [(1, 0), (0, 1), (-1, 0), (0, -1)] {
            let next = (at.0 + column, at.1 + row);
            if lattice.contains_key(&next) {
                continue;
            }
            let axis = usize::from(column == 0);
            let sign = f64::from(column + row);
            let expected = corner + step[axis] * sign;
            let Some(place) = grid.nearest(expected, STRAY * step[axis].length()) else {
                continue;
            };
            let mut new_step = step;
            new_step[axis] = (place - corner) * sign;
            let parity = if (next.0 + next.1) % 2 == 0 { 1.0 } else { -1.0 };
            let found = square_contrast(gray, place, new_step[0], new_step[1]) * parity / contrast;
            let taken = lattice.values().any(|other| other.distance(place) < 1.0);
            if taken || !(0.25..4.0).contains(&found) {
                continue;
            }
            lattice.insert(next, place);
            steps.insert(next, new_step);
            queue.push_back(next);
        }
    }
    lattice
}

/// The shortest step between neighbouring corners, in pixels.
fn shortest_step(lattice: &Lattice) -> Option<f64> {
    let step = |(at, corner): (&(i32, i32), &Point)| {
        let next = [(at.0 + 1, at.1), (at.0, at.1 + 1)];
        let lengths = next
            .iter()
            .filter_map(|next| lattice.get(next))
            .map(|other| other.distance(*corner));
        lengths.fold(f64::INFINITY, f64::min)
    };
    let shortest = lattice.iter().map(step).fold(f64::INFINITY, f64::min);
    shortest.is_finite().then_some(shortest)
}

/// Removes corners farther than 6 % of a step from a plane in perspective (lens distortion is
/// less), and corners with fewer than two neighbours.
fn without_outliers(mut lattice: Lattice) -> Lattice {
    for _ in 0..3 {
        let (Some(plane), Some(step)) = (LatticeMap::fit(&lattice), shortest_step(&lattice)) else {
            return Lattice::new();
        };
        let before = lattice.len();
        lattice.retain(|at, corner| plane.place(*at).distance(*corner) < 0.06 * step + 1.0);
        let kept = lattice.clone();
        let neighbours = |at: &(i32, i32)| {
            let around = [(at.0 + 1, at.1), (at.0 - 1, at.1), (at.0, at.1 + 1), (at.0, at.1 - 1)];
            around.iter().filter(|next| kept.contains_key(next)).count()
        };
        lattice.retain(|at, _| neighbours(at) >= 2);
        if lattice.len() == before {
            break;
        }
    }
    lattice
}

/// Root mean square distance of the corners from a plane in perspective, in pixels: a bent sheet,
/// lens distortion, or noise.
fn roughness(lattice: &Lattice) -> f64 {
    let Some(plane) = LatticeMap::fit(lattice) else {
        return f64::INFINITY;
    };
    let square: f64 = lattice
        .iter()
        .map(|(at, corner)| plane.place(*at).distance(*corner).powi(2))
        .sum();
    (square / lattice.len() as f64).sqrt()
}

/// A homography from columns and rows to the picture.
struct LatticeMap {
    terms: SVector<f64, 8>,
    middle: (f64, f64),
    origin: Point,
    size: f64,
}

impl LatticeMap {
    /// Linear least squares on normalised coordinates (Hartley and Zisserman, Multiple View
    /// Geometry, 4.1). Accurate enough to reject outliers, and faster than
    /// [`Homography::fit`](crate::photo::scale::homography::Homography::fit).
    fn fit(lattice: &Lattice) -> Option<Self> {
        if lattice.len() < 4 {
            return None;
        }
        let count = lattice.len() as f64;
        let sum = lattice.values().fold(Point::default(), |sum, corner| sum + *corner);
        let origin = sum * (1.0 / count);
        let size = lattice
            .values()
            .map(|corner| corner.distance(origin))
            .fold(1.0, f64::max);
        let columns: f64 = lattice.keys().map(|at| f64::from(at.0)).sum();
        let rows: f64 = lattice.keys().map(|at| f64::from(at.1)).sum();
        let middle = (columns / count, rows / count);
        let mut normal = SMatrix::<f64, 8, 8>::zeros();
        let mut right = SVector::<f64, 8>::zeros();
        for (at, corner) in lattice {
            let (u, v) = (f64::from(at.0) - middle.0, f64::from(at.1) - middle.1);
            let to = (*corner - origin) * (1.0 / size);
            let x_row = SVector::<f64, 8>::from([u, v, 1.0, 0.0, 0.0, 0.0, -u * to.x, -v * to.x]);
            let y_row = SVector::<f64, 8>::from([0.0, 0.0, 0.0, u, v, 1.0, -u * to.y, -v * to.y]);
            normal += x_row * x_row.transpose() + y_row * y_row.transpose();
            right += x_row * to.x + y_row * to.y;
        }
        let terms = normal.lu().solve(&right)?;
        Some(Self {
            terms,
            middle,
            origin,
            size,
        })
    }

    fn place(&self, at: (i32, i32)) -> Point {
        let (u, v) = (f64::from(at.0) - self.middle.0, f64::from(at.1) - self.middle.1);
        let t = &self.terms;
        let w = t[6] * u + t[7] * v + 1.0;
        let place = Point::new(t[0] * u + t[1] * v + t[2], t[3] * u + t[4] * v + t[5]) * (1.0 / w);
        self.origin + place * self.size
    }
}

/// Spatial index of the saddles: cells of [`CELL`] pixels.
struct Grid {
    cells: Vec<Vec<Point>>,
    columns: usize,
    rows: usize,
}

const CELL: f64 = 16.0;

impl Grid {
    fn new(saddles: &[Point], gray: &Gray) -> Self {
        let (columns, rows) = (
            (gray.width() as f64 / CELL) as usize + 1,
            (gray.height() as f64 / CELL) as usize + 1,
        );
        let mut cells = vec![Vec::new(); columns * rows];
        for &place in saddles {
            cells[(place.y / CELL) as usize * columns + (place.x / CELL) as usize].push(place);
        }
        Self { cells, columns, rows }
    }

    fn nearest(&self, to: Point, reach: f64) -> Option<Point> {
        let range = |middle: f64, count: usize| {
            let low = ((middle - reach) / CELL).max(0.0) as usize;
            let high = (((middle + reach) / CELL).max(0.0) as usize).min(count - 1);
            low..=high
        };
        let mut best: Option<Point> = None;
        for row in range(to.y, self.rows) {
            for column in range(to.x, self.columns) {
                for &place in &self.cells[row * self.columns + column] {
                    let distance = place.distance(to);
                    if distance <= reach && best.is_none_or(|other| distance < other.distance(to)) {
                        best = Some(place);
                    }
                }
            }
        }
        best
    }
}
