//! No circle of imports between the files of a crate.
//!
//! A file needs another when its code, tests apart, names something that is defined there. Re-exports (`pub use`) and
//! `mod` lines need nothing, and whoever goes through a re-export needs the file behind it: a folder's `mod.rs` may show
//! what its files define, and each of those files may use what another shows. A parent and its child are held to it like
//! any two files: if the child works with what the parent defines, the parent's own code does not call the child; what
//! both need is a file of its own. So every crate can be read from the bottom up, and any file be taken out with those
//! below it, which is what splitting a crate asks for.
//!
//! What it cannot see: a method called on a value (its type's file was named to get the value), and names that a macro
//! makes.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn top() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// The root files of all crates under a folder.
fn roots(folder: &Path, into: &mut BTreeSet<PathBuf>) {
    for name in ["lib.rs", "main.rs"] {
        let root = folder.join("src").join(name);
        if folder.join("Cargo.toml").is_file() && root.is_file() {
            into.insert(root);
            break;
        }
    }
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let skipped = path.file_name().is_some_and(|n| n == "target" || n == "src" || n == "node_modules");
        if path.is_dir() && !skipped {
            roots(&path, into);
        }
    }
}

/// Words, `::` and single signs, without comments, texts, and what only tests see.
fn tokens(text: &str) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    let chars: Vec<char> = text.chars().collect();
    let at = |i: usize| chars.get(i).copied().unwrap_or('\0');
    let mut i = 0;
    while i < chars.len() {
        let c = at(i);
        if c == '/' && at(i + 1) == '/' {
            while i < chars.len() && at(i) != '\n' {
                i += 1;
            }
        } else if c == '/' && at(i + 1) == '*' {
            i += 2;
            while i < chars.len() && !(at(i) == '*' && at(i + 1) == '/') {
                i += 1;
            }
            i += 2;
        } else if c == '"' {
            i = after_text(&chars, i);
        } else if c == '\'' {
            // a letter, or a lifetime
            i = match (at(i + 1), at(i + 2)) {
                ('\\', _) => i + 3 + chars[i + 3..].iter().position(|c| *c == '\'').unwrap_or(0) + 1,
                (_, '\'') => i + 3,
                _ => i + 1,
            };
        } else if c.is_alphanumeric() || c == '_' {
            let start = i;
            while at(i).is_alphanumeric() || at(i) == '_' {
                i += 1;
            }
            let word: String = chars[start..i].iter().collect();
            let hashes = chars[i.min(chars.len())..].iter().take_while(|c| **c == '#').count();
            if matches!(word.as_str(), "r" | "br" | "b" | "c") && at(i + hashes) == '"' {
                i = if word.contains('r') { after_raw(&chars, i, hashes) } else { after_text(&chars, i) };
            } else {
                all.push(word);
            }
        } else if c == ':' && at(i + 1) == ':' {
            all.push("::".to_owned());
            i += 2;
        } else {
            if !c.is_whitespace() {
                all.push(c.to_string());
            }
            i += 1;
        }
    }
    without_tests(&all)
}

fn after_text(chars: &[char], open: usize) -> usize {
    let mut i = open + 1;
    while i < chars.len() && chars[i] != '"' {
        i += if chars[i] == '\\' { 2 } else { 1 };
    }
    i + 1
}

fn after_raw(chars: &[char], from: usize, hashes: usize) -> usize {
    let end: Vec<char> = std::iter::once('"').chain(std::iter::repeat_n('#', hashes)).collect();
    let body = from + hashes + 1;
    body + chars[body..].windows(end.len()).position(|w| w == end).unwrap_or(0) + end.len()
}

/// Without items behind `#[cfg(test)]`.
fn without_tests(all: &[String]) -> Vec<String> {
    let is = |i: usize, words: &[&str]| words.iter().enumerate().all(|(n, w)| all.get(i + n).is_some_and(|t| t == w));
    let mut kept = Vec::new();
    let mut i = 0;
    while i < all.len() {
        if !is(i, &["#", "[", "cfg", "(", "test", ")", "]"]) {
            kept.push(all[i].clone());
            i += 1;
            continue;
        }
        // to the end of the item: a semicolon, or the brace that closes its first
        let mut depth = 0;
        while i < all.len() {
            match all[i].as_str() {
                "{" | "(" | "[" => depth += 1,
                "}" | ")" | "]" => depth -= 1,
                _ => {}
            }
            let over = depth == 0 && matches!(all[i].as_str(), ";" | "}");
            i += 1;
            if over {
                break;
            }
        }
    }
    kept
}

/// One `use` of a file.
struct Import {
    path: Vec<String>,
    name: String,
    shown: bool,
}

/// One file of a crate.
#[derive(Default)]
struct File {
    /// Modules declared in it, each a file.
    children: BTreeSet<String>,
    defined: BTreeSet<String>,
    imports: Vec<Import>,
    /// Paths in its code.
    paths: Vec<Vec<String>>,
}

fn word(token: &str) -> bool {
    token.chars().next().is_some_and(|c| c.is_alphabetic() || c == '_')
}

