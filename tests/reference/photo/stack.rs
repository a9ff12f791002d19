//! The side of a core from the photo to the stack: a pile of sheets of a true size, level with a card.

use curbcore::app::photo::{OpenedPhoto, read_marks};
use curbcore::job::{PhotoReference, Reading};
use curbcore::photo::Point;
use curbcore::quantity::Origin;

use super::scenes::camera::Camera;
use super::scenes::layout::clutter;
use super::scenes::objects::Object;
use super::scenes::paint::{Bench, Paint};
use super::scenes::random::Random;
use super::scenes::render::Scene;
use super::scenes::studio::{alone, flat, rectangle};

/// Height of the side and of the card above the bench, in millimetres.
const LEVEL: f64 = 45.0;

/// What came of one photo.
enum Outcome {
    /// The card itself was not found without a doubt.
    NoCard,
    Missed,
    /// True stack, measured one and its ±, in millimetres; the doubts.
    Found(f64, Reading, Vec<&'static str>),
}

/// A pile of sheets lying on its side, a card packed up level with it, and clutter; its true stack.
fn scene(number: u64, long: usize) -> (Scene, f64) {
    let mut random = Random::of(77, number);
    let stack = random.between(25.0, 65.0);
    let length = random.between(60.0, 115.0).max(1.2 * stack);
    let iron = random.between(0.14, 0.34);
    let turn = random.between(-3.1, 3.1);
    let pile = Object {
        turn,
        high: LEVEL,
        flank: 0.6 * iron,
        ..flat(
            rectangle(length, stack, 0.0),
            Paint::Iron(iron, random.between(0.0, 1.0)),
        )
    };
    let beside = stack / 2.0 + 27.0 + random.between(8.0, 25.0);
    let card = Object {
        middle: Point::new(-turn.sin(), turn.cos()) * beside,
        turn: turn + random.between(-0.4, 0.4),
        low: 1.0,
        high: LEVEL,
        flank: 0.3,
        ..flat(
            rectangle(85.6, 53.98, 3.18),
            Paint::Card(random.between(0.55, 0.8), Point::new(42.8, 26.99)),
        )
    };
    let mut objects = vec![pile, card];
    clutter(&mut random, &mut objects, 1);
    let size = (long, long * 3 / 4);
    let (lean, way) = (random.between(0.0, 0.25), random.between(0.0, std::f64::consts::TAU));
    let target = [objects[1].middle.x / 2.0, objects[1].middle.y / 2.0, LEVEL];
    let distance = 1.15 * (length + 85.0).max(2.0 * beside + 60.0);
    let eye = [
        target[0] + distance * lean.sin() * way.cos(),
        target[1] + distance * lean.sin() * way.sin(),
        target[2] + distance * lean.cos(),
    ];
    let plain = alone(&mut random, size, objects[0].clone(), 0.4, 0.0);
    let benches = [Bench::Plain, Bench::Wood, Bench::Concrete, Bench::Cloth];
    let scene = Scene {
        camera: Camera::new(size, 0.8 * long as f64, eye, target, random.between(-3.1, 3.1)),
        bench: (random.one_of(&benches), random.between(0.06, 0.4)),
        lamp: ([random.between(-0.5, 0.5), random.between(-0.5, 0.5), 1.0], 0.05),
        ambient: 0.5,
        noise: 2.0,
        objects,
        ..plain
    };
    (scene, stack)
}

fn outcome(number: u64, long: usize) -> Outcome {
    let (scene, stack) = scene(number, long);
    let bytes = scene.photo();
    if let Ok(folder) = std::env::var("PICTURES") {
        std::fs::write(format!("{folder}/stack-{number}.jpg"), &bytes).unwrap();
    }
    let opened = OpenedPhoto::new(&bytes).unwrap();
    let mut marks = opened.empty_marks(PhotoReference::Card);
    marks.height_mm = Reading::new(0.0, 0.5, Origin::Chosen);
    let Ok(card) = opened.find(&marks.reference) else {
        return Outcome::NoCard;
    };
    if card.doubtful {
        return Outcome::NoCard;
    }
    marks.found = Some(card.found);
    let Some(found) = opened.find_stack(&marks, &|| false) else {
        return Outcome::Missed;
    };
    marks.marks = vec![found.mark];
    let row = read_marks(&marks).unwrap().rows.remove(0);
    assert_eq!(row.dimension, "stack");
    Outcome::Found(stack, row.reading.unwrap(), found.doubts)
}

/// The photo of the test.
const FOUND: u64 = 1;

/// The stack is found by itself, to be compared as always, without a further doubt; the true one lies within its ±.
#[test]
fn a_stack_is_found_by_itself() {
    let Outcome::Found(truth, reading, doubts) = outcome(FOUND, 1000) else {
        panic!("nothing was found")
    };
    assert_eq!(doubts, ["core-side"]);
    assert!(
        (reading.value - truth).abs() <= reading.plus_minus,
        "{truth} {reading:?}"
    );
    assert!(reading.plus_minus < 0.04 * truth, "{truth} {reading:?}");
}

/// A series of `SCENES` photos (60), 1600 pixels wide: three of five are found. `PICTURES` keeps the photos.
#[test]
#[ignore = "minutes"]
fn whole_stacks() {
    let count = std::env::var("SCENES")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(60);
    let (mut cards, mut right, mut flagged, mut within, mut wrong) = (0, 0, 0, 0, 0);
    let mut errors = Vec::new();
    for number in 0..count {
        match outcome(number, 1600) {
            Outcome::NoCard => continue,
            Outcome::Missed => println!("{number} MISSED"),
            Outcome::Found(truth, reading, doubts) => {
                let off = (reading.value / truth - 1.0).abs();
                // Another edge than the pile's is farther off.
                let is_right = off < 0.03;
                right += usize::from(is_right);
                flagged += usize::from(is_right && doubts.len() > 1);
                within += usize::from(is_right && (reading.value - truth).abs() <= reading.plus_minus);
                wrong += usize::from(!is_right && doubts.len() == 1);
                if is_right {
                    errors.push(off);
                }
                println!(
                    "{number} {truth:.2} is {:.2}±{:.2} {doubts:?}",
                    reading.value, reading.plus_minus
                );
            }
        }
        cards += 1;
    }
    errors.sort_by(f64::total_cmp);
    println!(
        "{cards} photos, found {right} ({flagged} with a further doubt), wrong without a further doubt {wrong}, median error {:.2} %, within their ± {within}",
        100.0 * errors.get(errors.len() / 2).copied().unwrap_or(f64::NAN),
    );
    assert!(5 * right >= 3 * cards);
}
