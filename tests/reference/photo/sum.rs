//! Statistics of a series.

use super::{Length, Outcome};

/// How the points of a length were set.
#[derive(Clone, Copy, PartialEq)]
pub enum Hand {
    /// As in the app: every tapped point moves to the nearest edge.
    Tapped,
    /// Every point dragged, and not moved.
    Dragged,
}

/// Statistics of a series or a part of it.
pub struct Sum {
    pub scenes: usize,
    pub found: usize,
    pub wrong_silently: usize,
    /// Sorted relative errors of the lengths with a correct outline; how many are within their ±.
    pub errors: Vec<f64>,
    pub within: usize,
    /// Lengths off by more than three times their ± without a flag.
    pub far: usize,
    pub flagged: usize,
    /// Sorted distances of the target's corners from the true ones.
    pub corners: Vec<f64>,
    /// Points tapped, and how many of them were set again by hand.
    pub taps: (usize, usize),
}

impl Sum {
    pub fn of<'a>(outcomes: impl Iterator<Item = &'a Outcome>, hand: Hand) -> Self {
        let mut sum = Self {
            scenes: 0,
            found: 0,
            wrong_silently: 0,
            errors: Vec::new(),
            within: 0,
            far: 0,
            flagged: 0,
            corners: Vec::new(),
            taps: (0, 0),
        };
        for outcome in outcomes {
            sum.scenes += 1;
            sum.flagged += usize::from(!outcome.flags.is_empty());
            sum.wrong_silently += usize::from(outcome.wrong_silently(hand));
            sum.taps = (sum.taps.0 + outcome.taps.0, sum.taps.1 + outcome.taps.1);
            if outcome.right() {
                let lengths = outcome.lengths(hand);
                sum.found += 1;
                sum.corners.extend(&outcome.corners);
                sum.errors.extend(lengths.iter().map(Length::part));
                sum.within += lengths.iter().filter(|length| length.within()).count();
                let far = |length: &&Length| (length.got - length.truth).abs() > 3.0 * length.plus_minus;
                sum.far += lengths.iter().filter(far).count() * usize::from(outcome.flags.is_empty());
            }
        }
        sum.errors.sort_by(f64::total_cmp);
        sum.corners.sort_by(f64::total_cmp);
        sum
    }

    fn at(&self, part: f64) -> f64 {
        self.errors
            .get(((self.errors.len() as f64 - 1.0) * part) as usize)
            .copied()
            .unwrap_or(f64::NAN)
    }

    pub fn percent(&self, part: usize) -> f64 {
        100.0 * part as f64 / self.scenes as f64
    }

    pub fn covered(&self) -> f64 {
        100.0 * self.within as f64 / self.errors.len() as f64
    }

    pub fn median(&self) -> f64 {
        100.0 * self.at(0.5)
    }

    /// The share of the target's corners within 0.3 pixel of the true ones, in per cent.
    pub fn sharp(&self) -> f64 {
        100.0 * self.corners.partition_point(|off| *off <= 0.3) as f64 / self.corners.len() as f64
    }

    pub fn line(&self, name: &str) -> String {
        format!(
            "{name:10} {:4} scenes, found {:.1} %, flagged {:.1} %, wrong and silent {} ({:.2} %); {} lengths, error {:.3} % median, {:.3} % at 95, within their ± {:.1} %, far beyond {}",
            self.scenes,
            self.percent(self.found),
            self.percent(self.flagged),
            self.wrong_silently,
            self.percent(self.wrong_silently),
            self.errors.len(),
            self.median(),
            100.0 * self.at(0.95),
            self.covered(),
            self.far,
        )
    }
}

/// The sums of a series, a line for each kind of reference, and for points that were not snapped.
pub fn report(outcomes: &[Outcome]) -> String {
    let mut lines: Vec<String> = ["card", "paper", "rectangle", "coin", "disc", "target"]
        .iter()
        .map(|name| Sum::of(outcomes.iter().filter(|outcome| outcome.name == *name), Hand::Tapped).line(name))
        .collect();
    let bent = outcomes.iter().filter(|outcome| outcome.straight);
    lines.push(Sum::of(bent, Hand::Tapped).line("bent lens"));
    let all = Sum::of(outcomes.iter(), Hand::Tapped);
    lines.push(all.line("all"));
    lines.push(Sum::of(outcomes.iter(), Hand::Dragged).line("by hand, not snapped"));
    let (taps, again) = all.taps;
    lines.push(format!("{taps} points tapped, {again} of them set again by hand"));
    lines.push(format!(
        "{} corners of targets, within 0.3 pixel {:.1} %",
        all.corners.len(),
        all.sharp()
    ));
    lines.join("\n")
}
