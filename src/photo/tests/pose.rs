//! Cameras that the tests made, found again.

use super::numbers::{Eye, Numbers};
use crate::photo::geometry::Frame;
use crate::photo::geometry::Point;
use crate::photo::scale::homography::Homography;
use crate::photo::scale::pose::{Camera, Focal, plausibility, rectangle_pairs};

const FRAME: Frame = Frame::new(4000.0, 3000.0);

fn eye(numbers: &mut Numbers, lean: f64) -> Eye {
    let round = numbers.between(0.0, std::f64::consts::TAU);
    Eye {
        focal: numbers.between(2600.0, 4200.0),
        centre: FRAME.centre(),
        tilt: lean * round.cos(),
        pan: lean * round.sin(),
        roll: numbers.between(-3.1, 3.1),
        target: Point::new(numbers.between(-20.0, 80.0), numbers.between(-20.0, 60.0)),
        distance: numbers.between(250.0, 500.0),
    }
}

fn card(eye: &Eye) -> [Point; 4] {
    [(0.0, 0.0), (85.6, 0.0), (85.6, 53.98), (0.0, 53.98)].map(|(x, y)| eye.sees(Point::new(x, y), 0.0))
}

/// The long side of a card is told from the short one at every viewing angle up to 60 degrees.
#[test]
fn the_long_side_is_told() {
    let mut numbers = Numbers::new(2);
    for trial in 0..400 {
        let lean = numbers.between(0.0, 60.0_f64.to_radians());
        let seen = card(&eye(&mut numbers, lean)).map(|p| numbers.perturbed(p, 0.5));
        let known = Focal::usual(FRAME);
        let misfit = |sides| plausibility(FRAME, &seen, sides, 1.0, known).unwrap().misfit;
        let (right, wrong) = (misfit((85.6, 53.98)), misfit((53.98, 85.6)));
        assert!(
            right < wrong,
            "trial {trial}: right {right}, wrong {wrong}, lean {}",
            lean.to_degrees()
        );
        assert!(right < 5.0, "trial {trial}: {right}");
    }
}

/// Where the view is steep the picture itself gives the focal length and the viewing angle.
#[test]
fn focal_length_of_a_steep_view() {
    let mut numbers = Numbers::new(3);
    for _ in 0..50 {
        let eye = eye(&mut numbers, 40.0_f64.to_radians());
        let seen = card(&eye);
        let got = plausibility(FRAME, &seen, (85.6, 53.98), 0.1, Focal::usual(FRAME)).unwrap();
        assert!(
            (got.focal / eye.focal - 1.0).abs() < 0.05,
            "{} for {}",
            got.focal,
            eye.focal
        );
        let fit = Homography::fit(&rectangle_pairs(&seen, 85.6, 53.98)).unwrap();
        let camera = Camera {
            focal: eye.focal,
            centre: eye.centre,
        };
        let lean = camera.viewing_angle(&fit.homography, eye.target).si();
        assert!((lean - eye.lean()).abs() < 1e-6, "{lean} {}", eye.lean());
    }
}

/// A plane lifted by the pose is the plane that a camera sees at that height.
#[test]
fn lifted_planes() {
    let mut numbers = Numbers::new(4);
    for height in [-20.0, -0.76, 0.0, 35.0] {
        let eye = eye(&mut numbers, 0.4);
        let fit = Homography::fit(&rectangle_pairs(&card(&eye), 85.6, 53.98)).unwrap();
        let camera = Camera {
            focal: eye.focal,
            centre: eye.centre,
        };
        let lifted = camera.lifted(&fit.homography, height).unwrap();
        for place in [Point::new(-30.0, 12.0), Point::new(120.0, 90.0)] {
            let (got, expected) = (lifted.apply(place).unwrap(), eye.sees(place, height));
            assert!(
                got.distance(expected) < 1e-6,
                "{height} mm: {got:?}, expected {expected:?}"
            );
        }
        assert!(camera.lifted(&fit.homography, 2000.0).is_none());
    }
}
