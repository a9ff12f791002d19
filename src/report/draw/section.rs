//! The core in section, every winding to scale: one unit is one millimetre.

use super::svg::{Anchor, Svg};
use crate::app::behaviour::inductor::CoilBuild;
use crate::magnetics::circuit::performance::{Prepared, Rebuild};
use crate::magnetics::core::EiCore;
use crate::magnetics::winding::{Coil, LAYER_BULGE, Layers, Placement, Space, Winding};
use crate::quantity::{Length, LengthUnit, format_significant};
use crate::text::{Arg, Texts};
use crate::wind::WindPlan;
use crate::wire::{Conductor, Envelope};

/// Most conductors drawn one by one; beyond that the winding is one block.
const MOST_DRAWN: u32 = 800;

/// The core from the front, cut through the windings: steel, primary, new winding with each
/// conductor, insulation and what room is left; with dimensions.
#[must_use]
pub fn core_section(rebuild: &Rebuild, wound: Option<(&Winding, &Layers)>, unit: LengthUnit, texts: &Texts) -> String {
    section(rebuild, wound, None, unit, texts)
}

/// The same while it is wound: the conductors that lie there so far, by layer, and the direction of the
/// layer that the next turn lies in. Layers go to and fro along the limb, as hands wind them.
#[must_use]
pub fn section_so_far(
    rebuild: &Rebuild,
    wound: (&Winding, &Layers),
    so_far: &SoFar<'_>,
    unit: LengthUnit,
    texts: &Texts,
) -> String {
    section(rebuild, Some(wound), Some(so_far), unit, texts)
}

/// What is wound.
#[derive(Debug, Clone, Copy)]
pub struct SoFar<'a> {
    /// Turns of each layer begun, the innermost first.
    pub layers: &'a [u32],
    /// The layer of the next turn, from 0; none once all are wound.
    pub next: Option<usize>,
    /// Width of a turn along the limb.
    pub turn_width: Length,
}

impl SoFar<'_> {
    /// True where a layer is wound towards the seam: the first and every second one.
    #[must_use]
    pub const fn goes_down(layer: usize) -> bool {
        layer.is_multiple_of(2)
    }
}

fn section(
    rebuild: &Rebuild,
    wound: Option<(&Winding, &Layers)>,
    so_far: Option<&SoFar<'_>>,
    unit: LengthUnit,
    texts: &Texts,
) -> String {
    let core = &rebuild.core;
    let face = Face::of(core, unit);
    let Face {
        t,
        ww,
        wh,
        limb,
        yoke,
        width,
        height,
        text,
        tongue_left,
        ..
    } = face;
    let margin = text * MARGIN;
    let mut svg = face.draw(&texts.text("drawn-section"), margin * 3.2);
    // The seam: where the I was welded across the E.
    svg.line("seam", (0.0, height - yoke), (limb, height - yoke));
    svg.line("seam", (width - limb, height - yoke), (width, height - yoke));
    svg.line("seam", (tongue_left, height - yoke), (tongue_left + t, height - yoke));

    let sides = face.sides();
    let primary_height = rebuild.primary.height.value.mm().min(wh);
    let primary_build = rebuild.primary.build.value.mm().min(ww);
    let over = rebuild.placement == Placement::OverPrimary;
    let primary_top = if over {
        yoke + (wh - primary_height) / 2.0
    } else {
        yoke + wh - primary_height
    };
    for side in &sides {
        side.rect(&mut svg, "primary", 0.0, primary_build, primary_top, primary_height);
        let shunts = rebuild.shunts_height.mm();
        if shunts > 0.0 {
            side.rect(&mut svg, "shunt", 0.5, ww - 0.5, primary_top - shunts, shunts);
        }
    }
    if let Some((winding, layers)) = wound {
        match so_far {
            None => draw_winding(&mut svg, rebuild, winding, layers, &sides, yoke),
            Some(so_far) => {
                let room = Room::of_winding(rebuild, winding, layers, yoke);
                let along = so_far.turn_width.mm() / f64::from(layers.abreast);
                let out = winding.conductor.layer_height().mm() * LAYER_BULGE;
                let many = so_far.layers.iter().sum::<u32>() * winding.parallel > MOST_DRAWN;
                draw_so_far(&mut svg, &room, so_far, &sides, many, |svg, side, inside, y| {
                    for strand in 0..winding.parallel {
                        let (abreast, stacked) = (strand % layers.abreast, strand / layers.abreast);
                        let at = (inside + out * f64::from(stacked), out);
                        let along = (y + along * f64::from(abreast), along);
                        draw_conductor(svg, &winding.conductor, side, at, along);
                    }
                });
            }
        }
    }

    face.tongue_dimension(&mut svg, core);
    let tick = text * TICK;
    svg.dimension(
        (limb, height + tick * 3.4),
        (tongue_left, height + tick * 3.4),
        tick,
        &face.label(core.window_width.value),
    );
    face.window_height_dimension(&mut svg, core);
    svg.text(
        "caption",
        (width / 2.0, height + margin * 1.75),
        Anchor::Middle,
        &texts.text_with(
            "drawn-stack-deep",
            &[("length", Arg::Text(&face.label(core.stack.value)))],
        ),
    );
    svg.finish()
}

