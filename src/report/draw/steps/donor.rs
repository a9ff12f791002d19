//! Steps on the donor: from the bench laid out to the transformer in the hand.

use super::super::svg::Anchor::{End, Middle, Start};
use super::super::svg::Svg;
use super::super::trace::{Pose, Trace};
use super::core_parts::transformer;
use super::donor_parts::{capacitor, clip, magnetron, oven, plug, push_on, socket};
use super::hand::{fist, hold, open_hand, person_one_hand_back};
use super::marks::{
    Danger, arrow, bench, cross, danger, eye, leader, note, number, sheet, sign, tick, tubes, turning, word,
};
use super::tools::{glasses, lamp_above, meter, nut_driver, pliers, resistor_tool};
use crate::text::Texts;

pub(super) fn prepare(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-prepare");
    bench(&mut svg, 160.0, 8.0, 352.0);
    oven(&mut svg, (14.0, 86.0), (102.0, 74.0));
    lamp_above(&mut svg, (200.0, 50.0), 44.0);
    note(&mut svg, (240.0, 40.0), Start, "drawn-good-light");
    glasses(&mut svg, (158.0, 147.0));
    glove(&mut svg, Pose::at(219.0, 160.0));
    resistor_tool(&mut svg, Pose::at(270.0, 160.0).sized(0.74));
    meter(&mut svg, (325.0, 82.0), "V");
    note(&mut svg, (65.0, 190.0), Middle, "drawn-closed");
    note(&mut svg, (158.0, 190.0), Middle, "drawn-glasses");
    note(&mut svg, (215.0, 210.0), Middle, "drawn-gloves");
    note(&mut svg, (262.0, 190.0), Middle, "drawn-resistor-tool");
    note(&mut svg, (325.0, 210.0), Middle, "drawn-meter");
    svg.finish()
}

/// A glove that stands on its cuff.
fn glove(svg: &mut Svg, pose: Pose) {
    let fingers = [(-11.0, -58.0), (-3.5, -64.0), (4.5, -62.0), (12.0, -54.0)];
    for (x, top) in fingers {
        tubes(svg, &[(pose.line(&[(x, -30.0), (x * 1.2, top)]), 8.5)]);
    }
    tubes(
        svg,
        &[(
            Trace::at(pose.put(-8.0, -20.0)).bend(pose.put(-22.0, -24.0), pose.put(-24.0, -40.0)),
            9.0,
        )],
    );
    svg.trace(
        "body",
        &pose.area(&[
            (-15.0, -36.0),
            (16.0, -36.0),
            (13.0, -14.0),
            (13.0, 0.0),
            (-12.0, 0.0),
            (-12.0, -14.0),
        ]),
    );
    svg.trace("edge", &pose.line(&[(-12.0, -13.0), (13.0, -13.0)]));
}

pub(super) fn unplug(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-unplug");
    bench(&mut svg, 164.0, 8.0, 352.0);
    socket(&mut svg, (52.0, 52.0));
    note(&mut svg, (52.0, 106.0), Middle, "drawn-empty");
    oven(&mut svg, (228.0, 74.0), (118.0, 90.0));
    let cord = Trace::at((140.0, 149.0)).curve((180.0, 149.0), (176.0, 156.0), (228.0, 156.0));
    svg.trace("cord", &cord);
    plug(&mut svg, Pose::at(140.0, 149.0));
    arrow(&mut svg, &[(88.0, 74.0), (120.0, 126.0)]);
    eye(&mut svg, Pose::at(168.0, 48.0).sized(1.2));
    for (from, to) in [((158.0, 66.0), (132.0, 130.0)), ((176.0, 66.0), (144.0, 136.0))] {
        svg.line("dash", from, to);
    }
    word(&mut svg, (168.0, 22.0), Middle, "drawn-in-sight");
    danger(&mut svg, (216.0, 198.0), Danger::Flash, "drawn-still-charged");
    word(&mut svg, (110.0, 202.0), Middle, "drawn-plug-out");
    svg.finish()
}

