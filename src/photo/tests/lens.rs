//! Lenses that bend straight lines.

use super::numbers::Numbers;
use super::truth::FRAME;
use crate::photo::geometry::Point;
use crate::photo::scale::lens::{Lens, LensError};

/// Edges that are straight in the world, bent by a lens, marked with noise.
fn bent_edges(numbers: &mut Numbers, lens: Lens, noise: f64) -> Vec<Vec<Point>> {
    [
        ((300.0, 200.0), (3700.0, 260.0)),
        ((250.0, 2700.0), (3600.0, 2800.0)),
        ((350.0, 250.0), (300.0, 2750.0)),
    ]
    .map(|((x, y), (to_x, to_y))| {
        (0..7)
            .map(|i| {
                let part = f64::from(i) / 6.0;
                let straight = Point::new(x + part * (to_x - x), y + part * (to_y - y));
                numbers.perturbed(lens.bent(FRAME, straight).unwrap(), noise / 2.0)
            })
            .collect()
    })
    .to_vec()
}

#[test]
fn there_and_back() {
    for k in [-0.3, -0.02, 0.0, 1e-9, 0.15] {
        let lens = Lens { k, plus_minus: 0.0 };
        for (x, y) in [(0.0, 0.0), (1999.5, 1499.5), (3999.0, 10.0), (2500.0, 1200.0)] {
            let place = Point::new(x, y);
            let back = lens.bent(FRAME, lens.straightened(FRAME, place)).unwrap();
            assert!(back.distance(place) < 1e-8, "{k}: {place:?} came back as {back:?}");
        }
    }
    // By hand: at the corner, ρ = 1, a lens of −0.1 puts the place 1/0.9 farther out.
    let corner = Lens {
        k: -0.1,
        plus_minus: 0.0,
    }
    .straightened(FRAME, Point::new(3999.0, 2999.0));
    let rho2 = (1999.5f64.powi(2) + 1499.5f64.powi(2)) / 2500.0f64.powi(2);
    assert!((corner.x - (1999.5 + 1999.5 / (1.0 - 0.1 * rho2))).abs() < 1e-9);
}

/// The stated ± of a lens from edges is that of 500 trials, and the mean is the truth.
#[test]
fn lens_from_edges() {
    let mut numbers = Numbers::new(41);
    for k in [-0.12, 0.0, 0.03] {
        let truth = Lens { k, plus_minus: 0.0 };
        let (mut sum, mut squares, mut stated) = (0.0, 0.0, 0.0);
        let trials = 500;
        for _ in 0..trials {
            let edges = bent_edges(&mut numbers, truth, 2.0);
            let got = Lens::from_edges(FRAME, &edges, Lens::UNKNOWN, 2.0).unwrap();
            sum += got.k - k;
            squares += (got.k - k).powi(2);
            stated += got.plus_minus / f64::from(trials);
        }
        let (mean, seen) = (sum / f64::from(trials), 2.0 * (squares / f64::from(trials)).sqrt());
        assert!(mean.abs() < 0.15 * seen, "{k}: mean {mean} beside ± {seen}");
        // What is left may only widen it.
        assert!(
            (0.95..1.25).contains(&(stated / seen)),
            "{k}: stated ± {stated}, trials ± {seen}"
        );
    }
}

#[test]
fn lenses_that_edges_do_not_tell() {
    let short = vec![vec![Point::new(0.0, 0.0), Point::new(10.0, 0.0)]];
    assert_eq!(
        Lens::from_edges(FRAME, &short, Lens::UNKNOWN, 1.0),
        Err(LensError::TooFew)
    );
    assert_eq!(Lens::from_edges(FRAME, &[], Lens::UNKNOWN, 1.0), Err(LensError::TooFew));
    // A straight edge through the middle says nothing: the lens stays as it was known.
    let middle = FRAME.centre();
    let through = vec![[-900.0, 0.0, 900.0].map(|x| middle + Point::new(x, 0.0)).to_vec()];
    let got = Lens::from_edges(FRAME, &through, Lens::default(), 1.0).unwrap();
    assert!(
        got.k.abs() < 1e-9 && (got.plus_minus - Lens::default().plus_minus).abs() < 1e-6,
        "{got:?}"
    );
    // A half circle is no straight edge.
    let round: Vec<Point> = (0..9)
        .map(|i| (f64::from(i) * 0.4).sin_cos())
        .map(|(s, c)| Point::new(500.0 + 400.0 * c, 500.0 + 400.0 * s))
        .collect();
    let wide = Lens {
        k: 0.0,
        plus_minus: 0.4,
    };
    match Lens::from_edges(FRAME, &[round], wide, 1.0) {
        Err(error) => assert_eq!(error, LensError::NoAnswer),
        Ok(lens) => assert!(lens.plus_minus > 0.1, "{lens:?}"),
    }
}
