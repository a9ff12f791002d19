//! What a camera does to light: blur, encoding, the blocks of a JPEG.

use std::f64::consts::PI;

/// IEC 61966-2-1.
pub fn encoded(light: f32) -> f32 {
    if light <= 0.003_130_8 {
        12.92 * light
    } else {
        1.055 * light.powf(1.0 / 2.4) - 0.055
    }
}

/// A Gaussian, rows then columns.
pub fn blur(light: &mut [f32], width: usize, sigma: f64) {
    if sigma < 0.1 {
        return;
    }
    let reach = (3.0 * sigma).ceil() as isize;
    let mut weights: Vec<f32> = (-reach..=reach)
        .map(|k| (-(k * k) as f64 / (2.0 * sigma * sigma)).exp() as f32)
        .collect();
    let sum: f32 = weights.iter().sum();
    for weight in &mut weights {
        *weight /= sum;
    }
    let height = light.len() / width;
    let pass = |from: &[f32], step: usize, count: usize, along: usize, lines: usize| {
        let mut to = vec![0.0; from.len()];
        for line in 0..lines {
            for index in 0..count {
                let at =
                    |k: isize| from[line * along + (index as isize + k).clamp(0, count as isize - 1) as usize * step];
                to[line * along + index * step] = (-reach..=reach).zip(&weights).map(|(k, w)| at(k) * w).sum();
            }
        }
        to
    };
    let rows = pass(light, 1, width, width, height);
    light.copy_from_slice(&pass(&rows, width, height, 1, width));
}

/// What a JPEG loses: each block of 8 × 8 transformed, its terms rounded to steps that grow with
/// their frequency, and transformed back.
pub fn quantise(values: &mut [f32], width: usize, step: f32) {
    let basis: Vec<f32> = (0..64)
        .map(|index| {
            let (k, n) = (index / 8, index % 8);
            let scale = if k == 0 { (0.125_f64).sqrt() } else { 0.5 };
            (scale * (PI * f64::from(k) * (f64::from(n) + 0.5) / 8.0).cos()) as f32
        })
        .collect();
    let height = values.len() / width;
    for top in (0..height / 8).map(|row| row * 8) {
        for left in (0..width / 8).map(|column| column * 8) {
            let at = |index: usize| (top + index / 8) * width + left + index % 8;
            let block: Vec<f32> = (0..64).map(|index| values[at(index)]).collect();
            let half: Vec<f32> = (0..64)
                .map(|i| (0..8).map(|n| basis[i % 8 * 8 + n] * block[i / 8 * 8 + n]).sum())
                .collect();
            let mut terms: Vec<f32> = (0..64)
                .map(|i| (0..8).map(|n| basis[i / 8 * 8 + n] * half[n * 8 + i % 8]).sum())
                .collect();
            for (index, term) in terms.iter_mut().enumerate() {
                let size = step * (1.0 + 0.5 * (index / 8 + index % 8) as f32);
                *term = (*term / size).round() * size;
            }
            let half: Vec<f32> = (0..64)
                .map(|i| (0..8).map(|k| basis[k * 8 + i / 8] * terms[k * 8 + i % 8]).sum())
                .collect();
            for index in 0..64 {
                values[at(index)] = (0..8).map(|k| basis[k * 8 + index % 8] * half[index / 8 * 8 + k]).sum();
            }
        }
    }
}
