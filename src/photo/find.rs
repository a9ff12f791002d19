//! Finds the reference in a photo.

use super::edges::Edges;
use super::find_disc::find_disc;
use super::find_lattice::find_lattice;
use super::found::Found;
use super::hull::four_sided;
use super::perspective::misfit;
use super::picture::Photo;
use super::point::Point;
use super::quads::{self, Quad};
use super::quality::Quality;
use super::reference::{Reference, Shape};
use super::regions;
use super::segments::{joined, meeting, segments};
use super::sides::{Side, fit_side};
use super::things;

pub use super::candidate::{Candidate, FindError, FindWarning, Trust};

/// Smallest reference that is not flagged: its longer side over the picture's long side.
pub(super) const SMALL: f64 = 0.1;
/// A second candidate this near to the first, as a part of its score, is a doubt.
pub(super) const CLOSE: f64 = 0.85;
/// Largest misfit of a shape that is not flagged.
const MOST_MISFIT: f64 = 0.03;

/// Looks for the reference: for a rectangle by its four straight sides, for a disc by its
/// outline, for the printed target by its squares' corners.
///
/// # Errors
/// [`FindError::Nothing`] where nothing fits; [`FindError::ByHand`] for a steel rule.
pub fn find_reference(photo: &Photo, reference: &Reference) -> Result<Candidate, FindError> {
    match reference.shape() {
        Shape::Rectangle {
            width,
            height,
            corner_radius,
        } => {
            let (wide, high) = (width.value.mm(), height.value.mm());
            let margin = 0.06 + corner_radius.mm() / wide.min(high);
            let sought = Sought {
                ratio: wide / high,
                margin,
                spread: width.plus_minus.mm() / wide + height.plus_minus.mm() / high,
                bare: wide.max(high) < UNDER_A_CORE,
                white: matches!(reference, Reference::Paper(_)),
                thick: matches!(reference, Reference::Rectangle { .. }),
            };
            find_rectangle(photo, &sought)
        }
        Shape::Disc { .. } => find_disc(photo, matches!(reference, Reference::Coin(_))),
        Shape::Lattice { .. } => find_lattice(photo),
        Shape::Marks { .. } => Err(FindError::ByHand),
    }
}

/// The rectangle that is looked for.
struct Sought {
    /// Width to height.
    ratio: f64,
    /// What to leave out at the ends of a side, where corners are round, as a part of it.
    margin: f64,
    /// ± of the ratio, as a part of it.
    spread: f64,
    /// Whether no core can lie on it.
    bare: bool,
    /// Whether it is white, as paper is.
    white: bool,
    /// Whether it may be so thick that its flank shows.
    thick: bool,
}

/// A rectangle at full size.
struct Fitted {
    corners: [Point; 4],
    rms: f64,
    share: f64,
    support: f64,
    misfit: f64,
    score: f64,
}

/// A person lays the reference by the part and holds the camera above both: of two finds that are
/// equally good the one nearer to the middle counts, by a third in the picture's corners.
pub(super) fn in_the_middle(place: Point, centre: Point) -> f64 {
    1.0 - 0.35 * place.distance(centre) / centre.length()
}

/// And of two the one that is seen more from straight above, by `facing`, the cosine between the
/// line of sight and its plane's normal.
pub(super) fn from_above(facing: f64) -> f64 {
    facing.clamp(0.1, 1.0).powf(0.35)
}