pub(super) fn open(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-open");
    // Floor, front and back of the open oven.
    svg.trace("iron", &Pose::at(0.0, 0.0).block(34.0, 186.0, 186.0, 9.0));
    svg.trace("body", &Pose::at(0.0, 0.0).block(34.0, 120.0, 9.0, 66.0));
    svg.trace("body", &Pose::at(0.0, 0.0).block(208.0, 92.0, 12.0, 94.0));
    transformer(&mut svg, Pose::at(94.0, 186.0).sized(0.72));
    capacitor(&mut svg, Pose::at(174.0, 150.0).sized(0.48));
    sign(&mut svg, (174.0, 112.0), Danger::Flash, 1.1);
    // The cover, lifted off.
    svg.trace(
        "cover",
        &Trace::through(&[(14.0, 92.0), (14.0, 34.0), (184.0, 34.0), (184.0, 66.0)]),
    );
    arrow(&mut svg, &[(112.0, 80.0), (78.0, 46.0)]);
    note(&mut svg, (100.0, 24.0), Middle, "drawn-cover");
    eye(&mut svg, Pose::at(250.0, 46.0).sized(1.2));
    svg.line("dash", (236.0, 62.0), (190.0, 104.0));
    svg.line("dash", (228.0, 54.0), (140.0, 100.0));
    word(&mut svg, (284.0, 51.0), Start, "drawn-look");
    open_hand(&mut svg, Pose::at(290.0, 134.0).sized(0.9));
    word(&mut svg, (290.0, 200.0), Middle, "drawn-hands-out");
    svg.say("danger-word", (174.0, 212.0), Middle, "drawn-charged");
    svg.finish()
}

pub(super) fn capacitor_safe(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-capacitor-safe");
    // The oven chassis that the capacitor is strapped to, with the tool's clip on it.
    svg.rect("iron", 8.0, 194.0, 196.0, 9.0);
    capacitor(&mut svg, Pose::at(106.0, 128.0).sized(0.92));
    svg.rect("body", 58.0, 152.0, 96.0, 10.0);
    resistor_tool(&mut svg, Pose::at(106.0, 107.0).sized(0.92));
    fist(&mut svg, Pose::at(106.0, 32.0).sized(0.8), 92.0);
    svg.trace(
        "dash-arrow",
        &Trace::at((74.0, 108.0)).curve((40.0, 112.0), (30.0, 140.0), (28.0, 184.0)),
    );
    svg.trace(
        "dash-arrow",
        &Trace::at((138.0, 108.0)).curve((172.0, 112.0), (182.0, 140.0), (184.0, 184.0)),
    );
    for x in [28.0, 184.0] {
        svg.trace(
            "arrow-head",
            &Pose::at(x, 194.0).area(&[(0.0, 0.0), (-7.0, -12.0), (7.0, -12.0)]),
        );
    }
    clip(&mut svg, Pose::at(124.0, 194.0).sized(0.8));
    number(&mut svg, (148.0, 180.0), 1);
    number(&mut svg, (106.0, 108.0), 4);
    number(&mut svg, (37.0, 130.0), 2);
    number(&mut svg, (175.0, 130.0), 3);
    note(&mut svg, (106.0, 216.0), Middle, "drawn-oven-chassis");
    sign(&mut svg, (32.0, 28.0), Danger::Flash, 1.2);
    svg.say("danger-word", (8.0, 64.0), Start, "drawn-charged");
    // The other hand.
    person_one_hand_back(&mut svg, Pose::at(290.0, 32.0).sized(0.68));
    note(&mut svg, (286.0, 111.0), Middle, "drawn-one-hand-behind");
    // Prove and clip.
    meter(&mut svg, (240.0, 118.0), "V");
    number(&mut svg, (212.0, 128.0), 5);
    note(&mut svg, (240.0, 213.0), Middle, "drawn-prove");
    capacitor(&mut svg, Pose::at(320.0, 164.0).sized(0.5));
    clipped(&mut svg, (320.0, 164.0), 0.5);
    number(&mut svg, (288.0, 136.0), 6);
    note(&mut svg, (320.0, 213.0), Middle, "drawn-clip-on");
    svg.finish()
}

pub(super) fn disconnect(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-disconnect");
    push_on(&mut svg, Pose::at(54.0, 92.0));
    svg.trace("cord", &Trace::at((98.0, 92.0)).bend((150.0, 92.0), (196.0, 74.0)));
    pliers(&mut svg, Pose::at(64.0, 86.0).sized(0.72));
    arrow(&mut svg, &[(112.0, 110.0), (160.0, 110.0)]);
    tick(&mut svg, (108.0, 34.0));
    word(&mut svg, (126.0, 40.0), Start, "drawn-by-its-metal");
    push_on(&mut svg, Pose::at(54.0, 156.0));
    svg.trace("cord", &Trace::at((98.0, 156.0)).to((206.0, 156.0)));
    fist(&mut svg, Pose::at(158.0, 156.0).turned(90.0).sized(0.86), 60.0);
    cross(&mut svg, (26.0, 195.0), 9.0);
    word(&mut svg, (42.0, 200.0), Start, "drawn-by-its-wire");
    capacitor(&mut svg, Pose::at(296.0, 128.0).sized(0.8));
    clipped(&mut svg, (296.0, 128.0), 0.8);
    note(&mut svg, (296.0, 210.0), Middle, "drawn-clip-stays-on");
    svg.finish()
}

