//! What a coin's face shows: a rim with a ring inside it, and a relief.

use super::ellipse::Ellipse;
use super::gray::Gray;
use super::point::Point;

/// Directions looked along from the middle.
const RAYS: usize = 96;
/// Furthest that a coin's outline lies from the ring on its face, as a part of the ring's radius.
const RIM: f64 = 1.3;
/// The share of directions in which the picture must change at the outline round a ring.
const LEAST_ROUND: f64 = 0.6;

/// The outline round a ring on a coin's face, where most directions have their clearest edge
/// outside the ring equally far out. Nothing where the ring is the outline: what lies around it
/// changes at no common distance.
pub(super) fn outer(gray: &Gray, ring: &Ellipse) -> Option<Ellipse> {
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
    (near(best) as f64 >= LEAST_ROUND * RAYS as f64).then_some(Ellipse {
        half_axes: (ring.half_axes.0 * by, short * by),
        ..*ring
    })
}

/// How rough a disc's face is: the mean change of its light from place to place, as a part of it.
/// A coin has its relief; a cap or a washer is even.
pub(super) fn relief(gray: &Gray, disc: &Ellipse) -> f64 {
    const COUNT: i32 = 12;
    let inner = |u: f64, v: f64| {
        let (angle, far) = (v.atan2(u), u.hypot(v));
        disc.centre + (disc.place(angle - disc.angle) - disc.centre) * far
    };
    // The mean of a few pixels, where the disc has them.
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
