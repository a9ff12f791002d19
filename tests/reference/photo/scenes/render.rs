//! Rendering: shadows, blur, noise, tone curve, and the JPEG file with its Exif.

use curbcore::photo::{Gray, Point};
use jpeg_encoder::{ColorType, Encoder, SamplingFactor};

use super::camera::{Camera, Space, unit};
use super::objects::{Object, Part, first, shaded};
use super::paint::{Bench, bench, painted};
use super::random::{Random, noise};

#[derive(Debug, Clone)]
pub struct Scene {
    pub camera: Camera,
    pub objects: Vec<Object>,
    pub bench: (Bench, f64),
    /// Direction to the lamp, and the spread of its rays.
    pub lamp: (Space, f64),
    /// Share of ambient light.
    pub ambient: f64,
    /// Relative darkening of the corners.
    pub vignette: f64,
    /// A lamp mirrored by an object: its index, position on it, radius, strength.
    pub glare: Option<(usize, Point, f64, f64)>,
    pub exposure: f64,
    /// Pixels to one rendered sample; the rest is interpolated, as with a lens coarser than the
    /// sensor.
    pub coarse: usize,
    /// Standard deviation of the blur, and the camera's motion, in pixels.
    pub blur: f64,
    pub motion: Point,
    /// Standard deviation of the noise, in grey values.
    pub noise: f64,
    pub quality: u8,
    /// Exif orientation (1, 3, 6 or 8), and the focal length where stated.
    pub orientation: u8,
    pub focal_35mm: Option<u16>,
    pub seed: u64,
}

impl Scene {
    /// The part seen at a point of the picture, and its light.
    pub fn sample(&self, at: Point) -> (Part, f64) {
        let (place, part) = first(&self.objects, self.camera.eye, self.camera.ray(at));
        let kind = self.seed;
        let own = |index: usize| self.objects[index].own(place[0], place[1]);
        let (back, level, itself) = match part {
            Part::Bench => (self.bench.1 * bench(self.bench.0, place[0], place[1], kind), 1.0, None),
            Part::Top(index) => {
                let object = &self.objects[index];
                let seam = object.core.map_or(1.0, |core| core.seam_factor(own(index)));
                let light = painted(object.paint, own(index), kind + index as u64);
                (light * seam, 1.0, Some(index))
            }
            Part::Flank(index) => (self.objects[index].flank, 0.55, Some(index)),
            Part::Window(_) => (
                0.035 * (1.0 + 0.3 * noise(place[0] * 0.3, place[1] * 0.3, kind)),
                0.5,
                None,
            ),
            // The deeper in a window, the less of the room's light.
            Part::Wall(index) | Part::Below(index) | Part::Filled(index, _) => {
                let object = &self.objects[index];
                let open = (-(object.high - place[2]) / 22.0).exp();
                let back = match part {
                    Part::Filled(_, light) => f64::from(light) / 1000.0,
                    Part::Below(_) => self.bench.1 * bench(self.bench.0, place[0], place[1], kind),
                    _ => object.flank * (1.0 + 0.1 * noise(place[2] * 2.2, 0.0, kind)),
                };
                (back * (0.12 + 0.75 * open), 0.5, None)
            }
        };
        let in_window = matches!(
            part,
            Part::Window(_) | Part::Wall(_) | Part::Below(_) | Part::Filled(..)
        );
        let lit = if in_window { 0.3 } else { self.lit(place, itself) };
        let mirrored = match (self.glare, part) {
            (Some((shiny, middle, radius, strength)), Part::Top(index)) if index == shiny => {
                let far = own(index).distance(middle) / radius;
                strength * (-far * far).exp()
            }
            _ => 0.0,
        };
        let light = back.max(0.005) * (self.ambient + (1.0 - self.ambient) * lit * level) + mirrored;
        (part, light * self.exposure)
    }

    /// Share of the lamp visible from a place, by five rays.
    fn lit(&self, place: Space, itself: Option<usize>) -> f64 {
        let (towards, wide) = self.lamp;
        // Far from higher objects, the whole lamp is visible.
        let lowest = unit([
            towards[0] * (1.0 + 2.0 * wide),
            towards[1] * (1.0 + 2.0 * wide),
            towards[2],
        ]);
        let slope = (1.0 / lowest[2] / lowest[2] - 1.0).max(0.0).sqrt() + 2.0 * wide;
        let could = |object: &Object| {
            let (dx, dy) = (place[0] - object.middle.x, place[1] - object.middle.y);
            let near = object.reach() + (object.high - place[2]).max(0.0) * slope;
            object.high > place[2] + 1e-6 && dx * dx + dy * dy < near * near
        };
        if !self.objects.iter().any(could) {
            return 1.0;
        }
        let turn = std::f64::consts::TAU * noise(place[0] * 97.0, place[1] * 97.0, self.seed);
        let free = (0..5).filter(|ray| {
            let angle = turn + f64::from(*ray) * std::f64::consts::TAU / 5.0;
            let far = wide * (0.35 + 0.13 * f64::from(*ray));
            let to = unit([
                towards[0] + far * angle.cos(),
                towards[1] + far * angle.sin(),
                towards[2],
            ]);
            !shaded(&self.objects, place, to, itself)
        });
        free.count() as f64 / 5.0
    }