/// The core of a choke or a ballast from the front: its coil to scale, and the gap in its three
/// faces, drawn wider than it is. `gap` is written beside it.
#[must_use]
pub fn coil_section(
    core: &EiCore,
    ground: Length,
    coil: &CoilBuild,
    gap: &str,
    unit: LengthUnit,
    texts: &Texts,
) -> String {
    let face = Face::of(core, unit);
    let Face {
        t,
        ww,
        wh,
        limb,
        yoke,
        width,
        height,
        text,
        tongue_left,
        ..
    } = face;
    let mut svg = face.draw(&texts.text("drawn-coil"), text * MARGIN * 3.4);
    // The spacer lies between E and I, under all three legs.
    let shown = (height / 60.0).max(0.8);
    for (left, wide) in [(0.0, limb), (tongue_left, t), (width - limb, limb)] {
        svg.rect("gap", left, height - yoke - shown / 2.0, wide, shown);
    }
    let from = ground.mm();
    let build = coil.build.mm().min(ww - from);
    for side in &face.sides() {
        side.rect(
            &mut svg,
            "winding",
            from,
            from + build,
            yoke + from,
            (wh - 2.0 * from).max(0.0),
        );
        let layer = build / f64::from(coil.layers);
        for at in 1..coil.layers.min(60) {
            let x = side.x(from + layer * f64::from(at));
            svg.line("dimension", (x, yoke + from), (x, yoke + wh - from));
        }
    }
    face.tongue_dimension(&mut svg, core);
    face.window_height_dimension(&mut svg, core);
    svg.text("caption", (width / 2.0, height + text * 1.4), Anchor::Middle, gap);
    svg.finish()
}

/// The same while the coil is wound, as [`section_so_far`].
#[must_use]
pub fn coil_so_far(
    core: &EiCore,
    (coil, parallel): (&CoilBuild, u32),
    plan: &WindPlan,
    so_far: &SoFar<'_>,
    unit: LengthUnit,
    texts: &Texts,
) -> String {
    let face = Face::of(core, unit);
    let mut svg = face.draw(&texts.text("drawn-coil"), face.text * MARGIN * 1.6);
    let room = Room {
        start: plan.start.mm(),
        build: plan.build.mm(),
        top: face.yoke + (face.wh - plan.breadth.mm()) / 2.0,
        breadth: plan.breadth.mm(),
        pitch: (plan.layer_height + plan.interlayer).mm(),
        thick: plan.layer_height.mm(),
    };
    let outer = coil.outer.mm();
    let metal = (coil.area.mm2() / std::f64::consts::PI).sqrt().min(outer / 2.0);
    let stacked = coil.is_stacked(parallel);
    let many = so_far.layers.iter().sum::<u32>() * parallel > MOST_DRAWN;
    draw_so_far(&mut svg, &room, so_far, &face.sides(), many, |svg, side, inside, y| {
        for wire in 0..parallel {
            let by = outer * f64::from(wire);
            let (out, along) = if stacked { (by, 0.0) } else { (0.0, by) };
            let middle = (side.x(inside + out + outer / 2.0), y + along + outer / 2.0);
            svg.circle("conductor-skin", middle.0, middle.1, outer / 2.0);
            svg.circle("conductor", middle.0, middle.1, metal);
        }
    });
    face.tongue_dimension(&mut svg, core);
    face.window_height_dimension(&mut svg, core);
    svg.finish()
}

