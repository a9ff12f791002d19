//! Single steps on small rendered pictures: the search in clutter, image quality, snapping to an
//! edge, and the proposed parts of a core's face.

use curbcore::photo::find::core_parts::suggest_face;
use curbcore::photo::find::{FindError, FindWarning, FoundReference, Trust, find_reference};
use curbcore::photo::image::{Flaw, Quality};
use curbcore::photo::measure::core_face::find_core_face;
use curbcore::photo::measure::distance;
use curbcore::photo::measure::snap::snap;
use curbcore::photo::scale::{Options, Scale};
use curbcore::photo::{Dimension, Frame, Lens, Marks, Paper, Photo, Point, Reference, ReferenceOutline, Sheet};
use curbcore::quantity::{Length, Measured, Origin};

use super::scenes::objects::{Core, Inside, Object, Outline};
use super::scenes::paint::{Bench, Paint};
use super::scenes::random::Random;
use super::scenes::render::Scene;
use super::scenes::studio::{alone, cluttered, face, flat, is_in_view, outline, rectangle};

fn exact(mm: f64) -> Measured<Length> {
    Measured::exact(Length::from_mm(mm), Origin::Calipers)
}

/// A reference, its true outline, and its size in the picture as a share of the long side.
struct Kind {
    name: &'static str,
    reference: Reference,
    outline: Outline,
    share: (f64, f64),
}

fn kinds() -> [Kind; 6] {
    let kind = |name, reference, outline, share| Kind {
        name,
        reference,
        outline,
        share,
    };
    let disc = |mm: f64| Reference::Disc { diameter: exact(mm) };
    let own = Reference::Rectangle {
        width: exact(60.0),
        height: exact(40.0),
    };
    let rectangular = (0.2, 0.6);
    [
        kind("card", Reference::Card, rectangle(85.6, 53.98, 3.18), rectangular),
        kind(
            "paper",
            Reference::Paper(Paper::A4),
            rectangle(210.0, 297.0, 0.0),
            rectangular,
        ),
        kind("own", own, rectangle(60.0, 40.0, 0.0), rectangular),
        kind("disc", disc(25.75), Outline::Disc(12.875), (0.12, 0.45)),
        kind("large disc", disc(60.0), Outline::Disc(30.0), (0.12, 0.45)),
        kind(
            "target",
            Reference::target(Sheet::A4),
            rectangle(210.0, 297.0, 0.0),
            (0.6, 0.9),
        ),
    ]
}

fn object(kind: &Kind, light: f64) -> Object {
    let paint = match (kind.outline, kind.name) {
        (_, "target") => {
            let sheet = Sheet::A4;
            let corner = Point::new(sheet.origin().0.mm() - 105.0, sheet.origin().1.mm() - 148.5);
            Paint::Squares(sheet.columns(), sheet.rows(), sheet.square().mm(), corner)
        }
        (Outline::Rectangle(half, _), "card") => Paint::Card(light, half),
        (Outline::Rectangle(half, _), "paper") => Paint::Text(light, half),
        _ => Paint::Plain(light),
    };
    flat(kind.outline, paint)
}

/// A random scene of one kind.
fn random_scene(random: &mut Random, kind: &Kind, size: (usize, usize)) -> Scene {
    loop {
        let dark = random.chance(0.3) && kind.name != "target" && kind.name != "paper";
        let (light, ground) = if dark {
            (random.between(0.04, 0.12), random.between(0.3, 0.5))
        } else {
            (random.between(0.55, 0.85), random.between(0.08, 0.3))
        };
        let share = random.between(kind.share.0, kind.share.1);
        let tilt = random.between(0.0, 0.42);
        let scene = alone(random, size, object(kind, light), share, tilt);
        let mut scene = cluttered(scene, random);
        scene.bench = (random.one_of(&[Bench::Plain, Bench::Wood, Bench::Rust]), ground);
        scene.blur = random.between(0.5, 1.3);
        scene.noise = random.between(0.5, 4.0);
        if is_in_view(&scene, 8.0) {
            return scene;
        }
    }
}

fn find(scene: &Scene, reference: &Reference) -> Result<FoundReference, FindError> {
    find_reference(&Photo::from_gray(scene.gray()).unwrap(), reference)
}

