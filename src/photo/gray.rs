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
        let (left, upper) = (x as usize, y as usize);
        let (right, lower) = ((left + 1).min(self.width - 1), (upper + 1).min(self.height - 1));
        let (fx, fy) = ((x - left as f64) as f32, (y - upper as f64) as f32);
        let at = |x: usize, y: usize| LIGHT[usize::from(self.pixels[y * self.width + x])];
        let above = at(left, upper) * (1.0 - fx) + at(right, upper) * fx;
        let below = at(left, lower) * (1.0 - fx) + at(right, lower) * fx;
        f64::from(above * (1.0 - fy) + below * fy)
    }

    /// The picture made smaller by a whole factor, each new pixel the mean of a square of old
    /// ones; what does not fill a square at the right and below is cut off.
    #[must_use]
    pub fn shrunk(&self, factor: usize) -> Self {
        let factor = factor.clamp(1, self.width.min(self.height));
        let (width, height) = (self.width / factor, self.height / factor);
        let mut pixels = Vec::with_capacity(width * height);
        let mut sums = vec![0_u32; width];
        let area = (factor * factor) as u32;
        for y in 0..height {
            sums.fill(0);
            for line in 0..factor {
                let row = self.row(y * factor + line);
                match factor {
                    2 => add_up::<2>(&mut sums, row),
                    3 => add_up::<3>(&mut sums, row),
                    _ => {
                        for (sum, square) in sums.iter_mut().zip(row.chunks_exact(factor)) {
                            *sum += square.iter().map(|&value| u32::from(value)).sum::<u32>();
                        }
                    }
                }
            }
            pixels.extend(sums.iter().map(|&sum| ((sum + area / 2) / area) as u8));
        }
        Self { width, height, pixels }
    }
}

/// Adds every few pixels of a row to their sum; the usual numbers of them are known when this is
/// compiled, which makes it several times as quick.
fn add_up<const FACTOR: usize>(sums: &mut [u32], row: &[u8]) {
    for (sum, square) in sums.iter_mut().zip(row.as_chunks::<FACTOR>().0) {
        *sum += square.iter().map(|&value| u32::from(value)).sum::<u32>();
    }
}

fn clamped(value: f64, size: usize) -> f64 {
    // Also takes care of NaN: `max` returns the other number.
    value.max(0.0).min(size as f64 - 1.0)
}
