//! Rendered photos: a plane with a reference, a core and other things on it, seen by a camera
//! whose every number is known.

use std::f64::consts::PI;

use super::film::{blur, encoded, quantise};
pub use super::ground::Ground;
use super::ground::{ground, noise};
use crate::photo::{Gray, Point};

/// A small generator with a given start (Knuth's MMIX constants).
#[derive(Clone)]
pub struct Random(u64);

impl Random {
    pub fn new(seed: u64) -> Self {
        let mut random = Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x0123_4567_89ab_cdef);
        for _ in 0..4 {
            random.unit();
        }
        random
    }

    /// 0 to 1.
    pub fn unit(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as f64 / (1_u64 << 31) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn below(&mut self, limit: usize) -> usize {
        ((self.unit() * limit as f64) as usize).min(limit - 1)
    }

    /// Normal with standard deviation 1: twelve uniform numbers.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

/// What is looked for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Subject {
    /// Width, height and corner radius, with its upper left corner at the origin.
    Rectangle(f64, f64, f64),
    /// Radius, about the origin.
    Disc(f64),
    /// Columns, rows and side of squares, from the origin.
    Board(i32, i32, f64),
    /// The face of an E-I core: width, height, and of each limb, the tongue and each yoke the
    /// width.
    Face([f64; 5]),
}

impl Subject {
    /// Its width, its height and its middle.
    fn size(self) -> (f64, f64, Point) {
        let (w, h) = match self {
            Subject::Rectangle(w, h, _) | Subject::Face([w, h, ..]) => (w, h),
            Subject::Disc(radius) => return (2.0 * radius, 2.0 * radius, Point::default()),
            Subject::Board(columns, rows, side) => (f64::from(columns) * side, f64::from(rows) * side),
        };
        (w, h, Point::new(w / 2.0, h / 2.0))
    }
}

/// A flat thing that lies about: its middle, half sides, turn and brightness.
#[derive(Debug, Clone, Copy)]
struct Thing {
    middle: Point,
    half: Point,
    turn: f64,
    light: f64,
}

/// Everything that makes a photo.
#[derive(Debug, Clone)]
pub struct Scene {
    pub width: usize,
    pub height: usize,
    /// In pixels.
    pub focal: f64,
    /// Camera in the world (z up from the plane), and its axes: right, down, forward.
    pub eye: [f64; 3],
    pub axes: [[f64; 3]; 3],
    pub subject: Subject,
    pub subject_light: f64,
    pub ground: Ground,
    pub ground_light: f64,
    /// Things, the core's face and its windows among them.
    things: Vec<Thing>,
    /// A soft shadow's edge: a place on the plane, its direction, its depth.
    shadow: (Point, f64, f64),
    /// Standard deviation of the blur, in pixels.
    pub blur: f64,
    /// Standard deviation of the noise, in grey values.
    pub noise: f64,
    /// Step of the block transform's lowest terms, in grey values; 0 for none.
    pub blocks: f64,
    pub seed: u64,
    /// Samples across a pixel.
    pub fine: usize,
}

impl Scene {
    /// A scene whose reference takes `share` of the picture's long side, the camera tilted by
    /// `tilt` (radians) towards a random side and turned by a random angle.
    pub fn new(random: &mut Random, (width, height): (usize, usize), subject: Subject, share: f64, tilt: f64) -> Self {
        let long = width.max(height) as f64;
        let focal = long * random.between(0.75, 1.2);
        let (w, h, middle) = subject.size();
        let size = w.max(h);
        let distance = focal * size / (share * long);
        let (roll, lean) = (random.between(0.0, 2.0 * PI), random.between(0.0, 2.0 * PI));
        // Looks at a place beside the reference's middle, so that it lies anywhere in the picture.
        let free = (0.5 * height.min(width) as f64 / focal * distance - 0.75 * size).max(0.0);
        let look = middle + Point::new(random.between(-free, free), random.between(-free, free));
        let forward = [tilt.sin() * lean.cos(), tilt.sin() * lean.sin(), -tilt.cos()];
        let eye = [
            look.x - forward[0] * distance,
            look.y - forward[1] * distance,
            -forward[2] * distance,
        ];
        // y runs down the plane: right-handed with z away from the camera... the plane's z is up
        // towards the eye, so the picture's down is forward × right.
        let start = [roll.cos(), roll.sin(), 0.0];
        let dot = start[0] * forward[0] + start[1] * forward[1];
        let right = unit([
            start[0] - dot * forward[0],
            start[1] - dot * forward[1],
            -dot * forward[2],
        ]);
        let cross = [
            forward[1] * right[2] - forward[2] * right[1],
            forward[2] * right[0] - forward[0] * right[2],
            forward[0] * right[1] - forward[1] * right[0],
        ];
        // Seen from above with y down, a turn to the right stays one.
        let down = [-cross[0], -cross[1], -cross[2]];
        Self {
            width,
            height,
            focal,
            eye,
            axes: [right, down, forward],
            subject,
            subject_light: 0.75,
            ground: Ground::Plain,
            ground_light: 0.2,
            things: Vec::new(),
            shadow: (Point::default(), 0.0, 0.0),
            blur: 0.8,
            noise: 1.0,
            blocks: 0.0,
            seed: random.below(1 << 20) as u64,
            fine: 2,
        }
    }

