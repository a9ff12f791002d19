//! Every drawing is there, differs from the others, stays on its sheet and can be read.

use super::marks::SHEET;
use super::*;

#[path = "../../../../tests/house/contrast.rs"]
mod contrast;
use contrast::contrast;

const CSS: &str = include_str!("../../../../assets/drawing.css");
const THEMES: &str = include_str!("../../../../assets/theme.css");

fn all() -> Vec<(String, String)> {
    let texts = Texts::english().unwrap();
    let steps = Step::ALL
        .iter()
        .map(|s| (format!("step {}", s.word()), step_drawing(*s, &texts)));
    let stages = Stage::ALL
        .iter()
        .map(|s| (format!("stage {}", s.word()), stage_drawing(*s, &texts)));
    steps.chain(stages).collect()
}

fn attribute<'a>(element: &'a str, name: &str) -> Option<&'a str> {
    let start = element.find(&format!(" {name}=\""))? + name.len() + 3;
    element[start..].split('"').next()
}

fn number(element: &str, name: &str) -> f64 {
    attribute(element, name).map_or(0.0, |v| v.parse().unwrap_or_else(|_| panic!("{name} in {element}")))
}

/// The elements, each from its name to the end of its tag.
fn elements(svg: &str) -> impl Iterator<Item = &str> {
    svg.split('<').skip(1).filter(|e| !e.starts_with('/'))
}

/// Left, top, right, bottom.
type Extent = (f64, f64, f64, f64);

/// What an element covers, its stroke left out; control points of curves count as points.
fn extent(element: &str) -> Option<Extent> {
    let n = |name| number(element, name);
    let kind = element.split([' ', '>']).next()?;
    Some(match kind {
        "rect" => (n("x"), n("y"), n("x") + n("width"), n("y") + n("height")),
        "line" => (
            n("x1").min(n("x2")),
            n("y1").min(n("y2")),
            n("x1").max(n("x2")),
            n("y1").max(n("y2")),
        ),
        "circle" => (n("cx") - n("r"), n("cy") - n("r"), n("cx") + n("r"), n("cy") + n("r")),
        "ellipse" => (
            n("cx") - n("rx"),
            n("cy") - n("ry"),
            n("cx") + n("rx"),
            n("cy") + n("ry"),
        ),
        "path" => {
            let half = n("stroke-width") / 2.0;
            let values: Vec<f64> = attribute(element, "d")?
                .split(|c: char| c.is_ascii_alphabetic() || c == ' ')
                .filter(|v| !v.is_empty())
                .map(|v| v.parse().unwrap_or_else(|_| panic!("{v:?} in {element}")))
                .collect();
            assert!(values.len().is_multiple_of(2), "{element}");
            values.chunks(2).fold(
                (f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY),
                |e, p| {
                    (
                        e.0.min(p[0] - half),
                        e.1.min(p[1] - half),
                        e.2.max(p[0] + half),
                        e.3.max(p[1] + half),
                    )
                },
            )
        }
        "text" => {
            let class = attribute(element, "class")?;
            let text = element.split('>').nth(1)?;
            // Mean width of a letter of DejaVu Sans, a wide face, measured on these words.
            let letter = if rule(class).contains("font-weight") {
                0.60
            } else {
                0.54
            };
            let (size, count) = (font_size(class), text.chars().count());
            let wide = size * letter * f64::from(u32::try_from(count).unwrap_or(u32::MAX));
            let left = match attribute(element, "text-anchor")? {
                "middle" => n("x") - wide / 2.0,
                "end" => n("x") - wide,
                _ => n("x"),
            };
            (left, n("y") - size * 0.74, left + wide, n("y") + size * 0.22)
        }
        _ => return None,
    })
}

/// The declarations of a class of words.
fn rule(class: &str) -> &'static str {
    CSS.lines()
        .find(|line| line.starts_with(&format!(".drawing.step .{class}")))
        .map_or("", |line| line.split('{').nth(1).unwrap_or(""))
}

fn size_in(declarations: &str) -> Option<f64> {
    let value = declarations.split("font-size:").nth(1)?;
    value.split("px").next()?.trim().parse().ok()
}

