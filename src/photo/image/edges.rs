//! Gradients of a picture, and the ridge pixels of their magnitude.

use super::gray::Gray;
use crate::photo::geometry::Point;

/// Gradient units for one grey value per pixel: the Scharr weights (16) times both sides (2).
pub(crate) const UNITS: f64 = (1 << UNITS_SHIFT) as f64;
const UNITS_SHIFT: i16 = 5;
/// Slope threshold of an edge, in grey values per pixel, at least.
const MIN_SLOPE: f64 = 1.5;
/// Largest share of the pixels above the threshold, before ridges are picked.
const MAX_SHARE: f64 = 0.3;

/// The gradient of a picture and the pixels on the ridges of its magnitude.
#[derive(Debug, Clone)]
pub struct Edges {
    width: usize,
    height: usize,
    /// The gradient to the right and down, in [`UNITS`].
    gradient: [Vec<i16>; 2],
    ridge: Vec<bool>,
    /// Indices of the ridge pixels, row by row.
    places: Vec<u32>,
}

impl Edges {
    /// Finds the edges of a picture: binomial smoothing (1 4 6 4 1), Scharr gradient (3 10 3),
    /// an automatic threshold, and non-maximum suppression across each edge.
    #[must_use]
    pub fn of(gray: &Gray) -> Self {
        let (width, height) = (gray.width(), gray.height());
        let smooth = smoothed(gray);
        let mut gradient = [vec![0_i16; width * height], vec![0_i16; width * height]];
        let mut columns = Columns::of_width(width);
        let mut histogram = [0_usize; 256];
        for y in 1..height.saturating_sub(1) {
            let row = |y: usize| &smooth[y * width..(y + 1) * width];
            let [gx, gy] = &mut gradient;
            let out = [gx, gy].map(|plane| &mut plane[y * width..(y + 1) * width]);
            columns.gradient([row(y - 1), row(y), row(y + 1)], out);
        }
        for y in (0..height).step_by(SAMPLED) {
            let [gx, gy] = gradient.each_ref().map(|plane| &plane[y * width..(y + 1) * width]);
            columns.count(gx, gy, &mut histogram);
        }
        let threshold = threshold(&histogram, width * height.div_ceil(SAMPLED));
        let (ridge, places) = ridges(&gradient, width, height, threshold);
        Self {
            width,
            height,
            gradient,
            ridge,
            places,
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

    /// The gradient of a ridge pixel; `None` for other pixels and outside the picture.
    pub(crate) fn on_edge(&self, x: isize, y: isize) -> Option<Point> {
        let index = self.index(x, y).filter(|index| self.ridge[*index])?;
        Some(self.gradient_at(index))
    }

    /// The gradient, towards the brighter side, in grey values per pixel; zero outside the picture.
    #[must_use]
    pub fn gradient(&self, x: isize, y: isize) -> Point {
        self.index(x, y)
            .map_or(Point::default(), |index| self.gradient_at(index))
    }

    fn gradient_at(&self, index: usize) -> Point {
        let [gx, gy] = self.gradient.each_ref().map(|plane| f64::from(plane[index]) / UNITS);
        Point::new(gx, gy)
    }

    /// Columns and rows of all ridge pixels.
    pub fn places(&self) -> impl Iterator<Item = (usize, usize)> + '_ {
        let width = self.width;
        self.places
            .iter()
            .map(move |&index| (index as usize % width, index as usize / width))
    }

    /// The number of ridge pixels.
    #[must_use]
    pub const fn count(&self) -> usize {
        self.places.len()
    }

    /// The nearest ridge pixel within `reach` pixels of a point along `normal` whose gradient is
    /// parallel to the normal within about 25°: its offset, and the gradient's component along
    /// the normal.
    #[must_use]
    pub fn near(&self, place: Point, normal: Point, reach: i32) -> Option<(f64, f64)> {
        let mut last = None;
        for step in 0..=2 * reach {
            let offset = f64::from(if step % 2 == 0 { step / 2 } else { -(step + 1) / 2 });
            let at = place + normal * offset;
            let (x, y) = at.pixel();
            if last == Some((x, y)) {
                continue;
            }
            let Some(gradient) = self.on_edge(x, y) else {
                continue;
            };
            last = Some((x, y));
            let along = gradient.dot(normal);
            if along * along > 0.81 * gradient.dot(gradient) {
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

/// Smooths with the separable weights 1 4 6 4 1.
fn smoothed(gray: &Gray) -> Vec<u8> {
    let (width, height) = (gray.width(), gray.height());
    let mut out = vec![0_u8; width * height];
    // A ring of five row sums, each used for five output rows.
    let mut rows: [Vec<u16>; 5] = std::array::from_fn(|index| {
        let mut row = vec![0; width];
        smooth_row(gray.row(index.saturating_sub(2)), &mut row);
        row
    });
    for y in 0..height {
        let [a, b, c, d, e] = &rows;
        let sums = a.iter().zip(b).zip(c).zip(d).zip(e);
        for (out, ((((a, b), c), d), e)) in out[y * width..(y + 1) * width].iter_mut().zip(sums) {
            // At most 256 × 255 + 128: fits 16 bits.
            *out = ((a + e + 4 * (b + d) + 6 * c + 128) >> 8) as u8;
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
    let from = |index: usize| {
        row.get(index..)
            .unwrap_or_default()
            .iter()
            .map(|&value| u16::from(value))
    };
    let five = from(0).zip(from(1)).zip(from(2)).zip(from(3)).zip(from(4));
    for (out, ((((a, b), c), d), e)) in out.iter_mut().skip(2).zip(five) {
        *out = a + e + 4 * (b + d) + 6 * c;
    }
}

/// Row stride for the gradient histogram.
const SAMPLED: usize = 3;

/// Scratch buffers, reused for each row.
struct Columns {
    /// Column sums of three rows with the weights 3, 10, 3.
    sum: Vec<i16>,
    /// The lowest of the three rows minus the uppermost.
    difference: Vec<i16>,
    strength: Vec<u8>,
}

impl Columns {
    fn of_width(width: usize) -> Self {
        Self {
            sum: vec![0; width],
            difference: vec![0; width],
            strength: vec![0; width],
        }
    }

    /// Computes the gradient of the middle row; zero at both ends.
    fn gradient(&mut self, [above, here, below]: [&[u8]; 3], [gx, gy]: [&mut [i16]; 2]) {
        let columns = self.sum.iter_mut().zip(&mut self.difference);
        for ((sum, difference), ((a, h), b)) in columns.zip(above.iter().zip(here).zip(below)) {
            let [a, h, b] = [*a, *h, *b].map(i16::from);
            *sum = 3 * (a + b) + 10 * h;
            *difference = b - a;
        }
        let (sum, difference) = (&self.sum[..], &self.difference[..]);
        for (out, (left, right)) in gx[1..].iter_mut().zip(sum.iter().zip(&sum[2..])) {
            *out = right - left;
        }
        let three = difference.iter().zip(&difference[1..]).zip(&difference[2..]);
        for (out, ((a, b), c)) in gy[1..].iter_mut().zip(three) {
            *out = 3 * (a + c) + 10 * b;
        }
    }

    /// Adds the slopes of a row above [`MIN_SLOPE`] to the histogram, in whole grey values per pixel.
    fn count(&mut self, gx: &[i16], gy: &[i16], histogram: &mut [usize; 256]) {
        for (strength, (gx, gy)) in self.strength.iter_mut().zip(gx.iter().zip(gy)) {
            // The magnitude within 8 %.
            let (large, small) = (gx.abs().max(gy.abs()), gx.abs().min(gy.abs()));
            *strength = ((large + (small >> 2) + (small >> 3)) >> UNITS_SHIFT).min(255) as u8;
        }
        for strength in self
            .strength
            .iter()
            .filter(|strength| f64::from(**strength) >= MIN_SLOPE)
        {
            histogram[usize::from(*strength)] += 1;
        }
    }
}

/// The slope that at most [`MAX_SHARE`] of the counted pixels exceed, in grey values per pixel.
fn threshold(histogram: &[usize; 256], pixels: usize) -> f64 {
    let most = (pixels as f64 * MAX_SHARE) as usize;
    let mut above = 0;
    for (slope, count) in histogram.iter().enumerate().rev() {
        above += count;
        if above > most {
            return (slope as f64).max(MIN_SLOPE);
        }
    }
    MIN_SLOPE
}

/// Non-maximum suppression: a mask of the ridge pixels above the threshold, and their indices.
fn ridges(gradient: &[Vec<i16>; 2], width: usize, height: usize, threshold: f64) -> (Vec<bool>, Vec<u32>) {
    let mut ridge = vec![false; width * height];
    let mut places = Vec::new();
    let least = (threshold * UNITS) as i32;
    let least = least * least;
    // Squared slopes of three rows.
    let squares = |y: usize, out: &mut [i32]| {
        let [gx, gy] = gradient.each_ref().map(|plane| &plane[y * width..(y + 1) * width]);
        for (out, (gx, gy)) in out.iter_mut().zip(gx.iter().zip(gy)) {
            let (gx, gy) = (i32::from(*gx), i32::from(*gy));
            *out = gx * gx + gy * gy;
        }
    };
    let mut rows = [vec![0; width], vec![0; width], vec![0; width]];
    for y in 0..height.min(2) {
        squares(y + 1, &mut rows[y + 1]);
    }
    for y in 2..height.saturating_sub(2) {
        rows.rotate_left(1);
        squares(y + 1, &mut rows[2]);
        let [above, here, below] = &rows;
        let blocks = here.chunks(8).enumerate();
        // Most of a picture has no edge: eight pixels are skipped at once.
        let some = blocks.filter(|(_, block)| block.iter().fold(0, |most, &square| most.max(square)) >= least);
        for x in some.flat_map(|(index, block)| 8 * index..8 * index + block.len()) {
            let strength = here[x];
            if strength < least || x < 2 || x + 2 >= width {
                continue;
            }
            let [gx, gy] = gradient.each_ref().map(|plane| i32::from(plane[y * width + x]));
            // tan 22.5° = 0.414 selects the two neighbours along the gradient.
            let (before, after) = if gy.abs() * 1000 < 414 * gx.abs() {
                (here[x - 1], here[x + 1])
            } else if gx.abs() * 1000 < 414 * gy.abs() {
                (above[x], below[x])
            } else if (gx > 0) == (gy > 0) {
                (above[x - 1], below[x + 1])
            } else {
                (above[x + 1], below[x - 1])
            };
            if strength > before && strength >= after {
                ridge[y * width + x] = true;
                places.push((y * width + x) as u32);
            }
        }
    }
    (ridge, places)
}
