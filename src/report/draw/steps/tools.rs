//! Tools of the bench.

use super::super::svg::{Anchor, Svg};
use super::super::trace::{Point, Pose, Trace};
use super::marks::tubes;

/// A meter with a symbol in its display, by the middle of its upper edge; 52 wide, 78 high.
/// Its sockets are at (-12, 78) and (12, 78).
pub(super) fn meter(svg: &mut Svg, at: Point, symbol: &str) {
    let (x, y) = at;
    svg.round_rect("body", (x - 26.0, y), (52.0, 78.0), 7.0);
    svg.round_rect("pane", (x - 20.0, y + 6.0), (40.0, 24.0), 3.0);
    svg.text("word", (x, y + 23.5), Anchor::Middle, symbol);
    svg.circle("edge", x, y + 49.0, 13.0);
    svg.line("edge", (x, y + 49.0), (x + 8.0, y + 40.0));
    svg.circle("solid", x - 12.0, y + 71.0, 3.2);
    svg.circle("solid", x + 12.0, y + 71.0, 3.2);
}

/// Pliers: jaws at (0, 0), handles upwards to (±24, -112).
pub(super) fn pliers(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    for m in [-1.0, 1.0] {
        let handle = Trace::at(pose.put(-4.0 * m, -36.0)).curve(
            pose.put(10.0 * m, -50.0),
            pose.put(24.0 * m, -60.0),
            pose.put(18.0 * m, -104.0),
        );
        tubes(svg, &[(handle, 10.0 * s)]);
    }
    for m in [-1.0, 1.0] {
        let jaw = Trace::at(pose.put(0.0, -42.0))
            .bend(pose.put(13.0 * m, -38.0), pose.put(15.0 * m, -22.0))
            .to(pose.put(13.0 * m, 8.0))
            .to(pose.put(8.0 * m, 8.0))
            .to(pose.put(7.0 * m, -20.0))
            .close();
        svg.trace("iron", &jaw);
    }
    let (x, y) = pose.put(0.0, -38.0);
    svg.circle("body", x, y, 5.0 * s);
}

/// A nut driver: its socket is at (0, 0), its handle hangs down to (0, 70).
pub(super) fn nut_driver(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.block(-8.0, 0.0, 16.0, 12.0));
    svg.trace("iron", &pose.block(-3.5, 12.0, 7.0, 18.0));
    let grip = Trace::at(pose.put(-9.0, 30.0))
        .to(pose.put(9.0, 30.0))
        .to(pose.put(11.0, 64.0))
        .bend(pose.put(0.0, 74.0), pose.put(-11.0, 64.0))
        .close();
    svg.trace("body", &grip);
    svg.trace("edge", &pose.line(&[(0.0, 36.0), (0.0, 62.0)]));
}

/// The insulated resistor tool: two prongs end at (±22, 0), the handle goes up to (0, -104).
pub(super) fn resistor_tool(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    for m in [-1.0, 1.0] {
        svg.stroke("round", &pose.line(&[(22.0 * m, 0.0), (22.0 * m, -22.0)]), 4.5 * s);
    }
    // Handle, guard, head with its resistor.
    svg.trace("body", &pose.block(-7.0, -104.0, 14.0, 54.0));
    svg.trace("body", &pose.block(-19.0, -54.0, 38.0, 7.0));
    svg.trace("body", &pose.block(-32.0, -47.0, 64.0, 25.0));
    svg.trace("edge", &pose.line(&[(-22.0, -22.0), (-22.0, -34.0), (-12.0, -34.0)]));
    svg.trace("edge", &pose.line(&[(22.0, -22.0), (22.0, -34.0), (12.0, -34.0)]));
    svg.trace("pane", &pose.block(-12.0, -39.0, 24.0, 10.0));
}

/// A grinder is loud; a saw is the sure way: the hacksaw lies along x, teeth down, from its
/// handle at the left (0, 0) to the nose at (length, 0).
pub(super) fn hacksaw(svg: &mut Svg, pose: Pose, length: f64) {
    let s = pose.size();
    let frame = pose.line(&[(0.0, 0.0), (4.0, -34.0), (length - 4.0, -34.0), (length, 0.0)]);
    tubes(svg, &[(frame, 8.0 * s)]);
    svg.trace("solid", &pose.block(0.0, -3.5, length, 5.0));
    let mut x = 3.0;
    while x < length - 4.0 {
        svg.trace("solid", &pose.area(&[(x, 1.0), (x + 5.0, 1.0), (x + 2.5, 5.5)]));
        x += 5.0;
    }
    tubes(svg, &[(pose.line(&[(-4.0, 0.0), (-16.0, 24.0)]), 14.0 * s)]);
}

