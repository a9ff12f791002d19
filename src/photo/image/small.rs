//! A photo in the size of a card.

use super::Photo;

/// A photo reduced to at most `side` pixels on its longer side, upright and grey, as a PNG file; none where it
/// cannot be decoded.
#[must_use]
pub fn small_picture(bytes: &[u8], side: usize) -> Option<Vec<u8>> {
    let photo = Photo::decode(bytes).ok()?;
    let working = photo.working();
    let longer = working.width().max(working.height());
    let small = working.shrunk(longer.div_ceil(side.max(1)));
    let (width, height) = (u32::try_from(small.width()).ok()?, u32::try_from(small.height()).ok()?);
    let mut file = Vec::new();
    let mut encoder = png::Encoder::new(&mut file, width, height);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Eight);
    let mut writer = encoder.write_header().ok()?;
    writer.write_image_data(small.pixels()).ok()?;
    writer.finish().ok()?;
    Some(file)
}

#[cfg(test)]
mod tests {
    use super::super::Gray;
    use super::*;

    fn png_of(gray: &Gray) -> Vec<u8> {
        let mut file = Vec::new();
        let mut encoder = png::Encoder::new(&mut file, gray.width() as u32, gray.height() as u32);
        encoder.set_color(png::ColorType::Grayscale);
        encoder.set_depth(png::BitDepth::Eight);
        encoder.write_header().unwrap().write_image_data(gray.pixels()).unwrap();
        file
    }

    #[test]
    fn a_photo_is_reduced_and_keeps_its_proportions() {
        let bright_left = |at: usize| if at % 800 < 400 { 240 } else { 20 };
        let gray = Gray::new(800, 600, (0..800 * 600).map(bright_left).collect()).unwrap();
        let small = Photo::decode(&small_picture(&png_of(&gray), 200).unwrap()).unwrap();
        let small = small.working();
        assert_eq!((small.width(), small.height()), (200, 150));
        assert_eq!((small.row(70)[10], small.row(70)[190]), (240, 20));
        assert_eq!(small_picture(b"no picture", 200), None);
    }
}
