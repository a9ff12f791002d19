//! Finds a rectangle in a photo: a card, a sheet of paper, or one of the person's own size.
//!
//! Outlines from lines and patches are ranked by support, priors and cues; the best are fitted at
//! the reduced size and the winner at full size. [`RectangleSearch::doubts`] lists what flags it.

use super::patches::{self, four_sided};
use super::perspective::misfit;
use super::quads::{self, Quad, middle};
use super::segments::{joined, meeting, segments};
use super::{
    CLOSE, FAR_OFF_CENTRE, FindError, FindWarning, FoundReference, Near, SMALL, assessed, centre_prior, frontal_prior,
    go_on, object_cues, off_centre,
};
use crate::photo::Cancelled;
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;
use crate::photo::image::profile::{FittedSide, fit_side};
use crate::photo::image::{Gray, Photo, Quality};
use crate::photo::reference::{Reference, ReferenceOutline, ReferenceShape};

/// Largest misfit without a flag.
const MAX_MISFIT: f64 = 0.03;

/// The properties of the rectangle to find.
pub(super) struct SoughtRectangle {
    /// Width over height.
    pub ratio: f64,
    /// Length left out at each end of a side, where corners are round, as a fraction of the side.
    pub margin: f64,
    /// Radius of its corners as a fraction of the width and of the height; 0 for square corners.
    pub corner: (f64, f64),
    /// Relative ± of the ratio.
    pub spread: f64,
    /// Whether it is too small for a core to lie on it.
    pub bare: bool,
    /// Whether it is white, as paper is.
    pub white: bool,
    /// Whether it may be thick enough for its flank to show.
    pub thick: bool,
}

impl SoughtRectangle {
    /// The properties of a reference that is a rectangle.
    pub fn of(reference: &Reference) -> Option<Self> {
        let ReferenceShape::Rectangle {
            width,
            height,
            corner_radius,
        } = reference.shape()
        else {
            return None;
        };
        let (wide, high) = (width.value.mm(), height.value.mm());
        Some(Self {
            ratio: wide / high,
            margin: 0.06 + corner_radius.mm() / wide.min(high),
            corner: (corner_radius.mm() / wide, corner_radius.mm() / high),
            spread: width.plus_minus.mm() / wide + height.plus_minus.mm() / high,
            bare: wide.max(high) < UNDER_A_CORE,
            white: matches!(reference, Reference::Paper(_)),
            thick: matches!(reference, Reference::Rectangle { .. }),
        })
    }
}

/// Longer side from which a core may lie on the reference, in millimetres.
const UNDER_A_CORE: f64 = 130.0;
/// Largest number of outlines that are ranked by cues.
const MAX_RANKED: usize = 400;
/// Minimum support of a patch's outline, lower than for lines because evenness is evidence too.
const PATCH_SUPPORT: f64 = 0.3;
/// Largest number of outlines whose sides are fitted.
const MAX_FITTED: usize = 16;

/// Factor on the weight of a sheet of paper that is darker than its ground.
const DARK_PAPER: f64 = 0.8;
/// Factor on the weight of a dark outline, which may be a core's window.
/// [`WINDOW`] applies where a second one of the same shape lies beside it.
const DARK: f64 = 0.9;
const WINDOW: f64 = 0.7;
/// Minimum support and share, and maximum misfit beyond the spread, of an outline from lines that
/// makes the search for patches unnecessary.
const CLEAR: (f64, f64, f64) = (0.85, 0.8, 0.02);

/// Searches for a rectangle by its four sides, and where they are not clear by its patch too.
pub(super) fn find_rectangle(
    photo: &Photo,
    sought: &SoughtRectangle,
    cancelled: Cancelled<'_>,
) -> Result<FoundReference, FindError> {
    go_on(cancelled)?;
    let gray = photo.working();
    let edges = Edges::of(gray);
    go_on(cancelled)?;
    let search = RectangleSearch::of(photo, sought);
    let mut lines = joined(&segments(&edges, (0.012 * search.long_side).max(10.0)));
    object_cues::rank_segments(gray, &mut lines);
    go_on(cancelled)?;
    let plausible = |corners: &[Point; 4]| search.is_plausible(corners);
    let of_lines = quads::quads(&edges, &lines, plausible);
    go_on(cancelled)?;
    let mut fitted = search.fitted(of_lines.clone(), cancelled)?;
    if !search.is_clear(&fitted) {
        go_on(cancelled)?;
        let (hulls, out) = patches::hulls(gray);
        let patches = hulls.iter().filter_map(|hull| four_sided(hull, out));
        let patches = patches.filter_map(|corners| quads::quad(&edges, corners, PATCH_SUPPORT, plausible));
        let rough = of_lines.into_iter().chain(patches).collect();
        fitted = search.fitted(rough, cancelled)?;
    }
    go_on(cancelled)?;
    let at_full = |rough: &FittedRectangle| Some((search.at_full(rough)?, rough.has_rival(&fitted)));
    let (best, rival) = fitted.iter().find_map(at_full).ok_or(FindError::Nothing)?;
    Ok(assessed(
        photo,
        ReferenceOutline::Rectangle(best.corners),
        best.rms,
        search.doubts(&best, rival),
        Quality::of(gray, &edges, photo.factor()),
    ))
}

