//! The live view on rendered frames: each hint has a scene that gives it and one that does not; a steady
//! good picture takes itself, and its lengths are then within the ± that was asked for.

use curbcore::photo::find::find_reference;
use curbcore::photo::live::{
    FRAME_SIDE, GOOD, Hint, LiveView, SEARCHED_EVERY, SPAN_MM, STEADY_FRAMES, Sight, frame_of_rgba,
};
use curbcore::photo::measure::distance;
use curbcore::photo::scale::{Options, Scale};
use curbcore::photo::{Frame, Paper, Photo, Point, Reference, ReferenceOutline};
use curbcore::quantity::{Length, Measured, Origin};

use super::scenes::camera::Camera;
use super::scenes::objects::{Core, Inside, Object, Outline};
use super::scenes::paint::{Bench, Paint};
use super::scenes::random::Random;
use super::scenes::render::Scene;
use super::scenes::studio::{alone, face, flat, rectangle};

/// Height of the core's face above the bench, in millimetres.
const FACE: f64 = 40.0;
/// Thickness of a card (ISO/IEC 7810).
const CARD: f64 = 0.76;
/// Pixels of the picture that is taken to one of the frame: a photo of 2560 pixels.
const TAKEN: f64 = 4.0;

/// How the camera is held.
#[derive(Clone, Copy)]
struct Held {
    /// Distance to the card, in millimetres.
    distance: f64,
    /// Lean from straight above, in degrees.
    lean: f64,
    /// Sideways, in millimetres.
    aside: f64,
    /// Long side of the picture, in pixels.
    side: usize,
}

/// Straight enough and near enough.
const WELL: Held = Held {
    distance: 210.0,
    lean: 6.0,
    aside: 0.0,
    side: FRAME_SIDE,
};

/// A card on a core's face, 10 mm to the right of its middle, and the bench around.
fn scene(held: Held) -> Scene {
    let core = Core {
        tongue: 34.0,
        window_width: 17.0,
        window_height: 51.0,
        limb: 17.0,
        yoke: 17.0,
        inside: Inside::Open,
        seam: 0.3,
    };
    let iron = Object {
        high: FACE,
        ..face(core, 0.2)
    };
    let card = Object {
        middle: Point::new(0.0, 20.0),
        turn: 0.12,
        low: FACE,
        high: FACE + CARD,
        ..flat(rectangle(85.6, 53.98, 3.18), Paint::Card(0.72, Point::new(42.8, 26.99)))
    };
    let size = (held.side, held.side * 3 / 4);
    let lean = held.lean.to_radians();
    let target = [held.aside, 10.0, FACE];
    let eye = [
        target[0] + held.distance * lean.sin() * 0.6,
        target[1] + held.distance * lean.sin() * 0.8,
        target[2] + held.distance * lean.cos(),
    ];
    Scene {
        camera: Camera::new(size, 0.8 * held.side as f64, eye, target, 0.05),
        objects: vec![card, iron],
        bench: (Bench::Wood, 0.3),
        lamp: ([0.3, -0.2, 1.0], 0.05),
        ambient: 0.6,
        noise: 2.0,
        ..alone(&mut Random::of(2, 0), size, face(core, 0.2), 0.3, 0.0)
    }
}

fn frame(scene: &Scene) -> Photo {
    Photo::from_gray(scene.gray()).unwrap()
}

/// What a live view shows at the end of these frames.
fn last_of(reference: &Reference, frames: &[&Photo]) -> Sight {
    let mut view = LiveView::new(*reference);
    let sights: Vec<Sight> = frames.iter().map(|frame| view.next(frame, TAKEN)).collect();
    sights.last().unwrap().clone()
}

/// The hint for a picture that does not change: in the first frame nobody knows yet whether it does.
fn hint(reference: &Reference, scene: &Scene) -> Hint {
    let frame = frame(scene);
    match last_of(reference, &[&frame]).hint {
        Hint::Still => last_of(reference, &[&frame; 4]).hint,
        hint => hint,
    }
}

fn card_hint(scene: &Scene) -> Hint {
    hint(&Reference::Card, scene)
}

