//! Parts of the donor: oven, plug and socket, capacitor, magnetron, push-on terminal.

use super::super::svg::Svg;
use super::super::trace::{Point, Pose, Trace};

/// The closed oven from the front, by its upper left corner.
pub(super) fn oven(svg: &mut Svg, at: Point, size: Point) {
    let ((x, y), (w, h)) = (at, size);
    svg.round_rect("body", at, size, 5.0);
    svg.round_rect("pane", (x + w * 0.08, y + h * 0.14), (w * 0.58, h * 0.7), 5.0);
    svg.line("edge", (x + w * 0.75, y), (x + w * 0.75, y + h));
    let knob = x + w * 0.875;
    for level in [0.3, 0.62] {
        svg.circle("edge", knob, y + h * level, w * 0.065);
        svg.line("edge", (knob, y + h * level), (knob, y + h * level - w * 0.065));
    }
}

/// A plug that lies on the bench, pins to the left; the cord leaves at the right of (0, 0).
pub(super) fn plug(svg: &mut Svg, pose: Pose) {
    for y in [-7.0, 7.0] {
        svg.stroke("round", &pose.line(&[(-50.0, y), (-30.0, y)]), 4.5 * pose.size());
    }
    let body = Trace::at(pose.put(-32.0, -14.0))
        .to(pose.put(-14.0, -14.0))
        .curve(pose.put(-5.0, -13.0), pose.put(-6.0, -5.0), pose.put(0.0, -4.0))
        .to(pose.put(0.0, 4.0))
        .curve(pose.put(-6.0, 5.0), pose.put(-5.0, 13.0), pose.put(-14.0, 14.0))
        .to(pose.put(-32.0, 14.0))
        .close();
    svg.trace("body", &body);
}

/// A wall socket, by its middle.
pub(super) fn socket(svg: &mut Svg, at: Point) {
    svg.round_rect("body", (at.0 - 33.0, at.1 - 33.0), (66.0, 66.0), 7.0);
    svg.circle("edge", at.0, at.1, 22.0);
    svg.circle("solid", at.0 - 9.0, at.1, 4.2);
    svg.circle("solid", at.0 + 9.0, at.1, 4.2);
}

/// The oval capacitor with its two terminals; (0, 0) is the middle of its lid, 100 wide.
/// The tips of the terminals are at (-22, -24) and (22, -24).
pub(super) fn capacitor(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    let can = Trace::at(pose.put(-50.0, 0.0))
        .to(pose.put(-50.0, 58.0))
        .curve(pose.put(-50.0, 78.0), pose.put(50.0, 78.0), pose.put(50.0, 58.0))
        .to(pose.put(50.0, 0.0))
        .close();
    svg.trace("iron", &can);
    svg.ellipse("iron", pose.put(0.0, 0.0), 50.0 * s, 15.0 * s);
    for x in [-22.0, 22.0] {
        svg.ellipse("body", pose.put(x, -2.0), 10.0 * s, 5.0 * s);
        svg.trace("body", &pose.block(x - 5.0, -25.0, 10.0, 22.0));
    }
}

/// The magnetron: fins, dome, ring magnets; (0, 0) is the middle of the fins.
pub(super) fn magnetron(svg: &mut Svg, pose: Pose) {
    svg.trace("body", &pose.block(-11.0, -66.0, 22.0, 24.0));
    let dome = Trace::at(pose.put(-11.0, -62.0))
        .curve(pose.put(-11.0, -80.0), pose.put(11.0, -80.0), pose.put(11.0, -62.0))
        .close();
    svg.trace("body", &dome);
    svg.trace("iron", &pose.block(-24.0, -44.0, 48.0, 14.0));
    svg.trace("body", &pose.block(-36.0, -30.0, 72.0, 60.0));
    for y in [-18.0, -6.0, 6.0, 18.0] {
        svg.trace("edge", &pose.line(&[(-28.0, y), (28.0, y)]));
    }
    svg.trace("iron", &pose.block(-24.0, 30.0, 48.0, 14.0));
    svg.trace("body", &pose.block(-20.0, 44.0, 40.0, 14.0));
}

/// A push-on terminal pushed onto its tab. The tab comes from the left and ends inside; the
/// wire leaves to the right at (44, 0).
pub(super) fn push_on(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.block(-40.0, -9.0, 46.0, 18.0));
    svg.trace("body", &pose.block(-6.0, -13.0, 32.0, 26.0));
    svg.trace("edge", &pose.line(&[(-6.0, -6.0), (20.0, -6.0)]));
    svg.trace("edge", &pose.line(&[(-6.0, 6.0), (20.0, 6.0)]));
    svg.trace("body", &pose.block(26.0, -8.0, 18.0, 16.0));
}

/// A clip at the end of a lead: jaws at (0, 0), the lead leaves upwards at (0, -26).
pub(super) fn clip(svg: &mut Svg, pose: Pose) {
    let jaw = |m: f64| {
        Trace::at(pose.put(0.0, -26.0))
            .to(pose.put(7.0 * m, -22.0))
            .to(pose.put(6.0 * m, -9.0))
            .to(pose.put(1.5 * m, 3.0))
            .to(pose.put(0.0, -9.0))
            .close()
    };
    svg.trace("solid-edge", &jaw(-1.0));
    svg.trace("solid-edge", &jaw(1.0));
}
