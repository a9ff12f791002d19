//! One scene of a series: a core, a reference, clutter, camera and light, all drawn from its seed.

use curbcore::job::{PhotoReference, Place, Reading};
use curbcore::photo::{Coin, Paper, Point, Sheet};
use curbcore::quantity::Origin;

use super::camera::{Camera, Space, unit};
use super::layout::{clutter, free_place};
use super::objects::{Core, Inside, Object, Outline, Part, first};
use super::paint::{Bench, Paint};
use super::random::Random;
use super::render::Scene;

/// A photo that a person could have taken, and the true values in it.
pub struct Plan {
    pub name: &'static str,
    pub scene: Scene,
    pub reference: PhotoReference,
    /// The height that the person states; `None` for the default of a reference on the face.
    pub height: Option<Reading>,
    /// Index of the reference among the objects.
    pub object: usize,
    /// The visible dimensions of the core: name, both ends, millimetres.
    pub spans: Vec<(&'static str, [Space; 2], f64)>,
    /// Points along straight edges, for a lens with distortion.
    pub straight: Vec<Vec<Space>>,
    /// Generator of the errors of the person's points.
    pub hand: Random,
}

/// A reference with its true size and with the size that the person states.
pub(super) struct StatedReference {
    pub name: &'static str,
    pub outline: Outline,
    pub thick: f64,
    pub paint: Paint,
    pub light: f64,
    pub stated: PhotoReference,
}

/// A true size drawn from its stated value and ±.
fn real(random: &mut Random, mm: f64, plus_minus: f64) -> f64 {
    mm + random.normal() * plus_minus / 2.0
}

fn rectangle(width: f64, height: f64, corner: f64) -> Outline {
    Outline::Rectangle(Point::new(width / 2.0, height / 2.0), corner)
}

pub(super) fn stated_reference(random: &mut Random) -> StatedReference {
    let light = if random.chance(0.22) {
        random.between(0.04, 0.12)
    } else {
        random.between(0.4, 0.85)
    };
    let kind = random.unit();
    let own = |mm: f64, spread: f64| Reading::new(mm, spread, Origin::Calipers);
    if kind < 0.25 {
        let (w, h) = (real(random, 85.60, 0.13), real(random, 53.98, 0.06));
        let outline = rectangle(w, h, random.between(2.88, 3.48));
        let thick = real(random, 0.76, 0.08);
        let paint = Paint::Card(light, Point::new(w / 2.0, h / 2.0));
        return StatedReference {
            name: "card",
            outline,
            thick,
            paint,
            light,
            stated: PhotoReference::Card,
        };
    }
    if kind < 0.38 {
        let paper = random.one_of(&[Paper::A4, Paper::Letter, Paper::A5, Paper::A5, Paper::A6]);
        let (width, height) = paper.size();
        let (w, h) = (
            real(random, width.value.mm(), width.plus_minus.mm()),
            real(random, height.value.mm(), height.plus_minus.mm()),
        );
        let light = random.between(0.6, 0.85);
        let paint = Paint::Text(light, Point::new(w / 2.0, h / 2.0));
        let stated = PhotoReference::Paper {
            size: paper.word().to_owned(),
        };
        return StatedReference {
            name: "paper",
            outline: rectangle(w, h, 0.0),
            thick: 0.1,
            paint,
            light,
            stated,
        };
    }
    if kind < 0.53 {
        let (w, h, spread) = (
            random.between(25.0, 110.0),
            random.between(20.0, 70.0),
            random.between(0.1, 0.3),
        );
        let outline = rectangle(real(random, w, spread), real(random, h, spread), 0.0);
        let stated = PhotoReference::Rectangle {
            width_mm: own(w, spread),
            height_mm: own(h, spread),
        };
        let thick = if random.chance(0.5) {
            random.between(0.3, 1.6)
        } else {
            random.between(2.0, 8.0)
        };
        return StatedReference {
            name: "rectangle",
            outline,
            thick,
            paint: Paint::Plain(light),
            light,
            stated,
        };
    }
    if kind < 0.68 {
        let coin = random.one_of(&Coin::ALL);
        let size = coin.diameter();
        let radius = real(random, size.value.mm(), size.plus_minus.mm()) / 2.0;
        let (light, thick) = (random.between(0.35, 0.75), real(random, 1.9, 0.5));
        let stated = PhotoReference::Coin {
            coin: coin.word().to_owned(),
        };
        return StatedReference {
            name: "coin",
            outline: Outline::Disc(radius),
            thick,
            paint: Paint::Coin(light, radius),
            light,
            stated,
        };
    }
    if kind < 0.8 {
        let (across, spread) = (random.between(20.0, 80.0), random.between(0.1, 0.3));
        let radius = real(random, across, spread) / 2.0;
        let stated = PhotoReference::Disc {
            diameter_mm: own(across, spread),
        };
        let thick = random.between(0.3, 2.0);
        return StatedReference {
            name: "disc",
            outline: Outline::Disc(radius),
            thick,
            paint: Paint::Plain(light),
            light,
            stated,
        };
    }
    let sheet = random.one_of(&Sheet::ALL);
    let check = random.between(97.0, 101.5);
    let stated = PhotoReference::Target {
        sheet: sheet.word().to_owned(),
        check_mm: Reading::new(check, 0.3, Origin::Rule),
    };
    let print = real(random, check, 0.3) / 100.0;
    let (w, h) = (sheet.size().0.mm(), sheet.size().1.mm());
    let from = Point::new(sheet.origin().0.mm() - w / 2.0, sheet.origin().1.mm() - h / 2.0) * print;
    let paint = Paint::Squares(sheet.columns(), sheet.rows(), sheet.square().mm() * print, from);
    StatedReference {
        name: "target",
        outline: rectangle(w, h, 0.0),
        thick: 0.1,
        paint,
        light: 0.8,
        stated,
    }
}

impl Plan {
    /// The scene of this number in the series of this seed; `long` is the picture's long side.
    pub fn of(seed: u64, number: u64, long: Option<usize>) -> Self {
        let mut random = Random::of(seed, number);
        loop {
            if let Some(plan) = Self::tried(&mut random, long) {
                return plan;
            }
        }
    }