/// Calipers that grip between (-half, 0) and (half, 0) from above; the beam is at -36.
pub(super) fn calipers(svg: &mut Svg, pose: Pose, half: f64) {
    svg.trace("body", &pose.block(-half - 26.0, -42.0, 2.0 * half + 92.0, 12.0));
    svg.trace(
        "body",
        &pose.area(&[
            (-half - 20.0, -46.0),
            (-half, -46.0),
            (-half, 22.0),
            (-half - 6.0, 14.0),
            (-half - 10.0, -30.0),
            (-half - 20.0, -30.0),
        ]),
    );
    svg.trace(
        "body",
        &pose.area(&[
            (half, -46.0),
            (half + 34.0, -46.0),
            (half + 34.0, -26.0),
            (half + 10.0, -26.0),
            (half + 6.0, 14.0),
            (half, 22.0),
        ]),
    );
}

/// A hammer that strikes to the left at (0, 0); its handle hangs down.
pub(super) fn hammer(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    tubes(svg, &[(pose.line(&[(18.0, 0.0), (24.0, 62.0)]), 10.0 * s)]);
    svg.trace("iron", &pose.block(0.0, -13.0, 12.0, 26.0));
    svg.trace(
        "iron",
        &pose.area(&[
            (12.0, -9.0),
            (30.0, -9.0),
            (40.0, -2.0),
            (40.0, 2.0),
            (30.0, 9.0),
            (12.0, 9.0),
        ]),
    );
}

/// A wooden drift with its tip at (0, 0) and its head at (length, 0).
pub(super) fn drift(svg: &mut Svg, pose: Pose, length: f64) {
    svg.trace("wood", &pose.block(0.0, -7.0, length, 14.0));
    svg.trace("grain", &pose.line(&[(6.0, -1.0), (length - 8.0, -1.0)]));
}

/// A brush: bristles end at (0, 0), the handle goes up.
pub(super) fn brush(svg: &mut Svg, pose: Pose) {
    svg.trace("body", &pose.block(-13.0, -20.0, 26.0, 20.0));
    for x in [-6.5, 0.0, 6.5] {
        svg.trace("grain", &pose.line(&[(x, -18.0), (x, -2.0)]));
    }
    svg.trace("iron", &pose.block(-15.0, -32.0, 30.0, 12.0));
    svg.trace("wood", &pose.block(-6.0, -74.0, 12.0, 42.0));
}

/// A file whose working face is the line from (0, 0) to (length, 0); the handle follows.
pub(super) fn file(svg: &mut Svg, pose: Pose, length: f64) {
    svg.trace("iron", &pose.block(0.0, -8.0, length, 8.0));
    let handle = Trace::at(pose.put(length, -7.0))
        .to(pose.put(length + 8.0, -10.0))
        .to(pose.put(length + 38.0, -10.0))
        .bend(pose.put(length + 46.0, -4.0), pose.put(length + 38.0, 2.0))
        .to(pose.put(length + 8.0, 2.0))
        .to(pose.put(length, -1.0))
        .close();
    svg.trace("wood", &handle);
}

/// A vice: its front jaw by the upper left corner, its screw below.
pub(super) fn vice_jaw(svg: &mut Svg, at: Point, width: f64) {
    let (x, y) = at;
    svg.round_rect("body", at, (width, 38.0), 3.0);
    svg.line("edge", (x, y + 10.0), (x + width, y + 10.0));
    let middle = x + width / 2.0;
    svg.circle("iron", middle, y + 25.0, 8.0);
    svg.stroke(
        "round",
        &Trace::through(&[(middle - 24.0, y + 33.0), (middle + 24.0, y + 17.0)]),
        4.5,
    );
}

/// Glasses with side shields, by their middle; 56 wide.
pub(super) fn glasses(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.round_rect("body", (x - 27.0, y - 11.0), (24.0, 21.0), 8.0);
    svg.round_rect("body", (x + 3.0, y - 11.0), (24.0, 21.0), 8.0);
    svg.trace(
        "edge",
        &Trace::at((x - 3.0, y - 4.0)).bend((x, y - 9.0), (x + 3.0, y - 4.0)),
    );
    svg.line("edge", (x - 27.0, y - 5.0), (x - 31.0, y - 14.0));
    svg.line("edge", (x + 27.0, y - 5.0), (x + 31.0, y - 14.0));
}

/// A work lamp that shines down: hung at the top, rim at `at`.
pub(super) fn lamp_above(svg: &mut Svg, at: Point, reach: f64) {
    let (x, y) = at;
    svg.line("edge", (x, 6.0), (x, y - 24.0));
    svg.trace(
        "body",
        &Trace::through(&[(x - 12.0, y - 24.0), (x + 12.0, y - 24.0), (x + 28.0, y), (x - 28.0, y)]).close(),
    );
    for (from, to) in [(-20.0, -48.0), (0.0, 0.0), (20.0, 48.0)] {
        svg.line("dash", (x + from, y + 8.0), (x + to, y + reach));
    }
}

