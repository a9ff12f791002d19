//! The core as a form: its face to scale with its depth, and a line from each length to its button, which the
//! screen lays round the drawing. And where the tool goes for each length.

use super::svg::Svg;
use crate::app::core_lengths::CoreLength;
use crate::magnetics::circuit::performance::Rebuild;
use crate::text::{Arg, Texts};

/// Width of the sheet: a phone's column.
const WIDE: f64 = 328.0;
/// What the buttons in the left column take, and the lines of the dimensions beside the face.
const LEFT: f64 = 142.0;
const RIGHT: f64 = 12.0;
/// Edge of the left column's buttons.
const COLUMN: f64 = 106.0;
/// Middles of the three columns of buttons above and below.
const MIDDLES: [f64; 3] = [52.0, 164.0, 276.0];
const TOP: f64 = 26.0;
const BOTTOM: f64 = 40.0;
/// Most that the core takes upwards.
const TALLEST: f64 = 250.0;
/// A depth is drawn at 45° and half its length: dx and dy for a millimetre of it.
const DEPTH: f64 = 0.5 * std::f64::consts::FRAC_1_SQRT_2;

/// How a length is drawn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthLook {
    /// Somebody measured it.
    Measured,
    /// A usual value: dashed.
    Usual,
    /// The one to measure next.
    Next,
}

impl LengthLook {
    const fn class(self) -> &'static str {
        match self {
            LengthLook::Measured => "length",
            LengthLook::Usual => "length usual",
            LengthLook::Next => "length next",
        }
    }
}

