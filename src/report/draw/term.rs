//! What a word of the trade names, marked on a small drawing of a usual core.

use super::svg::Svg;
use crate::text::{Arg, Term, Texts};

/// A usual lamination, in units of a twentieth of its tongue's half: limbs and yokes 20, tongue 40,
/// windows 20 by 60.
const WIDE: f64 = 120.0;
const HIGH: f64 = 100.0;
/// Left edges of the windows, and their size.
const WINDOWS: [f64; 2] = [20.0, 80.0];
const WINDOW: (f64, f64) = (20.0, 60.0);
const YOKE: f64 = 20.0;
/// Where E and I meet.
const JOINT: f64 = HIGH - YOKE;
/// Left edge and width of the limbs and the tongue.
const LEGS: [(f64, f64); 3] = [(0.0, 20.0), (40.0, 40.0), (100.0, 20.0)];

/// The drawing of a term; none where words are enough.
#[must_use]
pub fn term_drawing(term: Term, texts: &Texts) -> Option<String> {
    let word = texts.text(term.key());
    let title = texts.text_with("glossary-drawing", &[("term", Arg::Text(&word))]);
    let mut svg = Svg::new("term", &title, (-4.0, -4.0, WIDE + 8.0, HIGH + 8.0));
    match term {
        Term::DutyCycle => duty_cycle(&mut svg),
        Term::Stack => stack(&mut svg),
        _ => {
            core(&mut svg);
            mark(&mut svg, term)?;
        }
    }
    Some(svg.finish())
}

fn core(svg: &mut Svg) {
    svg.rect("steel", 0.0, 0.0, WIDE, HIGH);
    for left in WINDOWS {
        svg.rect("window", left, YOKE, WINDOW.0, WINDOW.1);
    }
}

/// Both coils' sides in the windows, the primary below, `room` of the window free between them.
fn coils(svg: &mut Svg, room: f64) {
    let high = (WINDOW.1 - room) / 2.0 - 2.0;
    for left in WINDOWS {
        svg.rect("winding", left + 1.0, YOKE + 1.0, WINDOW.0 - 2.0, high);
        svg.rect("primary", left + 1.0, JOINT - 1.0 - high, WINDOW.0 - 2.0, high);
    }
}

/// Marks the part; `None` where a term is none.
fn mark(svg: &mut Svg, term: Term) -> Option<()> {
    let [left, tongue, right] = LEGS;
    match term {
        Term::Tongue => svg.rect("marked", tongue.0, YOKE, tongue.1, WINDOW.1),
        Term::Limb => {
            for (at, wide) in [left, right] {
                svg.rect("marked", at, YOKE, wide, WINDOW.1);
            }
        }
        Term::Yoke => {
            for top in [0.0, JOINT] {
                svg.rect("marked", 0.0, top, WIDE, YOKE);
            }
        }
        Term::Window => {
            for at in WINDOWS {
                svg.rect("marked", at, YOKE, WINDOW.0, WINDOW.1);
            }
        }
        Term::Seam => {
            for (at, wide) in LEGS {
                svg.line("marked-line", (at, JOINT), (at + wide, JOINT));
            }
        }
        Term::Shunt => {
            coils(svg, 16.0);
            for at in WINDOWS {
                svg.rect("marked", at + 1.0, YOKE + WINDOW.1 / 2.0 - 6.0, WINDOW.0 - 2.0, 12.0);
            }
        }
        Term::Primary | Term::Secondary => {
            coils(svg, 4.0);
            let top = if term == Term::Primary { 31.0 } else { 1.0 };
            for at in WINDOWS {
                svg.rect("marked", at + 1.0, YOKE + top, WINDOW.0 - 2.0, 28.0);
            }
        }
        Term::Build => {
            // A coil that reaches from the tongue two thirds across the windows.
            for at in [tongue.0 - 14.0, tongue.0 + tongue.1] {
                svg.rect("marked", at, YOKE + 4.0, 14.0, WINDOW.1 - 8.0);
            }
        }
        Term::AirGap | Term::GappedCore => {
            for (at, wide) in LEGS {
                svg.rect("marked", at, JOINT - 3.0, wide, 5.0);
            }
        }
        _ => return None,
    }
    Some(())
}

/// Load on for a fifth of the time, twice.
fn duty_cycle(svg: &mut Svg) {
    for start in [5.0, 62.0] {
        svg.rect("marked", start, 25.0, 11.0, 50.0);
    }
    svg.line("dimension", (0.0, 75.0), (WIDE, 75.0));
}

/// The pile from the side: its depth marked.
fn stack(svg: &mut Svg) {
    let (wide, high, back) = (70.0, 60.0, (44.0, 30.0));
    svg.rect("steel", 0.0, HIGH - high, wide, high);
    let top = HIGH - high;
    let roof = [
        (0.0, top),
        (back.0, top - back.1),
        (wide + back.0, top - back.1),
        (wide, top),
    ];
    svg.path("marked", &roof, true);
    let side = [
        (wide, top),
        (wide + back.0, top - back.1),
        (wide + back.0, HIGH - back.1),
        (wide, HIGH),
    ];
    svg.path("marked", &side, true);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Each drawing marks something, and no two terms that differ are drawn alike but the gap's.
    #[test]
    fn every_drawing_marks_its_part() {
        let texts = Texts::english().unwrap();
        let mut bodies = std::collections::BTreeSet::new();
        let mut drawn = 0;
        for term in Term::ALL {
            let Some(svg) = term_drawing(*term, &texts) else {
                continue;
            };
            drawn += 1;
            assert!(svg.contains("class=\"marked"), "{term:?}");
            assert!(svg.contains(&texts.text(term.key())), "{term:?} is not spoken");
            bodies.insert(svg.split_once("</title>").unwrap().1.to_owned());
        }
        assert_eq!((drawn, bodies.len()), (13, 12));
    }
}
