//! A picture in shades of grey.

use super::point::Point;

/// A picture of 8-bit grey values as a camera writes them (sRGB luma), row by row from above.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Gray {
    width: usize,
    height: usize,
    pixels: Vec<u8>,
}

/// Linear light of each sRGB value, 0 to 1: a cubic within 0.003 of IEC 61966-2-1's curve.
///
/// A blurred edge lies where *light* changes fastest; on the encoded values it would seem to lie
/// up to 0.4 of the blur further into the dark side.
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
    /// A picture from its rows; `None` where their number of pixels is not width times height,
    /// or where there is none.
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

    /// One row; the last one below the picture.
    #[must_use]
    pub fn row(&self, y: usize) -> &[u8] {
        let start = y.min(self.height - 1) * self.width;
        &self.pixels[start..start + self.width]
    }

    /// Whether a place has at least `margin` pixels around it inside the picture.
    #[must_use]
    pub fn contains(&self, place: Point, margin: f64) -> bool {
        place.x >= margin
            && place.y >= margin
            && place.x <= self.width as f64 - 1.0 - margin
            && place.y <= self.height as f64 - 1.0 - margin
    }

    /// Linear light at a place, 0 to 1, between its four pixels; beyond the border, the border's.
    #[must_use]
    pub fn light(&self, place: Point) -> f64 {
        let x = clamped(place.x, self.width);
        let y = clamped(place.y, self.height);
        // By way of `i32`, the number that a processor makes of a fraction at once.
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

    /// The picture made smaller by a whole factor, each new pixel the mean of a square of old
    /// ones; what does not fill a square at the right and below is cut off.
    #[must_use]
    pub fn shrunk(&self, factor: usize) -> Self {
        let factor = factor.clamp(1, self.width.min(self.height));
        let (width, height) = (self.width / factor, self.height / factor);
        let mut pixels = vec![0; width * height];
        // The sums of each column over the rows that make one row, at most 255 × 255 (a picture that is
        // 400 000 pixels long).
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

/// The means of every few columns; the usual numbers of them are known when this is compiled, which
/// makes it several times as quick.
fn means<const FACTOR: usize>(columns: &[u16], out: &mut [u8]) {
    let area = (FACTOR * FACTOR) as u16;
    for (out, columns) in out.iter_mut().zip(columns.as_chunks::<FACTOR>().0) {
        *out = ((columns.iter().sum::<u16>() + area / 2) / area) as u8;
    }
}

fn clamped(value: f64, size: usize) -> f64 {
    // Also takes care of NaN: `max` returns the other number.
    value.max(0.0).min(size as f64 - 1.0)
}
