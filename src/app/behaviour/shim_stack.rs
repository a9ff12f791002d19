//! A gap as a stack of sheets that exist: which papers, how many of each, and how far it may be off.

use crate::job::Conditions;
use crate::quantity::{Length, Measured, Origin};

/// The thinnest gap that hands lay and clamps keep. Common practice, no source.
pub const LEAST_GAP: Length = Length::from_si(0.1e-3);
/// Papers of a stack where nobody measured one: office paper of 0.1 mm, pressed board of 0.25 mm. Common
/// practice, no source.
const USUAL_MM: [f64; 2] = [0.25, 0.1];
/// Half-width of a sheet's thickness where nobody measured it: a tenth. Common practice, no source.
const SHEET_TOLERANCE: f64 = 0.1;
/// A sheet more is laid where it brings the stack closer by more than this. Common practice, no source.
const WORTH_A_SHEET: Length = Length::from_si(0.01e-3);
/// Sheets within this part of the thinnest of a whole number are that number.
const WHOLE: f64 = 0.01;

/// A stack of sheets, the thickest first.
#[derive(Debug, Clone, PartialEq)]
pub struct ShimStack {
    /// Papers with how many sheets of each, at least one.
    pub papers: Vec<(Measured<Length>, u32)>,
}

impl ShimStack {
    /// Its thickness with its half-width: sheets of one paper are all as much too thick or too thin, papers
    /// independent of one another.
    #[must_use]
    pub fn thickness(&self) -> Measured<Length> {
        let (mut value, mut square) = (0.0, 0.0);
        for (paper, count) in &self.papers {
            value += paper.value.si() * f64::from(*count);
            square += (paper.plus_minus.si() * f64::from(*count)).powi(2);
        }
        Measured::new(Length::from_si(value), Length::from_si(square.sqrt()), Origin::Computed)
    }

    /// How many sheets it has.
    #[must_use]
    pub fn sheets(&self) -> u32 {
        self.papers.iter().map(|(_, count)| count).sum()
    }

    /// The stack of these papers that is at least so thick, and no thinner than [`LEAST_GAP`], with the least
    /// too much; a sheet less is worth a hundredth of a millimetre.
    #[must_use]
    pub fn at_least(needed: Length, papers: &[Measured<Length>]) -> Self {
        let needed = needed.max(LEAST_GAP);
        let Some((last, before)) = papers.split_last() else {
            return Self { papers: Vec::new() };
        };
        let filled_up = |mut stack: Vec<(Measured<Length>, u32)>, there: Length| {
            let count = ((needed - there) / last.value - WHOLE).ceil().max(0.0) as u32;
            if count > 0 {
                stack.push((*last, count));
            }
            Self { papers: stack }
        };
        let mut best = filled_up(Vec::new(), Length::ZERO);
        let cost = |stack: &Self| stack.thickness().value + WORTH_A_SHEET * f64::from(stack.sheets());
        for thicker in before {
            let most = (needed / thicker.value).ceil() as u32;
            for count in 1..=most {
                let stack = filled_up(vec![(*thicker, count)], thicker.value * f64::from(count));
                if cost(&stack) < cost(&best) {
                    best = stack;
                }
            }
        }
        best
    }
}

/// The papers of a job, the thickest first: the person's, else the usual ones.
#[must_use]
pub fn papers(conditions: &Conditions) -> Vec<Measured<Length>> {
    let own = [conditions.sheet_mm, conditions.second_sheet_mm];
    let mut papers: Vec<Measured<Length>> = own
        .into_iter()
        .flatten()
        .map(|mm| mm.measured(Length::from_mm))
        .collect();
    if papers.is_empty() {
        let usual = |mm: f64| {
            Measured::new(
                Length::from_mm(mm),
                Length::from_mm(mm * SHEET_TOLERANCE),
                Origin::Typical,
            )
        };
        papers.extend(USUAL_MM.map(usual));
    }
    papers.sort_by(|a, b| b.value.si().total_cmp(&a.value.si()));
    papers
}

#[cfg(test)]
mod tests {
    use super::*;

    fn paper(mm: f64) -> Measured<Length> {
        Measured::new(Length::from_mm(mm), Length::from_mm(mm * 0.1), Origin::Calipers)
    }

    /// Arithmetic: 0.35 mm is a sheet of 0.25 and one of 0.1; no other stack of both is as near above 0.32.
    #[test]
    fn a_stack_mixes_papers_where_that_is_nearer() {
        for (needed, counts) in [
            (0.32, vec![(0.25, 1), (0.1, 1)]),
            (0.25, vec![(0.25, 1)]),
            (0.5, vec![(0.25, 2)]),
            (0.2, vec![(0.1, 2)]),
            (0.02, vec![(0.1, 1)]),
            (0.58, vec![(0.25, 2), (0.1, 1)]),
        ] {
            let stack = ShimStack::at_least(Length::from_mm(needed), &[paper(0.25), paper(0.1)]);
            let found: Vec<(f64, u32)> = stack
                .papers
                .iter()
                .map(|(paper, count)| ((paper.value.mm() * 1000.0).round() / 1000.0, *count))
                .collect();
            assert_eq!(found, counts, "{needed} mm");
            assert!(stack.thickness().value.mm() >= needed - 0.001);
        }
    }

    /// Two sheets of one paper are both too thick; two papers are independent (the root of the squares).
    #[test]
    fn tolerances_add_as_papers_do() {
        let stack = ShimStack {
            papers: vec![(paper(0.25), 2), (paper(0.1), 1)],
        };
        let half = stack.thickness().plus_minus.mm();
        assert!(
            (half - (0.05_f64.powi(2) + 0.01_f64.powi(2)).sqrt()).abs() < 1e-12,
            "{half}"
        );
    }
}
