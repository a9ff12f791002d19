//! Writing a shelf file as a stream.

use std::io::Write;

use sha2::{Digest, Sha256};
use uuid::Uuid;
use zip::CompressionMethod;
use zip::write::{SimpleFileOptions, StreamWriter, ZipWriter};

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

/// Writes a shelf file: all records, then all photos, then [`Writer::finish`].
#[derive(Debug)]
pub struct Writer<W: Write> {
    zip: ZipWriter<StreamWriter<W>>,
    sum: Sha256,
    /// Lines wait here: the packer works better on large pieces.
    waiting: Vec<u8>,
    records: u64,
    photos: u64,
}

const PIECE: usize = 1 << 16;

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
    /// [`ExchangeError::Stopped`] with what the disk says.
    pub fn new(out: W) -> Result<Self, ExchangeError> {
        let mut zip = ZipWriter::new_stream(out);
        zip.start_file("READ-ME.txt", options(CompressionMethod::Stored))?;
        zip.write_all(READ_ME.as_bytes())?;
        zip.start_file("records.jsonl", options(CompressionMethod::Deflated))?;
        Ok(Self {
            zip,
            sum: Sha256::new(),
            waiting: Vec::with_capacity(2 * PIECE),
            records: 0,
            photos: 0,
        })
    }

    /// Writes one record's line, which ends with a line feed.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] with what the disk says.
    pub fn record(&mut self, line: &str) -> Result<(), ExchangeError> {
        self.records += 1;
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
    /// [`ExchangeError::Stopped`] with what the disk says.
    pub fn photo(&mut self, kind: Kind, id: Uuid, bytes: &[u8]) -> Result<(), ExchangeError> {
        self.write_waiting()?;
        let ending = if bytes.starts_with(b"\x89PNG") { "png" } else { "jpg" };
        self.zip.start_file(
            format!("photos/{}-{id}.{ending}", kind.word()),
            options(CompressionMethod::Stored),
        )?;
        self.zip.write_all(bytes)?;
        self.photos += 1;
        Ok(())
    }

    /// Ends the file with its manifest.
    ///
    /// # Errors
    /// [`ExchangeError::Stopped`] with what the disk says.
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
        Ok((self.zip.finish()?.into_inner(), manifest))
    }
}
