//! Terminal voltage against load current, with its uncertainty.

use super::svg::{Anchor, Svg};
use crate::magnetics::circuit::performance::LoadLine;
use crate::quantity::{Current, Voltage};
use crate::text::Texts;

/// What a voltage plot shows.
#[derive(Debug, Clone, Copy)]
pub struct CurvePlot<'a> {
    /// Current, volts, half-width of the volts.
    pub points: &'a [(Current, Voltage, Voltage)],
    /// The load and the working point; none behind diodes, whose currents lie in no such picture.
    pub load: Option<(LoadLine, (Current, Voltage))>,
    /// The highest open-circuit voltage allowed.
    pub limit: Option<Voltage>,
}

const WIDTH: f64 = 340.0;
const HEIGHT: f64 = 220.0;
const LEFT: f64 = 40.0;
const RIGHT: f64 = 12.0;
const TOP: f64 = 14.0;
const BOTTOM: f64 = 38.0;

/// Draws it.
#[must_use]
pub fn voltage_plot(plot: &CurvePlot, texts: &Texts) -> String {
    let most_amps = plot.points.last().map_or(1.0, |p| p.0.si()).max(1e-6);
    let most_volts = plot
        .points
        .iter()
        .map(|(_, v, pm)| v.si() + pm.si())
        .chain(
            plot.limit
                .filter(|l| l.si() < 2.0 * plot.load.map_or(0.0, |(_, (_, volts))| volts.si()).max(1.0))
                .map(|l| l.si()),
        )
        .fold(1e-6, f64::max)
        * 1.08;
    let x = |amps: f64| LEFT + (WIDTH - LEFT - RIGHT) * amps / most_amps;
    let y = |volts: f64| HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * volts / most_volts;
    let mut svg = Svg::new("plot", &texts.text("drawn-voltage"), (0.0, 0.0, WIDTH, HEIGHT));
    for volts in ticks(most_volts, 5) {
        svg.line("grid", (LEFT, y(volts)), (WIDTH - RIGHT, y(volts)));
        svg.text("tick", (LEFT - 4.0, y(volts) + 4.0), Anchor::End, &tick_text(volts));
    }
    for amps in ticks(most_amps, 5) {
        svg.line("grid", (x(amps), TOP), (x(amps), HEIGHT - BOTTOM));
        svg.text(
            "tick",
            (x(amps), HEIGHT - BOTTOM + 14.0),
            Anchor::Middle,
            &tick_text(amps),
        );
    }
    svg.text("axis", (LEFT, TOP - 3.0), Anchor::Start, &texts.text("drawn-volts"));
    svg.text(
        "axis",
        (WIDTH - RIGHT, HEIGHT - 6.0),
        Anchor::End,
        &texts.text("drawn-load-current"),
    );
    let upper = plot.points.iter().map(|(a, v, pm)| (x(a.si()), y(v.si() + pm.si())));
    let lower = plot
        .points
        .iter()
        .rev()
        .map(|(a, v, pm)| (x(a.si()), y((v.si() - pm.si()).max(0.0))));
    svg.path("band", &upper.chain(lower).collect::<Vec<_>>(), true);
    let middle: Vec<_> = plot.points.iter().map(|(a, v, _)| (x(a.si()), y(v.si()))).collect();
    svg.path("curve", &middle, false);
    if let Some(limit) = plot.limit.filter(|limit| limit.si() <= most_volts) {
        svg.line("limit", (LEFT, y(limit.si())), (WIDTH - RIGHT, y(limit.si())));
        svg.text(
            "limit-text",
            (WIDTH - RIGHT - 2.0, y(limit.si()) - 3.0),
            Anchor::End,
            &texts.text("drawn-limit"),
        );
    }
    if let Some((load, working)) = plot.load {
        let end = if load.slope.si() > 0.0 {
            most_amps.min((most_volts - load.fixed.si()) / load.slope.si())
        } else {
            most_amps
        };
        if end > 0.0 {
            let at = |amps: f64| (x(amps), y(load.volts(Current::from_si(amps)).si()));
            svg.line("load", at(0.0), at(end));
            svg.text(
                "load-text",
                (at(end).0 - 8.0, at(end).1 + 14.0),
                Anchor::End,
                &texts.text("drawn-load-line"),
            );
        }
        svg.circle("working", x(working.0.si()), y(working.1.si()), 4.5);
    }
    svg.finish()
}

/// Round values from 0 to `most`, about `count` of them.
pub(super) fn ticks(most: f64, count: u32) -> impl Iterator<Item = f64> {
    let raw = most / f64::from(count);
    let decade = 10f64.powf(raw.log10().floor());
    let step = [1.0, 2.0, 2.5, 5.0, 10.0]
        .into_iter()
        .map(|m| m * decade)
        .find(|s| *s >= raw)
        .unwrap_or(10.0 * decade);
    (0..=count + 1)
        .map(move |i| f64::from(i) * step)
        .take_while(move |v| *v <= most)
}

pub(super) fn tick_text(value: f64) -> String {
    let text = format!("{value:.2}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_inside() {
        assert_eq!(ticks(48.0, 5).collect::<Vec<_>>(), [0.0, 10.0, 20.0, 30.0, 40.0]);
        assert_eq!(
            ticks(0.9, 5).map(tick_text).collect::<Vec<_>>(),
            ["0", "0.2", "0.4", "0.6", "0.8"]
        );
    }
}
