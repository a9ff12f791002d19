//! Reading a shelf file as a stream. It may come from anybody: its size is bounded before
//! anything is read, no name in it becomes a path, and what it says of itself is checked.

use std::io::{BufRead, BufReader, Read, Seek};

use sha2::{Digest, Sha256};
use uuid::Uuid;
use zip::{CompressionMethod, ZipArchive};

use super::error::ExchangeError;
use super::manifest::Manifest;
use crate::merge::{Kind, LARGEST_PICTURE, Line, hex};

/// The most parts: two and the photos.
const MOST_PARTS: usize = 200_000;
const MOST_MANIFEST: u64 = 1 << 20;
/// The most that all records may have, unpacked.
const MOST_RECORDS: u64 = 8 << 30;
/// How often a packed byte may stand for unpacked ones: ten times what real shelves have.
const MOST_RATIO: u64 = 400;
/// The longest line.
const MOST_LINE: u64 = 1 << 20;
const MOST_PHOTO: u64 = LARGEST_PICTURE as u64;

/// An open shelf file.
#[derive(Debug)]
pub struct Reader<R: Read + Seek> {
    zip: ZipArchive<R>,
    manifest: Manifest,
}

impl<R: Read + Seek> Reader<R> {
    /// Opens a shelf file from bytes.
    ///
    /// # Errors
    /// [`ExchangeError`]: see its variants.
    pub fn new(bytes: R) -> Result<Self, ExchangeError> {
        let mut zip = ZipArchive::new(bytes)?;
        if zip.len() > MOST_PARTS {
            return Err(too_large("the number of its parts", &MOST_PARTS.to_string()));
        }
        if zip.has_duplicate_names() {
            return Err(ExchangeError::Twice);
        }
        let mut photos = 0;
        for at in 0..zip.len() {
            let part = zip.by_index_raw(at)?;
            let name = part.name()?.into_owned();
            let most = match name.as_str() {
                "manifest.json" | "READ-ME.txt" => MOST_MANIFEST,
                "records.jsonl" => MOST_RECORDS,
                _ if photo_of(&name).is_some() => {
                    photos += 1;
                    MOST_PHOTO
                }
                _ => return Err(ExchangeError::Stranger(name.chars().take(100).collect())),
            };
            let packed = part.compressed_size();
            if part.size() > most || part.size() / MOST_RATIO > packed.max(1) {
                return Err(too_large(
                    &name,
                    &format!("{} MiB, and {MOST_RATIO} times its packed size", most >> 20),
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
        let mut text = String::new();
        zip.by_name("manifest.json")?
            .take(MOST_MANIFEST)
            .read_to_string(&mut text)?;
        let manifest = Manifest::parse(&text)?;
        if photos != manifest.photos {
            return Err(ExchangeError::Altered(format!(
                "it has {photos} photos instead of {}",
                manifest.photos
            )));
        }
        Ok(Self { zip, manifest })
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
        mut each: impl FnMut(Line, &str) -> Result<(), E>,
    ) -> Result<(), E> {
        let part = self.zip.by_name("records.jsonl").map_err(ExchangeError::from)?;
        let mut lines = BufReader::with_capacity(1 << 16, part.take(MOST_RECORDS));
        let (mut sum, mut count, mut bytes) = (Sha256::new(), 0_u64, Vec::new());
        loop {
            bytes.clear();
            let read = (&mut lines)
                .take(MOST_LINE)
                .read_until(b'\n', &mut bytes)
                .map_err(ExchangeError::from)?;
            if read == 0 {
                break;
            }
            count += 1;
            if bytes.pop() != Some(b'\n') {
                return Err(if read as u64 == MOST_LINE {
                    too_large(&format!("line {count} of records.jsonl"), "1 MiB").into()
                } else {
                    ExchangeError::NotWhole(format!("line {count} of records.jsonl has no end")).into()
                });
            }
            sum.update(&bytes);
            sum.update(b"\n");
            let text = std::str::from_utf8(&bytes)
                .map_err(|_| ExchangeError::NotWhole(format!("line {count} of records.jsonl is no text")))?;
            let line = Line::parse(text).map_err(|reason| ExchangeError::Line { line: count, reason })?;
            each(line, text)?;
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
            part.take(MOST_PHOTO + 1)
                .read_to_end(&mut bytes)
                .map_err(ExchangeError::from)?;
            each(kind, id, &bytes)?;
        }
        Ok(())
    }
}

fn too_large(what: &str, most: &str) -> ExchangeError {
    ExchangeError::TooLarge {
        what: what.to_owned(),
        most: most.to_owned(),
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
