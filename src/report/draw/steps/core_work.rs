//! Steps on the core: warm, clean, measure, put away.

use super::super::svg::Anchor::{End, Middle, Start};
use super::super::svg::Svg;
use super::super::trace::{Pose, Trace};
use super::core_parts::{Solid, e_corners, e_face, i_face};
use super::donor_parts::{capacitor, magnetron, plug};
use super::marks::{Danger, arrow, cross, danger, note, sheet, tick, tubes, word};
use super::tools::{brush, calipers, clock, file, scale, tag, thermometer};
use crate::text::Texts;

pub(super) fn warm(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-warm");
    svg.round_rect("body", (16.0, 62.0), (176.0, 118.0), 6.0);
    svg.round_rect("pane", (28.0, 74.0), (128.0, 94.0), 4.0);
    svg.line("edge", (28.0, 156.0), (156.0, 156.0));
    let t = 26.0;
    e_face(&mut svg, Pose::at(46.0, 156.0).sized(t));
    i_face(&mut svg, Pose::at(46.0, 104.0).sized(t));
    for x in [58.0, 84.0, 110.0] {
        let wave = Trace::at((x, 166.0)).curve((x - 5.0, 163.0), (x + 5.0, 161.0), (x, 158.0));
        svg.trace("sign-line", &wave);
    }
    svg.circle("edge", 174.0, 88.0, 8.0);
    svg.circle("edge", 174.0, 114.0, 8.0);
    // Fumes.
    svg.trace("body", &Pose::at(0.0, 0.0).block(60.0, 36.0, 22.0, 26.0));
    arrow(&mut svg, &[(71.0, 50.0), (71.0, 22.0), (112.0, 22.0)]);
    note(&mut svg, (120.0, 27.0), Start, "drawn-fumes-outside");
    // Thermometer, with its probe on the core.
    svg.trace(
        "cord",
        &Trace::at((226.0, 118.0)).curve((200.0, 150.0), (150.0, 110.0), (124.0, 128.0)),
    );
    svg.circle("solid", 122.0, 129.0, 4.5);
    thermometer(&mut svg, Pose::at(228.0, 112.0).sized(1.05));
    note(&mut svg, (252.0, 100.0), Start, "drawn-on-the-core");
    clock(&mut svg, (322.0, 44.0), 22.0, 4.0);
    // What it is never again, and what it is never given.
    svg.trace(
        "body",
        &Trace::at((212.0, 148.0))
            .to((264.0, 148.0))
            .curve((262.0, 180.0), (214.0, 180.0), (212.0, 148.0))
            .close(),
    );
    cross(&mut svg, (238.0, 158.0), 21.0);
    note(&mut svg, (238.0, 204.0), Middle, "drawn-no-food");
    plug(&mut svg, Pose::at(342.0, 158.0));
    cross(&mut svg, (318.0, 158.0), 21.0);
    note(&mut svg, (313.0, 204.0), Middle, "drawn-no-current");
    danger(&mut svg, (38.0, 202.0), Danger::Heat, "drawn-hot");
    svg.finish()
}

/// The E with its limbs up, in depth.
fn standing_e(svg: &mut Svg, solid: Solid) {
    solid.pile(svg, &e_corners());
}

pub(super) fn clean(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-clean");
    let solid = Solid {
        pose: Pose::at(18.0, 196.0).sized(50.0),
        depth: (52.0, -36.0),
    };
    standing_e(&mut svg, solid);
    brush(&mut svg, Pose::at(55.5, 168.0).sized(0.76));
    file(&mut svg, Pose::at(88.0, 77.0), 70.0);
    arrow(&mut svg, &[(130.0, 42.0), (92.0, 42.0)]);
    arrow(&mut svg, &[(130.0, 42.0), (168.0, 42.0)]);
    tick(&mut svg, (244.0, 32.0));
    word(&mut svg, (262.0, 36.0), Start, "drawn-along-the");
    word(&mut svg, (243.0, 55.0), Start, "drawn-laminations");
    cross(&mut svg, (257.0, 99.0), 9.0);
    word(&mut svg, (274.0, 104.0), Start, "drawn-across");
    danger(&mut svg, (262.0, 160.0), Danger::Care, "drawn-dust");
    svg.say("danger-word", (248.0, 194.0), Start, "drawn-wipe-it-wet");
    svg.finish()
}

