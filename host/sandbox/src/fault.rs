//! What can be wrong with a pack: what happened, what its user can do, and what its author can do.

use super::imports::{Imports, hints};
use super::signature::SignFault;
use thou_contract::CONTRACT;

/// A pack that could not be loaded or whose answer was lost. Every other pack's answer stands.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{}", self.page())]
pub struct PackFault {
    /// The pack's name, or its file's while the name is not known.
    pub pack: String,
    /// Where it was loaded from.
    pub origin: String,
    /// What happened.
    pub fault: PackFaultKind,
}

/// Columns of a page.
const WIDTH: usize = 80;

impl PackFault {
    /// What happened, what its user can do and what its author can do, each folded to the width of a page.
    fn page(&self) -> String {
        if let PackFaultKind::BadTable(page) = &self.fault {
            return format!("table {} cannot be used:\n\n{}\n{}", self.pack, page, self.fault.user());
        }
        // a line that a message breaks off by itself keeps its own indent
        let fold = |text: &str, first: &str| {
            let lines = text.lines().enumerate().map(|(at, line)| {
                let (own, words) = line.split_at(line.len() - line.trim_start().len());
                let options = textwrap::Options::new(WIDTH)
                    .initial_indent(if at == 0 { first } else { own })
                    .subsequent_indent("    ")
                    .break_words(false)
                    .word_splitter(textwrap::WordSplitter::NoHyphenation);
                textwrap::fill(words, options)
            });
            lines.collect::<Vec<_>>().join("\n")
        };
        let parts = [
            fold(&format!("pack {}: {}", self.pack, self.fault), ""),
            fold(&self.fault.user(), "  "),
            fold(&format!("For its author: {}", self.fault.author()), "  "),
        ];
        parts.join("\n")
    }
}

/// What happened to a pack.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum PackFaultKind {
    /// The file cannot be read.
    #[error("it cannot be read: {0}")]
    Unreadable(String),
    /// Bigger than is ever handed to the compiler.
    #[error("it is {} MB, and more than {} MB is not compiled", mb(*.bytes), mb(*.limit))]
    TooBig {
        /** its size */
        bytes: u64,
        /** the limit */
        limit: u64,
    },
    /// Something else than a component.
    #[error("it is not a WebAssembly component but {0}")]
    NotAComponent(&'static str),
    /// A component that does not hold together.
    #[error("it is damaged: {0}")]
    Damaged(String),
    /// No manifest in it.
    #[error("it has no manifest (no custom section `thou-manifest`)")]
    NoManifest,
    /// A manifest that cannot be used.
    #[error("its manifest cannot be used: {}", .0.join("; "))]
    BadManifest(Vec<String>),
    /// Written against a contract from before this host's.
    #[error("it was written for the contract {0}, and this thou speaks {CONTRACT}")]
    OlderContract(String),
    /// Written against a contract that this host does not know yet.
    #[error("it was written for the contract {0}, and this thou speaks {CONTRACT} at the most")]
    NewerContract(String),
    /// A house table that cannot be translated; the page that says where and why.
    #[error("{0}")]
    BadTable(String),
    /// It asks for something from outside.
    #[error("it wants {} from outside, and a pack is given nothing: {}", things(.0.count), some(.0))]
    WantsImports(Imports),
    /// The contract is not among its exports.
    #[error("it does not export thou:rules/pack@1.0.0{}", exports(.0))]
    NoExport(Vec<String>),
    /// The contract is exported with other types.
    #[error("what it exports as thou:rules/pack@1.0.0 has other types than the contract: {0}")]
    OtherTypes(String),
    /// The compiler gave up on it.
    #[error("it cannot be compiled: {0}")]
    DoesNotCompile(String),
    /// A function that no hand and no compiler writes: compiling it could take all the memory there is.
    #[error("it is not compiled: {0}")]
    TooHeavy(String),
    /// The compiler was still at it.
    #[error("its compilation was given up after {0} seconds, the longest that it may take")]
    SlowToCompile(u64),
    /// It ended itself.
    #[error("it stopped in the middle: {0}")]
    Trapped(String),
    /// It computed for too long, counted in instructions.
    #[error("it was stopped after {} million instructions, the most that one answer may take", .0 / 1_000_000)]
    OutOfFuel(u64),
    /// It computed for too long, by the clock.
    #[error("it was stopped after {0} seconds, the longest that one answer may take")]
    TimedOut(u64),
    /// It wanted more memory than it is given.
    #[error("it wanted more than {} MB of memory, the most that a pack is given", mb(*.0))]
    OutOfMemory(u64),
    /// It was told that there is no more memory, and asked again and again.
    #[error("it was stopped after it had asked for memory {0} times that it is not given")]
    AskedOn(usize),
    /// It handed back more than is taken.
    #[error("it handed back more than {0}, the most that is taken in one answer")]
    TooMuchReturned(String),
    /// It said no in its own words.
    #[error("it gave no answer and said: \"{0}\"")]
    Refused(String),
    /// Its answer makes no sense.
    #[error("its answer makes no sense: {0}")]
    Nonsense(String),
    /// Another file than the one that was locked.
    #[error("it is not the file that packs.lock has\n  locked sha256 {locked}\n  found  sha256 {found}")]
    NotAsLocked {
        /** the lock's digest */
        locked: String,
        /** the file's digest */
        found: String,
    },
    /// It counts, and nobody has locked it.
    #[error("the file packs lists it, and packs.lock does not")]
    NotLocked(String),
    /// It counts, and nobody has locked anything here.
    #[error("the file packs lists it, and nobody has looked at it: there is no packs.lock")]
    NeverLocked(String),
    /// The lock has it, and the lock is somebody else's word.
    #[error("packs.lock has it, and nobody has looked at it here: the lock came with the folder")]
    LockedByOthers(String),
    /// It lies outside the folder of the sheet.
    #[error("the file packs lists it, and it lies outside the sheet's folder")]
    Elsewhere(String),
    /// An older version than the one that was locked, or one of which no order can be told.
    #[error("it is version {found}, {}", step_back(locked, found))]
    Older {
        /** the lock's version */
        locked: String,
        /** the file's version */
        found: String,
    },
    /// It was locked, and does not count any more.
    #[error("packs.lock has it, and the file packs does not list it")]
    NotListed,
    /// The lock names a key, and no signature of it holds.
    #[error("packs.lock wants it signed\n  {0}")]
    NotAsSigned(SignFault),
    /// The lock cannot be read.
    #[error("the lock cannot be read: {0}")]
    LockUnreadable(String),
    /// The lock is damaged.
    #[error("the lock is damaged at line {line}, column {column}\n  {words}")]
    LockDamaged {
        /** counted from 1 */
        line: usize,
        /** counted from 1 */
        column: usize,
        /** what is wrong there */
        words: String,
    },
    /// The lock has a file twice.
    #[error("the lock has {0} twice")]
    LockTwice(String),
    /// The lock was written by a newer thou.
    #[error("the lock is of kind {0}, and this thou knows kind 1")]
    LockNewer(u64),
}

