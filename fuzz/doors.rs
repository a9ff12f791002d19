//! The doors through which bytes from elsewhere come in. Nothing may make them fall, and what they
//! let in says the same when it is written and read again. Used by the fuzz targets, and by the
//! tests that go through the corpus again.
#![allow(dead_code, reason = "each fuzz target uses one door")]

use std::io::Cursor;

use curbcore::exchange::{ExchangeError, Reader};
use curbcore::job::JobFile;
use curbcore::merge::{Line, accept};
use curbcore::photo::Photo;
use curbcore::quantity::{LengthUnit, parse_length, parse_number};

/// A shelf file.
pub fn shelf_file(bytes: &[u8]) {
    let Ok(mut reader) = Reader::new(Cursor::new(bytes)) else {
        return;
    };
    let _: Result<(), ExchangeError> = reader.records(|mut line, _| Ok(accept(&mut line).map(|_| ())?));
    let _: Result<(), ExchangeError> = reader.photos(|_, _, _| Ok(()));
}

/// A line of one.
pub fn record(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(mut line) = Line::parse(text) else { return };
    assert_eq!(Line::parse(&line.to_json()).as_ref(), Ok(&line));
    let mut merged = line.known.clone();
    assert!(!merged.take_in(&line.known), "a merge with itself changed it");
    if accept(&mut line).is_ok() {
        assert_eq!(Line::parse(&line.to_json()).as_ref(), Ok(&line));
    }
}

/// A job file.
pub fn job_file(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    let Ok(file) = JobFile::parse(text) else { return };
    let again = JobFile::parse(&file.to_json());
    assert_eq!(again.as_ref().ok(), Some(&file));
}

/// A photo's head; a picture that is large when unpacked has no place here.
pub fn image_header(bytes: &[u8]) {
    if bytes.len() <= 1 << 16 {
        let _ = Photo::decode(bytes);
    }
}

/// A number with its unit, as a person types it.
pub fn number(bytes: &[u8]) {
    let Ok(text) = std::str::from_utf8(bytes) else { return };
    if let Ok(number) = parse_number(text) {
        assert!(number.is_finite());
    }
    for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
        if let Ok(length) = parse_length(text, unit) {
            assert!(length.mm().is_finite());
        }
    }
}