/// A card on a core, held well: the picture takes itself after some frames, once.
#[test]
fn a_steady_picture_takes_itself_once() {
    let frame = frame(&scene(WELL));
    let mut view = LiveView::new(Reference::Card);
    let taken: Vec<bool> = (0..STEADY_FRAMES + 4).map(|_| view.next(&frame, TAKEN).take).collect();
    // In the first frame nobody knows yet whether the camera moves.
    let at = taken.iter().position(|take| *take);
    assert_eq!(at, Some(STEADY_FRAMES), "{:?}", view.next(&frame, TAKEN));
    assert_eq!(taken.iter().filter(|take| **take).count(), 1);
}

/// What was promised is kept: in the picture that is taken, a length in its middle is known within ± 1 %,
/// and the true length of the rendered scene lies within.
#[test]
fn the_picture_taken_gives_what_was_promised() {
    let held = Held {
        distance: 165.0,
        ..WELL
    };
    let small = frame(&scene(held));
    assert_eq!(LiveView::new(Reference::Card).next(&small, 2.0).hint, Hint::Still);
    let large = scene(Held {
        side: 2 * FRAME_SIDE,
        ..held
    });
    let photo = frame(&large);
    let found = find_reference(&photo, &Reference::Card).unwrap();
    let size = Frame::new(photo.full().width() as f64, photo.full().height() as f64);
    let thickness = Reference::Card.thickness();
    let options = Options {
        height: Measured::new(Length::from_mm(-CARD), thickness.plus_minus, Origin::Typical),
        ..Options::default()
    };
    let scale = Scale::new(size, &Reference::Card, &found.outline, &options).unwrap();
    let at = |x: f64| large.camera.sees([x, 10.0, FACE]);
    let length = distance(&scale, at(-SPAN_MM / 2.0), at(SPAN_MM / 2.0)).unwrap().length;
    let (value, half) = (length.value.mm(), length.plus_minus.mm());
    assert!((value - SPAN_MM).abs() <= half, "{value} ± {half}");
    assert!(half / value <= 1.02 * GOOD, "{value} ± {half}");
}

#[test]
fn nothing_is_told_from_a_card() {
    let mut without = scene(WELL);
    without.objects.clear();
    assert_eq!(card_hint(&without), Hint::Nothing);
    assert_eq!(card_hint(&scene(WELL)), Hint::Good);
}

#[test]
fn far_away_is_to_come_closer() {
    let far = Held {
        distance: 420.0,
        ..WELL
    };
    assert_eq!(card_hint(&scene(far)), Hint::Closer);
}

#[test]
fn a_leaning_camera_is_to_lean_less() {
    let leaning = Held { lean: 38.0, ..WELL };
    assert_eq!(card_hint(&scene(leaning)), Hint::Tilt);
}

#[test]
fn a_mirrored_lamp_is_to_be_left() {
    let mut mirrored = scene(WELL);
    mirrored.glare = Some((0, Point::new(8.0, 4.0), 22.0, 1.5));
    assert_eq!(card_hint(&mirrored), Hint::Glare);
}

#[test]
fn darkness_wants_light() {
    let mut dark = scene(WELL);
    dark.exposure = 0.03;
    assert_eq!(card_hint(&dark), Hint::Dark);
}

#[test]
fn a_card_that_is_cut_off_is_not_found() {
    let aside = scene(Held { aside: 105.0, ..WELL });
    assert_eq!(card_hint(&aside), Hint::Nothing);
}

/// A card that leans on something is seen as from a leaning camera.
#[test]
fn a_card_that_leans_is_to_lie_flat() {
    let mut leaning = scene(WELL);
    leaning.objects[0].outline = rectangle(85.6, 53.98 * 0.9, 3.18);
    assert_eq!(card_hint(&leaning), Hint::Tilt);
}

/// A hand's movement from frame to frame: it comes nearer, trembles, leans and swings aside by up to 8 mm.
fn in_hand(step: usize) -> Held {
    let at = step as f64;
    Held {
        distance: 300.0 * 0.97_f64.powf(at),
        lean: 8.0 + 6.0 * (0.5 * at).sin(),
        aside: 12.0 * (0.7 * at).sin(),
        ..WELL
    }
}

