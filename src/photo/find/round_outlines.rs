//! Round outlines: centres by voting along gradients, then ellipses through the edges around them.

use super::ellipse::Ellipse;
use crate::photo::geometry::Point;
use crate::photo::image::edges::Edges;

/// A round outline and its support by the picture's edges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Disc {
    pub ellipse: Ellipse,
    /// Share of the outline on edges, 0 to 1.
    pub support: f64,
}

/// Smallest radius, in pixels of the reduced picture and as a fraction of its long side.
const MIN_RADIUS: (f64, f64) = (9.0, 0.012);
/// Ratio of the radii of consecutive bands.
const BAND: f64 = 1.3;
/// Largest number of centres examined.
const MAX_CENTRES: usize = 14;
/// Number of rays from a centre.
const RAYS: usize = 96;
/// Number of ellipses sampled around a centre.
const TRIES: usize = 120;
/// Ray stride for pre-screening an ellipse.
const PRE_SCREEN: usize = 4;
/// Minimum support of an outline.
const MIN_SUPPORT: f64 = 0.45;
/// Smallest ratio of the axes: a disc seen 53° off its axis.
const FLATTEST: f64 = 0.6;

/// Distinct discs by support, best first: from edges, and those of `patches` that edges support.
pub(crate) fn discs(edges: &Edges, patches: impl Iterator<Item = Ellipse>) -> Vec<Disc> {
    let mut found: Vec<Disc> = centres(edges)
        .into_iter()
        .flat_map(|(centre, radius)| [1.0, -1.0].map(|sign| around(edges, centre, radius, sign)))
        .flatten()
        .collect();
    let seen = |ellipse: Ellipse| Disc {
        ellipse,
        support: support(edges, &ellipse),
    };
    let plain = |disc: &Disc| disc.support >= MIN_SUPPORT && disc.ellipse.flatness() >= FLATTEST;
    found.extend(patches.map(seen).filter(plain));
    found.sort_by(|a, b| b.support.total_cmp(&a.support));
    let mut distinct: Vec<Disc> = Vec::new();
    for disc in found {
        let same = |other: &Disc| {
            let reach = 3.0 + 0.03 * disc.ellipse.radius();
            other.ellipse.centre.distance(disc.ellipse.centre) < reach
                && (other.ellipse.half_axes.0 - disc.ellipse.half_axes.0).abs() < reach
        };
        if !distinct.iter().any(same) {
            distinct.push(disc);
        }
    }
    distinct
}

/// Centres with their radii: every ridge pixel votes along its gradient, in one coarse map for each
/// band of radii.
fn centres(edges: &Edges) -> Vec<(Point, f64)> {
    let places: Vec<(Point, Point)> = edges
        .places()
        .map(|(x, y)| {
            let gradient = edges.gradient(x as isize, y as isize);
            (Point::new(x as f64, y as f64), gradient * (1.0 / gradient.length()))
        })
        .collect();
    let mut peaks = Vec::new();
    let long_side = edges.width().max(edges.height()) as f64;
    let mut radius = MIN_RADIUS.0.max(MIN_RADIUS.1 * long_side) * BAND.sqrt();
    while radius < 0.55 * edges.width().min(edges.height()) as f64 {
        peaks.extend(band_peaks(edges, &places, radius));
        radius *= BAND;
    }
    peaks.sort_by(|a: &(f64, Point, f64), b| b.0.total_cmp(&a.0));
    let mut best: Vec<(Point, f64)> = Vec::new();
    for (_, centre, radius) in peaks {
        let close =
            |(other, size): &(Point, f64)| other.distance(centre) < 0.25 * radius && (size / radius).ln().abs() < 0.3;
        if best.len() < MAX_CENTRES && !best.iter().any(close) {
            best.push((centre, radius));
        }
    }
    best
}

