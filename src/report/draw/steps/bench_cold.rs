//! Stages of the bench without mains.

use super::super::svg::Anchor::{Middle, Start};
use super::super::svg::{Anchor, Svg};
use super::super::trace::{Point, Pose, Trace};
use super::core_parts::transformer;
use super::donor_parts::{clip, plug};
use super::marks::{Danger, Sheet, bench, danger, leader, note, number, sheet, word};
use super::symbols::{
    self, PRIMARY_X, SECONDARY_X, TOP, WINDING, core, earth, fuse, joint, round, source, start_dot, winding, wire,
};
use super::tools::{bulb, clamp_meter, clock, meter, paper, thermometer};
use crate::text::Texts;

pub(super) fn prepare(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-prepare");
    bench(&mut svg, 160.0, 8.0, 352.0);
    paper(&mut svg, (20.0, 78.0), (62.0, 82.0));
    bulb(&mut svg, (126.0, 160.0));
    meter(&mut svg, (192.0, 82.0), "V");
    clamp_meter(&mut svg, (248.0, 160.0));
    svg.trace("cord", &Trace::at((338.0, 145.0)).bend((350.0, 146.0), (350.0, 157.0)));
    plug(&mut svg, Pose::at(338.0, 145.0));
    word(&mut svg, (180.0, 40.0), Middle, "drawn-clear-and-dry");
    note(&mut svg, (51.0, 190.0), Middle, "drawn-design");
    note(&mut svg, (126.0, 190.0), Middle, "drawn-lamp");
    note(&mut svg, (220.0, 190.0), Middle, "drawn-meters");
    word(&mut svg, (312.0, 190.0), Middle, "drawn-plug-out");
    svg.finish()
}

pub(super) fn reassembly(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-reassembly");
    svg.trace(
        "dash",
        &Trace::through(&[(32.0, 26.0), (256.0, 26.0), (256.0, 186.0), (32.0, 186.0)]).close(),
    );
    transformer(&mut svg, Pose::at(126.0, 164.0).sized(1.12));
    // The spacer in the gap, and bands that hold it shut.
    svg.stroke("weld", &Trace::through(&[(67.0, 67.7), (185.0, 67.7)]), 4.0);
    for x in [67.0, 185.0] {
        svg.stroke("round", &Trace::through(&[(x, 46.0), (x, 158.0)]), 6.0);
    }
    fuse(&mut svg, (226.0, 128.0));
    svg.trace("edge", &Trace::at((208.0, 128.0)).bend((196.0, 128.0), (190.0, 118.0)));
    // The cord through its relief to the plug.
    svg.trace(
        "cord",
        &Trace::at((244.0, 128.0)).curve((280.0, 128.0), (256.0, 172.0), (296.0, 172.0)),
    );
    svg.rect("iron", 249.0, 130.0, 16.0, 16.0);
    plug(&mut svg, Pose::at(296.0, 172.0).mirrored());
    // Earth: a bolted lug on the foot.
    svg.trace("cord", &Trace::at((60.0, 160.0)).bend((44.0, 160.0), (44.0, 196.0)));
    svg.circle("body", 60.0, 160.0, 6.5);
    earth(&mut svg, (44.0, 198.0));
    word(&mut svg, (66.0, 210.0), Start, "drawn-ground");
    for (label, y, to) in [
        ("drawn-gap", 34.0, (166.0, 67.7)),
        ("drawn-band", 58.0, (185.0, 86.0)),
        ("drawn-enclosure", 82.0, (256.0, 82.0)),
        ("drawn-fuse", 106.0, (236.0, 122.0)),
        ("drawn-cord-held", 138.0, (258.0, 138.0)),
    ] {
        leader(&mut svg, (274.0, y - 5.0), to);
        note(&mut svg, (278.0, y), Start, label);
    }
    word(&mut svg, (318.0, 210.0), Middle, "drawn-plug-out");
    svg.finish()
}