/// The paths of a tree of imports from `at`, and where it ends.
fn tree(all: &[String], mut at: usize, before: &[String], shown: bool, into: &mut Vec<Import>) -> usize {
    let mut path = before.to_vec();
    loop {
        let token = all.get(at).map_or(";", String::as_str);
        match token {
            "::" => at += 1,
            "{" => {
                at += 1;
                while all.get(at).is_some_and(|t| t != "}") {
                    at = tree(all, at, &path, shown, into);
                    if all.get(at).is_some_and(|t| t == ",") {
                        at += 1;
                    }
                }
                return at + 1;
            }
            "as" => {
                let name = all.get(at + 1).cloned().unwrap_or_default();
                into.push(Import { path, name, shown });
                return at + 2;
            }
            "*" => {
                into.push(Import { path, name: "*".to_owned(), shown });
                return at + 1;
            }
            "self" if !path.is_empty() => at += 1,
            _ if word(token) => {
                path.push(token.to_owned());
                at += 1;
            }
            _ => {
                let name = path.last().cloned().unwrap_or_default();
                into.push(Import { path, name, shown });
                return at;
            }
        }
    }
}

fn parse(text: &str) -> File {
    let all = tokens(text);
    let mut file = File::default();
    let mut i = 0;
    while i < all.len() {
        let next = all.get(i + 1).map_or("", String::as_str);
        match all[i].as_str() {
            "use" => {
                // `pub use` and `pub(crate) use` show, and so need nothing themselves
                let shown = i > 0 && matches!(all[i - 1].as_str(), "pub" | ")");
                i = tree(&all, i + 1, &[], shown, &mut file.imports);
                continue;
            }
            "mod" if all.get(i + 2).is_some_and(|t| t == ";") => {
                file.children.insert(next.to_owned());
                i += 2;
            }
            "fn" | "struct" | "enum" | "trait" | "type" | "const" | "static" | "union" if word(next) => {
                file.defined.insert(next.to_owned());
            }
            "macro_rules" => {
                file.defined.extend(all.get(i + 2).cloned());
            }
            token if word(token) && next == "::" && (i == 0 || all[i - 1] != "::") => {
                let mut path = vec![token.to_owned()];
                while all.get(i + 1).is_some_and(|t| t == "::") && all.get(i + 2).is_some_and(|t| word(t)) {
                    path.push(all[i + 2].clone());
                    i += 2;
                }
                file.paths.push(path);
            }
            _ => {}
        }
        i += 1;
    }
    file
}

/// The files of a crate by their module's path.
type Crate = BTreeMap<Vec<String>, File>;

fn read(module: Vec<String>, path: &Path, folder: &Path, files: &mut BTreeMap<Vec<String>, PathBuf>, into: &mut Crate) {
    let file = parse(&fs::read_to_string(path).unwrap());
    for child in &file.children {
        let (flat, deep) = (folder.join(format!("{child}.rs")), folder.join(child).join("mod.rs"));
        if let Some(found) = [flat, deep].into_iter().find(|p| p.is_file()) {
            let name: Vec<String> = module.iter().cloned().chain([child.clone()]).collect();
            read(name, &found, &folder.join(child), files, into);
        }
    }
    files.insert(module.clone(), path.to_path_buf());
    into.insert(module, file);
}

/// The module whose file defines what a path names, seen from a module; none for what is not of this crate.
fn resolve(all: &Crate, from: &[String], path: &[String], depth: usize) -> Option<Vec<String>> {
    let (first, rest) = path.split_first()?;
    if depth > 20 {
        return None;
    }
    match first.as_str() {
        "crate" => down(all, Vec::new(), rest, depth),
        "self" => down(all, from.to_vec(), rest, depth),
        "super" => {
            let (_, parent) = from.split_last()?;
            let again: Vec<String> = std::iter::once("self".to_owned()).chain(rest.iter().cloned()).collect();
            resolve(all, parent, &again, depth + 1)
        }
        _ => {
            let file = all.get(from)?;
            if file.children.contains(first) {
                return down(all, from.to_vec(), path, depth);
            }
            let import = file.imports.iter().find(|i| &i.name == first && i.path.first() != Some(first))?;
            let whole: Vec<String> = import.path.iter().chain(rest).cloned().collect();
            resolve(all, from, &whole, depth + 1)
        }
    }
}

/// The file that defines what the rest of a path names, from a module of this crate downwards.
fn down(all: &Crate, mut at: Vec<String>, rest: &[String], depth: usize) -> Option<Vec<String>> {
    let mut rest = rest;
    while let Some((next, further)) = rest.split_first() {
        if next == "super" {
            at.pop()?;
            rest = further;
            continue;
        }
        let child: Vec<String> = at.iter().cloned().chain([next.clone()]).collect();
        if !all.contains_key(&child) {
            break;
        }
        (at, rest) = (child, further);
    }
    let file = all.get(&at)?;
    // a module by itself is no item
    let item = rest.first()?;
    if file.defined.contains(item) {
        return Some(at);
    }
    let through = |import: &Import| {
        let path =
            if import.name == "*" { import.path.iter().chain([item]).cloned().collect() } else { import.path.clone() };
        resolve(all, &at, &path, depth + 1)
    };
    if let Some(import) = file.imports.iter().find(|i| &i.name == item) {
        return through(import);
    }
    let found = file.imports.iter().filter(|i| i.name == "*").find_map(through);
    found.or(Some(at))
}

