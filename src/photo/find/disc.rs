//! Finds a disc or a coin in a photo, and reads a coin's rim and relief.

use super::ellipse::{Ellipse, fit_outline};
use super::patches::{self, round};
use super::round_outlines::{self, Disc};
use super::{
    CLOSE, FAR_OFF_CENTRE, FindError, FindWarning, FoundReference, Near, assessed, centre_prior, frontal_prior, go_on,
    off_centre,
};
use crate::photo::Cancelled;
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;
use crate::photo::image::{Gray, Photo, Quality};
use crate::photo::reference::ReferenceOutline;

/// Smallest disc without a flag: its diameter over the picture's long side. A coin beside a core takes
/// 0.04 to 0.1; what a small diameter costs in accuracy is in the ± and in
/// [`SmallReference`](crate::photo::ScaleWarning::SmallReference).
const SMALL_DISC: f64 = 0.035;
/// Relief of a coin's face, at least; an even face has less.
const ROUGH: f64 = 0.06;

/// Searches for a disc by its outline; for a coin, the relief of its face counts too.
pub(super) fn find_disc(photo: &Photo, coin: bool, cancelled: Cancelled<'_>) -> Result<FoundReference, FindError> {
    go_on(cancelled)?;
    let gray = photo.working();
    let edges = Edges::of(gray);
    let quality = Quality::of(gray, &edges, photo.factor());
    go_on(cancelled)?;
    let (hulls, out) = patches::hulls(gray);
    go_on(cancelled)?;
    let patches = hulls.iter().filter_map(|hull| round(hull, out));
    let mut found = round_outlines::discs(&edges, patches);
    go_on(cancelled)?;
    let centre = Point::new((gray.width() as f64 - 1.0) / 2.0, (gray.height() as f64 - 1.0) / 2.0);
    let weight = |disc: &Disc| {
        let size = disc.ellipse.radius() / centre.length();
        let rough = (relief(gray, &disc.ellipse) / ROUGH).min(1.0);
        let like = if coin { 0.75 + 0.25 * rough } else { 1.0 };
        let seen = centre_prior(disc.ellipse.centre, centre) * frontal_prior(disc.ellipse.flatness());
        like * disc.support * size.powf(0.12) * seen
    };
    found.sort_by(|a, b| weight(b).total_cmp(&weight(a)));
    let most = found.first().ok_or(FindError::Nothing)?;
    // A coin has concentric rings, and a washer a hole: the outermost ring is the outline.
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
    go_on(cancelled)?;
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
    // Inner rings are no rivals; outer ones are, as the outer edge of a rim would be.
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
    doubts.extend(own_doubts(photo, &ellipse));
    if best.support < 0.7 || outline.share < 0.6 {
        doubts.push(FindWarning::WeakOutline);
    }
    Ok(assessed(photo, outline_of(&ellipse), outline.rms, doubts, quality))
}

fn outline_of(ellipse: &Ellipse) -> ReferenceOutline {
    ReferenceOutline::Ellipse {
        centre: ellipse.centre,
        half_axes: ellipse.half_axes,
        angle: ellipse.angle,
    }
}

/// Reasons to doubt an outline that the outline itself tells.
fn own_doubts(photo: &Photo, ellipse: &Ellipse) -> Vec<FindWarning> {
    let full = photo.full();
    let centre = Point::new((full.width() as f64 - 1.0) / 2.0, (full.height() as f64 - 1.0) / 2.0);
    let long_side = full.width().max(full.height()) as f64;
    let outside = |parameter| !full.contains(ellipse.place(parameter), 3.0);
    let doubts = [
        (
            off_centre(ellipse.centre, centre) > FAR_OFF_CENTRE,
            FindWarning::Unlikely,
        ),
        (2.0 * ellipse.half_axes.0 < SMALL_DISC * long_side, FindWarning::Small),
        (Ellipse::parameters(32).any(outside), FindWarning::AtBorder),
    ];
    doubts
        .into_iter()
        .filter_map(|(is, doubt)| is.then_some(doubt))
        .collect()
}

/// Largest distance of a followed outline from where it is expected, in pixels.
const NEAR: f64 = 8.0;
/// Least share of positions on the outline of a disc that is followed, and largest change of its radius.
const FOLLOWED: (f64, f64) = (0.7, 0.15);

