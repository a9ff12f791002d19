//! The core in isometric view, to scale: what to measure and where to cut.

use super::svg::{Anchor, Svg};
use super::trace::{Point, Trace};
use crate::magnetics::core::EiCore;
use crate::quantity::{Length, LengthUnit, format_significant};
use crate::text::{Arg, Texts};

const WIDTH: f64 = 360.0;
const LEFT: f64 = 96.0;
const RIGHT: f64 = 22.0;
/// Between a label and the edge of the sheet.
const MARGIN: f64 = 5.0;
const TOP: f64 = 34.0;
const BOTTOM: f64 = 56.0;
/// Width and height of the picture of a core, and of an oven.
pub(super) const PICTURE: (f64, f64) = (180.0, 150.0);

/// The core as a solid, in millimetres.
#[derive(Debug, Clone, Copy)]
struct Shape {
    tongue: f64,
    window: f64,
    high: f64,
    limb: f64,
    yoke: f64,
    stack: f64,
}

impl Shape {
    fn of(core: &EiCore) -> Self {
        let mm = |length: Length| {
            if length.mm().is_finite() {
                length.mm().max(0.0)
            } else {
                0.0
            }
        };
        Self {
            tongue: mm(core.tongue.value),
            window: mm(core.window_width.value),
            high: mm(core.window_height.value),
            limb: mm(core.outer_limb.value),
            yoke: mm(core.yoke.value),
            stack: mm(core.stack.value),
        }
    }
    fn wide(&self) -> f64 {
        self.tongue + 2.0 * (self.window + self.limb)
    }
    fn tall(&self) -> f64 {
        self.high + 2.0 * self.yoke
    }
    /// Height of the joint of E and I above the foot.
    fn seam(&self) -> f64 {
        self.high + self.yoke
    }
}

/// From the solid to the sheet: across and stack 30° below and above the level line, heights
/// upright, one scale on all three axes.
#[derive(Debug, Clone, Copy)]
struct View {
    scale: f64,
    left: f64,
    foot: f64,
}

impl View {
    /// A point: across the face, up, into the stack.
    fn put(&self, across: f64, up: f64, deep: f64) -> Point {
        let (sin, cos) = 30f64.to_radians().sin_cos();
        (
            self.left + self.scale * cos * (across + deep),
            self.foot + self.scale * (sin * (across - deep) - up),
        )
    }
    fn area(&self, corners: &[(f64, f64, f64)]) -> Trace {
        let points: Vec<Point> = corners.iter().map(|c| self.put(c.0, c.1, c.2)).collect();
        Trace::through(&points).close()
    }
}

/// The core with its I on top: tongue, stack and window with their dimensions in the person's
/// unit, and the two seams, one on each side, marked where to cut.
#[must_use]
pub fn core_isometric(core: &EiCore, unit: LengthUnit, texts: &Texts) -> String {
    let shape = Shape::of(core);
    let (sin, cos) = 30f64.to_radians().sin_cos();
    let across = (shape.wide() + shape.stack) * cos;
    let scale = if across > 0.0 {
        (WIDTH - LEFT - RIGHT) / across
    } else {
        1.0
    };
    let view = View {
        scale,
        left: LEFT,
        foot: TOP + scale * (shape.tall() + sin * shape.stack),
    };
    let height = view.foot + scale * sin * shape.wide() + BOTTOM;
    let mut svg = Svg::new("isometric", &texts.text("drawn-isometric"), (0.0, 0.0, WIDTH, height));
    solid(&mut svg, &view, &shape);
    seams(&mut svg, &view, &shape);
    let plain = |length: Length| format!("{} {}", format_significant(unit.count(length), 3), unit.symbol());
    let label = |key: &str, length: Length| texts.text_with(key, &[("length", Arg::Text(&plain(length)))]);
    dimensions(&mut svg, &view, &shape, |which| match which {
        Dimension::Tongue => label("drawn-size-tongue", core.tongue.value),
        Dimension::Stack => label("drawn-size-stack", core.stack.value),
        Dimension::Window => label("drawn-size-window", core.window_width.value),
        Dimension::High => plain(core.window_height.value),
    });
    svg.finish()
}