/// What each file needs of its own crate.
fn needs(all: &Crate) -> BTreeMap<&Vec<String>, BTreeSet<Vec<String>>> {
    let mut edges = BTreeMap::new();
    for (module, file) in all {
        let used = file.imports.iter().filter(|i| !i.shown).map(|i| &i.path).chain(&file.paths);
        let mut found: BTreeSet<Vec<String>> = used.filter_map(|path| resolve(all, module, path, 0)).collect();
        found.remove(module);
        edges.insert(module, found);
    }
    edges
}

/// Files that reach one another, each set of them once; and which file of a set needs which.
fn circles(all: &Crate) -> Vec<Vec<(Vec<String>, Vec<String>)>> {
    let edges = needs(all);
    let reach = |from: &Vec<String>| {
        let mut seen: BTreeSet<Vec<String>> = BTreeSet::new();
        let mut open: Vec<Vec<String>> = edges[from].iter().cloned().collect();
        while let Some(next) = open.pop() {
            if seen.insert(next.clone()) {
                open.extend(edges[&next].iter().cloned());
            }
        }
        seen
    };
    let reached: BTreeMap<&Vec<String>, BTreeSet<Vec<String>>> = all.keys().map(|m| (m, reach(m))).collect();
    let mut sets: BTreeSet<Vec<Vec<String>>> = BTreeSet::new();
    for module in all.keys().filter(|m| reached[m].contains(*m)) {
        sets.insert(
            all.keys().filter(|o| reached[module].contains(*o) && reached[o].contains(module)).cloned().collect(),
        );
    }
    let of = |set: Vec<Vec<String>>| {
        let pairs =
            set.iter().flat_map(|m| edges[m].iter().filter(|n| set.contains(n)).map(|n| (m.clone(), n.clone())));
        pairs.collect()
    };
    sets.into_iter().map(of).collect()
}

/// The circles of every crate under these folders, as lines of "file -> file".
fn found(folders: &[&str]) -> Vec<String> {
    let mut all = BTreeSet::new();
    for folder in folders {
        roots(&top().join(folder), &mut all);
    }
    assert!(!all.is_empty(), "no crate in {folders:?}");
    let mut lines = Vec::new();
    for root in all {
        let (mut files, mut modules) = (BTreeMap::new(), Crate::new());
        read(Vec::new(), &root, root.parent().unwrap(), &mut files, &mut modules);
        let name = |module: &Vec<String>| files[module].strip_prefix(top()).unwrap().display().to_string();
        for circle in circles(&modules) {
            let pairs: Vec<String> = circle.iter().map(|(m, n)| format!("  {} -> {}", name(m), name(n))).collect();
            lines.push(format!("a circle:\n{}", pairs.join("\n")));
        }
    }
    lines
}

#[test]
fn no_circle_between_the_files_of_any_crate() {
    let found = found(&["host", "rulepacks"]);
    assert!(found.is_empty(), "{}", found.join("\n"));
}

fn made(files: &[(&str, &str)]) -> Crate {
    let module = |path: &str| path.split("::").filter(|p| !p.is_empty()).map(str::to_owned).collect();
    files.iter().map(|(path, text)| (module(path), parse(text))).collect()
}

#[test]
fn a_circle_is_found_through_a_re_export_and_a_module_by_its_name() {
    let one = made(&[
        ("", "mod a; mod b; mod face;"),
        ("a", "use crate::face::Item; pub struct Own; fn f() -> Item { todo() }"),
        ("b", "use crate::a; pub struct Item(a::Own);"),
        ("face", "pub use crate::b::Item;"),
    ]);
    let a_b = (vec!["a".to_owned()], vec!["b".to_owned()]);
    let b_a = (vec!["b".to_owned()], vec!["a".to_owned()]);
    assert_eq!(circles(&one), [[a_b, b_a]]);
}

#[test]
fn a_parent_that_only_shows_its_child_is_in_no_circle_and_one_that_calls_it_is() {
    let child = ("a", "use super::Item; pub fn f(_: Item) {}");
    assert!(circles(&made(&[("", "mod a; pub use a::f; pub struct Item;"), child])).is_empty());
    assert_eq!(circles(&made(&[("", "mod a; pub struct Item; pub fn g() { a::f(Item) }"), child])).len(), 1);
    assert_eq!(circles(&made(&[("", "mod a; use a::f; pub struct Item; pub fn g() { f(Item) }"), child])).len(), 1);
}

#[test]
fn tests_remarks_and_texts_need_nothing() {
    let quiet = "mod b; pub struct Item; // b::f()\nconst T: &str = \"b::f\"; const R: &str = r#\"b::f \"\"#;
        #[cfg(test)] mod tests { use super::b::f; fn g() { f() } }";
    assert!(circles(&made(&[("", quiet), ("b", "use crate::Item; pub fn f(_: Item) {}")])).is_empty());
}
