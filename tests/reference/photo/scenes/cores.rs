//! Scenes for the search for a core's face: an E-I core as it comes out of an oven, with the object of
//! known size beside it or on a part of its face.

use curbcore::job::Reading;
use curbcore::photo::Point;
use curbcore::quantity::Origin;

use super::camera::Space;
use super::layout::{clutter, free_place};
use super::objects::{Core, Inside, Object, Outline, Part};
use super::paint::{Bench, Paint};
use super::plan::{Plan, StatedReference, camera, photographed, stand, stated_reference};
use super::random::Random;

/// Positions sampled along an edge of the face.
const PLACES: usize = 40;
/// Distance on either side of an edge at which its contrast is taken, in millimetres.
const BESIDE: f64 = 0.8;
/// Ratio of light from which an edge is clear.
const CLEAR_STEP: f64 = 1.2;
/// Share of an edge that must be clear.
const CLEAR_SHARE: f64 = 0.75;

impl Plan {
    /// The scene of this number in the series of cores of this seed; `long` is the picture's long side.
    pub fn of_core(seed: u64, number: u64, long: Option<usize>) -> Self {
        let mut random = Random::of(seed, number + (1 << 40));
        loop {
            if let Some(plan) = Self::tried_core(&mut random, long) {
                return plan;
            }
        }
    }

    fn tried_core(random: &mut Random, long: Option<usize>) -> Option<Self> {
        let reference = stated_reference(random);
        let core = random_core(random);
        let height = random.between(30.0, 75.0);
        let iron = random.between(0.12, 0.36);
        let rust = if random.chance(0.3) {
            random.between(1.0, 2.0)
        } else {
            random.unit()
        };
        let mut objects = vec![Object {
            outline: Outline::Rectangle(core.half(), 0.0),
            middle: Point::default(),
            turn: random.between(-3.1, 3.1),
            low: 0.0,
            high: height,
            paint: Paint::Iron(iron, rust),
            flank: iron * random.between(0.5, 1.1),
            core: Some(core),
        }];
        let bench = (random.one_of(&Bench::ALL), random.between(0.06, 0.45));
        let (lies, stated) = beside(random, &reference, &core, height);
        let behind = if lies.low == height { iron } else { bench.1 };
        if (reference.light / behind).ln().abs() < 1.5_f64.ln() {
            return None;
        }
        objects.extend(stand(random, &lies, height));
        let own = objects.len();
        objects.push(lies);
        if random.chance(0.12) {
            objects.push(coil(random, &objects[0], &core));
        }
        clutter(random, &mut objects, own);
        let camera = camera(random, &objects, own, long)?;
        let lens = random.chance(0.08);
        let mut scene = photographed(random, camera, objects, bench, own, lens);
        if random.chance(0.2) {
            // Varnish mirrors the lamp.
            let half = core.half();
            let at = Point::new(random.between(-half.x, half.x), random.between(-half.y, half.y));
            scene.glare = Some((0, at, random.between(8.0, 25.0), random.between(0.1, 0.5)));
        }
        let plan = Self {
            name: reference.name,
            reference: reference.stated,
            height: stated,
            object: own,
            spans: Vec::new(),
            straight: Vec::new(),
            hand: Random::of(scene.seed, 5),
            scene,
        };
        let shown = |place: &Space| plan.scene.camera.shows(*place, 6.0);
        (plan.reference_in_sight() && plan.outline().iter().all(shown)).then_some(plan)
    }

    /// The core's dimensions, in millimetres.
    pub fn core(&self) -> Core {
        self.scene.objects[0].core.unwrap()
    }

    /// The twelve corners of the core's face in the picture: the outline's clockwise from the upper left,
    /// then the left window's and the right window's.
    pub fn core_corners(&self) -> [Point; 12] {
        let core = self.core();
        let (half, inner) = (core.half(), core.tongue / 2.0);
        let (outer, rim) = (inner + core.window_width, core.window_height / 2.0);
        let box_of = |left: f64, right: f64, rim: f64| {
            [(left, -rim), (right, -rim), (right, rim), (left, rim)].map(|(x, y)| Point::new(x, y))
        };
        let boxes = [
            box_of(-half.x, half.x, half.y),
            box_of(-outer, -inner, rim),
            box_of(inner, outer, rim),
        ];
        let object = &self.scene.objects[0];
        std::array::from_fn(|index| {
            let place = boxes[index / 4][index % 4];
            self.scene.camera.sees(object.place(place, object.high))
        })
    }

    /// Pixels per millimetre at the middle of the core's face.
    pub fn pixels_per_mm(&self) -> f64 {
        let object = &self.scene.objects[0];
        let at = |x: f64, y: f64| self.scene.camera.sees(object.place(Point::new(x, y), object.high));
        let (x, y) = (at(0.5, 0.0) - at(-0.5, 0.0), at(0.0, 0.5) - at(0.0, -0.5));
        x.cross(y).abs().sqrt()
    }

    /// Whether the photo is as the instructions ask: the camera within 25° of straight above, and each of
    /// the twelve edges of the face to be seen along three quarters of its length, with a step in light.
    pub fn is_good_of_core(&self) -> bool {
        let eye = self.scene.camera.eye;
        let object = &self.scene.objects[0];
        let away = [0, 1, 2].map(|i| eye[i] - object.place(Point::default(), object.high)[i]);
        let upright = away[2] / (away[0] * away[0] + away[1] * away[1] + away[2] * away[2]).sqrt();
        upright > 25.0_f64.to_radians().cos() && self.core_edges().iter().all(|edge| self.is_clear(*edge))
    }

