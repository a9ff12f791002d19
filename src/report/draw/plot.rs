//! A plot of curves over a common pair of axes.

use super::curve::{tick_text, ticks};
use super::svg::{Anchor, Svg};

/// A curve, by its points.
#[derive(Debug, Clone, PartialEq)]
pub struct Curve {
    /// `curve`, `curve second`, `curve third` or `load`: how it is drawn.
    pub class: &'static str,
    /// What stands at its end; empty for nothing.
    pub name: String,
    /// Its points.
    pub points: Vec<(f64, f64)>,
}

/// What a plot shows.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plot {
    /// What a screen reader speaks.
    pub title: String,
    /// What the horizontal axis counts, with its unit.
    pub across: String,
    /// What the vertical axis counts, with its unit.
    pub up: String,
    /// An area between two curves.
    pub band: Option<[Vec<(f64, f64)>; 2]>,
    /// The curves.
    pub curves: Vec<Curve>,
    /// A level that must not be passed, with its name.
    pub limit: Option<(f64, String)>,
    /// A point that matters.
    pub point: Option<(f64, f64)>,
}

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 220.0;
const LEFT: f64 = 46.0;
const RIGHT: f64 = 14.0;
const TOP: f64 = 24.0;
const BOTTOM: f64 = 38.0;

/// Draws it. Nothing but the axes where no point is a number.
#[must_use]
pub fn plot(plot: &Plot) -> String {
    let band = plot.band.iter().flatten().flatten();
    let points = || {
        plot.curves
            .iter()
            .flat_map(|c| &c.points)
            .chain(band.clone())
            .chain(&plot.point)
            .filter(|(x, y)| x.is_finite() && y.is_finite())
    };
    let span = |least: f64, most: f64| {
        if most > least {
            (least, most)
        } else {
            (least, least + 1.0)
        }
    };
    let (left, right) = span(
        points().map(|p| p.0).fold(0.0, f64::min),
        points().map(|p| p.0).fold(0.0, f64::max),
    );
    let limit = plot.limit.as_ref().map(|l| l.0).into_iter();
    let (low, high) = span(
        points().map(|p| p.1).fold(0.0, f64::min) * 1.08,
        points().map(|p| p.1).chain(limit).fold(0.0, f64::max) * 1.08,
    );
    let x = |value: f64| LEFT + (WIDTH - LEFT - RIGHT) * (value - left) / (right - left);
    let y = |value: f64| HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * (value - low) / (high - low);
    let at = |p: &(f64, f64)| (x(p.0), y(p.1));
    let mut svg = Svg::new("plot", &plot.title, (0.0, 0.0, WIDTH, HEIGHT));
    for value in around_zero(low, high) {
        svg.line("grid", (LEFT, y(value)), (WIDTH - RIGHT, y(value)));
        svg.text("tick", (LEFT - 4.0, y(value) + 4.0), Anchor::End, &tick_text(value));
    }
    for value in around_zero(left, right) {
        svg.line("grid", (x(value), TOP), (x(value), HEIGHT - BOTTOM));
        svg.text(
            "tick",
            (x(value), HEIGHT - BOTTOM + 14.0),
            Anchor::Middle,
            &tick_text(value),
        );
    }
    svg.text("axis", (2.0, TOP - 10.0), Anchor::Start, &plot.up);
    svg.text("axis", (WIDTH - RIGHT, HEIGHT - 6.0), Anchor::End, &plot.across);
    if let Some([upper, lower]) = &plot.band {
        let outline: Vec<_> = upper.iter().chain(lower.iter().rev()).map(at).collect();
        svg.path("band", &outline, true);
    }
    if let Some((level, name)) = &plot.limit {
        svg.line("limit", (LEFT, y(*level)), (WIDTH - RIGHT, y(*level)));
        svg.text("limit-text", (WIDTH - RIGHT - 2.0, y(*level) - 4.0), Anchor::End, name);
    }
    for curve in &plot.curves {
        svg.path(curve.class, &curve.points.iter().map(at).collect::<Vec<_>>(), false);
    }
    names(&mut svg, plot);
    if let Some(point) = &plot.point {
        let (x, y) = at(point);
        svg.circle("working", x, y, 4.5);
    }
    svg.finish()
}

/// The curves' names in a row under the upper axis' name, each behind a piece of its line.
fn names(svg: &mut Svg, plot: &Plot) {
    let named: Vec<&Curve> = plot.curves.iter().filter(|c| !c.name.is_empty()).collect();
    let mut right = WIDTH - RIGHT;
    for curve in named.iter().rev() {
        // 6.4 for each letter of the plots' 12 px face, a wide one.
        let letters = f64::from(u32::try_from(curve.name.chars().count()).unwrap_or(0));
        let start = right - letters * 6.4;
        svg.text("axis", (start, TOP - 10.0), Anchor::Start, &curve.name);
        svg.path(
            curve.class,
            &[(start - 24.0, TOP - 14.0), (start - 4.0, TOP - 14.0)],
            false,
        );
        right = start - 34.0;
    }
}

/// Round values between two, zero among them if it lies there.
fn around_zero(low: f64, high: f64) -> Vec<f64> {
    let most = high.max(-low);
    if !(most.is_finite() && most > 0.0) {
        return vec![0.0];
    }
    let step = ticks(most, if low < 0.0 { 3 } else { 5 }).nth(1).unwrap_or(most);
    let first = (low / step).ceil() as i32;
    let last = (high / step).floor() as i32;
    (first..=last).map(|k| f64::from(k) * step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn round_values_stand_on_both_sides_of_zero() {
        assert_eq!(around_zero(-2.2, 2.2), [-2.0, -1.0, 0.0, 1.0, 2.0]);
        assert_eq!(around_zero(0.0, 48.0), [0.0, 10.0, 20.0, 30.0, 40.0]);
        assert_eq!(around_zero(0.0, f64::NAN), [0.0]);
    }

    #[test]
    fn hostile_numbers_and_names_stay_in_the_drawing() {
        let drawn = plot(&Plot {
            title: "<b>".to_owned(),
            curves: vec![Curve {
                class: "curve",
                name: "</text>".to_owned(),
                points: vec![(0.0, 0.0), (1.0, 2.0)],
            }],
            point: Some((f64::NAN, f64::INFINITY)),
            ..Plot::default()
        });
        assert!(drawn.contains("&lt;b&gt;") && !drawn.contains("</text></text>"));
    }
}
