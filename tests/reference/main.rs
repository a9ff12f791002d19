//! The formulas against numbers made outside this project: one file for each topic, its data and
//! the script that made them in the folder of the same name. One program, so that it links once.
#![allow(clippy::unwrap_used)] // What fails here is to stop the test.

mod heat;
mod idle;
mod inductor;
mod inrush;
mod leakage;
mod pairs;
mod photo;
mod photo_find;
mod photo_real;
mod photo_scenes;
mod rectifier;
mod steel;
