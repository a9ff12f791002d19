//! Where a photo was taken, removed from its file without decoding the picture.
//!
//! Cameras note the place in several blocks: the GPS directory of Exif (CIPA DC-008), XMP
//! (ISO 16684-1), IPTC in a Photoshop block, free text, makers' own blocks, and a second picture or a
//! film behind the end of the first. A list of what to remove would miss the next one, so the blocks
//! that are kept are listed instead: those that a decoder needs to show the picture, and of Exif the
//! orientation and the focal length, which measuring needs.

use std::borrow::Cow;

use super::exif::{self, Exif};

/// The first bytes of every PNG file (ISO/IEC 15948, 5.2).
const PNG: &[u8] = b"\x89PNG\r\n\x1a\n";

/// The PNG chunks that are kept: those of the picture and of its colours.
const CHUNKS: [&[u8; 4]; 16] = [
    b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"cHRM", b"gAMA", b"iCCP", b"sBIT", b"sRGB", b"cICP", b"mDCV",
    b"cLLI", b"bKGD", b"hIST", b"pHYs",
];

/// Returns the file of a photo without its position data: the same picture, bit for bit.
///
/// The result depends on the bytes alone, and passing it in again returns it unchanged. So the
/// SHA-256 of the result names a photo, whether or not its position data went with it. Which blocks
/// are kept is therefore part of the shelf file's format. Bytes that are no JPEG or PNG are returned
/// as they are.
#[must_use]
pub fn without_position(bytes: &[u8]) -> Cow<'_, [u8]> {
    let kept = if bytes.starts_with(&[0xFF, 0xD8, 0xFF]) {
        jpeg(bytes)
    } else if bytes.starts_with(PNG) {
        png(bytes)
    } else {
        None
    };
    match kept {
        Some(kept) if kept != bytes => Cow::Owned(kept),
        _ => Cow::Borrowed(bytes),
    }
}

/// An Exif block with the orientation and the focal length; none where the camera noted neither.
fn small_exif(exif: &Exif) -> Option<Vec<u8>> {
    if exif.orientation.is_none() && exif.focal_35mm.is_none() {
        return None;
    }
    // A TIFF block, the largest byte first: a directory with the orientation and a pointer to the
    // private directory, which has the focal length.
    let mut block = b"MM\0*\0\0\0\x08".to_vec();
    let mut directory = |entries: &[(u16, u16, [u8; 4])]| {
        block.extend((entries.len() as u16).to_be_bytes());
        for (tag, kind, value) in entries {
            block.extend(tag.to_be_bytes());
            block.extend(kind.to_be_bytes());
            block.extend(1_u32.to_be_bytes());
            block.extend(value);
        }
        block.extend([0; 4]);
    };
    let mut first = Vec::new();
    if let Some(orientation) = exif.orientation {
        first.push((0x0112, 3, [0, orientation, 0, 0]));
    }
    let Some(focal) = exif.focal_35mm else {
        directory(&first);
        return Some(block);
    };
    let private = 8 + 2 + 12 * (first.len() as u32 + 1) + 4;
    first.push((0x8769, 4, private.to_be_bytes()));
    directory(&first);
    let focal = (focal as u16).to_be_bytes();
    directory(&[(0xA405, 3, [focal[0], focal[1], 0, 0])]);
    Some(block)
}

/// Whether a JPEG segment is kept: the picture's own, the JFIF head, the colour profile, and the note
/// of which colours the components are (ITU-T T.81, T.871 and T.872; ICC.1 annex B).
fn is_kept(marker: u8, body: &[u8]) -> bool {
    match marker {
        0xE0 => body.starts_with(b"JFIF\0"),
        0xE2 => body.starts_with(b"ICC_PROFILE\0"),
        0xEE => body.starts_with(b"Adobe"),
        0xE1..=0xEF | 0xFE => false,
        _ => true,
    }
}

/// The JPEG as far as the end of its first picture; none where there is no picture in it.
fn jpeg(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(bytes.len());
    out.extend([0xFF, 0xD8]);
    let exif = exif::of_jpeg(bytes);
    let (mut exif, mut scans, mut at) = (small_exif(&exif), 0, 2);
    while at < bytes.len() {
        // Fill bytes, and what stands between two segments, belong to neither.
        let marker = match bytes[at..] {
            [0xFF, 0x00 | 0xFF, ..] | [0xFF] => {
                at += 1;
                continue;
            }
            [0xFF, marker, ..] => marker,
            _ => {
                at += 1;
                continue;
            }
        };
        if marker == 0xD9 {
            out.extend([0xFF, 0xD9]);
            break;
        }
        if matches!(marker, 0x01 | 0xD0..=0xD8) {
            at += 2;
            continue;
        }
        let Some((marker, body)) = exif::segment(bytes, at) else {
            break;
        };
        let end = at + 4 + body.len();
        // Behind the JFIF head, which has to stand first.
        if marker != 0xE0
            && let Some(block) = exif.take()
        {
            out.extend([0xFF, 0xE1]);
            out.extend((block.len() as u16 + 8).to_be_bytes());
            out.extend(b"Exif\0\0");
            out.extend(block);
        }
        if is_kept(marker, body) {
            out.extend(&bytes[at..end]);
        }
        at = end;
        if marker == 0xDA {
            scans += 1;
            let length = scan_length(&bytes[at..]);
            out.extend(&bytes[at..at + length]);
            at += length;
        }
    }
    (scans > 0).then_some(out)
}

/// The bytes of a scan: up to the next marker that is no restart (ITU-T T.81, B.1.1.2).
fn scan_length(bytes: &[u8]) -> usize {
    bytes
        .windows(2)
        .position(|pair| pair[0] == 0xFF && !matches!(pair[1], 0x00 | 0xD0..=0xD7 | 0xFF))
        .unwrap_or(bytes.len())
}

/// The PNG with the chunks that are kept; none where there is no picture in it.
fn png(bytes: &[u8]) -> Option<Vec<u8>> {
    let mut out = Vec::with_capacity(bytes.len());
    out.extend(PNG);
    let (mut at, mut pictures) = (PNG.len(), 0);
    while let Some((head, rest)) = bytes[at..].split_first_chunk::<8>() {
        let length = u32::from_be_bytes([head[0], head[1], head[2], head[3]]) as usize;
        let kind: &[u8] = &head[4..];
        // A chunk that is cut off is kept as far as it goes where it is the picture.
        let end = length
            .checked_add(4)
            .map_or(bytes.len(), |more| at + 8 + more.min(rest.len()));
        if kind == b"eXIf" {
            let tiff = rest.get(..length).unwrap_or_default();
            if let Some(block) = small_exif(&exif::read(tiff)) {
                out.extend((block.len() as u32).to_be_bytes());
                out.extend(b"eXIf");
                out.extend(&block);
                out.extend(checksum(&[b"eXIf", &block]).to_be_bytes());
            }
        } else if CHUNKS.iter().any(|kept| *kept == kind) {
            out.extend(&bytes[at..end]);
            pictures += usize::from(kind == b"IDAT");
        }
        at = end;
        if kind == b"IEND" {
            break;
        }
    }
    (pictures > 0).then_some(out)
}

/// The CRC-32 of a PNG chunk (ISO/IEC 15948, annex D).
fn checksum(parts: &[&[u8]]) -> u32 {
    let bytes = parts.iter().flat_map(|part| part.iter());
    !bytes.fold(u32::MAX, |sum, byte| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            (sum >> 1) ^ if sum & 1 == 1 { 0xEDB8_8320 } else { 0 }
        })
    })
}
