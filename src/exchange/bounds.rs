//! How large a shelf file may be, in memory and on the disk; checked before anything is unpacked.

use std::io::{Error, ErrorKind, Read, Result as IoResult, Seek, SeekFrom};
use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};

use super::error::ExchangeError;
use crate::merge::LARGEST_PICTURE;

/// How large a shelf file may be, unpacked.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Bounds {
    /// The most parts: two, the records, and the photos.
    pub parts: usize,
    /// The most bytes of `manifest.json` and of `READ-ME.txt`, each.
    pub manifest: u64,
    /// The most bytes of `records.jsonl`.
    pub records: u64,
    /// The longest line in it, in bytes.
    pub line: u64,
    /// The largest photo, in bytes.
    pub photo: u64,
    /// The most bytes of all parts.
    pub all: u64,
    /// What a small file may unpack to in any case, in bytes.
    pub free: u64,
    /// Beyond that, the most bytes unpacked for each byte of the file. Records pack to about a
    /// twentieth, photos not at all.
    pub ratio: u64,
}

impl Bounds {
    /// The bounds of every shelf file, read or written.
    pub const SHELF: Bounds = Bounds {
        parts: 20_000,
        manifest: 1 << 20,
        records: 1 << 30,
        line: 1 << 20,
        photo: LARGEST_PICTURE as u64,
        // The plain form of a zip file counts no further.
        all: u32::MAX as u64,
        free: 32 << 20,
        ratio: 50,
    };

    /// The most bytes that a file of so many bytes may unpack to.
    #[must_use]
    pub const fn unpacked_from(&self, file: u64) -> u64 {
        self.free + file.saturating_mul(self.ratio)
    }
}

pub(super) fn too_large(what: &str, most: &str) -> ExchangeError {
    ExchangeError::TooLarge {
        what: what.to_owned(),
        most: most.to_owned(),
    }
}

/// Counts what is read, and stops where too much was asked for while the list of parts is read: each
/// entry of that list is kept in memory, with its comment and its notes.
#[derive(Debug)]
pub(super) struct Metered<R> {
    inner: R,
    left: Meter,
}

/// How many bytes may still be read; shared with who reads.
#[derive(Debug, Clone)]
pub(super) struct Meter(Arc<AtomicU64>);

impl Meter {
    /// Lets all be read from now on.
    pub(super) fn open(&self) {
        self.0.store(u64::MAX, Ordering::Relaxed);
    }

    /// Whether more was asked for than may be read.
    pub(super) fn is_used_up(&self) -> bool {
        self.0.load(Ordering::Relaxed) == 0
    }
}

impl<R> Metered<R> {
    pub(super) fn new(inner: R, most: u64) -> (Self, Meter) {
        let left = Meter(Arc::new(AtomicU64::new(most)));
        let meter = left.clone();
        (Self { inner, left }, meter)
    }
}

impl<R: Read> Read for Metered<R> {
    fn read(&mut self, into: &mut [u8]) -> IoResult<usize> {
        let left = self.left.0.load(Ordering::Relaxed);
        if left == u64::MAX {
            return self.inner.read(into);
        }
        if left == 0 && !into.is_empty() {
            return Err(Error::from(ErrorKind::InvalidData));
        }
        let most = into.len().min(usize::try_from(left).unwrap_or(usize::MAX));
        let read = self.inner.read(&mut into[..most])?;
        self.left.0.store(left - read as u64, Ordering::Relaxed);
        Ok(read)
    }
}

impl<R: Seek> Seek for Metered<R> {
    fn seek(&mut self, to: SeekFrom) -> IoResult<u64> {
        self.inner.seek(to)
    }
}

/// The bytes of a zip file's end record, and of its comment at most (APPNOTE.TXT 4.3.16).
const END: usize = 22;
const COMMENT: u64 = 1 << 16;

/// Looks at the end of a zip file, where the number of its parts stands: room is taken for as many
/// before the first is read. Gives the file's length.
///
/// # Errors
/// [`ExchangeError::TooLarge`] for more parts than allowed, or for the form of zip files that counts
/// beyond 65,535 parts or 4 GiB; [`ExchangeError::NotWhole`] where there is no end record.
pub(super) fn check_end(bytes: &mut (impl Read + Seek), bounds: &Bounds) -> Result<u64, ExchangeError> {
    const HEAD: &[u8] = b"PK\x05\x06";
    const LARGE: &[u8] = b"PK\x06\x07";
    let length = bytes.seek(SeekFrom::End(0))?;
    bytes.seek(SeekFrom::Start(length.saturating_sub(COMMENT + END as u64 + 20)))?;
    let mut tail = Vec::new();
    bytes.take(COMMENT + END as u64 + 20).read_to_end(&mut tail)?;
    bytes.rewind()?;
    let mut ends = 0;
    for at in 0..tail.len().saturating_sub(END - 1) {
        if !tail[at..].starts_with(HEAD) {
            continue;
        }
        ends += 1;
        let count = |from: usize| usize::from(u16::from_le_bytes([tail[at + from], tail[at + from + 1]]));
        let is_large = at >= 20 && tail[at - 20..].starts_with(LARGE);
        if is_large || count(8).max(count(10)) > bounds.parts {
            return Err(too_large("the number of its parts", &bounds.parts.to_string()));
        }
    }
    if ends == 0 {
        return Err(ExchangeError::NotWhole("its end is missing".to_owned()));
    }
    Ok(length)
}
