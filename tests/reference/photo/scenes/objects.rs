//! Objects on the bench: upright prisms over a rectangle or a disc, and their intersections with rays.

use curbcore::photo::Point;

use super::camera::Space;
use super::paint::Paint;

#[derive(Debug, Clone, Copy)]
pub enum Outline {
    /// Half sides, radius of the corners.
    Rectangle(Point, f64),
    /// Radius.
    Disc(f64),
}

impl Outline {
    /// The outline moved inwards.
    pub fn within(self, by: f64) -> Self {
        match self {
            Outline::Rectangle(half, corner) => {
                Outline::Rectangle(Point::new(half.x - by, half.y - by), (corner - by).max(0.0))
            }
            Outline::Disc(radius) => Outline::Disc(radius - by),
        }
    }
}

/// The dimensions of an E-I core's face, in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Core {
    pub tongue: f64,
    pub window_width: f64,
    pub window_height: f64,
    pub limb: f64,
    pub yoke: f64,
    pub inside: Inside,
    /// Darkness of the seam between E and I, 0 for none.
    pub seam: f64,
}

/// What is seen in a core's windows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Inside {
    /// Darkness level with the face.
    Dark,
    /// The window's walls, and the bench below.
    Open,
    /// As [`Inside::Open`], with magnetic shunts across the middle: half height, depth below the face,
    /// reflectance.
    Shunts(f64, f64, f64),
    /// As [`Inside::Open`], with a winding's remains: share of the window's height, depth below the
    /// face, reflectance.
    Winding(f64, f64, f64),
}

impl Core {
    pub fn half(&self) -> Point {
        Point::new(
            self.tongue / 2.0 + self.window_width + self.limb,
            self.window_height / 2.0 + self.yoke,
        )
    }

    /// Depth and reflectance of what lies in a window at a position, above the bench.
    fn filled(&self, at: Point) -> Option<(f64, f64)> {
        match self.inside {
            Inside::Dark | Inside::Open => None,
            Inside::Shunts(half, deep, light) => (at.y.abs() < half).then_some((deep, light)),
            Inside::Winding(share, deep, light) => {
                let from_below = (self.window_height / 2.0 - at.y) / self.window_height;
                let wire = 0.75 + 0.25 * (at.y * std::f64::consts::TAU / 1.3).sin();
                (from_below < share).then_some((deep, light * wire))
            }
        }
    }

    /// What a ray meets that enters a window at `upper` and would reach the bench, `deep` below the
    /// face, at `lower`: the part of the way down, and the reflectance where something fills the window.
    fn below(&self, upper: Point, lower: Point, deep: f64) -> Option<(f64, Option<f64>)> {
        if let Some((down, light)) = self.filled(upper)
            && down < deep
        {
            return Some((down / deep, Some(light)));
        }
        let way = lower - upper;
        let inner = self.tongue / 2.0;
        let (low, high) = if upper.x > 0.0 {
            (inner, inner + self.window_width)
        } else {
            (-inner - self.window_width, -inner)
        };
        let rim = self.window_height / 2.0;
        let leave = |from: f64, step: f64, low: f64, high: f64| {
            if step > 1e-12 {
                (high - from) / step
            } else if step < -1e-12 {
                (low - from) / step
            } else {
                f64::INFINITY
            }
        };
        let wall = leave(upper.x, way.x, low, high).min(leave(upper.y, way.y, -rim, rim));
        (wall < 1.0).then_some((wall, None))
    }

    /// Factor on the face's reflectance at the seam between E and I.
    pub fn seam_factor(&self, at: Point) -> f64 {
        if self.seam > 0.0 && (at.y - self.window_height / 2.0).abs() < 0.2 {
            1.0 - self.seam
        } else {
            1.0
        }
    }

    fn in_window(&self, at: Point) -> bool {
        let x = at.x.abs() - self.tongue / 2.0;
        x > 0.0 && x < self.window_width && at.y.abs() < self.window_height / 2.0
    }
}

#[derive(Debug, Clone)]
pub struct Object {
    pub outline: Outline,
    pub middle: Point,
    pub turn: f64,
    /// Heights of the lower and the upper face above the bench.
    pub low: f64,
    pub high: f64,
    pub paint: Paint,
    /// Reflectance of its flanks.
    pub flank: f64,
    /// The windows of a core.
    pub core: Option<Core>,
}

/// The part that a ray meets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Part {
    Bench,
    Top(usize),
    Flank(usize),
    /// Inside a core's window.
    Window(usize),
    /// The wall of a core's window.
    Wall(usize),
    /// The bench below a core's window.
    Below(usize),
    /// Shunts or a winding in a core's window; thousandths of its reflectance.
    Filled(usize, u32),
}

impl Object {
    /// A position on the bench in the object's own coordinates.
    pub fn own(&self, x: f64, y: f64) -> Point {
        let (sine, cosine) = self.turn.sin_cos();
        let (x, y) = (x - self.middle.x, y - self.middle.y);
        Point::new(x * cosine + y * sine, y * cosine - x * sine)
    }

    /// A position in the object's own coordinates, in space.
    pub fn place(&self, own: Point, height: f64) -> Space {
        let (sine, cosine) = self.turn.sin_cos();
        [
            self.middle.x + own.x * cosine - own.y * sine,
            self.middle.y + own.y * cosine + own.x * sine,
            height,
        ]
    }

