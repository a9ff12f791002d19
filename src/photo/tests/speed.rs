//! How long a phone's photo takes, and how much of it is the decoding: run by hand with
//! `PHOTO=file.jpg cargo test --release photo::tests::speed -- --ignored --nocapture`.

use std::time::Instant;

use crate::photo::Found;
use crate::photo::find::find_reference;
use crate::photo::picture::Photo;
use crate::photo::reference::Reference;
use crate::photo::target::Sheet;
use crate::quantity::{Length, Measured, Origin};

#[test]
#[ignore = "needs a photo"]
fn phone_photo() {
    let path = std::env::var("PHOTO").unwrap();
    let bytes = std::fs::read(&path).unwrap();
    let best = |work: &mut dyn FnMut()| {
        let time = |_| {
            let start = Instant::now();
            work();
            start.elapsed().as_secs_f64()
        };
        (0..5).map(time).fold(f64::INFINITY, f64::min)
    };
    let mut photo = None;
    let decode = best(&mut || photo = Some(Photo::decode(&bytes).unwrap()));
    let photo = photo.unwrap();
    println!(
        "{path}: {} × {}, decode {:.0} ms",
        photo.full().width(),
        photo.full().height(),
        1e3 * decode
    );
    let disc = Reference::Disc {
        diameter: Measured::exact(Length::from_mm(60.0), Origin::Calipers),
    };
    for reference in [Reference::Card, disc, Reference::target(Sheet::A4)] {
        let mut found = None;
        let time = best(&mut || found = Some(find_reference(&photo, &reference)));
        let ratio = (decode + time) / decode;
        let what = match found.unwrap().map(|candidate| (candidate.found, candidate.trust)) {
            Ok((ReferenceOutline::Lattice(corners), trust)) => format!("{} corners {trust:?}", corners.len()),
            other => format!("{other:?}"),
        };
        println!("  {:.0} ms, {ratio:.2} of the decoding: {what}", 1e3 * time);
    }
}