/// A sheet of paper with lines, by its upper left corner.
pub(super) fn paper(svg: &mut Svg, at: Point, size: Point) {
    let ((x, y), (w, h)) = (at, size);
    svg.rect("body", x, y, w, h);
    let mut level = y + 12.0;
    while level < y + h - 6.0 {
        svg.line("edge", (x + 8.0, level), (x + w - 8.0, level));
        level += 10.0;
    }
}

/// A tag on a string that begins at `at`.
pub(super) fn tag(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.trace("edge", &Trace::at(at).bend((x + 12.0, y - 8.0), (x + 18.0, y + 6.0)));
    let shape = [
        (x + 12.0, y + 4.0),
        (x + 24.0, y + 4.0),
        (x + 24.0, y + 38.0),
        (x + 6.0, y + 38.0),
        (x + 6.0, y + 10.0),
    ];
    svg.trace("body", &Trace::through(&shape).close());
    for level in [18.0, 27.0] {
        svg.line("edge", (x + 10.0, y + level), (x + 20.0, y + level));
    }
}

/// A clock, hand from 12 to `hour`, by its middle.
pub(super) fn clock(svg: &mut Svg, at: Point, radius: f64, hour: f64) {
    svg.circle("body", at.0, at.1, radius);
    svg.line("edge", at, (at.0, at.1 - radius * 0.72));
    let (sin, cos) = (hour * 30.0).to_radians().sin_cos();
    svg.line("edge", at, (at.0 + radius * 0.55 * sin, at.1 - radius * 0.55 * cos));
}

/// A thermometer, bulb at (0, 0), 60 high.
pub(super) fn thermometer(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    tubes(
        svg,
        &[
            (pose.line(&[(0.0, 0.0), (0.0, -1.0)]), 20.0 * s),
            (pose.line(&[(0.0, 0.0), (0.0, -54.0)]), 12.0 * s),
        ],
    );
    let (x, y) = pose.put(0.0, 0.0);
    svg.circle("flash", x, y, 5.5 * s);
    svg.stroke("red-round", &pose.line(&[(0.0, 0.0), (0.0, -34.0)]), 3.6 * s);
}

/// A clamp meter, jaws up, by the middle of the foot of its body; 44 wide, 84 high.
pub(super) fn clamp_meter(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    tubes(svg, &[(Trace::arc((x, y - 64.0), 17.0, 80.0, 460.0), 8.0)]);
    svg.round_rect("body", (x - 22.0, y - 50.0), (44.0, 50.0), 6.0);
    svg.round_rect("pane", (x - 15.0, y - 43.0), (30.0, 22.0), 3.0);
    svg.text("word", (x, y - 26.5), Anchor::Middle, "A");
    svg.circle("edge", x, y - 11.0, 6.0);
}

/// A light bulb in its holder, by the middle of its foot; 66 high.
pub(super) fn bulb(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.trace(
        "body",
        &Trace::at((x - 9.0, y - 22.0))
            .curve((x - 9.0, y - 32.0), (x - 22.0, y - 34.0), (x - 22.0, y - 48.0))
            .curve((x - 22.0, y - 76.0), (x + 22.0, y - 76.0), (x + 22.0, y - 48.0))
            .curve((x + 22.0, y - 34.0), (x + 9.0, y - 32.0), (x + 9.0, y - 22.0))
            .close(),
    );
    svg.trace(
        "edge",
        &Trace::through(&[
            (x - 5.0, y - 22.0),
            (x - 8.0, y - 44.0),
            (x, y - 38.0),
            (x + 8.0, y - 44.0),
            (x + 5.0, y - 22.0),
        ]),
    );
    svg.rect("iron", x - 11.0, y - 24.0, 22.0, 12.0);
    svg.rect("body", x - 26.0, y - 12.0, 52.0, 12.0);
}

/// A scale with a pan, by the middle of its pan; 108 wide, 40 high.
pub(super) fn scale(svg: &mut Svg, at: Point) {
    let (x, y) = at;
    svg.rect("iron", x - 54.0, y, 108.0, 8.0);
    svg.trace(
        "body",
        &Trace::through(&[
            (x - 38.0, y + 8.0),
            (x + 38.0, y + 8.0),
            (x + 50.0, y + 38.0),
            (x - 50.0, y + 38.0),
        ])
        .close(),
    );
    svg.text("word", (x, y + 29.0), Anchor::Middle, "kg");
}
