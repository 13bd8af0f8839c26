//! The one wasmtime engine of the process, and the limits of a run.

use std::sync::OnceLock;
use std::time::Duration;
use wasmtime::{Config, Engine, OptLevel, ResourceLimiter, Store};

/// What one answer of a pack may cost. The default is what every command uses.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RunLimits {
    /// Instructions, near enough: reproducible on every machine, and what stops a loop.
    pub fuel: u64,
    /// Seconds by the clock: the backstop, should something ever take long without costing fuel.
    pub seconds: u64,
    /// Bytes of all its memories and tables together.
    pub memory: u64,
    /// Bytes that the host takes back.
    pub returned: usize,
    /// Windows, findings, services and steps together, a window counted at every place that it is judged at.
    pub items: usize,
}

impl RunLimits {
    /// What every command uses.
    pub const DEFAULT: Self = Self {
        // an answer of 40 compiled rules takes 50,000; of an interpreter in a component, some ten million
        fuel: 500_000_000,
        // the fuel is gone within a second or two even on a busy machine, so that the clock never decides
        seconds: 30,
        memory: MEMORY,
        returned: 4 * 1024 * 1024,
        // every rule of the house together gives some seven hundred on an eight
        items: 5_000,
    };
}

impl Default for RunLimits {
    fn default() -> Self {
        Self::DEFAULT
    }
}

/// What an answer of a pack did cost.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Cost {
    /// Instructions, near enough; see [`RunLimits::fuel`].
    pub fuel: u64,
    /// Bytes of all its memories and tables together, as they were at the end.
    pub memory: u64,
    /// Windows, findings, services and steps together.
    pub items: usize,
}

/// Bytes of a pack's memories and tables together.
const MEMORY: u64 = 128 * 1024 * 1024;
/// How often the clock is looked at.
const TICK: Duration = Duration::from_millis(50);
/// A pack's own stack, in bytes, well under that of the thread it runs on.
const PACK_STACK: usize = 512 * 1024;
/// Core instances, tables and memories in a component: an interpreter's needs a dozen of each.
const HANDLES: usize = 64;

/// The engine, made at first use.
pub(crate) fn engine() -> Result<&'static Engine, String> {
    static ENGINE: OnceLock<Result<Engine, String>> = OnceLock::new();
    ENGINE.get_or_init(|| start().map_err(|e| format!("{e:#}"))).as_ref().map_err(Clone::clone)
}

fn start() -> wasmtime::Result<Engine> {
    let engine = Engine::new(&config())?;
    let weak = engine.weak();
    std::thread::Builder::new().name("pack clock".to_owned()).stack_size(64 * 1024).spawn(move || {
        while let Some(engine) = weak.upgrade() {
            engine.increment_epoch();
            drop(engine);
            std::thread::sleep(TICK);
        }
    })?;
    Ok(engine)
}

fn config() -> Config {
    let mut config = Config::new();
    config
        .consume_fuel(true)
        .epoch_interruption(true)
        .max_wasm_stack(PACK_STACK)
        // the same sheet gives the same bytes on every machine
        .cranelift_nan_canonicalization(true)
        .wasm_relaxed_simd(false)
        .relaxed_simd_deterministic(true)
        // what no pack needs; threads, collection and exceptions are not even compiled into this wasmtime
        .wasm_memory64(false)
        .wasm_multi_memory(false)
        .wasm_tail_call(false)
        .wasm_custom_page_sizes(false)
        .wasm_wide_arithmetic(false)
        .shared_memory(false)
        .concurrency_support(false)
        .cranelift_opt_level(OptLevel::Speed)
        // all that a pack may have, so that its memory never moves. Measured for a fresh store and 40 rules: 76 us
        // against 80 with the 4 GB that leave bounds checks to the guard alone, and 55 without guard pages, which are
        // worth the difference
        .memory_reservation(MEMORY)
        .memory_reservation_for_growth(0)
        .memory_guard_size(64 * 1024)
        // a trap is told in words of ours, so no frames are collected
        .wasm_backtrace_max_frames(None)
        .generate_address_map(false);
    config
}