fn font_size(class: &str) -> f64 {
    let plain = CSS.lines().find(|line| line.starts_with(".drawing.step text")).unwrap();
    size_in(rule(class)).or_else(|| size_in(plain)).unwrap()
}

#[test]
fn every_one_is_there_and_no_two_are_alike() {
    let all = all();
    assert_eq!(all.len(), 28);
    for (i, (name, svg)) in all.iter().enumerate() {
        assert!(
            svg.contains(r#"class="drawing step" role="img" viewBox="0.00 0.00 360.00 220.00""#),
            "{name}"
        );
        let title = svg
            .split("<title>")
            .nth(1)
            .and_then(|t| t.split("</title>").next())
            .unwrap();
        assert!(title.len() > 40, "{name}: {title}");
        assert!(elements(svg).count() > 15, "{name} is bare");
        for (other, drawing) in &all[..i] {
            assert!(drawing != svg && !drawing.contains(title), "{name} is like {other}");
        }
    }
}

#[test]
fn everything_lies_on_the_sheet() {
    let mut outside = Vec::new();
    for (name, svg) in all() {
        for element in elements(&svg) {
            let Some((left, top, right, bottom)) = extent(element) else {
                continue;
            };
            if left < 0.0 || top < 0.0 || right > SHEET.0 || bottom > SHEET.1 {
                outside.push(format!("{name}: {left:.1} {top:.1} {right:.1} {bottom:.1}: {element}"));
            }
        }
    }
    assert!(outside.is_empty(), "{}", outside.join("\n"));
}

#[test]
fn words_are_large_enough_and_apart() {
    for (name, svg) in all() {
        let words: Vec<&str> = elements(&svg).filter(|e| e.starts_with("text")).collect();
        for (i, element) in words.iter().enumerate() {
            let class = attribute(element, "class").unwrap();
            assert!(font_size(class) >= 13.0, "{name}: {element}");
            let a = extent(element).unwrap();
            for other in &words[..i] {
                let b = extent(other).unwrap();
                let apart = a.2 <= b.0 || b.2 <= a.0 || a.3 <= b.1 || b.3 <= a.1;
                assert!(apart, "{name}: {element} on {other}");
            }
        }
    }
}

/// A danger is told by a word too, never by its sign alone.
#[test]
fn every_sign_has_its_word() {
    for (name, svg) in all() {
        let count = |class: &str| elements(&svg).filter(|e| attribute(e, "class") == Some(class)).count();
        assert!(count("danger-word") >= count("sign"), "{name}");
    }
}

#[test]
fn lines_and_words_stand_out_in_every_theme() {
    let theme = |head: &str| THEMES.split(head).nth(1).unwrap().split('}').next().unwrap();
    let variable = |block: &str, name: &str| {
        let start = block.find(&format!("--{name}: #"))? + name.len() + 4;
        Some(block[start..start + 7].to_owned())
    };
    let blocks = [
        ("light", theme("\n.app {")),
        ("dark", theme("\n.app[data-theme=\"dark\"] {")),
        ("paper", ""),
    ];
    for (which, block) in blocks {
        // On paper the stylesheet's own values hold.
        let colour = |name: &str| {
            variable(block, name)
                .or_else(|| {
                    let start = CSS.rfind(&format!("var(--{name}, #"))? + name.len() + 8;
                    Some(CSS[start..start + 7].to_owned())
                })
                .unwrap_or_else(|| panic!("{name} in {which}"))
        };
        for (word, ground) in [("ink", "raised"), ("danger", "raised")] {
            let ratio = contrast(&colour(word), &colour(ground));
            assert!(ratio >= 7.0, "{which}: words {word} on {ground}: {ratio:.1}");
        }
        for (line, ground) in [
            ("ink", "raised"),
            ("ink", "steel"),
            ("ink", "primary-fill"),
            ("ink", "rule"),
            ("accent", "raised"),
            ("accent", "steel"),
            ("danger", "raised"),
            ("danger", "danger-sheet"),
        ] {
            let ratio = contrast(&colour(line), &colour(ground));
            assert!(ratio >= 3.0, "{which}: line {line} on {ground}: {ratio:.1}");
        }
    }
}