    /// Light on the sensor, row by row.
    fn exposed(&self) -> Vec<f32> {
        const FINE: usize = 4;
        let step = self.coarse as f64;
        let (width, height) = (self.camera.width / self.coarse, self.camera.height / self.coarse);
        // Centre of a block of pixels.
        let full = |x: f64, y: f64| Point::new((x + 0.5) * step - 0.5, (y + 0.5) * step - 0.5);
        let mut parts = Vec::with_capacity(width * height);
        for index in 0..width * height {
            parts.push(self.sample(full((index % width) as f64, (index / width) as f64)));
        }
        let mut light = vec![0.0_f32; width * height];
        for y in 0..height {
            for x in 0..width {
                let (part, own) = parts[y * width + x];
                let near = [(x + 1, y), (x.wrapping_sub(1), y), (x, y + 1), (x, y.wrapping_sub(1))];
                let differs = near
                    .into_iter()
                    .filter(|(x, y)| *x < width && *y < height)
                    .any(|(x, y)| {
                        let (other, value) = parts[y * width + x];
                        other != part || (value - own).abs() > 0.08 + 0.2 * own
                    });
                let mut sum = own;
                if differs {
                    let part = |sample: usize| (sample as f64 + 0.5) / FINE as f64 - 0.5;
                    let at = |sample: usize| full(x as f64 + part(sample % FINE), y as f64 + part(sample / FINE));
                    sum = (0..FINE * FINE).map(|sample| self.sample(at(sample)).1).sum::<f64>() / (FINE * FINE) as f64;
                }
                let away = full(x as f64, y as f64) - self.camera.centre;
                let rim = away.dot(away) / self.camera.centre.dot(self.camera.centre);
                light[y * width + x] = (sum * (1.0 - self.vignette * rim)) as f32;
            }
        }
        light
    }

    /// The grey values before encoding, with blur, motion and noise.
    fn developed(&self, random: &mut Random) -> Vec<f64> {
        let width = self.camera.width;
        let mut light = self.exposed();
        if self.coarse > 1 {
            light = enlarged(&light, width / self.coarse, self.coarse);
        }
        gauss(&mut light, width, self.blur);
        moved_while_exposed(&mut light, width, self.motion);
        let curve: Vec<f64> = (0..=8192)
            .map(|step| 255.0 * encoded(f64::from(step) / 8192.0))
            .collect();
        let value = |light: f32| {
            let at = f64::from(light.clamp(0.0, 1.0)) * 8191.999;
            let (step, part) = (at as usize, at.fract());
            curve[step] * (1.0 - part) + curve[step + 1] * part
        };
        light
            .iter()
            .map(|light| value(*light) + self.noise * random.quick_normal())
            .collect()
    }

    /// The photo in grey, without a file's losses.
    pub fn gray(&self) -> Gray {
        let pixels = self.developed(&mut Random::of(self.seed, 77));
        let pixels = pixels.into_iter().map(|value| value.round().clamp(0.0, 255.0) as u8);
        Gray::new(self.camera.width, self.camera.height, pixels.collect()).unwrap()
    }

    /// The photo as a JPEG file.
    pub fn photo(&self) -> Vec<u8> {
        let (width, height) = (self.camera.width, self.camera.height);
        let mut random = Random::of(self.seed, 77);
        let grey = self.developed(&mut random);
        // A warm or cold lamp; luma weights by ITU-R BT.601.
        let warm = random.between(-0.06, 0.06);
        let tint = [1.0 + warm, 1.0 - 0.35 * warm, 1.0 - 0.8 * warm];
        let (columns, rows) = if self.orientation >= 5 {
            (height, width)
        } else {
            (width, height)
        };
        let mut pixels = Vec::with_capacity(3 * grey.len());
        for y in 0..rows {
            for x in 0..columns {
                // Position in the upright picture of the file's row and column (Exif, tag 0x0112).
                let (u, v) = match self.orientation {
                    3 => (width - 1 - x, height - 1 - y),
                    6 => (width - 1 - y, x),
                    8 => (y, height - 1 - x),
                    _ => (x, y),
                };
                let value = grey[v * width + u];
                pixels.extend(tint.map(|part| (value * part).round().clamp(0.0, 255.0) as u8));
            }
        }
        let mut bytes = Vec::new();
        let mut encoder = Encoder::new(&mut bytes, self.quality);
        encoder.set_sampling_factor(SamplingFactor::F_2_2);
        encoder.add_exif_metadata(&self.exif()).unwrap();
        encoder
            .encode(&pixels, columns as u16, rows as u16, ColorType::Rgb)
            .unwrap();
        bytes
    }

