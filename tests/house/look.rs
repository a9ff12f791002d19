//! The theme's figures: text stands out from its ground in light and in dark, and the design sheet
//! in DEVELOPERS.md says what the theme says.

use crate::contrast::contrast;

const THEME: &str = include_str!("../../assets/theme.css");
const APP: &str = include_str!("../../assets/app.css");
const SHEET: &str = include_str!("../../DEVELOPERS.md");

/// Text and the grounds that it stands on.
const PAIRS: [(&str, &[&str]); 9] = [
    (
        "ink",
        &[
            "sheet",
            "raised",
            "typical",
            "danger-sheet",
            "band",
            "caution-sheet",
            "chosen",
        ],
    ),
    ("soft", &["sheet", "raised", "typical"]),
    ("danger", &["danger-sheet", "raised", "sheet"]),
    ("danger-sheet", &["danger"]),
    ("on-accent", &["accent"]),
    ("caution-sheet", &["caution"]),
    ("accent", &["sheet", "raised"]),
    ("sheet", &["ink"]),
    ("raised", &["ink"]),
];

fn block(head: &str) -> &'static str {
    let after = THEME.split_once(head).map_or("", |(_, after)| after);
    after.split('}').next().unwrap_or_default()
}

fn colour(block: &str, name: &str) -> String {
    let start = block
        .find(&format!("--{name}: #"))
        .unwrap_or_else(|| panic!("the theme has no {name}"));
    block[start + name.len() + 4..][..7].to_owned()
}

#[test]
fn text_stands_out_in_light_and_dark() {
    for (light, head) in [("light", ".app {"), ("dark", ".app[data-theme=\"dark\"] {")] {
        let theme = block(head);
        for (text, grounds) in PAIRS {
            for ground in grounds {
                let ratio = contrast(&colour(theme, text), &colour(theme, ground));
                assert!(ratio >= 7.0, "{light}: {text} on {ground} is {ratio:.2}");
            }
        }
    }
}

/// Dark as the device says and dark as the person chose are one and the same.
#[test]
fn dark_is_dark() {
    let chosen = block(".app[data-theme=\"dark\"] {");
    let device = block(".app[data-theme=\"auto\"] {");
    assert_eq!(
        chosen.split_whitespace().collect::<Vec<_>>(),
        device.split_whitespace().collect::<Vec<_>>()
    );
}

/// Colours are named in the theme only, but for those that lie on a photo whatever the theme.
#[test]
fn the_screens_name_no_colours() {
    for line in APP.lines().filter(|line| {
        let on_photo = [".photo-stage", ".closeup", ".magnifier"];
        !on_photo.iter().any(|class| line.contains(class))
    }) {
        let plain = line.split("/*").next().unwrap_or_default();
        let hex = plain.split('#').skip(1).any(|after| {
            let digits = after.chars().take_while(char::is_ascii_hexdigit).count();
            digits == 3 || digits == 6 || digits == 8
        });
        assert!(!hex || plain.contains("iframe.page"), "{line}");
    }
}

#[test]
fn the_design_sheet_says_what_the_theme_says() {
    for (light, head) in [("light", ".app {"), ("dark", ".app[data-theme=\"dark\"] {")] {
        let theme = block(head);
        for name in [
            "sheet",
            "raised",
            "ink",
            "soft",
            "accent",
            "danger",
            "caution",
            "caution-sheet",
            "chosen",
        ] {
            let colour = colour(theme, name);
            assert!(
                SHEET.contains(&colour),
                "{light}: {name} is {colour}, which DEVELOPERS.md lacks"
            );
        }
    }
    for size in ["--text-small", "--text-large", "--text-huge", "--control", "--corner"] {
        assert!(SHEET.contains(size), "DEVELOPERS.md lacks {size}");
    }
}

/// No text is smaller than 12 px on a screen: 1 unit of a drawing is at least a pixel there.
#[test]
fn no_text_is_too_small() {
    const DRAWINGS: &str = include_str!("../../assets/drawing.css");
    let mut sizes = Vec::new();
    for sheet in [APP, THEME, DRAWINGS] {
        for line in sheet.lines() {
            for after in line.split("font-size:").skip(1).chain(line.split("--text").skip(1)) {
                let digits: String = after
                    .trim_start_matches(|c: char| !c.is_ascii_digit() && c != 'v' && c != ';')
                    .chars()
                    .take_while(|c| c.is_ascii_digit() || *c == '.')
                    .collect();
                if let Ok(size) = digits.parse::<f64>()
                    && after.contains("px")
                {
                    assert!(size >= 12.0, "{line}");
                    sizes.push(size);
                }
            }
        }
    }
    assert!(sizes.len() > 10 && sizes.contains(&12.0), "{sizes:?}");
}
