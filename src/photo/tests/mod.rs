//! Tests of the photo room on computed points and drawn pixels. Rendered photos and values from
//! outside are in `tests/reference/photo*`.

mod by_hand;
mod combined;
mod conic;
mod core_parts;
mod edges;
mod find;
mod homography;
mod lens;
mod measure;
mod numbers;
mod object_cues;
mod picture;
mod pose;
mod position;
mod quality;
mod references;
mod spread;
mod truth;
