//! The two entries of a camera's Exif block that matter for measuring.

/// What a camera noted beside the picture.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Exif {
    /// How to turn the picture upright, 1 to 8; `None` where it is missing or senseless.
    pub orientation: Option<u8>,
    /// The lens as its equivalent on 35 mm film (36 mm across the long side), in millimetres.
    pub focal_35mm: Option<f64>,
}

/// Entries looked at in one directory; a camera writes a few dozen.
const MOST_ENTRIES: u16 = 512;

/// Reads a TIFF block as Exif 2.3 (JEITA CP-3451C) lays it out: tag 0x0112 in the first
/// directory, tag 0xA405 in the one that tag 0x8769 points to. Anything else, and anything
/// damaged, is passed over.
pub(super) fn read(tiff: &[u8]) -> Exif {
    let mut exif = Exif::default();
    let Some(block) = Tiff::new(tiff) else {
        return exif;
    };
    let Some(first) = block.u32(4) else {
        return exif;
    };
    exif.orientation = block
        .short(first, 0x0112)
        .and_then(|value| u8::try_from(value).ok())
        .filter(|value| (1..=8).contains(value));
    exif.focal_35mm = block
        .long(first, 0x8769)
        .and_then(|private| block.short(private, 0xA405))
        .map(f64::from)
        .filter(|mm| (5.0..=1000.0).contains(mm));
    exif
}

/// The Exif block of a JPEG: the first APP1 segment that begins with `Exif`.
pub(super) fn of_jpeg(bytes: &[u8]) -> Exif {
    let mut at = 2;
    while let Some((marker, body)) = segment(bytes, at) {
        if marker == 0xDA {
            break;
        }
        if let (0xE1, Some(tiff)) = (marker, body.strip_prefix(b"Exif\0\0")) {
            return read(tiff);
        }
        at += 4 + body.len();
    }
    Exif::default()
}

/// The JPEG segment that begins at `at`: its marker and what follows its length.
pub(super) fn segment(bytes: &[u8], at: usize) -> Option<(u8, &[u8])> {
    let head = bytes.get(at..at.checked_add(4)?)?;
    if head[0] != 0xFF {
        return None;
    }
    let length = usize::from(u16::from_be_bytes([head[2], head[3]]));
    let body = bytes.get(at + 4..at + 2 + length.max(2))?;
    Some((head[1], body))
}

struct Tiff<'a> {
    bytes: &'a [u8],
    big_endian: bool,
}

impl<'a> Tiff<'a> {
    fn new(bytes: &'a [u8]) -> Option<Self> {
        let big_endian = match bytes.get(..4)? {
            b"MM\0*" => true,
            b"II*\0" => false,
            _ => return None,
        };
        Some(Self { bytes, big_endian })
    }

    fn u16(&self, at: usize) -> Option<u16> {
        let two = self.bytes.get(at..at.checked_add(2)?)?.try_into().ok()?;
        Some(if self.big_endian {
            u16::from_be_bytes(two)
        } else {
            u16::from_le_bytes(two)
        })
    }

    fn u32(&self, at: usize) -> Option<u32> {
        let four = self.bytes.get(at..at.checked_add(4)?)?.try_into().ok()?;
        Some(if self.big_endian {
            u32::from_be_bytes(four)
        } else {
            u32::from_le_bytes(four)
        })
    }

    /// Where an entry of this tag and type keeps its value.
    fn entry(&self, directory: u32, tag: u16, kind: u16) -> Option<usize> {
        let start = usize::try_from(directory).ok()?;
        let count = self.u16(start)?.min(MOST_ENTRIES);
        (0..usize::from(count)).find_map(|index| {
            let at = start.checked_add(2 + 12 * index)?;
            (self.u16(at)? == tag && self.u16(at + 2)? == kind).then_some(at + 8)
        })
    }

    fn short(&self, directory: u32, tag: u16) -> Option<u16> {
        self.u16(self.entry(directory, tag, 3)?)
    }

    fn long(&self, directory: u32, tag: u16) -> Option<u32> {
        self.u32(self.entry(directory, tag, 4)?)
    }
}
