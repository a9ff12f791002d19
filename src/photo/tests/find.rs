//! References found in rendered photos, against where they were put.

use super::scene::{Ground, Random, Scene, Subject};
use crate::photo::find::{FoundReference, FindError, FindWarning, Trust, find_reference};
use crate::photo::perspective::Square;
use crate::photo::picture::Photo;
use crate::photo::reference::{Paper, Reference};
use crate::photo::target::Sheet;
use crate::photo::{Found, Gray, Point};
use crate::quantity::{Length, Measured, Origin};

/// How a find compares with the truth.
#[derive(Debug, Clone, Copy)]
struct Errors {
    /// Largest distance of a corner, or of the outline, in pixels.
    place: f64,
    /// Of a length beside the reference (of its own, for a disc), as a part of it.
    length: f64,
}

fn exact(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

fn errors(scene: &Scene, found: &ReferenceOutline) -> Errors {
    match (found, scene.subject) {
        (ReferenceOutline::Rectangle(corners), Subject::Rectangle(width, height, _)) => {
            rectangle_errors(scene, corners, width, height)
        }
        (
            &ReferenceOutline::Ellipse {
                centre,
                half_axes,
                angle,
            },
            Subject::Disc(_),
        ) => {
            let (sine, cosine) = angle.sin_cos();
            let outside = |place: &Point| {
                let from = scene.project(*place) - centre;
                let (x, y) = (from.x * cosine + from.y * sine, from.y * cosine - from.x * sine);
                let level = (x / half_axes.0).hypot(y / half_axes.1);
                from.length() * (1.0 - 1.0 / level)
            };
            let off: Vec<f64> = scene.outline().iter().map(outside).collect();
            let mean = off.iter().sum::<f64>() / off.len() as f64;
            Errors {
                place: off.iter().map(|off| off.abs()).fold(0.0, f64::max),
                length: mean.abs() / half_axes.0,
            }
        }
        (ReferenceOutline::Lattice(corners), Subject::Board(_, _, side)) => lattice_errors(scene, corners, side),
        other => panic!("{other:?}"),
    }
}

fn rectangle_errors(scene: &Scene, corners: &[Point; 4], width: f64, height: f64) -> Errors {
    let truth: Vec<Point> = scene.outline().iter().map(|place| scene.project(*place)).collect();
    let off = |turn: usize| {
        (0..4)
            .map(|index| corners[index].distance(truth[(index + turn) % 4]))
            .fold(0.0, f64::max)
    };
    // The first side is the width, from either end.
    let place = off(0).min(off(2));
    // A length across a core beside it, read through the found corners.
    let millimetres = |pixel: Point| {
        let (mut u, mut v) = (0.5, 0.5);
        for _ in 0..20 {
            let square = Square::of(corners).unwrap();
            let at = |u: f64, v: f64| square.place(u, v).unwrap();
            let here = pixel - at(u, v);
            let (du, dv) = ((at(u + 1e-5, v) - at(u, v)) * 1e5, (at(u, v + 1e-5) - at(u, v)) * 1e5);
            let cross = du.cross(dv);
            u += here.cross(dv) / cross;
            v += du.cross(here) / cross;
        }
        Point::new(u * width, v * height)
    };
    let size = width.min(height);
    let ends = [Point::new(-0.1 * size, 0.2 * size), Point::new(-0.3 * size, 0.9 * size)];
    let read = millimetres(scene.project(ends[0])).distance(millimetres(scene.project(ends[1])));
    Errors {
        place,
        length: (read / ends[0].distance(ends[1]) - 1.0).abs(),
    }
}

fn lattice_errors(scene: &Scene, corners: &[(i32, i32, Point)], side: f64) -> Errors {
    let (mut place, mut length) = (0.0_f64, 0.0_f64);
    for &(column, row, corner) in corners {
        let on_plane = scene.unproject(corner);
        let node = Point::new((on_plane.x / side).round() * side, (on_plane.y / side).round() * side);
        place = place.max(scene.project(node).distance(corner));
        if let Some((_, _, next)) = corners.iter().find(|other| other.0 == column + 1 && other.1 == row) {
            length = length.max((scene.unproject(*next).distance(on_plane) / side - 1.0).abs());
        }
    }
    // Over ten squares an error of one square's end counts a tenth.
    Errors {
        place,
        length: length / 10.0,
    }
}

fn find(scene: &Scene, reference: &Reference) -> Result<FoundReference, FindError> {
    find_reference(&Photo::from_gray(scene.render()).unwrap(), reference)
}

/// What can be looked for, and how it is drawn.
fn subjects() -> [(Reference, Subject, &'static str); 6] {
    [
        (Reference::Card, Subject::Rectangle(85.6, 53.98, 3.18), "card"),
        (
            Reference::Paper(Paper::A4),
            Subject::Rectangle(210.0, 297.0, 0.0),
            "paper",
        ),
        (
            Reference::Rectangle {
                width: exact(60.0),
                height: exact(40.0),
            },
            Subject::Rectangle(60.0, 40.0, 0.0),
            "own",
        ),
        (
            Reference::Disc { diameter: exact(25.75) },
            Subject::Disc(12.875),
            "disc",
        ),
        (
            Reference::Disc { diameter: exact(60.0) },
            Subject::Disc(30.0),
            "large disc",
        ),
        (Reference::target(Sheet::A4), Subject::Board(12, 15, 15.0), "target"),
    ]
}

/// One random scene: everything about it from the generator.
fn random_scene(random: &mut Random, subject: Subject, size: (usize, usize)) -> Scene {
    loop {
        let share = match subject {
            Subject::Disc(_) => random.between(0.12, 0.45),
            Subject::Rectangle(..) | Subject::Face(_) => random.between(0.2, 0.6),
            Subject::Board(..) => random.between(0.5, 0.85),
        };
        let tilt = random.between(0.0, 0.42);
        let things = random.below(6);
        let mut scene = Scene::new(random, size, subject, share, tilt).cluttered(random, things);
        scene.ground = [Ground::Plain, Ground::Wood, Ground::Rust][random.below(3)];
        let dark = random.unit() < 0.3 && !matches!(subject, Subject::Board(..));
        (scene.subject_light, scene.ground_light) = if dark {
            (random.between(0.04, 0.12), random.between(0.3, 0.5))
        } else {
            (random.between(0.55, 0.85), random.between(0.08, 0.3))
        };
        scene.blur = random.between(0.5, 1.3);
        scene.noise = random.between(0.5, 4.0);
        scene.blocks = if random.unit() < 0.5 {
            random.between(1.0, 5.0)
        } else {
            0.0
        };
        if scene.is_in_view(8.0) {
            return scene;
        }
    }
}

/// Of every kind of reference: found, and within a part of a pixel where nothing was flagged.
#[test]
fn finds_references_in_clutter() {
    let mut random = Random::new(11);
    for (reference, subject, name) in subjects() {
        for _ in 0..2 {
            let scene = random_scene(&mut random, subject, (400, 300));
            let candidate = find(&scene, &reference).unwrap_or_else(|error| panic!("{name}: {error}"));
            let errors = errors(&scene, &candidate.found);
            assert!(
                errors.place < 0.6 && errors.length < 0.02,
                "{name}: {errors:?} {:?}",
                candidate.warnings
            );
        }
    }
}

/// No reference in the picture: an error or a doubt, never a find to rely on.
#[test]
fn nothing_to_find_is_said() {
    let mut random = Random::new(5);
    for (reference, subject, name) in subjects() {
        let mut scene = random_scene(&mut random, subject, (320, 240));
        scene.subject_light = scene.ground_light;
        scene.subject = Subject::Disc(0.0);
        let found = find(&scene, &reference);
        assert!(
            found.as_ref().is_ok_and(|c| c.trust == Trust::Doubtful) || found.is_err(),
            "{name}: {found:?}"
        );
    }
}

/// An empty picture has nothing in it; a rule's marks are set by hand.
/// A bright card on an even ground, its middle at `middle` of 800 × 600.
fn card_at(middle: [usize; 2]) -> FoundReference {
    let inside = |x: usize, y: usize| x.abs_diff(middle[0]) <= 86 && y.abs_diff(middle[1]) <= 54;
    let value = |index: usize| if inside(index % 800, index / 800) { 210 } else { 90 };
    let gray = Gray::new(800, 600, (0..800 * 600).map(value).collect()).unwrap();
    find_reference(&Photo::from_gray(gray).unwrap(), &Reference::Card).unwrap()
}

#[test]
fn far_aside_is_a_doubt() {
    let near = card_at([450, 330]);
    assert_eq!((near.trust, near.warnings), (Trust::Good, vec![]));
    let far = card_at([640, 470]);
    assert_eq!(far.warnings, [FindWarning::Unlikely]);
}

#[test]
fn refusals() {
    let photo = Photo::from_gray(Gray::new(200, 150, vec![90; 30_000]).unwrap()).unwrap();
    for (reference, _, name) in subjects() {
        assert_eq!(find_reference(&photo, &reference), Err(FindError::Nothing), "{name}");
    }
    let rule = Reference::Rule { length: exact(100.0) };
    assert_eq!(find_reference(&photo, &rule), Err(FindError::ByHand));
}

/// Many scenes of a phone's reduced size, run by hand:
/// `cargo test --release photo::tests::find::many -- --ignored --nocapture`.
#[test]
#[ignore = "minutes"]
fn many() {
    let each: usize = std::env::var("SCENES")
        .ok()
        .and_then(|count| count.parse().ok())
        .unwrap_or(90);
    let mut total = (0, 0, 0, 0);
    let only = std::env::var("ONLY").unwrap_or_default();
    for (reference, subject, name) in subjects().into_iter().filter(|subject| subject.2.contains(&only)) {
        let mut random = Random::new(2024);
        let (mut missed, mut wrong, mut flagged_wrong, mut flagged) = (0, 0, 0, 0);
        let (mut places, mut lengths) = (Vec::new(), Vec::new());
        for index in 0..each {
            let mut scene = random_scene(&mut random, subject, (800, 600));
            scene.fine = 3;
            let Ok(candidate) = find(&scene, &reference) else {
                missed += 1;
                report(&scene, name, index, "missed", &[]);
                continue;
            };
            let errors = errors(&scene, &candidate.found);
            let doubtful = candidate.trust == Trust::Doubtful;
            flagged += usize::from(doubtful);
            if errors.place > 3.0 || errors.length > 0.02 {
                if doubtful {
                    flagged_wrong += 1;
                } else {
                    wrong += 1;
                }
                let what = format!(
                    "{} {errors:?} {:?}",
                    if doubtful { "wrong, flagged" } else { "WRONG" },
                    candidate.warnings
                );
                report(&scene, name, index, &what, &points(&candidate.found));
                continue;
            }
            places.push(errors.place);
            lengths.push(errors.length);
        }
        places.sort_by(f64::total_cmp);
        lengths.sort_by(f64::total_cmp);
        let at = |values: &[f64], part: f64| {
            values
                .get(((values.len() as f64 - 1.0) * part) as usize)
                .copied()
                .unwrap_or(f64::NAN)
        };
        println!(
            "{name:10} found {:.1} % wrong {wrong} flagged wrong {flagged_wrong} missed {missed} flagged {flagged}  places {:.3} {:.3} px  lengths {:.3} {:.3} %",
            100.0 * places.len() as f64 / each as f64,
            at(&places, 0.5),
            at(&places, 0.95),
            100.0 * at(&lengths, 0.5),
            100.0 * at(&lengths, 0.95),
        );
        total = (
            total.0 + each,
            total.1 + places.len(),
            total.2 + wrong,
            total.3 + missed,
        );
    }
    let (all, found, wrong, _) = total;
    println!(
        "all {all}: found {:.1} %, wrong and not flagged {:.2} %",
        100.0 * found as f64 / all as f64,
        100.0 * wrong as f64 / all as f64
    );
    assert!(found * 100 >= all * 95 && wrong * 200 < all);
}

fn points(found: &ReferenceOutline) -> Vec<Point> {
    match found {
        ReferenceOutline::Rectangle(corners) => corners.to_vec(),
        ReferenceOutline::Ellipse { centre, half_axes, .. } => vec![*centre, Point::new(half_axes.0, half_axes.1)],
        ReferenceOutline::Lattice(corners) => corners.iter().map(|corner| corner.2).collect(),
        ReferenceOutline::Marks(marks) => marks.to_vec(),
    }
}

/// Keeps the pictures that failed where `PICTURES` names a folder.
fn report(scene: &Scene, name: &str, index: usize, what: &str, at: &[Point]) {
    let short: Vec<String> = at.iter().take(4).map(|p| format!("({:.0},{:.0})", p.x, p.y)).collect();
    println!(
        "  {name} {index}: {what} {} {:?} blur {:.1} noise {:.1}",
        short.join(" "),
        scene.ground,
        scene.blur,
        scene.noise
    );
    if let Ok(folder) = std::env::var("PICTURES") {
        let gray = scene.render();
        let file = std::fs::File::create(format!("{folder}/{name}-{index}.png")).unwrap();
        let mut encoder = png::Encoder::new(file, gray.width() as u32, gray.height() as u32);
        encoder.set_color(png::ColorType::Grayscale);
        encoder.write_header().unwrap().write_image_data(gray.pixels()).unwrap();
    }
}
