//! How far two colours stand apart: for the tests of the theme and of the drawings.

/// Contrast as WCAG 2.2 defines it, from relative luminance.
pub fn contrast(a: &str, b: &str) -> f64 {
    let luminance = |hex: &str| {
        let channel = |at: usize| {
            let c = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).unwrap()) / 255.0;
            if c <= 0.04045 {
                c / 12.92
            } else {
                ((c + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(1) + 0.7152 * channel(3) + 0.0722 * channel(5)
    };
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// Figures that others print for this formula: black on white is 21; #767676 on white is the
/// lightest grey that reaches 4.5 (4.54), which accessibility guides quote.
#[test]
fn contrast_agrees_with_known_pairs() {
    assert!((contrast("#000000", "#ffffff") - 21.0).abs() < 1e-9);
    assert!((contrast("#767676", "#ffffff") - 4.54).abs() < 0.005);
}