/// Room around the core, and a dimension's tick, in heights of a letter.
const MARGIN: f64 = 2.2;
const TICK: f64 = 0.5;

/// The core's face as it is drawn, in millimetres.
#[derive(Clone, Copy)]
struct Face {
    t: f64,
    ww: f64,
    wh: f64,
    limb: f64,
    yoke: f64,
    width: f64,
    height: f64,
    /// Height of a letter: 13 px on a phone's width.
    text: f64,
    tongue_left: f64,
    unit: LengthUnit,
}

impl Face {
    fn of(core: &EiCore, unit: LengthUnit) -> Self {
        let (limb, ww) = (core.outer_limb.value.mm(), core.window_width.value.mm());
        let width = core.overall_width().mm();
        Self {
            t: core.tongue.value.mm(),
            ww,
            wh: core.window_height.value.mm(),
            limb,
            yoke: core.yoke.value.mm(),
            width,
            height: core.overall_height().mm(),
            text: (width / 17.0).max(2.0),
            tongue_left: limb + ww,
            unit,
        }
    }

    /// A drawing with the steel and its two windows, and `around` more height than the core has.
    fn draw(&self, title: &str, around: f64) -> Svg {
        let margin = self.text * MARGIN;
        let side = self.text * 6.0;
        let view = (-margin, -margin * 1.2, self.width + margin + side, self.height + around);
        let mut svg = Svg::new("section", title, view);
        svg.letters(self.text);
        svg.rect("steel", 0.0, 0.0, self.width, self.height);
        for window in [self.limb, self.tongue_left + self.t] {
            svg.rect("window", window, self.yoke, self.ww, self.wh);
        }
        svg
    }

    fn sides(&self) -> [Side; 2] {
        let side = |face, away| Side { face, away };
        [side(self.tongue_left, -1.0), side(self.tongue_left + self.t, 1.0)]
    }

    fn label(&self, length: Length) -> String {
        let count = format_significant(self.unit.count(length), 3);
        format!("{count} {}", self.unit.symbol())
    }

    fn tongue_dimension(&self, svg: &mut Svg, core: &EiCore) {
        let tick = self.text * TICK;
        let (from, to) = (self.tongue_left, self.tongue_left + self.t);
        svg.dimension(
            (from, -tick * 1.6),
            (to, -tick * 1.6),
            tick,
            &self.label(core.tongue.value),
        );
    }

    fn window_height_dimension(&self, svg: &mut Svg, core: &EiCore) {
        let tick = self.text * TICK;
        let right = self.width + tick * 1.6;
        let (from, to) = ((right, self.yoke), (right, self.yoke + self.wh));
        svg.dimension(from, to, tick, &self.label(core.window_height.value));
    }
}

/// One side of the tongue: its face, and which way is away from it.
struct Side {
    face: f64,
    away: f64,
}

impl Side {
    /// x of a point `out` from the tongue.
    fn x(&self, out: f64) -> f64 {
        self.face + self.away * out
    }
    /// A rectangle from `from` to `to` out of the tongue.
    fn rect(&self, svg: &mut Svg, class: &str, from: f64, to: f64, y: f64, height: f64) {
        let (a, b) = (self.x(from), self.x(to));
        svg.rect(class, a.min(b), y, (b - a).abs(), height);
    }
}

