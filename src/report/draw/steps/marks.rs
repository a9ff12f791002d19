//! What explains a drawing: words, leaders, numbers, arrows, signs.

use std::ops::{Deref, DerefMut};

use super::super::svg::{Anchor, Svg};
use super::super::trace::{Point, Pose, Trace};
use crate::text::Texts;

/// Width and height of every drawing of a step.
pub(super) const SHEET: (f64, f64) = (360.0, 220.0);

/// A drawing of a step, with the language that its words are in.
pub(super) struct Sheet<'t> {
    svg: Svg,
    texts: &'t Texts,
}

impl Deref for Sheet<'_> {
    type Target = Svg;
    fn deref(&self) -> &Svg {
        &self.svg
    }
}

impl DerefMut for Sheet<'_> {
    fn deref_mut(&mut self) -> &mut Svg {
        &mut self.svg
    }
}

impl Sheet<'_> {
    /// The text with an id, in a class of words.
    pub(super) fn say(&mut self, class: &str, at: Point, anchor: Anchor, key: &str) {
        self.svg.text(class, at, anchor, &self.texts.text(key));
    }

    /// The finished document.
    pub(super) fn finish(self) -> String {
        self.svg.finish()
    }
}

/// An empty sheet; the text with the id `title` is what a screen reader speaks.
pub(super) fn sheet<'t>(texts: &'t Texts, title: &str) -> Sheet<'t> {
    let svg = Svg::new("step", &texts.text(title), (0.0, 0.0, SHEET.0, SHEET.1));
    Sheet { svg, texts }
}

/// A word beside a thing, by the id of its text.
pub(super) fn note(sheet: &mut Sheet<'_>, at: Point, anchor: Anchor, key: &str) {
    sheet.say("note", at, anchor, key);
}

/// The word that the drawing is about, by the id of its text.
pub(super) fn word(sheet: &mut Sheet<'_>, at: Point, anchor: Anchor, key: &str) {
    sheet.say("word", at, anchor, key);
}

/// A thin line from a word to its thing, with a dot on the thing.
pub(super) fn leader(svg: &mut Svg, from: Point, to: Point) {
    svg.line("leader", from, to);
    svg.circle("dot", to.0, to.1, 4.4);
}

/// A number in a disc: which comes first.
pub(super) fn number(svg: &mut Svg, at: Point, count: u8) {
    svg.circle("disc", at.0, at.1, 10.5);
    svg.text("count", (at.0, at.1 + 5.2), Anchor::Middle, &count.to_string());
}

/// The tip of an arrow that arrives at `tip` from `from`.
fn head(svg: &mut Svg, class: &str, from: Point, tip: Point, size: f64) {
    let angle = (tip.1 - from.1).atan2(tip.0 - from.0).to_degrees();
    let pose = Pose::at(tip.0, tip.1).turned(angle).sized(size);
    svg.trace(class, &pose.area(&[(0.0, 0.0), (-13.0, -8.0), (-13.0, 8.0)]));
}

/// A movement: a thick arrow along a line of points.
pub(super) fn arrow(svg: &mut Svg, points: &[Point]) {
    if let [.., before, tip] = points {
        let length = (tip.0 - before.0).hypot(tip.1 - before.1).max(1.0);
        let neck = (
            tip.0 - (tip.0 - before.0) * 9.0 / length,
            tip.1 - (tip.1 - before.1) * 9.0 / length,
        );
        let mut shaft = points.to_vec();
        shaft.pop();
        shaft.push(neck);
        svg.trace("arrow", &Trace::through(&shaft));
        head(svg, "arrow-head", *before, *tip, 1.0);
    }
}

/// A movement round a middle, angles in degrees from the right, clockwise.
pub(super) fn turning(svg: &mut Svg, middle: Point, radius: f64, from: f64, to: f64) {
    let on = |degrees: f64| {
        let (sin, cos) = degrees.to_radians().sin_cos();
        (middle.0 + radius * cos, middle.1 + radius * sin)
    };
    let back = (to - from).signum() * 22.0;
    svg.trace("arrow", &Trace::arc(middle, radius, from, to - back * 0.7));
    head(svg, "arrow-head", on(to - back), on(to), 0.9);
}