/// The core with a line to the place of each length's button: above the drawing yoke, stack and primary build;
/// on its left window height and primary height; below it outer limb, window width and tongue.
#[must_use]
pub fn core_form(rebuild: &Rebuild, look: impl Fn(CoreLength) -> LengthLook, texts: &Texts) -> String {
    let core = &rebuild.core;
    let mm = |length: CoreLength| {
        let mm = length.used(rebuild).mm();
        if mm.is_finite() { mm.max(0.0) } else { 0.0 }
    };
    let deep = DEPTH * mm(CoreLength::Stack);
    let (wide, tall) = (core.overall_width().mm(), core.overall_height().mm());
    let scale = ((WIDE - LEFT - RIGHT) / (wide + deep)).min(TALLEST / (tall + deep));
    let scale = if scale.is_finite() { scale } else { 1.0 };
    let [t, ww, wh, limb, yoke] = [
        CoreLength::Tongue,
        CoreLength::WindowWidth,
        CoreLength::WindowHeight,
        CoreLength::OuterLimb,
        CoreLength::Yoke,
    ]
    .map(|length| scale * mm(length));
    let (wide, tall, deep) = (scale * wide, scale * tall, scale * deep);
    let (left, top) = (LEFT, TOP + deep);
    let (right, foot) = (left + wide, top + tall);
    let mut svg = Svg::new(
        "core-form",
        &texts.text("drawn-core-form"),
        (0.0, 0.0, WIDE, foot + BOTTOM),
    );

    // Top and side of the pile, then the face.
    svg.path(
        "steel",
        &[
            (left, top),
            (left + deep, top - deep),
            (right + deep, top - deep),
            (right, top),
        ],
        true,
    );
    svg.path(
        "steel",
        &[
            (right, top),
            (right + deep, top - deep),
            (right + deep, foot - deep),
            (right, foot),
        ],
        true,
    );
    for part in 1..6u8 {
        let at = deep * f64::from(part) / 6.0;
        let edge = [(left + at, top - at), (right + at, top - at), (right + at, foot - at)];
        svg.path("grain", &edge, false);
    }
    svg.rect("steel", left, top, wide, tall);
    let tongue = left + limb + ww;
    let (high, build) = (
        scale * mm(CoreLength::PrimaryHeight),
        scale * mm(CoreLength::PrimaryBuild),
    );
    let (high, build) = (high.min(wh), build.min(ww));
    for (window, primary) in [(left + limb, tongue - build), (tongue + t, tongue + t)] {
        svg.rect("window", window, top + yoke, ww, wh);
        svg.rect("primary", primary, top + yoke + wh - high, build, high);
    }

    let mut length = |which: CoreLength, ends: [(f64, f64); 2], to: (f64, f64)| {
        let class = look(which).class();
        let [(x1, y1), (x2, y2)] = ends;
        svg.line(class, ends[0], ends[1]);
        // Ticks across the line at its ends.
        let along = (x2 - x1).hypot(y2 - y1).max(1e-9);
        let (nx, ny) = (4.0 * (y1 - y2) / along, 4.0 * (x2 - x1) / along);
        for (x, y) in ends {
            svg.line("tick", (x - nx, y - ny), (x + nx, y + ny));
        }
        let middle = (x1.midpoint(x2), y1.midpoint(y2));
        svg.line("leader", middle, to);
        svg.circle("dot", middle.0, middle.1, 2.6);
    };
    // Above.
    let off = 7.0;
    length(
        CoreLength::Stack,
        [(left - off, top - off), (left + deep - off, top - deep - off)],
        (MIDDLES[1], 0.0),
    );
    let over = top + yoke + wh - high - 6.0;
    length(
        CoreLength::PrimaryBuild,
        [(tongue + t, over), (tongue + t + build, over)],
        (MIDDLES[2], 0.0),
    );
    // On the left: two buttons, one below the other.
    let row = |at: f64| (foot + BOTTOM) * (at + 0.5) / 2.0;
    let out = left - 22.0;
    length(CoreLength::Yoke, [(out, top), (out, top + yoke)], (COLUMN - 6.0, 0.0));
    length(
        CoreLength::WindowHeight,
        [(out, top + yoke), (out, top + yoke + wh)],
        (COLUMN, row(0.0)),
    );
    let near = left - 9.0;
    length(
        CoreLength::PrimaryHeight,
        [(near, top + yoke + wh - high), (near, top + yoke + wh)],
        (COLUMN, row(1.0)),
    );
    // Below.
    let under = foot + 9.0;
    let end = foot + BOTTOM;
    length(
        CoreLength::OuterLimb,
        [(left, under), (left + limb, under)],
        (MIDDLES[0], end),
    );
    length(
        CoreLength::WindowWidth,
        [(left + limb, under), (tongue, under)],
        (MIDDLES[1], end),
    );
    length(
        CoreLength::Tongue,
        [(tongue, under), (tongue + t, under)],
        (MIDDLES[2], end),
    );
    svg.finish()
}

/// Where the jaws go for a length: on a usual core from the front, or from the side for the stack.
#[must_use]
pub fn jaws(length: CoreLength, name: &str, texts: &Texts) -> String {
    let title = texts.text_with("drawn-jaws", &[("field", Arg::Text(name))]);
    let mut svg = Svg::new("jaws", &title, (-16.0, -16.0, 152.0, 132.0));
    if length == CoreLength::Stack {
        // The pile from the side: the edges of its laminations.
        svg.rect("steel", 25.0, 0.0, 70.0, 100.0);
        for at in 1..10u8 {
            let x = 25.0 + 7.0 * f64::from(at);
            svg.line("grain", (x, 0.0), (x, 100.0));
        }
        upright(&mut svg, (25.0, 95.0), (40.0, 70.0), true);
        return svg.finish();
    }
    svg.rect("steel", 0.0, 0.0, 120.0, 100.0);
    for left in [20.0, 80.0] {
        svg.rect("window", left, 20.0, 20.0, 60.0);
    }
    if matches!(length, CoreLength::PrimaryHeight | CoreLength::PrimaryBuild) {
        svg.rect("primary", 26.0, 46.0, 14.0, 32.0);
        svg.rect("primary", 80.0, 46.0, 14.0, 32.0);
    }
    match length {
        CoreLength::Tongue => upright(&mut svg, (40.0, 80.0), (36.0, 64.0), true),
        CoreLength::OuterLimb => upright(&mut svg, (0.0, 20.0), (36.0, 64.0), true),
        CoreLength::WindowWidth => upright(&mut svg, (20.0, 40.0), (36.0, 64.0), false),
        CoreLength::PrimaryBuild => upright(&mut svg, (80.0, 94.0), (32.0, 52.0), true),
        CoreLength::Yoke => level(&mut svg, (0.0, 20.0), (22.0, 38.0), true),
        CoreLength::WindowHeight => level(&mut svg, (20.0, 80.0), (22.0, 38.0), false),
        CoreLength::PrimaryHeight => level(&mut svg, (46.0, 78.0), (22.0, 40.0), true),
        CoreLength::Stack => {}
    }
    svg.finish()
}

