//! The printable target: a checkerboard that a core or a small part is laid on or beside.
//!
//! Any piece of the lattice that can be seen gives the scale, so covering some of it does no harm.

use std::fmt::Write;

use crate::quantity::Length;

/// The paper that the target is printed on, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Sheet {
    /// 210 × 297 mm.
    A4,
    /// 8½ × 11 inches.
    Letter,
}

/// Side of a square, in millimetres.
const SQUARE_MM: f64 = 15.0;
/// White to the left and right of the squares at least, in millimetres.
const MARGIN_MM: f64 = 15.0;
/// White above the squares, with the title in it, in millimetres.
const HEAD_MM: f64 = 25.0;
/// Paper below the squares at least, for the check line and the captions, in millimetres.
const FOOT_MM: f64 = 42.0;
/// From one line of the captions to the next, in millimetres. There is room for four.
const LINE_MM: f64 = 5.5;
/// Letters that fit a line of 180 mm, at 3.5 mm: half as wide as high on the average.
const LINE_LETTERS: usize = 100;
/// Length that both check lines are drawn, in millimetres.
pub const CHECK_LINE_MM: f64 = 100.0;

impl Sheet {
    /// Both sheets.
    pub const ALL: [Sheet; 2] = [Sheet::A4, Sheet::Letter];

    /// The word that files use for it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Sheet::A4 => "a4",
            Sheet::Letter => "letter",
        }
    }

    /// The sheet that a word names.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|sheet| sheet.word() == word)
    }

    /// Width and height of the paper.
    #[must_use]
    pub const fn size(self) -> (Length, Length) {
        match self {
            Sheet::A4 => (Length::from_mm(210.0), Length::from_mm(297.0)),
            Sheet::Letter => (Length::from_mm(215.9), Length::from_mm(279.4)),
        }
    }

    /// Side of a square, as drawn.
    #[must_use]
    pub const fn square(self) -> Length {
        Length::from_mm(SQUARE_MM)
    }

    /// Squares across.
    #[must_use]
    pub fn columns(self) -> u32 {
        ((self.size().0.mm() - 2.0 * MARGIN_MM) / SQUARE_MM + 1e-9).floor() as u32
    }

    /// Squares down.
    #[must_use]
    pub fn rows(self) -> u32 {
        ((self.size().1.mm() - HEAD_MM - FOOT_MM) / SQUARE_MM + 1e-9).floor() as u32
    }

    /// Where the squares begin: from the left edge and from the upper edge of the paper.
    #[must_use]
    pub fn origin(self) -> (Length, Length) {
        let band = f64::from(self.columns()) * SQUARE_MM;
        (
            Length::from_mm((self.size().0.mm() - band) / 2.0),
            Length::from_mm(HEAD_MM),
        )
    }

    /// Whether the square in this column and row is black.
    #[must_use]
    pub const fn is_black(self, column: u32, row: u32) -> bool {
        (column + row).is_multiple_of(2)
    }
}

/// The words on the target, in the person's language. Those below the squares are broken into
/// lines of 100 letters; there is room for four lines together.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Captions {
    /// Above the squares: what this sheet is.
    pub title: String,
    /// Beside the check line: that it must measure 100 mm, and what to do where it does not.
    pub check: String,
    /// Below: how to lay the part and hold the camera.
    pub how: String,
}

/// The target as a drawing whose width and height are in millimetres, so that a printer set to
/// "actual size" gives squares of exactly 15 mm.
///
/// Two check lines of 100 mm, one across below the squares and one down at their left, show
/// whether it did.
#[must_use]
pub fn target_svg(sheet: Sheet, captions: &Captions) -> String {
    let (width, height) = (sheet.size().0.mm(), sheet.size().1.mm());
    let (left, top) = (sheet.origin().0.mm(), sheet.origin().1.mm());
    let foot = top + f64::from(sheet.rows()) * SQUARE_MM;
    let mut svg = String::new();
    // Writing to a String cannot fail.
    let _ = write!(
        svg,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">\
         <rect width=\"{width}\" height=\"{height}\" fill=\"#fff\"/><path fill=\"#000\" d=\""
    );
    for row in 0..sheet.rows() {
        for column in (0..sheet.columns()).filter(|column| sheet.is_black(*column, row)) {
            let (x, y) = (left + f64::from(column) * SQUARE_MM, top + f64::from(row) * SQUARE_MM);
            let _ = write!(svg, "M{x:.3} {y:.3}h{SQUARE_MM}v{SQUARE_MM}h-{SQUARE_MM}z");
        }
    }
    let (line_y, line_x) = (foot + 10.0, left - 7.0);
    let _ = write!(
        svg,
        "\"/><path fill=\"none\" stroke=\"#000\" stroke-width=\"0.3\" d=\"\
         M{left:.3} {:.3}v4m0 -2h{CHECK_LINE_MM}m0 -2v4\
         M{:.3} {top:.3}h4m-2 0v{CHECK_LINE_MM}m-2 0h4\"/>",
        line_y - 2.0,
        line_x - 2.0,
    );
    let mut text = |y: f64, size: f64, line: &str| {
        let _ = write!(
            svg,
            "<text x=\"{left:.3}\" y=\"{y:.3}\" font-family=\"sans-serif\" font-size=\"{size}\">{}</text>",
            escaped(line)
        );
    };
    text(top - 10.0, 5.0, &captions.title);
    let below = wrapped(&captions.check).chain(wrapped(&captions.how));
    for (index, line) in below.enumerate() {
        text(foot + 18.0 + LINE_MM * index as f64, 3.5, &line);
    }
    svg.push_str("</svg>");
    svg
}

/// A text in lines of at most [`LINE_LETTERS`], broken between words.
fn wrapped(text: &str) -> impl Iterator<Item = String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= LINE_LETTERS => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines.into_iter()
}

fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for character in text.chars() {
        match character {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // Nothing that XML 1.0 forbids: control characters other than tab and line ends.
            c if c.is_control() && !matches!(c, '\t' | '\n' | '\r') => {}
            c => out.push(c),
        }
    }
    out
}
