//! Finds a rectangle in a photo: a card, a sheet of paper, one of the person's own.

use super::edges::Edges;
use super::find::{
    ASIDE, CLOSE, Candidate, FindError, FindWarning, SMALL, aside, candidate, from_above, in_the_middle,
};
use super::fit_rectangle::{Fitted, Turned, best_turn, with_sides};
use super::found::Found;
use super::gray::Gray;
use super::hull::four_sided;
use super::picture::Photo;
use super::point::Point;
use super::quads::{self, Quad, middle};
use super::quality::Quality;
use super::regions;
use super::segments::{joined, segments};
use super::things;

/// Largest misfit of a shape that is not flagged.
const MOST_MISFIT: f64 = 0.03;

/// The rectangle that is looked for.
pub(super) struct Sought {
    /// Width to height.
    pub ratio: f64,
    /// What to leave out at the ends of a side, where corners are round, as a part of it.
    pub margin: f64,
    /// ± of the ratio, as a part of it.
    pub spread: f64,
    /// Whether no core can lie on it.
    pub bare: bool,
    /// Whether it is white, as paper is.
    pub white: bool,
    /// Whether it may be so thick that its flank shows.
    pub thick: bool,
}

/// Longer side from which a reference may have the core lying on it, in millimetres.
pub(super) const UNDER_A_CORE: f64 = 130.0;
/// Outlines that are looked at more closely.
const MOST_LOOKED_AT: usize = 400;
/// Support that the outline of an even patch needs to be considered: its evenness speaks for it too.
const PATCH_SUPPORT: f64 = 0.3;
/// Outlines that are fitted at full size.
const MOST_FITTED: usize = 16;

/// How much less likely it is that a sheet of paper is darker than what it lies on.
const DARK_PAPER: f64 = 0.8;
/// How much less likely a dark outline is a reference, which is bright more often, than a core's
/// window; and where another like it lies beside it.
const DARK: f64 = 0.9;
const WINDOW: f64 = 0.7;
/// Support, share of places on the sides, misfit beyond the spread, and score as a part of the support,
/// with which an outline of lines is so clear that even patches are not asked.
const CLEAR: (f64, f64, f64) = (0.85, 0.8, 0.02);

/// Looks for a rectangle by its four sides, and where they are not clear by its patch too.
pub(super) fn find_rectangle(photo: &Photo, sought: &Sought) -> Result<Candidate, FindError> {
    let gray = photo.working();
    let edges = Edges::of(gray);
    let seen = Seen {
        photo,
        sought,
        centre: Point::new((gray.width() as f64 - 1.0) / 2.0, (gray.height() as f64 - 1.0) / 2.0),
        long_side: gray.width().max(gray.height()) as f64,
    };
    let mut lines = joined(&segments(&edges, (0.012 * seen.long_side).max(10.0)));
    things::things_first(gray, &mut lines);
    let plausible = |corners: &[Point; 4]| seen.is_plausible(corners);
    let of_lines = quads::quads(&edges, &lines, plausible);
    let mut fitted = seen.fitted(of_lines.clone());
    if !seen.is_clear(&fitted) {
        let (hulls, out) = regions::hulls(gray);
        let patches = hulls.iter().filter_map(|hull| four_sided(hull, out));
        let patches = patches.filter_map(|corners| quads::quad(&edges, corners, PATCH_SUPPORT, plausible));
        fitted = seen.fitted(of_lines.into_iter().chain(patches).collect());
    }
    let at_full = |rough: &Fitted| Some((seen.at_full(rough)?, rough.has_rival(&fitted)));
    let (best, rival) = fitted.iter().find_map(at_full).ok_or(FindError::Nothing)?;
    Ok(candidate(
        photo,
        Found::Rectangle(best.corners),
        best.rms,
        seen.doubts(&best, rival),
        Quality::of(gray, &edges, photo.factor()),
    ))
}

/// Shortest side of an outline whose flank the reduced picture shows well enough, in its pixels.
const LARGE: f64 = 250.0;

/// The photo and what is looked for in it.
struct Seen<'a> {
    photo: &'a Photo,
    sought: &'a Sought,
    /// Middle of the reduced picture.
    centre: Point,
    /// Longer side of the reduced picture.
    long_side: f64,
}

