//! Circuit symbols in the style of IEC 60617, as commonly drawn.

use super::super::svg::{Anchor, Svg};
use super::super::trace::{Point, Trace};
use super::marks::{Sheet, note};

/// Height of a winding symbol.
pub(super) const WINDING: f64 = 80.0;

/// A wire through points.
pub(super) fn wire(svg: &mut Svg, points: &[Point]) {
    svg.trace("edge", &Trace::through(points));
}

/// A junction.
pub(super) fn joint(svg: &mut Svg, at: Point) {
    svg.circle("solid", at.0, at.1, 4.0);
}

/// A terminal: a small open circle.
pub(super) fn terminal(svg: &mut Svg, at: Point) {
    svg.circle("body", at.0, at.1, 4.5);
}

/// A circle with a letter: a source (~), an ammeter (A), a voltmeter (V), an ohmmeter (Ω).
pub(super) fn round(svg: &mut Svg, at: Point, letter: &str) {
    svg.circle("body", at.0, at.1, 17.0);
    svg.text("letter", (at.0, at.1 + 6.5), Anchor::Middle, letter);
}

/// An alternating source.
pub(super) fn source(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.circle("body", x, y, 17.0);
    let wave = Trace::at((x - 10.0, y))
        .bend((x - 5.0, y - 12.0), (x, y))
        .bend((x + 5.0, y + 12.0), (x + 10.0, y));
    svg.trace("edge", &wave);
}

/// A fuse in a level wire, by its middle; 36 wide.
pub(super) fn fuse(svg: &mut Svg, at: Point) {
    svg.rect("body", at.0 - 18.0, at.1 - 7.5, 36.0, 15.0);
    svg.line("edge", (at.0 - 18.0, at.1), (at.0 + 18.0, at.1));
}

/// A lamp, by its middle.
pub(super) fn lamp(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.circle("body", x, y, 17.0);
    let r = 12.0;
    svg.line("edge", (x - r, y - r), (x + r, y + r));
    svg.line("edge", (x - r, y + r), (x + r, y - r));
}

/// An open switch in a level wire between `at` and 28 to the right.
pub(super) fn switch(svg: &mut Svg, at: Point) {
    svg.line("edge", at, (at.0 + 26.0, at.1 - 15.0));
    joint(svg, at);
    joint(svg, (at.0 + 28.0, at.1));
}

/// A resistor in an upright wire, by its middle; 44 high.
pub(super) fn load(svg: &mut Svg, at: Point) {
    svg.rect("body", at.0 - 9.0, at.1 - 22.0, 18.0, 44.0);
}

/// Protective earth at the end of a wire that comes from above.
pub(super) fn earth(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    for (i, half) in [14.0, 9.0, 4.0].into_iter().enumerate() {
        let level = y + 5.5 * f64::from(u8::try_from(i).unwrap_or(0));
        svg.line("edge", (x - half, level), (x + half, level));
    }
}

/// A winding from its upper end down: four half circles to the right, or to the left.
pub(super) fn winding(svg: &mut Svg, top: Point, to_right: bool) {
    let r = WINDING / 8.0;
    let reach = if to_right { r * 1.45 } else { -r * 1.45 };
    let mut trace = Trace::at(top);
    for i in 0..4u8 {
        let y = top.1 + f64::from(i) * 2.0 * r;
        trace = trace.curve(
            (top.0 + reach, y - 1.0),
            (top.0 + reach, y + 2.0 * r + 1.0),
            (top.0, y + 2.0 * r),
        );
    }
    svg.trace("edge", &trace);
}

/// The core: two lines between the windings, from `top` down.
pub(super) fn core(svg: &mut Svg, top: Point) {
    for x in [-4.0, 4.0] {
        svg.line("bold", (top.0 + x, top.1), (top.0 + x, top.1 + WINDING + 12.0));
    }
}

/// The dot at the start of a winding.
pub(super) fn start_dot(svg: &mut Svg, at: Point) {
    svg.circle("solid", at.0, at.1, 5.0);
}

/// Where the transformer of [`transformer`] has its ends.
pub(super) const PRIMARY_X: f64 = 232.0;
/// The secondary's ends.
pub(super) const SECONDARY_X: f64 = 280.0;
/// The upper ends.
pub(super) const TOP: f64 = 72.0;

/// A transformer with two windings in the middle right of the sheet, its core earthed.
pub(super) fn transformer(svg: &mut Sheet<'_>) {
    winding(svg, (PRIMARY_X, TOP), true);
    winding(svg, (SECONDARY_X, TOP), false);
    core(svg, (256.0, TOP - 6.0));
    wire(svg, &[(256.0, TOP + WINDING + 6.0), (256.0, 190.0)]);
    earth(svg, (256.0, 190.0));
    note(svg, (276.0, 203.0), Anchor::Start, "drawn-ground");
}
