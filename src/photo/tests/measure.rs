//! Lengths, gaps, angles and the core's dimensions from marks.

use super::numbers::{Eye, Numbers};
use super::truth::{FRAME, Truth, edges, mark, mm};
use crate::photo::Gray;
use crate::photo::geometry::Point;
use crate::photo::measure::snap::snap;
use crate::photo::measure::{Dimension, Mark, Marks, Span};
use crate::photo::measure::{MeasureError, angle, distance, gap};
use crate::photo::reference::Reference;
use crate::photo::reference::ReferenceOutline;
use crate::photo::scale::ScaleWarning;
use crate::photo::scale::lens::Lens;
use crate::photo::scale::{Options, Scale, ScaleError};
use crate::quantity::{Input, Origin};

fn truth(tilt: f64) -> Truth {
    Truth {
        eye: Eye {
            focal: 3200.0,
            centre: FRAME.centre(),
            tilt,
            pan: 0.1,
            roll: -0.4,
            target: Point::new(60.0, 40.0),
            distance: 420.0,
        },
        stretch: (1.0, 1.0),
        height: 0.0,
        lens: Lens::NONE,
    }
}

fn options() -> Options {
    Options {
        height: mm(0.0, 0.0),
        lens: Lens::NONE,
        ..Options::default()
    }
}

fn card_scale(truth: &Truth) -> Scale {
    Scale::new(FRAME, &Reference::Card, &truth.found(&Reference::Card), &options()).unwrap()
}

fn seen(truth: &Truth, edges: [Vec<Point>; 2]) -> [Vec<Point>; 2] {
    edges.map(|edge| edge.iter().map(|place| truth.picture(*place, 0.0)).collect())
}

#[test]
fn lengths_and_angles_without_noise() {
    let truth = truth(0.5);
    let scale = card_scale(&truth);
    let at = |x: f64, y: f64| truth.picture(Point::new(x, y), 0.0);
    let got = distance(&scale, at(100.0, 10.0), at(130.0, 50.0)).unwrap().length;
    assert!(
        (got.value.mm() - 50.0).abs() < 1e-8 && got.origin == Origin::Photo,
        "{got:?}"
    );
    for degrees in [0.0, 30.0, 45.0, 90.0, 120.0] {
        let turned = f64::to_radians(degrees);
        let second = [0.0, 20.0, 45.0].map(|along| at(10.0 + along * turned.cos(), 70.0 + along * turned.sin()));
        let got = angle(&scale, &[at(0.0, 60.0), at(50.0, 60.0)], &second).unwrap();
        let expected = if degrees > 90.0 { 180.0 - degrees } else { degrees };
        assert!(
            (got.value.degrees() - expected).abs() < 1e-6,
            "{got:?}, expected {expected}°"
        );
        assert!(got.plus_minus.degrees() > 0.0);
    }
    let [first, second] = seen(&truth, edges(Point::new(20.0, 70.0), 23.5, 60.0, 1.1));
    let got = gap(&scale, &first, &second).unwrap();
    assert!((got.distance.length.value.mm() - 23.5).abs() < 1e-8);
    assert!(!got.is_askew() && got.out_of_parallel.value.si() < 1e-8);
}

#[test]
fn edges_that_are_not_parallel_are_named() {
    let truth = truth(0.2);
    let scale = card_scale(&truth);
    let at = |x: f64, y: f64| truth.picture(Point::new(x, y), 0.0);
    let got = gap(
        &scale,
        &[at(0.0, 70.0), at(60.0, 70.0)],
        &[at(0.0, 100.0), at(60.0, 105.0)],
    )
    .unwrap();
    assert!(got.is_askew());
    assert!((got.out_of_parallel.value.degrees() - (5.0f64 / 60.0).atan().to_degrees()).abs() < 1e-6);
    let one = [at(0.0, 70.0)];
    let same = [at(0.0, 70.0), at(0.0, 70.0)];
    for short in [&one[..], &same[..], &[]] {
        assert_eq!(
            gap(&scale, short, &[at(0.0, 100.0), at(60.0, 105.0)]),
            Err(MeasureError::TooFew)
        );
    }
}