impl Seen<'_> {
    fn gray(&self) -> &Gray {
        self.photo.working()
    }

    fn is_plausible(&self, corners: &[Point; 4]) -> bool {
        let side = quads::sides(corners)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min);
        self.turned(corners).misfit < 0.05 + self.sought.spread + 3.0 / side
    }

    /// Which of the two ways round a rectangle of the reduced picture lies fits better.
    fn turned(&self, corners: &[Point; 4]) -> Turned {
        best_turn(corners, self.centre, self.long_side, self.sought.ratio)
    }

    /// The likeliest of some outlines, fitted in the reduced picture, the best first.
    fn fitted(&self, rough: Vec<Quad>) -> Vec<Fitted> {
        let mut fitted: Vec<Fitted> = Vec::new();
        let mut most = 0.0_f64;
        for quad in self.weighed(rough) {
            // A score is at most the weight: what comes now is neither best nor a doubt.
            if quad.weight < CLOSE * most {
                break;
            }
            if let Some(one) = self.fit(&quad) {
                most = most.max(one.score);
                fitted.push(one);
            }
        }
        fitted.sort_by(|a, b| b.score.total_cmp(&a.score));
        fitted
    }

    fn fit(&self, quad: &Quad) -> Option<Fitted> {
        let reach = 2.0 + 1.0 / self.photo.factor() as f64;
        let (corners, sides) = with_sides(self.gray(), &quad.corners, self.sought.margin, reach, 5.0)?;
        let ways = corners.iter().zip(&quad.corners).map(|(now, then)| now.distance(*then));
        if ways.fold(0.0, f64::max) > 8.0 + 0.05 * quad.shortest_side() {
            return None;
        }
        let misfit = self.turned(&corners).misfit;
        let mean = sides.iter().map(|side| side.share).sum::<f64>() / 4.0;
        // A card's sides are where their ratio says, within what a corner's place is uncertain by.
        let fit = (-((misfit - self.sought.spread).max(0.0) / 0.04).powi(2)).exp();
        Some(Fitted::new(
            corners,
            &sides,
            misfit,
            quad.support,
            quad.weight * mean.sqrt() * fit,
        ))
    }

    /// The same at full size, the sides in the order that they are known in.
    fn at_full(&self, rough: &Fitted) -> Option<Fitted> {
        let (full, factor) = (self.photo.full(), self.photo.factor() as f64);
        let corners = rough.corners.map(|corner| self.photo.to_full(corner));
        let (corners, sides) = with_sides(full, &corners, self.sought.margin, (1.0 + 0.5 * factor).max(2.0), 7.0)?;
        let centre = Point::new((full.width() as f64 - 1.0) / 2.0, (full.height() as f64 - 1.0) / 2.0);
        let long_side = full.width().max(full.height()) as f64;
        let Turned { corners, misfit, .. } = best_turn(&corners, centre, long_side, self.sought.ratio);
        Some(Fitted::new(corners, &sides, misfit, rough.support, rough.score))
    }

    /// The likeliest of some outlines, each once, by what they are like and where they are.
    fn weighed(&self, rough: Vec<Quad>) -> Vec<Quad> {
        let gray = self.gray();
        let mut rough = quads::distinct(rough);
        // All of the reference is in the picture, as a person is asked to take it.
        rough.retain(|quad| quad.corners.iter().all(|corner| gray.contains(*corner, 1.0)));
        rough.truncate(MOST_LOOKED_AT);
        let dark: Vec<bool> = rough.iter().map(|quad| things::is_dark(gray, &quad.corners)).collect();
        let windows = things::windows(&rough, &dark);
        let frame = (gray.width() * gray.height()) as f64;
        for (index, quad) in rough.iter_mut().enumerate() {
            quad.support *= 0.3 + 0.7 * things::all_stepped(gray, &quad.corners);
            // A core's face is as clear a rectangle as any, but for its windows.
            let whole = if self.sought.bare {
                1.0 - 0.5 * (things::holes(gray, &quad.corners) / 0.15).min(1.0)
            } else {
                1.0
            };
            quad.weight = whole
                * quad.support
                * (quad.area() / frame).powf(0.06)
                * in_the_middle(middle(&quad.corners), self.centre);
            quad.weight *= from_above(self.turned(&quad.corners).facing);
            if self.sought.white && !things::is_brighter(gray, &quad.corners) {
                quad.weight *= DARK_PAPER;
            }
            if dark[index] {
                quad.weight *= if windows[index] { WINDOW } else { DARK };
            }
        }
        rough.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        rough.truncate(MOST_FITTED);
        rough
    }

    /// Whether the best leaves nothing to be asked.
    fn is_clear(&self, fitted: &[Fitted]) -> bool {
        let (support, share, misfit) = CLEAR;
        fitted.first().is_some_and(|best| {
            best.support >= support
                && best.share >= share
                && best.misfit <= misfit + self.sought.spread
                && !best.has_rival(fitted)
        })
    }

    /// Whether a flank of it may have been taken for a part of its face. In the reduced picture, where
    /// it is large enough for that.
    fn has_flank(&self, best: &Fitted) -> bool {
        let reduced = best.corners.map(|corner| self.photo.to_reduced(corner));
        let shortest = quads::sides(&reduced)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min);
        if shortest >= LARGE {
            things::has_flank(self.gray(), &reduced)
        } else {
            things::has_flank(self.photo.full(), &best.corners)
        }
    }

    /// Whether it is where a person hardly lays a reference, or as dark as a core's window.
    fn is_unlikely(&self, best: &Fitted) -> bool {
        let reduced = best.corners.map(|corner| self.photo.to_reduced(corner));
        aside(middle(&reduced), self.centre) > ASIDE || things::is_hole(self.gray(), &reduced)
    }

    /// What speaks against the best.
    fn doubts(&self, best: &Fitted, rival: bool) -> Vec<FindWarning> {
        let (full, factor) = (self.photo.full(), self.photo.factor() as f64);
        let spread = self.sought.spread;
        let doubts = [
            (
                rival || self.sought.thick && self.has_flank(best),
                FindWarning::SecondAsLikely,
            ),
            (self.is_unlikely(best), FindWarning::Unlikely),
            (
                best.longest_side() < SMALL * self.long_side * factor,
                FindWarning::Small,
            ),
            (
                !best.corners.iter().all(|corner| full.contains(*corner, 3.0)),
                FindWarning::AtBorder,
            ),
            (best.support < 0.78 || best.share < 0.6, FindWarning::WeakOutline),
            (best.misfit > MOST_MISFIT + spread, FindWarning::OddShape),
        ];
        doubts
            .into_iter()
            .filter_map(|(is, doubt)| is.then_some(doubt))
            .collect()
    }
}
