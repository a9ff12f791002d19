//! A phone's photo of 12 megapixels, from the file to the reference found.
//!
//! Targets: no slower than the same steps in OpenCV on one core, side by side
//! (`tests/reference/photo/timing.sh`, with the figures of a run); within three times the decoding
//! alone; peak memory under six times the decoded grey picture.
//!
//! A frame of the live view: at most 25 ms, so that a phone four times slower shows ten in a second.

#![allow(clippy::unwrap_used)]

#[path = "../tests/reference/photo/bench_photo.rs"]
mod bench_photo;

use curbcore::photo::find::find_reference;
use curbcore::photo::live::{LiveView, frame_of_rgba};
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

/// One frame of the live view, 640 × 480: grey from the canvas's colours, the card searched, the ± foreseen.
#[divan::bench(args = ["good", "closer", "nothing"], sample_count = 50, sample_size = 1)]
fn live_frame(bencher: divan::Bencher, name: &str) {
    let bytes = std::fs::read(format!("tests/reference/photo/live/{name}.jpg")).unwrap();
    let small = Photo::decode(&bytes).unwrap().full().shrunk(2);
    let rgba: Vec<u8> = small
        .pixels()
        .iter()
        .flat_map(|&value| [value, value, value, 255])
        .collect();
    let mut view = LiveView::new(Reference::Card);
    bencher.bench_local(|| {
        let frame = frame_of_rgba(small.width(), small.height(), &rgba).unwrap();
        view.next(&frame, 2.0)
    });
}
