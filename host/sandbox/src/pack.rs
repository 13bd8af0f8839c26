//! A loaded pack: its words at once, its code when it is first asked.

use super::answer::{CheckedAnswer, Raw};
use super::cache;
use super::check::checked;
use super::compile::compile;
use super::component::{ComponentFace, look};
use super::contract_1_0::Prepared;
use super::deep_stack::on_deep_stack;
use super::engine::{Cost, RunLimits, engine};
use super::fault::{PackFault, PackFaultKind};
use super::manifest;
use sha2::{Digest, Sha256};
use std::borrow::Cow;
use std::sync::{Arc, OnceLock};
use thou_contract::Manifest;
use thou_text::hex;
pub use thou_verdict::Given;
use thou_verdict::{LostAnswer, RulePack};

/// A rule pack. Cheap to clone; nothing of it is compiled before it is first asked.
#[derive(Clone)]
pub struct LoadedPack {
    /// Its words and needs, checked and cleaned.
    pub manifest: Manifest,
    /// SHA-256 of the component, in hex.
    pub digest: String,
    /// SHA-256 of its file, in hex: of a house table another than its component's.
    pub file_digest: String,
    /// The public key that its file was signed with, where a lock asked for that.
    pub key: Option<String>,
    /// Where it came from: a path, or `built in`.
    pub origin: String,
    code: Arc<Code>,
}

/// The origin of a pack that every thou has.
pub const BUILT_IN: &str = "built in";

struct Code {
    bytes: Arc<Cow<'static, [u8]>>,
    prepared: OnceLock<Result<Prepared, PackFaultKind>>,
    stand_in: Option<Box<StandIn>>,
}

/// What answers in place of a component: it is given the rules that are asked.
type StandIn = dyn Fn(&[u32]) -> Raw + Send + Sync;

/// A pack without code, whose answers are held to its manifest and judged like any other's.
#[must_use]
pub fn stand_in(manifest: Manifest, answer: impl Fn(&[u32]) -> Raw + Send + Sync + 'static) -> LoadedPack {
    let code =
        Code { bytes: Arc::new(Cow::Borrowed(&[])), prepared: OnceLock::new(), stand_in: Some(Box::new(answer)) };
    LoadedPack {
        manifest,
        digest: String::new(),
        file_digest: String::new(),
        key: None,
        origin: "stand-in".to_owned(),
        code: Arc::new(code),
    }
}

impl LoadedPack {
    /// A pack from the bytes of a component; `origin` is where they came from.
    ///
    /// # Errors
    /// When it is no component, wants imports, or its manifest cannot be used.
    pub fn load(bytes: impl Into<Cow<'static, [u8]>>, origin: &str) -> Result<Self, PackFault> {
        let bytes = bytes.into();
        let fault = |pack: Option<String>, fault: PackFaultKind| PackFault {
            pack: pack.unwrap_or_else(|| origin.to_owned()),
            origin: origin.to_owned(),
            fault,
        };
        let outside = look(&bytes).map_err(|f| fault(None, f))?;
        let name = outside.manifest.and_then(manifest::name);
        let manifest = fits(&outside).map_err(|f| fault(name, f))?;
        Ok(Self::new(manifest, bytes, origin))
    }

    /// A pack whose manifest was checked when it was built into this program.
    pub(crate) fn trusted(bytes: &'static [u8], origin: &str) -> Option<Self> {
        let manifest = serde_json::from_slice(look(bytes).ok()?.manifest?).ok()?;
        Some(Self::new(manifest, Cow::Borrowed(bytes), origin))
    }

    fn new(manifest: Manifest, bytes: Cow<'static, [u8]>, origin: &str) -> Self {
        let digest = hex(&Sha256::digest(&bytes));
        let code = Arc::new(Code { bytes: Arc::new(bytes), prepared: OnceLock::new(), stand_in: None });
        Self { manifest, file_digest: digest.clone(), digest, key: None, origin: origin.to_owned(), code }
    }

    /// Asks these rules (indices of the manifest's `rules`, rising) of a fresh instance.
    ///
    /// # Errors
    /// When the pack cannot be compiled, was stopped, or answered what makes no sense: all its answers are lost, and
    /// nobody else's.
    pub fn assess(&self, ask: &[u32], given: &Given<'_>) -> Result<CheckedAnswer, PackFault> {
        self.assess_within(ask, given, &RunLimits::default())
    }

    /// The same within other limits than every command uses.
    ///
    /// # Errors
    /// As [`Self::assess`].
    pub fn assess_within(
        &self,
        ask: &[u32],
        given: &Given<'_>,
        limits: &RunLimits,
    ) -> Result<CheckedAnswer, PackFault> {
        self.assess_counted(ask, given, limits).map(|(answer, _)| answer)
    }

