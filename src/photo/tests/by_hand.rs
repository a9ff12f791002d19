//! Corners set by hand, in any order.

use super::numbers::Numbers;
use super::truth::{FRAME, mm, scene};
use crate::photo::geometry::Point;
use crate::photo::measure::distance;
use crate::photo::reference::ReferenceOutline;
use crate::photo::reference::{Paper, Reference};
use crate::photo::scale::homography::HomographyError;
use crate::photo::scale::lens::Lens;
use crate::photo::scale::rectangle_by_hand;
use crate::photo::scale::{Options, Scale, ScaleError};

#[test]
fn any_order_gives_the_same_lengths() {
    let mut numbers = Numbers::new(61);
    let options = Options {
        height: mm(0.0, 0.0),
        lens: Lens::NONE,
        ..Options::default()
    };
    for trial in 0..200 {
        let reference = if trial % 2 == 0 {
            Reference::Card
        } else {
            Reference::Paper(Paper::A5)
        };
        let mut truth = scene(&mut numbers, &reference, &options, 0.7);
        truth.stretch = (1.0, 1.0);
        let ReferenceOutline::Rectangle(mut corners) = truth.found(&reference) else {
            panic!("a rectangle")
        };
        for index in (1..4).rev() {
            corners.swap(index, (numbers.unit() * (index + 1) as f64) as usize);
        }
        let found = rectangle_by_hand(FRAME, &reference, corners, 1.0, None).unwrap();
        let scale = Scale::new(FRAME, &reference, &found, &options).unwrap();
        let ends = [Point::new(10.0, 5.0), Point::new(50.0, 35.0)].map(|place| truth.picture(place, 0.0));
        let got = distance(&scale, ends[0], ends[1]).unwrap().length.value.mm();
        assert!((got - 50.0).abs() < 1e-6, "trial {trial}: {got} mm, expected 50");
    }
}

#[test]
fn corners_that_make_no_rectangle() {
    let place = |x: f64, y: f64| Point::new(x, y);
    let dented = [
        place(0.0, 0.0),
        place(1000.0, 0.0),
        place(300.0, 250.0),
        place(0.0, 900.0),
    ];
    let refused = |reference: Reference, corners| rectangle_by_hand(FRAME, &reference, corners, 1.0, None).unwrap_err();
    assert_eq!(
        refused(Reference::Card, dented),
        ScaleError::Points(HomographyError::Folded)
    );
    let nowhere = [place(f64::NAN, 0.0); 4];
    assert_eq!(
        refused(Reference::Card, nowhere),
        ScaleError::Points(HomographyError::NotFinite)
    );
    let rule = Reference::Rule { length: mm(100.0, 0.1) };
    assert_eq!(refused(rule, dented), ScaleError::WrongKind);
}
