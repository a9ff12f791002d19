//! New ids and random numbers.

use std::sync::Mutex;

use sha2::{Digest, Sha256};
use uuid::timestamp::context::ContextV7;
use uuid::{Timestamp, Uuid};

/// Keeps the ids of one millisecond in the order in which they were made.
static CONTEXT: Mutex<ContextV7> = Mutex::new(ContextV7::new());

/// A new id: UUID version 7, so that later ones sort later. A clock that is set before 1970 counts as
/// 1970.
pub(super) fn new_id(now_ms: i64) -> Uuid {
    let now_ms = u64::try_from(now_ms).unwrap_or(0);
    // Below a thousand million nanoseconds, so it fits.
    let nanoseconds = (now_ms % 1_000) as u32 * 1_000_000;
    Uuid::new_v7(Timestamp::from_unix(&CONTEXT, now_ms / 1_000, nanoseconds))
}

/// A random number, from the random parts of ids.
pub(super) fn random() -> u64 {
    let mut digest = Sha256::new();
    for _ in 0..4 {
        digest.update(new_id(0).as_bytes());
    }
    let mut bytes = [0; 8];
    bytes.copy_from_slice(&digest.finalize()[..8]);
    u64::from_be_bytes(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_clock_before_1970_makes_ids_too() {
        let ids: Vec<Uuid> = [i64::MIN, -1, 0, 1].map(new_id).to_vec();
        assert!(ids.iter().all(|id| id.get_version_num() == 7));
        assert!(ids.is_sorted_by(|a, b| a < b));
        assert_ne!(random(), random());
    }
}
