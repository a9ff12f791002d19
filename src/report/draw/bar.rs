//! One amount as a bar with its range, beside what is wanted.

use super::svg::Svg;

/// A bar on a scale from zero.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// What a screen reader speaks.
    pub title: String,
    /// The amount and its half-width.
    pub value: (f64, f64),
    /// What is wanted.
    pub wanted: f64,
    /// The end of the scale: the same for bars that are compared.
    pub most: f64,
}

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 26.0;

/// Draws it: the bar to the amount, its range as a line with ends, what is wanted as a dashed line.
#[must_use]
pub fn bar(bar: &Bar) -> String {
    let mut svg = Svg::new("plot bar", &bar.title, (0.0, 0.0, WIDTH, HEIGHT));
    let most = if bar.most > 0.0 { bar.most } else { 1.0 };
    let x = |value: f64| (value / most).clamp(0.0, 1.0) * (WIDTH - 4.0) + 2.0;
    let (value, half) = bar.value;
    let middle = HEIGHT / 2.0;
    svg.rect("amount", x(0.0), 5.0, x(value) - x(0.0), HEIGHT - 10.0);
    svg.line("range", (x(value - half), middle), (x(value + half), middle));
    for end in [value - half, value + half] {
        svg.line("range", (x(end), middle - 5.0), (x(end), middle + 5.0));
    }
    svg.line("wanted", (x(bar.wanted), 1.0), (x(bar.wanted), HEIGHT - 1.0));
    svg.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Half of the scale lies in the middle, and nothing leaves the sheet.
    #[test]
    fn bars_share_a_scale() {
        let drawn = |value: f64, wanted: f64| {
            bar(&Bar {
                title: "most".to_owned(),
                value: (value, 10.0),
                wanted,
                most: 200.0,
            })
        };
        let half = drawn(100.0, 150.0);
        assert!(half.contains(r#"width="158.00""#), "{half}");
        let over = drawn(500.0, 900.0);
        assert!(over.contains(r#"x1="318.00""#) && !over.contains("NaN"), "{over}");
    }
}
