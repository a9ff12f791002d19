//! Where the brightness changes: gradients, and the ridges of their strength.

use super::gray::Gray;
use super::point::Point;

/// Gradient units for one grey value per pixel: the Scharr weights (16) times both sides (2).
pub(super) const UNITS: f64 = 32.0;
/// Weakest edge that counts, in grey values per pixel.
const LEAST_SLOPE: f64 = 1.5;
/// Share of all pixels that are let through as edges at most, before ridges are picked.
const MOST_SHARE: f64 = 0.3;

/// The gradient of a picture and the pixels on its ridges.
#[derive(Debug, Clone)]
pub struct Edges {
    width: usize,
    height: usize,
    gradient: Vec<[i16; 2]>,
    ridge: Vec<bool>,
}

impl Edges {
    /// Finds the edges of a picture: smoothed by binomial weights (1 4 6 4 1), gradient by
    /// Scharr's weights (3 10 3), and of those above an automatic threshold the pixels that are
    /// strongest across their edge.
    #[must_use]
    pub fn of(gray: &Gray) -> Self {
        let (width, height) = (gray.width(), gray.height());
        let smooth = smoothed(gray);
        let mut gradient = vec![[0_i16; 2]; width * height];
        // Histogram of the strength in steps of one grey value per pixel.
        let mut histogram = [0_usize; 256];
        for y in 1..height.saturating_sub(1) {
            let above = &smooth[(y - 1) * width..y * width];
            let here = &smooth[y * width..(y + 1) * width];
            let below = &smooth[(y + 1) * width..(y + 2) * width];
            let out = &mut gradient[y * width..(y + 1) * width];
            let windows = above.windows(3).zip(here.windows(3)).zip(below.windows(3));
            for (((a, h), b), out) in windows.zip(&mut out[1..]) {
                let (a, h, b) = (
                    [a[0], a[1], a[2]].map(i16::from),
                    [h[0], h[2]].map(i16::from),
                    [b[0], b[1], b[2]].map(i16::from),
                );
                let gx = 3 * (a[2] - a[0] + b[2] - b[0]) + 10 * (h[1] - h[0]);
                let gy = 3 * (b[0] - a[0] + b[2] - a[2]) + 10 * (b[1] - a[1]);
                *out = [gx, gy];
                // Within 8 % of the length: good enough for a histogram.
                let (large, small) = (gx.abs().max(gy.abs()), gx.abs().min(gy.abs()));
                histogram[usize::from((large + small * 3 / 8) as u16 / UNITS as u16).min(255)] += 1;
            }
        }
        let threshold = threshold(&histogram);
        let ridge = ridges(&gradient, width, height, threshold);
        Self {
            width,
            height,
            gradient,
            ridge,
        }
    }

