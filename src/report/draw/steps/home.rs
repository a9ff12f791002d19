//! What Home shows: what becomes of an oven, and the picture of an oven that has no photo.

use super::super::isometric::PICTURE;
use super::super::svg::Anchor::{End, Middle, Start};
use super::super::svg::Svg;
use super::super::trace::{Pose, Trace};
use super::core_parts::{e_face, i_face, transformer};
use super::donor_parts::oven;
use super::marks::{arrow, note, sheet, tubes, word};
use crate::text::Texts;

/// From an oven over its transformer and its bare core to the core with its new winding, clockwise.
#[must_use]
pub fn oven_becomes(texts: &Texts) -> String {
    let mut svg = sheet(texts, "drawing-oven-becomes");
    oven(&mut svg, (18.0, 14.0), (112.0, 66.0));
    word(&mut svg, (74.0, 100.0), Middle, "drawn-scrapped-oven");
    arrow(&mut svg, &[(144.0, 48.0), (212.0, 48.0)]);
    note(&mut svg, (178.0, 36.0), Middle, "drawn-take-out");
    transformer(&mut svg, Pose::at(282.0, 82.0).sized(0.72));
    word(&mut svg, (282.0, 100.0), Middle, "drawn-its-transformer");
    arrow(&mut svg, &[(264.0, 108.0), (264.0, 134.0)]);
    note(&mut svg, (252.0, 126.0), End, "drawn-old-winding-out");
    e_face(&mut svg, Pose::at(228.0, 204.0).sized(24.0));
    i_face(&mut svg, Pose::at(228.0, 152.0).sized(24.0));
    word(&mut svg, (308.0, 170.0), Start, "drawn-bare");
    word(&mut svg, (308.0, 188.0), Start, "drawn-core");
    arrow(&mut svg, &[(218.0, 178.0), (160.0, 178.0)]);
    note(&mut svg, (189.0, 166.0), Middle, "drawn-new-winding");
    rewound(&mut svg, Pose::at(112.0, 204.0).sized(0.66));
    word(&mut svg, (6.0, 140.0), Start, "drawn-new-supply");
    svg.finish()
}

/// The core with a few turns of thick cable that leave to the left; (0, 0) is the middle of its foot.
fn rewound(svg: &mut Svg, pose: Pose) {
    svg.trace("iron", &pose.block(-54.0, -84.0, 108.0, 84.0));
    svg.trace("pane", &pose.block(-38.0, -68.0, 76.0, 52.0));
    for level in [-56.0, -28.0] {
        let cable = Trace::at(pose.put(34.0, level))
            .to(pose.put(-60.0, level))
            .bend(pose.put(-84.0, level), pose.put(-104.0, level + 14.0));
        tubes(svg, &[(cable, 10.0)]);
    }
    for level in [-56.0, -42.0, -28.0] {
        tubes(svg, &[(pose.line(&[(-30.0, level), (30.0, level)]), 8.0)]);
    }
    // The lugs.
    for level in [-38.0, -10.0] {
        svg.trace("copper", &pose.block(-128.0, level - 2.0, 24.0, 12.0));
    }
}

/// An oven from the front.
#[must_use]
pub fn oven_picture(texts: &Texts) -> String {
    let (wide, high) = PICTURE;
    let mut svg = Svg::new("step", &texts.text("drawn-oven-picture"), (0.0, 0.0, wide, high));
    oven(&mut svg, (10.0, 28.0), (wide - 20.0, high - 50.0));
    for x in [28.0, wide - 40.0] {
        svg.rect("solid", x, high - 22.0, 14.0, 6.0);
    }
    svg.finish()
}