/// Largest distance of the found outline from the true one, in pixels.
fn place_error(scene: &Scene, found: &ReferenceOutline) -> f64 {
    let truth = outline(scene);
    match found {
        ReferenceOutline::Rectangle(corners) => {
            let off = |turn: usize| {
                (0..4)
                    .map(|k| corners[k].distance(truth[(k + turn) % 4]))
                    .fold(0.0, f64::max)
            };
            (0..4).map(off).fold(f64::INFINITY, f64::min)
        }
        ReferenceOutline::Ellipse {
            centre,
            half_axes,
            angle,
        } => {
            let (sine, cosine) = angle.sin_cos();
            let outside = |place: &Point| {
                let from = *place - *centre;
                let (x, y) = (from.x * cosine + from.y * sine, from.y * cosine - from.x * sine);
                (from.length() * (1.0 - 1.0 / (x / half_axes.0).hypot(y / half_axes.1))).abs()
            };
            truth.iter().map(outside).fold(0.0, f64::max)
        }
        ReferenceOutline::Lattice(corners) => {
            let object = &scene.objects[0];
            let Paint::Squares(columns, rows, side, from) = object.paint else {
                panic!("no squares")
            };
            let node = |column: u32, row: u32| {
                let own = from + Point::new(f64::from(column) * side, f64::from(row) * side);
                scene.camera.sees(object.place(own, object.high))
            };
            let nodes: Vec<Point> = (0..=columns)
                .flat_map(|column| (0..=rows).map(move |row| (column, row)))
                .map(|(column, row)| node(column, row))
                .collect();
            let near = |corner: &Point| {
                nodes
                    .iter()
                    .map(|node| node.distance(*corner))
                    .fold(f64::INFINITY, f64::min)
            };
            corners.iter().map(|(_, _, corner)| near(corner)).fold(0.0, f64::max)
        }
        ReferenceOutline::Marks(_) => f64::INFINITY,
    }
}

/// Relative error of a length of 20 mm at the object's middle, measured with the found outline.
fn length_error(scene: &Scene, reference: &Reference, found: &ReferenceOutline) -> f64 {
    let frame = Frame::new(scene.camera.width as f64, scene.camera.height as f64);
    let options = Options {
        height: exact(0.0),
        lens: Lens::NONE,
        ..Options::default()
    };
    let scale = Scale::new(frame, reference, found, &options).unwrap();
    let object = &scene.objects[0];
    let at = |x: f64, y: f64| scene.camera.sees(object.place(Point::new(x, y), object.high));
    let got = distance(&scale, at(-8.0, -6.0), at(8.0, 6.0)).unwrap().length;
    (got.value.mm() / 20.0 - 1.0).abs()
}

/// Two scenes of every kind: found within 0.6 pixel, and a length within 2 %.
#[test]
fn references_in_clutter() {
    let mut random = Random::of(11, 0);
    for kind in kinds() {
        for _ in 0..2 {
            let scene = random_scene(&mut random, &kind, (400, 300));
            let found = find(&scene, &kind.reference).unwrap_or_else(|error| panic!("{}: {error}", kind.name));
            let place = place_error(&scene, &found.outline);
            let length = length_error(&scene, &kind.reference, &found.outline);
            assert!(
                place < 0.6 && length < 0.02,
                "{}: {place:.2} px, {length:.4}, {:?}",
                kind.name,
                found.warnings
            );
        }
    }
}

/// Without the reference in the picture: an error or a doubt, never a trusted result.
#[test]
fn a_missing_reference_is_no_trusted_result() {
    let mut random = Random::of(5, 0);
    for kind in kinds() {
        let mut scene = random_scene(&mut random, &kind, (320, 240));
        scene.objects.remove(0);
        let found = find(&scene, &kind.reference);
        assert!(
            found.as_ref().map_or(true, |found| found.trust == Trust::Doubtful),
            "{}: {found:?}",
            kind.name
        );
    }
}

/// A sheet of paper is never a trusted bank card, and a card is never taken for square.
#[test]
fn paper_is_told_from_a_card() {
    let mut random = Random::of(61, 0);
    let card = &kinds()[0];
    let paper = Kind {
        name: "paper",
        reference: Reference::Card,
        outline: rectangle(105.0, 148.0, 0.0),
        share: (0.25, 0.6),
    };
    let mut found_cards = 0;
    for _ in 0..12 {
        let sheet = random_scene(&mut random, &paper, (1200, 900));
        if let Ok(found) = find(&sheet, &Reference::Card) {
            assert_eq!(found.trust, Trust::Doubtful, "{:?}", found.outline);
        }
        let scene = random_scene(&mut random, card, (1200, 900));
        let found = find(&scene, &Reference::Card).unwrap();
        let square = found.warnings.contains(&FindWarning::SquareCorners);
        assert!(
            !square || place_error(&scene, &found.outline) > 6.0,
            "{:?}",
            found.warnings
        );
        found_cards += usize::from(place_error(&scene, &found.outline) < 2.0 && !square);
    }
    assert!(found_cards >= 11, "{found_cards} of 12 cards");
}

fn card_scene(random: &mut Random, light: f64, ground: f64) -> Scene {
    let outline = rectangle(85.6, 53.98, 3.18);
    let half = Point::new(42.8, 26.99);
    let mut scene = alone(random, (400, 300), flat(outline, Paint::Card(light, half)), 0.5, 0.2);
    scene.bench = (Bench::Wood, ground);
    scene
}

