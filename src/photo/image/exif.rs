//! The two Exif entries that matter for measuring: orientation and focal length.

/// The entries read from an Exif block.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(crate) struct Exif {
    /// Orientation, 1 to 8; `None` where missing or out of range.
    pub orientation: Option<u8>,
    /// 35 mm equivalent focal length (36 mm across the long side), in millimetres.
    pub focal_35mm: Option<f64>,
}

/// Entries read in one directory; a camera writes a few dozen.
const MAX_ENTRIES: u16 = 512;

/// Reads a TIFF block laid out by Exif 2.3 (JEITA CP-3451C): tag 0x0112 in the first directory,
/// tag 0xA405 in the directory at tag 0x8769. Other and damaged entries are ignored.
pub(crate) fn read(tiff: &[u8]) -> Exif {
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

/// The entries of a JPEG's Exif block, the first APP1 segment that begins with `Exif`.
pub(crate) fn of_jpeg(bytes: &[u8]) -> Exif {
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

/// The JPEG segment that begins at `at`: its marker and its payload.
pub(crate) fn segment(bytes: &[u8], at: usize) -> Option<(u8, &[u8])> {
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

    /// The offset of the value of the entry with this tag and type.
    fn entry(&self, directory: u32, tag: u16, kind: u16) -> Option<usize> {
        let start = usize::try_from(directory).ok()?;
        let count = self.u16(start)?.min(MAX_ENTRIES);
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
