//! A thread with a stack that is big enough for the compiler and for a pack.

use std::cell::Cell;

/// Stack for the compiler and for packs, in bytes. `max_wasm_stack` only says where a pack is stopped; it reserves
/// nothing, so the thread below it must have that much and more.
pub(super) const STACK: usize = 16 * 1024 * 1024;

thread_local! {
    static DEEP: Cell<bool> = const { Cell::new(false) };
}

/// Runs this on a thread with a big stack: the one it is called on, where that is one already, so that a whole run
/// can be wrapped once and its calls cost no thread each.
///
/// # Errors
/// What went wrong, if the thread could not be started or the work panicked (a compiler that went wrong).
pub fn on_deep_stack<T: Send>(work: impl FnOnce() -> T + Send) -> Result<T, String> {
    if DEEP.get() {
        // a panic of the compiler must not take the caller's thread with it here either
        return std::panic::catch_unwind(std::panic::AssertUnwindSafe(work)).map_err(|p| said(&*p));
    }
    std::thread::scope(|scope| {
        let thread = std::thread::Builder::new().name("packs".to_owned()).stack_size(STACK).spawn_scoped(scope, || {
            DEEP.set(true);
            work()
        });
        match thread {
            Ok(thread) => thread.join().map_err(|p| said(&*p)),
            Err(error) => Err(format!("no thread could be started: {error}")),
        }
    })
}

pub(super) fn said(panic: &(dyn std::any::Any + Send)) -> String {
    let text = panic.downcast_ref::<String>().map(String::as_str).or_else(|| panic.downcast_ref::<&str>().copied());
    text.unwrap_or("it panicked without a word").to_owned()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    #[test]
    fn nested_work_stays_on_the_thread_it_is_on() {
        let (outer, inner) = on_deep_stack(|| {
            let outer = std::thread::current().id();
            (outer, on_deep_stack(|| std::thread::current().id()).unwrap())
        })
        .unwrap();
        assert_eq!(outer, inner);
        assert_ne!(outer, std::thread::current().id());
    }

    #[test]
    fn a_panic_comes_back_as_its_words() {
        let words = on_deep_stack(|| on_deep_stack(|| -> u32 { panic!("register {}", 7) })).unwrap();
        assert_eq!(words, Err("register 7".to_owned()));
    }
}
