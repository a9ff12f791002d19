//! A length from several photos: against the Guide's own example, and against repeated trials.

use super::numbers::{Eye, Numbers};
use super::truth::{FRAME, Truth, edges, mm, perturbed, scene};
use crate::photo::geometry::Point;
use crate::photo::measure::combined::{OnePhoto, combined};
use crate::photo::measure::{PhotoLength, gap};
use crate::photo::reference::Reference;
use crate::photo::scale::lens::Lens;
use crate::photo::scale::pose::Focal;
use crate::photo::scale::{Options, Scale};
use crate::quantity::{Input, Length, Measured, Origin};

/// A length from these standard uncertainties, all in millimetres.
fn one(value: f64, parts: &[(Input, f64)], group: usize) -> OnePhoto {
    let sigma = parts.iter().map(|part| part.1 * part.1).sum::<f64>().sqrt();
    OnePhoto {
        length: PhotoLength {
            length: Measured::new(Length::from_mm(value), Length::from_mm(2.0 * sigma), Origin::Photo),
            variance_shares: Vec::new(),
            parts: parts.to_vec(),
        },
        group,
    }
}

/// JCGM 100:2008, 5.2.2, example: ten resistors of 1000 Ω, each calibrated against one standard with a standard
/// uncertainty of 0.1 Ω. Their sum has 1 Ω, as the common error adds up, and 0.32 Ω (0.316) if the errors were
/// independent. The mean is a tenth of the sum, millimetres in place of ohms.
#[test]
fn common_errors_do_not_average_out() {
    let of = |groups: [usize; 10]| {
        let photos = groups.map(|group| one(1000.0, &[(Input::ReferenceSize, 0.1)], group));
        let found = combined(&photos).unwrap();
        assert_eq!(found.taken.len(), 10);
        10.0 * found.length.plus_minus.mm() / 2.0
    };
    let (together, alone) = (of([0; 10]), of([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]));
    // A hundredth of a per cent is the least own error that is assumed: 0.32 for ten of 1000.
    let least = 0.1 * 10.0_f64.sqrt();
    assert!((together - 1.0_f64.hypot(least)).abs() < 1e-6, "{together}");
    assert!((alone - 0.316_227_8_f64.hypot(least)).abs() < 1e-6, "{alone}");
}

/// Four photos of one core from different sides, 500 trials: in each, size, height, lens and focal length are
/// drawn once for all four, and the points of each photo by themselves. The mean's ± agrees with its spread
/// within a tenth (JCGM 101:2008), and is wider than if all errors were independent.
#[test]
fn the_stated_spread_agrees_with_trials() {
    const TRIALS: u32 = 500;
    let reference = Reference::Card;
    let options = Options {
        height: mm(-10.0, 2.0),
        reference_noise: 1.0,
        point_noise: 1.5,
        lens: Lens {
            k: 0.0,
            plus_minus: 0.003,
        },
        focal: Some(Focal {
            pixels: 3200.0,
            spread: 0.08,
        }),
        face: None,
    };
    let eyes = [
        (0.1, 0.05, 0.3),
        (-0.12, 0.1, 1.2),
        (0.05, -0.15, -2.0),
        (-0.02, -0.05, 2.7),
    ];
    let eye = |(tilt, pan, roll): (f64, f64, f64), focal: f64| Eye {
        focal,
        centre: FRAME.centre(),
        tilt,
        pan,
        roll,
        target: Point::new(60.0, 50.0),
        distance: 420.0,
    };
    let mut numbers = Numbers::new(23);
    let (mut squares, mut stated, mut single, mut common) = (0.0, 0.0, 0.0, 0.0);
    for _ in 0..TRIALS {
        let drawn = scene(&mut numbers, &reference, &options, 0.0);
        let photos = eyes.map(|sides| {
            let truth = Truth {
                eye: eye(sides, drawn.eye.focal),
                ..drawn.clone()
            };
            let found = perturbed(&truth.found(&reference), options.reference_noise / 2.0, &mut numbers);
            let scale = Scale::new(FRAME, &reference, &found, &options).unwrap();
            let marked = edges(Point::new(95.0, 20.0), 32.0, 50.0, 0.4).map(|edge| {
                let shared = numbers.perturbed(Point::default(), options.point_noise / 4.0);
                let own = options.point_noise / 2.0 * 0.75_f64.sqrt();
                let picture = |place: &Point| truth.picture(*place, truth.height) + shared;
                edge.iter()
                    .map(|place| numbers.perturbed(picture(place), own))
                    .collect::<Vec<_>>()
            });
            OnePhoto {
                length: gap(&scale, &marked[0], &marked[1]).unwrap().distance,
                group: 0,
            }
        });
        let found = combined(&photos).unwrap();
        squares += (found.length.value.mm() - 32.0).powi(2);
        stated += found.length.plus_minus.mm() / f64::from(TRIALS);
        common += found.common.mm() / f64::from(TRIALS);
        single += photos[0].length.length.plus_minus.mm() / f64::from(TRIALS);
    }
    let seen = 2.0 * (squares / f64::from(TRIALS)).sqrt();
    println!("stated ± {stated}, trials ± {seen}, common ± {common}, one photo ± {single}");
    assert!(
        (stated / seen - 1.0).abs() < 0.1,
        "stated ± {stated} mm, trials ± {seen} mm"
    );
    assert!(
        common > 0.5 * stated,
        "the trials have next to no common error: ± {common} mm"
    );
    assert!(
        stated < 0.9 * single && stated > 1.1 * single / 2.0,
        "± {stated} mm, one photo ± {single} mm"
    );
}

/// A photo whose scale is known far worse would widen the ± and is left out; one photo alone keeps its own.
#[test]
fn a_photo_that_widens_the_spread_is_left_out() {
    let sharp = one(32.0, &[(Input::HeightOfTheFace, 0.1), (Input::MarkedPoints, 0.05)], 0);
    let rough = one(32.5, &[(Input::HeightOfTheFace, 2.0), (Input::MarkedPoints, 0.05)], 0);
    let found = combined(&[rough, sharp.clone()]).unwrap();
    assert_eq!(found.taken, [1]);
    assert_eq!(found.length.value, sharp.length.length.value);
    assert!((found.length.plus_minus.mm() - sharp.length.length.plus_minus.mm()).abs() < 1e-9);
    assert!((found.common.mm() - 0.2).abs() < 1e-9 && (found.own.mm() - 0.1).abs() < 1e-9);
    assert_eq!(combined(&[]), None);
}

/// Photos that differ by far more than their own errors say so, and the ± reaches both.
#[test]
fn photos_that_differ_are_told() {
    let photo = |value: f64| one(value, &[(Input::ReferenceSize, 0.05), (Input::MarkedPoints, 0.1)], 0);
    let agree = combined(&[photo(32.0), photo(32.1), photo(31.95)]).unwrap();
    assert!(!agree.differ && agree.length.plus_minus.mm() < 0.2);
    let found = combined(&[photo(31.5), photo(32.5)]).unwrap();
    assert!(found.differ && found.length.plus_minus.mm() >= 0.5, "{found:?}");
}
