//! The picture laid on the face's plane, a cell for each millimetre, and its edges along two
//! perpendicular directions.

use crate::photo::geometry::{Point, StraightLine};
use crate::photo::image::Photo;
use crate::photo::scale::PlaneMap;

/// Side of a cell, in millimetres.
pub(super) const CELL: f64 = 1.0;
/// Largest distance from the picture's middle that is looked at, in millimetres.
const REACH: f64 = 230.0;
/// Light that is added before the logarithm, so that darkness has no large slopes.
const DARKNESS: f64 = 0.015;
/// Difference of the logarithm of light across an edge that counts in full; more counts no more.
const FULL_STEP: f32 = 0.30;

/// Logarithm of light on the face's plane.
pub(super) struct Rectified {
    /// Middle of the covered square, in millimetres.
    pub middle: Point,
    /// Cells along a side.
    side: usize,
    /// Row by row; NaN outside the picture.
    cells: Vec<f32>,
}

impl Rectified {
    /// The part of the picture around its middle; `None` where the middle is beyond the face's horizon.
    pub fn of(photo: &Photo, map: &PlaneMap) -> Option<Self> {
        let gray = photo.working();
        let frame = map.frame;
        let middle = map.place(frame.centre())?;
        let back = map.back.inverse()?;
        let (w, h) = (frame.width - 1.0, frame.height - 1.0);
        let reach = (0..40)
            .filter_map(|index| {
                let part = f64::from(index % 10) / 9.0;
                let place = match index / 10 {
                    0 => Point::new(part * w, 0.0),
                    1 => Point::new(part * w, h),
                    2 => Point::new(0.0, part * h),
                    _ => Point::new(w, part * h),
                };
                Some(map.place(place)?.distance(middle))
            })
            .fold(0.0, f64::max)
            .min(REACH);
        let side = (2.0 * reach / CELL).ceil() as usize + 1;
        let mut cells = Vec::with_capacity(side * side);
        let centre = (side as f64 - 1.0) / 2.0;
        for row in 0..side {
            for column in 0..side {
                let mut sum = 0.0;
                for (dx, dy) in [(-0.25, -0.25), (0.25, -0.25), (-0.25, 0.25), (0.25, 0.25)] {
                    let mm = middle + Point::new(column as f64 - centre + dx, row as f64 - centre + dy) * CELL;
                    let place = back.apply(mm).and_then(|place| map.lens.bent(frame, place));
                    sum += match place.map(|place| photo.to_reduced(place)) {
                        Some(place) if gray.contains(place, 0.0) => gray.light(place),
                        _ => f64::NAN,
                    };
                }
                cells.push((sum / 4.0 + DARKNESS).ln() as f32);
            }
        }
        (side > 40).then_some(Self { middle, side, cells })
    }

    /// Bilinear between cells; NaN outside.
    fn at(&self, place: Point) -> f32 {
        let centre = (self.side as f64 - 1.0) / 2.0;
        let (x, y) = (place.x / CELL + centre, place.y / CELL + centre);
        if x < 0.0 || y < 0.0 || x >= self.side as f64 - 1.0 || y >= self.side as f64 - 1.0 {
            return f32::NAN;
        }
        let (left, upper) = (x as usize, y as usize);
        let (fx, fy) = ((x - left as f64) as f32, (y - upper as f64) as f32);
        let cell = |column: usize, row: usize| self.cells[row * self.side + column];
        let above = cell(left, upper) * (1.0 - fx) + cell(left + 1, upper) * fx;
        let below = cell(left, upper + 1) * (1.0 - fx) + cell(left + 1, upper + 1) * fx;
        above * (1.0 - fy) + below * fy
    }
}

/// Edges of a rectified picture turned by an angle, summed along columns and rows.
pub(super) struct Turned {
    /// Cells along a side.
    pub side: usize,
    /// Sums down each column of the step in light to the right: those of all columns down to a row, row by row,
    /// so that neighbouring lines lie beside each other.
    upright: Vec<f32>,
    /// Sums along each row of the step in light downwards: those of all rows up to a column, column by column.
    level: Vec<f32>,
}

impl Turned {
    /// The picture with `angle` (radians) as its new direction to the right.
    pub fn of(rectified: &Rectified, angle: f64) -> Self {
        let side = rectified.side;
        let centre = (side as f64 - 1.0) / 2.0;
        let (sine, cosine) = angle.sin_cos();
        let mut cells = vec![f32::NAN; side * side];
        for row in 0..side {
            for column in 0..side {
                let (x, y) = ((column as f64 - centre) * CELL, (row as f64 - centre) * CELL);
                cells[row * side + column] = rectified.at(Point::new(x * cosine - y * sine, x * sine + y * cosine));
            }
        }
        let mut upright = vec![0.0; side * (side + 1)];
        let mut level = vec![0.0; side * (side + 1)];
        let clipped = |step: f32| {
            if step.is_nan() {
                0.0
            } else {
                (step / FULL_STEP).clamp(-1.0, 1.0)
            }
        };
        for at in 0..side {
            for line in 1..side - 1 {
                let down = cells[(line + 1) * side + at] - cells[(line - 1) * side + at];
                level[(at + 1) * side + line] = level[at * side + line] + clipped(down);
                let across = cells[at * side + line + 1] - cells[at * side + line - 1];
                upright[(at + 1) * side + line] = upright[at * side + line] + clipped(across);
            }
        }
        Self { side, upright, level }
    }

    /// Mean step to the right over rows `from..to` of each column, -1 to 1; or downwards over columns of each
    /// row.
    pub fn means(&self, way: Way, from: usize, to: usize) -> impl Iterator<Item = f32> + '_ {
        let sums = match way {
            Way::Upright => &self.upright,
            Way::Level => &self.level,
        };
        let up_to = |at: usize| sums[at * self.side..(at + 1) * self.side].iter();
        let count = (to - from).max(1) as f32;
        up_to(to)
            .zip(up_to(from))
            .map(move |(last, first)| (last - first) / count)
    }
}

/// Direction of an edge in a turned picture.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Way {
    /// Down a column.
    Upright,
    /// Along a row.
    Level,
}

/// Angles in radians, 0 to π/2, along which or across which long straight edges run, likeliest first.
pub(super) fn directions(lines: &[(Point, Point)]) -> Vec<f64> {
    const BINS: usize = 180;
    let mut weight = [0.0; BINS];
    let quarter = std::f64::consts::FRAC_PI_2;
    for (from, to) in lines {
        let Some(line) = StraightLine::through(&[*from, *to]) else {
            continue;
        };
        let angle = line.direction.y.atan2(line.direction.x).rem_euclid(quarter);
        let bin = angle / quarter * BINS as f64;
        let length = from.distance(*to).min(120.0);
        // A bin is half a degree: a line counts within about a degree and a half.
        for off in -5_i32..=5 {
            let share = 1.0 - f64::from(off.abs()) / 6.0;
            let index = (bin as i32 + off).rem_euclid(BINS as i32) as usize;
            weight[index] += length * share;
        }
    }
    let mut out = Vec::new();
    for _ in 0..MOST_DIRECTIONS {
        let Some(best) = (0..BINS).max_by(|a, b| weight[*a].total_cmp(&weight[*b])) else {
            break;
        };
        if weight[best] <= 0.0 {
            break;
        }
        out.push((best as f64 + 0.5) / BINS as f64 * quarter);
        for off in -4_i32..=4 {
            weight[(best as i32 + off).rem_euclid(BINS as i32) as usize] = 0.0;
        }
    }
    out
}

/// Number of directions that are searched.
const MOST_DIRECTIONS: usize = 7;
