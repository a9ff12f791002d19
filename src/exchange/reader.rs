//! Reading a shelf file as a stream. It may come from anybody: its size is bounded before
//! anything is read, no name in it becomes a path, and what it says of itself is checked.

use std::io::{BufRead, BufReader, Read, Seek};

use sha2::{Digest, Sha256};
use uuid::Uuid;
use zip::{CompressionMethod, ZipArchive};

use super::bounds::{Bounds, Metered, check_end, too_large};
use super::error::ExchangeError;
use super::manifest::Manifest;
use crate::merge::{Kind, RecordLine, hex};

/// The most bytes that the list of parts may have, with the heads of all parts: 800 for each.
const MOST_LISTED: u64 = 16 << 20;

/// An open shelf file.
#[derive(Debug)]
pub struct Reader<R: Read + Seek> {
    zip: ZipArchive<Metered<R>>,
    manifest: Manifest,
    bounds: Bounds,
    unpacked: u64,
}

impl<R: Read + Seek> Reader<R> {
    /// Opens a shelf file from bytes.
    ///
    /// # Errors
    /// [`ExchangeError`]: see its variants.
    pub fn new(bytes: R) -> Result<Self, ExchangeError> {
        Self::within(bytes, Bounds::SHELF)
    }

    /// Opens a shelf file from bytes, within other bounds.
    ///
    /// # Errors
    /// [`ExchangeError`]: see its variants.
    pub fn within(mut bytes: R, bounds: Bounds) -> Result<Self, ExchangeError> {
        let length = check_end(&mut bytes, &bounds)?;
        let (bytes, meter) = Metered::new(bytes, MOST_LISTED);
        let listed = Self::listed(bytes, &bounds, length);
        if meter.is_used_up() {
            return Err(too_large("the list of its parts", "16 MiB"));
        }
        let (mut zip, photos, unpacked) = listed?;
        meter.open();
        let mut text = String::new();
        zip.by_name("manifest.json")?
            .take(bounds.manifest)
            .read_to_string(&mut text)?;
        let manifest = Manifest::parse(&text)?;
        if photos != manifest.photos {
            return Err(ExchangeError::Altered(format!(
                "it has {photos} photos instead of {}",
                manifest.photos
            )));
        }
        Ok(Self {
            zip,
            manifest,
            bounds,
            unpacked,
        })
    }

    /// Judges every part by what the list of parts says of it; gives the number of photos, and the sum
    /// of all parts in bytes.
    fn listed(
        bytes: Metered<R>,
        bounds: &Bounds,
        length: u64,
    ) -> Result<(ZipArchive<Metered<R>>, u64, u64), ExchangeError> {
        let mut zip = ZipArchive::new(bytes)?;
        if zip.len() > bounds.parts {
            return Err(too_large("the number of its parts", &bounds.parts.to_string()));
        }
        if zip.has_duplicate_names() {
            return Err(ExchangeError::Twice);
        }
        let most_here = bounds.all.min(bounds.unpacked_from(length));
        let (mut photos, mut unpacked) = (0, 0_u64);
        for at in 0..zip.len() {
            let part = zip.by_index_raw(at)?;
            let name = part.name()?.into_owned();
            let most = match name.as_str() {
                "manifest.json" | "READ-ME.txt" => bounds.manifest,
                "records.jsonl" => bounds.records,
                _ if photo_of(&name).is_some() => {
                    photos += 1;
                    bounds.photo
                }
                _ => return Err(ExchangeError::Stranger(name.chars().take(100).collect())),
            };
            if part.size() > most {
                return Err(too_large(&name, &format!("{} MiB", most >> 20)));
            }
            unpacked += part.size();
            if unpacked > most_here {
                return Err(too_large(
                    "what it unpacks to, for a file of this size",
                    &format!("{} MiB", most_here >> 20),
                ));
            }
            let plain = matches!(
                part.compression(),
                CompressionMethod::Stored | CompressionMethod::Deflated
            );
            if !plain || part.encrypted() {
                return Err(ExchangeError::NotWhole(format!(
                    "{name} is packed in a way that no shelf file is"
                )));
            }
        }
        Ok((zip, photos, unpacked))
    }