/// A lead from a socket of a meter over to a clip that hangs on `to`.
fn lead(svg: &mut Svg, from: Point, to: Point) {
    svg.trace(
        "cord",
        &Trace::at(from).curve((from.0, from.1 + 84.0), (to.0, 4.0), (to.0, to.1 - 24.0)),
    );
    clip(svg, Pose::at(to.0, to.1));
}

pub(super) fn continuity(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-continuity");
    meter(&mut svg, (52.0, 22.0), "Ω");
    transformer(&mut svg, Pose::at(240.0, 184.0).sized(1.16));
    lead(&mut svg, (40.0, 96.0), (212.0, 70.0));
    lead(&mut svg, (64.0, 96.0), (268.0, 70.0));
    thermometer(&mut svg, Pose::at(336.0, 150.0));
    note(&mut svg, (86.0, 44.0), Start, "drawn-less-leads");
    word(&mut svg, (240.0, 208.0), Middle, "drawn-each-winding");
    plug(&mut svg, Pose::at(92.0, 174.0));
    svg.trace("cord", &Trace::at((92.0, 174.0)).bend((120.0, 174.0), (128.0, 188.0)));
    word(&mut svg, (72.0, 212.0), Middle, "drawn-plug-out");
    svg.finish()
}

pub(super) fn insulation(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-insulation");
    transformer(&mut svg, Pose::at(206.0, 172.0).sized(1.0));
    // Both ends of the winding are joined.
    wire(&mut svg, &[(182.0, 80.0), (230.0, 80.0)]);
    meter(&mut svg, (44.0, 48.0), "MΩ");
    svg.trace(
        "cord",
        &Trace::at((56.0, 119.0)).curve((56.0, 176.0), (182.0, 4.0), (182.0, 48.0)),
    );
    clip(&mut svg, Pose::at(182.0, 73.0));
    svg.trace(
        "cord",
        &Trace::at((32.0, 119.0)).curve((32.0, 168.0), (70.0, 168.0), (116.0, 168.0)),
    );
    clip(&mut svg, Pose::at(142.0, 168.0).turned(-90.0));
    number(&mut svg, (20.0, 28.0), 1);
    clock(&mut svg, (100.0, 34.0), 18.0, 0.2);
    note(&mut svg, (36.0, 33.0), Start, "drawn-1-min");
    // Afterwards.
    svg.trace(
        "dash-cord",
        &Trace::at((230.0, 48.0))
            .curve((230.0, 10.0), (330.0, 40.0), (322.0, 130.0))
            .bend((318.0, 168.0), (296.0, 168.0)),
    );
    clip(&mut svg, Pose::at(230.0, 73.0));
    clip(&mut svg, Pose::at(270.0, 168.0).turned(90.0));
    number(&mut svg, (300.0, 62.0), 2);
    note(&mut svg, (298.0, 206.0), Middle, "drawn-then-short");
    danger(&mut svg, (26.0, 202.0), Danger::Flash, "drawn-test-voltage");
    svg.finish()
}

pub(super) fn ratio_polarity(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-ratio-polarity");
    let bottom = TOP + WINDING;
    symbols::transformer(&mut svg);
    wire(&mut svg, &[(40.0, 95.0), (40.0, TOP), (PRIMARY_X, TOP)]);
    wire(&mut svg, &[(40.0, 129.0), (40.0, bottom), (PRIMARY_X, bottom)]);
    source(&mut svg, (40.0, 112.0));
    wire(&mut svg, &[(150.0, TOP), (150.0, bottom)]);
    joint(&mut svg, (150.0, TOP));
    joint(&mut svg, (150.0, bottom));
    round(&mut svg, (150.0, 112.0), "V");
    wire(
        &mut svg,
        &[(SECONDARY_X, TOP), (330.0, TOP), (330.0, bottom), (SECONDARY_X, bottom)],
    );
    round(&mut svg, (330.0, 112.0), "V");
    start_dot(&mut svg, (221.0, 84.0));
    start_dot(&mut svg, (291.0, 84.0));
    word(&mut svg, (64.0, 106.0), Start, "drawn-24-v");
    note(&mut svg, (64.0, 124.0), Start, "drawn-at-most");
    note(&mut svg, (12.0, 58.0), Start, "drawn-isolated");
    note(&mut svg, (188.0, 58.0), Middle, "drawn-most-turns");
    note(&mut svg, (293.0, 58.0), Middle, "drawn-start");
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-only-this-side");
    svg.finish()
}