/// What a sign warns of.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Danger {
    /// Electricity: a flash.
    Flash,
    /// Heat: three rising waves.
    Heat,
    /// Anything else: a stroke and a dot.
    Care,
}

/// A danger sign about its middle, 34 wide at size 1.
pub(super) fn sign(svg: &mut Svg, at: Point, danger: Danger, size: f64) {
    let pose = Pose::at(at.0, at.1).sized(size);
    svg.trace("sign", &pose.area(&[(0.0, -16.0), (17.0, 13.0), (-17.0, 13.0)]));
    match danger {
        Danger::Flash => svg.trace(
            "flash",
            &pose.area(&[
                (2.4, -10.5),
                (-4.6, 2.6),
                (-0.4, 2.6),
                (-2.6, 10.4),
                (5.2, -1.4),
                (0.8, -1.4),
            ]),
        ),
        Danger::Heat => {
            for x in [-5.5, 0.0, 5.5] {
                let top = if x == 0.0 { -5.5 } else { -1.0 };
                let wave = Trace::at(pose.put(x, 9.0)).curve(
                    pose.put(x - 4.0, 6.0),
                    pose.put(x + 4.0, top + 4.0),
                    pose.put(x, top),
                );
                svg.trace("sign-line", &wave);
            }
        }
        Danger::Care => {
            svg.trace("sign-line", &pose.line(&[(0.0, -6.0), (0.0, 3.0)]));
            let (x, y) = pose.put(0.0, 8.2);
            svg.circle("flash", x, y, 2.2 * size);
        }
    }
}

/// A danger sign with its word, by the id of its text, at the right; `at` is the middle of the
/// sign.
pub(super) fn danger(sheet: &mut Sheet<'_>, at: Point, danger: Danger, key: &str) {
    sign(sheet, at, danger, 1.0);
    sheet.say("danger-word", (at.0 + 21.0, at.1 + 6.0), Anchor::Start, key);
}

/// Not like this: two thick strokes through the middle.
pub(super) fn cross(svg: &mut Svg, at: Point, half: f64) {
    svg.line("cross", (at.0 - half, at.1 - half), (at.0 + half, at.1 + half));
    svg.line("cross", (at.0 - half, at.1 + half), (at.0 + half, at.1 - half));
}

/// Like this: a tick.
pub(super) fn tick(svg: &mut Svg, at: Point) {
    let pose = Pose::at(at.0, at.1);
    svg.trace("tick", &pose.line(&[(-9.0, 0.0), (-2.0, 8.0), (11.0, -9.0)]));
}

/// An eye that looks.
pub(super) fn eye(svg: &mut Svg, pose: Pose) {
    let lid = Trace::at(pose.put(-19.0, 0.0))
        .bend(pose.put(0.0, -21.0), pose.put(19.0, 0.0))
        .bend(pose.put(0.0, 21.0), pose.put(-19.0, 0.0))
        .close();
    svg.trace("body", &lid);
    let (x, y) = pose.put(0.0, 0.0);
    svg.circle("solid", x, y, 5.5 * pose.size());
}

/// The top of the bench, its upper face at `y`.
pub(super) fn bench(svg: &mut Svg, y: f64, from: f64, to: f64) {
    svg.rect("wood", from, y, to - from, 9.0);
}

/// Arms, fingers, cords: lines with an outline, joined where they meet.
pub(super) fn tubes(svg: &mut Svg, traces: &[(Trace, f64)]) {
    for (trace, width) in traces {
        svg.stroke("tube-edge", trace, width + 2.8);
    }
    for (trace, width) in traces {
        svg.stroke("tube", trace, width - 2.8);
    }
}