    /// The same, with what the answer did cost.
    ///
    /// # Errors
    /// As [`Self::assess`].
    pub fn assess_counted(
        &self,
        ask: &[u32],
        given: &Given<'_>,
        limits: &RunLimits,
    ) -> Result<(CheckedAnswer, Cost), PackFault> {
        if ask.is_empty() {
            return Ok((CheckedAnswer::default(), Cost::default()));
        }
        let (starts, values) = (given.starts, given.values);
        let raw = match &self.code.stand_in {
            Some(answer) => Ok(Ok((answer(ask), Cost::default()))),
            None => on_deep_stack(|| self.prepared()?.assess(ask, starts, values, limits)),
        };
        raw.unwrap_or_else(|words| Err(PackFaultKind::DoesNotCompile(super::clean::clip(&words, 300))))
            .and_then(|(raw, cost)| checked(raw, &self.manifest, ask, given, limits).map(|answer| (answer, cost)))
            .map(|(answer, cost)| {
                let items = answer.windows.len() + answer.findings.len() + answer.services.len() + answer.steps.len();
                (answer, Cost { items, ..cost })
            })
            .map_err(|fault| self.fault(fault))
    }

    /// The languages it was written in, as far as its tools have noted them.
    #[must_use]
    pub fn languages(&self) -> std::collections::BTreeSet<String> {
        super::producers::languages(&self.code.bytes)
    }

    /// The bytes of its component.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.code.bytes
    }

    /// Compiles it now, or takes it from the cache, so that a later [`Self::assess`] does not have to.
    ///
    /// # Errors
    /// When it cannot be compiled or its types are not the contract's.
    pub fn prepare(&self) -> Result<(), PackFault> {
        on_deep_stack(|| self.prepared().map(|_| ()))
            .unwrap_or_else(|words| Err(PackFaultKind::DoesNotCompile(super::clean::clip(&words, 300))))
            .map_err(|fault| self.fault(fault))
    }

    fn prepared(&self) -> Result<&Prepared, PackFaultKind> {
        self.code.prepared.get_or_init(|| prepare(&self.code.bytes, &self.digest)).as_ref().map_err(Clone::clone)
    }

    fn fault(&self, fault: PackFaultKind) -> PackFault {
        PackFault { pack: self.manifest.id.clone(), origin: self.origin.clone(), fault }
    }
}

impl RulePack for LoadedPack {
    fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    fn built_in(&self) -> bool {
        self.origin == BUILT_IN
    }

    fn answer(&self, ask: &[u32], given: &Given<'_>) -> Result<CheckedAnswer, LostAnswer> {
        Ok(self.assess(ask, given)?)
    }
}

impl From<PackFault> for LostAnswer {
    fn from(fault: PackFault) -> Self {
        let words = fault.to_string();
        Self { pack: fault.pack, origin: fault.origin, words }
    }
}

impl std::fmt::Debug for LoadedPack {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("LoadedPack")
            .field("id", &self.manifest.id)
            .field("digest", &self.digest)
            .finish_non_exhaustive()
    }
}

/// Holds what stands on a component's outside to the contract. The contract's version comes first: of a pack from
/// another time, nothing else can be judged.
fn fits(outside: &ComponentFace<'_>) -> Result<Manifest, PackFaultKind> {
    if let Some(manifest) = outside.manifest {
        manifest::version(manifest)?;
    }
    if outside.imports.count > 0 {
        return Err(PackFaultKind::WantsImports(outside.imports.clone()));
    }
    let manifest = manifest::read(outside.manifest.ok_or(PackFaultKind::NoManifest)?)?;
    // 1.0.1 and so on are the same contract with other words
    let exported = |name: &String| name.strip_prefix("thou:rules/pack@1.0.").is_some_and(|p| p.parse::<u32>().is_ok());
    if !outside.exports.iter().any(exported) {
        return Err(PackFaultKind::NoExport(outside.exports.clone()));
    }
    Ok(manifest)
}

fn prepare(bytes: &Arc<Cow<'static, [u8]>>, digest: &str) -> Result<Prepared, PackFaultKind> {
    let engine = engine().map_err(PackFaultKind::DoesNotCompile)?;
    if let Some(component) = cache::load(engine, digest, bytes) {
        return Prepared::new(&component);
    }
    let component = compile(bytes)?;
    let prepared = Prepared::new(&component)?;
    cache::save(engine, digest, bytes, &component);
    Ok(prepared)
}

/// Asks a component for its manifest; for `build`, before there is one.
pub(crate) fn describe(bytes: &[u8]) -> Result<String, PackFaultKind> {
    let work = || {
        let component = compile(&Arc::new(Cow::Owned(bytes.to_vec())))?;
        Prepared::new(&component)?.describe(&RunLimits::default())
    };
    on_deep_stack(work).unwrap_or_else(|words| Err(PackFaultKind::DoesNotCompile(words)))
}