    /// `None` for a scene that a person would not have photographed: no contrast, or cut off.
    fn tried(random: &mut Random, long: Option<usize>) -> Option<Self> {
        let stated_reference = stated_reference(random);
        let tongue = random.between(26.0, 46.0);
        let about = |random: &mut Random, mm: f64| mm * random.between(0.88, 1.14);
        let core = Core {
            tongue,
            window_width: about(random, tongue / 2.0),
            window_height: about(random, 1.5 * tongue),
            limb: about(random, tongue / 2.0),
            yoke: about(random, tongue / 2.0),
            inside: Inside::Dark,
            seam: 0.0,
        };
        let height = random.between(18.0, 60.0);
        let iron = random.between(0.14, 0.34);
        let mut objects = vec![Object {
            outline: Outline::Rectangle(core.half(), 0.0),
            middle: Point::default(),
            turn: random.between(-3.1, 3.1),
            low: 0.0,
            high: height,
            paint: Paint::Iron(iron, random.unit()),
            flank: iron * random.between(0.5, 1.1),
            core: Some(core),
        }];
        let bench = (random.one_of(&Bench::ALL), random.between(0.06, 0.45));
        let (lies, stated) = placed(random, &stated_reference, &core, height)?;
        // The instructions ask for contrast between reference and ground.
        let behind = if lies.low > 0.0 && lies.low == height {
            iron
        } else {
            bench.1
        };
        if (stated_reference.light / behind).ln().abs() < 1.5_f64.ln() {
            return None;
        }
        objects.extend(stand(random, &lies, height));
        let own = objects.len();
        objects.push(lies);
        clutter(random, &mut objects, own);
        let camera = camera(random, &objects, own, long)?;
        let lens = random.chance(0.12);
        let scene = photographed(random, camera, objects, bench, own, lens);
        let mut plan = Self {
            name: stated_reference.name,
            reference: stated_reference.stated,
            height: stated,
            object: own,
            spans: Vec::new(),
            straight: Vec::new(),
            hand: Random::of(scene.seed, 5),
            scene,
        };
        plan.spans = plan.in_sight(&core);
        if lens && plan.name != "target" {
            plan.straight = plan.outer_edges(&core);
            if plan.straight.len() < 3 {
                return None;
            }
        }
        (plan.spans.len() >= 2
            && plan.reference_in_sight()
            && plan.outline().iter().all(|place| plan.scene.camera.shows(*place, 6.0)))
        .then_some(plan)
    }

    /// Corners of the reference's upper face, or 64 places round a disc.
    pub fn outline(&self) -> Vec<Space> {
        outline(&self.scene.objects[self.object])
    }

