//! The finished supply as a circuit: cord, fuse, switch, cut-out, core with its earth, output.
//!
//! Symbols as in IEC 60617: coil, core, fuse, switch, diode, capacitor, cell, protective earth.

use super::svg::{Anchor, Svg};
use crate::text::Texts;

/// What lies behind the new winding.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Behind {
    /// The load itself.
    Nothing,
    /// Four diodes.
    Bridge,
    /// Two diodes; the winding's middle is the minus.
    CentreTap,
}

/// What the output feeds, as a symbol beside its terminals.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Feeds {
    /// Two terminals.
    Leads,
    /// A battery.
    Battery,
    /// A reservoir capacitor, then two terminals.
    Reservoir,
}

/// A supply to be drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Wiring {
    /// What lies behind the winding.
    pub behind: Behind,
    /// What the output feeds.
    pub feeds: Feeds,
    /// The inductance of a series reactor in the output, written; empty for none.
    pub reactor: String,
    /// The resistor of a soft start, written; empty for none.
    pub soft_start: String,
    /// The temperature of the cut-out, written.
    pub cut_out: String,
    /// Current and voltage of the diodes, written; empty for none.
    pub diodes: String,
    /// The rating of the battery's fuse, written; empty for none.
    pub battery_fuse: String,
    /// The leads to the load and what shorter ones bring, written.
    pub leads: String,
    /// What clamps, tips and ends carry, written.
    pub ends: String,
    /// The fuse's rating, written; empty where no rating is known.
    pub fuse: String,
    /// The fuse's kind, written; empty where no rating is known.
    pub fuse_kind: String,
    /// What protects the outlet, written; empty where nothing is known.
    pub breaker: String,
    /// The section of the ground (earth) wire, written; empty where no cord carries the current.
    pub ground: String,
    /// What the mains feed: volts, hertz and amperes, written.
    pub mains: String,
    /// What the output goes to, written.
    pub output: String,
}

const TOP: f64 = 34.0;
const LOW: f64 = 84.0;
const EARTH: f64 = 140.0;
const LEFT: f64 = 52.0;
const UPPER: f64 = 196.0;
const LOWER: f64 = 250.0;

