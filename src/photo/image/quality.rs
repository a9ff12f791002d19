//! Whether a photo is good enough to measure in: sharp, lit, without glare.

use super::edges::Edges;
use super::gray::Gray;

/// What was found out about a photo's quality.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Quality {
    /// How wide a sharp edge is spread, in pixels of the full size: the contrast across the
    /// steepest edges over their slope. `None` where nothing in the picture has an edge.
    pub edge_width: Option<f64>,
    /// The share of the picture that is as white as it can be.
    pub glare: f64,
    /// The grey value (0 to 255) that 90 % of the picture stay below.
    pub brightness: u8,
}

/// Widest edge of a sharp photo, in pixels of the picture that it was judged in.
const SHARP: f64 = 6.0;
/// Largest white share.
const MOST_GLARE: f64 = 0.05;
/// Darkest bright part.
const DARKEST: u8 = 60;

/// What is wrong with a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Flaw {
    /// Its edges are spread.
    Blurred,
    /// Parts are pure white: light mirrored by a shiny surface hides edges.
    Glare,
    /// Too little light.
    Dark,
}

impl Flaw {
    /// The word that files and screens use.
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
    /// Judges a picture (the reduced one will do) by its edges; `factor` is how many full-size
    /// pixels make one of it.
    pub(super) fn of(gray: &Gray, edges: &Edges, factor: usize) -> Self {
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

    /// What is wrong, worst first.
    pub(super) fn flaws(&self, factor: usize) -> Vec<Flaw> {
        let blurred = self.edge_width.is_none_or(|width| width > SHARP * factor as f64);
        let flaws = [
            (blurred, Flaw::Blurred),
            (self.brightness < DARKEST, Flaw::Dark),
            (self.glare > MOST_GLARE, Flaw::Glare),
        ];
        flaws.into_iter().filter_map(|(is, flaw)| is.then_some(flaw)).collect()
    }
}

/// Edges that are looked at, about: more say the same.
const SAMPLE: usize = 20_000;

/// Contrast over slope of the steepest edges: the median over the steepest fiftieth of them.
///
/// For a step blurred by a Gaussian of σ this is √(2π) σ = 2.5 σ, of which the smoothing before
/// the gradient adds its own.
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

/// Walks from an edge pixel to both sides until the picture stops changing the same way.
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
