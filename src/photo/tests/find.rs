//! Doubts and refusals on drawn pictures. Rendered scenes are in `tests/reference/photo/`.

use std::cell::Cell;

use crate::photo::find::{FindError, FindWarning, FoundReference, Trust, find_reference};
use crate::photo::{Gray, Paper, Photo, Reference, Sheet, find_reference_unless};
use crate::quantity::{Length, Measured, Origin};

fn exact(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

/// A bright card with round corners on an even ground, its middle at `middle` of 800 × 600.
fn card_at(middle: [usize; 2]) -> FoundReference {
    let inside = |x: usize, y: usize| {
        let (u, v) = (86.5 - x.abs_diff(middle[0]) as f64, 54.5 - y.abs_diff(middle[1]) as f64);
        let radius = 6.4;
        u > 0.0 && v > 0.0 && (u > radius || v > radius || (radius - u).hypot(radius - v) < radius)
    };
    let value = |index: usize| if inside(index % 800, index / 800) { 210 } else { 90 };
    let gray = Gray::new(800, 600, (0..800 * 600).map(value).collect()).unwrap();
    find_reference(&Photo::from_gray(gray).unwrap(), &Reference::Card).unwrap()
}

#[test]
fn far_off_centre_is_a_doubt() {
    let near = card_at([450, 330]);
    assert_eq!((near.trust, near.warnings), (Trust::Good, vec![]));
    let far = card_at([640, 470]);
    assert_eq!(far.warnings, [FindWarning::Unlikely]);
}

/// Drawn as the card above, but with square corners: as likely a sheet of paper.
#[test]
fn a_card_with_square_corners_is_a_doubt() {
    let inside = |x: usize, y: usize| x.abs_diff(450) <= 260 && y.abs_diff(330) <= 164;
    let value = |index: usize| if inside(index % 900, index / 900) { 210 } else { 90 };
    let gray = Gray::new(900, 660, (0..900 * 660).map(value).collect()).unwrap();
    let found = find_reference(&Photo::from_gray(gray).unwrap(), &Reference::Card).unwrap();
    assert_eq!(
        (found.trust, found.warnings),
        (Trust::Doubtful, vec![FindWarning::SquareCorners])
    );
}

/// An empty picture has nothing in it; a rule's marks are set by hand.
#[test]
fn refusals() {
    let photo = Photo::from_gray(Gray::new(200, 150, vec![90; 30_000]).unwrap()).unwrap();
    let references = [
        Reference::Card,
        Reference::Paper(Paper::A4),
        Reference::Rectangle {
            width: exact(60.0),
            height: exact(40.0),
        },
        Reference::Disc { diameter: exact(25.75) },
        Reference::target(Sheet::A4),
    ];
    for reference in references {
        assert_eq!(
            find_reference(&photo, &reference),
            Err(FindError::Nothing),
            "{reference:?}"
        );
    }
    let rule = Reference::Rule { length: exact(100.0) };
    assert_eq!(find_reference(&photo, &rule), Err(FindError::ByHand));
}

/// A cancelled search ends at the stage that it has come to.
#[test]
fn a_cancelled_search_ends_at_its_next_stage() {
    let inside = |x: usize, y: usize| x.abs_diff(450) <= 260 && y.abs_diff(330) <= 164;
    let value = |index: usize| if inside(index % 900, index / 900) { 210 } else { 90 };
    let photo = Photo::from_gray(Gray::new(900, 660, (0..900 * 660).map(value).collect()).unwrap()).unwrap();
    let disc = Reference::Disc { diameter: exact(25.75) };
    for (reference, stages) in [(Reference::Card, 5), (disc, 4), (Reference::target(Sheet::A4), 3)] {
        let asked = Cell::new(0);
        let search = |stop_at: u32| {
            asked.set(0);
            find_reference_unless(&photo, &reference, &|| {
                asked.set(asked.get() + 1);
                asked.get() > stop_at
            })
        };
        let whole = search(u32::MAX);
        assert_eq!(whole, find_reference(&photo, &reference));
        let all = asked.get();
        assert!(all >= stages, "{reference:?} asks {all} times");
        for stop_at in 0..all {
            assert_eq!(
                search(stop_at),
                Err(FindError::Cancelled),
                "{reference:?}, stage {stop_at}"
            );
            assert_eq!(asked.get(), stop_at + 1, "{reference:?} went on");
        }
    }
}