impl PackFaultKind {
    /// What the pack's user can do.
    #[must_use]
    pub fn user(&self) -> String {
        let text = match self {
            Self::Unreadable(_) => "Check the path and whether the file may be read.",
            Self::TooBig { .. } => "Take a smaller build of the pack; rules are kilobytes, an interpreter is 20 MB.",
            Self::NotAComponent(_) => "Give the .wasm file that `thou pack build` wrote; this one is something else.",
            Self::Damaged(_) => "Fetch the file again: it was cut short or changed on its way.",
            Self::NoManifest => "Give the .wasm file that `thou pack build` wrote.",
            Self::OlderContract(_) => "Ask for a build of the pack for this version, or run without it.",
            Self::NewerContract(_) => "Get a newer thou, or an older build of the pack.",
            Self::BadManifest(_) | Self::WantsImports(_) | Self::NoExport(_) | Self::OtherTypes(_) => {
                "Nothing in your sheet is wrong: run without the pack until its author has mended it."
            }
            Self::BadTable(_) => "Nothing of this table was judged. Mend what is named above, or run without it.",
            Self::DoesNotCompile(_) | Self::TooHeavy(_) => "Run without the pack until its author has mended it.",
            Self::SlowToCompile(_) => {
                "None of its rules is judged in this report; the other packs' results stand. Run without it, or again \
                 when the machine has less to do."
            }
            Self::NotAsLocked { .. } => {
                "None of its rules is judged. Put the locked file back; or, if the change is meant, look at it with \
                 `thou pack list` and run `thou pack lock`."
            }
            Self::NotLocked(file) | Self::NeverLocked(file) | Self::LockedByOthers(file) => {
                return format!(
                    "None of its rules is judged, and nothing of it was run. Look at it:\n    thou pack inspect {file}\n  \
                     Where its rules and numbers are what you want, have it count:\n    thou pack lock"
                );
            }
            Self::Elsewhere(list) => {
                return format!(
                    "None of its rules is judged, and nothing of it was run. Copy it beside the sheet; or, where packs of \
                     that folder are to count for every sheet of yours, write the folder as a line of {list}."
                );
            }
            Self::Older { .. } => {
                "Ask whoever gave it out which one is meant. If it is to count all the same, lock it with --allow-older."
            }
            Self::NotListed => {
                "None of its rules is judged. Put its line back into the file packs, or run `thou pack lock` to let it go."
            }
            Self::NotAsSigned(_) => "None of its rules is judged until a signature of the key in packs.lock holds.",
            Self::LockUnreadable(_) | Self::LockDamaged { .. } | Self::LockTwice(_) => {
                "No pack from a file is run until the lock is mended. Take the last good one from a backup, or \
                 delete it, look at the packs and run `thou pack lock`."
            }
            Self::LockNewer(_) => "No pack from a file is run: get a newer thou, the one that wrote the lock.",
            Self::OutOfFuel(_)
            | Self::TimedOut(_)
            | Self::OutOfMemory(_)
            | Self::AskedOn(_)
            | Self::TooMuchReturned(_)
            | Self::Trapped(_)
            | Self::Refused(_)
            | Self::Nonsense(_) => {
                "None of its rules is judged in this report; the other packs' results stand. Run without it, or send \
                 its author this text and the sheet."
            }
        };
        text.to_owned()
    }

