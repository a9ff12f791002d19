//! Four points and many: the map, its refusals and its uncertainty.

use super::numbers::Numbers;
use crate::photo::geometry::Point;
use crate::photo::scale::homography::{Homography, HomographyError};

fn points<const N: usize>(numbers: [(f64, f64); N]) -> [Point; N] {
    numbers.map(|(x, y)| Point::new(x, y))
}

/// An ID-1 card and a quadrilateral beside it; sides by OpenCV's findHomography and by a second
/// route (a plain 8 × 8 solution in numpy).
#[test]
fn sides_beside_a_card() {
    let card = points([(0.0, 0.0), (85.60, 0.0), (85.60, 53.98), (0.0, 53.98)]);
    let seen = points([(412.0, 310.0), (905.0, 342.0), (880.0, 655.0), (395.0, 610.0)]);
    let pairs: Vec<_> = card.into_iter().zip(seen).collect();
    let fit = Homography::fit(&pairs).unwrap();
    let back = fit.homography.inverse().unwrap();
    let other = points([(1000.0, 400.0), (1500.0, 460.0), (1460.0, 900.0), (980.0, 820.0)]);
    let flat = other.map(|point| back.apply(point).unwrap());
    for (index, expected) in [78.899, 73.029, 77.544, 72.304].into_iter().enumerate() {
        let got = flat[index].distance(flat[(index + 1) % 4]);
        assert!(
            (got / expected - 1.0).abs() < 1e-5,
            "side {index}: {got}, expected {expected}"
        );
    }
    assert!(
        fit.residual < 1e-9,
        "four points are met exactly, left {}",
        fit.residual
    );
}

#[test]
fn refusals() {
    let square = points([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]);
    let check = |seen: [(f64, f64); 4], expected: HomographyError| {
        let pairs: Vec<_> = square.into_iter().zip(points(seen)).collect();
        assert_eq!(Homography::fit(&pairs).unwrap_err(), expected, "{seen:?}");
    };
    check(
        [(0.0, 0.0), (50.0, 50.0), (100.0, 100.0), (0.0, 90.0)],
        HomographyError::Degenerate,
    );
    check([(5.0, 5.0); 4], HomographyError::Degenerate);
    check(
        [(0.0, 0.0), (100.0, 100.0), (100.0, 0.0), (0.0, 90.0)],
        HomographyError::Folded,
    );
    check(
        [(f64::NAN, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 90.0)],
        HomographyError::NotFinite,
    );
    let three: Vec<_> = square.into_iter().zip(square).take(3).collect();
    assert_eq!(Homography::fit(&three).unwrap_err(), HomographyError::TooFew(3));
    assert_eq!(Homography::fit(&[]).unwrap_err(), HomographyError::TooFew(0));
}

/// The spread of a mapped point over many noisy fits is the one that the moves foretell.
#[test]
fn moves_foretell_the_spread() {
    let mut numbers = Numbers::new(1);
    let truth = |p: Point| {
        let w = 1.0 + 0.0008 * p.x - 0.0006 * p.y;
        Point::new((400.0 + 5.0 * p.x + 0.4 * p.y) / w, (300.0 - 0.3 * p.x + 4.6 * p.y) / w)
    };
    let grid: Vec<Point> = (0..12)
        .map(|i| Point::new(f64::from(i % 4) * 25.0, f64::from(i / 4) * 30.0))
        .collect();
    for count in [4, 12] {
        let chosen: Vec<Point> = if count == 4 {
            [0, 3, 11, 8].map(|i| grid[i]).to_vec()
        } else {
            grid.clone()
        };
        let sigma = 0.7;
        let far = truth(Point::new(150.0, 40.0));
        let place = |map: &Homography| map.inverse().unwrap().apply(far).unwrap();
        let exact: Vec<_> = chosen.iter().map(|p| (*p, truth(*p))).collect();
        let fit = Homography::fit(&exact).unwrap();
        let foretold = fit
            .moved(sigma)
            .map(|(up, down)| ((place(&up).x - place(&down).x) / 2.0).powi(2))
            .sum::<f64>()
            .sqrt();
        let trials = 3000;
        let squares: f64 = (0..trials)
            .map(|_| {
                let pairs: Vec<_> = exact.iter().map(|(p, q)| (*p, numbers.perturbed(*q, sigma))).collect();
                (place(&Homography::fit(&pairs).unwrap().homography).x - 150.0).powi(2)
            })
            .sum();
        let seen = (squares / f64::from(trials)).sqrt();
        assert!(
            (foretold / seen - 1.0).abs() < 0.06,
            "{count} points: foretold {foretold}, seen {seen}"
        );
    }
}
