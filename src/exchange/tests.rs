//! Files that are cut off, altered, hostile.