    /// What its author can do.
    #[must_use]
    pub fn author(&self) -> String {
        let text = match self {
            Self::Unreadable(_) | Self::Damaged(_) => "nothing, unless the published file is damaged too.",
            Self::TooBig { .. } => "build for size, strip names, and leave out what the rules do not use.",
            Self::NotAComponent(_) => {
                "`thou pack build` makes a component out of a Rust crate's folder, and out of the core module that \
                 another language's tools made."
            }
            Self::NoManifest => "`thou pack build FILE` asks the component for its manifest and stores it.",
            Self::BadManifest(_) => "mend what is named; schemas/pack.schema.json describes every field.",
            Self::BadTable(_) => "schemas/table.schema.json describes every field.",
            Self::OlderContract(_) => "build again with the current kit.",
            Self::NewerContract(_) => "users of an older thou need a build for rules-1.0 beside this one.",
            Self::WantsImports(imports) => return hints(imports),
            Self::NoExport(_) => {
                "export the whole interface (`world rule-pack { export pack; }`); a version 1.0.x of it is found too."
            }
            Self::OtherTypes(_) => "generate the bindings again from schemas/rules-1.0.wit, unchanged.",
            Self::DoesNotCompile(_) => {
                "validate the component; threads, garbage collection, exceptions and relaxed SIMD are switched off here."
            }
            Self::TooHeavy(_) => {
                "build with optimisation for size; where the code is generated, split its functions and its tables."
            }
            Self::SlowToCompile(_) => "build for size, and split the functions that take the compiler longest.",
            Self::Trapped(_) => {
                "run the rule's cases natively, where a panic has its place and its words; answer cannot-say instead."
            }
            Self::OutOfFuel(_) => "an answer costs some ten thousand instructions: look for a loop that does not end.",
            Self::TimedOut(_) => "look for a loop that fills or copies memory.",
            Self::OutOfMemory(_) => "look for a list that grows without end.",
            Self::AskedOn(_) => "look for a loop that goes on where its memory cannot grow.",
            Self::TooMuchReturned(_) => {
                "a rule gives a window or two a place, and an error a sentence: look for a loop that gives too many."
            }
            Self::Refused(_) => "an error loses the whole pack's answer: answer cannot-say for the one rule instead.",
            Self::NotAsLocked { .. } => "a build that differs gets another version.",
            Self::NotAsSigned(_) => "sign every build anew, and give both files out.",
            Self::Older { .. } => "number builds as 1.0.0, 1.1.0 and so on; a day as 2026-06-14 does, too.",
            Self::NotLocked(_)
            | Self::NeverLocked(_)
            | Self::LockedByOthers(_)
            | Self::Elsewhere(_)
            | Self::NotListed
            | Self::LockUnreadable(_)
            | Self::LockDamaged { .. }
            | Self::LockTwice(_)
            | Self::LockNewer(_) => "nothing.",
            Self::Nonsense(_) => {
                "hold the rule to a case with these facts: indices count from 0 in the manifest's own lists, and a limit \
                 made of a fact that is missing is not a number."
            }
        };
        text.to_owned()
    }
}

fn step_back(locked: &str, found: &str) -> String {
    match super::version::order(found, locked) {
        Some(_) => format!("an older one than the {locked} that packs.lock has"),
        None => format!("which cannot be put in order with the {locked} that packs.lock has"),
    }
}

fn mb(bytes: u64) -> u64 {
    bytes.div_ceil(1024 * 1024)
}

fn things(count: usize) -> String {
    if count == 1 { "one thing".to_owned() } else { format!("{count} things") }
}

fn some(imports: &Imports) -> String {
    let mut names: Vec<&str> = imports.listed.iter().map(|i| i.name.as_str()).collect();
    if imports.count > names.len() {
        names.push("and so on");
    }
    names.join(", ")
}

fn exports(names: &[String]) -> String {
    if names.is_empty() { ", nor anything else".to_owned() } else { format!(" but {}", names.join(", ")) }
}
