//! Work on two threads beside this one, or in a row where a browser has but one for the page.

/// Does three things and gives what they return; none for one of the first two that failed.
#[cfg(not(target_family = "wasm"))]
pub fn side_by_side<A: Send, B: Send, C>(
    first: impl FnOnce() -> A + Send,
    second: impl FnOnce() -> B + Send,
    here: impl FnOnce() -> C,
) -> (Option<A>, Option<B>, C) {
    std::thread::scope(|scope| {
        let (first, second) = (scope.spawn(first), scope.spawn(second));
        let here = here();
        (first.join().ok(), second.join().ok(), here)
    })
}

/// Does three things in a row and gives what they return.
#[cfg(target_family = "wasm")]
pub fn side_by_side<A, B, C>(
    first: impl FnOnce() -> A,
    second: impl FnOnce() -> B,
    here: impl FnOnce() -> C,
) -> (Option<A>, Option<B>, C) {
    (Some(first()), Some(second()), here())
}
