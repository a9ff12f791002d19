//! A picture turned upright.

use super::gray::Gray;

/// Turns a picture upright. Exif 2.3, tag 0x0112: which side of the scene the first row and the
/// first column show.
pub(super) fn upright(gray: Gray, orientation: u8) -> Gray {
    let (width, height) = (gray.width(), gray.height());
    if orientation <= 1 || orientation > 8 {
        return gray;
    }
    let turned = orientation >= 5;
    let (new_width, new_height) = if turned { (height, width) } else { (width, height) };
    let (row, last_row, last) = (width as isize, (height - 1) * width, width * height - 1);
    // Where the first pixel comes from, and how far on the next one across and the next one down do.
    let (start, across, down) = match orientation {
        2 => (width - 1, -1, row),
        3 => (last, -1, -row),
        4 => (last_row, 1, -row),
        5 => (0, row, 1),
        6 => (last_row, -row, 1),
        7 => (last, -row, -1),
        _ => (width - 1, row, -1),
    };
    // In tiles, so that what is near in the one is near in the other.
    const TILE: usize = 32;
    let old = gray.pixels();
    let mut pixels = vec![0; width * height];
    for top in (0..new_height).step_by(TILE) {
        for left in (0..new_width).step_by(TILE) {
            for y in top..(top + TILE).min(new_height) {
                let right = (left + TILE).min(new_width);
                let mut from = start as isize + left as isize * across + y as isize * down;
                for pixel in &mut pixels[y * new_width + left..y * new_width + right] {
                    *pixel = old[from as usize];
                    from += across;
                }
            }
        }
    }
    Gray::new(new_width, new_height, pixels).unwrap_or(gray)
}
