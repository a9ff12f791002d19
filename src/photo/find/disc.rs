//! Finds a disc or a coin in a photo.

use super::candidate::{Candidate, FindError, FindWarning};
use super::coin_face::{outer, relief};
use super::discs::{self, Disc};
use super::edges::Edges;
use super::ellipse::Ellipse;
use super::find::{ASIDE, CLOSE, SMALL, aside, candidate, from_above, in_the_middle};
use super::found::Found;
use super::hull::round;
use super::outline::fit_outline;
use super::picture::Photo;
use super::point::Point;
use super::quality::Quality;
use super::regions;

/// Roughness of a coin's face, less than which it is even.
const ROUGH: f64 = 0.06;

/// Looks for a disc by its outline; a coin by what its face shows too.
pub(super) fn find_disc(photo: &Photo, coin: bool) -> Result<Candidate, FindError> {
    let gray = photo.working();
    let edges = Edges::of(gray);
    let quality = Quality::of(gray, &edges, photo.factor());
    let (hulls, out) = regions::hulls(gray);
    let patches = hulls.iter().filter_map(|hull| round(hull, out));
    let mut found = discs::discs(&edges, patches);
    let centre = Point::new((gray.width() as f64 - 1.0) / 2.0, (gray.height() as f64 - 1.0) / 2.0);
    let weight = |disc: &Disc| {
        let size = disc.ellipse.radius() / centre.length();
        let rough = (relief(gray, &disc.ellipse) / ROUGH).min(1.0);
        let like = if coin { 0.75 + 0.25 * rough } else { 1.0 };
        let seen = in_the_middle(disc.ellipse.centre, centre) * from_above(disc.ellipse.flatness());
        like * disc.support * size.powf(0.12) * seen
    };
    found.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let most = found.first().ok_or(FindError::Nothing)?;
    // A coin has rings on it, and a washer a hole: the outermost ring counts.
    let around = |disc: &&Disc| {
        let near = disc.ellipse.centre.distance(most.ellipse.centre) < 1.5 + 0.05 * disc.ellipse.radius();
        let alike = (disc.ellipse.flatness() - most.ellipse.flatness()).abs() < 0.06;
        near && alike && disc.support > 0.8 * most.support && disc.ellipse.radius() >= most.ellipse.radius()
    };
    let best = found
        .iter()
        .filter(around)
        .max_by(|a, b| a.ellipse.radius().total_cmp(&b.ellipse.radius()))
        .unwrap_or(most);
    let factor = photo.factor() as f64;
    let at_full = |start: Ellipse| {
        let start = Ellipse {
            centre: photo.to_full(start.centre),
            half_axes: (start.half_axes.0 * factor, start.half_axes.1 * factor),
            ..start
        };
        fit_outline(photo.full(), start, 2.0 * factor + 1.0)
    };
    let rim = if coin { outer(gray, &best.ellipse) } else { None };
    let outline = rim
        .and_then(at_full)
        .or_else(|| at_full(best.ellipse))
        .ok_or(FindError::Nothing)?;
    let ellipse = outline.ellipse;
    let mut doubts = Vec::new();
    // Rings within it do not compete; those around it do, as a rim's outer edge would.
    let competes = |disc: &Disc| {
        let concentric = disc.ellipse.centre.distance(best.ellipse.centre) < 0.12 * best.ellipse.radius();
        match disc.ellipse.radius() / best.ellipse.radius() {
            larger if concentric && larger > 1.03 => disc.support > 0.65 * best.support,
            _ if concentric => false,
            _ => weight(disc) > CLOSE * weight(best),
        }
    };
    if found.iter().any(competes) {
        doubts.push(FindWarning::SecondAsLikely);
    }
    if aside(best.ellipse.centre, centre) > ASIDE {
        doubts.push(FindWarning::Unlikely);
    }
    let long_side = photo.full().width().max(photo.full().height()) as f64;
    if 2.0 * ellipse.half_axes.0 < 0.7 * SMALL * long_side {
        doubts.push(FindWarning::Small);
    }
    let outside = |parameter| !photo.full().contains(ellipse.place(parameter), 3.0);
    if Ellipse::parameters(32).any(outside) {
        doubts.push(FindWarning::AtBorder);
    }
    if best.support < 0.7 || outline.share < 0.6 {
        doubts.push(FindWarning::WeakOutline);
    }
    let found = Found::Ellipse {
        centre: ellipse.centre,
        half_axes: ellipse.half_axes,
        angle: ellipse.angle,
    };
    Ok(candidate(photo, found, outline.rms, doubts, quality))
}