/// Thickness of a jaw.
const JAW: f64 = 5.0;

/// Two upright jaws at `ends`, outside or inside of them, and the beam that joins them.
fn upright(svg: &mut Svg, ends: (f64, f64), (from, to): (f64, f64), outside: bool) {
    let (a, b) = if outside {
        (ends.0 - JAW, ends.1)
    } else {
        (ends.0, ends.1 - JAW)
    };
    svg.rect("beam", a, from - 7.0, b + JAW - a, 7.0);
    for x in [a, b] {
        svg.rect("jaw", x, from - 7.0, JAW, to - from + 7.0);
    }
}

/// The same with level jaws.
fn level(svg: &mut Svg, ends: (f64, f64), (from, to): (f64, f64), outside: bool) {
    let (a, b) = if outside {
        (ends.0 - JAW, ends.1)
    } else {
        (ends.0, ends.1 - JAW)
    };
    svg.rect("beam", to, a, 7.0, b + JAW - a);
    for y in [a, b] {
        svg.rect("jaw", from, y, to - from + 7.0, JAW);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::evaluation::evaluate;
    use crate::app::start::demo_job;

    /// The drawing is to scale: its windows, and each length in its own look.
    #[test]
    fn the_form_is_to_scale_and_tells_what_is_measured() {
        let texts = Texts::english().unwrap();
        let answer = evaluate(&demo_job()).unwrap();
        let rebuild = &answer.problem.rebuild;
        let look = |length| match length {
            CoreLength::Yoke => LengthLook::Usual,
            CoreLength::Stack => LengthLook::Next,
            _ => LengthLook::Measured,
        };
        let svg = core_form(rebuild, look, &texts);
        assert_eq!(svg.matches("class=\"length\"").count(), 6);
        assert_eq!(svg.matches("class=\"length usual\"").count(), 1);
        assert_eq!(svg.matches("class=\"length next\"").count(), 1);
        assert_eq!(svg.matches("class=\"leader\"").count(), CoreLength::ALL.len());
        let window = svg.split("class=\"window\"").nth(1).unwrap();
        let number = |name: &str| -> f64 {
            let (_, after) = window.split_once(&format!(" {name}=\"")).unwrap();
            after.split('"').next().unwrap().parse().unwrap()
        };
        let drawn = number("height") / number("width");
        let real = rebuild.core.window_height.value.mm() / rebuild.core.window_width.value.mm();
        assert!((drawn / real - 1.0).abs() < 1e-3, "{drawn} against {real}");
        // Nothing lies off the sheet, whatever the core.
        assert!(!svg.contains("NaN") && !svg.contains("inf"));
    }

    #[test]
    fn every_length_has_its_jaws() {
        let texts = Texts::english().unwrap();
        for length in CoreLength::ALL {
            let svg = jaws(length, "Tongue width", &texts);
            assert_eq!(svg.matches("class=\"jaw\"").count(), 2, "{length:?}");
            assert!(svg.contains("Tongue width"));
        }
    }
}
