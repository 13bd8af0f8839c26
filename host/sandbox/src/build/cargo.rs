//! Cargo, as far as a pack needs it.

use super::error::BuildError;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

const TARGET: &str = "wasm32-unknown-unknown";

/// The tools that the environment names.
pub(super) struct Tools {
    cargo: OsString,
    sysroot: PathBuf,
    pub(super) rustc_version: String,
}

/// The crates that a pack is made of and that are no registry's.
pub(super) struct Crates {
    /// Those that are linked into it: their names and folders.
    pub(super) local: BTreeMap<String, PathBuf>,
    /// Those, and the others of its workspace: what the flags name must be the same for each pack of a workspace, or
    /// cargo compiles everything again for the next.
    beside: BTreeMap<String, PathBuf>,
}

impl Tools {
    pub(super) fn new() -> Result<Self, BuildError> {
        let named = |variable: &str, otherwise: &str| std::env::var_os(variable).unwrap_or_else(|| otherwise.into());
        let rustc = named("RUSTC", "rustc");
        let asked = |what: &[&str]| {
            let output = Command::new(&rustc).args(what).output().map_err(|e| no_tool(&rustc, &e, "RUSTC"))?;
            Ok::<_, BuildError>(String::from_utf8_lossy(&output.stdout).trim().to_owned())
        };
        Ok(Self {
            cargo: named("CARGO", "cargo"),
            sysroot: PathBuf::from(asked(&["--print", "sysroot"])?),
            rustc_version: asked(&["--version"])?,
        })
    }

    /// Whether a pack can be built at all, before anything is compiled: the library for its target is there, or is built too.
    pub(super) fn has_target(&self) -> Result<(), BuildError> {
        let there = self.sysroot.join("lib/rustlib").join(TARGET).is_dir();
        let built_too = std::env::var_os("CARGO_UNSTABLE_BUILD_STD").is_some_and(|what| !what.is_empty());
        if there || built_too { Ok(()) } else { Err(BuildError::NoTarget(self.sysroot.clone())) }
    }

    /// The crates beside the pack that it uses, itself among them.
    pub(super) fn crates(&self, crate_dir: &Path) -> Result<Crates, BuildError> {
        let output = Command::new(&self.cargo)
            .args(["metadata", "--format-version", "1", "--filter-platform", TARGET, "--manifest-path"])
            .arg(crate_dir.join("Cargo.toml"))
            .stderr(Stdio::inherit())
            .output()
            .map_err(|e| no_tool(&self.cargo, &e, "CARGO"))?;
        if !output.status.success() {
            return Err(self.failed(crate_dir));
        }
        let metadata: Value =
            serde_json::from_slice(&output.stdout).map_err(|e| BuildError::Unreadable(self.name(), e.to_string()))?;
        Ok(Crates::of(&metadata, crate_dir))
    }

    /// Builds the pack's core module and gives its file.
    pub(super) fn module(&self, crate_dir: &Path, crates: &Crates) -> Result<PathBuf, BuildError> {
        let manifest = crate_dir.join("Cargo.toml");
        let output = Command::new(&self.cargo)
            .args(["build", "--release", "--lib", "--target", TARGET])
            .args(["--message-format", "json-render-diagnostics", "--manifest-path"])
            .arg(&manifest)
            .env("CARGO_ENCODED_RUSTFLAGS", self.flags(crates))
            .env_remove("RUSTFLAGS")
            .stderr(Stdio::inherit())
            .output()
            .map_err(|e| no_tool(&self.cargo, &e, "CARGO"))?;
        if !output.status.success() {
            return Err(self.failed(crate_dir));
        }
        let messages = String::from_utf8_lossy(&output.stdout);
        let files = messages
            .lines()
            .filter_map(|line| serde_json::from_str::<Value>(line).ok())
            .filter(|m| m.get("manifest_path").and_then(Value::as_str).map(Path::new) == Some(&manifest))
            .filter_map(|m| m.get("filenames").and_then(Value::as_array).cloned())
            .flatten();
        let module =
            files.filter_map(|f| f.as_str().map(PathBuf::from)).find(|f| f.extension() == Some("wasm".as_ref()));
        module.ok_or_else(|| BuildError::NoModule(crate_dir.to_owned()))
    }

