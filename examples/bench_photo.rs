//! Writes the photo that `benches/photo.rs` decodes to the given path, for the same steps in another
//! program: `cargo run --example bench_photo -- photo.jpg`.

#![allow(clippy::unwrap_used)]

#[path = "../tests/reference/photo/bench_photo.rs"]
mod bench_photo;

fn main() -> std::io::Result<()> {
    let path = std::env::args().nth(1).unwrap_or_else(|| "photo.jpg".to_owned());
    std::fs::write(path, bench_photo::jpeg())
}