    /// Puts a core's face with its two windows and `count` other flat things about the reference,
    /// and a soft shadow over the picture.
    pub fn cluttered(mut self, random: &mut Random, count: usize) -> Self {
        let (w, h, middle) = self.subject.size();
        let size = match self.subject {
            Subject::Disc(radius) => radius,
            _ => w.hypot(h) / 2.0,
        };
        let beside = |random: &mut Random, radius: f64| {
            let (turn, far) = (random.between(0.0, 2.0 * PI), random.between(1.05, 1.5));
            middle + Point::new(turn.cos(), turn.sin()) * ((size + radius) * far)
        };
        let unit = 0.16 * size.max(20.0);
        let (core, turn) = (beside(random, 4.0 * unit), random.between(0.0, PI));
        let window = Point::new(turn.cos(), turn.sin()) * (1.5 * unit);
        self.things.push(Thing {
            middle: core,
            half: Point::new(3.0 * unit, 2.5 * unit),
            turn,
            light: 0.3,
        });
        for side in [1.0, -1.0] {
            self.things.push(Thing {
                middle: core + window * side,
                half: Point::new(0.5 * unit, 1.5 * unit),
                turn,
                light: 0.04,
            });
        }
        for _ in 0..count {
            let half = Point::new(random.between(0.05, 0.5), random.between(0.03, 0.4)) * size;
            let at = beside(random, half.length());
            self.things.push(Thing {
                middle: at,
                half,
                turn: random.between(0.0, PI),
                light: random.between(0.05, 0.9),
            });
        }
        let depth = if random.unit() < 0.5 {
            random.between(0.2, 0.5)
        } else {
            0.0
        };
        self.shadow = (beside(random, 0.0), random.between(0.0, 2.0 * PI), depth);
        self
    }

    /// Where a place of the plane lies in the picture.
    pub fn project(&self, place: Point) -> Point {
        let from = [place.x - self.eye[0], place.y - self.eye[1], -self.eye[2]];
        let [x, y, z] = self
            .axes
            .map(|axis| axis[0] * from[0] + axis[1] * from[1] + axis[2] * from[2]);
        let (cx, cy) = ((self.width as f64 - 1.0) / 2.0, (self.height as f64 - 1.0) / 2.0);
        Point::new(cx + self.focal * x / z, cy + self.focal * y / z)
    }

    /// Which place of the plane is seen there.
    pub fn unproject(&self, place: Point) -> Point {
        let (cx, cy) = ((self.width as f64 - 1.0) / 2.0, (self.height as f64 - 1.0) / 2.0);
        let (u, v) = ((place.x - cx) / self.focal, (place.y - cy) / self.focal);
        let [right, down, forward] = self.axes;
        let ray = |axis: usize| right[axis] * u + down[axis] * v + forward[axis];
        let far = -self.eye[2] / ray(2);
        Point::new(self.eye[0] + far * ray(0), self.eye[1] + far * ray(1))
    }

    /// Whether all of the reference is in the picture, `margin` pixels from the border.
    pub fn is_in_view(&self, margin: f64) -> bool {
        let inside = |place: Point| {
            let at = self.project(place);
            at.x > margin && at.y > margin && at.x < self.width as f64 - margin && at.y < self.height as f64 - margin
        };
        self.outline().into_iter().all(inside)
    }

    /// Corners of the reference, or 64 places around a disc, on the plane.
    pub fn outline(&self) -> Vec<Point> {
        if let Subject::Disc(radius) = self.subject {
            let at = |index: i32| {
                Point::new(
                    (PI * f64::from(index) / 32.0).cos(),
                    (PI * f64::from(index) / 32.0).sin(),
                )
            };
            return (0..64).map(|index| at(index) * radius).collect();
        }
        let (w, h, _) = self.subject.size();
        vec![
            Point::new(0.0, 0.0),
            Point::new(w, 0.0),
            Point::new(w, h),
            Point::new(0.0, h),
        ]
    }