pub(super) fn measure(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-measure");
    let t = 46.0;
    let solid = Solid {
        pose: Pose::at(42.0, 186.0).sized(t),
        depth: (46.0, -30.0),
    };
    standing_e(&mut svg, solid);
    let put = |x: f64, y: f64, z: f64| solid.put(x, y, z);
    let (x, y) = put(1.5, -2.0, 0.0);
    calipers(&mut svg, Pose::at(x, y + 6.0), t / 2.0);
    svg.text("word", (x, 50.0), Middle, "T");
    // Window width below the yoke, window height at the left, stack at the right.
    let below = 199.0;
    for x in [2.0, 2.5] {
        let (x, y) = put(x, -0.5, 0.0);
        svg.line("leader", (x, y), (x, below + 6.0));
    }
    let (a, b) = (put(2.0, 0.0, 0.0).0, put(2.5, 0.0, 0.0).0);
    svg.line("edge", (a, below), (b, below));
    svg.text("word", (b + 8.0, below + 8.0), Start, "W");
    let (top, floor) = (put(0.0, -2.0, 0.0).1, put(0.0, -0.5, 0.0).1);
    for y in [top, floor] {
        svg.line("leader", (24.0, y), (40.0, y));
    }
    svg.line("leader", (40.0, floor), put(0.5, -0.5, 0.0));
    svg.line("edge", (30.0, top), (30.0, floor));
    svg.text("word", (15.0, f64::midpoint(top, floor) + 6.0), Middle, "H");
    let (near, far) = (put(3.0, 0.0, 0.0), put(3.0, 0.0, 1.0));
    svg.line("edge", (near.0 + 8.0, near.1 + 4.0), (far.0 + 8.0, far.1 + 4.0));
    svg.line("leader", near, (near.0 + 12.0, near.1 + 6.0));
    svg.line("leader", far, (far.0 + 12.0, far.1 + 6.0));
    svg.text("word", (214.0, 186.0), Start, "S");
    for (letter, name, y) in [
        ("T", "drawn-tongue", 26.0),
        ("S", "drawn-stack", 46.0),
        ("W H", "drawn-window", 66.0),
    ] {
        word(&mut svg, (282.0, y), End, letter);
        note(&mut svg, (290.0, y), Start, name);
    }
    e_face(&mut svg, Pose::at(262.0, 156.0).sized(22.0));
    i_face(&mut svg, Pose::at(262.0, 111.0).sized(22.0));
    scale(&mut svg, (295.0, 156.0));
    note(&mut svg, (295.0, 212.0), Middle, "drawn-e-and-i");
    svg.finish()
}

pub(super) fn store(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-store");
    for x in [14.0, 206.0] {
        svg.rect("wood", x, 14.0, 9.0, 192.0);
    }
    for y in [58.0, 172.0] {
        svg.rect("wood", 14.0, y, 201.0, 9.0);
    }
    let t = 38.0;
    e_face(&mut svg, Pose::at(32.0, 172.0).sized(t));
    i_face(&mut svg, Pose::at(32.0, 96.0).sized(t));
    for x in [46.0, 92.0] {
        svg.rect("iron", x, 66.0, 40.0, 9.5);
    }
    for x in [60.0, 118.0] {
        tubes(&mut svg, &[(Trace::through(&[(x, 64.0), (x, 176.0)]), 7.0)]);
    }
    tag(&mut svg, (146.0, 112.0));
    // Oil.
    let drop = Trace::at((186.0, 72.0))
        .curve((198.0, 90.0), (200.0, 104.0), (186.0, 104.0))
        .curve((172.0, 104.0), (174.0, 90.0), (186.0, 72.0))
        .close();
    svg.trace("body", &drop);
    note(&mut svg, (190.0, 122.0), Middle, "drawn-oil");
    word(&mut svg, (110.0, 202.0), Middle, "drawn-low-and-dry");
    // Waste.
    magnetron(&mut svg, Pose::at(266.0, 96.0).sized(0.62));
    capacitor(&mut svg, Pose::at(318.0, 96.0).sized(0.5));
    svg.trace(
        "body",
        &Trace::through(&[(234.0, 106.0), (350.0, 106.0), (340.0, 180.0), (244.0, 180.0)]).close(),
    );
    arrow(&mut svg, &[(292.0, 30.0), (292.0, 56.0)]);
    note(&mut svg, (292.0, 148.0), Middle, "drawn-e-waste");
    word(&mut svg, (292.0, 202.0), Middle, "drawn-whole");
    svg.finish()
}
