//! Tests of the photo room: its geometry and its pixels.

mod homography;
mod numbers;
mod pose;
mod references;
mod scenes;
mod spread;
mod conic;
mod lens;
mod measure;
mod by_hand;
mod film;
mod find;
mod ground;
mod picture;
mod quality;
mod scene;
mod snap;
mod speed;
mod suggest;