/// The bare core alone, to scale, on a sheet of one size: the picture of a core that has no photo.
#[must_use]
pub fn core_picture(core: &EiCore, texts: &Texts) -> String {
    let shape = Shape::of(core);
    let (sin, cos) = 30f64.to_radians().sin_cos();
    let across = (shape.wide() + shape.stack) * cos;
    let down = shape.tall() + sin * (shape.wide() + shape.stack);
    let (wide, high) = PICTURE;
    let edge = 4.0;
    let room = |span: f64, length: f64| {
        if length > 0.0 {
            (span - 2.0 * edge) / length
        } else {
            1.0
        }
    };
    let scale = room(wide, across).min(room(high, down));
    let view = View {
        scale,
        left: (wide - scale * across) / 2.0,
        foot: (high - scale * down) / 2.0 + scale * (shape.tall() + sin * shape.stack),
    };
    let mut svg = Svg::new("isometric", &texts.text("drawn-core-picture"), (0.0, 0.0, wide, high));
    solid(&mut svg, &view, &shape);
    svg.finish()
}

/// Faces, windows and the edges of the laminations.
fn solid(svg: &mut Svg, view: &View, shape: &Shape) {
    let (w, h, s) = (shape.wide(), shape.tall(), shape.stack);
    svg.trace(
        "iron",
        &view.area(&[(0.0, h, 0.0), (0.0, h, s), (w, h, s), (w, h, 0.0)]),
    );
    svg.trace(
        "iron",
        &view.area(&[(w, 0.0, 0.0), (w, h, 0.0), (w, h, s), (w, 0.0, s)]),
    );
    for part in 1..8u8 {
        let deep = s * f64::from(part) / 8.0;
        let edge = [view.put(0.0, h, deep), view.put(w, h, deep), view.put(w, 0.0, deep)];
        svg.trace("grain", &Trace::through(&edge));
    }
    svg.trace(
        "iron",
        &view.area(&[(0.0, 0.0, 0.0), (0.0, h, 0.0), (w, h, 0.0), (w, 0.0, 0.0)]),
    );
    for left in [shape.limb, shape.limb + shape.window + shape.tongue] {
        let (right, floor, roof) = (left + shape.window, shape.yoke, shape.seam());
        let opening = [
            (left, floor, 0.0),
            (left, roof, 0.0),
            (right, roof, 0.0),
            (right, floor, 0.0),
        ];
        svg.trace("pane", &view.area(&opening));
        // On the sheet a point so deep in the stack lies as far to the right and up in the face.
        let seen = s.min(shape.window).min(shape.high);
        let inner = (left + seen, floor + seen, 0.0);
        svg.trace(
            "iron",
            &view.area(&[(left, floor, 0.0), inner, (left + seen, roof, 0.0), (left, roof, 0.0)]),
        );
        svg.trace(
            "iron",
            &view.area(&[
                (left, floor, 0.0),
                inner,
                (right, floor + seen, 0.0),
                (right, floor, 0.0),
            ]),
        );
    }
}