/// A steep view has its horizon in the picture: above it there is no face.
#[test]
fn nothing_is_measured_beyond_the_horizon() {
    let mut steep = truth(1.2);
    steep.eye.roll = 0.0;
    let scale = card_scale(&steep);
    assert!(
        scale
            .warnings
            .iter()
            .any(|warning| matches!(warning, ScaleWarning::TooFlat { .. }))
    );
    let far = [Point::new(2000.0, 1e5), Point::new(2000.0, -1e5)];
    let missing = far.iter().filter(|point| scale.place(**point).is_none()).count();
    assert_eq!(missing, 1, "one side of the picture's plane is beyond the horizon");
    for point in far.iter().filter(|point| scale.place(**point).is_none()) {
        assert_eq!(
            distance(&scale, *point, Point::new(2000.0, 1500.0)),
            Err(MeasureError::NotOnFace)
        );
    }
}

/// On the reference's own plane a crop changes nothing: only the pose would need the middle.
#[test]
fn a_cropped_picture_measures_the_same() {
    let truth = truth(0.6);
    let found = truth.found(&Reference::Card);
    let ends = [Point::new(110.0, 20.0), Point::new(150.0, 70.0)].map(|p| truth.picture(p, 0.0));
    let whole = Scale::new(FRAME, &Reference::Card, &found, &options()).unwrap();
    let shift = Point::new(700.0, 300.0);
    let ReferenceOutline::Rectangle(corners) = found else {
        panic!("a card")
    };
    let cropped = Scale::new(
        crate::photo::geometry::Frame::new(2600.0, 2600.0),
        &Reference::Card,
        &ReferenceOutline::Rectangle(corners.map(|p| p - shift)),
        &options(),
    )
    .unwrap();
    let a = distance(&whole, ends[0], ends[1]).unwrap().length.value.mm();
    let b = distance(&cropped, ends[0] - shift, ends[1] - shift)
        .unwrap()
        .length
        .value
        .mm();
    assert!((a / b - 1.0).abs() < 1e-9, "{a} {b}");
}

#[test]
fn the_wrong_object_is_noticed() {
    let truth = truth(0.3);
    let found = truth.found(&Reference::Card);
    let named = |reference: &Reference| Scale::new(FRAME, reference, &found, &options()).map(|scale| scale.warnings);
    assert_eq!(named(&Reference::Card), Ok(vec![]));
    let turned = Reference::Rectangle {
        width: mm(53.98, 0.1),
        height: mm(85.6, 0.1),
    };
    let warnings = named(&turned).unwrap();
    assert!(
        warnings
            .iter()
            .any(|warning| matches!(warning, ScaleWarning::DoesNotFit { .. })),
        "{warnings:?}"
    );
    assert_eq!(
        named(&Reference::Disc {
            diameter: mm(30.0, 0.1)
        }),
        Err(ScaleError::WrongKind)
    );
    let high = Options {
        height: mm(450.0, 1.0),
        ..options()
    };
    assert_eq!(
        Scale::new(FRAME, &Reference::Card, &found, &high).unwrap_err(),
        ScaleError::AboveCamera
    );
    for wrong in [
        Options {
            height: mm(501.0, 1.0),
            ..options()
        },
        Options {
            reference_noise: -1.0,
            ..options()
        },
        Options {
            point_noise: f64::NAN,
            ..options()
        },
        Options {
            lens: Lens {
                k: 2.0,
                plus_minus: 0.0,
            },
            ..options()
        },
    ] {
        assert!(matches!(
            Scale::new(FRAME, &Reference::Card, &found, &wrong),
            Err(ScaleError::Option(_))
        ));
    }
}

