//! The stated ±: against many repeated trials, and against the truth of many scenes.

use super::numbers::{Eye, Numbers};
use super::truth::{FRAME, Truth, edges, mm, perturbed, scene};
use crate::photo::geometry::Point;
use crate::photo::measure::{distance, gap};
use crate::photo::reference::Coin;
use crate::photo::reference::Sheet;
use crate::photo::reference::{Paper, Reference};
use crate::photo::scale::lens::Lens;
use crate::photo::scale::pose::Focal;
use crate::photo::scale::{Options, Scale};

fn options() -> Options {
    Options {
        height: mm(0.0, 0.0),
        reference_noise: 1.0,
        point_noise: 1.5,
        lens: Lens::NONE,
        focal: Some(Focal {
            pixels: 3200.0,
            spread: 0.08,
        }),
        face: None,
    }
}

/// The ± of a gap against the spread of 700 trials in which every input is drawn from what is
/// stated about it, all else computed again each time. GUM, supplement 1 (JCGM 101:2008): the
/// distribution by random numbers.
fn against_trials(what: &str, reference: Reference, options: Options, lean: (f64, f64)) {
    let mut numbers = Numbers::new(11);
    let truth = Truth {
        eye: Eye {
            focal: 3200.0,
            centre: FRAME.centre(),
            tilt: lean.0,
            pan: lean.1,
            roll: 0.3,
            target: Point::new(60.0, 50.0),
            distance: 420.0,
        },
        stretch: (1.0, 1.0),
        height: options.height.value.mm(),
        lens: options.lens,
    };
    let marked = edges(Point::new(95.0, 20.0), 32.0, 50.0, 0.4).map(|edge| {
        edge.iter()
            .map(|place| truth.picture(*place, truth.height))
            .collect::<Vec<_>>()
    });
    let found = truth.found(&reference);
    let scale = Scale::new(FRAME, &reference, &found, &options).unwrap();
    let stated = gap(&scale, &marked[0], &marked[1]).unwrap();
    assert!(
        (stated.distance.length.value.mm() - 32.0).abs() < 0.01,
        "{what}: {:?}",
        stated.distance
    );
    let trials = 700;
    let mut squares = 0.0;
    for _ in 0..trials {
        let mut drawn = scene(&mut numbers, &reference, &options, 0.0);
        drawn.show_rim(&reference, scale.viewing_angle.unwrap().si(), &mut numbers);
        let known = options.focal.unwrap();
        let otherwise = Options {
            height: mm(drawn.height, options.height.plus_minus.mm()),
            lens: Lens {
                k: drawn.lens.k,
                plus_minus: options.lens.plus_minus,
            },
            focal: Some(Focal {
                pixels: drawn.eye.focal,
                spread: known.spread,
            }),
            ..options
        };
        let reference = sized(&reference, drawn.stretch);
        let found = perturbed(&found, options.reference_noise / 2.0, &mut numbers);
        let scale = Scale::new(FRAME, &reference, &found, &otherwise).unwrap();
        let marked = marked.clone().map(|edge| {
            // A quarter of the variance is the edge's own (see `maps`), the rest each mark's.
            let shared = numbers.perturbed(Point::default(), options.point_noise / 4.0);
            let own = options.point_noise / 2.0 * 0.75f64.sqrt();
            edge.iter()
                .map(|p| numbers.perturbed(*p + shared, own))
                .collect::<Vec<_>>()
        });
        let got = gap(&scale, &marked[0], &marked[1]).unwrap();
        squares += (got.distance.length.value.mm() - 32.0).powi(2);
    }
    let seen = 2.0 * (squares / f64::from(trials)).sqrt();
    let stated = stated.distance.length.plus_minus.mm();
    assert!(
        (stated / seen - 1.0).abs() < 0.1,
        "{what}: stated ± {stated} mm, trials ± {seen} mm"
    );
}

