//! References of known size, and the sheet to print.

use crate::photo::reference::Coin;
use crate::photo::reference::{Captions, Sheet, target_svg};
use crate::photo::reference::{Paper, Reference, ReferenceError, ReferenceShape};
use crate::quantity::{Length, Measured, Origin};

fn size(mm: f64, spread: f64) -> Measured<Length> {
    Measured::new(Length::from_mm(mm), Length::from_mm(spread), Origin::Calipers)
}

/// ISO/IEC 7810 (ID-1 85.60 × 53.98 mm, corner radius 2.88 to 3.48 mm), ISO 216 (A4 210 × 297,
/// A5 148 × 210 mm), ANSI Y14.1 (Letter 8.5 × 11 inches).
#[test]
fn standard_sizes() {
    let check = |reference: Reference, expected: (f64, f64)| {
        let ReferenceShape::Rectangle {
            width,
            height,
            corner_radius,
        } = reference.shape()
        else {
            panic!("{reference:?} is a rectangle");
        };
        assert!((width.value.mm() - expected.0).abs() < 1e-9 && (height.value.mm() - expected.1).abs() < 1e-9);
        assert!(width.plus_minus.mm() > 0.0 && height.plus_minus.mm() > 0.0);
        corner_radius.mm()
    };
    let radius = check(Reference::Card, (85.60, 53.98));
    assert!((2.88..=3.48).contains(&radius));
    assert_eq!(check(Reference::Paper(Paper::A4), (210.0, 297.0)), 0.0);
    check(Reference::Paper(Paper::A5), (148.0, 210.0));
    check(Reference::Paper(Paper::Letter), (8.5 * 25.4, 11.0 * 25.4));
    // ISO 216: the sides of a sheet are as 1 to √2.
    let a3 = Paper::A3.size();
    assert!((a3.1.value.mm() / a3.0.value.mm() - std::f64::consts::SQRT_2).abs() < 0.005);
}

/// Mints' specifications: US coins by R2 (public tables of coins), the others from memory (M).
#[test]
fn coins() {
    for (word, mm) in [
        ("eur-2", 25.75),
        ("eur-1", 23.25),
        ("usd-25c", 24.26),
        ("gbp-2p", 25.91),
        ("jpy-500", 26.5),
    ] {
        let coin = Coin::from_word(word).unwrap();
        assert!((coin.diameter().value.mm() - mm).abs() < 1e-9);
    }
    for (index, coin) in Coin::ALL.iter().enumerate() {
        assert_eq!(Coin::from_word(coin.word()), Some(*coin), "words are different");
        assert!((15.0..35.0).contains(&coin.diameter().value.mm()), "coin {index}");
    }
    assert_eq!(Coin::from_word("eur-20c"), None, "it is not round");
}

#[test]
fn own_sizes_have_limits() {
    let disc = |mm, spread| {
        Reference::Disc {
            diameter: size(mm, spread),
        }
        .check()
    };
    assert_eq!(disc(10.0, 0.0), Ok(()));
    assert_eq!(disc(1000.0, 100.0), Ok(()));
    for mm in [9.99, 1000.1, f64::NAN, -20.0, f64::INFINITY] {
        assert!(
            matches!(disc(mm, 0.1), Err(ReferenceError::Size { field: "diameter", .. })),
            "{mm}"
        );
    }
    for spread in [-0.1, 10.1, f64::NAN] {
        assert!(
            matches!(
                disc(100.0, spread),
                Err(ReferenceError::Spread { field: "diameter", .. })
            ),
            "{spread}"
        );
    }
    let rectangle = Reference::Rectangle {
        width: size(50.0, 0.1),
        height: size(5.0, 0.1),
    };
    assert!(matches!(
        rectangle.check(),
        Err(ReferenceError::Size { field: "height", .. })
    ));
    let rule = Reference::Rule { length: size(5.0, 0.1) };
    let message = rule.check().unwrap_err().to_string();
    assert!(
        message.contains("length") && message.contains("10") && message.contains("1000"),
        "{message}"
    );
    let target = Reference::Target {
        sheet: Sheet::A4,
        check_line: size(50.0, 0.5),
    };
    assert!(matches!(
        target.check(),
        Err(ReferenceError::Size {
            field: "check_line",
            ..
        })
    ));
}

/// A print whose check line is 97 mm long has squares of 14.55 mm.
#[test]
fn a_shrunk_print() {
    let reference = Reference::Target {
        sheet: Sheet::A4,
        check_line: size(97.0, 0.2),
    };
    let ReferenceShape::Lattice { across, down } = reference.shape() else {
        panic!("a lattice")
    };
    assert!((across.value.mm() - 14.55).abs() < 1e-9 && (down.plus_minus.mm() - 0.03).abs() < 1e-9);
}

/// Read back from the drawing: paper in millimetres, the black squares where the geometry says,
/// both check lines 100 mm, everything on the paper, captions as text and not as markup.
#[test]
fn the_sheet_as_drawn() {
    let captions = Captions {
        title: "Target <A> & \"B\"".into(),
        check: "100 mm\u{0}".into(),
        how: "lay it flat ".repeat(20),
    };
    for sheet in Sheet::ALL {
        assert_eq!(Sheet::from_word(sheet.word()), Some(sheet));
        let svg = target_svg(sheet, &captions);
        let (width, height) = (sheet.size().0.mm(), sheet.size().1.mm());
        assert!(
            svg.contains(&format!("width=\"{width}mm\" height=\"{height}mm\"")),
            "{svg}"
        );
        assert!(svg.contains(&format!("viewBox=\"0 0 {width} {height}\"")));
        assert!(svg.contains("Target &lt;A&gt; &amp; &quot;B&quot;") && !svg.contains('\u{0}'));
        let heights: Vec<f64> = svg
            .split("<text x=")
            .skip(1)
            .map(|text| {
                text.split("y=\"")
                    .nth(1)
                    .unwrap()
                    .split('"')
                    .next()
                    .unwrap()
                    .parse()
                    .unwrap()
            })
            .collect();
        assert_eq!(heights.len(), 5, "a title, a check and three lines of 240 letters");
        assert!(heights.iter().all(|y| *y > 5.0 && *y < height - 6.0), "{heights:?}");
        let squares: Vec<(f64, f64)> = svg
            .split('M')
            .filter_map(|part| part.strip_suffix("h15v15h-15z").or(part.split("h15v15h-15z").next()))
            .filter_map(|start| {
                let mut numbers = start.split(' ').map(str::parse::<f64>);
                Some((numbers.next()?.ok()?, numbers.next()?.ok()?))
            })
            .collect();
        let (columns, rows) = (sheet.columns(), sheet.rows());
        assert_eq!(svg.matches("h15v15h-15z").count() as u32, (columns * rows).div_ceil(2));
        let (left, top) = (sheet.origin().0.mm(), sheet.origin().1.mm());
        for (x, y) in &squares {
            let (column, row) = ((x - left) / 15.0, (y - top) / 15.0);
            assert!((column - column.round()).abs() < 1e-3 && (row - row.round()).abs() < 1e-3);
            assert!(sheet.is_black(column.round() as u32, row.round() as u32));
            assert!(*x >= 14.9 && x + 15.0 <= width - 14.9 && *y >= 20.0 && y + 15.0 <= height - 30.0);
        }
        assert!(
            svg.contains("h100m0 -2v4") && svg.contains("v100m-2 0h4"),
            "two check lines"
        );
    }
    assert_eq!((Sheet::A4.columns(), Sheet::A4.rows()), (12, 15));
    assert_eq!((Sheet::Letter.columns(), Sheet::Letter.rows()), (12, 14));
}