/// Largest distance of a followed side from where it is expected, in pixels.
const NEAR: f64 = 8.0;
/// Least share of each side's positions that lie on its line, and largest misfit beyond the spread, of a
/// rectangle that is followed.
const FOLLOWED: (f64, f64) = (0.7, 0.05);

/// Fits a rectangle near its expected corners at full size, without a search; `None` where its sides are not
/// clear, or where it may be cut off. The doubts are those that a search is not needed for.
pub(super) fn rectangle_near(photo: &Photo, sought: &SoughtRectangle, expected: &[Point; 4]) -> Option<Near> {
    let search = RectangleSearch::of(photo, sought);
    let (corners, sides) = with_sides(photo.full(), expected, sought.margin, NEAR, 5.0)?;
    let rough = corners.map(|corner| photo.to_reduced(corner));
    let best = search.at_full(&FittedRectangle::new(rough, &sides, 0.0, 1.0, 1.0))?;
    // Its first side may have become the other one.
    let moved = quads::same(&best.corners, expected, 2.0 * NEAR);
    let (share, misfit) = FOLLOWED;
    let doubts = search.own_doubts(&best);
    let clear = moved && best.share >= share && best.misfit <= misfit + sought.spread;
    let whole = !doubts.contains(&FindWarning::AtBorder);
    (clear && whole).then_some(Near {
        outline: ReferenceOutline::Rectangle(best.corners),
        rms: best.rms,
        doubts,
    })
}

/// Shortest side from which the reduced picture suffices to detect a flank, in its pixels.
const LARGE: f64 = 250.0;

/// A photo and the rectangle sought in it.
struct RectangleSearch<'a> {
    photo: &'a Photo,
    sought: &'a SoughtRectangle,
    /// Centre of the reduced picture.
    centre: Point,
    /// Longer side of the reduced picture.
    long_side: f64,
}

impl<'a> RectangleSearch<'a> {
    fn of(photo: &'a Photo, sought: &'a SoughtRectangle) -> Self {
        let gray = photo.working();
        Self {
            photo,
            sought,
            centre: Point::new((gray.width() as f64 - 1.0) / 2.0, (gray.height() as f64 - 1.0) / 2.0),
            long_side: gray.width().max(gray.height()) as f64,
        }
    }

    fn gray(&self) -> &Gray {
        self.photo.working()
    }

