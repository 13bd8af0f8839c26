//! A new pack in another language than Rust: the example of that language, under the new pack's name.

use super::file::NewFile;
use super::kit::{
    C as C_FILES, C_TYPES, JAVASCRIPT as JAVASCRIPT_FILES, PYTHON as PYTHON_FILES, SCHEMAS, SHARED, Texts,
};
use crate::cli::paper::fill;

/// The name that the examples have.
const EXAMPLE: &str = "ring-gaps";

/// How a pack is made in a language.
pub(super) struct Recipe {
    language: &'static str,
    files: Texts,
    /// Files that are not text.
    binaries: &'static [(&'static str, &'static [u8])],
    /// What the machine must have.
    needs: &'static str,
    /// Fetches the tools and makes the component or the module; NAME and NAME_ stand for the pack's name.
    commands: &'static [&'static str],
    /// What they make.
    output: &'static str,
    /// What is not kept.
    ignored: &'static str,
}

pub(super) const JAVASCRIPT: Recipe = Recipe {
    language: "JavaScript",
    files: JAVASCRIPT_FILES,
    binaries: &[],
    needs: "Node.js 20 or later",
    commands: &["npm ci --no-audit --no-fund", "node build.mjs"],
    output: "NAME.component.wasm",
    ignored: "/node_modules\n*.component.wasm\n",
};

pub(super) const PYTHON: Recipe = Recipe {
    language: "Python",
    files: PYTHON_FILES,
    binaries: &[],
    needs: "Python 3.10 or later",
    commands: &[
        "python3 -m venv venv",
        "venv/bin/python -m pip install --quiet -r requirements.txt",
        "venv/bin/componentize-py -d rules-1.0.wit -w rule-pack componentize --stub-wasi NAME_ -o NAME.component.wasm",
    ],
    output: "NAME.component.wasm",
    ignored: "/venv\n__pycache__\n*.component.wasm\n",
};

pub(super) const C: Recipe = Recipe {
    language: "C",
    files: C_FILES,
    binaries: &[("rule_pack_component_type.o", C_TYPES)],
    needs: "Python 3 with venv, for Zig's compiler from PyPI",
    commands: &[
        "python3 -m venv venv",
        "venv/bin/python -m pip install --quiet -r requirements.txt",
        "venv/bin/python -m ziglang cc -target wasm32-wasi -mexec-model=reactor -std=c23 -Os -s NAME_.c rule_pack.c \
         rule_pack_component_type.o -o NAME.core.wasm",
    ],
    output: "NAME.core.wasm",
    ignored: "/venv\n*.core.wasm\n",
};

/// Every file of it.
pub(super) fn files(recipe: &Recipe, name: &str) -> Vec<NewFile> {
    let under = name.replace('-', "_");
    let named = |text: &str| text.replace(EXAMPLE, name).replace(&EXAMPLE.replace('-', "_"), &under);
    let written = |path: &str, text: &str| {
        let text = named(text);
        // a name of another length moves where a page breaks its lines
        NewFile::new(named(path), if path.ends_with(".reads.txt") { folded_anew(&text, name) } else { text })
    };
    let mut files: Vec<NewFile> = SHARED.iter().chain(recipe.files).map(|(path, text)| written(path, text)).collect();
    files.extend(recipe.binaries.iter().map(|(path, bytes)| NewFile::new(*path, *bytes)));
    files.extend(SCHEMAS.iter().map(|(path, text)| {
        // the tools look for the contract beside the source
        let folder = if path.ends_with(".wit") { "" } else { "schemas/" };
        NewFile::new(format!("{folder}{path}"), *text)
    }));
    let fill = |text: &str| text.replace("NAME_", &under).replace("NAME", name);
    let commands: Vec<String> = recipe.commands.iter().map(|c| fill(c)).collect();
    let output = fill(recipe.output);
    files.push(NewFile::new("README.md", readme(recipe, name, &commands, &output)));
    files.push(NewFile::script("check.sh", check(name, &commands, &output)));
    files.push(NewFile::new(".gitignore", recipe.ignored));
    files
}

