//! How two donors' coils are joined: each core a box, each coil with its dot.

use super::svg::{Anchor, Svg};
use crate::magnetics::pairs::checks::{CoilEnd, Joint, Terminal, Which};

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 200.0;

/// Left edge of a donor's coil.
const fn column(which: Which) -> f64 {
    match which {
        Which::First => 40.0,
        Which::Second => 200.0,
    }
}

/// Where a terminal of the coils in a row is: the dotted end left, the plain one right.
fn place(terminal: Terminal, row: f64) -> (f64, f64) {
    let left = column(terminal.donor);
    match terminal.end {
        CoilEnd::Dot => (left, row),
        CoilEnd::Plain => (left + 100.0, row),
    }
}

/// Both rows: primaries above, new windings below. `names` are those of the two donors, then what
/// the upper and the lower row go to.
#[must_use]
pub fn phasing(title: &str, primaries: &Joint, windings: &Joint, names: [&str; 4]) -> String {
    let mut svg = Svg::new("plot phasing", title, (0.0, 0.0, WIDTH, HEIGHT));
    for (which, name) in [(Which::First, names[0]), (Which::Second, names[1])] {
        let left = column(which);
        svg.rect("core-box", left - 8.0, 66.0, 116.0, 70.0);
        svg.text("axis", (left + 50.0, 105.0), Anchor::Middle, name);
    }
    for (joint, row, out, name) in [(primaries, 66.0, 26.0, names[2]), (windings, 136.0, 176.0, names[3])] {
        for which in [Which::First, Which::Second] {
            let left = column(which);
            svg.line("coil", (left, row), (left + 100.0, row));
            svg.circle("start-dot", left + 8.0, row, 5.0);
        }
        let away = (out - row) / 2.0;
        for (level, (from, to)) in joint.ties.iter().flatten().enumerate() {
            let (a, b) = (place(*from, row), place(*to, row));
            let depth = row + away * (0.5 + 0.5 * level as f64);
            svg.path("wire", &[a, (a.0, depth), (b.0, depth), b], false);
        }
        for terminal in [joint.out.0, joint.out.1] {
            let at = place(terminal, row);
            svg.path("wire", &[at, (at.0, out)], false);
            svg.circle("terminal", at.0, out, 4.0);
        }
        let text = if out < row { out - 8.0 } else { out + 18.0 };
        svg.text(
            "axis",
            (WIDTH / 2.0, text.clamp(14.0, HEIGHT - 4.0)),
            Anchor::Middle,
            name,
        );
    }
    svg.finish()
}
