//! Stages of the bench with mains.

use super::super::svg::Anchor::{Middle, Start};
use super::super::svg::Svg;
use super::super::trace::{Pose, Trace};
use super::bench_cold::gapped_coil;
use super::donor_parts::plug;
use super::marks::{Danger, Sheet, danger, note, number, sheet, word};
use super::symbols::{
    self, PRIMARY_X, SECONDARY_X, TOP, WINDING, fuse, lamp, load, round, source, switch, terminal, winding, wire,
};
use super::tools::clock;
use crate::text::Texts;

const BOTTOM: f64 = TOP + WINDING;

/// Source, fuse and switch to the primary; the transformer with its core earthed.
fn feed(svg: &mut Sheet<'_>) {
    symbols::transformer(svg);
    wire(svg, &[(36.0, 95.0), (36.0, TOP), (112.0, TOP)]);
    wire(svg, &[(140.0, TOP), (PRIMARY_X, TOP)]);
    wire(svg, &[(36.0, 129.0), (36.0, BOTTOM), (PRIMARY_X, BOTTOM)]);
    source(svg, (36.0, 112.0));
    fuse(svg, (74.0, TOP));
    switch(svg, (112.0, TOP));
    note(svg, (74.0, TOP + 26.0), Middle, "drawn-fuse");
}

/// The enclosure round the transformer, and the open ends of its secondary in it.
fn enclosed_open(svg: &mut Sheet<'_>) {
    for y in [TOP, BOTTOM] {
        wire(svg, &[(SECONDARY_X, y), (312.0, y)]);
        terminal(svg, (316.0, y));
    }
    note(svg, (300.0, 117.0), Start, "drawn-open");
    enclosure(svg);
}

fn enclosure(svg: &mut Sheet<'_>) {
    svg.trace(
        "dash",
        &Trace::through(&[(210.0, 44.0), (352.0, 44.0), (352.0, 178.0), (210.0, 178.0)]).close(),
    );
    note(svg, (281.0, 34.0), Middle, "drawn-enclosure");
}

pub(super) fn lamp_idle(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-lamp-idle");
    feed(&mut svg);
    lamp(&mut svg, (178.0, TOP));
    round(&mut svg, (140.0, BOTTOM), "A");
    word(&mut svg, (178.0, 46.0), Middle, "drawn-lamp");
    note(&mut svg, (176.0, 106.0), Middle, "drawn-faint");
    enclosed_open(&mut svg);
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-mains");
    svg.finish()
}

pub(super) fn mains_idle(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-mains-idle");
    feed(&mut svg);
    round(&mut svg, (178.0, TOP), "A");
    word(&mut svg, (150.0, 46.0), Middle, "drawn-no-load");
    enclosed_open(&mut svg);
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-mains-stand-clear");
    svg.finish()
}

pub(super) fn loaded(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-loaded");
    feed(&mut svg);
    for y in [TOP, BOTTOM] {
        svg.stroke("round", &Trace::through(&[(SECONDARY_X, y), (342.0, y)]), 5.0);
    }
    svg.stroke("round", &Trace::through(&[(342.0, TOP), (342.0, BOTTOM)]), 5.0);
    load(&mut svg, (342.0, 112.0));
    wire(&mut svg, &[(306.0, TOP), (306.0, BOTTOM)]);
    round(&mut svg, (306.0, 112.0), "V");
    terminal(&mut svg, (306.0, TOP));
    terminal(&mut svg, (306.0, BOTTOM));
    word(&mut svg, (300.0, 52.0), Middle, "drawn-at-terminals");
    note(&mut svg, (336.0, 176.0), Middle, "drawn-load");
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-mains");
    danger(&mut svg, (26.0, 28.0), Danger::Heat, "drawn-heavy-current");
    svg.finish()
}

