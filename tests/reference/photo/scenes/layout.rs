//! Placement of clutter on the bench.

use curbcore::photo::Point;

use super::objects::{Object, Outline};
use super::paint::Paint;
use super::random::Random;

/// A position beside the core for an object of this radius.
pub fn free_place(random: &mut Random, core: f64, reach: f64) -> Point {
    let (turn, far) = (random.between(0.0, std::f64::consts::TAU), random.between(0.85, 1.25));
    Point::new(turn.cos(), turn.sin()) * ((core + reach) * far)
}

/// Up to eight flat and tall objects, one of them sometimes similar to the reference or a steel
/// rule; none on the core or on the reference.
pub fn clutter(random: &mut Random, objects: &mut Vec<Object>, own: usize) {
    let kept: Vec<(Point, f64)> = [0, own]
        .map(|index| (objects[index].middle, objects[index].reach()))
        .to_vec();
    let reference = objects[own].clone();
    let count = random.below(8);
    let alike = random.chance(0.15);
    for index in 0..count + usize::from(alike) {
        let light = random.between(0.04, 0.85);
        let size = |random: &mut Random| random.between(2.0, 38.0);
        let mut object = Object {
            outline: if random.chance(0.35) {
                Outline::Disc(random.between(2.0, 25.0))
            } else {
                Outline::Rectangle(Point::new(size(random), size(random)), 0.0)
            },
            middle: Point::default(),
            turn: random.between(-3.1, 3.1),
            low: 0.0,
            high: if random.chance(0.5) {
                random.between(0.1, 3.0)
            } else {
                random.between(3.0, 30.0)
            },
            paint: Paint::Plain(light),
            flank: light * random.between(0.4, 1.0),
            core: None,
        };
        if index == count {
            // Of the reference's kind, and of nearly its proportions.
            let by = random.between(0.55, 0.9);
            object.outline = match reference.outline {
                Outline::Disc(radius) => Outline::Disc(radius * by),
                Outline::Rectangle(half, corner) => Outline::Rectangle(
                    Point::new(half.x * by, half.y * by * random.between(0.8, 1.25)),
                    corner * by,
                ),
            };
            object.high = object.high.min(6.0);
        } else if random.chance(0.12) {
            let half = Point::new(random.between(50.0, 150.0), random.between(6.0, 14.0));
            object.outline = Outline::Rectangle(half, 0.0);
            object.paint = Paint::Rule(light, half.x);
            object.high = 1.0;
        }
        let free = |middle: Point, reach: f64| kept.iter().all(|(other, far)| other.distance(middle) > far + reach);
        for _ in 0..30 {
            let to = kept[random.below(2)];
            let (turn, far) = (random.between(0.0, std::f64::consts::TAU), random.between(1.0, 1.8));
            object.middle = to.0 + Point::new(turn.cos(), turn.sin()) * ((to.1 + object.reach()) * far);
            if free(object.middle, object.reach()) {
                objects.push(object);
                break;
            }
        }
    }
}