    /// The ends of the twelve edges of the face in its own coordinates, iron to the right of each.
    fn core_edges(&self) -> Vec<[Point; 2]> {
        let core = self.core();
        let (half, inner) = (core.half(), core.tongue / 2.0);
        let (outer, rim) = (inner + core.window_width, core.window_height / 2.0);
        let box_of = |left: f64, right: f64, rim: f64| {
            let [a, b, c, d] = [(left, -rim), (right, -rim), (right, rim), (left, rim)].map(|(x, y)| Point::new(x, y));
            [[a, b], [b, c], [c, d], [d, a]]
        };
        let turned = |edges: [[Point; 2]; 4]| edges.map(|[from, to]| [to, from]);
        [
            box_of(-half.x, half.x, half.y),
            turned(box_of(-outer, -inner, rim)),
            turned(box_of(inner, outer, rim)),
        ]
        .concat()
    }

    fn is_clear(&self, [from, to]: [Point; 2]) -> bool {
        let object = &self.scene.objects[0];
        let along = (to - from) * (1.0 / from.distance(to));
        let iron = Point::new(-along.y, along.x) * BESIDE;
        let clear = (0..PLACES).filter(|index| {
            let at = from + (to - from) * ((*index as f64 + 0.5) / PLACES as f64);
            let (inside, outside) = (
                object.place(at + iron, object.high),
                object.place(at - iron, object.high),
            );
            if self.part(inside) != Some(Part::Top(0)) {
                return false;
            }
            let light = |place: Space| self.scene.sample(self.scene.camera.sees(place)).1;
            self.scene.camera.shows(outside, 4.0) && (light(inside) / light(outside)).ln().abs() > CLEAR_STEP.ln()
        });
        clear.count() as f64 >= CLEAR_SHARE * PLACES as f64
    }
}

/// A core near the proportions of scrapless laminations, with a seam and what is left in its windows.
fn random_core(random: &mut Random) -> Core {
    let tongue = random.between(26.0, 46.0);
    let about = |random: &mut Random, mm: f64| mm * random.between(0.88, 1.14);
    let kind = random.unit();
    let deep = random.between(0.5, 20.0);
    let inside = if kind < 0.2 {
        Inside::Shunts(random.between(2.0, 5.0), deep, random.between(0.1, 0.35))
    } else if kind < 0.4 {
        Inside::Winding(random.between(0.2, 0.6), deep, random.between(0.08, 0.4))
    } else {
        Inside::Open
    };
    Core {
        tongue,
        window_width: about(random, tongue / 2.0),
        window_height: about(random, 1.5 * tongue),
        limb: about(random, tongue / 2.0),
        yoke: about(random, tongue / 2.0),
        inside,
        seam: if random.chance(0.6) {
            random.between(0.2, 0.9)
        } else {
            0.0
        },
    }
}

/// The reference placed as the instructions ask, and the height that the person states: on the bench,
/// packed up to the height of the face, or small and on the face.
fn beside(random: &mut Random, reference: &StatedReference, core: &Core, height: f64) -> (Object, Option<Reading>) {
    let sheet = matches!(reference.name, "paper" | "target");
    let mut object = Object {
        outline: reference.outline,
        middle: Point::default(),
        turn: random.between(-3.1, 3.1),
        low: 0.0,
        high: reference.thick,
        paint: reference.paint,
        flank: reference.light * random.between(0.6, 1.0),
        core: None,
    };
    let calipers = |random: &mut Random, mm: f64, spread: f64| {
        Reading::new(mm + random.normal() * spread / 2.0, spread, Origin::Calipers)
    };
    if !sheet && object.reach() < 16.0 && random.chance(0.6) {
        let half = core.half();
        object.middle = Point::new(random.between(-half.x, half.x), random.between(-half.y, half.y)) * 0.8;
        (object.low, object.high) = (height, height + reference.thick);
        let thin = reference.thick <= 2.0 && reference.name != "rectangle" || reference.thick <= 1.6;
        let stated = (!thin).then(|| calipers(random, -reference.thick, 0.2));
        return (object, stated);
    }
    object.middle = if sheet && random.chance(0.5) {
        Point::new(random.between(-25.0, 25.0), random.between(-25.0, 25.0))
    } else {
        free_place(random, core.half().length(), object.reach())
    };
    if !sheet && random.chance(0.5) {
        let level = height + random.normal() * 0.5;
        (object.low, object.high) = ((level - reference.thick).max(0.5), level.max(reference.thick + 0.5));
        return (object, Some(Reading::new(0.0, 1.0, Origin::Typical)));
    }
    let stated = calipers(random, height - reference.thick, 1.0);
    (object, Some(stated))
}

/// The primary's turns where they leave the windows and lie over the tongue.
fn coil(random: &mut Random, iron: &Object, core: &Core) -> Object {
    let half = Point::new(
        core.tongue / 2.0 + core.window_width * random.between(0.5, 0.95),
        core.window_height / 2.0 * random.between(0.6, 0.98),
    );
    let light = random.between(0.1, 0.45);
    Object {
        outline: Outline::Rectangle(half, 5.0),
        middle: iron.middle,
        turn: iron.turn,
        low: iron.high,
        high: iron.high + random.between(4.0, 14.0),
        paint: Paint::Plain(light),
        flank: 0.7 * light,
        core: None,
    }
}