    /// A TIFF block with the orientation and, where stated, the focal length (Exif 2.3).
    fn exif(&self) -> Vec<u8> {
        let mut block = b"MM\0*\0\0\0\x08".to_vec();
        let entry = |tag: u16, kind: u16, value: [u8; 4]| {
            [
                &tag.to_be_bytes()[..],
                &kind.to_be_bytes(),
                &1_u32.to_be_bytes(),
                &value,
            ]
            .concat()
        };
        let short = |value: u16| [value.to_be_bytes()[0], value.to_be_bytes()[1], 0, 0];
        block.extend([0, 2]);
        block.extend(entry(0x0112, 3, short(u16::from(self.orientation))));
        block.extend(entry(0x8769, 4, 38_u32.to_be_bytes()));
        block.extend([0; 4]);
        block.extend([0, u8::from(self.focal_35mm.is_some())]);
        if let Some(mm) = self.focal_35mm {
            block.extend(entry(0xA405, 3, short(mm)));
        }
        block.extend([0; 4]);
        block
    }
}

/// IEC 61966-2-1.
fn encoded(light: f64) -> f64 {
    if light <= 0.003_130_8 {
        12.92 * light
    } else {
        1.055 * light.powf(1.0 / 2.4) - 0.055
    }
}

/// Enlarges a picture by bilinear interpolation.
fn enlarged(light: &[f32], width: usize, by: usize) -> Vec<f32> {
    let height = light.len() / width;
    let spread = |from: &[f32], count: usize, step: usize, lines: usize, along: usize| {
        let mut out = vec![0.0; from.len() * by];
        for line in 0..lines {
            for index in 0..count * by {
                let at = ((index as f64 + 0.5) / by as f64 - 0.5).clamp(0.0, count as f64 - 1.0);
                let (first, part) = (at as usize, at.fract() as f32);
                let value = |k: usize| from[line * along + k.min(count - 1) * step];
                let to = if step == 1 {
                    line * count * by + index
                } else {
                    index * step + line
                };
                out[to] = value(first) * (1.0 - part) + value(first + 1) * part;
            }
        }
        out
    };
    let wide = spread(light, width, 1, height, width);
    spread(&wide, height, width * by, width * by, 1)
}

/// Gaussian blur, rows then columns.
fn gauss(light: &mut [f32], width: usize, sigma: f64) {
    let reach = (3.0 * sigma).ceil() as isize;
    let weights: Vec<f32> = (-reach..=reach)
        .map(|k| (-(k * k) as f64 / (2.0 * sigma * sigma)).exp() as f32)
        .collect();
    let all: f32 = weights.iter().sum();
    let height = light.len() / width;
    let mut wide = vec![0.0; light.len()];
    for (row, out) in light.chunks_exact(width).zip(wide.chunks_exact_mut(width)) {
        for (x, out) in out.iter_mut().enumerate() {
            let value = |k: isize| row[(x as isize + k).clamp(0, width as isize - 1) as usize];
            *out = (-reach..=reach)
                .zip(&weights)
                .map(|(k, weight)| weight * value(k))
                .sum::<f32>()
                / all;
        }
    }
    for (y, out) in light.chunks_exact_mut(width).enumerate() {
        out.fill(0.0);
        for (k, weight) in (-reach..=reach).zip(&weights) {
            let from = (y as isize + k).clamp(0, height as isize - 1) as usize * width;
            for (out, value) in out.iter_mut().zip(&wide[from..from + width]) {
                *out += weight / all * value;
            }
        }
    }
}

/// Motion blur: the mean of five shifted pictures.
fn moved_while_exposed(light: &mut Vec<f32>, width: usize, motion: Point) {
    if motion == Point::default() {
        return;
    }
    let height = light.len() / width;
    let at = |x: f64, y: f64| {
        let (x, y) = (x.clamp(0.0, width as f64 - 1.001), y.clamp(0.0, height as f64 - 1.001));
        let (fx, fy) = ((x.fract()) as f32, (y.fract()) as f32);
        let index = y as usize * width + x as usize;
        let (right, below) = (index + 1, index + width.min(light.len() - 1 - index));
        let last = (below + 1).min(light.len() - 1);
        (light[index] * (1.0 - fx) + light[right] * fx) * (1.0 - fy)
            + (light[below] * (1.0 - fx) + light[last] * fx) * fy
    };
    let out = (0..light.len())
        .map(|index| {
            let (x, y) = ((index % width) as f64, (index / width) as f64);
            let step = |k: i32| at(x + motion.x * f64::from(k) / 4.0, y + motion.y * f64::from(k) / 4.0);
            (-2..=2).map(step).sum::<f32>() / 5.0
        })
        .collect();
    *light = out;
}
