//! What is found in pictures, against what OpenCV finds in the same ones.

#![allow(clippy::unwrap_used)]

use curbcore::photo::Photo;
use curbcore::photo::find::{FoundReference, Trust, find_reference};
use curbcore::photo::{Point, Reference, ReferenceOutline, Sheet};
use curbcore::quantity::{Length, Measured, Origin};

/// The numbers of one picture's lines.
fn expected(picture: &str) -> Vec<Vec<f64>> {
    include_str!("photo/find.csv")
        .lines()
        .filter_map(|line| line.strip_prefix(picture)?.strip_prefix(','))
        .map(|line| line.split(',').skip(1).map(|number| number.parse().unwrap()).collect())
        .collect()
}

fn corners(picture: &str) -> Vec<Point> {
    expected(picture)
        .iter()
        .map(|numbers| Point::new(numbers[0], numbers[1]))
        .collect()
}

fn find(bytes: &[u8], reference: Reference) -> FoundReference {
    find_reference(&Photo::decode(bytes).unwrap(), &reference).unwrap()
}

fn exact(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

/// `findChessboardCorners` and `cornerSubPix` find 7 × 7 corners; ours lie within 0.1 pixel of
/// them, and any more that are found (none are expected) do not count.
#[test]
fn corners_of_squares() {
    let found = find(include_bytes!("photo/board.png"), Reference::target(Sheet::A4));
    let ReferenceOutline::Lattice(lattice) = found.outline else {
        panic!("{found:?}");
    };
    assert_eq!(found.trust, Trust::Good);
    let outside = corners("board");
    assert_eq!(outside.len(), 49);
    assert_eq!(lattice.len(), 49);
    for corner in outside {
        let nearest = lattice
            .iter()
            .map(|(_, _, ours)| ours.distance(corner))
            .fold(f64::INFINITY, f64::min);
        assert!(nearest < 0.1, "{corner:?}: {nearest}");
    }
}

/// `fitLine` on the half-level outline of each side: corners within 0.1 pixel.
#[test]
fn corners_of_a_rectangle() {
    let own = Reference::Rectangle {
        width: exact(60.0),
        height: exact(40.0),
    };
    let found = find(include_bytes!("photo/rectangle.png"), own);
    let ReferenceOutline::Rectangle(ours) = found.outline else {
        panic!("{found:?}");
    };
    assert_eq!(found.trust, Trust::Good, "{:?}", found.warnings);
    let outside = corners("rectangle");
    assert_eq!(outside.len(), 4);
    for corner in outside {
        let nearest = ours
            .iter()
            .map(|ours| ours.distance(corner))
            .fold(f64::INFINITY, f64::min);
        assert!(nearest < 0.1, "{corner:?}: {nearest}");
    }
}

/// `fitEllipse` on the half-level outline: centre and half axes within 0.1 pixel. On a photo of
/// an ancient coin, whose outline is no ellipse, within 3 % of its radius.
#[test]
fn outlines_of_discs() {
    let disc = Reference::Disc { diameter: exact(30.0) };
    let pictures: [(&str, &[u8], f64); 2] = [
        ("ellipse", include_bytes!("photo/ellipse.png"), 0.1),
        ("coin", include_bytes!("photo/coin.png"), 0.03 * 60.0),
    ];
    for (picture, bytes, within) in pictures {
        let found = find(bytes, disc);
        let ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } = found.outline
        else {
            panic!("{found:?}");
        };
        let [x, y, long, short, turn] = expected(picture)[0][..] else {
            panic!("{picture}");
        };
        let off = [
            centre.distance(Point::new(x, y)),
            (half_axes.0 - long).abs(),
            (half_axes.1 - short).abs(),
        ];
        assert!(off.iter().all(|off| *off < within), "{picture}: {off:?}");
        if picture == "ellipse" {
            assert!((angle - turn).sin().abs() < 0.005, "{angle} {turn}");
        }
    }
}
