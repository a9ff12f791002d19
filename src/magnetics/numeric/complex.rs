//! Phasors: the little complex arithmetic that alternating currents need.

use std::ops::{Add, Div, Mul, Neg, Sub};

/// A complex number.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Complex {
    /// Real part.
    pub re: f64,
    /// Imaginary part.
    pub im: f64,
}

impl Complex {
    /// Zero.
    pub const ZERO: Self = Self { re: 0.0, im: 0.0 };
    /// One.
    pub const ONE: Self = Self { re: 1.0, im: 0.0 };

    /// `re + j im`.
    #[must_use]
    pub const fn new(re: f64, im: f64) -> Self {
        Self { re, im }
    }
    /// A real number.
    #[must_use]
    pub const fn real(re: f64) -> Self {
        Self { re, im: 0.0 }
    }
    /// A purely imaginary number.
    #[must_use]
    pub const fn imaginary(im: f64) -> Self {
        Self { re: 0.0, im }
    }
    /// Its size.
    #[must_use]
    pub fn size(self) -> f64 {
        self.re.hypot(self.im)
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self::new(self.re + other.re, self.im + other.im)
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self::new(self.re - other.re, self.im - other.im)
    }
}

impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        Self::new(-self.re, -self.im)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self::new(
            self.re * other.re - self.im * other.im,
            self.re * other.im + self.im * other.re,
        )
    }
}

impl Mul<f64> for Complex {
    type Output = Self;
    fn mul(self, factor: f64) -> Self {
        Self::new(self.re * factor, self.im * factor)
    }
}

impl Div for Complex {
    type Output = Self;
    fn div(self, other: Self) -> Self {
        let square = other.re * other.re + other.im * other.im;
        Self::new(
            (self.re * other.re + self.im * other.im) / square,
            (self.im * other.re - self.re * other.im) / square,
        )
    }
}

/// Solves the square system `m x = b` by elimination with row exchange; `None` where it has no
/// single solution.
#[must_use]
pub fn solve<const N: usize>(mut m: [[Complex; N]; N], mut b: [Complex; N]) -> Option<[Complex; N]> {
    for column in 0..N {
        let pivot = (column..N).max_by(|&p, &q| m[p][column].size().total_cmp(&m[q][column].size()))?;
        let largest = m[pivot][column].size();
        if !(largest.is_finite() && largest > 0.0) {
            return None;
        }
        m.swap(column, pivot);
        b.swap(column, pivot);
        for row in column + 1..N {
            let factor = m[row][column] / m[column][column];
            let above = m[column];
            for (slot, upper) in m[row].iter_mut().zip(above).skip(column) {
                *slot = *slot - factor * upper;
            }
            b[row] = b[row] - factor * b[column];
        }
    }
    let mut x = [Complex::ZERO; N];
    for row in (0..N).rev() {
        let known = (row + 1..N).fold(b[row], |sum, k| sum - m[row][k] * x[k]);
        x[row] = known / m[row][row];
    }
    Some(x)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (3 + 4j)/(1 + 2j) = 2.2 − 0.4j, and a system put back into itself.
    #[test]
    fn arithmetic() {
        let got = Complex::new(3.0, 4.0) / Complex::new(1.0, 2.0);
        assert!((got - Complex::new(2.2, -0.4)).size() < 1e-15);
        let m = [
            [Complex::ZERO, Complex::new(1.0, 2.0)],
            [Complex::new(3.0, -1.0), Complex::imaginary(1.0)],
        ];
        let b = [Complex::ONE, Complex::new(0.0, 5.0)];
        let x = solve(m, b).unwrap();
        for row in 0..2 {
            assert!((m[row][0] * x[0] + m[row][1] * x[1] - b[row]).size() < 1e-14);
        }
        assert!(solve([[Complex::ZERO; 2]; 2], b).is_none());
    }
}
