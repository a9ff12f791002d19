//! Flanks and windows, told from what is drawn.

use crate::photo::find::object_cues::{has_flank, is_brighter, is_dark, is_hole, windows};
use crate::photo::find::quads::Quad;
use crate::photo::geometry::Point;
use crate::photo::image::Gray;

type Area = ([usize; 2], [usize; 2], u8);

/// A picture of 400 × 300 with these areas, from and to, on a grey ground.
fn picture(areas: &[Area]) -> Gray {
    let value = |x: usize, y: usize| {
        let inside = |(from, to, _): &&Area| from[0] <= x && x < to[0] && from[1] <= y && y < to[1];
        areas.iter().rev().find(inside).map_or(110, |area| area.2)
    };
    let pixels = (0..400 * 300).map(|index| value(index % 400, index / 400)).collect();
    Gray::new(400, 300, pixels).unwrap()
}

fn corners(from: [f64; 2], to: [f64; 2]) -> [Point; 4] {
    [[from[0], from[1]], [to[0], from[1]], [to[0], to[1]], [from[0], to[1]]].map(|[x, y]| Point::new(x - 0.5, y - 0.5))
}

fn quad(from: [f64; 2], to: [f64; 2]) -> Quad {
    Quad {
        corners: corners(from, to),
        support: 1.0,
        weight: 1.0,
    }
}

#[test]
fn a_flank_below_a_face() {
    let outline = corners([100.0, 80.0], [260.0, 200.0]);
    let plain = picture(&[([100, 80], [260, 200], 200)]);
    assert!(!has_flank(&plain, &outline));
    let thick = picture(&[([100, 80], [260, 200], 200), ([100, 182], [260, 200], 160)]);
    assert!(has_flank(&thick, &outline));
    // What is printed on it is no flank: it does not go all along.
    let printed = picture(&[([100, 80], [260, 200], 200), ([120, 182], [200, 186], 60)]);
    assert!(!has_flank(&printed, &outline));
}

#[test]
fn windows_are_dark_and_two() {
    let (left, right) = (([100, 80], [130, 200], 30), ([190, 80], [220, 200], 30));
    let quads = [
        quad([100.0, 80.0], [130.0, 200.0]),
        quad([190.0, 80.0], [220.0, 200.0]),
        quad([300.0, 80.0], [330.0, 200.0]),
    ];
    let told = |gray: &Gray| {
        let dark: Vec<bool> = quads.iter().map(|quad| is_dark(gray, &quad.corners)).collect();
        windows(&quads, &dark)
    };
    let bright = ([300, 80], [330, 200], 220);
    assert_eq!(told(&picture(&[left, right, bright])), [true, true, false]);
    // One dark card alone is no window.
    assert_eq!(told(&picture(&[left, bright])), [false, false, false]);
    let gray = picture(&[left, bright]);
    assert!(is_brighter(&gray, &quads[2].corners) && !is_brighter(&gray, &quads[0].corners));
}

#[test]
fn a_hole_is_darker_than_black_print() {
    let outline = corners([100.0, 80.0], [130.0, 200.0]);
    let with = |value: u8| picture(&[([100, 80], [130, 200], value)]);
    assert!(is_hole(&with(15), &outline));
    assert!(is_dark(&with(60), &outline) && !is_hole(&with(60), &outline));
    // Of a hole that something lies in part of a side is as bright as what is round it.
    assert!(!is_hole(
        &picture(&[([100, 80], [130, 200], 15), ([80, 180], [160, 220], 110)]),
        &outline
    ));
}

#[test]
fn without_extent_nothing_is_told() {
    let gray = picture(&[]);
    assert!(!has_flank(&gray, &corners([10.0, 10.0], [20.0, 20.0])));
    assert!(!has_flank(&gray, &[Point::default(); 4]));
    assert!(windows(&[], &[]).is_empty());
}
