//! Reflectance of surfaces, 0 to 1: prints, coins, iron, and benches.

use curbcore::photo::Point;

use super::random::noise;

#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Paint {
    Plain(f64),
    /// A bank card's print; its half sides.
    Card(f64, Point),
    /// Lines of text; half sides. No text at all where it lies face down.
    Text(f64, Point),
    /// A coin's relief; its radius.
    Coin(f64, f64),
    /// Columns, rows and side of the printed target's squares, and their origin.
    Squares(u32, u32, f64, Point),
    /// Laminated iron, more or less rusty.
    Iron(f64, f64),
    /// A rule's marks, a millimetre apart along x; half length.
    Rule(f64, f64),
}

/// Reflectance of an object's upper face at a position in its own coordinates, in millimetres.
pub fn painted(paint: Paint, at: Point, kind: u64) -> f64 {
    match paint {
        Paint::Plain(light) => light * (1.0 + 0.06 * noise(at.x * 0.3, at.y * 0.3, kind)),
        Paint::Card(light, half) => {
            let (u, v) = (at.x / half.x, at.y / half.y);
            let chip = (u + 0.55).abs() < 0.14 && (v + 0.1).abs() < 0.2;
            let stripe = (0.35..0.62).contains(&v) && kind.is_multiple_of(2);
            let letters = (v - 0.45).abs() < 0.06 && u.abs() < 0.8 && noise(at.x * 0.9, 3.0, kind) > 0.1;
            let swirl = 1.0 + 0.25 * noise(u * 1.3, v * 1.3, kind) * f64::from(u8::from(kind.is_multiple_of(3)));
            light
                * swirl
                * if chip {
                    0.8
                } else if letters {
                    0.4
                } else if stripe {
                    0.55
                } else {
                    1.0
                }
        }
        Paint::Text(light, half) => {
            let line = (at.y / 6.0).floor();
            let within = at.x.abs() < 0.8 * half.x && at.y.abs() < 0.82 * half.y;
            let short = noise(line * 7.3, 1.0, kind) > 0.55;
            let row = (at.y / 6.0 - line) < 0.4 && !(short && at.x > 0.0);
            let letter = noise(at.x * 0.8, line * 5.1, kind + 1) > -0.1;
            light
                * if within && row && letter && !kind.is_multiple_of(3) {
                    0.45
                } else {
                    1.0
                }
        }
        Paint::Coin(light, radius) => {
            let far = at.length() / radius;
            let relief = if far < 0.78 {
                0.22 * noise(at.x * 9.0 / radius, at.y * 9.0 / radius, kind)
            } else {
                0.0
            };
            let rim = match far {
                far if (0.82..0.87).contains(&far) => -0.25,
                far if far > 0.87 => 0.1,
                _ => 0.0,
            };
            light * (1.0 + relief + rim)
        }
        Paint::Squares(columns, rows, side, from) => {
            let (u, v) = ((at.x - from.x) / side, (at.y - from.y) / side);
            let inside = u >= 0.0 && v >= 0.0 && u < f64::from(columns) && v < f64::from(rows);
            let black = inside && (u.floor() + v.floor()) as i64 % 2 == 0;
            let caption = !inside && (v - f64::from(rows) - 1.4).abs() < 0.13 && noise(at.x * 0.9, 1.0, kind) > 0.0;
            if black {
                0.045
            } else if caption {
                0.3
            } else {
                0.8
            }
        }
        Paint::Iron(light, rust) => {
            let sheets = 0.06 * noise(at.x * 0.05, at.y * 2.2, kind);
            let rough = noise(at.x * 0.1, at.y * 0.1, kind + 1) + 0.6 * noise(at.x * 0.4, at.y * 0.4, kind + 2);
            light * (1.0 + sheets + 0.3 * rust * (rough + 0.5 * noise(at.x * 1.5, at.y * 1.5, kind + 3)))
        }
        Paint::Rule(light, half) => {
            let mm = at.x + half;
            let (step, long) = (mm - mm.floor(), mm.floor() as i64 % 10 == 0);
            let mark = step < 0.25 && at.y > if long { -4.0 } else { 2.0 };
            light
                * if mark {
                    0.25
                } else {
                    1.0 + 0.05 * noise(at.x * 2.0, at.y * 0.1, kind)
                }
        }
    }
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bench {
    Plain,
    Wood,
    Rust,
    Concrete,
    /// A cutting mat with lines 10 mm apart.
    Mat,
    Cloth,
}

impl Bench {
    pub const ALL: [Bench; 6] = [
        Bench::Plain,
        Bench::Wood,
        Bench::Rust,
        Bench::Concrete,
        Bench::Mat,
        Bench::Cloth,
    ];
}

/// Relative reflectance of the bench, about 1.
pub fn bench(kind: Bench, x: f64, y: f64, seed: u64) -> f64 {
    match kind {
        Bench::Plain => 1.0 + 0.04 * noise(x * 0.02, y * 0.02, seed),
        Bench::Wood => {
            let board = y / 90.0;
            if board - board.floor() < 0.013 {
                return 0.25;
            }
            let shift = 40.0 * noise(board.floor(), 0.0, seed);
            let ring = (y * 0.35 + 2.5 * noise(x * 0.008 + shift, y * 0.03, seed + 1)).sin();
            let fibre = noise(x * 0.03, y * 1.9, seed + 2);
            1.0 + 0.12 * noise(board.floor() * 3.7, 5.0, seed) + 0.16 * ring + 0.14 * fibre
        }
        Bench::Rust => {
            let rough = noise(x * 0.05, y * 0.05, seed) + 0.6 * noise(x * 0.2, y * 0.2, seed + 1);
            1.0 + 0.3 * rough + 0.2 * noise(x * 0.9, y * 0.9, seed + 2)
        }
        Bench::Concrete => {
            let grain = noise(x * 1.2, y * 1.2, seed);
            let pit = if noise(x * 0.35, y * 0.35, seed + 1) > 0.72 {
                -0.35
            } else {
                0.0
            };
            1.0 + 0.12 * grain + 0.1 * noise(x * 0.04, y * 0.04, seed + 2) + pit
        }
        Bench::Mat => {
            let line = |at: f64, every: f64, wide: f64| (at - (at / every).round() * every).abs() < wide / 2.0;
            let heavy = line(x, 50.0, 0.9) || line(y, 50.0, 0.9);
            if heavy || line(x, 10.0, 0.35) || line(y, 10.0, 0.35) {
                1.9
            } else {
                1.0
            }
        }
        Bench::Cloth => 1.0 + 0.18 * (x * 3.6).sin() * (y * 3.6).sin() + 0.1 * noise(x * 0.06, y * 0.06, seed),
    }
}
