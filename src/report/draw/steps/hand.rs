//! Hands in gloves, and a person.

use super::super::svg::Svg;
use super::super::trace::{Pose, Trace};
use super::marks::tubes;

/// A fist round a handle that runs up and down through (0, 0); the arm leaves to the right.
/// Draw the handle first.
pub(super) fn fist(svg: &mut Svg, pose: Pose, arm: f64) {
    let s = pose.size();
    tubes(
        svg,
        &[
            (pose.line(&[(16.0, 0.0), (arm, 0.0)]), 22.0 * s),
            (pose.line(&[(12.0, -7.0), (12.0, 7.0)]), 25.0 * s),
        ],
    );
    cuff(svg, pose, (32.0, 0.0));
    for y in [15.0, 5.0, -5.0, -15.0] {
        tubes(svg, &[(pose.line(&[(9.0, y), (-9.0, y)]), 9.5 * s)]);
    }
}

/// A line across the arm where the glove ends; the arm runs along x.
fn cuff(svg: &mut Svg, pose: Pose, at: (f64, f64)) {
    svg.trace("edge", &pose.line(&[(at.0, at.1 - 11.0), (at.0, at.1 + 11.0)]));
}

/// A hand that holds a thing from above: thumb at the left of the thing, fingers at the right.
/// Between them are about `2 × half` at (0, 0); the arm leaves upwards to `arm`.
pub(super) fn hold(svg: &mut Svg, pose: Pose, half: f64, arm: f64) {
    let s = pose.size();
    let finger = |reach: f64, out: f64| {
        Trace::at(pose.put(6.0, -38.0)).curve(
            pose.put(half + out, -36.0),
            pose.put(half + out + 4.0, -14.0),
            pose.put(half + out - 1.0, reach),
        )
    };
    for (reach, out) in [(4.0, 4.0), (8.0, 8.0), (12.0, 12.0)] {
        tubes(svg, &[(finger(reach, out), 9.5 * s)]);
    }
    let thumb = Trace::at(pose.put(-6.0, -38.0)).curve(
        pose.put(-half - 4.0, -36.0),
        pose.put(-half - 10.0, -18.0),
        pose.put(-half - 4.0, 2.0),
    );
    tubes(
        svg,
        &[
            (thumb, 11.0 * s),
            (pose.line(&[(-7.0, -40.0), (9.0, -40.0)]), 24.0 * s),
            (pose.line(&[(0.0, -44.0), (0.0, -arm)]), 22.0 * s),
        ],
    );
    svg.trace("edge", &pose.line(&[(-11.0, -56.0), (11.0, -56.0)]));
}

/// An open hand held up: stop. The middle of the palm is at (0, 0).
pub(super) fn open_hand(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    let palm = Trace::at(pose.put(-19.0, -14.0))
        .to(pose.put(19.0, -14.0))
        .to(pose.put(17.0, 12.0))
        .bend(pose.put(12.0, 22.0), pose.put(10.0, 26.0))
        .to(pose.put(-10.0, 26.0))
        .bend(pose.put(-14.0, 20.0), pose.put(-17.0, 12.0))
        .close();
    for (x, top) in [(-15.0, -46.0), (-5.0, -54.0), (5.0, -52.0), (15.0, -42.0)] {
        tubes(svg, &[(pose.line(&[(x, -10.0), (x * 1.15, top)]), 10.0 * s)]);
    }
    tubes(
        svg,
        &[(
            Trace::at(pose.put(-12.0, 10.0)).bend(pose.put(-26.0, 4.0), pose.put(-33.0, -14.0)),
            10.0 * s,
        )],
    );
    svg.trace("body", &palm);
    svg.trace(
        "body",
        &pose.area(&[(-14.0, 26.0), (14.0, 26.0), (14.0, 46.0), (-14.0, 46.0)]),
    );
}

/// A person from the side who faces left: one arm reaches out, the other hand is behind the
/// back. The shoulder is at (0, 0).
pub(super) fn person_one_hand_back(svg: &mut Svg, pose: Pose) {
    let s = pose.size();
    tubes(
        svg,
        &[(pose.line(&[(0.0, 4.0), (-24.0, 16.0), (-50.0, 10.0)]), 10.0 * s)],
    );
    for (hip, foot) in [(-5.0, -8.0), (5.0, 8.0)] {
        tubes(svg, &[(pose.line(&[(hip, 50.0), (foot, 88.0)]), 13.0 * s)]);
    }
    tubes(svg, &[(pose.line(&[(0.0, 4.0), (0.0, 50.0)]), 24.0 * s)]);
    let (x, y) = pose.put(-3.0, -24.0);
    svg.circle("body", x, y, 12.0 * s);
    tubes(svg, &[(pose.line(&[(2.0, 4.0), (26.0, 24.0), (9.0, 38.0)]), 10.0 * s)]);
}
