//! Sharpness, brightness and glare of a photo.

use super::edges::Edges;
use super::gray::Gray;
use super::picture::Photo;

/// Sharpness, brightness and glare of a photo.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quality {
    /// Width of the sharpest edges, in pixels of the full size: contrast over slope. `None` where
    /// the picture has too few edges.
    pub edge_width: Option<f64>,
    /// Share of saturated pixels.
    pub glare: f64,
    /// The 90th percentile of the grey values, 0 to 255.
    pub brightness: u8,
}

/// Largest edge width of a sharp photo, in pixels of the assessed picture.
const SHARP: f64 = 6.0;
/// Largest share of saturated pixels without a flag.
const MAX_GLARE: f64 = 0.05;
/// Smallest 90th percentile without a flag.
const DARKEST: u8 = 60;

/// A defect of a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flaw {
    /// Out of focus, or moved.
    Blurred,
    /// Saturated areas: light mirrored by a shiny surface hides edges.
    Glare,
    /// Too little light.
    Dark,
}

impl Flaw {
    /// The identifier used in files and for texts.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Flaw::Blurred => "blurred",
            Flaw::Glare => "glare",
            Flaw::Dark => "dark",
        }
    }
}

impl Quality {
    /// Assesses a photo by its reduced picture.
    #[must_use]
    pub fn of_photo(photo: &Photo) -> Self {
        let gray = photo.working();
        Self::of(gray, &Edges::of(gray), photo.factor())
    }

    /// Assesses a picture, usually the reduced one; `factor` is the number of full-size pixels to
    /// one of its pixels.
    pub(crate) fn of(gray: &Gray, edges: &Edges, factor: usize) -> Self {
        let mut histogram = [0_usize; 256];
        for &value in gray.pixels() {
            histogram[usize::from(value)] += 1;
        }
        let count = gray.pixels().len();
        let white: usize = histogram[253..].iter().sum();
        let mut above = 0;
        let bright = (0..256).rev().find(|&value| {
            above += histogram[value];
            above * 10 >= count
        });
        Self {
            edge_width: edge_width(gray, edges).map(|width| width * factor as f64),
            glare: white as f64 / count as f64,
            brightness: u8::try_from(bright.unwrap_or(0)).unwrap_or(u8::MAX),
        }
    }

    /// The defects, worst first; `factor` as in [`Photo::factor`].
    #[must_use]
    pub fn flaws(&self, factor: usize) -> Vec<Flaw> {
        let blurred = self.edge_width.is_none_or(|width| width > SHARP * factor as f64);
        let flaws = [
            (blurred, Flaw::Blurred),
            (self.brightness < DARKEST, Flaw::Dark),
            (self.glare > MAX_GLARE, Flaw::Glare),
        ];
        flaws.into_iter().filter_map(|(is, flaw)| is.then_some(flaw)).collect()
    }
}

/// Approximate number of edge pixels sampled.
const SAMPLE: usize = 20_000;

/// Median of contrast over slope among the steepest 2 % of the edge pixels.
///
/// For a step blurred by a Gaussian of σ this is √(2π) σ = 2.5 σ; the smoothing before the gradient
/// adds to σ.
fn edge_width(gray: &Gray, edges: &Edges) -> Option<f64> {
    let mut places: Vec<(i32, usize, usize)> = edges
        .places()
        .step_by(1 + edges.count() / SAMPLE)
        .map(|(x, y)| ((edges.gradient(x as isize, y as isize).length() * 16.0) as i32, x, y))
        .collect();
    if places.len() < 50 {
        return None;
    }
    let count = (places.len() / 50).max(50);
    places.select_nth_unstable_by(count - 1, |a, b| b.cmp(a));
    let mut widths: Vec<f64> = places[..count]
        .iter()
        .filter_map(|&(_, x, y)| width_at(gray, edges, x, y))
        .collect();
    if widths.is_empty() {
        return None;
    }
    widths.sort_by(f64::total_cmp);
    Some(widths[widths.len() / 2])
}

/// Contrast over slope at an edge pixel; contrast is measured by walking along the gradient until
/// the grey value stops changing.
fn width_at(gray: &Gray, edges: &Edges, x: usize, y: usize) -> Option<f64> {
    let gradient = edges.gradient(x as isize, y as isize);
    let slope = gradient.length();
    let along = gradient * (1.0 / slope);
    let value = |t: f64| {
        let (px, py) = ((x as f64 + along.x * t).round(), (y as f64 + along.y * t).round());
        let inside = px >= 0.0 && py >= 0.0 && px < gray.width() as f64 && py < gray.height() as f64;
        inside.then(|| f64::from(gray.row(py as usize)[px as usize]))
    };
    let end = |sign: f64| {
        let mut last = value(0.0)?;
        for step in 1..=24 {
            let next = value(sign * f64::from(step))?;
            if (next - last) * sign < 0.08 * slope {
                break;
            }
            last = next;
        }
        Some(last)
    };
    Some((end(1.0)? - end(-1.0)?).max(0.0) / slope)
}