    /// Takes the photo.
    pub fn render(&self) -> Gray {
        let mut light = vec![0.0_f32; self.width * self.height];
        let (cx, cy) = ((self.width as f64 - 1.0) / 2.0, (self.height as f64 - 1.0) / 2.0);
        let fine = self.fine as f64;
        let [right, down, forward] = self.axes;
        for y in 0..self.height {
            for x in 0..self.width {
                let mut sum = 0.0;
                for sample in 0..self.fine * self.fine {
                    let dx = ((sample % self.fine) as f64 + 0.5) / fine - 0.5;
                    let dy = ((sample / self.fine) as f64 + 0.5) / fine - 0.5;
                    let (u, v) = ((x as f64 + dx - cx) / self.focal, (y as f64 + dy - cy) / self.focal);
                    let ray = |axis: usize| right[axis] * u + down[axis] * v + forward[axis];
                    let far = -self.eye[2] / ray(2);
                    sum += self.light(Point::new(self.eye[0] + far * ray(0), self.eye[1] + far * ray(1)));
                }
                light[y * self.width + x] = (sum / fine / fine) as f32;
            }
        }
        blur(&mut light, self.width, self.blur);
        let mut random = Random::new(self.seed);
        let mut values: Vec<f32> = light
            .iter()
            .map(|&light| 255.0 * encoded(light) + (self.noise * random.normal()) as f32)
            .collect();
        if self.blocks > 0.0 {
            quantise(&mut values, self.width, self.blocks as f32);
        }
        let pixels = values
            .into_iter()
            .map(|value| value.round().clamp(0.0, 255.0) as u8)
            .collect();
        Gray::new(self.width, self.height, pixels).unwrap()
    }

    /// Light that comes from a place of the plane.
    fn light(&self, place: Point) -> f64 {
        let (at, way, depth) = self.shadow;
        let past = (place - at).dot(Point::new(way.cos(), way.sin()));
        let lit = 1.0 - depth / (1.0 + (-past / 6.0).exp());
        lit * self.reflects(place).clamp(0.0, 1.0)
    }

    fn reflects(&self, place: Point) -> f64 {
        match self.subject {
            Subject::Rectangle(w, h, radius) => {
                let (x, y) = (place.x.min(w - place.x), place.y.min(h - place.y));
                if x > 0.0 && y > 0.0 && (x > radius || y > radius || (radius - x).hypot(radius - y) < radius) {
                    return self.printed(Point::new(place.x / w, place.y / h));
                }
            }
            Subject::Disc(radius) => {
                let far = place.length() / radius;
                if far < 1.0 {
                    let relief = 0.1 * noise(place * (9.0 / radius), 7) * f64::from(u8::from(far < 0.75));
                    let rim = if (0.8..0.86).contains(&far) { -0.12 } else { 0.0 };
                    return self.subject_light + relief + rim;
                }
            }
            Subject::Face([w, h, limb, tongue, yoke]) => {
                let (x, y) = (place.x.min(w - place.x), place.y.min(h - place.y));
                if x > 0.0 && y > 0.0 {
                    let window = x > limb && x < (w - tongue) / 2.0 && y > yoke;
                    return if window {
                        0.15 * self.subject_light
                    } else {
                        self.subject_light
                    };
                }
            }
            Subject::Board(columns, rows, side) => {
                let (column, row) = ((place.x / side).floor() as i32, (place.y / side).floor() as i32);
                if (0..columns).contains(&column) && (0..rows).contains(&row) {
                    return if (column + row) % 2 == 0 { 0.04 } else { 0.8 };
                }
                let margin = side;
                if place.x > -margin
                    && place.y > -margin
                    && place.x < f64::from(columns) * side + margin
                    && place.y < f64::from(rows) * side + margin
                {
                    return 0.8;
                }
            }
        }
        for thing in self.things.iter().rev() {
            let from = place - thing.middle;
            let (sine, cosine) = thing.turn.sin_cos();
            let (x, y) = (from.x * cosine + from.y * sine, from.y * cosine - from.x * sine);
            if x.abs() < thing.half.x && y.abs() < thing.half.y {
                return thing.light * (1.0 + 0.15 * noise(place * 0.8, 3));
            }
        }
        self.ground_light * ground(self.ground, place)
    }

    /// A card's or sheet's print: a stripe, a field and lines of text.
    fn printed(&self, at: Point) -> f64 {
        let base = self.subject_light;
        if (0.12..0.3).contains(&at.x) && (0.35..0.55).contains(&at.y) {
            return 0.8 * base;
        }
        if (0.7..0.74).contains(&at.y) && (0.1..0.8).contains(&at.x) && (at.x * 60.0).sin() > 0.0 {
            return 0.3 * base;
        }
        if (0.1..0.2).contains(&at.y) && (0.55..0.9).contains(&at.x) {
            return 0.5 * base;
        }
        base
    }
}

fn unit(v: [f64; 3]) -> [f64; 3] {
    let length = (v[0] * v[0] + v[1] * v[1] + v[2] * v[2]).sqrt();
    v.map(|part| part / length)
}