    fn is_plausible(&self, corners: &[Point; 4]) -> bool {
        let side = quads::sides(corners)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min);
        self.turned(corners).misfit < 0.05 + self.sought.spread + 3.0 / side
    }

    /// The better of the two orientations of an outline in the reduced picture.
    fn turned(&self, corners: &[Point; 4]) -> OrientedRectangle {
        best_turn(corners, self.centre, self.long_side, self.sought.ratio)
    }

    /// The likeliest outlines with their sides fitted in the reduced picture, best first.
    fn fitted(&self, rough: Vec<Quad>, cancelled: Cancelled<'_>) -> Result<Vec<FittedRectangle>, FindError> {
        let mut fitted: Vec<FittedRectangle> = Vec::new();
        let mut most = 0.0_f64;
        for quad in self.weighed(rough) {
            go_on(cancelled)?;
            // A score is at most the weight: the rest can be neither best nor a rival.
            if quad.weight < CLOSE * most {
                break;
            }
            if let Some(one) = self.fit(&quad) {
                most = most.max(one.score);
                fitted.push(one);
            }
        }
        fitted.sort_by(|a, b| b.score.total_cmp(&a.score));
        Ok(fitted)
    }

    fn fit(&self, quad: &Quad) -> Option<FittedRectangle> {
        let reach = 2.0 + 1.0 / self.photo.factor() as f64;
        let (corners, sides) = with_sides(self.gray(), &quad.corners, self.sought.margin, reach, 5.0)?;
        let ways = corners.iter().zip(&quad.corners).map(|(now, then)| now.distance(*then));
        if ways.fold(0.0, f64::max) > 8.0 + 0.05 * quad.shortest_side() {
            return None;
        }
        let misfit = self.turned(&corners).misfit;
        let mean = sides.iter().map(|side| side.share).sum::<f64>() / 4.0;
        // The ratio is known within its spread and the uncertainty of the corners.
        let fit = (-((misfit - self.sought.spread).max(0.0) / 0.04).powi(2)).exp();
        Some(FittedRectangle::new(
            corners,
            &sides,
            misfit,
            quad.support,
            quad.weight * mean.sqrt() * fit,
        ))
    }

    /// The outline fitted at full size, its first side the reference's width.
    fn at_full(&self, rough: &FittedRectangle) -> Option<FittedRectangle> {
        let (full, factor) = (self.photo.full(), self.photo.factor() as f64);
        let corners = rough.corners.map(|corner| self.photo.to_full(corner));
        let (corners, sides) = with_sides(full, &corners, self.sought.margin, (1.0 + 0.5 * factor).max(2.0), 7.0)?;
        let centre = Point::new((full.width() as f64 - 1.0) / 2.0, (full.height() as f64 - 1.0) / 2.0);
        let long_side = full.width().max(full.height()) as f64;
        let OrientedRectangle { corners, misfit, .. } = best_turn(&corners, centre, long_side, self.sought.ratio);
        Some(FittedRectangle::new(
            corners,
            &sides,
            misfit,
            rough.support,
            rough.score,
        ))
    }

    /// The likeliest distinct outlines, weighted by support, cues and priors.
    fn weighed(&self, rough: Vec<Quad>) -> Vec<Quad> {
        let gray = self.gray();
        let mut rough = quads::distinct(rough);
        // The instructions ask for the whole reference in the picture.
        rough.retain(|quad| quad.corners.iter().all(|corner| gray.contains(*corner, 1.0)));
        rough.truncate(MAX_RANKED);
        let dark: Vec<bool> = rough
            .iter()
            .map(|quad| object_cues::is_dark(gray, &quad.corners))
            .collect();
        let windows = object_cues::windows(&rough, &dark);
        let frame = (gray.width() * gray.height()) as f64;
        for (index, quad) in rough.iter_mut().enumerate() {
            quad.support *= 0.3 + 0.7 * object_cues::outline_step_share(gray, &quad.corners);
            // A core's face is a clear rectangle too, but has dark windows.
            let whole = if self.sought.bare {
                1.0 - 0.5 * (object_cues::dark_share(gray, &quad.corners) / 0.15).min(1.0)
            } else {
                1.0
            };
            quad.weight = whole
                * quad.support
                * (quad.area() / frame).powf(0.06)
                * centre_prior(middle(&quad.corners), self.centre);
            quad.weight *= frontal_prior(self.turned(&quad.corners).facing);
            if self.sought.white && !object_cues::is_brighter(gray, &quad.corners) {
                quad.weight *= DARK_PAPER;
            }
            if dark[index] {
                quad.weight *= if windows[index] { WINDOW } else { DARK };
            }
        }
        rough.sort_by(|a, b| b.weight.total_cmp(&a.weight));
        rough.truncate(MAX_FITTED);
        rough
    }

    /// Whether the best outline is clear enough to skip the search for patches.
    fn is_clear(&self, fitted: &[FittedRectangle]) -> bool {
        let (support, share, misfit) = CLEAR;
        fitted.first().is_some_and(|best| {
            best.support >= support
                && best.share >= share
                && best.misfit <= misfit + self.sought.spread
                && !best.has_rival(fitted)
        })
    }

    /// Whether the outline may include a flank of the object; judged in the reduced picture where
    /// the object is large enough.
    fn has_flank(&self, best: &FittedRectangle) -> bool {
        let reduced = best.corners.map(|corner| self.photo.to_reduced(corner));
        let shortest = quads::sides(&reduced)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min);
        if shortest >= LARGE {
            object_cues::has_flank(self.gray(), &reduced)
        } else {
            object_cues::has_flank(self.photo.full(), &best.corners)
        }
    }

    /// Whether it lies far off-centre or is as dark as a core's window.
    fn is_unlikely(&self, best: &FittedRectangle) -> bool {
        let reduced = best.corners.map(|corner| self.photo.to_reduced(corner));
        off_centre(middle(&reduced), self.centre) > FAR_OFF_CENTRE || object_cues::is_hole(self.gray(), &reduced)
    }

    /// Reasons to doubt the best outline.
    fn doubts(&self, best: &FittedRectangle, rival: bool) -> Vec<FindWarning> {
        let doubts = [
            (
                rival || self.sought.thick && self.has_flank(best),
                FindWarning::SecondAsLikely,
            ),
            (best.support < 0.78 || best.share < 0.6, FindWarning::WeakOutline),
        ];
        doubts
            .into_iter()
            .filter_map(|(is, doubt)| is.then_some(doubt))
            .chain(self.own_doubts(best))
            .collect()
    }

    /// Reasons to doubt an outline that the outline itself tells.
    fn own_doubts(&self, best: &FittedRectangle) -> Vec<FindWarning> {
        let (full, factor) = (self.photo.full(), self.photo.factor() as f64);
        let doubts = [
            (self.is_unlikely(best), FindWarning::Unlikely),
            (
                best.longest_side() < SMALL * self.long_side * factor,
                FindWarning::Small,
            ),
            (
                !best.corners.iter().all(|corner| full.contains(*corner, 3.0)),
                FindWarning::AtBorder,
            ),
            (best.misfit > MAX_MISFIT + self.sought.spread, FindWarning::OddShape),
            (
                object_cues::has_square_corners(full, &best.corners, self.sought.corner),
                FindWarning::SquareCorners,
            ),
        ];
        doubts
            .into_iter()
            .filter_map(|(is, doubt)| is.then_some(doubt))
            .collect()
    }
}

