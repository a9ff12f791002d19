//! What is quick against what is plain.

use crate::photo::find::patches::hulls;
use crate::photo::geometry::Point;
use crate::photo::image::Gray;
use crate::photo::image::edges::{Edges, UNITS};

use super::numbers::Numbers;

/// Soft bumps and noise.
fn picture(width: usize, height: usize) -> Gray {
    let mut random = Numbers::new(5);
    let value = |index: usize| {
        let (x, y) = ((index % width) as f64, (index / width) as f64);
        let bump = (0.11 * x).sin() * (0.07 * y + 0.02 * x).cos();
        (120.0 + 90.0 * bump + random.between(-12.0, 12.0)) as u8
    };
    Gray::new(width, height, (0..width * height).map(value).collect()).unwrap()
}

#[test]
fn reduced_by_every_factor() {
    let gray = picture(61, 47);
    for factor in 1..=7 {
        let small = gray.shrunk(factor);
        assert_eq!((small.width(), small.height()), (61 / factor, 47 / factor));
        for (index, got) in small.pixels().iter().enumerate() {
            let (x, y) = (index % small.width() * factor, index / small.width() * factor);
            let rows = (y..y + factor).flat_map(|y| &gray.row(y)[x..x + factor]);
            let mean = rows.map(|value| f64::from(*value)).sum::<f64>() / (factor * factor) as f64;
            assert!((f64::from(*got) - mean).abs() <= 0.5, "{factor}: {got} for {mean}");
        }
    }
}

/// The weights written out, and each ridge stronger than its two neighbours across it.
#[test]
fn gradients_and_ridges() {
    let gray = picture(83, 59);
    let edges = Edges::of(&gray);
    let at = |x: i32, y: i32| f64::from(gray.row(y.clamp(0, 58) as usize)[x.clamp(0, 82) as usize]);
    let binomial = [1.0, 4.0, 6.0, 4.0, 1.0];
    let smooth = |x: i32, y: i32| {
        let row = |dy: i32| {
            (0..5)
                .map(|k| binomial[k as usize] * at(x + k - 2, y + dy))
                .sum::<f64>()
        };
        ((0..5).map(|k| binomial[k as usize] * row(k - 2)).sum::<f64>() / 256.0).round()
    };
    let scharr = [3.0, 10.0, 3.0];
    for (x, y) in [(1, 1), (2, 30), (40, 2), (81, 57), (33, 17), (60, 44)] {
        let across = |dx: i32| {
            (0..3)
                .map(|k| scharr[k as usize] * smooth(x + dx, y + k - 1))
                .sum::<f64>()
        };
        let down = |dy: i32| {
            (0..3)
                .map(|k| scharr[k as usize] * smooth(x + k - 1, y + dy))
                .sum::<f64>()
        };
        let truth = Point::new(across(1) - across(-1), down(1) - down(-1)) * (1.0 / UNITS);
        assert_eq!(edges.gradient(x as isize, y as isize), truth, "{x} {y}");
    }
    assert_eq!(edges.gradient(0, 20), Point::default());
    let slope = |x: isize, y: isize| edges.gradient(x, y).length();
    let mut count = 0;
    for (x, y) in edges.places().map(|(x, y)| (x as isize, y as isize)) {
        let gradient = edges.gradient(x, y);
        let (across, down) = (
            gradient.x.abs() > 0.414 * gradient.y.abs(),
            gradient.y.abs() > 0.414 * gradient.x.abs(),
        );
        let dx = isize::from(across);
        let dy = isize::from(down) * if gradient.x * gradient.y < 0.0 && across { -1 } else { 1 };
        assert_eq!(edges.on_edge(x, y), Some(gradient));
        assert!(
            slope(x, y) >= slope(x + dx, y + dy).max(slope(x - dx, y - dy)),
            "{x} {y}"
        );
        count += 1;
    }
    assert_eq!(count, edges.count());
    assert!(count > 100, "{count}");
}

/// A patch is found at the level that parts it from its ground, as far in as thin lines are taken
/// away; one that touches the border, and a thin line, are not.
#[test]
fn patches_of_every_brightness() {
    let of = |areas: &[([usize; 4], u8)]| {
        let value = |index: usize| {
            let (x, y) = (index % 400, index / 400);
            let here = |([left, top, right, bottom], _): &&([usize; 4], u8)| {
                (*left..*right).contains(&x) && (*top..*bottom).contains(&y)
            };
            areas.iter().rev().find(here).map_or(100, |area| area.1)
        };
        let gray = Gray::new(400, 300, (0..400 * 300).map(value).collect()).unwrap();
        let (hulls, out) = hulls(&gray);
        let mut boxes: Vec<[i32; 4]> = hulls
            .iter()
            .map(|hull| {
                let most = |pick: fn(&Point) -> f64, sign: f64| {
                    let far = hull
                        .iter()
                        .map(|place| sign * pick(place))
                        .fold(f64::NEG_INFINITY, f64::max);
                    (far + out + 0.5 * sign) as i32 * sign as i32
                };
                [
                    most(|p| p.x, -1.0),
                    most(|p| p.y, -1.0),
                    most(|p| p.x, 1.0),
                    most(|p| p.y, 1.0),
                ]
            })
            .collect();
        boxes.sort_unstable();
        boxes.dedup();
        boxes
    };
    let (bright, dark) = ([60, 80, 160, 140], [220, 60, 300, 220]);
    assert_eq!(
        of(&[(bright, 200), (dark, 30)]),
        [[60, 80, 160, 140], [220, 60, 300, 220]]
    );
    // A gap between two, wide enough, parts them; at another level a bright middle is on its own.
    let inner = [240, 100, 280, 160];
    assert_eq!(
        of(&[(dark, 150), (inner, 220)]),
        [[220, 60, 300, 220], [240, 100, 280, 160]]
    );
    assert!(of(&[([0, 80, 100, 140], 200)]).is_empty());
    assert!(of(&[([60, 80, 260, 84], 200)]).is_empty());
}