/// Draws it. Rows from above: line, neutral, earth; below the core the output.
#[must_use]
pub fn wiring(wiring: &Wiring, texts: &Texts) -> String {
    let mut svg = Svg::new("plot wiring", &texts.text("drawn-wiring"), (0.0, -38.0, 360.0, 370.0));
    let word = |svg: &mut Svg, at: (f64, f64), anchor: Anchor, key: &str| {
        svg.text("axis", at, anchor, &texts.text(key));
    };
    // Enclosure, drawn first so that wires lie on it.
    svg.rect("enclosure", LEFT, 6.0, 302.0, 266.0);
    // Plug, with its three wires.
    svg.round_rect("core-box", (6.0, TOP - 14.0), (26.0, EARTH - TOP + 28.0), 5.0);
    let wire = |svg: &mut Svg, points: &[(f64, f64)]| svg.path("wire", points, false);
    wire(&mut svg, &[(32.0, TOP), (78.0, TOP)]);
    wire(&mut svg, &[(118.0, TOP), (146.0, TOP)]);
    wire(&mut svg, &[(182.0, TOP), (218.0, TOP)]);
    wire(&mut svg, &[(262.0, TOP), (338.0, TOP), (338.0, 118.0), (330.0, 118.0)]);
    wire(&mut svg, &[(32.0, LOW), (146.0, LOW)]);
    wire(&mut svg, &[(182.0, LOW), (202.0, LOW), (202.0, 118.0), (210.0, 118.0)]);
    for (letter, row) in [("L", TOP), ("N", LOW)] {
        svg.text("axis", (19.0, row + 5.0), Anchor::Middle, letter);
    }
    svg.text("axis", (19.0, EARTH + 5.0), Anchor::Middle, "PE");
    // Fuse: a box with the wire through it.
    svg.rect("part", 78.0, TOP - 8.0, 40.0, 16.0);
    wire(&mut svg, &[(78.0, TOP), (118.0, TOP)]);
    let fuse = format!("{} {}", texts.text("drawn-wiring-fuse"), wiring.fuse);
    svg.text("axis", (98.0, TOP + 24.0), Anchor::Middle, fuse.trim_end());
    svg.text("axis", (98.0, TOP + 38.0), Anchor::Middle, &wiring.fuse_kind);
    // Both poles of the switch, joined.
    for row in [TOP, LOW] {
        svg.circle("terminal", 146.0, row, 3.0);
        svg.circle("terminal", 182.0, row, 3.0);
        wire(&mut svg, &[(146.0, row), (178.0, row - 14.0)]);
    }
    svg.line("link", (163.0, TOP - 7.0), (163.0, LOW - 7.0));
    word(&mut svg, (172.0, LOW + 18.0), Anchor::Middle, "drawn-wiring-switch");
    // Thermal cut-out.
    svg.rect("part", 218.0, TOP - 10.0, 44.0, 20.0);
    svg.text("axis", (240.0, TOP + 5.0), Anchor::Middle, "\u{3d1}");
    let cut_out = format!("{} {}", texts.text("drawn-wiring-cutout"), wiring.cut_out);
    svg.text("axis", (268.0, TOP + 28.0), Anchor::Middle, cut_out.trim_end());
    if !wiring.soft_start.is_empty() {
        svg.rect("part", 188.0, TOP - 6.0, 24.0, 12.0);
        svg.text("axis", (200.0, TOP - 12.0), Anchor::Middle, &wiring.soft_start);
    }
    // Core: primary above, two bars, the new winding below.
    coil(&mut svg, (210.0, 118.0), 6, -1.0);
    svg.line("core-bar", (206.0, 128.0), (334.0, 128.0));
    svg.line("core-bar", (206.0, 134.0), (334.0, 134.0));
    word(&mut svg, (270.0, 99.0), Anchor::Middle, "drawn-wiring-primary");
    coil(&mut svg, (240.0, 146.0), 3, 1.0);
    word(&mut svg, (306.0, 160.0), Anchor::Start, "drawn-wiring-new");
    // Earth: from the plug to the enclosure and to the core.
    svg.path(
        "earth",
        &[(32.0, EARTH), (190.0, EARTH), (190.0, 131.0), (206.0, 131.0)],
        false,
    );
    svg.circle("dot", LEFT, EARTH, 4.5);
    svg.circle("dot", 206.0, 131.0, 4.5);
    let ground = format!("{} {}", wiring.ground, texts.text("drawn-wiring-earth"));
    svg.text("axis", (60.0, EARTH + 18.0), Anchor::Start, ground.trim_start());
    output(&mut svg, wiring);
    svg.text("axis", (6.0, -23.0), Anchor::Start, &wiring.breaker);
    svg.text("axis", (6.0, -7.0), Anchor::Start, &wiring.mains);
    svg.text("axis", (6.0, 292.0), Anchor::Start, &wiring.output);
    svg.text("axis", (6.0, 308.0), Anchor::Start, &wiring.leads);
    svg.text("axis", (6.0, 324.0), Anchor::Start, &wiring.ends);
    svg.finish()
}

/// A row of half rounds from a point to the right, bulging up (-1) or down (1).
fn coil(svg: &mut Svg, from: (f64, f64), turns: u32, way: f64) {
    const POINTS: u32 = 8;
    let mut points = Vec::new();
    for turn in 0..turns {
        for k in 0..=POINTS {
            let angle = std::f64::consts::PI * f64::from(k) / f64::from(POINTS);
            points.push((
                from.0 + 20.0 * f64::from(turn) + 10.0 - 10.0 * angle.cos(),
                from.1 + way * 10.0 * angle.sin(),
            ));
        }
    }
    svg.path("wire", &points, false);
}

