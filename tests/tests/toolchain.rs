//! Which Rust the project says that it needs: the same everywhere, no more and no less than what it is built from; and
//! what the crates without the sandbox are built from.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;
use thou_tests::{file, root, thou};

/// Every manifest under a folder.
fn manifests(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap().map(Result::unwrap) {
        let (path, name) = (entry.path(), entry.file_name());
        if entry.file_type().unwrap().is_dir() {
            // what is built, what npm installs, and git's own
            if name != "target" && name != "node_modules" && !name.to_string_lossy().starts_with('.') {
                manifests(&path, found);
            }
        } else if name == "Cargo.toml" {
            found.push(path);
        }
    }
}

/// What each manifest of a folder says of the Rust that it needs; one that takes it from its workspace says nothing.
fn stated(folder: &Path) -> BTreeMap<String, Option<String>> {
    let mut found = Vec::new();
    manifests(folder, &mut found);
    let mut stated = BTreeMap::new();
    for path in found {
        let text = std::fs::read_to_string(&path).unwrap();
        let own = text.lines().find_map(|l| l.strip_prefix("rust-version = "));
        assert!(
            own.is_some() || text.contains("\nrust-version.workspace = true\n"),
            "{} names no rust-version",
            path.display()
        );
        let name = path.strip_prefix(folder).unwrap().display().to_string();
        stated.insert(name, own.map(|v| v.trim_matches('"').to_owned()));
    }
    stated
}

/// The least Rust, as the main workspace states it.
fn least() -> String {
    stated(&root())["Cargo.toml"].clone().unwrap()
}

fn version(text: &str) -> (u32, u32) {
    let mut parts = text.split('.').map(|n| n.parse::<u32>().unwrap());
    (parts.next().unwrap(), parts.next().unwrap())
}

fn printed_by(program: &str, args: &[&str]) -> String {
    let named = std::env::var_os(program.to_uppercase()).unwrap_or_else(|| program.into());
    let out = Command::new(named).args(args).current_dir(root()).output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8(out.stdout).unwrap()
}

#[test]
fn every_crate_and_every_new_pack_states_the_same_rust() {
    let mut all = stated(&root());
    for workspace in ["", "rulepacks/", "rulepacks/registry/", "tests/benches/"] {
        assert!(all[&format!("{workspace}Cargo.toml")].is_some(), "{workspace}");
    }
    let shop = tempfile::tempdir().unwrap();
    let folder = shop.path().join("nine-mile");
    assert_eq!(thou(&["pack", "new", "nine-mile", "--dir", folder.to_str().unwrap()]).exit, 0);
    let new = stated(&folder);
    assert!(new.len() > 2 && new["Cargo.toml"].is_some(), "{new:?}");
    all.extend(new.into_iter().map(|(name, stated)| (format!("nine-mile/{name}"), stated)));
    let least = least();
    let others: BTreeMap<_, _> = all.iter().filter(|(_, v)| v.as_ref().is_some_and(|v| *v != least)).collect();
    assert!(others.is_empty(), "Cargo.toml says {least}: {others:?}");
    let readme = std::fs::read_to_string(file("README.md")).unwrap();
    assert!(readme.contains(&format!("[Rust](https://www.rust-lang.org) {least} or later")), "README.md");
}

/// Under it nothing builds, over it would shut out a Rust that does.
#[test]
fn the_stated_rust_is_the_least_that_a_dependency_takes() {
    let host = printed_by("rustc", &["-vV"]);
    let host = host.lines().find_map(|l| l.strip_prefix("host: ")).unwrap();
    let args = ["metadata", "--format-version", "1", "--locked", "--offline", "--filter-platform", host];
    let metadata: Value = serde_json::from_str(&printed_by("cargo", &args)).unwrap();
    let packages = metadata["packages"].as_array().unwrap();
    let theirs = packages.iter().filter(|p| !p["source"].is_null());
    let wanted = theirs.filter_map(|p| Some((version(p["rust_version"].as_str()?), p["name"].as_str()?)));
    let wanted: BTreeSet<_> = wanted.collect();
    let (most, whose) = wanted.last().unwrap();
    assert_eq!(version(&least()), *most, "{whose} wants it");
}

/// The toolchain file names a channel that every installation has, and what it is here is new enough.
#[test]
fn the_toolchain_file_takes_a_rust_that_is_new_enough() {
    let text = std::fs::read_to_string(file("rust-toolchain.toml")).unwrap();
    let channel = text.lines().find_map(|l| l.strip_prefix("channel = ")).unwrap().trim_matches('"');
    let least = version(&least());
    if channel != "stable" {
        assert!(version(channel) >= least, "rust-toolchain.toml names {channel}");
    }
    let rustc = printed_by("rustc", &["--version"]);
    let here = version(rustc.split(' ').nth(1).unwrap());
    assert!(here >= least, "{rustc}");
}

/// Every package that is compiled to test these of ours.
fn compiled_to_test(ours: &[&str]) -> BTreeSet<String> {
    let mut args = vec!["tree", "--locked", "--offline", "--edges", "normal,build,dev", "--prefix", "none"];
    args.extend(["--format", "{p}"]);
    ours.iter().for_each(|name| args.extend(["--package", name]));
    let tree = printed_by("cargo", &args);
    tree.lines().filter_map(|line| Some(line.split(' ').next()?.to_owned())).filter(|name| !name.is_empty()).collect()
}

/// A field or a fact is tried in a minute, since neither the sandbox's compiler nor the schema's validator is behind it.
#[test]
fn tests_of_fields_facts_and_judge_compile_no_sandbox_and_no_validator() {
    let heavy = |name: &&String| {
        name.starts_with("cranelift")
            || name.starts_with("wasmtime")
            || ["jsonschema", "thou-schema"].contains(&name.as_str())
    };
    let light = compiled_to_test(&["thou-fields", "thou-facts", "thou-judge"]);
    for name in ["thou-fields", "thou-facts", "thou-judge", "thou-mechanics"] {
        assert!(light.contains(name), "this is their tree: {light:?}");
    }
    assert_eq!(light.iter().filter(heavy).collect::<Vec<_>>(), Vec::<&String>::new());
    // the same look finds them where they are
    let program = compiled_to_test(&["thou"]);
    for name in ["cranelift-codegen", "wasmtime", "jsonschema", "thou-schema"] {
        assert!(program.iter().filter(heavy).any(|found| found == name), "{name}");
    }
}
