//! Random numbers that are the same on every machine, and noise on a plane made of them.

/// The generator `SplitMix64` (Steele, Lea and Flood 2014).
#[derive(Clone)]
pub struct Random(u64);

/// The generator's mixing step.
const fn mixed(mut value: u64) -> u64 {
    value = (value ^ (value >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
    value = (value ^ (value >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
    value ^ (value >> 31)
}

const STEP: u64 = 0x9e37_79b9_7f4a_7c15;

impl Random {
    /// The generator of one scene of a series.
    pub const fn of(seed: u64, scene: u64) -> Self {
        Self(mixed(
            mixed(seed.wrapping_mul(STEP)).wrapping_add(scene.wrapping_mul(STEP)),
        ))
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(STEP);
        mixed(self.0)
    }

    /// 0 to 1.
    pub fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub fn below(&mut self, limit: usize) -> usize {
        (self.next() % limit as u64) as usize
    }

    /// True in this share of cases.
    pub fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }

    /// Normal with standard deviation 1 (Box and Muller).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.unit()).ln()).sqrt();
        radius * (std::f64::consts::TAU * self.unit()).cos()
    }

    /// Nearly normal with standard deviation 1: four even numbers, for each pixel of a picture.
    pub fn quick_normal(&mut self) -> f64 {
        let bits = self.next();
        let sum: u64 = (0..4).map(|part| (bits >> (16 * part)) & 0xffff).sum();
        (sum as f64 / 65536.0 - 2.0) * 3.0_f64.sqrt()
    }

    pub fn one_of<T: Copy>(&mut self, all: &[T]) -> T {
        all[self.below(all.len())]
    }
}

/// Smooth noise of -1 to 1 on a plane, its grain about 1 wide.
pub fn noise(x: f64, y: f64, kind: u64) -> f64 {
    let (left, upper) = (x.floor(), y.floor());
    let (fx, fy) = (x - left, y - upper);
    let (sx, sy) = (fx * fx * (3.0 - 2.0 * fx), fy * fy * (3.0 - 2.0 * fy));
    let at = |dx: i64, dy: i64| {
        let (i, j) = ((left as i64 + dx) as u64, (upper as i64 + dy) as u64);
        let hash = mixed(
            i.wrapping_mul(STEP)
                .wrapping_add(j.wrapping_mul(0xc2b2_ae3d_27d4_eb4f))
                .wrapping_add(kind),
        );
        (hash >> 11) as f64 / (1_u64 << 52) as f64 - 1.0
    };
    let above = at(0, 0) * (1.0 - sx) + at(1, 0) * sx;
    let below = at(0, 1) * (1.0 - sx) + at(1, 1) * sx;
    above * (1.0 - sy) + below * sy
}
