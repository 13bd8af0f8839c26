//! The contract rules-1.0: wasmtime's typed bindings of schemas/rules-1.0.wit, and the adapter to the host's own types.
//!
//! A released contract is frozen, since types are compared by structure; the next one is a module beside this.

use super::answer::Raw;
use super::clean::clip;
use super::engine::{Cost, DeniedTooOften, MOST_DENIED, Run, RunLimits, engine, store};
use super::fault::PackFaultKind;
use wasmtime::component::{Component, Linker};
use wasmtime::{Store, Trap};

#[allow(missing_docs, unreachable_pub, clippy::all, clippy::pedantic, clippy::restriction)]
mod wit {
    wasmtime::component::bindgen!({ path: "../../schemas/rules-1.0.wit", world: "rule-pack" });
}
use wit::exports::thou::rules::pack as border;

thou_contract::border_records!(border);

/// A pack of this contract, compiled and its types compared, cheap to instantiate.
#[derive(Clone)]
pub(crate) struct Prepared(wit::RulePackPre<Run>);

impl Prepared {
    /// Compares the component's types with the contract's.
    pub(crate) fn new(component: &Component) -> Result<Self, PackFaultKind> {
        let misfit = |e: wasmtime::Error| PackFaultKind::OtherTypes(clip(&format!("{e:#}"), 300));
        // nothing is ever linked: a pack is given nothing
        let pre = Linker::new(component.engine()).instantiate_pre(component).map_err(misfit)?;
        wit::RulePackPre::new(pre).map(Self).map_err(misfit)
    }

    /// Asks once for the manifest. For building a pack; a built one carries it.
    pub(crate) fn describe(&self, limits: &RunLimits) -> Result<String, PackFaultKind> {
        self.run(limits, |pack, store| pack.thou_rules_pack().call_describe(store)).map(|(manifest, _)| manifest)
    }

    /// Asks these rules of a fresh instance.
    pub(crate) fn assess(
        &self,
        ask: &[u32],
        starts: &[u32],
        values: &[f64],
        limits: &RunLimits,
    ) -> Result<(Raw, Cost), PackFaultKind> {
        let facts = border::Facts { starts: starts.to_vec(), values: values.to_vec() };
        let (answer, cost) = self.run(limits, |pack, store| pack.thou_rules_pack().call_assess(store, ask, &facts))?;
        answer.map(|answer| (answer.into(), cost)).map_err(|text| PackFaultKind::Refused(clip(&text, 400)))
    }

    fn run<T>(
        &self,
        limits: &RunLimits,
        call: impl FnOnce(&wit::RulePack, &mut Store<Run>) -> wasmtime::Result<T>,
    ) -> Result<(T, Cost), PackFaultKind> {
        let mut store = engine()
            .map_err(wasmtime::Error::msg)
            .and_then(|e| store(e, limits))
            .map_err(|e| stopped(&e, None, limits))?;
        let pack = self.0.instantiate(&mut store).map_err(|e| stopped(&e, Some(store.data()), limits))?;
        let given = call(&pack, &mut store).map_err(|e| match e.downcast_ref::<Trap>() {
            // what is no trap of the code went wrong in reading what it handed back
            None | Some(Trap::InvalidDiscriminant | Trap::ListOutOfBounds | Trap::StringOutOfBounds) => {
                match stopped(&e, Some(store.data()), limits) {
                    PackFaultKind::Trapped(what) => PackFaultKind::Nonsense(format!("it cannot be read: {what}")),
                    other => other,
                }
            }
            Some(_) => stopped(&e, Some(store.data()), limits),
        })?;
        let fuel = limits.fuel.saturating_sub(store.get_fuel().unwrap_or(0));
        Ok((given, Cost { fuel, memory: store.data().memory(), items: 0 }))
    }
}

/// In words of the trade's user what wasmtime says in its own.
fn stopped(error: &wasmtime::Error, run: Option<&Run>, limits: &RunLimits) -> PackFaultKind {
    match error.downcast_ref::<Trap>() {
        Some(Trap::OutOfFuel) => return PackFaultKind::OutOfFuel(limits.fuel),
        Some(Trap::Interrupt) => return PackFaultKind::TimedOut(limits.seconds),
        _ => {}
    }
    if error.is::<DeniedTooOften>() {
        return PackFaultKind::AskedOn(MOST_DENIED);
    }
    // wasmtime's own type for this is private; a test holds its words
    if error.chain().any(|cause| cause.to_string().contains("fuel allocated for hostcalls")) {
        return PackFaultKind::TooMuchReturned(format!("{} MB", limits.returned / (1024 * 1024)));
    }
    if let Some(words) = run.and_then(Run::last_words) {
        return PackFaultKind::Trapped(words);
    }
    if run.is_some_and(Run::denied) {
        return PackFaultKind::OutOfMemory(limits.memory);
    }
    PackFaultKind::Trapped(match error.downcast_ref::<Trap>() {
        Some(Trap::UnreachableCodeReached) => "it hit an `unreachable`, which is what a panic looks like".to_owned(),
        Some(Trap::StackOverflow) => "its stack is used up, which is what endless recursion looks like".to_owned(),
        Some(trap) => trap.to_string().trim_start_matches("wasm trap: ").to_owned(),
        None => clip(&error.root_cause().to_string(), 300),
    })
}