    /// Pixels across.
    #[must_use]
    pub const fn width(&self) -> usize {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub const fn height(&self) -> usize {
        self.height
    }

    /// Whether this pixel is on a ridge; false outside the picture.
    #[must_use]
    pub fn is_edge(&self, x: isize, y: isize) -> bool {
        self.index(x, y).is_some_and(|index| self.ridge[index])
    }

    /// The gradient, pointing to the brighter side, in grey values per pixel; zero outside.
    #[must_use]
    pub fn gradient(&self, x: isize, y: isize) -> Point {
        self.index(x, y).map_or(Point::new(0.0, 0.0), |index| {
            let [gx, gy] = self.gradient[index];
            Point::new(f64::from(gx) / UNITS, f64::from(gy) / UNITS)
        })
    }

    /// All edge pixels.
    pub fn places(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let width = self.width;
        self.ridge
            .iter()
            .enumerate()
            .filter(|(_, edge)| **edge)
            .map(move |(index, _)| (index % width, index / width))
    }

    /// The edge pixel within `reach` pixels of a place along `normal` whose gradient runs along
    /// it (within about 25°): how far along, and the gradient's part along the normal. The
    /// nearest one counts.
    #[must_use]
    pub fn near(&self, place: Point, normal: Point, reach: i32) -> Option<(f64, f64)> {
        let mut last = None;
        for step in 0..=2 * reach {
            let offset = f64::from(if step % 2 == 0 { step / 2 } else { -(step + 1) / 2 });
            let at = place + normal * offset;
            let (x, y) = (at.x.round() as isize, at.y.round() as isize);
            if last == Some((x, y)) || !self.is_edge(x, y) {
                continue;
            }
            last = Some((x, y));
            let gradient = self.gradient(x, y);
            let along = gradient.dot(normal);
            if along.abs() > 0.9 * gradient.length() {
                let exact = (Point::new(x as f64, y as f64) - place).dot(normal);
                return Some((exact, along));
            }
        }
        None
    }

    fn index(&self, x: isize, y: isize) -> Option<usize> {
        let (x, y) = (usize::try_from(x).ok()?, usize::try_from(y).ok()?);
        (x < self.width && y < self.height).then(|| y * self.width + x)
    }
}

/// Rows, then columns, with the weights 1 4 6 4 1.
fn smoothed(gray: &Gray) -> Vec<u8> {
    let (width, height) = (gray.width(), gray.height());
    let mut out = vec![0_u8; width * height];
    // Five rows of sums, each used five times.
    let mut rows: [Vec<u16>; 5] = std::array::from_fn(|index| {
        let mut row = vec![0; width];
        smooth_row(gray.row(index.saturating_sub(2)), &mut row);
        row
    });
    for y in 0..height {
        let [a, b, c, d, e] = &rows;
        let line = &mut out[y * width..(y + 1) * width];
        for (x, out) in line.iter_mut().enumerate() {
            let sum = u32::from(a[x]) + u32::from(e[x]) + 4 * (u32::from(b[x]) + u32::from(d[x])) + 6 * u32::from(c[x]);
            *out = ((sum + 128) >> 8) as u8;
        }
        rows.rotate_left(1);
        smooth_row(gray.row(y + 3), &mut rows[4]);
    }
    out
}

fn smooth_row(row: &[u8], out: &mut [u16]) {
    let width = row.len();
    let at = |index: usize| u16::from(row[index.min(width - 1)]);
    for x in (0..width.min(2)).chain(width.saturating_sub(2)..width) {
        let (far_left, left) = (at(x.saturating_sub(2)), at(x.saturating_sub(1)));
        out[x] = far_left + at(x + 2) + 4 * (left + at(x + 1)) + 6 * at(x);
    }
    for (window, out) in row.windows(5).zip(out.iter_mut().skip(2)) {
        let w = [window[0], window[1], window[2], window[3], window[4]].map(u16::from);
        *out = w[0] + w[4] + 4 * (w[1] + w[3]) + 6 * w[2];
    }
}

/// The slope that at most a third of the picture exceeds, in grey values per pixel.
fn threshold(histogram: &[usize; 256]) -> f64 {
    let most = (histogram.iter().sum::<usize>() as f64 * MOST_SHARE) as usize;
    let mut above = 0;
    for (slope, count) in histogram.iter().enumerate().rev() {
        above += count;
        if above > most {
            return (slope as f64).max(LEAST_SLOPE);
        }
    }
    LEAST_SLOPE
}

/// Pixels above the threshold that no pixel across their edge exceeds.
fn ridges(gradient: &[[i16; 2]], width: usize, height: usize, threshold: f64) -> Vec<bool> {
    let mut ridge = vec![false; width * height];
    let square = |index: usize| {
        let [gx, gy] = gradient[index].map(i32::from);
        gx * gx + gy * gy
    };
    let least = (threshold * UNITS) as i32;
    let least = least * least;
    for y in 2..height.saturating_sub(2) {
        for x in 2..width.saturating_sub(2) {
            let index = y * width + x;
            let strength = square(index);
            if strength < least {
                continue;
            }
            let [gx, gy] = gradient[index].map(i32::from);
            // tan 22.5° = 0.414: the neighbour nearest to the gradient's direction.
            let step = if gy.abs() * 1000 < 414 * gx.abs() {
                1
            } else if gx.abs() * 1000 < 414 * gy.abs() {
                width
            } else if (gx > 0) == (gy > 0) {
                width + 1
            } else {
                width - 1
            };
            ridge[index] = strength > square(index - step) && strength >= square(index + step);
        }
    }
    ridge
}
