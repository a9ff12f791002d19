//! The front door.

fn main() {}
