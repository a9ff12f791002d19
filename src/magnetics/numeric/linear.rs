//! Phasors, and small systems of equations.

use nalgebra::{Const, DimMin, SMatrix, SVector};

/// A complex number.
pub(crate) type Complex = nalgebra::Complex<f64>;

/// A real number as a complex one.
pub(crate) const fn real(re: f64) -> Complex {
    Complex::new(re, 0.0)
}

/// A purely imaginary number.
pub(crate) const fn imaginary(im: f64) -> Complex {
    Complex::new(0.0, im)
}

/// Solves the square system `m x = b`, rows in `m`; `None` where it has no single solution.
pub(crate) fn solve<T, const N: usize>(m: [[T; N]; N], b: [T; N]) -> Option<[T; N]>
where
    T: nalgebra::ComplexField,
    Const<N>: DimMin<Const<N>, Output = Const<N>>,
{
    let matrix = SMatrix::<T, N, N>::from_fn(|row, column| m[row][column].clone());
    let solved = matrix.lu().solve(&SVector::<T, N>::from(b))?;
    solved.iter().all(|x| x.clone().is_finite()).then(|| solved.into())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A system put back into itself, and one without a solution.
    #[test]
    fn a_system_is_solved() {
        let m = [
            [Complex::ZERO, Complex::new(1.0, 2.0)],
            [Complex::new(3.0, -1.0), imaginary(1.0)],
        ];
        let b = [Complex::ONE, Complex::new(0.0, 5.0)];
        let x = solve(m, b).unwrap();
        for row in 0..2 {
            assert!((m[row][0] * x[0] + m[row][1] * x[1] - b[row]).norm() < 1e-14);
        }
        assert!(solve([[Complex::ZERO; 2]; 2], b).is_none());
    }
}
