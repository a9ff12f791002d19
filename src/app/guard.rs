//! The boundary at which a fault of the program itself is caught, so that one job never takes the rest
//! of the shelf with it.

use std::panic::{AssertUnwindSafe, catch_unwind};

/// A computation that ended in a panic.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{0}")]
pub struct Fault(String);

/// Runs a pure computation and catches its panic.
///
/// Evaluation is total by its tests; this is for what they missed. A page in a browser is built without
/// unwinding and stops; there the start that comes after goes to the shelf.
///
/// # Errors
/// [`Fault`] with the panic's message.
pub fn guarded<T>(compute: impl FnOnce() -> T) -> Result<T, Fault> {
    // Nothing is shared with the computation, so nothing can be left half done.
    catch_unwind(AssertUnwindSafe(compute)).map_err(|payload| {
        let message = payload
            .downcast_ref::<String>()
            .cloned()
            .or_else(|| payload.downcast_ref::<&str>().map(|text| (*text).to_owned()))
            .unwrap_or_default();
        tracing::error!("a computation ended in a panic: {message}");
        Fault(message)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_becomes_a_fault_with_its_message() {
        assert_eq!(guarded(|| 2 + 2), Ok(4));
        let fault = guarded(|| -> u32 { panic!("no area: {}", 7) });
        assert_eq!(fault.map_err(|fault| fault.to_string()), Err("no area: 7".to_owned()));
    }
}
