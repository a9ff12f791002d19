//! Objects of known size that give a photo its scale: their sizes with ±, thickness and shape.
//!
//! Begin at [`Reference`]. [`ReferenceOutline`] is the same object located in a picture; [`coin`]
//! lists coins, and [`target_svg`] draws the printable target.

pub mod coin;
mod outline;
mod target;

pub use coin::Coin;
pub use outline::ReferenceOutline;
pub use target::{Captions, Sheet, target_svg};

use crate::quantity::{Length, Measured, Origin};
use crate::words::{Explain, Message};

/// An object of known size that lies in the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reference {
    /// A bank or identity card.
    Card,
    /// A sheet of paper.
    Paper(Paper),
    /// Any flat thing with four square corners.
    Rectangle {
        /// The side from the first to the second corner.
        width: Measured<Length>,
        /// The other side.
        height: Measured<Length>,
    },
    /// A coin.
    Coin(Coin),
    /// Any flat round thing.
    Disc {
        /// The diameter.
        diameter: Measured<Length>,
    },
    /// Two marks of a steel rule.
    Rule {
        /// Distance between the marks.
        length: Measured<Length>,
    },
    /// The printed target.
    Target {
        /// The paper.
        sheet: Sheet,
        /// Its check lines as measured on the print; both are drawn 100 mm long.
        check_line: Measured<Length>,
    },
}

/// Sheets of paper in common use, upright.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Paper {
    /// 297 × 420 mm.
    A3,
    /// 210 × 297 mm.
    A4,
    /// 148 × 210 mm.
    A5,
    /// 105 × 148 mm.
    A6,
    /// 8½ × 11 inches.
    Letter,
}

impl Paper {
    /// All sheets, in the order that they are offered.
    pub const ALL: [Paper; 5] = [Paper::A4, Paper::Letter, Paper::A5, Paper::A6, Paper::A3];

    /// The identifier used in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Paper::A3 => "a3",
            Paper::A4 => "a4",
            Paper::A5 => "a5",
            Paper::A6 => "a6",
            Paper::Letter => "letter",
        }
    }

    /// The sheet with this identifier.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.word() == word)
    }

    /// Width and height.
    ///
    /// ISO 216: ± 1.5 mm up to 150 mm, ± 2 mm above that up to 600 mm, taken as the half-width at
    /// about 95 %: a sheet at the limit is rare. Letter as in ANSI Y14.1, with ± 1/16 inch
    /// (common practice, no source).
    #[must_use]
    pub fn size(self) -> (Measured<Length>, Measured<Length>) {
        let iso = |mm: f64| printed(mm, if mm <= 150.0 { 1.5 } else { 2.0 });
        match self {
            Paper::A3 => (iso(297.0), iso(420.0)),
            Paper::A4 => (iso(210.0), iso(297.0)),
            Paper::A5 => (iso(148.0), iso(210.0)),
            Paper::A6 => (iso(105.0), iso(148.0)),
            Paper::Letter => (printed(215.9, 1.6), printed(279.4, 1.6)),
        }
    }
}

/// A reference's shape from straight above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReferenceShape {
    /// Four straight sides with square corners.
    Rectangle {
        /// The first side.
        width: Measured<Length>,
        /// The second side.
        height: Measured<Length>,
        /// Radius of its corners.
        corner_radius: Length,
    },
    /// A disc.
    Disc {
        /// Across it.
        diameter: Measured<Length>,
    },
    /// Two points.
    Marks {
        /// Distance between them.
        length: Measured<Length>,
    },
    /// Squares in columns and rows.
    Lattice {
        /// Width of a square.
        across: Measured<Length>,
        /// Height of a square.
        down: Measured<Length>,
    },
}

/// The smallest reference of a person's own, in millimetres.
pub const SMALLEST_MM: f64 = 10.0;
/// The largest reference of a person's own, in millimetres.
pub const LARGEST_MM: f64 = 1000.0;
/// The largest relative ± of a reference of a person's own.
pub const WIDEST_SPREAD: f64 = 0.1;
/// Range of a print's check line, drawn 100 mm long, in millimetres.
pub const CHECK_LINE_LIMITS_MM: (f64, f64) = (80.0, 120.0);

/// Why a reference cannot be used.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ReferenceError {
    /// A size out of range.
    #[error(
        "The {field} is {mm} mm; it must be between {least} and {most} mm. Measure it again, or take another object."
    )]
    Size {
        /// The dimension: `width`, `height`, `diameter`, `length` or `check_line`.
        field: &'static str,
        /// The given size, in millimetres.
        mm: f64,
        /// Lower limit, in millimetres.
        least: f64,
        /// Upper limit, in millimetres.
        most: f64,
    },
    /// A negative ±, or one above [`WIDEST_SPREAD`].
    #[error(
        "The {field} is known to ± {mm} mm only; give a ± from 0 to a tenth of the {field}. Measure it with calipers or a steel rule."
    )]
    Spread {
        /// The dimension.
        field: &'static str,
        /// The given half-width, in millimetres.
        mm: f64,
    },
}

