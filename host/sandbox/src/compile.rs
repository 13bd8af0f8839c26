//! Handing a component to the compiler, and giving up on it where it takes too long.

use super::compile_cost::refuse_too_costly;
use super::deep_stack::STACK;
use super::engine::engine;
use super::fault::PackFaultKind;
use std::borrow::Cow;
use std::sync::Arc;
use std::sync::mpsc::{RecvTimeoutError, channel};
use std::time::Duration;
use wasmtime::component::Component;

/// The longest that one pack may be compiled for; an interpreter takes some ten seconds, and is kept compiled.
const LONGEST: Duration = Duration::from_secs(120);

/// A component from its bytes.
pub(super) fn compile(bytes: &Arc<Cow<'static, [u8]>>) -> Result<Component, PackFaultKind> {
    refuse_too_costly(bytes)?;
    within(bytes, LONGEST)
}

/// Compiles on a thread of its own, which is left behind if it is not done in time: it ends with the program.
fn within(bytes: &Arc<Cow<'static, [u8]>>, longest: Duration) -> Result<Component, PackFaultKind> {
    let engine = engine().map_err(PackFaultKind::DoesNotCompile)?;
    let (done, wait) = channel();
    let bytes = Arc::clone(bytes);
    let work = move || {
        // a deadline that has passed is nobody's fault here
        let _ = done.send(Component::from_binary(engine, &bytes));
    };
    let thread = std::thread::Builder::new().name("compiler".to_owned()).stack_size(STACK).spawn(work);
    let thread = thread.map_err(|e| PackFaultKind::DoesNotCompile(format!("no thread could be started: {e}")))?;
    match wait.recv_timeout(longest) {
        Ok(component) => {
            component.map_err(|e| PackFaultKind::DoesNotCompile(super::clean::clip(&e.root_cause().to_string(), 300)))
        }
        Err(RecvTimeoutError::Timeout) => Err(PackFaultKind::SlowToCompile(longest.as_secs())),
        // it went without a word to send: the compiler panicked
        Err(RecvTimeoutError::Disconnected) => {
            let words = thread.join().err().map_or_else(String::new, |panic| super::deep_stack::said(&*panic));
            Err(PackFaultKind::DoesNotCompile(super::clean::clip(&words, 300)))
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::super::builtin;
    use super::*;

    #[test]
    fn a_compilation_that_takes_too_long_is_given_up() {
        let bytes = Arc::new(Cow::Borrowed(builtin::BUILT[0].1));
        let fault = within(&bytes, Duration::from_millis(1)).err().unwrap();
        assert_eq!(fault, PackFaultKind::SlowToCompile(0));
        assert!(compile(&bytes).is_ok());
    }
}