    /// How many bytes all parts have, unpacked.
    #[must_use]
    pub const fn unpacked(&self) -> u64 {
        self.unpacked
    }

    /// What the file says of itself.
    #[must_use]
    pub fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    /// Hands over every record, in order; then checks that they were all, and unaltered. What was
    /// done with them is to be kept only if this succeeds.
    ///
    /// # Errors
    /// What `each` returns; [`ExchangeError`].
    pub fn records<E: From<ExchangeError>>(
        &mut self,
        mut each: impl FnMut(RecordLine) -> Result<(), E>,
    ) -> Result<(), E> {
        let most_line = self.bounds.line;
        let part = self.zip.by_name("records.jsonl").map_err(ExchangeError::from)?;
        // A part may hold more than the list says: no more than that is unpacked.
        let said = part.size();
        let mut lines = BufReader::with_capacity(1 << 16, part.take(said));
        let (mut sum, mut count, mut bytes) = (Sha256::new(), 0_u64, Vec::new());
        loop {
            bytes.clear();
            let read = (&mut lines)
                .take(most_line)
                .read_until(b'\n', &mut bytes)
                .map_err(ExchangeError::from)?;
            if read == 0 {
                break;
            }
            count += 1;
            if bytes.pop() != Some(b'\n') {
                return Err(if read as u64 == most_line {
                    too_large(&format!("line {count} of records.jsonl"), "1 MiB").into()
                } else {
                    ExchangeError::NotWhole(format!("line {count} of records.jsonl has no end")).into()
                });
            }
            sum.update(&bytes);
            sum.update(b"\n");
            let text = std::str::from_utf8(&bytes)
                .map_err(|_| ExchangeError::NotWhole(format!("line {count} of records.jsonl is no text")))?;
            let line = RecordLine::parse(text).map_err(|reason| ExchangeError::Line { line: count, reason })?;
            each(line)?;
        }
        if count != self.manifest.records {
            let said = self.manifest.records;
            return Err(ExchangeError::Altered(format!("it has {count} lines instead of {said}")).into());
        }
        if hex(&sum.finalize()) != self.manifest.records_sha256 {
            return Err(ExchangeError::Altered("its SHA-256 is another".to_owned()).into());
        }
        Ok(())
    }

    /// Hands over every photo, one at a time.
    ///
    /// # Errors
    /// What `each` returns; [`ExchangeError`].
    pub fn photos<E: From<ExchangeError>>(
        &mut self,
        mut each: impl FnMut(Kind, Uuid, &[u8]) -> Result<(), E>,
    ) -> Result<(), E> {
        let mut bytes = Vec::new();
        for at in 0..self.zip.len() {
            let part = self.zip.by_index(at).map_err(ExchangeError::from)?;
            let Some((kind, id)) = photo_of(&part.name().map_err(ExchangeError::from)?) else {
                continue;
            };
            bytes.clear();
            let said = part.size();
            part.take(said).read_to_end(&mut bytes).map_err(ExchangeError::from)?;
            each(kind, id, &bytes)?;
        }
        Ok(())
    }
}

/// The record that a photo's name means.
fn photo_of(name: &str) -> Option<(Kind, Uuid)> {
    let name = name.strip_prefix("photos/")?;
    let stem = name.strip_suffix(".jpg").or_else(|| name.strip_suffix(".png"))?;
    let (kind, id) = stem.split_once('-')?;
    let kind = Kind::from_word(kind).filter(|kind| kind.has_picture())?;
    (id.len() == 36).then(|| id.parse().ok().map(|id| (kind, id))).flatten()
}