/// How far a winding begins from the far end of its room, in mm: it lies against the primary, or at the far end.
fn beyond(rebuild: &Rebuild, space: &Space, wound: Length) -> f64 {
    match rebuild.placement {
        Placement::BesidePrimary => (space.breadth - wound).mm().max(0.0),
        Placement::FarEnd => 0.0,
        Placement::OverPrimary => (space.breadth - wound).mm().max(0.0) / 2.0,
    }
}

fn draw_winding(svg: &mut Svg, rebuild: &Rebuild, winding: &Winding, layers: &Layers, sides: &[Side; 2], yoke: f64) {
    let space = Prepared::new(rebuild).space;
    let coil = Coil::wind(
        &rebuild.core,
        &space,
        winding,
        layers,
        rebuild.insulation.interlayer,
        Length::ZERO,
    );
    let (start, build, breadth) = (space.start.mm(), space.build.mm(), space.breadth.mm());
    let room = yoke + rebuild.insulation.ground.mm();
    let top = room + beyond(rebuild, &space, coil.breadth);
    let too_big = coil.build > space.build;
    for side in sides {
        side.rect(svg, "spare", start, start + build.max(0.0), room, breadth);
        let class = if too_big { "winding too-big" } else { "winding" };
        side.rect(svg, class, start, start + coil.build.mm(), top, coil.breadth.mm());
        if winding.turns * winding.parallel <= MOST_DRAWN {
            draw_conductors(svg, rebuild, winding, layers, side, (start, top, breadth));
        }
    }
}

fn draw_conductors(
    svg: &mut Svg,
    rebuild: &Rebuild,
    winding: &Winding,
    layers: &Layers,
    side: &Side,
    at: (f64, f64, f64),
) {
    let (start, top, breadth) = at;
    let conductor = &winding.conductor;
    let along = conductor.width_on_limb(Length::from_mm(breadth)).mm();
    let out = conductor.layer_height().mm() * LAYER_BULGE;
    let layer_pitch = out * f64::from(layers.stacked) + rebuild.insulation.interlayer.mm();
    for turn in 0..winding.turns {
        let (layer, place) = (turn / layers.turns_per_layer, turn % layers.turns_per_layer);
        for strand in 0..winding.parallel {
            let (abreast, stacked) = (strand % layers.abreast, strand / layers.abreast);
            let from = start + layer_pitch * f64::from(layer) + out * f64::from(stacked);
            let y = top + along * (f64::from(place * layers.abreast) + f64::from(abreast));
            draw_conductor(svg, conductor, side, (from, out), (y, along));
        }
    }
}

/// One conductor: `out` from the tongue and along the limb, each as where it begins and how much it takes.
fn draw_conductor(svg: &mut Svg, conductor: &Conductor, side: &Side, (from, out): (f64, f64), (y, along): (f64, f64)) {
    match conductor.envelope {
        Envelope::Round { outer } => {
            let radius = outer.mm() / 2.0;
            svg.circle("conductor-skin", side.x(from + out / 2.0), y + radius, radius);
            let metal = (conductor.area.mm2() / std::f64::consts::PI).sqrt().min(radius);
            svg.circle("conductor", side.x(from + out / 2.0), y + radius, metal);
        }
        Envelope::Flat { .. } | Envelope::FullWidth { .. } => {
            side.rect(
                svg,
                "conductor",
                from + out * 0.08,
                from + out * 0.92,
                y + along * 0.02,
                along * 0.96,
            );
        }
    }
}

/// Room for a winding that is under way, in millimetres.
struct Room {
    /// From the tongue to its inside.
    start: f64,
    build: f64,
    top: f64,
    breadth: f64,
    /// A layer, and the film on it.
    pitch: f64,
    thick: f64,
}

impl Room {
    fn of_winding(rebuild: &Rebuild, winding: &Winding, layers: &Layers, yoke: f64) -> Self {
        let space = Prepared::new(rebuild).space;
        let thick = winding.conductor.layer_height().mm() * LAYER_BULGE * f64::from(layers.stacked);
        let turn = winding.conductor.width_on_limb(space.breadth) * f64::from(layers.abreast);
        let wound = (turn * f64::from(layers.turns_per_layer)).min(space.breadth);
        Self {
            start: space.start.mm(),
            build: space.build.mm(),
            top: yoke + rebuild.insulation.ground.mm() + beyond(rebuild, &space, wound),
            breadth: wound.mm(),
            pitch: thick + rebuild.insulation.interlayer.mm(),
            thick,
        }
    }
}