/// The joint of E and I, and its two welds with what to do.
fn seams(svg: &mut Svg, view: &View, shape: &Shape) {
    let (w, up, s) = (shape.wide(), shape.seam(), shape.stack);
    for (from, to) in [
        (0.0, shape.limb),
        (shape.limb + shape.window, shape.limb + shape.window + shape.tongue),
        (w - shape.limb, w),
    ] {
        svg.line("edge", view.put(from, up, 0.0), view.put(to, up, 0.0));
    }
    let near = [view.put(w, up, 0.0), view.put(w, up, s)];
    let far = [view.put(0.0, up, 0.0), view.put(0.0, up, s)];
    svg.trace("hidden", &Trace::through(&far));
    svg.stroke("casing", &Trace::through(&near), 9.0);
    svg.trace("cut", &Trace::through(&near));
    // The near one, from the free corner at the upper right.
    let on = view.put(w, up, s * 0.8);
    svg.line("leader", (WIDTH - 40.0, 40.0), on);
    svg.circle("flash", on.0, on.1, 4.5);
    svg.text("word", (WIDTH - 6.0, 18.0), Anchor::End, "cut here,");
    svg.text("word", (WIDTH - 6.0, 35.0), Anchor::End, "just through");
    // The far one, from the left.
    svg.line("leader", (44.0, 40.0), far[0]);
    svg.circle("flash", far[0].0, far[0].1, 4.5);
    svg.text("word", (6.0, 18.0), Anchor::Start, "and here,");
    svg.text("word", (6.0, 35.0), Anchor::Start, "far side");
}

/// Width of a label in a wide typeface.
fn wide(text: &str) -> f64 {
    7.9 * f64::from(u16::try_from(text.chars().count()).unwrap_or(u16::MAX))
}

#[derive(Debug, Clone, Copy)]
enum Dimension {
    Tongue,
    Stack,
    Window,
    High,
}

fn dimensions(svg: &mut Svg, view: &View, shape: &Shape, label: impl Fn(Dimension) -> String) {
    let gap = 12.0 / view.scale;
    let (w, s) = (shape.wide(), shape.stack);
    let tongue_left = shape.limb + shape.window;
    // Tongue and window along the foot of the face.
    for across in [shape.limb, tongue_left, tongue_left + shape.tongue] {
        svg.line(
            "extension",
            view.put(across, shape.yoke, 0.0),
            view.put(across, -1.4 * gap, 0.0),
        );
    }
    let mut below = 0.0;
    for (from, to, which) in [
        (shape.limb, tongue_left, Dimension::Window),
        (tongue_left, tongue_left + shape.tongue, Dimension::Tongue),
    ] {
        let ends = [view.put(from, -gap, 0.0), view.put(to, -gap, 0.0)];
        measure(svg, ends);
        // Below its line, wholly on the sheet, and below the label before it.
        let text = label(which);
        let right = (ends[0].0.midpoint(ends[1].0) - 4.0).max(wide(&text) + MARGIN);
        let slope = (ends[1].1 - ends[0].1) / (ends[1].0 - ends[0].0).max(1e-9);
        let y = (ends[0].1 + slope * (right - ends[0].0) + 16.0).max(below);
        svg.text("note", (right, y), Anchor::End, &text);
        below = y + 17.0;
    }
    // Stack along the foot of the side.
    for deep in [0.0, s] {
        svg.line("extension", view.put(w, 0.0, deep), view.put(w, -1.4 * gap, deep));
    }
    let ends = [view.put(w, -gap, 0.0), view.put(w, -gap, s)];
    measure(svg, ends);
    let text = label(Dimension::Stack);
    let left = (ends[0].0.midpoint(ends[1].0) + 4.0).min(WIDTH - MARGIN - wide(&text));
    let slope = (ends[1].1 - ends[0].1) / (ends[1].0 - ends[0].0).max(1e-9);
    let y = ends[0].1 + slope * (left - ends[0].0).max(0.0) + 16.0;
    svg.text("note", (left, y), Anchor::Start, &text);
    // Window height at the left.
    for up in [shape.yoke, shape.seam()] {
        svg.line(
            "extension",
            view.put(shape.limb, up, 0.0),
            view.put(-1.4 * gap, up, 0.0),
        );
    }
    let ends = [view.put(-gap, shape.yoke, 0.0), view.put(-gap, shape.seam(), 0.0)];
    measure(svg, ends);
    let y = ends[0].1.midpoint(ends[1].1);
    svg.text("note", (ends[0].0 - 8.0, y - 4.0), Anchor::End, "window");
    svg.text(
        "note",
        (ends[0].0 - 8.0, y + 13.0),
        Anchor::End,
        &label(Dimension::High),
    );
}

