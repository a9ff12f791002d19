//! A grey picture: pixels, linear light between them, reduction, and the turn to upright.

use crate::photo::geometry::Point;

/// A picture of 8-bit sRGB luma, row by row from the top.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gray {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

/// Linear light of each sRGB value, 0 to 1: a cubic within 0.003 of IEC 61966-2-1's curve.
///
/// A blurred edge lies where *light* changes fastest; on the encoded values it would appear up to
/// 0.4 of the blur's width further into the dark side.
const LIGHT: [f32; 256] = {
    let mut table = [0.0; 256];
    let mut value = 0;
    while value < 256 {
        let s = value as f32 / 255.0;
        table[value] = s * (s * (s * 0.305_306 + 0.682_171_1) + 0.012_522_9);
        value += 1;
    }
    table
};

impl Gray {
    /// A picture from its pixels, row by row; `None` unless their number is width × height and
    /// positive.
    #[must_use]
    pub fn new(width: usize, height: usize, pixels: Vec<u8>) -> Option<Self> {
        (width > 0 && height > 0 && width.checked_mul(height) == Some(pixels.len())).then_some(Self {
            width,
            height,
            pixels,
        })
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

    /// All pixels, row by row.
    #[must_use]
    pub fn pixels(&self) -> &[u8] {
        &self.pixels
    }

    /// Row `y`; the last row for `y` beyond the picture.
    #[must_use]
    pub fn row(&self, y: usize) -> &[u8] {
        let start = y.min(self.height - 1) * self.width;
        &self.pixels[start..start + self.width]
    }

    /// Whether a point lies at least `margin` pixels inside the picture.
    #[must_use]
    pub fn contains(&self, place: Point, margin: f64) -> bool {
        place.x >= margin
            && place.y >= margin
            && place.x <= self.width as f64 - 1.0 - margin
            && place.y <= self.height as f64 - 1.0 - margin
    }

    /// Linear light at a point, 0 to 1, bilinear between its four pixels; points outside the
    /// picture take the value at the border.
    #[must_use]
    pub fn light(&self, place: Point) -> f64 {
        let x = clamped(place.x, self.width);
        let y = clamped(place.y, self.height);
        // Through `i32`: one instruction, where a conversion to `usize` takes several.
        let (left, upper) = (x as i32, y as i32);
        let (fx, fy) = ((x - f64::from(left)) as f32, (y - f64::from(upper)) as f32);
        let (left, upper) = (left as usize, upper as usize);
        let first = upper * self.width + left;
        let right = usize::from(left + 1 < self.width);
        let lower = if upper + 1 < self.height { self.width } else { 0 };
        let at = |index: usize| LIGHT[usize::from(self.pixels[index])];
        let above = at(first) * (1.0 - fx) + at(first + right) * fx;
        let below = at(first + lower) * (1.0 - fx) + at(first + lower + right) * fx;
        f64::from(above * (1.0 - fy) + below * fy)
    }

    /// The picture reduced by a whole factor, each new pixel the mean of a square of old ones; an
    /// incomplete square at the right or lower border is dropped.
    #[must_use]
    pub fn shrunk(&self, factor: usize) -> Self {
        let factor = factor.clamp(1, self.width.min(self.height));
        let (width, height) = (self.width / factor, self.height / factor);
        let mut pixels = vec![0; width * height];
        // Column sums over the rows that make one new row: at most 255 × 255, for a picture of
        // 400 000 pixels a side.
        let mut columns = vec![0_u16; self.width];
        for (y, out) in pixels.chunks_exact_mut(width).enumerate() {
            for (column, value) in columns.iter_mut().zip(self.row(y * factor)) {
                *column = u16::from(*value);
            }
            for line in 1..factor {
                for (column, value) in columns.iter_mut().zip(self.row(y * factor + line)) {
                    *column += u16::from(*value);
                }
            }
            match factor {
                2 => means::<2>(&columns, out),
                3 => means::<3>(&columns, out),
                4 => means::<4>(&columns, out),
                _ => {
                    let area = (factor * factor) as u32;
                    for (out, columns) in out.iter_mut().zip(columns.chunks_exact(factor)) {
                        *out = ((columns.iter().map(|&sum| u32::from(sum)).sum::<u32>() + area / 2) / area) as u8;
                    }
                }
            }
        }
        Self { width, height, pixels }
    }
}

/// Block means from column sums. The factor is a constant so that the compiler can vectorise the
/// usual cases.
fn means<const FACTOR: usize>(columns: &[u16], out: &mut [u8]) {
    let area = (FACTOR * FACTOR) as u16;
    for (out, columns) in out.iter_mut().zip(columns.as_chunks::<FACTOR>().0) {
        *out = ((columns.iter().sum::<u16>() + area / 2) / area) as u8;
    }
}

fn clamped(value: f64, size: usize) -> f64 {
    // NaN becomes 0: `max` returns the other operand.
    value.max(0.0).min(size as f64 - 1.0)
}

/// Turns a picture upright. Exif 2.3, tag 0x0112: which side of the scene the first row and the
/// first column show; values outside 2 to 8 leave the picture as it is.
pub(crate) fn upright(gray: Gray, orientation: u8) -> Gray {
    let (width, height) = (gray.width(), gray.height());
    if orientation <= 1 || orientation > 8 {
        return gray;
    }
    let turned = orientation >= 5;
    let (new_width, new_height) = if turned { (height, width) } else { (width, height) };
    let (row, last_row, last) = (width as isize, (height - 1) * width, width * height - 1);
    // Index of the source of the first pixel, and the source strides across and down.
    let (start, across, down) = match orientation {
        2 => (width - 1, -1, row),
        3 => (last, -1, -row),
        4 => (last_row, 1, -row),
        5 => (0, row, 1),
        6 => (last_row, -row, 1),
        7 => (last, -row, -1),
        _ => (width - 1, row, -1),
    };
    // Tiles keep both the reads and the writes within the cache.
    const TILE: usize = 32;
    let old = gray.pixels();
    let mut pixels = vec![0; width * height];
    for top in (0..new_height).step_by(TILE) {
        for left in (0..new_width).step_by(TILE) {
            for y in top..(top + TILE).min(new_height) {
                let right = (left + TILE).min(new_width);
                let mut from = start as isize + left as isize * across + y as isize * down;
                for pixel in &mut pixels[y * new_width + left..y * new_width + right] {
                    *pixel = old[from as usize];
                    from += across;
                }
            }
        }
    }
    Gray::new(new_width, new_height, pixels).unwrap_or(gray)
}