/// A winding as far as it is wound: the room, each turn that lies there (`draw_turn` gets where it begins,
/// out of the tongue and along the limb), an arrow for the next layer.
fn draw_so_far(
    svg: &mut Svg,
    room: &Room,
    so_far: &SoFar<'_>,
    sides: &[Side; 2],
    many: bool,
    draw_turn: impl Fn(&mut Svg, &Side, f64, f64),
) {
    let Room {
        start,
        build,
        top,
        breadth,
        pitch,
        thick,
    } = *room;
    let width = so_far.turn_width.mm();
    for side in sides {
        side.rect(svg, "spare", start, start + build.max(0.0), top, breadth);
        for (layer, &turns) in so_far.layers.iter().enumerate() {
            let inside = start + pitch * layer as f64;
            // The first layer begins at the top, the next at its end.
            let place = |turn: u32| {
                let from_its_begin = width * f64::from(turn);
                if SoFar::goes_down(layer) {
                    top + from_its_begin
                } else {
                    top + breadth - from_its_begin - width
                }
            };
            if many {
                let (first, last) = (place(0), place(turns.saturating_sub(1)));
                let height = (first - last).abs() + width;
                side.rect(svg, "winding", inside, inside + thick, first.min(last), height);
            } else {
                for turn in 0..turns {
                    draw_turn(svg, side, inside, place(turn));
                }
            }
        }
    }
    if let (Some(layer), Some(side)) = (so_far.next, sides.last()) {
        let x = side.x(start + pitch * layer as f64 + thick / 2.0);
        let (from, to) = (top + breadth * 0.15, top + breadth * 0.85);
        let (from, to) = if SoFar::goes_down(layer) {
            (from, to)
        } else {
            (to, from)
        };
        let head = (breadth * 0.08).min(3.0) * (from - to).signum();
        svg.line("direction", (x, from), (x, to));
        svg.line("direction", (x - head.abs() * 0.6, to + head), (x, to));
        svg.line("direction", (x + head.abs() * 0.6, to + head), (x, to));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::{demo_job, goal_of};
    use crate::quantity::Area;

    /// The picture against the design: as many conductors on each side as turns are wound, and with all of
    /// them what the finished section has; never one outside the room.
    #[test]
    fn the_section_so_far_has_the_turns_that_are_wound() {
        let texts = Texts::english().unwrap();
        let mut file = demo_job();
        file.goal = goal_of("battery_charger");
        let answer = evaluate(&file).unwrap();
        let round = |found: &&crate::rewind::search::Candidate| {
            found.layers.turns_per_layer > 3 && matches!(found.winding.conductor.envelope, Envelope::Round { .. })
        };
        let found = answer.found.ranked.iter().find(round).unwrap();
        let (winding, layers) = (&found.winding, &found.layers);
        let rebuild = &answer.problem.rebuild;
        let space = Prepared::new(rebuild).space;
        let turn_width = winding.conductor.width_on_limb(space.breadth) * f64::from(layers.abreast);
        let skins = |svg: &str| svg.matches("class=\"conductor-skin\"").count();
        let whole = skins(&core_section(
            rebuild,
            Some((winding, layers)),
            LengthUnit::Millimetre,
            &texts,
        ));
        for wound in 0..=winding.turns {
            let rows: Vec<u32> = (0..layers.layers)
                .map(|layer| {
                    wound
                        .saturating_sub(layer * layers.turns_per_layer)
                        .min(layers.turns_per_layer)
                })
                .filter(|&turns| turns > 0)
                .collect();
            let so_far = SoFar {
                layers: &rows,
                next: (wound < winding.turns).then_some(rows.len().saturating_sub(1)),
                turn_width,
            };
            let svg = section_so_far(rebuild, (winding, layers), &so_far, LengthUnit::Millimetre, &texts);
            assert_eq!(skins(&svg), 2 * (wound * winding.parallel) as usize, "{wound} turns");
            assert_eq!(svg.contains("class=\"direction\""), wound < winding.turns);
            if wound == winding.turns {
                assert_eq!(skins(&svg), whole);
            }
        }
    }

    /// The numbers of one attribute of every shape of a class.
    fn attributes(svg: &str, shape: &str, class: &str, name: &str) -> Vec<f64> {
        let begins = format!("<{shape} class=\"{class}\"");
        svg.split(&begins)
            .skip(1)
            .map(|rest| {
                let tag = rest.split_once('>').unwrap().0;
                let value = tag.split_once(&format!(" {name}=\"")).unwrap().1;
                value.split_once('"').unwrap().0.parse().unwrap()
            })
            .collect()
    }

    /// The picture against the design, in square millimetres: the windows are the core's, and the metal drawn on
    /// each side is turns times wires in parallel times the wire's area, for round wire of every use. Numbers in a
    /// drawing have two digits after the point, which is 3 % of the area of a wire of 0.7 mm.
    #[test]
    fn areas_in_the_section_are_the_designs() {
        let texts = Texts::english().unwrap();
        let mm = LengthUnit::Millimetre;
        let metal_is = |svg: &str, wires: u32, each: Area, word: &str| {
            let radii = attributes(svg, "circle", "conductor", "r");
            assert_eq!(radii.len(), 2 * wires as usize, "{word}");
            let of_picture: f64 = radii.iter().map(|r| std::f64::consts::PI * r * r).sum();
            let of_design = 2.0 * f64::from(wires) * each.mm2();
            assert!(
                (of_picture / of_design - 1.0).abs() < 0.03,
                "{word}: {of_picture} mm², the design has {of_design} mm²"
            );
        };
        let mut drawn = 0;
        for word in crate::job::Goal::USES {
            let mut file = demo_job();
            file.goal = goal_of(word);
            file.choice = None;
            if let crate::job::Goal::Ballast { current_a, .. } = &mut file.goal {
                *current_a = 4.0;
            }
            let answer = evaluate(&file).unwrap();
            let rebuild = &answer.problem.rebuild;
            let core = &rebuild.core;
            let windows = |svg: &str| {
                for (name, of_core) in [("width", core.window_width), ("height", core.window_height)] {
                    for of_picture in attributes(svg, "rect", "window", name) {
                        assert!((of_picture - of_core.value.mm()).abs() < 0.006, "{word} {name}");
                    }
                }
            };
            if let Some(Ok(found)) = answer.inductor() {
                let plan = crate::app::wind::wind_plan_of(&answer, crate::wind::CoreOfPair::First)
                    .unwrap()
                    .unwrap();
                let (layers, rest) = (plan.turns / plan.turns_per_layer, plan.turns % plan.turns_per_layer);
                let mut rows = vec![plan.turns_per_layer; layers as usize];
                rows.extend((rest > 0).then_some(rest));
                let so_far = SoFar {
                    layers: &rows,
                    next: None,
                    turn_width: plan.turn_width,
                };
                let svg = coil_so_far(core, (&found.coil, found.parallel), &plan, &so_far, mm, &texts);
                windows(&svg);
                metal_is(&svg, plan.turns * found.parallel, found.coil.area, word);
                drawn += 1;
                continue;
            }
            let round = |found: &&crate::rewind::search::Candidate| {
                let wires = found.winding.turns * found.winding.parallel;
                matches!(found.winding.conductor.envelope, Envelope::Round { .. }) && wires <= MOST_DRAWN
            };
            let Some(found) = answer.found.ranked.iter().find(round) else {
                continue;
            };
            let winding = &found.winding;
            let svg = core_section(rebuild, Some((winding, &found.layers)), mm, &texts);
            windows(&svg);
            metal_is(&svg, winding.turns * winding.parallel, winding.conductor.area, word);
            drawn += 1;
        }
        assert!(drawn >= 6, "only {drawn} uses were drawn");
    }
}