    /// Whether at least three quarters of each side of the reference are visible.
    pub(super) fn reference_in_sight(&self) -> bool {
        let object = &self.scene.objects[self.object];
        let outline = self.outline();
        let sides = if outline.len() == 4 { 4 } else { 1 };
        (0..sides).all(|side| {
            let shown = (0..64).filter(|k| {
                let place = if sides == 4 {
                    let (from, to) = (outline[side], outline[(side + 1) % 4]);
                    let part = 0.05 + 0.9 * f64::from(*k) / 63.0;
                    [0, 1].map(|i| from[i] + (to[i] - from[i]) * part)
                } else {
                    [0, 1].map(|i| outline[*k as usize][i])
                };
                // A hair inside its outline.
                let own = object.own(place[0], place[1]) * 0.995;
                self.part(object.place(own, object.high)) == Some(Part::Top(self.object))
            });
            shown.count() >= 48
        })
    }

    /// Thickness of the reference, in millimetres.
    pub fn thickness(&self) -> f64 {
        let object = &self.scene.objects[self.object];
        object.high - object.low
    }

    /// The position of a corner of the target's squares, by column and row.
    pub fn lattice(&self, column: i32, row: i32) -> Option<Space> {
        let object = &self.scene.objects[self.object];
        let Paint::Squares(_, _, side, from) = object.paint else {
            return None;
        };
        Some(object.place(
            from + Point::new(f64::from(column) * side, f64::from(row) * side),
            object.high,
        ))
    }

    /// The picture of a place.
    pub fn sees(&self, place: Space) -> Place {
        let at = self.scene.camera.sees(place);
        [at.x, at.y]
    }

    /// The core's dimensions whose two edges are visible.
    fn in_sight(&self, core: &Core) -> Vec<(&'static str, [Space; 2], f64)> {
        let object = &self.scene.objects[0];
        let (half, inner) = (core.half(), core.tongue / 2.0);
        let outer = inner + core.window_width;
        let middle = inner + core.window_width / 2.0;
        let across = |from: f64, to: f64, y: f64| [Point::new(from, y), Point::new(to, y)];
        let upright = |x: f64, to: f64| [Point::new(x, -to), Point::new(x, to)];
        let mut spans = Vec::new();
        let mut add = |name, places: &[[Point; 2]], mm: f64| {
            let clear = |ends: &&[Point; 2]| {
                let way = (ends[1] - ends[0]) * (1.0 / ends[0].distance(ends[1]));
                let edge = |at: Point| {
                    // Iron on one side, none on the other, and nothing before either.
                    let part = |by: f64| self.part(object.place(at + way * by, object.high));
                    let iron = |by: f64| part(by) == Some(Part::Top(0));
                    let none = |by: f64| matches!(part(by), Some(Part::Window(0) | Part::Flank(0) | Part::Bench));
                    (iron(0.8) && none(-0.8)) || (iron(-0.8) && none(0.8))
                };
                ends.iter().all(|end| edge(*end))
            };
            if let Some(ends) = places.iter().find(clear) {
                spans.push((name, ends.map(|end| object.place(end, object.high)), mm));
            }
        };
        let heights = [0.0, 0.3, -0.3].map(|part| part * core.window_height);
        add("tongue", &heights.map(|y| across(-inner, inner, y)), core.tongue);
        let windows = [0.0, 0.3, -0.3].map(|part| {
            [
                across(inner, outer, part * core.window_height),
                across(-outer, -inner, part * core.window_height),
            ]
        });
        add("window_width", windows.as_flattened(), core.window_width);
        add(
            "window_height",
            &[middle, -middle].map(|x| upright(x, core.window_height / 2.0)),
            core.window_height,
        );
        let limbs = heights.map(|y| [across(outer, half.x, y), across(-half.x, -outer, y)]);
        add("outer_limb", limbs.as_flattened(), core.limb);
        spans
    }

    /// The four corners of the core's face, if all are visible.
    pub fn face(&self) -> Option<[Space; 4]> {
        let object = &self.scene.objects[0];
        let half = object.core?.half();
        let corners =
            [(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)].map(|(x, y)| Point::new(x * half.x, y * half.y));
        let seen = |corner: &Point| self.part(object.place(*corner * 0.985, object.high)) == Some(Part::Top(0));
        corners
            .iter()
            .all(seen)
            .then(|| corners.map(|corner| object.place(corner, object.high)))
    }

    /// The part seen at a place of the core's face; `None` outside the picture.
    pub(super) fn part(&self, place: Space) -> Option<Part> {
        let camera = &self.scene.camera;
        let ray = unit([0, 1, 2].map(|i| place[i] - camera.eye[i]));
        camera
            .shows(place, 4.0)
            .then(|| first(&self.scene.objects, camera.eye, ray).1)
    }

