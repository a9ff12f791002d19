//! Writing a shelf file as a stream.

use std::io::Write;

use sha2::{Digest, Sha256};
use uuid::Uuid;
use zip::CompressionMethod;
use zip::write::{SimpleFileOptions, StreamWriter, ZipWriter};

use super::bounds::Bounds;
use super::error::ExchangeError;
use super::manifest::{FORMAT_VERSION, Holds, Manifest, Sender};
use crate::merge::{Kind, hex};

const READ_ME: &str = "This is a shelf of Curbcore: a zip file.

manifest.json   who made it, when, how much of the shelf it holds, the SHA-256 of records.jsonl
records.jsonl   one record a line, as JSON: kind, id, values. The other keys (stamp, stamps, seen,
                others) tell which device changed what, so that two shelves can be merged.
photos/         the photos as they were taken; each is named after its record, which has its SHA-256

Lengths are in millimetres, and every other number is in the unit that its name ends with.
";

/// How the records are written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Packing {
    /// Packed, to about a twentieth.
    Deflated,
    /// As they are: for records that pack to so little that [`Bounds::ratio`] refuses the file.
    Stored,
}

/// Counts the bytes of the file.
#[derive(Debug)]
struct Counted<W> {
    out: W,
    bytes: u64,
}

impl<W: Write> Write for Counted<W> {
    fn write(&mut self, bytes: &[u8]) -> std::io::Result<usize> {
        let written = self.out.write(bytes)?;
        self.bytes += written as u64;
        Ok(written)
    }

    fn flush(&mut self) -> std::io::Result<()> {
        self.out.flush()
    }
}

/// Writes a shelf file: all records, then all photos, then [`Writer::finish`].
#[derive(Debug)]
pub struct Writer<W: Write> {
    zip: ZipWriter<StreamWriter<Counted<W>>>,
    bounds: Bounds,
    packing: Packing,
    /// Bytes of the lines, and of all parts.
    lines: u64,
    unpacked: u64,
    sum: Sha256,
    /// Lines wait here: the packer works better on large pieces.
    waiting: Vec<u8>,
    records: u64,
    photos: u64,
}

const PIECE: usize = 1 << 16;

/// The parts that are no photos: the manifest, the records, and what explains them.
const OTHER_PARTS: u64 = 3;

fn within(what: &'static str, found: u64, most: u64) -> Result<(), ExchangeError> {
    if found > most {
        return Err(ExchangeError::TooMuch { what, most });
    }
    Ok(())
}

fn options(method: CompressionMethod) -> SimpleFileOptions {
    let level = (method == CompressionMethod::Deflated).then_some(1);
    // No clock: the same shelf makes the same file. Its time is in the manifest.
    SimpleFileOptions::default()
        .compression_method(method)
        .compression_level(level)
        .last_modified_time(zip::DateTime::default())
        .large_file(true)
}

impl<W: Write> Writer<W> {
    /// Begins.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] where the file cannot be written.
    pub fn new(out: W) -> Result<Self, ExchangeError> {
        Self::with(out, Packing::Deflated, Bounds::SHELF)
    }

    /// Begins, with another packing or other bounds.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] where the file cannot be written.
    pub fn with(out: W, packing: Packing, bounds: Bounds) -> Result<Self, ExchangeError> {
        let mut zip = ZipWriter::new_stream(Counted { out, bytes: 0 });
        zip.start_file("READ-ME.txt", options(CompressionMethod::Stored))?;
        zip.write_all(READ_ME.as_bytes())?;
        let method = match packing {
            Packing::Deflated => CompressionMethod::Deflated,
            Packing::Stored => CompressionMethod::Stored,
        };
        zip.start_file("records.jsonl", options(method))?;
        Ok(Self {
            zip,
            bounds,
            packing,
            lines: 0,
            unpacked: READ_ME.len() as u64,
            sum: Sha256::new(),
            waiting: Vec::with_capacity(2 * PIECE),
            records: 0,
            photos: 0,
        })
    }

    /// Writes one record's line, which ends with a line feed.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] where the file cannot be written; [`ExchangeError::TooMuch`].
    pub fn record(&mut self, line: &str) -> Result<(), ExchangeError> {
        self.records += 1;
        self.lines += line.len() as u64;
        within("bytes of records", self.lines, self.bounds.records)?;
        self.add(line.len())?;
        self.waiting.extend_from_slice(line.as_bytes());
        if self.waiting.len() >= PIECE {
            self.write_waiting()?;
        }
        Ok(())
    }

    fn write_waiting(&mut self) -> Result<(), ExchangeError> {
        self.sum.update(&self.waiting);
        self.zip.write_all(&self.waiting)?;
        self.waiting.clear();
        Ok(())
    }

    /// Writes one photo as it is.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] where the file cannot be written; [`ExchangeError::TooMuch`].
    pub fn photo(&mut self, kind: Kind, id: Uuid, bytes: &[u8]) -> Result<(), ExchangeError> {
        self.write_waiting()?;
        let ending = if bytes.starts_with(b"\x89PNG") { "png" } else { "jpg" };
        self.zip.start_file(
            format!("photos/{}-{id}.{ending}", kind.word()),
            options(CompressionMethod::Stored),
        )?;
        self.zip.write_all(bytes)?;
        self.photos += 1;
        self.add(bytes.len())?;
        within("photos", self.photos, self.bounds.parts as u64 - OTHER_PARTS)
    }

    fn add(&mut self, bytes: usize) -> Result<(), ExchangeError> {
        self.unpacked += bytes as u64;
        within("bytes unpacked", self.unpacked, self.bounds.all - self.bounds.manifest)
    }

    /// Ends the file with its manifest.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] where the file cannot be written; [`ExchangeError::PackedTooTightly`].
    pub fn finish(
        mut self,
        from: Sender,
        holds: Holds,
        file: Uuid,
        made_ms: i64,
    ) -> Result<(W, Manifest), ExchangeError> {
        self.write_waiting()?;
        let manifest = Manifest {
            curbcore_shelf: FORMAT_VERSION,
            made_ms,
            from,
            holds,
            file,
            records: self.records,
            photos: self.photos,
            records_sha256: hex(&self.sum.finalize()),
        };
        let text = serde_json::to_string_pretty(&manifest).map_err(|e| ExchangeError::Manifest(e.to_string()))?;
        self.zip
            .start_file("manifest.json", options(CompressionMethod::Stored))?;
        self.zip.write_all(text.as_bytes())?;
        let counted = self.zip.finish()?.into_inner();
        let unpacked = self.unpacked + text.len() as u64;
        if self.packing == Packing::Deflated && unpacked > self.bounds.unpacked_from(counted.bytes) {
            return Err(ExchangeError::PackedTooTightly);
        }
        Ok((counted.out, manifest))
    }
}
