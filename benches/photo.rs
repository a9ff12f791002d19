//! A phone's photo of 12 megapixels, from the file to the reference found.
//!
//! Targets: no slower than the same steps in OpenCV on one core, side by side
//! (`tests/reference/photo/timing.sh`, with the figures of a run); within three times the decoding
//! alone; peak memory under six times the decoded grey picture.

#![allow(clippy::unwrap_used)]

#[path = "../tests/reference/photo/bench_photo.rs"]
mod bench_photo;

use curbcore::photo::find::find_reference;
use curbcore::photo::{Photo, Reference};
use curbcore::quantity::{Length, Measured, Origin};

/// Counts allocations.
#[global_allocator]
static MEMORY: divan::AllocProfiler = divan::AllocProfiler::system();

fn reference() -> Reference {
    let exact = |mm| Measured::exact(Length::from_mm(mm), Origin::Calipers);
    Reference::Rectangle {
        width: exact(60.0),
        height: exact(40.0),
    }
}

fn main() {
    divan::main();
}

/// Decoding alone: the file's bytes to grey pixels, upright, and the reduced picture.
#[divan::bench(sample_count = 9, sample_size = 1)]
fn decode(bencher: divan::Bencher) {
    let bytes = bench_photo::jpeg();
    bencher.bench_local(|| Photo::decode(&bytes).unwrap());
}

/// Decoding, and the search for the rectangle.
#[divan::bench(sample_count = 9, sample_size = 1)]
fn decode_and_find(bencher: divan::Bencher) {
    let bytes = bench_photo::jpeg();
    bencher.bench_local(|| find_reference(&Photo::decode(&bytes).unwrap(), &reference()).unwrap());
}