fn assessed(scene: &Scene) -> (Quality, Vec<Flaw>) {
    let photo = Photo::from_gray(scene.gray()).unwrap();
    let quality = Quality::of_photo(&photo);
    (quality, quality.flaws(photo.factor()))
}

#[test]
fn blur_is_flagged() {
    let mut widths = Vec::new();
    for blur in [0.7, 1.5, 3.0, 5.0] {
        let mut scene = card_scene(&mut Random::of(8, 0), 0.75, 0.2);
        scene.blur = blur;
        let (quality, flaws) = assessed(&scene);
        widths.push(quality.edge_width.unwrap());
        assert_eq!(flaws.contains(&Flaw::Blurred), blur > 2.5, "{blur}: {quality:?}");
    }
    assert!(widths.is_sorted(), "{widths:?}");
}

#[test]
fn glare_and_darkness_are_flagged() {
    let with = |light: f64, ground: f64| assessed(&card_scene(&mut Random::of(8, 0), light, ground));
    let (quality, flaws) = with(1.4, 0.3);
    assert!(quality.glare > 0.1 && flaws.contains(&Flaw::Glare), "{quality:?}");
    let (quality, flaws) = with(0.03, 0.01);
    assert!(quality.brightness < 60 && flaws.contains(&Flaw::Dark), "{quality:?}");
    assert_eq!(with(0.75, 0.2).1, []);
}

fn plain_scene() -> Scene {
    let object = flat(rectangle(60.0, 40.0, 0.0), Paint::Plain(0.75));
    let mut scene = alone(&mut Random::of(4, 0), (400, 300), object, 0.6, 0.2);
    scene.noise = 1.5;
    scene
}

/// Distance of a point from the line through two others.
fn off(place: Point, from: Point, to: Point) -> f64 {
    ((to - from).cross(place - from) / from.distance(to)).abs()
}

#[test]
fn snaps_to_a_side() {
    let scene = plain_scene();
    let gray = scene.gray();
    let corners = outline(&scene);
    for side in 0..4 {
        let (from, to) = (corners[side], corners[(side + 1) % 4]);
        let along = (to - from) * (1.0 / from.distance(to));
        let across = Point::new(-along.y, along.x);
        for shift in [-6.0, -2.5, 3.0, 7.0] {
            let place = from + (to - from) * 0.45 + across * shift;
            for direction in [None, Some(across), Some(across * 3.0 + along)] {
                let snapped = snap(&gray, place, direction, 10.0).unwrap();
                assert!(
                    off(snapped.place, from, to) < 0.2,
                    "side {side} {shift} {direction:?}: {snapped:?}"
                );
                assert!(snapped.noise < 0.3 && snapped.strength > 0.05, "{snapped:?}");
                assert!(snapped.place.distance(place) < 14.0);
                // Towards the bright object, to the right of a clockwise side.
                assert!(snapped.across.dot(across) > 0.8, "{snapped:?}");
            }
        }
    }
}

/// More noise in the picture gives a larger stated scatter.
#[test]
fn snapping_states_its_noise() {
    let scatter = |noise: f64| {
        let mut scene = plain_scene();
        scene.noise = noise;
        let corners = outline(&scene);
        let place = corners[0] + (corners[1] - corners[0]) * 0.5;
        snap(&scene.gray(), place, None, 6.0).unwrap().noise
    };
    let (little, much) = (scatter(1.0), scatter(12.0));
    assert!(much > 2.0 * little, "{little} {much}");
}

/// Tongue, window width and height, limb, yoke in millimetres: the usual proportions, a thick
/// tongue, narrow windows, a wide yoke.
const FACES: [[f64; 5]; 4] = [
    [30.0, 15.0, 45.0, 15.0, 15.0],
    [32.0, 14.0, 42.0, 12.0, 14.0],
    [38.0, 11.0, 34.0, 20.0, 18.0],
    [25.0, 12.5, 30.5, 12.5, 16.0],
];