/// From the new winding to the terminals at the left.
fn output(svg: &mut Svg, wiring: &Wiring) {
    let wire = |svg: &mut Svg, points: &[(f64, f64)]| svg.path("wire", points, false);
    wire(svg, &[(240.0, 146.0), (240.0, UPPER), (228.0, UPPER)]);
    wire(svg, &[(300.0, 146.0), (300.0, LOWER), (170.0, LOWER)]);
    if wiring.reactor.is_empty() {
        wire(svg, &[(188.0, UPPER), (228.0, UPPER)]);
    } else {
        coil(svg, (188.0, UPPER), 2, -1.0);
        svg.line("core-bar", (186.0, UPPER + 6.0), (230.0, UPPER + 6.0));
        svg.text("axis", (208.0, UPPER + 24.0), Anchor::Middle, &wiring.reactor);
    }
    wire(svg, &[(170.0, UPPER), (188.0, UPPER)]);
    if wiring.behind == Behind::Nothing {
        wire(svg, &[(120.0, UPPER), (170.0, UPPER)]);
        wire(svg, &[(120.0, LOWER), (170.0, LOWER)]);
    } else {
        rectifier(svg, wiring.behind);
    }
    let end = 30.0;
    for row in [UPPER, LOWER] {
        wire(svg, &[(end, row), (120.0, row)]);
        svg.circle("terminal", end, row, 4.5);
    }
    if wiring.behind != Behind::Nothing {
        svg.text("axis", (14.0, UPPER + 5.0), Anchor::Middle, "+");
        svg.text("axis", (14.0, LOWER + 5.0), Anchor::Middle, "\u{2212}");
    }
    if !wiring.battery_fuse.is_empty() {
        svg.rect("part", 54.0, UPPER - 7.0, 36.0, 14.0);
        wire(svg, &[(54.0, UPPER), (90.0, UPPER)]);
        svg.text("axis", (72.0, UPPER - 13.0), Anchor::Middle, &wiring.battery_fuse);
    }
    svg.text("axis", (178.0, LOWER - 8.0), Anchor::Start, &wiring.diodes);
    let middle = f64::midpoint(UPPER, LOWER);
    match wiring.feeds {
        Feeds::Leads => {}
        // A cell: the long thin line is the plus.
        Feeds::Battery => {
            wire(svg, &[(end, UPPER), (end, middle - 5.0)]);
            wire(svg, &[(end - 14.0, middle - 5.0), (end + 14.0, middle - 5.0)]);
            svg.line("core-bar", (end - 7.0, middle + 5.0), (end + 7.0, middle + 5.0));
            wire(svg, &[(end, middle + 5.0), (end, LOWER)]);
        }
        Feeds::Reservoir => {
            wire(svg, &[(92.0, UPPER), (92.0, middle - 5.0)]);
            svg.line("core-bar", (78.0, middle - 5.0), (106.0, middle - 5.0));
            svg.line("core-bar", (78.0, middle + 5.0), (106.0, middle + 5.0));
            wire(svg, &[(92.0, middle + 5.0), (92.0, LOWER)]);
        }
    }
}

/// The diodes: a box from 120 to 170 with the mark of a diode in it.
fn rectifier(svg: &mut Svg, behind: Behind) {
    let middle = f64::midpoint(UPPER, LOWER);
    svg.rect("part", 120.0, UPPER - 10.0, 50.0, LOWER - UPPER + 20.0);
    // The diode points to the plus.
    svg.path(
        "diode",
        &[(137.0, middle + 8.0), (153.0, middle + 8.0), (145.0, middle - 8.0)],
        true,
    );
    svg.line("wire", (137.0, middle - 8.0), (153.0, middle - 8.0));
    let count = if behind == Behind::Bridge { "4" } else { "2" };
    svg.text("axis", (160.0, middle + 5.0), Anchor::Middle, count);
    if behind == Behind::CentreTap {
        // The winding's middle goes past the diodes to the minus.
        svg.path(
            "wire",
            &[(270.0, 146.0), (270.0, 266.0), (104.0, 266.0), (104.0, LOWER)],
            false,
        );
        svg.circle("dot", 104.0, LOWER, 4.5);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn drawn(behind: Behind, feeds: Feeds) -> String {
        let texts = Texts::english().unwrap();
        let (mains, output) = ("120 V 60 Hz".to_owned(), "to the load".to_owned());
        let written = |text: &str| text.to_owned();
        wiring(
            &Wiring {
                behind,
                feeds,
                reactor: written("0.97 mH"),
                soft_start: written("10 Ω"),
                cut_out: written("135 °C"),
                diodes: written("35 A, 100 V"),
                battery_fuse: written("25 A"),
                leads: written("0.3 m"),
                ends: written("40 A on"),
                fuse: "6.3 A".to_owned(),
                fuse_kind: written("time-lag T"),
                breaker: written("Breaker, 16 A"),
                ground: written("1.5 mm²"),
                mains,
                output,
            },
            &texts,
        )
    }

    #[test]
    fn fuse_switch_and_earth_are_always_there() {
        for behind in [Behind::Nothing, Behind::Bridge, Behind::CentreTap] {
            let svg = drawn(behind, Feeds::Leads);
            for part in [
                "Fuse 6.3 A",
                "Switch",
                "Cut-out 135 °C",
                "0.97 mH",
                "10 Ω",
                "time-lag T",
                "Breaker, 16 A",
                "1.5 mm² to enclosure",
                "40 A on",
                "class=\"earth\"",
                "PE",
            ] {
                assert!(svg.contains(part), "{part} with {behind:?}: {svg}");
            }
            assert_eq!(svg.contains("class=\"diode\""), behind != Behind::Nothing);
        }
    }

    /// With a centre tap the return does not pass the diodes.
    #[test]
    fn the_middle_of_the_winding_is_the_minus() {
        let lines = |behind| drawn(behind, Feeds::Battery).matches("class=\"wire\"").count();
        assert_eq!(lines(Behind::CentreTap), lines(Behind::Bridge) + 1);
    }
}