/// A rectangle with its sides fitted.
struct FittedRectangle {
    corners: [Point; 4],
    /// Largest root mean square residual of a side, in pixels.
    rms: f64,
    /// Smallest share of inliers of a side.
    share: f64,
    support: f64,
    misfit: f64,
    score: f64,
}

impl FittedRectangle {
    fn new(corners: [Point; 4], sides: &[FittedSide], misfit: f64, support: f64, score: f64) -> Self {
        Self {
            corners,
            rms: sides.iter().map(|side| side.rms).fold(0.0, f64::max),
            share: sides.iter().map(|side| side.share).fold(1.0, f64::min),
            support,
            misfit,
            score,
        }
    }

    fn longest_side(&self) -> f64 {
        quads::sides(&self.corners)
            .map(|(a, b)| a.distance(b))
            .fold(0.0, f64::max)
    }

    /// Whether a different outline scores nearly as high or higher.
    fn has_rival(&self, all: &[FittedRectangle]) -> bool {
        let reach = 0.02 * self.longest_side();
        let mut others = all
            .iter()
            .filter(|other| !quads::same(&self.corners, &other.corners, reach));
        others.any(|other| other.score > CLOSE * self.score)
    }
}

/// The better of the two orientations of an outline: corners rotated so that the first side is
/// the width.
fn best_turn(corners: &[Point; 4], centre: Point, long_side: f64, ratio: f64) -> OrientedRectangle {
    let [a, b, c, d] = *corners;
    let turned = [*corners, [b, c, d, a]].map(|corners| {
        let (misfit, facing) = misfit(&corners, centre, long_side, ratio);
        OrientedRectangle {
            corners,
            misfit,
            facing,
        }
    });
    let [one, two] = turned;
    if one.misfit <= two.misfit { one } else { two }
}

/// One orientation of an outline.
struct OrientedRectangle {
    corners: [Point; 4],
    misfit: f64,
    /// Cosine between the line of sight and the plane's normal.
    facing: f64,
}

/// Fits straight sides to the edges within `reach` of an outline, leaving out `margin` (a fraction)
/// at the ends of each side; returns the new corners and the sides. Each position averages up to
/// `max_thickness` parallel lines.
fn with_sides(
    gray: &Gray,
    corners: &[Point; 4],
    margin: f64,
    reach: f64,
    max_thickness: f64,
) -> Option<([Point; 4], Vec<FittedSide>)> {
    let sides: Option<Vec<FittedSide>> = quads::sides(corners)
        .map(|(from, to)| fit_side(gray, from, to, margin, reach, max_thickness))
        .collect();
    let sides = sides?;
    let mut fitted = *corners;
    for (index, corner) in fitted.iter_mut().enumerate() {
        let (before, after) = (sides[(index + 3) % 4], sides[index]);
        *corner = meeting(before.place, before.along, after.place, after.along)?;
    }
    Some((fitted, sides))
}
