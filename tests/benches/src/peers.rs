//! Programs that measure for us in processes of their own: the meter of processes and the peers.

use crate::Failed;
use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

/// The npm package that is a peer.
const PACKAGE: &str = "json-rules-engine@7.3.1";

/// Builds the package `outside` and gives the folder of its programs, the one that this program is in.
pub(crate) fn outside() -> Result<PathBuf, Failed> {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let manifest = concat!(env!("CARGO_MANIFEST_DIR"), "/Cargo.toml");
    let built = Command::new(cargo)
        .args(["build", "--release", "--quiet", "--locked", "--package", "outside", "--manifest-path", manifest])
        .status()?;
    if !built.success() {
        return Err("the package outside does not build; its compiler's words stand above".into());
    }
    Ok(std::env::current_exe()?.parent().map(Path::to_owned).unwrap_or_default())
}

/// Gives a program a job on its standard input and takes its answer from its standard output.
pub(crate) fn ask(program: &Path, args: &[&Path], job: &Value) -> Result<Value, Failed> {
    let mut child = Command::new(program).args(args).stdin(Stdio::piped()).stdout(Stdio::piped()).spawn()?;
    if let Some(input) = child.stdin.take() {
        serde_json::to_writer(input, job)?;
    }
    let done = child.wait_with_output()?;
    if !done.status.success() {
        return Err(format!("{} ended with {}", program.display(), done.status).into());
    }
    Ok(serde_json::from_slice(&done.stdout)?)
}

/// The table of windows as data.
pub(crate) fn rows() -> Value {
    let row = |r: &forty::Row| {
        let pair = |(low, high): (f64, f64)| json!([low, high]);
        json!({ "id": r.id, "scale": r.scale.fact(), "street": pair(r.street), "bracket": pair(r.bracket),
                "all-out": pair(r.all_out), "added": pair(r.added) })
    };
    forty::TABLE.iter().map(row).collect()
}

/// Where node's package is, fetched once into the user's cache; or why not, in a word.
pub(crate) fn node() -> Result<PathBuf, String> {
    let there =
        |tool: &str| Command::new(tool).arg("--version").stdout(Stdio::null()).status().is_ok_and(|s| s.success());
    for tool in ["node", "npm"] {
        if !there(tool) {
            return Err(format!("there is no {tool} here"));
        }
    }
    let of = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|p| p.is_absolute());
    let cache = of("XDG_CACHE_HOME").or_else(|| Some(of("HOME")?.join(".cache"))).unwrap_or_else(std::env::temp_dir);
    let folder = cache.join("thou").join("benches-node");
    if folder.join("node_modules/json-rules-engine").is_dir() {
        return Ok(folder);
    }
    std::fs::create_dir_all(&folder).map_err(|e| e.to_string())?;
    let done = Command::new("npm")
        .args(["install", "--silent", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix"])
        .arg(&folder)
        .arg(PACKAGE)
        .stdout(Stdio::null())
        .status()
        .map_err(|e| e.to_string())?;
    if done.success() { Ok(folder) } else { Err(format!("npm could not fetch {PACKAGE}")) }
}