/// The lead with two clips that joins the terminals of a capacitor whose lid is at `at`.
fn clipped(svg: &mut Svg, at: (f64, f64), size: f64) {
    let (left, right, top) = (at.0 - 22.0 * size, at.0 + 22.0 * size, at.1 - 24.0 * size);
    svg.trace(
        "cord",
        &Trace::at((left, top - 22.0 * size)).curve(
            (left, top - 62.0 * size),
            (right, top - 62.0 * size),
            (right, top - 22.0 * size),
        ),
    );
    for x in [left, right] {
        clip(svg, Pose::at(x, top).sized(size));
    }
}

pub(super) fn keep_parts(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-keep-parts");
    bench(&mut svg, 164.0, 8.0, 352.0);
    // Cord and plug.
    let cord = Trace::at((56.0, 149.0)).curve((96.0, 149.0), (24.0, 92.0), (74.0, 96.0));
    svg.trace("cord", &cord);
    plug(&mut svg, Pose::at(56.0, 149.0));
    note(&mut svg, (50.0, 190.0), Middle, "drawn-cord");
    // Fan.
    svg.circle("body", 128.0, 128.0, 34.0);
    for turn in [0.0, 120.0, 240.0] {
        let blade = Pose::at(128.0, 128.0).turned(turn);
        svg.trace(
            "iron",
            &blade.area(&[(-3.0, -6.0), (-12.0, -28.0), (4.0, -31.0), (5.0, -6.0)]),
        );
    }
    svg.circle("solid", 128.0, 128.0, 6.0);
    note(&mut svg, (128.0, 190.0), Middle, "drawn-fan");
    // Door switch and cut-out.
    svg.rect("body", 178.0, 116.0, 40.0, 22.0);
    svg.line("edge", (186.0, 116.0), (206.0, 108.0));
    for x in [184.0, 198.0, 212.0] {
        svg.line("edge", (x, 138.0), (x, 148.0));
    }
    svg.circle("body", 198.0, 72.0, 15.0);
    for x in [186.0, 210.0] {
        svg.line("edge", (x, 82.0), (x, 96.0));
    }
    note(&mut svg, (198.0, 44.0), Middle, "drawn-cut-outs");
    note(&mut svg, (189.0, 190.0), Middle, "drawn-switches");
    // The capacitor keeps its clip lead.
    capacitor(&mut svg, Pose::at(300.0, 128.0).sized(0.8));
    clipped(&mut svg, (300.0, 128.0), 0.8);
    danger(&mut svg, (229.0, 206.0), Danger::Flash, "drawn-clip-stays-on");
    svg.finish()
}

pub(super) fn unbolt(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-unbolt");
    svg.rect("iron", 10.0, 158.0, 226.0, 8.0);
    svg.rect("body", 10.0, 90.0, 8.0, 68.0);
    transformer(&mut svg, Pose::at(122.0, 158.0).sized(0.84));
    hold(&mut svg, Pose::at(122.0, 76.0), 42.0, 62.0);
    for x in [74.0, 170.0] {
        svg.rect("body", x - 4.0, 146.0, 8.0, 28.0);
        svg.rect("solid", x - 9.0, 166.0, 18.0, 8.0);
    }
    nut_driver(&mut svg, Pose::at(170.0, 172.0).sized(0.6));
    turning(&mut svg, (170.0, 188.0), 22.0, 160.0, 20.0);
    word(&mut svg, (180.0, 40.0), Start, "drawn-hold");
    leader(&mut svg, (62.0, 190.0), (72.0, 171.0));
    note(&mut svg, (66.0, 206.0), End, "drawn-bolts");
    magnetron(&mut svg, Pose::at(296.0, 104.0).sized(0.8));
    danger(&mut svg, (228.0, 194.0), Danger::Care, "drawn-magnetron");
    svg.say("danger-word", (249.0, 216.0), Start, "drawn-leave-whole");
    svg.finish()
}