/// Longer side from which a reference may have the core lying on it, in millimetres.
const UNDER_A_CORE: f64 = 130.0;
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
fn find_rectangle(photo: &Photo, sought: &Sought) -> Result<Candidate, FindError> {
    let &Sought { ratio, spread, .. } = sought;
    let gray = photo.working();
    let edges = Edges::of(gray);
    let quality = Quality::of(gray, &edges, photo.factor());
    let long_side = gray.width().max(gray.height()) as f64;
    let centre = Point::new((gray.width() as f64 - 1.0) / 2.0, (gray.height() as f64 - 1.0) / 2.0);
    let shortest = (0.012 * long_side).max(10.0);
    let mut lines = joined(&segments(&edges, shortest));
    things::things_first(gray, &mut lines);
    let plausible = |corners: &[Point; 4]| {
        let side = quads::sides(corners)
            .map(|(a, b)| a.distance(b))
            .fold(f64::INFINITY, f64::min);
        best_turn(corners, centre, long_side, ratio).misfit < 0.05 + spread + 3.0 / side
    };
    let mut rough = quads::quads(&edges, &lines, plausible);
    let (hulls, out) = regions::hulls(gray);
    let patches = hulls.iter().filter_map(|hull| four_sided(hull, out));
    rough.extend(patches.filter_map(|corners| quads::quad(&edges, corners, PATCH_SUPPORT, plausible)));
    let mut rough = quads::distinct(rough);
    let frame = (gray.width() * gray.height()) as f64;
    // All of the reference is in the picture, as a person is asked to take it.
    rough.retain(|quad| quad.corners.iter().all(|corner| gray.contains(*corner, 1.0)));
    rough.sort_by(|a, b| b.support.total_cmp(&a.support));
    rough.truncate(MOST_LOOKED_AT);
    let dark: Vec<bool> = rough.iter().map(|quad| things::is_dark(gray, &quad.corners)).collect();
    let windows = things::windows(&rough, &dark);
    for (index, quad) in rough.iter_mut().enumerate() {
        let middle = quad.corners.iter().fold(Point::default(), |sum, corner| sum + *corner) * 0.25;
        quad.support *= 0.3 + 0.7 * things::all_stepped(gray, &quad.corners);
        // A core's face is as clear a rectangle as any, but for its windows.
        let whole = if sought.bare {
            1.0 - 0.5 * (things::holes(gray, &quad.corners) / 0.15).min(1.0)
        } else {
            1.0
        };
        quad.weight = whole * quad.support * (quad.area() / frame).powf(0.06) * in_the_middle(middle, centre);
        quad.weight *= from_above(best_turn(&quad.corners, centre, long_side, ratio).facing);
        if sought.white && !things::is_brighter(gray, &quad.corners) {
            quad.weight *= DARK_PAPER;
        }
        if dark[index] {
            quad.weight *= if windows[index] { WINDOW } else { DARK };
        }
    }
    rough.sort_by(|a, b| b.weight.total_cmp(&a.weight));
    rough.truncate(MOST_FITTED);
    let mut fitted: Vec<Fitted> = rough.iter().filter_map(|quad| fitted(photo, quad, sought)).collect();
    fitted.sort_by(|a, b| b.score.total_cmp(&a.score));
    let best = fitted.first().ok_or(FindError::Nothing)?;
    let mut doubts = Vec::new();
    let side = quads::sides(&best.corners)
        .map(|(a, b)| a.distance(b))
        .fold(0.0, f64::max);
    let reach = 0.02 * side;
    let second = fitted[1..]
        .iter()
        .find(|other| !quads::same(&best.corners, &other.corners, reach));
    let second = second.is_some_and(|second| second.score > CLOSE * best.score);
    if second || sought.thick && things::has_flank(photo.full(), &best.corners) {
        doubts.push(FindWarning::SecondAsLikely);
    }
    if side < SMALL * long_side * photo.factor() as f64 {
        doubts.push(FindWarning::Small);
    }
    if !best.corners.iter().all(|corner| photo.full().contains(*corner, 3.0)) {
        doubts.push(FindWarning::AtBorder);
    }
    if best.support < 0.78 || best.share < 0.6 {
        doubts.push(FindWarning::WeakOutline);
    }
    if best.misfit > MOST_MISFIT + spread {
        doubts.push(FindWarning::OddShape);
    }
    Ok(candidate(
        photo,
        Found::Rectangle(best.corners),
        best.rms,
        doubts,
        quality,
    ))
}

/// Which of the two ways round a rectangle lies fits better: the corners so turned that the
/// first side is its width, and how they are seen.
fn best_turn(corners: &[Point; 4], centre: Point, long_side: f64, ratio: f64) -> Turned {
    let [a, b, c, d] = *corners;
    let turned = [*corners, [b, c, d, a]].map(|corners| {
        let (misfit, facing) = misfit(&corners, centre, long_side, ratio);
        Turned {
            corners,
            misfit,
            facing,
        }
    });
    let [one, two] = turned;
    if one.misfit <= two.misfit { one } else { two }
}

/// A rectangle as it may lie.
struct Turned {
    corners: [Point; 4],
    misfit: f64,
    /// Cosine between the line of sight and its plane's normal.
    facing: f64,
}

fn fitted(photo: &Photo, quad: &Quad, sought: &Sought) -> Option<Fitted> {
    let &Sought {
        ratio, margin, spread, ..
    } = sought;
    let full = photo.full();
    let factor = photo.factor() as f64;
    let mut corners = quad.corners.map(|corner| photo.to_full(corner));
    let mut sides: Vec<Side> = Vec::new();
    for reach in [2.0 * factor + 1.0, 2.0] {
        sides = quads::sides(&corners)
            .filter_map(|(from, to)| fit_side(full, from, to, margin, reach))
            .collect();
        if sides.len() < 4 {
            return None;
        }
        for (index, corner) in corners.iter_mut().enumerate() {
            let (before, after) = (sides[(index + 3) % 4], sides[index]);
            *corner = meeting(before.place, before.along, after.place, after.along)?;
        }
    }
    let moved = corners
        .iter()
        .zip(&quad.corners)
        .map(|(now, then)| now.distance(photo.to_full(*then)))
        .fold(0.0, f64::max);
    if moved > 8.0 * factor + 0.05 * quad.shortest_side() * factor {
        return None;
    }
    let centre = Point::new((full.width() as f64 - 1.0) / 2.0, (full.height() as f64 - 1.0) / 2.0);
    let long_side = full.width().max(full.height()) as f64;
    let Turned { corners, misfit, .. } = best_turn(&corners, centre, long_side, ratio);
    let share = sides.iter().map(|side| side.share).fold(1.0, f64::min);
    let mean = sides.iter().map(|side| side.share).sum::<f64>() / 4.0;
    // A card's sides are where their ratio says, within what a corner's place is uncertain by.
    let fit = (-((misfit - spread).max(0.0) / 0.04).powi(2)).exp();
    Some(Fitted {
        corners,
        rms: sides.iter().map(|side| side.rms).fold(0.0, f64::max),
        share,
        support: quad.support,
        misfit,
        score: quad.weight * mean.sqrt() * fit,
    })
}

pub(super) fn candidate(
    photo: &Photo,
    found: Found,
    rms: f64,
    mut warnings: Vec<FindWarning>,
    quality: Quality,
) -> Candidate {
    warnings.extend(quality.flaws(photo.factor()).into_iter().map(FindWarning::Photo));
    let trust = if warnings.iter().any(|warning| warning.is_doubt()) {
        Trust::Doubtful
    } else {
        Trust::Good
    };
    Candidate {
        found,
        trust,
        warnings,
        rms,
        quality,
    }
}