/// What a user reads, with each sentence that begins with a rule's name folded as the page folds it.
fn folded_anew(text: &str, name: &str) -> String {
    let mut out = String::new();
    let mut lines = text.lines().peekable();
    while let Some(line) = lines.next() {
        if !line.starts_with(&format!("{name}/")) {
            out.push_str(line);
            out.push('\n');
            continue;
        }
        let mut sentence = line.to_owned();
        while let Some(more) = lines.next_if(|l| l.starts_with("  ")) {
            sentence.push(' ');
            sentence.push_str(more.trim_start());
        }
        out.push_str(&fill(&sentence, "", "  "));
    }
    out
}

fn readme(recipe: &Recipe, name: &str, commands: &[String], output: &str) -> String {
    format!(
        "# {name}\n\nA rule pack for `thou` in {}: a window and a finding, with invented figures. Their words are in \
         `manifest.json`, what they\nmust come to is in `cases/`. It needs {}.\n\n    {}\n    thou pack build {output} \
         --out {name}.wasm\n    thou pack test . --pack {name}.wasm\n    thou check SHEET.json --pack {name}.wasm\n\n\
         `sh check.sh` does it all but the last, for a CI.\n\n\
         - A rule has one file of cases, `cases/<rule>.cases.toml`: what it is given, and every limit, aim, argument and \
         word that it must come to, as arithmetic from its source (`low = \"4e-3 * {{bore.nominal}}\"`). Beside every limit \
         `thou pack test` puts a reading on each side. `schemas/cases.schema.json` has every column.\n\
         - The `.reads.txt` beside it is what its user reads, letter by letter. `thou pack test . --pack {name}.wasm \
         --write-reads` writes it again after a change on purpose: read the difference.\n\
         - A pack is given numbers in SI and gives numbers; it has no file, clock or network, and a component that imports \
         anything is refused.\n\
         - `thou pack new-rule bore-taper --judges bore.taper` says what another rule takes, and where it goes.\n\
         - An error or a trap costs the pack its whole answer: say that the rule cannot say.\n",
        recipe.language,
        recipe.needs,
        commands.join("\n    "),
    )
}

fn check(name: &str, commands: &[String], output: &str) -> String {
    format!(
        "#!/bin/sh\n# Builds the pack and holds it to its cases. THOU names the program where it is not on the \
         path.\nset -eu\ncd \"$(dirname \"$0\")\"\nthou=\"${{THOU:-thou}}\"\n{}\n\"$thou\" pack build {output} --out \
         {name}.wasm\n\"$thou\" pack test . --pack {name}.wasm\n",
        commands.join("\n")
    )
}

#[cfg(test)]
mod tests {
    use super::folded_anew;

    #[test]
    fn a_name_of_any_length_breaks_lines_where_the_page_does() {
        let of = |name: &str| {
            let text = "street\n------\nring-gaps/plain-iron does not apply: a street engine without an adder asks\n  \
                        little of its rings\n\nlook     plain iron\n         A plain iron top ring.\n";
            folded_anew(&text.replace("ring-gaps", name), name)
        };
        let rest = "\n\nlook     plain iron\n         A plain iron top ring.\n";
        for (name, lines) in [
            ("ours", "ours/plain-iron does not apply: a street engine without an adder asks little of\n  its rings"),
            (
                "our-shop",
                "our-shop/plain-iron does not apply: a street engine without an adder asks little\n  of its rings",
            ),
            (
                "the-shop-on-the-hill",
                "the-shop-on-the-hill/plain-iron does not apply: a street engine without an adder\n  asks little of its rings",
            ),
        ] {
            assert_eq!(of(name), format!("street\n------\n{lines}{rest}"));
            assert!(lines.lines().all(|l| l.len() <= 80));
        }
    }
}
