//! Tests of the photo room: its geometry and its pixels.

mod by_hand;
mod conic;
mod edges;
pub mod film;
mod find;
pub mod ground;
mod homography;
mod lens;
mod measure;
mod numbers;
mod picture;
mod pose;
mod position;
mod quality;
mod references;
pub mod scene;
mod scenes;
mod snap;
mod speed;
mod spread;
mod suggest;
mod things;