/// What a store remembers of the run in it.
#[derive(Debug)]
pub(crate) struct Run {
    limits: RunLimits,
    /// Bytes given to all memories and tables.
    given: usize,
    /// How often it was denied some.
    denied: u32,
    /// What a panicking pack said, see [`SPEAKS`].
    last_words: Vec<u8>,
    /// How many bytes it said, those that nobody listened to among them.
    said: usize,
}

/// It asked for memory too often after it was told no; what the run in it ends with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error("denied too often")]
pub(crate) struct DeniedTooOften;

/// A component without imports has one way to say why it panics: it asks for memory that it cannot get, this many
/// pages and one more for each unit of the byte it means, once a byte. The kit's panic hook does.
const SPEAKS: usize = 0x9a00;
const PAGE: usize = 65_536;
/// More last words than this are not listened to, in bytes.
const MOST_WORDS: usize = 400;
/// How often a pack may ask for memory that it does not get: an allocator asks once or twice, and last words are 400.
pub(crate) const MOST_DENIED: usize = 1_000;

impl Run {
    /// What it said before it ended itself, if it said anything.
    pub(crate) fn last_words(&self) -> Option<String> {
        let text = super::clean::clean(&String::from_utf8_lossy(&self.last_words));
        (!text.trim().is_empty()).then(|| text.trim().to_owned())
    }

    /// Whether it was ever denied memory.
    pub(crate) fn denied(&self) -> bool {
        self.denied > 0
    }

    /// Bytes of all its memories and tables.
    pub(crate) fn memory(&self) -> u64 {
        u64::try_from(self.given).unwrap_or(u64::MAX)
    }

    fn allow(&mut self, more: usize) -> wasmtime::Result<bool> {
        let most = usize::try_from(self.limits.memory).unwrap_or(usize::MAX);
        match self.given.checked_add(more).filter(|sum| *sum <= most) {
            Some(sum) => {
                self.given = sum;
                Ok(true)
            }
            None => {
                self.denied += 1;
                self.still_listened_to()?;
                Ok(false)
            }
        }
    }

    /// To be told no costs a pack one instruction and the host far more: without an end to it, only the clock would stop
    /// a loop that asks again.
    fn still_listened_to(&self) -> Result<(), DeniedTooOften> {
        let asked = usize::try_from(self.denied).unwrap_or(usize::MAX).saturating_add(self.said);
        if asked > MOST_DENIED { Err(DeniedTooOften) } else { Ok(()) }
    }
}

impl ResourceLimiter for Run {
    fn memory_growing(&mut self, current: usize, desired: usize, _most: Option<usize>) -> wasmtime::Result<bool> {
        let more = desired.saturating_sub(current);
        if let Some(byte) = (more / PAGE).checked_sub(SPEAKS).and_then(|b| u8::try_from(b).ok()) {
            if self.last_words.len() < MOST_WORDS {
                self.last_words.push(byte);
            }
            self.said += 1;
            self.still_listened_to()?;
            return Ok(false);
        }
        self.allow(more)
    }

    fn table_growing(&mut self, current: usize, desired: usize, _most: Option<usize>) -> wasmtime::Result<bool> {
        self.allow(desired.saturating_sub(current).saturating_mul(size_of::<usize>()))
    }

    fn instances(&self) -> usize {
        HANDLES
    }

    fn tables(&self) -> usize {
        HANDLES
    }

    fn memories(&self) -> usize {
        HANDLES
    }
}

/// A fresh store with these limits: a pack must not remember the last build, and what one trapped in is not used again.
pub(crate) fn store(engine: &Engine, limits: &RunLimits) -> wasmtime::Result<Store<Run>> {
    let run = Run { limits: *limits, given: 0, denied: 0, last_words: Vec::new(), said: 0 };
    let mut store = Store::try_new(engine, run)?;
    store.limiter(|run| run);
    store.set_fuel(limits.fuel)?;
    store.set_hostcall_fuel(limits.returned);
    let ticks = u64::try_from(Duration::from_secs(limits.seconds).as_millis() / TICK.as_millis()).unwrap_or(u64::MAX);
    // one more, since the first tick may come at once
    store.set_epoch_deadline(ticks.saturating_add(1));
    Ok(store)
}