/// The best centres of one band: votes above the mean, over the outline's length.
fn band_peaks(edges: &Edges, places: &[(Point, Point)], radius: f64) -> Vec<(f64, Point, f64)> {
    let cell = (0.08 * radius).max(2.0);
    let (columns, rows) = (
        (edges.width() as f64 / cell) as usize + 1,
        (edges.height() as f64 / cell) as usize + 1,
    );
    let mut votes = vec![0_u16; columns * rows];
    let (least, most) = (radius / BAND.sqrt(), radius * BAND.sqrt());
    let steps = ((most - least) / cell).ceil().max(1.0) as usize;
    // A large circle needs no more than every eighth pixel.
    let stride = (radius / 16.0).clamp(1.0, 8.0) as usize;
    // In cells, shifted by one cell so that truncation rounds down at the border too.
    let reaches: Vec<f32> = (0..steps)
        .map(|step| least + (most - least) * (step as f64 + 0.5) / steps as f64)
        .flat_map(|reach| [reach, -reach])
        .map(|reach| (reach / cell) as f32)
        .collect();
    for &(place, gradient) in places.iter().step_by(stride) {
        let (x, y) = ((place.x / cell + 1.0) as f32, (place.y / cell + 1.0) as f32);
        let (across, down) = (gradient.x as f32, gradient.y as f32);
        for reach in &reaches {
            let (column, row) = ((x + across * reach) as i32 - 1, (y + down * reach) as i32 - 1);
            if (0..columns as i32).contains(&column) && (0..rows as i32).contains(&row) {
                let vote = &mut votes[row as usize * columns + column as usize];
                *vote = vote.saturating_add(1);
            }
        }
    }
    let block = |x: usize, y: usize| -> u32 {
        let rows = [y - 1, y, y + 1];
        rows.iter()
            .map(|y| {
                votes[y * columns + x - 1..=y * columns + x + 1]
                    .iter()
                    .map(|&v| u32::from(v))
                    .sum::<u32>()
            })
            .sum()
    };
    let chance = 9.0 * votes.iter().map(|&vote| f64::from(vote)).sum::<f64>() / votes.len() as f64;
    let mut peaks: Vec<(f64, Point, f64)> = Vec::new();
    for y in 1..rows.saturating_sub(1) {
        for x in 1..columns.saturating_sub(1) {
            let score = (f64::from(block(x, y)) - chance) * stride as f64 / (std::f64::consts::TAU * radius);
            if score > 0.25 {
                peaks.push((
                    score,
                    Point::new((x as f64 + 0.5) * cell, (y as f64 + 0.5) * cell),
                    radius,
                ));
            }
        }
    }
    peaks.sort_by(|a, b| b.0.total_cmp(&a.0));
    peaks.truncate(40);
    peaks
}

/// Up to three ellipses around a centre on edges of one sign (`sign` 1: brighter outside): a coin
/// has concentric rings.
fn around(edges: &Edges, centre: Point, radius: f64, sign: f64) -> Vec<Disc> {
    let mut rays: Vec<Vec<Point>> = Ellipse::parameters(RAYS)
        .map(|angle| crossings(edges, centre, radius, angle, sign))
        .collect();
    let mut found = Vec::new();
    while found.len() < 3
        && let Some(ellipse) = agreed(&rays, centre, radius)
    {
        let gauge = ellipse.gauge();
        for ray in &mut rays {
            ray.retain(|place| gauge(*place).abs() > 3.0);
        }
        let support = support(edges, &ellipse);
        if support < MIN_SUPPORT {
            break;
        }
        found.push(Disc { ellipse, support });
    }
    found
}