    /// Five points along each visible edge of the core's face and its windows.
    fn outer_edges(&self, core: &Core) -> Vec<Vec<Space>> {
        let object = &self.scene.objects[0];
        let (half, inner) = (core.half(), core.tongue / 2.0);
        let outer = inner + core.window_width;
        let upright = [half.x, -half.x, outer, -outer, inner, -inner];
        let rim = core.window_height / 2.0;
        let lines = upright.map(|x| {
            let y = if x.abs() == half.x { half.y } else { rim };
            [Point::new(x, -0.95 * y), Point::new(x, 0.95 * y)]
        });
        let across = [half.y, -half.y].map(|y| [Point::new(-0.95 * half.x, y), Point::new(0.95 * half.x, y)]);
        lines
            .iter()
            .chain(&across)
            .filter_map(|[from, to]| {
                let at = |k: i32| object.place(*from + (*to - *from) * (f64::from(k) / 4.0), object.high);
                let inwards = |k: i32| {
                    let place = *from + (*to - *from) * (f64::from(k) / 4.0);
                    let iron = |by: f64| {
                        let way = Point::new(-(to.y - from.y), to.x - from.x) * (1.0 / from.distance(*to));
                        self.part(object.place(place + way * by, object.high)) == Some(Part::Top(0))
                    };
                    iron(0.6) != iron(-0.6)
                };
                (0..5).all(inwards).then(|| (0..5).map(at).collect())
            })
            .collect()
    }
}

fn outline(object: &Object) -> Vec<Space> {
    let places: Vec<Point> = match object.outline {
        Outline::Rectangle(h, _) => {
            vec![Point::new(-h.x, -h.y), Point::new(h.x, -h.y), h, Point::new(-h.x, h.y)]
        }
        Outline::Disc(radius) => (0..64)
            .map(|k| (f64::from(k) * std::f64::consts::TAU / 64.0).sin_cos())
            .map(|(sine, cosine)| Point::new(radius * cosine, radius * sine))
            .collect(),
    };
    places
        .into_iter()
        .map(|place| object.place(place, object.high))
        .collect()
}

/// The placed reference, and the height that the person states.
#[allow(clippy::unnecessary_wraps)] // As its sisters, which may find no place.
fn placed(
    random: &mut Random,
    reference: &StatedReference,
    core: &Core,
    height: f64,
) -> Option<(Object, Option<Reading>)> {
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
    let how = random.unit();
    let caliper = |random: &mut Random, mm: f64, spread: f64| {
        Reading::new(mm + random.normal() * spread / 2.0, spread, Origin::Calipers)
    };
    if !sheet && how < 0.55 {
        // On the face, hanging over it where it is large: one side of the core stays in sight.
        let half = core.half();
        let side = random.between(0.3, 1.15) * half.x;
        let angle = random.between(0.0, std::f64::consts::TAU);
        object.middle = Point::new(angle.cos(), angle.sin()) * (side.max(object.reach() * 0.55));
        (object.low, object.high) = (height, height + reference.thick);
        let thin = reference.thick <= 2.0 && reference.name != "rectangle" || reference.thick <= 1.6;
        let stated = (!thin).then(|| caliper(random, -reference.thick, 0.2));
        return Some((object, stated));
    }
    object.middle = if sheet && random.chance(0.5) {
        Point::new(random.between(-25.0, 25.0), random.between(-25.0, 25.0))
    } else {
        free_place(random, core.half().length(), object.reach())
    };
    if !sheet && how < 0.75 {
        // Packed up until it is level with the face, as far as the person sees.
        let level = height + random.normal() * 0.5;
        (object.low, object.high) = ((level - reference.thick).max(0.5), level.max(reference.thick + 0.5));
        return Some((object, Some(Reading::new(0.0, 1.0, Origin::Typical))));
    }
    Some((object, Some(caliper(random, height - reference.thick, 1.0))))
}

/// What a reference that lies neither on the ground nor on the core of that height stands on.
pub(super) fn stand(random: &mut Random, lies: &Object, height: f64) -> Option<Object> {
    if !(lies.low > 0.0 && lies.low < height) {
        return None;
    }
    let light = random.between(0.1, 0.5);
    Some(Object {
        outline: lies.outline.within(1.5),
        low: 0.0,
        high: lies.low,
        paint: Paint::Plain(light),
        flank: 0.7 * light,
        ..lies.clone()
    })
}

pub(super) fn camera(random: &mut Random, objects: &[Object], own: usize, long: Option<usize>) -> Option<Camera> {
    // A telephone's 12 megapixels, or an old one's, or a webcam's.
    let kind = random.unit();
    let long = long.unwrap_or(match kind {
        kind if kind < 0.4 => 4000,
        kind if kind < 0.75 => 2000,
        _ => 1200,
    });
    let size = if random.chance(0.75) {
        (long, long * 3 / 4)
    } else {
        (long * 3 / 4, long)
    };
    let diagonal = (size.0 as f64).hypot(size.1 as f64);
    let f35 = (28.3 * (0.235 * random.normal()).exp()).clamp(18.0, 45.0);
    let focal = diagonal * f35 / 43.267;
    let tilt = if random.chance(0.1) {
        random.between(0.42, 0.65)
    } else {
        random.between(0.0, 0.42)
    };
    let (lean, roll) = (random.between(0.0, std::f64::consts::TAU), random.between(-3.1, 3.1));
    let must: Vec<Space> = outline(&objects[0]).into_iter().chain(outline(&objects[own])).collect();
    let middle = must.iter().fold([0.0; 3], |sum, place| {
        [0, 1, 2].map(|i| sum[i] + place[i] / must.len() as f64)
    });
    let shift = [random.between(-12.0, 12.0), random.between(-12.0, 12.0), 0.0];
    let target = [0, 1, 2].map(|i| middle[i] + shift[i]);
    let centre = Point::new(random.normal(), random.normal()) * (0.005 * long as f64);
    let room = random.between(1.0, 1.35);
    let at = |distance: f64| {
        let eye = [
            target[0] + distance * tilt.sin() * lean.cos(),
            target[1] + distance * tilt.sin() * lean.sin(),
            target[2] + distance * tilt.cos(),
        ];
        let mut camera = Camera::new(size, focal, eye, target, roll);
        camera.centre = camera.centre + centre;
        camera
    };
    let mut distance = 120.0;
    while !must.iter().all(|place| at(distance).shows(*place, 0.03 * long as f64)) {
        distance *= 1.05;
        if distance > 3000.0 {
            return None;
        }
    }
    Some(at(distance * room))
}

pub(super) fn photographed(
    random: &mut Random,
    mut camera: Camera,
    objects: Vec<Object>,
    bench: (Bench, f64),
    own: usize,
    lens: bool,
) -> Scene {
    // Distortion at the picture's corner: what telephones leave, or a lens that bends.
    let at_corner = if lens {
        random.between(-0.07, -0.015)
    } else {
        0.005 * random.normal()
    };
    let long = camera.width.max(camera.height) as f64;
    let corner = (camera.width as f64).hypot(camera.height as f64) / 2.0 / camera.focal;
    let second = at_corner * 0.15 * random.normal();
    camera.brown = [(at_corner - second) / corner.powi(2), second / corner.powi(4)];
    let f35 = camera.focal * 43.267 / (camera.width as f64).hypot(camera.height as f64);
    let noted = f35 * (1.0 + 0.03 * random.normal());
    let (turn, low) = (random.between(0.0, std::f64::consts::TAU), random.between(0.15, 1.2));
    let reach = objects[own].reach();
    let (coarse, sharp) = if long > 2000.0 { (2, 1.7) } else { (1, 1.0) };
    Scene {
        camera,
        lamp: (
            unit([low * turn.cos(), low * turn.sin(), 1.0]),
            random.between(0.01, 0.2),
        ),
        ambient: random.between(0.3, 0.8),
        vignette: random.between(0.0, 0.35),
        glare: random.chance(0.1).then(|| {
            let at = Point::new(random.between(-1.0, 1.0), random.between(-1.0, 1.0)) * reach;
            (own, at, reach * random.between(0.15, 0.5), random.between(0.2, 1.0))
        }),
        exposure: random.between(0.8, 1.25),
        coarse,
        blur: sharp * random.between(0.5, 1.3),
        motion: if random.chance(0.15) {
            Point::new(random.normal(), random.normal()) * sharp
        } else {
            Point::default()
        },
        noise: random.between(0.5, 4.0),
        quality: random.between(60.0, 96.0) as u8,
        orientation: random.one_of(&[1, 1, 1, 6, 8, 3]),
        focal_35mm: random.chance(0.55).then(|| noted.round() as u16),
        seed: random.below(1 << 40) as u64,
        objects,
        bench,
    }
}
