//! What a reference lies on.

use crate::photo::Point;

/// What a reference lies on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Ground {
    Plain,
    Wood,
    Rust,
}

/// Smooth noise, -1 to 1, one bump per unit.
pub fn noise(place: Point, seed: i64) -> f64 {
    let (x, y) = (place.x.floor(), place.y.floor());
    let (fx, fy) = (place.x - x, place.y - y);
    let (sx, sy) = (fx * fx * (3.0 - 2.0 * fx), fy * fy * (3.0 - 2.0 * fy));
    let hash = |dx: i64, dy: i64| {
        let mut h = ((x as i64 + dx).wrapping_mul(0x27d4_eb2f_1656_67c5)
            ^ (y as i64 + dy).wrapping_mul(0x1656_67b1_9e37_79f9)
            ^ seed) as u64;
        h = (h ^ (h >> 29)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        h ^= h >> 32;
        (h & 0xffff) as f64 / 32768.0 - 1.0
    };
    let above = hash(0, 0) * (1.0 - sx) + hash(1, 0) * sx;
    let below = hash(0, 1) * (1.0 - sx) + hash(1, 1) * sx;
    above * (1.0 - sy) + below * sy
}

/// Brightness of the ground about 1.
pub fn ground(kind: Ground, place: Point) -> f64 {
    match kind {
        Ground::Plain => 1.0 + 0.03 * noise(place * 0.2, 1),
        Ground::Wood => {
            // Boards of 90 mm with dark gaps; grain along x.
            let across = place.y / 90.0;
            if across - across.floor() < 0.012 {
                return 0.25;
            }
            let grain = noise(Point::new(place.x * 0.012, place.y * 0.5), 11)
                + 0.5 * noise(Point::new(place.x * 0.03, place.y * 1.7), 12);
            1.0 + 0.22 * grain
        }
        Ground::Rust => {
            let rough = noise(place * 0.08, 21) + 0.6 * noise(place * 0.3, 22) + 0.4 * noise(place * 1.1, 23);
            1.0 + 0.35 * rough
        }
    }
}