/// A coil on a core with a gap, its ends at `x` to the left.
pub(super) fn gapped_coil(svg: &mut Sheet<'_>, x: f64) {
    let bottom = TOP + WINDING;
    winding(svg, (x, TOP), true);
    // The gap: a break in the core's lines.
    for line in [x + 22.0, x + 30.0] {
        svg.line("bold", (line, TOP - 6.0), (line, 105.0));
        svg.line("bold", (line, 119.0), (line, bottom + 6.0));
    }
    leader(svg, (x + 46.0, 92.0), (x + 27.0, 112.0));
    note(svg, (x + 48.0, 90.0), Start, "drawn-gap");
    wire(svg, &[(x + 26.0, bottom + 6.0), (x + 26.0, 190.0)]);
    earth(svg, (x + 26.0, 190.0));
    note(svg, (x + 46.0, 203.0), Start, "drawn-ground");
}

pub(super) fn impedance(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-impedance");
    let (x, bottom) = (250.0, TOP + WINDING);
    wire(&mut svg, &[(40.0, 95.0), (40.0, TOP), (x, TOP)]);
    wire(&mut svg, &[(40.0, 129.0), (40.0, bottom), (x, bottom)]);
    source(&mut svg, (40.0, 112.0));
    round(&mut svg, (120.0, TOP), "A");
    wire(&mut svg, &[(200.0, TOP), (200.0, bottom)]);
    joint(&mut svg, (200.0, TOP));
    joint(&mut svg, (200.0, bottom));
    round(&mut svg, (200.0, 112.0), "V");
    gapped_coil(&mut svg, x);
    word(&mut svg, (64.0, 106.0), Start, "drawn-24-v");
    note(&mut svg, (64.0, 124.0), Start, "drawn-at-most");
    note(&mut svg, (12.0, 40.0), Start, "drawn-isolated");
    svg.finish()
}

pub(super) fn pair_phasing(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-pair-phasing");
    let bottom = TOP + WINDING;
    // One end of each new winding is tied; a voltmeter lies between the other two.
    for (x, name) in [(110.0, "drawn-first"), (250.0, "drawn-second")] {
        winding(&mut svg, (x, TOP), true);
        core(&mut svg, (x - 10.0, TOP - 6.0));
        start_dot(&mut svg, (x + 8.0, TOP - 10.0));
        note(&mut svg, (x - 22.0, 117.0), Anchor::End, name);
    }
    wire(
        &mut svg,
        &[(110.0, bottom), (110.0, 176.0), (250.0, 176.0), (250.0, bottom)],
    );
    joint(&mut svg, (180.0, 176.0));
    wire(&mut svg, &[(110.0, TOP), (110.0, 40.0), (163.0, 40.0)]);
    wire(&mut svg, &[(250.0, TOP), (250.0, 40.0), (197.0, 40.0)]);
    round(&mut svg, (180.0, 40.0), "V");
    note(&mut svg, (180.0, 196.0), Middle, "drawn-tied");
    word(&mut svg, (282.0, 106.0), Start, "drawn-24-v");
    note(&mut svg, (282.0, 124.0), Start, "drawn-at-most");
    note(&mut svg, (282.0, 142.0), Start, "drawn-isolated");
    svg.finish()
}
