//! The second core of a job: which one, and the job as it is of that core.

use crate::job::{Goal, IdleTest, JobFile, Joining, PairChoice};
use crate::magnetics::pairs::Joined;

/// How the windings of a recorded pair are joined.
#[must_use]
pub const fn joined(word: Joining) -> Joined {
    match word {
        Joining::Series => Joined::Series,
        Joining::Parallel => Joined::Parallel,
    }
}

/// The pair that a job's use is wound on; a choke and a ballast are wound on one core.
#[must_use]
pub fn pair_of(file: &JobFile) -> Option<&PairChoice> {
    let one_core = matches!(file.goal, Goal::Choke { .. } | Goal::Ballast { .. });
    file.conditions.pair.as_ref().filter(|_| !one_core)
}

/// The job as it would be with the second core in the first one's place.
#[must_use]
pub fn of_second_core(file: &JobFile) -> Option<JobFile> {
    let pair = pair_of(file)?;
    let mut other = file.clone();
    other.core = (*pair.core).clone();
    // Idle tests are of the first core.
    other.conditions.idle_low = IdleTest::default();
    other.conditions.idle_middle = IdleTest::default();
    other.conditions.idle_full = IdleTest::default();
    Some(other)
}