/// Whatever is marked, there is an answer or a refusal, and every answer is a number.
#[test]
fn nonsense_is_refused_or_measured() {
    let mut numbers = Numbers::new(51);
    let mut wild = move || match (numbers.unit() * 12.0) as u32 {
        0 => f64::NAN,
        1 => f64::INFINITY,
        2 => 0.0,
        3 => 1e300,
        4 => -1e9,
        _ => numbers.between(-500.0, 5000.0),
    };
    for _ in 0..2000 {
        let mut point = || Point::new(wild(), wild());
        let corners = [point(), point(), point(), point()];
        let cases = [
            (Reference::Card, ReferenceOutline::Rectangle(corners)),
            (
                Reference::target(crate::photo::reference::Sheet::A4),
                ReferenceOutline::Lattice((0..6).map(|i| (i % 3, i / 3, point())).collect()),
            ),
            (
                Reference::Disc {
                    diameter: mm(30.0, 0.1),
                },
                ReferenceOutline::Ellipse {
                    centre: point(),
                    half_axes: (corners[0].x, corners[1].y),
                    angle: corners[2].x,
                },
            ),
            (
                Reference::Rule { length: mm(100.0, 0.1) },
                ReferenceOutline::Marks([corners[0], corners[1]]),
            ),
        ];
        let (a, b) = (point(), point());
        for (reference, found) in &cases {
            let Ok(scale) = Scale::new(FRAME, reference, found, &Options::default()) else {
                continue;
            };
            if let Ok(got) = distance(&scale, a, b) {
                assert!(
                    got.length.value.is_finite() && !got.length.plus_minus.si().is_nan(),
                    "{found:?}: {got:?}"
                );
            }
        }
    }
}

/// A core face: tongue once, both outer limbs, a window by its edges.
#[test]
fn dimensions_of_a_core() {
    let truth = truth(0.25);
    let down = std::f64::consts::FRAC_PI_2;
    let strip = |x: f64, width: f64| seen(&truth, edges(Point::new(x, 65.0), width, 55.0, down));
    let marks = Marks {
        frame: FRAME,
        reference: Reference::Card,
        outline: truth.found(&Reference::Card),
        options: options(),
        marks: vec![
            mark(Dimension::OuterLimb, strip(0.0, 16.0)),
            mark(Dimension::Tongue, strip(60.0, 32.0)),
            mark(Dimension::OuterLimb, strip(100.0, 16.0)),
            Mark {
                dimension: Dimension::WindowHeight,
                span: Span::Points([Point::new(0.0, 65.0), Point::new(0.0, 113.0)].map(|p| truth.picture(p, 0.0))),
            },
        ],
    };
    let scale = marks.scale().unwrap();
    let readings = marks.readings(&scale);
    let order: Vec<Dimension> = readings.iter().map(|reading| reading.0).collect();
    assert_eq!(
        order,
        [Dimension::Tongue, Dimension::WindowHeight, Dimension::OuterLimb]
    );
    let get = |index: usize| readings[index].1.clone().unwrap();
    for (index, expected, places) in [(0, 32.0, 1), (1, 48.0, 1), (2, 16.0, 2)] {
        let got = get(index);
        assert!(
            (got.length.length.value.mm() - expected).abs() < 1e-8 && got.places == places,
            "{got:?}"
        );
        assert!(got.length.length.plus_minus.mm() > 0.0 && !got.length.variance_shares.is_empty());
    }
    // Two places average out the hand, not the scale.
    let once = gap(&scale, &strip(0.0, 16.0)[0], &strip(0.0, 16.0)[1])
        .unwrap()
        .distance
        .length
        .plus_minus;
    let twice = get(2).length.length.plus_minus;
    assert!(twice < once && twice.mm() > 0.5 * once.mm(), "{once:?} {twice:?}");
    assert!(marks.lens().unwrap().k.abs() < 1e-6);

    // Places that differ by 1 mm: the mean, and a ± that says so (1 mm / √2 / √2 standard).
    let mut uneven = marks.clone();
    uneven.marks[2] = mark(Dimension::OuterLimb, strip(100.0, 17.0));
    let got = uneven.readings(&scale)[2].1.clone().unwrap();
    assert!((got.length.length.value.mm() - 16.5).abs() < 1e-8);
    assert!((0.9..1.3).contains(&got.length.length.plus_minus.mm()), "{got:?}");
    assert_eq!(got.length.variance_shares[0].input, Input::PlacesDiffer);
}

#[test]
fn snapping_without_an_edge_is_none() {
    let plain = Gray::new(100, 100, vec![77; 10_000]).unwrap();
    for direction in [
        None,
        Some(Point::new(1.0, 0.0)),
        Some(Point::default()),
        Some(Point::new(f64::NAN, 0.0)),
    ] {
        assert_eq!(snap(&plain, Point::new(50.0, 50.0), direction, 10.0), None);
    }
    for place in [Point::new(-3.0, 5.0), Point::new(f64::NAN, 5.0), Point::new(5.0, 1e300)] {
        assert_eq!(snap(&plain, place, None, f64::INFINITY), None);
    }
}
