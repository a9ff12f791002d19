//! A shelf file that only a passphrase opens: the whole file, encrypted in the age format
//! (age-encryption.org/v1, with scrypt).

use std::fs::File;
use std::io::{BufReader, Read, Seek, Write};
use std::path::Path;

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

/// What a shelf file is read from.
pub trait Source: Read + Seek + Send {}
impl<R: Read + Seek + Send> Source for R {}

/// How every sealed file begins.
const SEAL: &[u8] = b"age-encryption.org/v1";
/// The most work that a file may ask for to try a passphrase, as a power of two: half a minute on
/// a slow phone.
const MOST_WORK: u8 = 20;

/// Seals what is written to `out`; `finish` of the writer that it gives ends the file.
///
/// # Errors
/// [`ExchangeError::NotWhole`] with what the disk says.
pub fn seal<W: Write>(out: W, passphrase: &Passphrase) -> Result<StreamWriter<W>, ExchangeError> {
    Ok(Encryptor::with_user_passphrase(passphrase.0.clone()).wrap_output(out)?)
}

/// Opens a shelf file, sealed or not.
///
/// # Errors
/// [`ExchangeError::Sealed`] for a sealed file where the passphrase is missing or wrong; else as
/// [`Reader::new`].
pub fn open(path: &Path, passphrase: Option<&Passphrase>) -> Result<Reader<Box<dyn Source>>, ExchangeError> {
    let disk = |source| ExchangeError::Disk {
        path: path.display().to_string(),
        source,
    };
    let mut file = BufReader::with_capacity(1 << 18, File::open(path).map_err(disk)?);
    let mut begins = Vec::new();
    (&mut file)
        .take(SEAL.len() as u64)
        .read_to_end(&mut begins)
        .map_err(disk)?;
    file.rewind().map_err(disk)?;
    if begins != SEAL {
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
        Err(other) => Err(ExchangeError::NotWhole(other.to_string())),
    }
}
