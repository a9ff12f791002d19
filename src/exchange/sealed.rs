//! A shelf file that only a passphrase opens: the whole file, encrypted in the age format
//! (age-encryption.org/v1, with scrypt).

use std::fs::File;
use std::io::{BufRead, BufReader, Cursor, Read, Seek, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use age::secrecy::SecretString;
use age::stream::StreamWriter;
use age::{DecryptError, Decryptor, Encryptor, scrypt};

use super::error::ExchangeError;
use super::reader::Reader;

/// A passphrase; it is not printed, and wiped from memory after use.
#[derive(Debug, Clone)]
pub struct Passphrase(SecretString);

impl Passphrase {
    /// A passphrase from what was typed; none where nothing was.
    #[must_use]
    pub fn typed(text: &str) -> Option<Self> {
        (!text.is_empty()).then(|| Passphrase(SecretString::from(text.to_owned())))
    }
}

/// A shelf file that came in: where it lies, or its bytes where the person's files have no path (a
/// browser's page, a phone).
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Incoming {
    /// A file of this machine.
    At(PathBuf),
    /// What was handed over.
    Bytes(Arc<[u8]>),
}

impl<P: AsRef<Path> + ?Sized> From<&P> for Incoming {
    fn from(path: &P) -> Self {
        Self::At(path.as_ref().to_owned())
    }
}

/// What a shelf file is read from.
pub trait Source: Read + Seek + Send {}
impl<R: Read + Seek + Send> Source for R {}

/// How every sealed file begins.
const SEAL: &[u8] = b"age-encryption.org/v1";
/// The work that a sealed file takes, as a power of two: 128 MiB, and two seconds on a slow phone.
const WORK: u8 = 17;
/// The most work that a file may ask for to try a passphrase: 256 MiB.
const MOST_WORK: u8 = 18;

/// Seals what is written to `out`; `finish` of the writer that it gives ends the file.
///
/// # Errors
/// [`ExchangeError::Stopped`] where the file cannot be written.
pub fn seal<W: Write>(out: W, passphrase: &Passphrase) -> Result<StreamWriter<W>, ExchangeError> {
    let mut recipient = scrypt::Recipient::new(passphrase.0.clone());
    recipient.set_work_factor(WORK);
    let encryptor = Encryptor::with_recipients(std::iter::once(&recipient as &dyn age::Recipient))
        .map_err(|_| ExchangeError::NotWhole("it cannot be sealed".to_owned()))?;
    Ok(encryptor.wrap_output(out)?)
}

/// Opens a shelf file, sealed or not.
///
/// # Errors
/// [`ExchangeError::Sealed`] for a sealed file where the passphrase is missing or wrong; else as
/// [`Reader::new`].
pub fn open(
    from: impl Into<Incoming>,
    passphrase: Option<&Passphrase>,
) -> Result<Reader<Box<dyn Source>>, ExchangeError> {
    match from.into() {
        Incoming::At(path) => {
            let disk = |source| ExchangeError::Disk {
                path: path.display().to_string(),
                source,
            };
            // A device has no end, and a pipe blocks until somebody writes.
            if !std::fs::metadata(&path).map_err(disk)?.is_file() {
                return Err(ExchangeError::NotAShelf {
                    seems: "but a folder or a device",
                });
            }
            let mut file = BufReader::with_capacity(1 << 18, File::open(&path).map_err(disk)?);
            let begins = beginning(&mut file).map_err(disk)?;
            open_source(file, &begins, passphrase)
        }
        Incoming::Bytes(bytes) => {
            let mut bytes = Cursor::new(bytes);
            let begins = beginning(&mut bytes)?;
            open_source(bytes, &begins, passphrase)
        }
    }
}

/// The bytes that tell whether a file is sealed; the file is at its start again.
fn beginning(file: &mut (impl BufRead + Seek)) -> std::io::Result<Vec<u8>> {
    let mut begins = Vec::new();
    file.take(SEAL.len() as u64).read_to_end(&mut begins)?;
    file.rewind()?;
    Ok(begins)
}

fn open_source(
    file: impl BufRead + Seek + Send + 'static,
    begins: &[u8],
    passphrase: Option<&Passphrase>,
) -> Result<Reader<Box<dyn Source>>, ExchangeError> {
    if begins != SEAL {
        if let Some(seems) = other_kind(begins) {
            return Err(ExchangeError::NotAShelf { seems });
        }
        return Reader::new(Box::new(file));
    }
    let passphrase = passphrase.ok_or(ExchangeError::Sealed { tried: false })?;
    let mut identity = scrypt::Identity::new(passphrase.0.clone());
    identity.set_max_work_factor(MOST_WORK);
    let opened = Decryptor::new_buffered(file)
        .and_then(|decryptor| decryptor.decrypt(std::iter::once(&identity as &dyn age::Identity)));
    match opened {
        Ok(plain) => Reader::new(Box::new(BufReader::with_capacity(1 << 18, plain))),
        Err(DecryptError::Io(error)) => Err(error.into()),
        Err(DecryptError::DecryptionFailed | DecryptError::KeyDecryptionFailed | DecryptError::NoMatchingKeys) => {
            Err(ExchangeError::Sealed { tried: true })
        }
        Err(DecryptError::ExcessiveWork { required, .. }) => Err(ExchangeError::TooMuchWork {
            found: required,
            most: MOST_WORK,
        }),
        Err(_) => Err(ExchangeError::NotWhole("its seal cannot be read".to_owned())),
    }
}

/// What a file seems to be that is no zip file, by its first bytes.
fn other_kind(begins: &[u8]) -> Option<&'static str> {
    let starts = |with: &[u8]| begins.starts_with(with);
    let text = begins.trim_ascii_start();
    if starts(b"PK") {
        None
    } else if begins.is_empty() {
        Some("it is empty")
    } else if starts(&[0xFF, 0xD8, 0xFF]) || starts(b"\x89PNG") || begins.get(4..8) == Some(b"ftyp") {
        Some("but a photo or a film")
    } else if starts(b"%PDF") {
        Some("but a PDF document")
    } else if text.starts_with(b"{") || text.starts_with(b"[") {
        Some("but a JSON file, such as a job file")
    } else if text.starts_with(b"<") {
        Some("but a page or a drawing")
    } else {
        Some("but a file of another kind, or it is damaged at its start")
    }
}