/// The largest distance of a true corner of the card from the nearest one of an outline, in pixels.
fn off(scene: &Scene, outline: &ReferenceOutline) -> f64 {
    let ReferenceOutline::Rectangle(corners) = outline else {
        panic!("{outline:?}")
    };
    let card = &scene.objects[0];
    let truth = [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| {
        scene
            .camera
            .sees(card.place(Point::new(42.8 * x, 26.99 * y), card.high))
    });
    let nearest = |place: &Point| {
        corners
            .iter()
            .map(|corner| corner.distance(*place))
            .fold(f64::INFINITY, f64::min)
    };
    truth.iter().map(nearest).fold(0.0, f64::max)
}

/// A card that is followed from frame to frame of a moving hand lies as near to the true one as a search of the
/// whole frame puts it; a frame is searched in the beginning and after [`SEARCHED_EVERY`] frames.
#[test]
fn a_followed_outline_is_as_exact_as_a_searched_one() {
    let mut view = LiveView::new(Reference::Card);
    let (mut followed, mut searched) = (0.0_f64, 0.0_f64);
    let mut whole = Vec::new();
    for step in 0..=SEARCHED_EVERY {
        let scene = scene(in_hand(step));
        let photo = frame(&scene);
        let sight = view.next(&photo, TAKEN);
        if sight.searched {
            whole.push(step);
        }
        followed = followed.max(off(&scene, &sight.outline.unwrap()));
        searched = searched.max(off(&scene, &find_reference(&photo, &Reference::Card).unwrap().outline));
    }
    assert_eq!(whole, [0, SEARCHED_EVERY]);
    assert!(followed < 0.5 && followed <= searched + 0.05, "{followed} {searched}");
}

/// A coin is followed, too.
#[test]
fn a_coin_is_followed() {
    let at = |aside: f64| {
        let mut one = scene(Held {
            distance: 120.0,
            aside,
            ..WELL
        });
        let coin = &mut one.objects[0];
        (coin.outline, coin.paint) = (Outline::Disc(12.0), Paint::Plain(0.75));
        one.objects.truncate(1);
        one
    };
    let mut view = LiveView::new(Reference::Disc {
        diameter: Measured::exact(Length::from_mm(24.0), Origin::Calipers),
    });
    for (step, aside) in [0.0, 1.5, 4.0].into_iter().enumerate() {
        let scene = at(aside);
        let sight = view.next(&frame(&scene), TAKEN);
        assert_eq!(sight.searched, step == 0, "{sight:?}");
        let Some(ReferenceOutline::Ellipse { centre, .. }) = sight.outline else {
            panic!("{sight:?}")
        };
        let coin = &scene.objects[0];
        let truth = scene.camera.sees(coin.place(Point::default(), coin.high));
        // The middle of the disc is not quite the middle of its ellipse.
        assert!(centre.distance(truth) < 1.0, "{centre:?} {truth:?}");
    }
}

/// A card that is gone is not followed any further: the first frame without it is searched.
#[test]
fn a_card_that_is_taken_away_is_not_followed() {
    let mut without = scene(WELL);
    let with = frame(&without);
    without.objects.remove(0);
    let without = frame(&without);
    let mut view = LiveView::new(Reference::Card);
    for _ in 0..3 {
        assert!(view.next(&with, TAKEN).outline.is_some());
    }
    assert!(view.next(&without, TAKEN).searched);
}