/// Every proposed edge within 1.5 pixels of the true one.
#[test]
fn parts_of_a_core_face() {
    let mut random = Random::of(21, 0);
    for (index, [tongue, window_width, window_height, limb, yoke]) in FACES.into_iter().enumerate() {
        let core = Core {
            tongue,
            window_width,
            window_height,
            limb,
            yoke,
            inside: Inside::Dark,
            seam: 0.0,
        };
        let mut scene = alone(&mut random, (480, 360), face(core, 0.35), 0.45, 0.25);
        scene.bench = (Bench::Wood, 0.1);
        scene.noise = 2.0;
        assert!(is_in_view(&scene, 2.0), "{index}");
        let corners = outline(&scene);
        let parts = suggest_face(&scene.gray(), &[corners[0], corners[1], corners[2], corners[3]]).unwrap();
        assert!(parts.across_trust > 0.6 && parts.down_trust > 0.6, "{index}: {parts:?}");
        let object = &scene.objects[0];
        // The proposed point lies on the picture of a straight edge.
        let on_edge = |place: Point, from: Point, to: Point| {
            let [from, to] = [from, to].map(|own| scene.camera.sees(object.place(own, object.high)));
            let off = off(place, from, to);
            assert!(off < 1.5, "{index}: {place:?} is {off:.2} px off");
        };
        let upright = |place: Point, x: f64| on_edge(place, Point::new(x, -10.0), Point::new(x, 10.0));
        let level = |place: Point, y: f64| on_edge(place, Point::new(-10.0, y), Point::new(10.0, y));
        let (inner, outer) = (tongue / 2.0, tongue / 2.0 + window_width);
        for (places, expected) in [
            (parts.left_window, [-outer, -inner]),
            (parts.tongue, [-inner, inner]),
            (parts.right_window, [inner, outer]),
        ] {
            upright(places[0], expected[0]);
            upright(places[1], expected[1]);
        }
        level(parts.window_height[0], -window_height / 2.0);
        level(parts.window_height[1], window_height / 2.0);
    }
}

/// Faces are found with the scale known: every length within its ± and 2 %, no doubt; without the core
/// there is no face, or a doubt.
#[test]
fn faces_are_found() {
    let mut random = Random::of(33, 0);
    for (index, [tongue, window_width, window_height, limb, yoke]) in FACES.into_iter().take(2).enumerate() {
        let core = Core {
            tongue,
            window_width,
            window_height,
            limb,
            yoke,
            inside: Inside::Open,
            seam: 0.5,
        };
        let mut object = face(core, 0.3);
        object.high = 40.0;
        // 40 mm high, so that it comes nearer to the camera than the bench.
        let scene = alone(&mut random, (480, 360), object, 0.42, 0.2);
        let mut scene = cluttered(scene, &mut random);
        scene.bench = (Bench::Wood, 0.1);
        scene.noise = 2.0;
        assert!(is_in_view(&scene, 2.0), "{index}");
        let corners = outline(&scene);
        let whole = Reference::Rectangle {
            width: exact(2.0 * core.half().x),
            height: exact(2.0 * core.half().y),
        };
        let marked = ReferenceOutline::Rectangle([corners[0], corners[1], corners[2], corners[3]]);
        let options = Options {
            height: exact(0.0),
            lens: Lens::NONE,
            ..Options::default()
        };
        let frame = Frame::new(480.0, 360.0);
        let scale = Scale::new(frame, &whole, &marked, &options).unwrap();
        let photo = Photo::from_gray(scene.gray()).unwrap();
        let found = find_core_face(&photo, &scale, &marked, &|| false).unwrap();
        assert_eq!(found.doubts, [], "{index}");
        let marks = Marks {
            frame,
            reference: whole,
            outline: marked.clone(),
            options,
            marks: found.marks,
        };
        let readings = marks.readings(&scale);
        assert_eq!(readings.len(), 5);
        for (dimension, reading) in readings {
            let truth = match dimension {
                Dimension::Tongue => tongue,
                Dimension::WindowWidth => window_width,
                Dimension::WindowHeight => window_height,
                Dimension::OuterLimb => limb,
                _ => yoke,
            };
            let length = reading.unwrap().length.length;
            let off = (length.value.mm() - truth).abs();
            assert!(
                off <= length.plus_minus.mm() && off < 0.02 * truth,
                "{index}: {dimension:?} {truth} is {length:?}"
            );
        }
        if index == 0 {
            scene.objects.remove(0);
            let photo = Photo::from_gray(scene.gray()).unwrap();
            let found = find_core_face(&photo, &scale, &marked, &|| false);
            assert!(found.is_none_or(|found| !found.doubts.is_empty()));
        }
    }
}

/// The squares of the printed target have the proportions of an E-I face (1 to 0.5 to 1.5 tongues), and are none.
#[test]
fn the_printed_target_is_no_core() {
    let mut random = Random::of(8, 0);
    let kinds = kinds();
    let target = kinds.iter().find(|kind| kind.name == "target").unwrap();
    let mut scene = alone(&mut random, (640, 480), object(target, 0.8), 0.8, 0.1);
    scene.bench = (Bench::Plain, 0.2);
    let photo = Photo::from_gray(scene.gray()).unwrap();
    let found = find_reference(&photo, &target.reference).unwrap().outline;
    let options = Options {
        height: exact(0.0),
        ..Options::default()
    };
    let scale = Scale::new(Frame::new(640.0, 480.0), &target.reference, &found, &options).unwrap();
    let core = find_core_face(&photo, &scale, &found, &|| false);
    assert!(core.as_ref().is_none_or(|core| !core.doubts.is_empty()), "{core:?}");
}