/// A dimension line with a dot at each end.
fn measure(svg: &mut Svg, ends: [Point; 2]) {
    svg.line("edge", ends[0], ends[1]);
    for (x, y) in ends {
        svg.circle("solid", x, y, 3.4);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Measured, Origin};

    fn core(tongue: f64, stack: f64, window: f64, high: f64) -> EiCore {
        let mm = |value| Measured::exact(Length::from_mm(value), Origin::Calipers);
        EiCore::new(mm(tongue), mm(stack), mm(window), mm(high))
    }

    fn numbers(element: &str, name: &str) -> f64 {
        let value = element
            .split(&format!(" {name}=\""))
            .nth(1)
            .and_then(|v| v.split('"').next());
        value.unwrap().parse().unwrap()
    }

    /// In an isometric view equal lengths along the three axes are equal on the sheet: the
    /// drawn window height, tongue and stack stand to each other as the measures do.
    #[test]
    fn lengths_keep_their_proportions() {
        let svg = core_isometric(
            &core(40.0, 60.0, 20.0, 50.0),
            LengthUnit::Millimetre,
            &Texts::english().unwrap(),
        );
        let lengths: Vec<f64> = svg
            .split('<')
            .filter(|e| e.starts_with("line class=\"edge\""))
            .map(|e| (numbers(e, "x2") - numbers(e, "x1")).hypot(numbers(e, "y2") - numbers(e, "y1")))
            .collect();
        // Three pieces of the joint, then window, tongue, stack, window height.
        let [.., window, tongue, stack, high] = lengths[..] else {
            panic!("{lengths:?}")
        };
        for (drawn, mm) in [(window, 20.0), (stack, 60.0), (high, 50.0)] {
            assert!((drawn / tongue - mm / 40.0).abs() < 1e-3, "{drawn} {tongue}");
        }
    }

    #[test]
    fn it_speaks_the_unit_asked_for() {
        let core = core(38.1, 63.5, 19.05, 57.15);
        let inches = core_isometric(&core, LengthUnit::Inch, &Texts::english().unwrap());
        assert!(
            inches.contains("tongue 1.50 in") && inches.contains("stack 2.50 in"),
            "{inches}"
        );
        assert!(core_isometric(&core, LengthUnit::Millimetre, &Texts::english().unwrap()).contains("tongue 38.1 mm"));
    }

    /// Flat, long, narrow, empty, not a number: the words stay on the sheet.
    #[test]
    fn odd_cores_stay_on_the_sheet() {
        for core in [
            core(36.0, 62.0, 18.0, 54.0),
            core(36.0, 162.0, 28.0, 34.0),
            core(60.0, 20.0, 60.0, 15.0),
            core(10.0, 300.0, 5.0, 200.0),
            core(0.0, 0.0, 0.0, 0.0),
            core(f64::NAN, 50.0, f64::INFINITY, -4.0),
        ] {
            let svg = core_isometric(&core, LengthUnit::Millimetre, &Texts::english().unwrap());
            let height: f64 = svg
                .split("viewBox=\"0.00 0.00 360.00 ")
                .nth(1)
                .unwrap()
                .split('"')
                .next()
                .unwrap()
                .parse()
                .unwrap();
            assert!(
                height.is_finite() && !svg.contains("NaN\"") && !svg.contains("inf\""),
                "{svg}"
            );
            for text in svg.split("<text").skip(1) {
                let (x, y) = (numbers(text, "x"), numbers(text, "y"));
                let width = wide(text.split('>').nth(1).unwrap().trim_end_matches("</text"));
                let (left, right) = if text.contains("\"end\"") {
                    (x - width, x)
                } else {
                    (x, x + width)
                };
                assert!(
                    left >= 0.0 && right <= WIDTH && y > 10.0 && y < height,
                    "{text} of {height}"
                );
            }
        }
    }
}
