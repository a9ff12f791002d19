//! Steps that open the core: look, choose, cut, take out.

use super::super::svg::Anchor::{Middle, Start};
use super::super::trace::{Pose, Trace};
use super::core_parts::{Solid, e_corners, e_face, i_face, wires};
use super::marks::{Danger, Sheet, arrow, danger, leader, note, number, sheet, word};
use super::tools::{drift, hacksaw, hammer, vice_jaw};
use crate::text::Texts;

pub(super) fn inspect(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-inspect");
    let t = 60.0;
    let (left, joint) = (36.0, 46.0);
    e_face(&mut svg, Pose::at(left, joint + 2.0 * t).sized(t));
    i_face(&mut svg, Pose::at(left, joint).sized(t));
    for x in [left + 0.5 * t, left + 2.0 * t] {
        svg.rect("pane", x, joint, t / 2.0, 1.5 * t);
        wires(&mut svg, (x + 2.5, joint + 3.0), (25.0, 31.3), 4);
        wires(&mut svg, (x + 2.5, joint + 38.0), (25.0, 9.0), 3);
        svg.rect("iron", x + 1.5, joint + 50.5, 27.0, 8.0);
        wires(&mut svg, (x + 2.5, joint + 62.0), (25.0, 25.0), 2);
    }
    for x in [left, left + 3.0 * t] {
        svg.circle("solid", x, joint, 5.0);
    }
    let from = left + 2.25 * t;
    for (label, y, to) in [
        ("drawn-high-voltage", 68.0, joint + 18.0),
        ("drawn-filament", 94.0, joint + 42.0),
        ("drawn-shunts", 120.0, joint + 54.5),
        ("drawn-primary", 146.0, joint + 74.0),
    ] {
        leader(&mut svg, (250.0, y - 5.0), (from, to));
        note(&mut svg, (254.0, y), Start, label);
    }
    leader(&mut svg, (250.0, 27.0), (left + 3.0 * t, joint));
    word(&mut svg, (254.0, 32.0), Start, "drawn-seam");
    note(&mut svg, (14.0, 188.0), Start, "drawn-back-which-winding");
    danger(&mut svg, (206.0, 200.0), Danger::Flash, "drawn-never-feed-it");
    svg.finish()
}

pub(super) fn choose_way(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-choose-way");
    let t = 40.0;
    e_face(&mut svg, Pose::at(28.0, 176.0).sized(t));
    i_face(&mut svg, Pose::at(28.0, 70.0).sized(t));
    hacksaw(&mut svg, Pose::at(84.0, 84.0).sized(0.66), 118.0);
    arrow(&mut svg, &[(50.0, 44.0), (50.0, 14.0)]);
    word(&mut svg, (88.0, 204.0), Middle, "drawn-cut-the-seam");
    svg.line("dash", (180.0, 14.0), (180.0, 88.0));
    svg.line("dash", (180.0, 120.0), (180.0, 206.0));
    word(&mut svg, (180.0, 109.0), Middle, "drawn-or");
    // The whole core from the side.
    let whole = Pose::at(0.0, 0.0);
    svg.trace("iron", &whole.block(226.0, 76.0, 50.0, 100.0));
    for x in [234.0, 243.0, 252.0, 261.0, 269.0] {
        svg.line("grain", (x, 78.0), (x, 174.0));
    }
    svg.trace("copper", &whole.block(200.0, 112.0, 26.0, 30.0));
    drift(&mut svg, Pose::at(277.0, 127.0), 34.0);
    hammer(&mut svg, Pose::at(312.0, 127.0));
    arrow(&mut svg, &[(222.0, 156.0), (194.0, 156.0)]);
    word(&mut svg, (268.0, 204.0), Middle, "drawn-keep-it-whole");
    svg.finish()
}

pub(super) fn split(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-split");
    let t = 32.0;
    // Lying E with its open side to the right, the I beside it.
    let solid = Solid {
        pose: Pose::at(30.0, 86.0).sized(t),
        depth: (46.0, -32.0),
    };
    let lying: Vec<_> = e_corners().iter().map(|(x, y)| (-y, *x)).collect();
    let lying: Vec<_> = lying.into_iter().rev().collect();
    solid.pile(&mut svg, &lying);
    solid.bar(&mut svg, (2.0, 0.0), (0.5, 3.0));
    let (front, back) = (solid.put(2.0, 0.0, 0.0), solid.put(2.0, 0.0, 1.0));
    svg.stroke("casing", &Trace::through(&[front, back]), 10.0);
    svg.stroke("weld", &Trace::through(&[front, back]), 5.5);
    vice_jaw(&mut svg, (18.0, 140.0), 110.0);
    let along = (back.1 - front.1).atan2(back.0 - front.0).to_degrees();
    hacksaw(
        &mut svg,
        Pose::at(front.0 - 24.0, front.1 + 9.0).turned(along).sized(0.86),
        132.0,
    );
    cut_detail(&mut svg);
    danger(&mut svg, (26.0, 202.0), Danger::Care, "drawn-flying-pieces");
    svg.finish()
}

