//! A phone's photo of 12 megapixels, from the file to the reference found.
//!
//! Targets: no slower than the same steps in OpenCV on one core, side by side
//! (`tests/reference/photo/timing.sh`, with the figures of a run); within three times the decoding
//! alone; peak memory under six times the decoded grey picture.
//!
//! A frame of the live view: at most 20 ms, so that a phone four times slower shows ten in a second. The mean
//! counts, as one frame of ten is searched and the others are followed.
//!
//! The core's face: at most 2 s, as a person waits for it once.

#![allow(clippy::unwrap_used)]

#[path = "../tests/reference/photo/bench_photo.rs"]
mod bench_photo;

use curbcore::app::photo::OpenedPhoto;
use curbcore::job::{PhotoReference, Reading};
use curbcore::photo::find::find_reference;
use curbcore::photo::live::{LiveView, frame_of_rgba};
use curbcore::photo::{Gray, Photo, Reference};
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

/// The core's face in a small photo, found by itself, with the scale of a coin beside it.
#[divan::bench(sample_count = 5, sample_size = 1)]
fn find_core(bencher: divan::Bencher) {
    let bytes = std::fs::read("tests/reference/photo/core.jpg").unwrap();
    let photo = OpenedPhoto::new(&bytes).unwrap();
    let coin = PhotoReference::Coin {
        coin: "eur-5c".to_owned(),
    };
    let mut marks = photo.empty_marks(coin);
    marks.height_mm = Reading::new(52.376, 1.0, Origin::Calipers);
    marks.found = Some(photo.find(&marks.reference).unwrap().found);
    bencher.bench_local(|| photo.find_core(&marks, &|| false).unwrap());
}

/// The search of a whole frame, as where nothing is known from the frame before.
#[divan::bench(args = ["good", "closer", "nothing"], sample_count = 20, sample_size = 1)]
fn searched_frame(bencher: divan::Bencher, name: &str) {
    let small = small_frame(name);
    let photo = Photo::from_gray(small).unwrap();
    bencher.bench_local(|| find_reference(&photo, &Reference::Card));
}

/// Half of a kept photo's size: a frame.
fn small_frame(name: &str) -> Gray {
    let bytes = std::fs::read(format!("tests/reference/photo/live/{name}.jpg")).unwrap();
    Photo::decode(&bytes).unwrap().full().shrunk(2)
}

/// One frame of the live view, 640 × 480: grey from the canvas's colours, the card searched, the ± foreseen.
#[divan::bench(args = ["good", "closer", "nothing"], sample_count = 50, sample_size = 1)]
fn live_frame(bencher: divan::Bencher, name: &str) {
    let small = small_frame(name);
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
