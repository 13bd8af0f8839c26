//! The one place with unsafe code: machine code from the cache becomes a component.
#![allow(unsafe_code)]

use wasmtime::Engine;
use wasmtime::component::Component;

/// A component from what `Component::serialize` gave in an earlier run of this program.
pub(super) fn component(engine: &Engine, compiled: &[u8]) -> Option<Component> {
    // SAFETY: `Component::deserialize` runs what it is given, so the bytes must be those that wasmtime wrote. The
    // caller read them from a folder that only the user of this process can write, and has compared their digest;
    // who can change both can change this program as well. wasmtime itself compares its version and settings.
    unsafe { Component::deserialize(engine, compiled) }.ok()
}