impl Explain for ReferenceError {
    fn message(&self) -> Message {
        let of = |field: &str| Message::new(format!("refused-what-{}", field.replace('_', "-")));
        match self {
            ReferenceError::Size { field, mm, least, most } => Message::new("refused-reference-size")
                .within("field", of(field))
                .with("mm", mm)
                .with("least", least)
                .with("most", most),
            ReferenceError::Spread { field, mm } => Message::new("refused-reference-spread")
                .within("field", of(field))
                .with("mm", mm),
        }
    }
}

impl Reference {
    /// The printed target with its check line as drawn: 100 ± 0.5 mm until it is measured.
    #[must_use]
    pub fn target(sheet: Sheet) -> Self {
        Reference::Target {
            sheet,
            check_line: printed(100.0, 0.5),
        }
    }

    /// Shape and size.
    ///
    /// A card is ID-1 of ISO/IEC 7810: 85.60 × 53.98 mm, corners of 2.88 to 3.48 mm radius, and
    /// 85.47 to 85.72 × 53.92 to 54.03 mm when new (the limits from memory).
    #[must_use]
    pub fn shape(&self) -> ReferenceShape {
        match *self {
            Reference::Card => ReferenceShape::Rectangle {
                width: printed(85.60, 0.13),
                height: printed(53.98, 0.06),
                corner_radius: Length::from_mm(3.18),
            },
            Reference::Paper(paper) => {
                let (width, height) = paper.size();
                ReferenceShape::Rectangle {
                    width,
                    height,
                    corner_radius: Length::ZERO,
                }
            }
            Reference::Rectangle { width, height } => ReferenceShape::Rectangle {
                width,
                height,
                corner_radius: Length::ZERO,
            },
            Reference::Coin(coin) => ReferenceShape::Disc {
                diameter: coin.diameter(),
            },
            Reference::Disc { diameter } => ReferenceShape::Disc { diameter },
            Reference::Rule { length } => ReferenceShape::Marks { length },
            Reference::Target { sheet, check_line } => {
                let part = sheet.square().mm() / 100.0;
                let square = Measured::new(check_line.value * part, check_line.plus_minus * part, check_line.origin);
                ReferenceShape::Lattice {
                    across: square,
                    down: square,
                }
            }
        }
    }

    /// Thickness: the height of its upper face above its support.
    ///
    /// A card is 0.76 ± 0.08 mm (ISO/IEC 7810); a sheet of office paper 0.1 mm; coins 1.2 to
    /// 2.6 mm (from memory). A person's own reference is assumed 1 ± 1 mm thick.
    #[must_use]
    pub fn thickness(&self) -> Measured<Length> {
        let typical = |mm, spread| Measured::new(Length::from_mm(mm), Length::from_mm(spread), Origin::Typical);
        match self {
            Reference::Card => printed(0.76, 0.08),
            Reference::Paper(_) | Reference::Target { .. } => typical(0.1, 0.1),
            Reference::Coin(_) => typical(1.9, 0.7),
            Reference::Rectangle { .. } | Reference::Disc { .. } | Reference::Rule { .. } => typical(1.0, 1.0),
        }
    }

    /// Checks a size entered by a person.
    ///
    /// # Errors
    /// [`ReferenceError::Size`] for a size outside 10 to 1000 mm or a check line outside 80 to 120
    /// mm; [`ReferenceError::Spread`] for a ± below zero or above a tenth of the size.
    pub fn check(&self) -> Result<(), ReferenceError> {
        let own = (SMALLEST_MM, LARGEST_MM);
        match *self {
            Reference::Card | Reference::Paper(_) | Reference::Coin(_) => Ok(()),
            Reference::Rectangle { width, height } => {
                within("width", width, own).and_then(|()| within("height", height, own))
            }
            Reference::Disc { diameter } => within("diameter", diameter, own),
            Reference::Rule { length } => within("length", length, own),
            Reference::Target { check_line, .. } => within("check_line", check_line, CHECK_LINE_LIMITS_MM),
        }
    }
}

fn within(field: &'static str, size: Measured<Length>, (least, most): (f64, f64)) -> Result<(), ReferenceError> {
    let (mm, spread) = (size.value.mm(), size.plus_minus.mm());
    // The limits are inclusive despite rounding in the conversion from metres.
    let slack = 1e-9;
    if !(mm >= least - slack && mm <= most + slack) {
        return Err(ReferenceError::Size { field, mm, least, most });
    }
    if !(spread >= 0.0 && spread <= mm * WIDEST_SPREAD + slack) {
        return Err(ReferenceError::Spread { field, mm: spread });
    }
    Ok(())
}

/// A size from a standard or a print.
fn printed(mm: f64, plus_minus: f64) -> Measured<Length> {
    Measured::new(Length::from_mm(mm), Length::from_mm(plus_minus), Origin::Label)
}
