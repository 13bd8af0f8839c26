//! Starting one rule in a pack that is there: the file of the rule, its cases beside it, its name in the
//! pack's list.

mod start;
mod template;

use super::new;
use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use crate::facts::{Catalogue, ValueKind};
use crate::packs::clean::clean;
use start::{Answers, Start};
use std::path::{Path, PathBuf};
use thou_contract::{Kind, OPERATIONS};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct NewRule {
    /// The rule's name, in lower-case letters, figures and dashes: bore-taper
    name: String,
    /// What it answers with
    #[arg(long, value_name = "KIND", value_enum, default_value_t = Answers::Window)]
    kind: Answers,
    /// The fact that a window limits; `thou facts` lists them
    #[arg(long, value_name = "FACT")]
    judges: Option<String>,
    /// The page it belongs on, in the order of the job
    #[arg(long, value_name = "PAGE", default_value = "receiving", value_parser = OPERATIONS)]
    operation: String,
    /// The pack's folder
    #[arg(long, value_name = "FOLDER", default_value = ".")]
    dir: PathBuf,
}

pub(super) fn new_rule(args: &NewRule, io: &mut Io<'_>) -> Exit {
    match written(args) {
        Ok(said) => {
            io.say(&said);
            Exit::FINE
        }
        Err(why) => {
            io.complain(&folded(&why));
            Exit::INVALID
        }
    }
}

/// Writes the rule and says what was written, or says where to write it by hand.
fn written(args: &NewRule) -> Result<String, String> {
    let start = start(args)?;
    let folder = &args.dir;
    let list = folder.join("src/lib.rs");
    if let Ok(source) = std::fs::read_to_string(&list) {
        return rust(folder, &list, &source, &start);
    }
    if folder.join("manifest.json").is_file() {
        return Ok(template::by_hand(folder, &start));
    }
    Err(format!(
        "{}: there is neither src/lib.rs nor manifest.json, so it is no pack's folder: `thou pack new` makes one, and a \
         table's rule is one more entry of its \"rules\"",
        folder.display()
    ))
}

fn start(args: &NewRule) -> Result<Start<'_>, String> {
    let id = args.name.as_str();
    if !new::is_kebab(id) {
        return Err(format!(
            "\"{}\": a rule's name is lower-case letters, figures and dashes, and starts with a letter: bore-taper",
            clean(id)
        ));
    }
    let module = id.replace('-', "_");
    if KEYWORDS.contains(&module.as_str()) {
        return Err(format!(
            "\"{id}\" is a word of Rust's own, and a rule has a file of its name: say more of what it is"
        ));
    }
    let judges = match (args.kind == Answers::Window, args.judges.as_deref()) {
        (true, Some(fact)) => Some((fact, kind_of(fact)?)),
        (true, None) => {
            return Err("a window limits a fact: --judges bore.taper; `thou facts` lists them".to_owned());
        }
        (false, Some(fact)) => {
            return Err(format!("--judges {}: only a window judges a fact", clean(fact)));
        }
        (false, None) => None,
    };
    Ok(Start { id, module, answers: args.kind, operation: &args.operation, judges })
}

fn kind_of(fact: &str) -> Result<Kind, String> {
    let catalogue = Catalogue::standard();
    match catalogue.info(fact).map(|info| info.value) {
        Some(ValueKind::Quantity(kind)) => Ok(kind),
        Some(other) => Err(format!("{fact} is a {}, and a window limits a quantity: --kind finding", other.id())),
        None => Err(crate::cli::facts::unknown(catalogue, fact)),
    }
}

/// The pack's folder gets the rule's file, its cases and its place in the list.
fn rust(folder: &Path, list: &Path, source: &str, start: &Start<'_>) -> Result<String, String> {
    let listed = listed(source, &start.module).map_err(|why| format!("{}: {why}", list.display()))?;
    let own = |end: &str| folder.join(format!("src/{}{end}", start.module));
    let mut files = vec![(own(".rs"), template::rule(start)), (own(".cases.toml"), template::cases(start))];
    // nothing is written before it is known that nothing is written over
    if let Some((there, _)) = files.iter().find(|(path, _)| path.exists()) {
        return Err(format!("{} is there already, and nothing is written over it", there.display()));
    }
    files.push((list.to_owned(), listed));
    for (path, text) in &files {
        write(path, text).map_err(|error| format!("{} cannot be written: {error}", path.display()))?;
    }
    Ok(template::said(folder, start))
}

fn write(path: &Path, text: &str) -> std::io::Result<()> {
    if let Some(parent) = path.parent() {
        std::fs::create_dir_all(parent)?;
    }
    std::fs::write(path, text)
}

/// The pack's list of rules with one more at its end.
fn listed(source: &str, module: &str) -> Result<String, String> {
    const OPENS: &str = "rules![";
    let none = "it has no list `thou_sdk::rules![..]` to put the rule in";
    let open = source.find(OPENS).ok_or(none)? + OPENS.len();
    let (before, rest) = source.split_at_checked(open).ok_or(none)?;
    let (rules, after) = rest.split_once(']').ok_or(none)?;
    if rules.split([',', '\n']).any(|rule| rule.trim() == module) {
        return Err(format!("the rule {module} is in its list already"));
    }
    let kept = rules.trim_end().trim_end_matches(',');
    let rules = match (kept.trim().is_empty(), kept.contains('\n')) {
        (true, _) => module.to_owned(),
        (false, false) => format!("{kept}, {module}"),
        (false, true) => format!("{kept},\n    {module},\n"),
    };
    Ok(format!("{before}{rules}]{after}"))
}

/// Words that no module of Rust can be called, as far as a rule could be.
const KEYWORDS: [&str; 45] = [
    "abstract", "as", "async", "await", "become", "box", "break", "const", "continue", "crate", "do", "dyn", "else",
    "enum", "extern", "false", "final", "fn", "for", "gen", "if", "impl", "in", "let", "loop", "match", "mod", "move",
    "mut", "priv", "pub", "ref", "return", "static", "struct", "super", "trait", "true", "try", "type", "typeof",
    "unsafe", "unsized", "virtual", "where",
];

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::listed;

    #[test]
    fn a_rule_is_put_at_the_end_of_the_list() {
        for (was, is) in [
            ("thou_sdk::rules![];", "thou_sdk::rules![bore_taper];"),
            ("thou_sdk::rules![end_play];", "thou_sdk::rules![end_play, bore_taper];"),
            (
                "thou_sdk::rules![\n    end_play,\n    crush,\n];\nrest[]",
                "thou_sdk::rules![\n    end_play,\n    crush,\n    bore_taper,\n];\nrest[]",
            ),
        ] {
            assert_eq!(listed(was, "bore_taper").unwrap(), is);
        }
        assert_eq!(
            listed("thou_sdk::rules![bore_taper];", "bore_taper").unwrap_err(),
            "the rule bore_taper is in its list already"
        );
        assert!(listed("rules: &[&END_PLAY]", "bore_taper").is_err());
    }
}