pub(super) fn short_circuit(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-short-circuit");
    feed(&mut svg);
    let loop_ = Trace::through(&[(SECONDARY_X, TOP), (322.0, TOP), (322.0, BOTTOM), (SECONDARY_X, BOTTOM)]);
    svg.stroke("round", &loop_, 8.0);
    for y in [TOP, BOTTOM] {
        svg.circle("body", 298.0, y, 7.0);
        svg.circle("solid", 298.0, y, 2.6);
    }
    svg.ellipse("edge", (322.0, 112.0), 20.0, 9.0);
    round(&mut svg, (336.0, 134.0), "A");
    word(&mut svg, (298.0, 52.0), Middle, "drawn-bolted");
    clock(&mut svg, (132.0, 112.0), 20.0, 0.5);
    note(&mut svg, (160.0, 117.0), Start, "drawn-brief");
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-mains");
    danger(&mut svg, (26.0, 28.0), Danger::Heat, "drawn-heavy-current");
    svg.finish()
}

/// A winding with an ohmmeter on it.
fn resistance(svg: &mut Svg, x: f64) {
    winding(svg, (x + 62.0, TOP), false);
    wire(svg, &[(x + 62.0, TOP), (x, TOP), (x, BOTTOM), (x + 62.0, BOTTOM)]);
    round(svg, (x, 112.0), "Ω");
}

pub(super) fn temperature_rise(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-temperature-rise");
    for x in [116.0, 240.0] {
        svg.line("dash", (x, 16.0), (x, 204.0));
    }
    for (x, count) in [(58.0, 1), (178.0, 2), (264.0, 3)] {
        number(&mut svg, (x, 28.0), count);
    }
    resistance(&mut svg, 28.0);
    word(&mut svg, (58.0, 198.0), Middle, "drawn-cold");
    // Warmer and warmer, then level.
    wire(&mut svg, &[(136.0, 62.0), (136.0, 150.0), (226.0, 150.0)]);
    svg.trace(
        "arrow",
        &Trace::at((138.0, 146.0)).curve((152.0, 92.0), (174.0, 78.0), (224.0, 77.0)),
    );
    note(&mut svg, (148.0, 62.0), Start, "drawn-heat");
    clock(&mut svg, (204.0, 118.0), 17.0, 4.0);
    note(&mut svg, (178.0, 180.0), Middle, "drawn-at-its-load");
    word(&mut svg, (178.0, 198.0), Middle, "drawn-till-level");
    plug(&mut svg, Pose::at(342.0, 32.0).sized(0.9));
    resistance(&mut svg, 270.0);
    word(&mut svg, (300.0, 178.0), Middle, "drawn-at-once");
    danger(&mut svg, (276.0, 200.0), Danger::Heat, "drawn-hot");
    svg.finish()
}

pub(super) fn rated_current(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-bench-rated-current");
    let x = 264.0;
    wire(&mut svg, &[(36.0, 95.0), (36.0, TOP), (100.0, TOP)]);
    wire(&mut svg, &[(128.0, TOP), (x, TOP)]);
    wire(&mut svg, &[(36.0, 129.0), (36.0, BOTTOM), (x, BOTTOM)]);
    source(&mut svg, (36.0, 112.0));
    fuse(&mut svg, (68.0, TOP));
    switch(&mut svg, (100.0, TOP));
    note(&mut svg, (68.0, TOP + 26.0), Middle, "drawn-fuse");
    round(&mut svg, (168.0, TOP), "A");
    svg.rect("body", 88.0, BOTTOM - 9.0, 44.0, 18.0);
    note(&mut svg, (110.0, BOTTOM + 26.0), Middle, "drawn-load");
    wire(&mut svg, &[(216.0, TOP), (216.0, BOTTOM)]);
    round(&mut svg, (216.0, 112.0), "V");
    terminal(&mut svg, (216.0, TOP));
    terminal(&mut svg, (216.0, BOTTOM));
    gapped_coil(&mut svg, x);
    svg.trace(
        "dash",
        &Trace::through(&[(240.0, 44.0), (352.0, 44.0), (352.0, 178.0), (240.0, 178.0)]).close(),
    );
    note(&mut svg, (296.0, 34.0), Middle, "drawn-enclosure");
    danger(&mut svg, (26.0, 194.0), Danger::Flash, "drawn-mains");
    danger(&mut svg, (26.0, 28.0), Danger::Heat, "drawn-heavy-current");
    svg.finish()
}
