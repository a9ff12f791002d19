//! A small writer of SVG elements: escapes text, rounds coordinates.

use std::fmt::Write;

use super::trace::Trace;

/// Text safe inside SVG and HTML, in an element or an attribute.
#[must_use]
pub fn escape(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            // Marks that turn the writing direction could make one text look like another.
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{200e}' | '\u{200f}' => {}
            c if c.is_control() && c != '\n' => {}
            c => safe.push(c),
        }
    }
    safe
}

/// Where a text stands against its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Anchor {
    /// It starts there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Anchor {
    const fn word(self) -> &'static str {
        match self {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        }
    }
}

/// An SVG document being written.
#[derive(Debug, Clone)]
pub struct Svg {
    body: String,
    view: (f64, f64, f64, f64),
    title: String,
    class: &'static str,
    letters: Option<f64>,
}

impl Svg {
    /// A drawing with a view box (x, y, width, height) and a title that a screen reader speaks.
    #[must_use]
    pub fn new(class: &'static str, title: &str, view: (f64, f64, f64, f64)) -> Self {
        Self {
            body: String::new(),
            view,
            title: escape(title),
            class,
            letters: None,
        }
    }

    /// How high its letters are; the stylesheet's own height without.
    pub fn letters(&mut self, height: f64) {
        self.letters = Some(height);
    }

    /// A rectangle.
    pub fn rect(&mut self, class: &str, x: f64, y: f64, width: f64, height: f64) {
        let (w, h) = (width.max(0.0), height.max(0.0));
        let _ = write!(
            self.body,
            r#"<rect class="{class}" x="{x:.2}" y="{y:.2}" width="{w:.2}" height="{h:.2}"/>"#
        );
    }

    /// A circle.
    pub fn circle(&mut self, class: &str, x: f64, y: f64, radius: f64) {
        let _ = write!(
            self.body,
            r#"<circle class="{class}" cx="{x:.2}" cy="{y:.2}" r="{radius:.2}"/>"#
        );
    }

    /// A straight line.
    pub fn line(&mut self, class: &str, from: (f64, f64), to: (f64, f64)) {
        let ((x1, y1), (x2, y2)) = (from, to);
        let _ = write!(
            self.body,
            r#"<line class="{class}" x1="{x1:.2}" y1="{y1:.2}" x2="{x2:.2}" y2="{y2:.2}"/>"#
        );
    }

    /// A line through points, or a closed area.
    pub fn path(&mut self, class: &str, points: &[(f64, f64)], closed: bool) {
        let _ = write!(self.body, r#"<path class="{class}" d=""#);
        for (i, (x, y)) in points.iter().enumerate() {
            let _ = write!(self.body, "{}{x:.2} {y:.2}", if i == 0 { "M" } else { "L" });
        }
        self.body.push_str(if closed { r#"Z"/>"# } else { r#""/>"# });
    }

    /// A rectangle with round corners.
    pub fn round_rect(&mut self, class: &str, corner: (f64, f64), size: (f64, f64), radius: f64) {
        let ((x, y), (w, h)) = (corner, size);
        let _ = write!(
            self.body,
            r#"<rect class="{class}" x="{x:.1}" y="{y:.1}" width="{w:.1}" height="{h:.1}" rx="{radius:.1}"/>"#
        );
    }

    /// An ellipse with its axes along the sheet.
    pub fn ellipse(&mut self, class: &str, middle: (f64, f64), wide: f64, high: f64) {
        let (x, y) = middle;
        let _ = write!(
            self.body,
            r#"<ellipse class="{class}" cx="{x:.1}" cy="{y:.1}" rx="{wide:.1}" ry="{high:.1}"/>"#
        );
    }

    /// A line of straight and curved pieces.
    pub fn trace(&mut self, class: &str, trace: &Trace) {
        let d = trace.data();
        let _ = write!(self.body, r#"<path class="{class}" d="{d}"/>"#);
    }

    /// The same with a width of its own.
    pub fn stroke(&mut self, class: &str, trace: &Trace, width: f64) {
        let d = trace.data();
        let _ = write!(
            self.body,
            r#"<path class="{class}" stroke-width="{width:.1}" d="{d}"/>"#
        );
    }

    /// A text.
    pub fn text(&mut self, class: &str, at: (f64, f64), anchor: Anchor, text: &str) {
        let (x, y) = at;
        let anchor = anchor.word();
        let text = escape(text);
        let _ = write!(
            self.body,
            r#"<text class="{class}" x="{x:.2}" y="{y:.2}" text-anchor="{anchor}">{text}</text>"#
        );
    }

    /// A dimension along a horizontal or vertical line: line, end ticks and text.
    pub fn dimension(&mut self, from: (f64, f64), to: (f64, f64), tick: f64, text: &str) {
        self.line("dimension", from, to);
        let horizontal = (from.1 - to.1).abs() < 1e-9;
        for (x, y) in [from, to] {
            if horizontal {
                self.line("dimension", (x, y - tick), (x, y + tick));
            } else {
                self.line("dimension", (x - tick, y), (x + tick, y));
            }
        }
        let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
        if horizontal {
            self.text(
                "dimension-text",
                (middle.0, middle.1 - tick * 0.8),
                Anchor::Middle,
                text,
            );
        } else {
            self.text(
                "dimension-text",
                (middle.0 + tick, middle.1 + tick),
                Anchor::Start,
                text,
            );
        }
    }

    /// The finished document.
    #[must_use]
    pub fn finish(self) -> String {
        let (x, y, w, h) = self.view;
        let Self { class, title, body, .. } = &self;
        let letters = self
            .letters
            .map_or_else(String::new, |height| format!(r#" style="--letter: {height:.2}px""#));
        format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" class="drawing {class}" role="img"{letters} viewBox="{x:.2} {y:.2} {w:.2} {h:.2}"><title>{title}</title>{body}</svg>"#
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hostile_text_stays_text() {
        let mut svg = Svg::new("test", "a <b> \"c\"", (0.0, 0.0, 10.0, 10.0));
        svg.text(
            "x",
            (1.0, 1.0),
            Anchor::Start,
            "</text><script>alert(1)</script>\u{202e}",
        );
        let out = svg.finish();
        assert!(!out.contains("<script") && !out.contains('\u{202e}'), "{out}");
        assert!(out.contains("&lt;b&gt; &quot;c&quot;"));
    }
}
