//! Objects of known size that give a photo its scale.

use super::coin::Coin;
use super::target::Sheet;
use crate::quantity::{Length, Measured, Origin};

/// An object of known size that lies in the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Reference {
    /// A bank or identity card.
    Card,
    /// A sheet of paper.
    Paper(Paper),
    /// Any flat thing with four square corners.
    Rectangle {
        /// The side from its first to its second corner.
        width: Measured<Length>,
        /// The other side.
        height: Measured<Length>,
    },
    /// A coin.
    Coin(Coin),
    /// Any flat round thing.
    Disc {
        /// Across it.
        diameter: Measured<Length>,
    },
    /// Two marks of a steel rule.
    Rule {
        /// From one mark to the other.
        length: Measured<Length>,
    },
    /// The printed target.
    Target {
        /// The paper it was printed on.
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
    /// Every sheet, in the order that a person is offered them.
    pub const ALL: [Paper; 5] = [Paper::A4, Paper::Letter, Paper::A5, Paper::A6, Paper::A3];

    /// The word that files use for it.
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

    /// The sheet that a word names.
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

/// What a reference looks like from straight above.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shape {
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
        /// From one to the other.
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
/// The widest ± of a reference of a person's own, as a part of its size.
pub const WIDEST_SPREAD: f64 = 0.1;
/// How far the check line of a print may be from the 100 mm that it is drawn, in millimetres.
pub const CHECK_LINE_LIMITS_MM: (f64, f64) = (80.0, 120.0);

/// Why a reference cannot be used.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum ReferenceError {
    /// A size out of range.
    #[error(
        "The {field} is {mm} mm; it must be between {least} and {most} mm. Measure it again, or take another object."
    )]
    Size {
        /// Which measure: `width`, `height`, `diameter`, `length` or `check_line`.
        field: &'static str,
        /// What was given, in millimetres.
        mm: f64,
        /// The least allowed, in millimetres.
        least: f64,
        /// The most allowed, in millimetres.
        most: f64,
    },
    /// A ± that is negative, or so wide that nothing could be measured with it.
    #[error(
        "The {field} is known to ± {mm} mm only; give a ± from 0 to a tenth of the {field}. Measure it with calipers or a steel rule."
    )]
    Spread {
        /// Which measure.
        field: &'static str,
        /// The half-width given, in millimetres.
        mm: f64,
    },
}

impl Reference {
    /// The printed target, its check line as drawn: 100 ± 0.5 mm until someone measures it.
    #[must_use]
    pub fn target(sheet: Sheet) -> Self {
        Reference::Target {
            sheet,
            check_line: printed(100.0, 0.5),
        }
    }

    /// Its outline and size.
    ///
    /// A card is ID-1 of ISO/IEC 7810: 85.60 × 53.98 mm, corners of 2.88 to 3.48 mm radius, and
    /// 85.47 to 85.72 × 53.92 to 54.03 mm when new (the limits from memory).
    #[must_use]
    pub fn shape(&self) -> Shape {
        match *self {
            Reference::Card => Shape::Rectangle {
                width: printed(85.60, 0.13),
                height: printed(53.98, 0.06),
                corner_radius: Length::from_mm(3.18),
            },
            Reference::Paper(paper) => {
                let (width, height) = paper.size();
                Shape::Rectangle {
                    width,
                    height,
                    corner_radius: Length::ZERO,
                }
            }
            Reference::Rectangle { width, height } => Shape::Rectangle {
                width,
                height,
                corner_radius: Length::ZERO,
            },
            Reference::Coin(coin) => Shape::Disc {
                diameter: coin.diameter(),
            },
            Reference::Disc { diameter } => Shape::Disc { diameter },
            Reference::Rule { length } => Shape::Marks { length },
            Reference::Target { sheet, check_line } => {
                let part = sheet.square().mm() / 100.0;
                let square = Measured::new(check_line.value * part, check_line.plus_minus * part, check_line.origin);
                Shape::Lattice {
                    across: square,
                    down: square,
                }
            }
        }
    }

    /// How high its upper face lies above what it rests on.
    ///
    /// A card is 0.76 ± 0.08 mm (ISO/IEC 7810); a sheet of office paper 0.1 mm; coins 1.2 to
    /// 2.6 mm (from memory). What a person's own reference measures nobody knows here: 1 ± 1 mm.
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

    /// Whether a size that a person gave can be used.
    ///
    /// # Errors
    /// A size outside 10 to 1000 mm, a ± below zero or above a tenth of the size, a check line
    /// outside 80 to 120 mm.
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
    // The limits themselves are allowed, whatever a division by 1000 did to the last bit.
    let slack = 1e-9;
    if !(mm >= least - slack && mm <= most + slack) {
        return Err(ReferenceError::Size { field, mm, least, most });
    }
    if !(spread >= 0.0 && spread <= mm * WIDEST_SPREAD + slack) {
        return Err(ReferenceError::Spread { field, mm: spread });
    }
    Ok(())
}

/// A size as a standard or a print gives it.
fn printed(mm: f64, plus_minus: f64) -> Measured<Length> {
    Measured::new(Length::from_mm(mm), Length::from_mm(plus_minus), Origin::Label)
}
