//! The photo room's geometry against OpenCV (`tests/reference/photo/`).

#![allow(clippy::unwrap_used)]

use curbcore::photo::Focal;
use curbcore::photo::Lens;
use curbcore::photo::Reference;
use curbcore::photo::measure::distance;
use curbcore::photo::scale::homography::Homography;
use curbcore::photo::scale::{Options, Scale};
use curbcore::photo::{Frame, Point, ReferenceOutline, Sheet};
use curbcore::quantity::{Length, Measured, Origin};

const FRAME: Frame = Frame::new(4000.0, 3000.0);

/// One case's rows of one kind, as numbers.
struct Case<'a>(Vec<(&'a str, Vec<f64>)>);

impl Case<'_> {
    fn rows(&self, what: &str) -> Vec<Vec<f64>> {
        let of_kind = self.0.iter().filter(|row| row.0 == what);
        of_kind.map(|row| row.1.clone()).collect()
    }

    fn points(&self, what: &str) -> Vec<Point> {
        self.rows(what).iter().map(|row| Point::new(row[0], row[1])).collect()
    }
}

fn cases(text: &str) -> Vec<Case<'_>> {
    let mut cases: Vec<Case> = Vec::new();
    for line in text.lines().skip(1) {
        let mut cells = line.split(',');
        let index: usize = cells.next().unwrap().parse().unwrap();
        let what = cells.next().unwrap();
        let numbers = cells
            .filter(|cell| !cell.is_empty())
            .map(|cell| cell.parse().unwrap())
            .collect();
        if index == cases.len() {
            cases.push(Case(Vec::new()));
        }
        cases[index].0.push((what, numbers));
    }
    cases
}

fn mm(value: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(value), Origin::Calipers)
}

/// findHomography with method 0, from exact and from noisy pairs: the nine numbers to 1e-6 of the
/// largest of their row, and the sides of a quadrilateral to 1e-6.
#[test]
fn homographies() {
    let cases = cases(include_str!("photo/homography.csv"));
    assert_eq!(cases.len(), 50);
    for (index, case) in cases.iter().enumerate() {
        let pairs: Vec<(Point, Point)> = case
            .rows("pair")
            .iter()
            .map(|row| (Point::new(row[0], row[1]), Point::new(row[2], row[3])))
            .collect();
        let fit = Homography::fit(&pairs).unwrap();
        let tolerance = 1e-6;
        for (got, expected) in fit.homography.rows().iter().zip(case.rows("row")) {
            let largest = expected.iter().fold(0.0, |most: f64, x| most.max(x.abs()));
            for (got, expected) in got.iter().zip(&expected) {
                assert!(
                    (got - expected).abs() <= tolerance * largest,
                    "case {index}: {got}, expected {expected}"
                );
            }
        }
        let back = fit.homography.inverse().unwrap();
        let marks = case.rows("mark");
        let flat: Vec<Point> = marks
            .iter()
            .map(|row| back.apply(Point::new(row[0], row[1])).unwrap())
            .collect();
        for (side, row) in marks.iter().enumerate() {
            let got = flat[side].distance(flat[(side + 1) % 4]);
            let error = got / row[2] - 1.0;
            assert!(
                error.abs() <= tolerance,
                "case {index}, side {side}: {got}, expected {}",
                row[2]
            );
        }
    }
}

/// solvePnP's pose and projectPoints: lengths on a face up to 40 mm above or below the reference,
/// and the viewing angle, with the focal length known.
#[test]
fn faces_at_another_height() {
    let cases = cases(include_str!("photo/pose.csv"));
    assert_eq!(cases.len(), 30);
    for (index, case) in cases.iter().enumerate() {
        let size = &case.rows("size")[0];
        let corners: [Point; 4] = case.points("corner").try_into().unwrap();
        let ends = case.points("end");
        let answer = &case.rows("answer")[0];
        let options = Options {
            height: mm(size[2]),
            reference_noise: 0.1,
            point_noise: 0.1,
            lens: Lens::NONE,
            focal: Some(Focal {
                pixels: size[3],
                spread: 0.0,
            }),
            face: None,
        };
        let reference = Reference::Rectangle {
            width: mm(size[0]),
            height: mm(size[1]),
        };
        let scale = Scale::new(FRAME, &reference, &ReferenceOutline::Rectangle(corners), &options).unwrap();
        let got = distance(&scale, ends[0], ends[1]).unwrap().length.value.mm();
        assert!(
            (got / answer[0] - 1.0).abs() < 1e-6,
            "case {index}: {got} mm, expected {}",
            answer[0]
        );
        let angle = scale.viewing_angle.unwrap().degrees();
        assert!(
            (angle - answer[1]).abs() < 1e-4,
            "case {index}: {angle}°, expected {}°",
            answer[1]
        );
        assert_eq!(scale.warnings, []);
    }
}

/// projectPoints with a Brown coefficient: the target's lattice and straight edges each give the
/// lens, lengths are true within their ±, and without the lens they would be three times as far off.
#[test]
fn lenses() {
    let cases = cases(include_str!("photo/lens.csv"));
    assert_eq!(cases.len(), 20);
    let (mut within, mut squares, mut squares_without) = (0, 0.0, 0.0);
    for (index, case) in cases.iter().enumerate() {
        let corners = case.rows("corner");
        let found = corners
            .iter()
            .map(|row| (row[0] as i32, row[1] as i32, Point::new(row[2], row[3])));
        let found = ReferenceOutline::Lattice(found.collect());
        let (ends, expected) = (case.points("end"), case.rows("answer")[0][0]);
        let reference = Reference::Target {
            sheet: Sheet::A4,
            check_line: mm(100.0),
        };
        let options = |lens| Options {
            height: mm(0.0),
            reference_noise: 0.6,
            point_noise: 0.6,
            lens,
            focal: None,
            face: None,
        };
        let scale = Scale::new(FRAME, &reference, &found, &options(Lens::UNKNOWN)).unwrap();
        let got = distance(&scale, ends[0], ends[1]).unwrap().length;
        within += u32::from((got.value.mm() - expected).abs() <= got.plus_minus.mm());
        assert!(
            (got.value.mm() / expected - 1.0).abs() < 2e-3,
            "case {index}: {got:?}, expected {expected} mm"
        );
        let without = Scale::new(FRAME, &reference, &found, &options(Lens::NONE)).unwrap();
        let off = distance(&without, ends[0], ends[1]).unwrap().length;
        squares += (got.value.mm() / expected - 1.0).powi(2);
        squares_without += (off.value.mm() / expected - 1.0).powi(2);

        let mut edges = vec![Vec::new(); 3];
        for row in case.rows("edge") {
            edges[row[0] as usize].push(Point::new(row[1], row[2]));
        }
        let lens = Lens::from_edges(FRAME, &edges, Lens::UNKNOWN, 0.6).unwrap();
        // Brown's r(1 + k₁r²) is, to the first order, the division model with k = k₁ at the corner.
        let brown = case.rows("lens")[0][0];
        assert!(
            (lens.k - brown).abs() < 0.15 * brown.abs() + 0.006 + lens.plus_minus,
            "case {index}: {lens:?} for {brown}"
        );
        assert!((lens.k - scale.lens.k).abs() < 0.01 + lens.plus_minus + scale.lens.plus_minus);
    }
    assert!(within >= 17, "{within} of 20 within their ±");
    let ratio = f64::sqrt(squares_without / squares);
    assert!(
        ratio > 3.0,
        "without the lens the errors are only {ratio} times as large"
    );
}