/// The seam, enlarged: two limbs, the weld and the cut through it.
fn cut_detail(svg: &mut Sheet<'_>) {
    let pose = Pose::at(278.0, 86.0);
    svg.trace("iron", &pose.block(-54.0, 0.0, 54.0, 64.0));
    svg.trace("iron", &pose.block(0.0, 0.0, 54.0, 64.0));
    let bead = Trace::at(pose.put(-22.0, 0.0))
        .curve(pose.put(-14.0, -16.0), pose.put(14.0, -16.0), pose.put(22.0, 0.0))
        .bend(pose.put(12.0, 18.0), pose.put(0.0, 20.0))
        .bend(pose.put(-12.0, 18.0), pose.put(-22.0, 0.0))
        .close();
    svg.trace("weld-face", &bead);
    svg.trace("pane", &pose.block(-4.0, -16.0, 8.0, 38.0));
    svg.trace("solid", &pose.block(-3.0, -46.0, 6.0, 62.0));
    svg.text("word", pose.put(-32.0, -14.0), Middle, "E");
    svg.text("word", pose.put(34.0, -14.0), Middle, "I");
    note(svg, pose.put(36.0, -34.0), Middle, "drawn-blade");
    word(svg, pose.put(0.0, 86.0), Middle, "drawn-just-through");
    note(svg, pose.put(0.0, 106.0), Middle, "drawn-both-seams");
}

pub(super) fn remove(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-remove");
    let t = 44.0;
    // Opened: E lying, parts drawn off to the right.
    e_face(&mut svg, Pose::at(12.0, 34.0).turned(90.0).sized(t));
    for (x, wide, across) in [(38.0, 24.0, 2), (136.0, 34.0, 5)] {
        for y in [34.0 + 0.5 * t, 34.0 + 2.0 * t] {
            wires(&mut svg, (x, y + 1.0), (wide, 20.0), across);
        }
    }
    for y in [34.0 + 0.5 * t, 34.0 + 2.0 * t] {
        svg.rect("iron", 114.0, y + 1.0, 9.0, 20.0);
    }
    arrow(&mut svg, &[(112.0, 100.0), (172.0, 100.0)]);
    number(&mut svg, (153.0, 40.0), 1);
    number(&mut svg, (118.0, 40.0), 2);
    number(&mut svg, (50.0, 20.0), 3);
    note(&mut svg, (90.0, 196.0), Middle, "drawn-opened-from");
    note(&mut svg, (90.0, 213.0), Middle, "drawn-the-seam-in");
    svg.line("dash", (186.0, 14.0), (186.0, 206.0));
    // Whole: shunts pushed along the stack, the winding driven out.
    let solid = Solid {
        pose: Pose::at(216.0, 152.0).sized(34.0),
        depth: (28.0, -20.0),
    };
    solid.bar(&mut svg, (0.0, -2.5), (3.0, 2.5));
    for x in [0.5, 2.0] {
        let (left, top) = solid.put(x, -2.0, 0.0);
        svg.rect("pane", left, top, 17.0, 51.0);
        wires(&mut svg, (left + 1.0, top + 1.0), (15.0, 18.0), 4);
        wires(&mut svg, (left + 1.0, top + 34.0), (15.0, 15.0), 2);
    }
    let shunt = Solid {
        pose: Pose::at(209.0, 122.0),
        depth: (24.0, -17.0),
    };
    shunt.bar(&mut svg, (0.0, 0.0), (15.0, 8.0));
    arrow(&mut svg, &[(206.0, 134.0), (194.0, 143.0)]);
    number(&mut svg, (202.0, 106.0), 1);
    drift(&mut svg, Pose::at(292.0, 92.0).turned(144.0), 52.0);
    number(&mut svg, (262.0, 114.0), 2);
    note(&mut svg, (274.0, 196.0), Middle, "drawn-whole-along");
    note(&mut svg, (274.0, 213.0), Middle, "drawn-the-stack");
    svg.finish()
}