/// Fits a disc near its expected outline at full size, without a search; `None` where its outline is not clear,
/// or where it may be cut off. The doubts are those that a search is not needed for.
pub(super) fn disc_near(photo: &Photo, expected: Ellipse) -> Option<Near> {
    let outline = fit_outline(photo.full(), expected, NEAR.min(0.3 * expected.radius()))?;
    let ellipse = outline.ellipse;
    let (share, grown) = FOLLOWED;
    let same = (ellipse.radius() / expected.radius() - 1.0).abs() <= grown
        && ellipse.centre.distance(expected.centre) <= 2.0 * NEAR;
    let doubts = own_doubts(photo, &ellipse);
    (same && outline.share >= share && !doubts.contains(&FindWarning::AtBorder)).then(|| Near {
        outline: outline_of(&ellipse),
        rms: outline.rms,
        doubts,
    })
}

/// Number of rays from the centre.
const RAYS: usize = 96;
/// Largest radius of a coin's outline over that of the ring on its face.
const RIM: f64 = 1.3;
/// Minimum share of rays with their clearest edge at the outline.
const MIN_ROUND: f64 = 0.6;

/// The outline around a ring on a coin's face: the common distance at which most rays have their
/// clearest edge outside the ring. `None` where the ring is itself the outline, because its
/// surroundings change at no common distance.
fn outer(gray: &Gray, ring: &Ellipse) -> Option<Ellipse> {
    let short = ring.half_axes.1;
    let steps = ((RIM - 1.0) * short) as usize;
    let mut votes = vec![0_usize; steps + 1];
    for parameter in Ellipse::parameters(RAYS) {
        let (place, centre) = (ring.place(parameter), ring.centre);
        let light = |step: f64| gray.light(centre + (place - centre) * (1.0 + step / short));
        let change = |step: usize| (light(step as f64 + 1.2) - light(step as f64 - 1.2)).abs();
        let first = 3_usize.max((0.04 * short) as usize);
        let clearest = (first..=steps).max_by(|a, b| change(*a).total_cmp(&change(*b)));
        if let Some(step) = clearest.filter(|step| change(*step) > 0.1 * light(*step as f64)) {
            votes[step] += 1;
        }
    }
    let near = |step: usize| -> usize { votes[step.saturating_sub(1)..(step + 2).min(votes.len())].iter().sum() };
    let best = (0..votes.len()).max_by_key(|step| near(*step))?;
    let by = 1.0 + best as f64 / short;
    (near(best) as f64 >= MIN_ROUND * RAYS as f64).then_some(Ellipse {
        half_axes: (ring.half_axes.0 * by, short * by),
        ..*ring
    })
}

/// Relief of a disc's face: the mean relative change of light between neighbouring positions. A
/// coin has some; a cap or a washer is even.
fn relief(gray: &Gray, disc: &Ellipse) -> f64 {
    const COUNT: i32 = 12;
    let inner = |u: f64, v: f64| {
        let (angle, far) = (v.atan2(u), u.hypot(v));
        disc.centre + (disc.place(angle - disc.angle) - disc.centre) * far
    };
    // Averages a few pixels on a disc that is large enough.
    let wide = (0.03 * disc.radius()).clamp(0.0, 1.5);
    let light = |u: f64, v: f64| {
        let place = inner(u, v);
        let near = [(0.0, 0.0), (wide, 0.0), (-wide, 0.0), (0.0, wide), (0.0, -wide)];
        near.iter()
            .map(|(x, y)| gray.light(place + Point::new(*x, *y)))
            .sum::<f64>()
            / 5.0
    };
    let (mut change, mut sum) = (0.0, 0.0);
    for row in -COUNT..COUNT {
        for column in -COUNT..COUNT {
            let (u, v) = (f64::from(column) / f64::from(COUNT), f64::from(row) / f64::from(COUNT));
            if u.hypot(v) < 0.65 {
                let here = light(u, v);
                change += (light(u + 0.1, v) - here).abs() + (light(u, v + 0.1) - here).abs();
                sum += 2.0 * here;
            }
        }
    }
    if sum > 0.0 { change / sum } else { 0.0 }
}
