//! Discs: both planes of an ellipse, and lengths beside it.

use super::numbers::Numbers;
use super::truth::{FRAME, mm, scene};
use crate::photo::geometry::Point;
use crate::photo::measure::distance;
use crate::photo::reference::Reference;
use crate::photo::reference::ReferenceOutline;
use crate::photo::scale::ScaleWarning;
use crate::photo::scale::lens::Lens;
use crate::photo::scale::pose::{Camera, Focal};
use crate::photo::scale::round::Oval;
use crate::photo::scale::{Options, Scale};
use crate::quantity::Input;

fn options() -> Options {
    Options {
        height: mm(0.0, 0.0),
        reference_noise: 0.2,
        point_noise: 0.2,
        lens: Lens::NONE,
        focal: Some(Focal {
            pixels: 3200.0,
            spread: 0.0,
        }),
        face: None,
    }
}

const DISC: f64 = 60.0;

/// A circle that a camera projects: one of the two planes is the one it lies on.
#[test]
fn one_of_the_two_planes_is_the_true_one() {
    let mut numbers = Numbers::new(31);
    let reference = Reference::Disc {
        diameter: mm(DISC, 0.0),
    };
    for _ in 0..200 {
        let truth = scene(&mut numbers, &reference, &options(), 0.9);
        let ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } = truth.found(&reference)
        else {
            panic!("a disc is an ellipse")
        };
        let camera = Camera {
            focal: truth.eye.focal,
            centre: truth.eye.centre,
        };
        let planes = Oval::new(centre, half_axes, angle).planes(camera, DISC / 2.0).unwrap();
        let (a, b) = (Point::new(-20.0, 70.0), Point::new(90.0, 55.0));
        let best = planes
            .iter()
            .map(|plane| {
                let back = plane.map(camera, centre).unwrap().inverse().unwrap();
                let [a, b] = [a, b].map(|p| back.apply(truth.picture(p, 0.0)).unwrap());
                a.distance(b)
            })
            .min_by(|x, y| (x - a.distance(b)).abs().total_cmp(&(y - a.distance(b)).abs()))
            .unwrap();
        assert!(
            (best / a.distance(b) - 1.0).abs() < 1e-6,
            "{best} mm, expected {}",
            a.distance(b)
        );
    }
}

/// Lengths across the disc itself hardly depend on the lean; far from it the ± reaches the truth.
#[test]
fn the_spread_reaches_both_planes() {
    let mut numbers = Numbers::new(32);
    let reference = Reference::Disc {
        diameter: mm(DISC, 0.0),
    };
    let (mut near_widest, mut far_narrowest) = (0.0f64, f64::INFINITY);
    for trial in 0..200 {
        let truth = scene(&mut numbers, &reference, &options(), 0.6);
        let scale = Scale::new(FRAME, &reference, &truth.found(&reference), &options()).unwrap();
        assert!(scale.warnings.contains(&ScaleWarning::LeanUnknown));
        let measured = |a: Point, b: Point| {
            let [a, b] = [a, b].map(|p| truth.picture(p, 0.0));
            distance(&scale, a, b).unwrap().length
        };
        let check = |a: Point, b: Point| {
            let got = measured(a, b);
            let off = (got.value.mm() - a.distance(b)).abs();
            assert!(off <= got.plus_minus.mm(), "trial {trial}: {got:?} is {off} mm off");
            got.plus_minus.mm() / got.value.mm()
        };
        let near = check(Point::new(0.0, 30.0), Point::new(60.0, 30.0));
        let far = check(Point::new(110.0, 20.0), Point::new(150.0, 60.0));
        if truth.eye.lean() > 0.3 {
            (near_widest, far_narrowest) = (near_widest.max(near), far_narrowest.min(far));
        }
    }
    assert!(
        near_widest < 0.02 && far_narrowest > near_widest / 4.0,
        "{near_widest} {far_narrowest}"
    );
}

/// A disc that happens to look round is not taken for one seen from straight above.
#[test]
fn a_round_outline_still_may_lean() {
    let reference = Reference::Disc {
        diameter: mm(DISC, 0.0),
    };
    let round = ReferenceOutline::Ellipse {
        centre: FRAME.centre(),
        half_axes: (150.0, 150.0),
        angle: 0.0,
    };
    let far = [Point::new(2700.0, 1500.0), Point::new(2900.0, 1500.0)];
    let scale = Scale::new(
        FRAME,
        &reference,
        &round,
        &Options {
            reference_noise: 2.0,
            ..options()
        },
    )
    .unwrap();
    let got = distance(&scale, far[0], far[1]).unwrap();
    assert!(
        got.variance_shares
            .iter()
            .any(|share| share.input == Input::WhichWayTheDiscLeans),
        "{got:?}"
    );
}