/// The ellipse with an edge on most rays: the best of many samples of five edges, then least
/// squares.
fn agreed(rays: &[Vec<Point>], centre: Point, radius: f64) -> Option<Ellipse> {
    let filled: Vec<&Vec<Point>> = rays.iter().filter(|ray| !ray.is_empty()).collect();
    if filled.len() < RAYS / 3 {
        return None;
    }
    // The edge of each ray nearest to an ellipse, if within reach.
    let near = |ellipse: &Ellipse, reach: f64| -> Vec<Point> {
        let gauge = ellipse.gauge();
        let closest = |ray: &&Vec<Point>| {
            let off = ray.iter().map(|place| (gauge(*place).abs(), *place));
            off.min_by(|a, b| a.0.total_cmp(&b.0)).filter(|(off, _)| *off <= reach)
        };
        filled.iter().filter_map(closest).map(|(_, place)| place).collect()
    };
    let mut random = Random(0x5eed_0001);
    let mut best: (usize, Option<Ellipse>) = (0, None);
    for _ in 0..TRIES {
        if best.0 * 20 > filled.len() * 19 {
            break;
        }
        // Five rays about a fifth of a turn apart, each with the edge about as far out as on the first.
        let start = random.below(filled.len());
        let first = filled[start][random.below(filled[start].len())];
        let far = first.distance(centre);
        let five: Vec<Point> = (0..5)
            .filter_map(|index| {
                let turn = index * filled.len() / 5 + random.below(filled.len() / 10 + 1);
                let about = far * (0.9 + 0.02 * random.below(11) as f64);
                let off = |place: &&Point| (place.distance(centre) - about).abs();
                let ray = filled[(start + turn) % filled.len()];
                if index == 0 {
                    Some(first)
                } else {
                    ray.iter().min_by(|a, b| off(a).total_cmp(&off(b))).copied()
                }
            })
            .collect();
        if let Some(ellipse) = Ellipse::fit(&five, centre, |_| 1.0).filter(|ellipse| is_seen_disc(ellipse, radius)) {
            // A subset of the rays rejects most bad ellipses.
            let gauge = ellipse.gauge();
            let on = |ray: &&&Vec<Point>| ray.iter().any(|place| gauge(*place).abs() <= 1.5);
            let some = filled.iter().step_by(PRE_SCREEN).filter(on).count();
            if some * PRE_SCREEN * 4 < best.0 * 3 {
                continue;
            }
            let count = filled.iter().filter(on).count();
            if count > best.0 {
                best = (count, Some(ellipse));
            }
        }
    }
    let mut ellipse = best.1?;
    for _ in 0..2 {
        let places = near(&ellipse, 2.0);
        ellipse = Ellipse::fit(&places, ellipse.centre, |_| 1.0).filter(|ellipse| is_seen_disc(ellipse, radius))?;
    }
    Some(ellipse)
}

fn is_seen_disc(ellipse: &Ellipse, radius: f64) -> bool {
    let (long, short) = ellipse.half_axes;
    short >= FLATTEST * long && (0.6..1.6).contains(&(ellipse.radius() / radius))
}

/// Ridge pixels along a ray whose gradient is parallel to it.
fn crossings(edges: &Edges, centre: Point, radius: f64, angle: f64, sign: f64) -> Vec<Point> {
    let ray = Point::new(angle.cos(), angle.sin());
    let mut found: Vec<Point> = Vec::new();
    for step in (0.65 * radius) as i32..=(1.45 * radius) as i32 {
        let place = centre + ray * f64::from(step);
        let (x, y) = place.pixel();
        let Some(gradient) = edges.on_edge(x, y) else {
            continue;
        };
        if gradient.dot(ray) * sign > 0.8 * gradient.length() {
            found.push(Point::new(x as f64, y as f64));
        }
    }
    found
}

/// Share of an ellipse's outline on edges across it; edges of the rarer sign count half.
pub(crate) fn support(edges: &Edges, ellipse: &Ellipse) -> f64 {
    let (mut up, mut down) = (0.0_f64, 0.0_f64);
    for parameter in Ellipse::parameters(RAYS) {
        match edges.near(ellipse.place(parameter), ellipse.normal(parameter), 2) {
            Some((_, along)) if along > 0.0 => up += 1.0,
            Some(_) => down += 1.0,
            None => {}
        }
    }
    (up.max(down) + 0.5 * up.min(down)) / RAYS as f64
}

/// A linear congruential generator (Knuth's MMIX constants) with a fixed seed, for repeatable
/// sampling.
struct Random(u64);

impl Random {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % limit.max(1)
    }
}