/// Ten minutes at ten frames a second, of a card that comes, moves and goes: the memory of the process stays
/// what it was after the first.
#[test]
#[cfg(target_os = "linux")]
#[ignore = "a minute with optimisation"]
fn ten_minutes_of_frames_take_no_more_memory() {
    let resident = || -> usize {
        let text = std::fs::read_to_string("/proc/self/statm").unwrap();
        4 * text.split_whitespace().nth(1).unwrap().parse::<usize>().unwrap()
    };
    let mut frames: Vec<Photo> = (0..20).map(|step| frame(&scene(in_hand(step)))).collect();
    let mut without = scene(WELL);
    without.objects.clear();
    frames.extend([frame(&without), frame(&without)]);
    let mut view = LiveView::new(Reference::Card);
    let mut after = Vec::new();
    for minute in 0..10 {
        for count in 0..600 {
            let photo = &frames[count % frames.len()];
            let rgba: Vec<u8> = photo
                .full()
                .pixels()
                .iter()
                .flat_map(|&grey| [grey, grey, grey, 255])
                .collect();
            let photo = frame_of_rgba(photo.full().width(), photo.full().height(), &rgba).unwrap();
            view.next(&photo, TAKEN);
        }
        after.push(resident());
        println!("{} minutes: {} kB", minute + 1, after[minute]);
    }
    assert!(after[9] <= after[0] + 1024, "{after:?}");
}

/// Two cards: which of them is meant is not known.
#[test]
fn two_cards_are_one_too_many() {
    let mut two = scene(Held {
        distance: 300.0,
        ..WELL
    });
    let mut other = two.objects[0].clone();
    other.middle = Point::new(0.0, -40.0);
    two.objects[0].middle = Point::new(0.0, 30.0);
    two.objects.push(other);
    assert_eq!(card_hint(&two), Hint::Alone);
}

/// A camera that moves by 6 mm from frame to frame, and one whose picture is smeared.
#[test]
fn a_moving_camera_is_to_be_held_still() {
    let at = |aside: f64| frame(&scene(Held { aside, ..WELL }));
    let frames = [at(0.0), at(6.0)];
    let [a, b] = &frames;
    let sight = last_of(&Reference::Card, &[a, b, a, b, a, b, a]);
    assert_eq!((sight.hint, sight.take), (Hint::Still, false));
}

/// A sheet of paper is known to 1.5 mm only: it gives no ± of 1 %, however near, and never takes itself.
#[test]
fn paper_is_taken_by_the_button() {
    let mut sheet = scene(Held {
        distance: 420.0,
        ..WELL
    });
    sheet.objects = vec![flat(rectangle(210.0, 148.0, 0.0), Paint::Plain(0.8))];
    let frame = frame(&sheet);
    let sight = last_of(&Reference::Paper(Paper::A5), &[&frame; STEADY_FRAMES + 2]);
    assert_eq!((sight.hint, sight.take), (Hint::Button, false));
    // The marks of a rule are not looked for.
    let rule = Reference::Rule {
        length: Measured::exact(Length::from_mm(100.0), Origin::Rule),
    };
    assert_eq!(hint(&rule, &sheet), Hint::Button);
}

/// The pictures of `photo/live/`: the frames of a camera for the page's test (`platform/web/test/live.test.js`)
/// and the bench; 1280 pixels wide, so that the picture taken has two pixels to one of the frame.
fn kept(name: &str) -> Vec<u8> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/photo/live/");
    std::fs::read(format!("{folder}{name}.jpg")).unwrap()
}

/// The kept pictures give the hints that they are named by.
#[test]
fn the_kept_frames_show_what_they_are_for() {
    for (name, hint) in [
        ("nothing", Hint::Nothing),
        ("closer", Hint::Closer),
        ("good", Hint::Still),
    ] {
        let full = Photo::decode(&kept(name)).unwrap();
        let frame = Photo::from_gray(full.full().shrunk(2)).unwrap();
        assert_eq!(LiveView::new(Reference::Card).next(&frame, 2.0).hint, hint, "{name}");
    }
}

/// Renders the kept pictures anew.
#[test]
#[ignore = "writes photo/live"]
fn render_the_kept_frames() {
    let held = |distance: f64| Held {
        distance,
        side: 2 * FRAME_SIDE,
        ..WELL
    };
    let mut without = scene(held(165.0));
    without.objects.clear();
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/tests/reference/photo/live");
    std::fs::create_dir_all(folder).unwrap();
    for (name, mut scene) in [
        ("nothing", without),
        ("closer", scene(held(330.0))),
        ("good", scene(held(165.0))),
    ] {
        scene.quality = 80;
        scene.noise = 1.0;
        std::fs::write(format!("{folder}/{name}.jpg"), scene.photo()).unwrap();
    }
}