    /// The builder's flags, and every folder that a panic's place could name under another name.
    fn flags(&self, crates: &Crates) -> OsString {
        let mut flags: Vec<OsString> = match (std::env::var_os("CARGO_ENCODED_RUSTFLAGS"), std::env::var("RUSTFLAGS")) {
            (Some(encoded), _) => vec![encoded],
            (None, Ok(plain)) => plain.split_whitespace().map(OsString::from).collect(),
            (None, Err(_)) => Vec::new(),
        };
        let mut remap = |from: &Path, to: &str| {
            let mut flag = OsString::from("--remap-path-prefix=");
            flag.push(from);
            flag.push("=");
            flag.push(to);
            flags.push(flag);
        };
        let home = std::env::var_os("CARGO_HOME").map(PathBuf::from).or_else(|| {
            let home = std::env::var_os("HOME").or_else(|| std::env::var_os("USERPROFILE"))?;
            Some(PathBuf::from(home).join(".cargo"))
        });
        if let Some(home) = home {
            remap(&home, "/cargo");
        }
        remap(&self.sysroot, "/rust");
        // where the library's source is a link to elsewhere
        if let Ok(library) = self.sysroot.join("lib/rustlib/src/rust").canonicalize() {
            remap(&library, "/rust/lib/rustlib/src/rust");
        }
        // the last that matches counts, so the crates come last
        for (name, folder) in &crates.beside {
            remap(folder, &format!("/pack/{name}"));
        }
        // a megabyte of stack is touched and set up for every answer; a rule needs a few kilobytes
        flags.push("-Clink-arg=-zstack-size=65536".into());
        flags.join("\u{1f}".as_ref())
    }

    fn name(&self) -> String {
        self.cargo.to_string_lossy().into_owned()
    }

    fn failed(&self, crate_dir: &Path) -> BuildError {
        BuildError::Cargo { cargo: self.name(), crate_dir: crate_dir.to_owned() }
    }
}

fn no_tool(tool: &OsString, error: &std::io::Error, variable: &'static str) -> BuildError {
    BuildError::NoTool { tool: tool.to_string_lossy().into_owned(), error: error.to_string(), variable }
}

impl Crates {
    /// From what `cargo metadata` printed. Crates for tests alone and the build's tools are not linked.
    fn of(metadata: &Value, crate_dir: &Path) -> Self {
        let list = |value: Option<&Value>| value.and_then(Value::as_array).cloned().unwrap_or_default();
        let text = |value: &Value, key: &str| value.get(key).and_then(Value::as_str).map(str::to_owned);
        let mut packages = BTreeMap::new();
        for package in list(metadata.get("packages")) {
            let folder = text(&package, "manifest_path").and_then(|m| Path::new(&m).parent().map(Path::to_owned));
            if let (Some(id), Some(name), Some(folder), Some(Value::Null)) =
                (text(&package, "id"), text(&package, "name"), folder, package.get("source"))
            {
                packages.insert(id, (name, folder));
            }
        }
        let linked: BTreeMap<String, Vec<String>> = list(metadata.get("resolve").and_then(|r| r.get("nodes")))
            .iter()
            .filter_map(|node| {
                let normal =
                    |dep: &Value| list(dep.get("dep_kinds")).iter().any(|k| k.get("kind") == Some(&Value::Null));
                let deps = list(node.get("deps")).iter().filter(|d| normal(d)).filter_map(|d| text(d, "pkg")).collect();
                Some((text(node, "id")?, deps))
            })
            .collect();
        let mut todo: Vec<String> =
            packages.iter().filter(|(_, (_, folder))| folder == crate_dir).map(|(id, _)| id.clone()).collect();
        let mut seen = BTreeSet::new();
        while let Some(id) = todo.pop() {
            if seen.insert(id.clone()) {
                todo.extend(linked.get(&id).into_iter().flatten().cloned());
            }
        }
        let local = packages.iter().filter(|(id, _)| seen.contains(*id)).map(|(_, named)| named.clone()).collect();
        Self { local, beside: packages.into_values().collect() }
    }
}