/// The reference with another size, its ± as before.
fn sized(reference: &Reference, (x, y): (f64, f64)) -> Reference {
    use crate::photo::reference::ReferenceShape;
    match reference.shape() {
        ReferenceShape::Rectangle { width, height, .. } => Reference::Rectangle {
            width: mm(width.value.mm() * x, width.plus_minus.mm()),
            height: mm(height.value.mm() * y, height.plus_minus.mm()),
        },
        ReferenceShape::Disc { diameter } => Reference::Disc {
            diameter: mm(diameter.value.mm() * x, diameter.plus_minus.mm()),
        },
        ReferenceShape::Marks { length } => Reference::Rule {
            length: mm(length.value.mm() * x, length.plus_minus.mm()),
        },
        ReferenceShape::Lattice { .. } => *reference,
    }
}

#[test]
fn stated_spread_is_that_of_trials() {
    let o = options();
    let exact = Reference::Rectangle {
        width: mm(80.0, 0.0),
        height: mm(60.0, 0.0),
    };
    against_trials("card", Reference::Card, o, (0.3, -0.2));
    against_trials("exact rectangle from above", exact, o, (0.0, 0.0));
    against_trials("paper", Reference::Paper(Paper::A5), o, (0.1, 0.3));
    let high = Options {
        height: mm(30.0, 2.0),
        ..o
    };
    against_trials("card below the face", Reference::Card, high, (0.25, 0.1));
    let bent = Options {
        lens: Lens {
            k: -0.05,
            plus_minus: 0.04,
        },
        ..o
    };
    against_trials("lens", Reference::Card, bent, (0.1, 0.1));
    let target = Reference::Target {
        sheet: Sheet::A4,
        check_line: mm(100.0, 0.0),
    };
    against_trials("target", target, o, (0.4, 0.1));
}

/// How often the truth lies within the stated ±, over scenes drawn from what is stated.
fn coverage(reference: Reference, options: Options, lean: f64, scenes: u32) -> f64 {
    let mut numbers = Numbers::new(21);
    let mut within = 0;
    for _ in 0..scenes {
        let mut truth = scene(&mut numbers, &reference, &options, lean);
        let seen_at = truth.eye.lean();
        truth.show_rim(&reference, seen_at, &mut numbers);
        // No camera's axis meets its picture quite in the middle.
        truth.eye.centre = numbers.perturbed(truth.eye.centre, 20.0);
        let from = Point::new(numbers.between(-20.0, 100.0), numbers.between(-30.0, 60.0));
        let (width, turned) = (numbers.between(15.0, 60.0), numbers.between(0.0, 3.0));
        let (s, c) = turned.sin_cos();
        let to = from + Point::new(c * width, s * width);
        let found = perturbed(&truth.found(&reference), options.reference_noise / 2.0, &mut numbers);
        let ends = [from, to].map(|p| numbers.perturbed(truth.picture(p, truth.height), options.point_noise / 2.0));
        let scale = Scale::new(FRAME, &reference, &found, &options).unwrap();
        let got = distance(&scale, ends[0], ends[1]).unwrap().length;
        if (got.value.mm() - width).abs() <= got.plus_minus.mm() {
            within += 1;
        }
    }
    100.0 * f64::from(within) / f64::from(scenes)
}

#[test]
fn truth_lies_within_the_stated_spread() {
    let full = Options {
        height: mm(0.0, 1.0),
        lens: Lens::default(),
        focal: None,
        face: None,
        ..options()
    };
    let check = |what: &str, reference: Reference, options: Options, lean: f64, most: f64| {
        let percent = coverage(reference, options, lean, 300);
        assert!(
            (90.0..=most).contains(&percent),
            "{what}: {percent} % within the stated ±"
        );
    };
    check("card", Reference::Card, full, 0.6, 99.0);
    let high = Options {
        height: mm(-25.0, 2.0),
        ..full
    };
    check("card above the face", Reference::Card, high, 0.6, 99.0);
    check("paper", Reference::Paper(Paper::A4), full, 0.6, 99.0);
    check("target", Reference::target(Sheet::A4), full, 0.6, 99.0);
    // A disc and two marks leave more open than any one scene uses up.
    check("coin", Reference::Coin(Coin::ALL[6]), full, 0.5, 100.0);
    check("rule", Reference::Rule { length: mm(100.0, 0.2) }, full, 0.2, 100.0);
}
