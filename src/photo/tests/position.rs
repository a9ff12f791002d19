//! Position data leave a photo's file; the picture, its orientation and its focal length stay.

use proptest::prelude::*;

use super::picture::{exif, jpeg_file, png_file};
use crate::photo::image::{Photo, without_position};

/// What stands in every block that is to go.
const PLACE: &[u8] = b"52 deg 31' 12\" N";

fn has(bytes: &[u8], part: &[u8]) -> bool {
    bytes.windows(part.len()).any(|window| window == part)
}

/// An Exif block with a GPS directory at its end, which the first directory points to.
fn exif_with_place() -> Vec<u8> {
    let mut block = exif(true, 6, 28);
    block.extend(b"\0\x01\0\x02\0\x02\0\0\0\x10\0\0\0\0\0\0\0\0");
    block.extend(PLACE);
    block
}

fn segment(marker: u8, head: &[u8], body: &[u8]) -> Vec<u8> {
    let length = (head.len() + body.len() + 2) as u16;
    [&[0xFF, marker], &length.to_be_bytes()[..], head, body].concat()
}

/// A JPEG with the place in each block that cameras and programs write it into.
fn jpeg_with_place() -> Vec<u8> {
    let plain = jpeg_file(120, 66, Some(exif_with_place()));
    let more = [
        segment(0xE1, b"http://ns.adobe.com/xap/1.0/\0", PLACE),
        segment(
            0xE1,
            b"http://ns.adobe.com/xmp/extension/\0",
            &[&[0; 40], PLACE].concat(),
        ),
        segment(0xE2, b"MPF\0", PLACE),
        segment(0xE5, b"maker\0", PLACE),
        segment(0xED, b"Photoshop 3.0\0", PLACE),
        segment(0xFE, b"", PLACE),
    ];
    // A second picture behind the first, with its own note of the place.
    [&plain[..2], &more.concat(), &plain[2..], &plain].concat()
}

/// A PNG with the place in each chunk that holds notes.
fn png_with_place() -> Vec<u8> {
    let plain = png_file(100, 70, png::ColorType::Rgb, Some(exif_with_place()));
    let chunk = |kind: &[u8], body: &[u8]| {
        // The sum is not looked at: such a chunk is passed over.
        [&(body.len() as u32).to_be_bytes()[..], kind, body, &[0; 4]].concat()
    };
    let more = [
        chunk(b"tEXt", &[b"Location\0", PLACE].concat()),
        chunk(b"iTXt", &[b"XML:com.adobe.xmp\0\0\0\0\0", PLACE].concat()),
        chunk(b"prVt", PLACE),
    ];
    // Behind the head, which has 33 bytes with the signature; and behind the end.
    [&plain[..33], &more.concat(), &plain[33..], PLACE].concat()
}

#[test]
fn the_place_goes_and_the_picture_stays() {
    for with in [jpeg_with_place(), png_with_place()] {
        assert!(has(&with, PLACE));
        let without = without_position(&with);
        assert!(!has(&without, PLACE) && !has(&without, b"ns.adobe.com"));
        let (before, after) = (Photo::decode(&with).unwrap(), Photo::decode(&without).unwrap());
        assert!(before.full() == after.full(), "the pixels are others");
        assert_eq!(before.focal_35mm(), Some(28.0));
        assert_eq!(after.focal_35mm(), Some(28.0));
        assert!(after.full().width() < after.full().height(), "it is not upright");
        assert_eq!(without_position(&without), without, "once more changes nothing");
    }
}

/// The file of a camera that notes no place, and a picture that a program made: left alone.
#[test]
fn a_file_without_notes_is_left_alone() {
    for bytes in [
        include_bytes!("../../../tests/reference/photo/real/left01.jpg").to_vec(),
        jpeg_file(120, 66, None),
        png_file(100, 70, png::ColorType::Rgb, None),
        b"\x89PNG\r\n\x1a\n and no picture".to_vec(),
        b"\xFF\xD8\xFF and no picture".to_vec(),
        b"GIF89a".to_vec(),
    ] {
        assert_eq!(without_position(&bytes), bytes);
    }
}

proptest! {
    /// Damaged or hostile bytes: no panic, and the result stays as it is when it comes back.
    #[test]
    fn it_settles_at_once(
        which in any::<bool>(),
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 0..12),
        cut in any::<prop::sample::Index>(),
    ) {
        let mut bytes = if which { jpeg_with_place() } else { png_with_place() };
        for (at, to) in changes {
            let at = at.index(bytes.len());
            bytes[at] = to;
        }
        bytes.truncate(bytes.len().min(8 + cut.index(2 * bytes.len())));
        let once = without_position(&bytes).into_owned();
        prop_assert_eq!(&without_position(&once), &once);
        prop_assert!(once.len() <= bytes.len());
    }
}