    pub fn reach(&self) -> f64 {
        match self.outline {
            Outline::Rectangle(half, _) => half.length(),
            Outline::Disc(radius) => radius,
        }
    }

    fn inside(&self, at: Point) -> bool {
        match self.outline {
            Outline::Rectangle(half, radius) => {
                let (x, y) = (half.x - at.x.abs(), half.y - at.y.abs());
                x > 0.0 && y > 0.0 && (x >= radius || y >= radius || (radius - x).hypot(radius - y) < radius)
            }
            Outline::Disc(radius) => at.length() < radius,
        }
    }

    /// The fraction of the way from `from` to `to` (own coordinates) at which it enters the outline.
    fn entry(&self, from: Point, to: Point) -> Option<f64> {
        let way = to - from;
        match self.outline {
            Outline::Rectangle(half, _) => {
                let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
                for (start, step, half) in [(from.x, way.x, half.x), (from.y, way.y, half.y)] {
                    if step.abs() < 1e-12 {
                        if start.abs() >= half {
                            return None;
                        }
                        continue;
                    }
                    let (a, b) = ((-half - start) / step, (half - start) / step);
                    enter = enter.max(a.min(b));
                    leave = leave.min(a.max(b));
                }
                (enter < leave).then_some(enter)
            }
            Outline::Disc(radius) => {
                let (a, b, c) = (way.dot(way), from.dot(way), from.dot(from) - radius * radius);
                let root = b * b - a * c;
                if a < 1e-18 || root < 0.0 {
                    return None;
                }
                let enter = (-b - root.sqrt()) / a;
                (0.0..1.0).contains(&enter).then_some(enter)
            }
        }
    }

    /// The height at which a ray from above meets the object, and the part.
    fn met(&self, index: usize, eye: Space, ray: Space) -> Option<(f64, Part)> {
        // Most objects are far from where the ray passes.
        let on_bench = |height: f64| {
            let far = (height - eye[2]) / ray[2];
            (eye[0] + far * ray[0], eye[1] + far * ray[1])
        };
        let top = on_bench(self.high);
        let slant = (self.high - self.low) * (1.0 / ray[2] / ray[2] - 1.0).max(0.0).sqrt();
        let (dx, dy) = (top.0 - self.middle.x, top.1 - self.middle.y);
        let near = self.reach() + slant;
        if dx * dx + dy * dy > near * near {
            return None;
        }
        let at = |height: f64| {
            let (x, y) = on_bench(height);
            self.own(x, y)
        };
        let (upper, lower) = (at(self.high), at(self.low));
        if self.inside(upper) {
            let Some(core) = self.core.filter(|core| core.in_window(upper)) else {
                return Some((self.high, Part::Top(index)));
            };
            let deep = self.high - self.low;
            return Some(match core.inside {
                Inside::Dark => (self.high, Part::Window(index)),
                _ => match core.below(upper, lower, deep) {
                    None => (self.low, Part::Below(index)),
                    Some((part, None)) => (self.high - deep * part, Part::Wall(index)),
                    Some((part, Some(light))) => {
                        (self.high - deep * part, Part::Filled(index, (1000.0 * light) as u32))
                    }
                },
            });
        }
        let enter = self.entry(upper, lower)?;
        // A rounded corner's flank is that of the square one less the corner itself.
        if let Outline::Rectangle(_, radius) = self.outline
            && radius > 0.0
            && !self.inside(upper + (lower - upper) * (enter + 1e-6).min(1.0))
        {
            return None;
        }
        Some((self.high + (self.low - self.high) * enter, Part::Flank(index)))
    }

    /// Whether it blocks the line from a place to a light.
    fn shades(&self, place: Space, light: Space) -> bool {
        if self.high <= place[2] + 1e-6 {
            return false;
        }
        let (dx, dy) = (place[0] - self.middle.x, place[1] - self.middle.y);
        let near = self.reach() + (self.high - place[2]) * (1.0 / light[2] / light[2] - 1.0).max(0.0).sqrt();
        if dx * dx + dy * dy > near * near {
            return false;
        }
        let at = |height: f64| {
            let far = (height - place[2]) / light[2];
            self.own(place[0] + far * light[0], place[1] + far * light[1])
        };
        let (from, to) = (at(place[2].max(self.low)), at(self.high));
        if (from + (to - from) * 0.5).length() > self.reach() + from.distance(to) {
            return false;
        }
        self.inside(from) || self.inside(to) || self.entry(from, to).is_some()
    }
}

/// The first intersection of a ray, and the part.
pub fn first(objects: &[Object], eye: Space, ray: Space) -> (Space, Part) {
    let mut best = (0.0, Part::Bench);
    for (index, object) in objects.iter().enumerate() {
        // What stands higher hides what lies lower; nothing stands inside a core's window.
        if let Some(met) = object.met(index, eye, ray)
            && (met.0 > best.0 || best.1 == Part::Bench)
        {
            best = met;
        }
    }
    let far = (best.0 - eye[2]) / ray[2];
    ([0, 1, 2].map(|i| eye[i] + far * ray[i]), best.1)
}

/// Whether any other object blocks the line from a place to a light.
pub fn shaded(objects: &[Object], place: Space, light: Space, own: Option<usize>) -> bool {
    objects
        .iter()
        .enumerate()
        .any(|(index, object)| Some(index) != own && object.shades(place, light))
}
