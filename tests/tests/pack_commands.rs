//! `thou pack new`, `build`, `test` and `inspect`, as a pack's author uses them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use std::path::{Path, PathBuf};
use thou_tests::{Run, file, made, thou};

/// A folder of the test's own, and what the program says without that folder's path.
struct Shop(tempfile::TempDir);

impl Shop {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }
    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }
    fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> String {
        let path = self.path(name);
        std::fs::create_dir_all(path.parent().unwrap()).unwrap();
        std::fs::write(&path, bytes).unwrap();
        path.display().to_string()
    }
    fn thou(&self, args: &[&str]) -> Run {
        let own = |a: &&str| a.replace("SHOP/", &format!("{}/", self.0.path().display()));
        let args: Vec<String> = args.iter().map(own).collect();
        let run = thou(&args.iter().map(String::as_str).collect::<Vec<_>>());
        let short = |text: &str| text.replace(&format!("{}/", self.0.path().display()), "SHOP/");
        // a message is folded to the width of a page, wherever the folder's long name lets it
        let err = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
        Run { exit: run.exit, out: short(&run.out), err: short(&err) }
    }
    /// The pack `ours`, as [`core`] has it, with this changed in its manifest.
    fn ours(&self, change: impl FnOnce(&mut Value)) {
        let mut manifest = manifest();
        change(&mut manifest);
        let component = made::component(core(""));
        self.write("ours.wasm", made::with_manifest(component, &manifest.to_string()));
    }
}

/// The manifest of the well-behaved pack of the sandbox's tests, under the name `ours` and with its first rule alone.
fn manifest() -> Value {
    let text = std::fs::read_to_string(file("tests/hostile/manifest.json")).unwrap();
    let mut manifest: Value = serde_json::from_str(&text.replace("\"?\"", "\"ours\"")).unwrap();
    manifest["rules"].as_array_mut().unwrap().truncate(1);
    manifest
}

/// That pack as a core module: it gives piston-to-wall 80 to 120 µm, never under 40, and says this when it
/// is asked to describe itself.
fn core(describe: &str) -> Vec<u8> {
    let mut text = std::fs::read_to_string(file("tests/hostile/good.wat")).unwrap();
    let quoted: String = describe.bytes().map(|b| format!("\\{b:02x}")).collect();
    for (was, is) in [
        ("(memory (export \"memory\") 1)", "(memory (export \"memory\") 2)".to_owned()),
        ("(i32 128 2 256 1", "(i32 128 1 256 1".to_owned()),
        (
            "#describe\") (result i32) (i32.const 0))",
            format!(
                "#describe\") (result i32) (i32.const 8))\n(data (i32.const 8) (i32 65536 {}))\n\
                 (data (i32.const 65536) \"{quoted}\")",
                describe.len()
            ),
        ),
    ] {
        assert!(text.contains(was), "{was}");
        text = text.replace(was, &is);
    }
    wat::parse_str(text).unwrap()
}

#[test]
fn a_new_pack_is_written_once_and_never_over_anything() {
    let shop = Shop::new();
    let run = shop.thou(&["pack", "new", "nine-mile", "--dir", "SHOP/packs/nine-mile"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(
        run.out,
        "SHOP/packs/nine-mile: a rule pack in Rust with one rule, in SHOP/packs/nine-mile/src/end_play.rs\n  \
         thou pack build SHOP/packs/nine-mile\n  thou pack test SHOP/packs/nine-mile\n  \
         thou check SHEET.json --pack nine-mile.wasm\n"
    );
    let source = std::fs::read_to_string(shop.path("packs/nine-mile/src/lib.rs")).unwrap();
    assert!(source.contains("\"nine-mile\"") && !source.contains("our-shop"), "{source}");
    std::fs::remove_file(shop.path("packs/nine-mile/Cargo.toml")).unwrap();
    std::fs::write(shop.path("packs/nine-mile/README.md"), "mine").unwrap();
    let run = shop.thou(&["pack", "new", "nine-mile", "--dir", "SHOP/packs/nine-mile"]);
    assert_eq!((run.exit, run.out.as_str()), (2, ""));
    assert_eq!(
        run.err,
        "SHOP/packs/nine-mile/Cargo.lock is there already, and nothing is written over it: choose another name or \
         another --dir"
    );
    assert!(!shop.path("packs/nine-mile/Cargo.toml").exists());
    assert_eq!(std::fs::read_to_string(shop.path("packs/nine-mile/README.md")).unwrap(), "mine");
}

#[test]
fn a_new_rule_is_written_once_and_put_in_the_list() {
    let shop = Shop::new();
    assert_eq!(shop.thou(&["pack", "new", "nine-mile", "--dir", "SHOP/nine-mile"]).exit, 0);
    let new_rule = ["pack", "new-rule", "bore-taper", "--judges", "bore.taper", "--operation", "block"];
    let new_rule = [&new_rule[..], &["--dir", "SHOP/nine-mile"]].concat();
    let run = shop.thou(&new_rule);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(
        run.out,
        "SHOP/nine-mile/src/bore_taper.rs: a rule with invented words and figures; what it must come to is in \
         bore_taper.cases.toml beside it\n\
         SHOP/nine-mile/src/lib.rs: bore_taper, at the end of the list: move it to its place in the order of the job\n  \
         thou pack test SHOP/nine-mile --write-reads\n"
    );
    let list = std::fs::read_to_string(shop.path("nine-mile/src/lib.rs")).unwrap();
    assert!(list.contains("thou_sdk::rules![end_play, bore_taper];"), "{list}");
    let rule = std::fs::read_to_string(shop.path("nine-mile/src/bore_taper.rs")).unwrap();
    for part in ["id: \"bore-taper\"", "title: \"Bore taper\"", "operation: \"block\"", "judges: &[\"bore.taper\"]"] {
        assert!(rule.contains(part), "{rule}");
    }
    let run = shop.thou(&new_rule);
    assert_eq!((run.exit, run.out.as_str()), (2, ""));
    assert_eq!(run.err, "SHOP/nine-mile/src/lib.rs: the rule bore_taper is in its list already");
}

#[test]
fn a_rule_that_cannot_be_started_is_told_why() {
    let shop = Shop::new();
    assert_eq!(shop.thou(&["pack", "new", "nine-mile", "--dir", "SHOP/nine-mile"]).exit, 0);
    for (args, why) in [
        (
            &["Bore Taper", "--judges", "bore.taper"][..],
            "\"Bore Taper\": a rule's name is lower-case letters, figures and dashes, and starts with a letter: bore-taper",
        ),
        (
            &["loop", "--judges", "bore.taper"],
            "\"loop\" is a word of Rust's own, and a rule has a file of its name: say more of what it is",
        ),
        (&["bore-taper"], "a window limits a fact: --judges bore.taper; `thou facts` lists them"),
        (&["bore-taper", "--judges", "bore.tapper"], "No fact is called \"bore.tapper\". Did you mean bore.taper"),
        (&["fuel", "--judges", "fuel"], "fuel is a choice, and a window limits a quantity: --kind finding"),
        (&["fuel", "--kind", "finding", "--judges", "fuel"], "--judges fuel: only a window judges a fact"),
    ] {
        let run = shop.thou(&[&["pack", "new-rule", "--dir", "SHOP/nine-mile"], args].concat());
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{args:?}");
        let told = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(told.starts_with(why), "{told}");
    }
    let run = shop.thou(&["pack", "new-rule", "play", "--kind", "step", "--dir", "SHOP"]);
    assert!(run.exit == 2 && run.err.contains("it is no pack's folder"), "{}", run.err);
}

/// A pack that is not in Rust is left alone, and where its next rule goes is said.
#[test]
fn where_a_rule_of_another_language_goes_is_told() {
    let shop = Shop::new();
    assert_eq!(shop.thou(&["pack", "new", "nine-mile", "--in", "python", "--dir", "SHOP/nine-mile"]).exit, 0);
    let run = shop.thou(&["pack", "new-rule", "bore-taper", "--judges", "bore.taper", "--dir", "SHOP/nine-mile"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    for part in ["nothing was written", "manifest.json", "\"judges\": [\"bore.taper\"]", "cases/bore-taper.cases.toml"]
    {
        assert!(run.out.contains(part), "{}", run.out);
    }
}

#[test]
fn a_name_that_a_pack_cannot_have_is_told() {
    let shop = Shop::new();
    let run = shop.thou(&["pack", "new", "Our Shop", "--dir", "SHOP/x"]);
    assert_eq!(run.exit, 2);
    assert_eq!(
        run.err,
        "\"Our Shop\": a pack's name is lower-case letters, figures and dashes, and starts with a letter: our-shop"
    );
    let run = shop.thou(&["pack", "new", "freshen", "--dir", "SHOP/x"]);
    assert_eq!(run.err, "\"freshen\": that name is taken: choose another, such as our-shop");
    assert!(!shop.path("x").exists());
}

#[test]
fn the_cases_of_every_built_in_pack_hold_in_the_sandbox() {
    for pack in ["clearances", "usage-class", "freshen"] {
        let (folder, built) = (format!("rulepacks/{pack}"), format!("rulepacks/built/{pack}.wasm"));
        let (folder, built) = (file(&folder), file(&built));
        let run = thou(&["pack", "test", folder.to_str().unwrap(), "--pack", built.to_str().unwrap()]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{}", run.out);
        let count: usize = run.out.split(' ').nth(2).unwrap().parse().unwrap();
        assert!(count > 100 && run.out.ends_with(" hold in the sandbox\n"), "{}", run.out);
    }
}

/// The example pack in C and in Rust as it is kept; CI builds it in every language and asks the same.
#[test]
fn the_cases_of_the_example_hold_in_another_language() {
    for language in ["c", "rust"] {
        let pack = file(&format!("tests/compat/rules-1.0/ring-gaps-{language}.wasm"));
        let run =
            thou(&["pack", "test", file("rulepacks/examples").to_str().unwrap(), "--pack", pack.to_str().unwrap()]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{language}");
        assert_eq!(run.out, "ring-gaps 0.1.0: 9 cases of 2 rules hold in the sandbox\n", "{language}");
    }
}

#[test]
fn a_new_pack_in_another_language_is_the_example_under_its_own_name() {
    let shop = Shop::new();
    for (language, source, sources) in
        [("javascript", "nine-mile.js", 4), ("python", "nine_mile.py", 2), ("c", "nine_mile.c", 5)]
    {
        let folder = format!("SHOP/{language}");
        let run = shop.thou(&["pack", "new", "nine-mile", "--in", language, "--dir", &folder]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        let read = |name: &str| std::fs::read_to_string(shop.path(&format!("{language}/{name}"))).unwrap();
        let manifest: Value = serde_json::from_str(&read("manifest.json")).unwrap();
        valid("schemas/pack.schema.json", &manifest);
        assert_eq!(manifest["id"], "nine-mile");
        let own = file(&format!(
            "rulepacks/examples/{language}/{}",
            source.replace("nine-mile", "ring-gaps").replace("nine_mile", "ring_gaps")
        ));
        let own = std::fs::read_to_string(own).unwrap();
        assert_eq!(read(source), own.replace("ring-gaps", "nine-mile").replace("ring_gaps", "nine_mile"));
        assert!(read("check.sh").contains("pack test . --pack nine-mile.wasm"));
        let of_language = std::fs::read_dir(file(&format!("rulepacks/examples/{language}"))).unwrap().count() - 1;
        assert_eq!(of_language, sources, "{language}");
        for name in ["README.md", "rules-1.0.wit", "schemas/cases.schema.json", "cases/top-gap.cases.toml"] {
            assert!(!read(name).is_empty(), "{language} {name}");
        }
        assert!(!read("README.md").contains("NAME") && !read("check.sh").contains("NAME"), "{language}");
        // the text beside the cases has the pack's own name
        assert!(read("cases/top-gap.reads.txt").contains("nine-mile/top-gap"), "{language}");
    }
}

#[test]
fn a_new_table_is_judged_with_at_once_and_has_its_schema_beside_it() {
    let shop = Shop::new();
    let run = shop.thou(&["pack", "new", "nine-mile", "--table", "--dir", "SHOP/t"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    let text = std::fs::read_to_string(shop.path("t/nine-mile.json")).unwrap();
    assert!(text.contains("\n{\n  \"$schema\": \"schemas/table.schema.json\",\n  \"table\": \"nine-mile\""), "{text}");
    assert!(shop.path("t/schemas/table.schema.json").is_file());
    let run = shop.thou(&["pack", "inspect", "SHOP/t/nine-mile.json", "--sheet", "sample-builds/bracket.json"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert!(
        run.out.starts_with("nine-mile 1   common practice, to be edited   (SHOP/t/nine-mile.json)\n"),
        "{}",
        run.out
    );
    let run = shop.thou(&["pack", "build", "SHOP/t/nine-mile.json", "--out", "SHOP/nine-mile.wasm"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(shop.thou(&["pack", "new", "nine-mile", "--table", "--in", "c", "--dir", "SHOP/u"]).exit, 2);
}

#[test]
fn a_new_table_holds_to_its_cases_and_a_changed_number_does_not() {
    let shop = Shop::new();
    let run = shop.thou(&["pack", "new", "nine-mile", "--table", "--dir", "SHOP/t"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    for pack in ["SHOP/t/nine-mile.json", "SHOP/t"] {
        let run = shop.thou(&["pack", "test", pack]);
        let hold = "nine-mile 1: 81 cases of 36 rules hold in the sandbox\n";
        assert_eq!((run.exit, run.out.as_str(), run.err.as_str()), (0, hold, ""));
    }
    let table = std::fs::read_to_string(shop.path("t/nine-mile.json")).unwrap();
    let street = "\"{use} == 'street' ? 0.5 thou : {use} == 'bracket' ? 0.3 thou : 0.2 thou\"";
    assert!(table.contains(street));
    shop.write("t/nine-mile.json", table.replacen(street, &street.replace("0.5", "0.51"), 1));
    let run = shop.thou(&["pack", "test", "SHOP/t"]);
    assert_eq!((run.exit, run.out.as_str()), (1, "nine-mile 1: 81 cases of 36 rules, 1 fault\n"), "{}", run.err);
    assert!(run.err.contains("high is 0.51 thou; wanted 0.50 thou (\"0.5 thou\"): correct the rule"), "{}", run.err);
    // what is spoken of in its README is there
    let readme = std::fs::read_to_string(shop.path("t/README.md")).unwrap();
    let cases = std::fs::read_to_string(shop.path("t/cases/bore-taper.cases.toml")).unwrap();
    for text in [readme, cases] {
        assert!(text.contains("high = \"0.5 thou\""), "{text}");
    }
    // and so does a case that wants another number, or none
    shop.write("t/nine-mile.json", table);
    let cases = std::fs::read_to_string(shop.path("t/cases/bore-taper.cases.toml")).unwrap();
    for (wrong, told) in [
        (cases.replacen("0.5 thou", "77 thou", 1), "high is 0.5 thou; wanted 77.0 thou (\"77 thou\")"),
        (cases.replacen("high = \"0.5 thou\", ", "", 1), "it gives high 0.5 thou, and the case does not say so"),
    ] {
        shop.write("t/cases/bore-taper.cases.toml", wrong);
        let run = shop.thou(&["pack", "test", "SHOP/t"]);
        assert_eq!(run.exit, 1);
        assert!(run.err.contains(told), "{}", run.err);
    }
}

/// What `ours` gives, from 80 to 120 µm and never under 40.
const GOOD: &str = "[[case]]
name = \"any bore\"
given = { \"bore.nominal\" = \"4.155 in\" }
window = { never-below = \"40 µm\", low = \"80 µm\", aim = \"({low} + {high}) / 2\", high = \"120 µm\" }
";

#[test]
fn a_pack_is_held_to_its_cases_and_to_what_its_user_reads() {
    let shop = Shop::new();
    shop.ours(|m| m["rules"][0]["hold-basis"] = json!("physics"));
    shop.write("cases/piston-to-wall.cases.toml", GOOD);
    let run = shop.thou(&["pack", "test", "SHOP/ours.wasm"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(run.out, "ours 1.0.0: 1 case of 1 rule hold in the sandbox\n");

    let run = shop.thou(&["pack", "test", "SHOP/ours.wasm", "--write-reads"]);
    assert_eq!(run.out, "ours 1.0.0: 1 case of 1 rule hold in the sandbox, 1 text written\n");
    let reads = "cases/piston-to-wall.reads.txt";
    let text = std::fs::read_to_string(shop.path(reads)).unwrap();
    insta::assert_snapshot!("pack-test-text", text);
    assert_eq!(shop.thou(&["pack", "test", "SHOP/ours.wasm"]).exit, 0);

    // other words, another text
    let line = text.lines().position(|l| l.contains("Why:")).unwrap() + 1;
    shop.write(reads, text.replace("Why:", "Because:"));
    let run = shop.thou(&["pack", "test", "SHOP/ours.wasm"]);
    assert_eq!((run.exit, run.out.as_str()), (1, "ours 1.0.0: 1 case of 1 rule, 1 fault\n"));
    let told =
        format!("SHOP/{reads}:{line}: a user reads another text; --write-reads takes it (- wanted, + got) - Because:");
    assert!(run.err.starts_with(&told), "{}", run.err);
    std::fs::remove_file(shop.path(reads)).unwrap();

    // numbers that it does not give, and one that the case leaves out, whatever language it is written in
    for (from, to, told) in [
        (
            "80 µm",
            "77 thou",
            "low is 3.1 thou; wanted 77.0 thou (\"77 thou\"): correct the rule, or the case by its source",
        ),
        (
            ", aim = \"({low} + {high}) / 2\"",
            "",
            "it gives aim 3.9 thou, and the case does not say so: work it out from its source and write aim = \"..\", or take \
             it out of the rule",
        ),
        ("high = \"120 µm\"", "high = \"120 µm\", never = \"look\"", "\"never\" is no column of a window; these are: "),
    ] {
        shop.write("cases/piston-to-wall.cases.toml", GOOD.replace(from, to));
        let run = shop.thou(&["pack", "test", "SHOP/ours.wasm"]);
        assert_eq!(run.exit, 1);
        let at = "SHOP/cases/piston-to-wall.cases.toml:4: rule piston-to-wall, case \"any bore\": ";
        assert!(run.err.starts_with(&format!("{at}{told}")), "{}", run.err);
    }
}

#[test]
fn what_cannot_be_tested_says_why() {
    let shop = Shop::new();
    let told = |args: &[&str]| {
        let run = shop.thou(args);
        (run.exit, run.err.replace(&shop.0.path().display().to_string(), "SHOP"))
    };
    assert_eq!(told(&["pack", "test", "SHOP/none"]), (2, "SHOP/none: there is no such folder or file".to_owned()));
    std::fs::create_dir(shop.path("empty")).unwrap();
    assert_eq!(
        told(&["pack", "test", "SHOP/empty"]),
        (
            2,
            "SHOP/empty: no Cargo.toml, no .wasm file and no table is in it. Name the built pack: `thou pack test \
             SHOP/empty --pack FILE`"
                .to_owned()
        )
    );
    shop.ours(|_| ());
    assert_eq!(
        told(&["pack", "test", "SHOP/ours.wasm"]),
        (
            2,
            "SHOP: there are no cases. They are in a file a rule, beside its source or in the folder `cases`, such as \
             cases/piston-to-wall.cases.toml"
                .to_owned()
        )
    );
    std::fs::copy(shop.path("ours.wasm"), shop.path("theirs.wasm")).unwrap();
    let (exit, err) = told(&["pack", "test", &shop.0.path().display().to_string()]);
    assert_eq!(exit, 2);
    assert!(err.contains("which of SHOP/ours.wasm, SHOP/theirs.wasm is the pack? Name it"), "{err}");
}

/// What a panicking rule says reaches the one who tests it and the one who runs it, word for word.
#[test]
fn a_panic_in_rust_arrives_in_its_own_words() {
    let words = "panicked at panics/src/lib.rs:19:9: no sleeve is made for a bore of 55.0 mm";
    let shop = Shop::new();
    std::fs::copy(file("tests/packs/panics.wasm"), shop.path("panics.wasm")).unwrap();
    shop.write(
        "cases/sleeve.cases.toml",
        "[[case]]\nname = \"small\"\ngiven.\"bore.nominal\" = \"55 mm\"\nwindow = { low = \"55 µm\" }\n",
    );
    let run = shop.thou(&["pack", "test", "SHOP/panics.wasm"]);
    assert_eq!(run.exit, 1);
    assert_eq!(
        run.err,
        format!(
            "SHOP/cases/sleeve.cases.toml:1: rule sleeve, case \"small\": it stopped in the middle: {words}; run the rule's \
             cases natively, where a panic has its place and its words; answer cannot-say instead."
        )
    );
    // and of a build
    let pack = thou::packs::load_file(&shop.path("panics.wasm")).unwrap();
    let places = |_: &str| Some(1);
    let given = thou::packs::Given { starts: &[0, 1], values: &[0.055], places: &places };
    assert_eq!(
        pack.assess(&[0], &given).unwrap_err().to_string().split_whitespace().collect::<Vec<_>>().join(" "),
        format!(
            "pack panics: it stopped in the middle: {words} None of its rules is judged in this report; the other \
             packs' results stand. Run without it, or send its author this text and the sheet. For its author: run \
             the rule's cases natively, where a panic has its place and its words; answer cannot-say instead."
        )
    );
    let given = thou::packs::Given { values: &[0.105], ..given };
    assert_eq!(pack.assess(&[0], &given).unwrap().windows[0].what.low, Some(0.105 * 0.001));
}

#[test]
fn what_other_tools_made_becomes_a_pack() {
    let shop = Shop::new();
    // a core module without generated bindings, and one whose component has no manifest yet
    let described = core(&manifest().to_string());
    shop.write("bare.wasm", made::component(described.clone()));
    shop.write("core.wasm", described);
    for input in ["core", "bare"] {
        let run = shop.thou(&["pack", "build", &format!("SHOP/{input}.wasm"), "--out", "SHOP/good.wasm"]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{input}");
        assert!(run.out.starts_with("SHOP/good.wasm   "), "{}", run.out);
        assert_eq!(thou::packs::load_file(&shop.path("good.wasm")).unwrap().manifest.id, "ours");
    }
    let run = shop.thou(&["pack", "build", "SHOP/core.wasm", "--out", "SHOP/good.wasm", "--check"]);
    assert_eq!((run.exit, run.out.as_str()), (0, "SHOP/good.wasm: as its sources have it\n"));
    shop.write("good.wasm", made::component(core("")));
    let run = shop.thou(&["pack", "build", "SHOP/core.wasm", "--out", "SHOP/good.wasm", "--check"]);
    assert_eq!((run.exit, run.err.as_str()), (3, "ours: SHOP/good.wasm is not what this gives"));
    let run = shop.thou(&["pack", "build", "SHOP/core.wasm", "--out", "SHOP/core.wasm"]);
    assert_eq!(
        (run.exit, run.err.as_str()),
        (2, "SHOP/core.wasm would be written over what it is made from: name another with --out")
    );
}

#[test]
fn what_is_no_pack_is_told_what_it_is() {
    let shop = Shop::new();
    shop.write("notes.txt", "bore 4.155\n");
    shop.write("wasi.wasm", wat::parse_str(r#"(module (import "wasi_snapshot_preview1" "fd_write" (func)))"#).unwrap());
    shop.write("other.wasm", wat::parse_str("(module (func (export \"run\")))").unwrap());
    shop.write("silent.wasm", core(""));
    shop.write("empty/README", "");
    shop.ours(|_| ());
    let mut page = String::new();
    for name in ["notes.txt", "wasi.wasm", "other.wasm", "silent.wasm", "empty", "ours.wasm", "missing"] {
        let run = shop.thou(&["pack", "build", &format!("SHOP/{name}"), "--out", "SHOP/out.wasm"]);
        assert_eq!((run.exit, run.out.as_str()), (3, ""), "{name}");
        page.push_str(&format!("$ thou pack build {name}\n{}\n", run.err));
    }
    assert!(!shop.path("out.wasm").exists());
    insta::assert_snapshot!("pack-build-refused", page);
}

fn valid(schema: &str, value: &Value) {
    let schema: Value = serde_json::from_str(&std::fs::read_to_string(file(schema)).unwrap()).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    let faults: Vec<String> = validator.iter_errors(value).map(|e| format!("{}: {e}", e.instance_path())).collect();
    assert!(faults.is_empty(), "{faults:#?}");
}

#[test]
fn a_pack_is_shown_without_running_it() {
    let shop = Shop::new();
    shop.ours(|m| {
        m["facts"] = json!([
            { "id": "bore.nominal", "kind": "length", "axis": "one" },
            { "id": "bore.colour", "kind": "ratio", "axis": "one" },
            { "id": "rod.length", "kind": "clearance", "axis": "rod" },
            { "id": "extra.ours.sleeve", "kind": "length", "axis": "one" }
        ]);
        m["inputs"] = json!([{ "id": "extra.ours.sleeve", "kind": "length", "about": "The sleeve's wall." }]);
        m["uses"] = json!([{ "id": "pulling", "title": "Pulling", "about": "A sled.", "like": "all-out" }]);
        m["defaults"] = json!([{ "fact": "bore.nominal", "value": "4 in", "source": "our usual block" }]);
        m["rules"][0]["supersedes"] = json!(["clearances/piston-to-wall"]);
    });
    let run = shop.thou(&["pack", "inspect", "SHOP/ours.wasm"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    insta::assert_snapshot!("pack-inspect", run.out);
    let run = shop.thou(&["pack", "inspect", "SHOP/ours.wasm", "--format", "json"]);
    let shown: Value = serde_json::from_str(&run.out).unwrap();
    valid("schemas/inspect.schema.json", &shown);
    valid("schemas/pack.schema.json", &shown["manifest"]);
    assert_eq!(shown["cost"], json!([]));
}

#[test]
fn what_an_answer_takes_is_counted_over_a_sheet_or_the_cases() {
    let built = file("rulepacks/built/clearances.wasm");
    let sheet = "sample-builds/bracket.json";
    let inspect = |args: &[&str]| {
        let all = [&["pack", "inspect", built.to_str().unwrap(), "--format", "json"], args].concat();
        let run = thou(&all);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        serde_json::from_str::<Value>(&run.out).unwrap()
    };
    let (first, second) = (inspect(&["--sheet", sheet]), inspect(&["--sheet", sheet]));
    valid("schemas/inspect.schema.json", &first);
    // instructions are counted, not timed
    assert_eq!(first["cost"], second["cost"]);
    let used = |value: &Value, what: &str| {
        let costs = value["cost"].as_array().unwrap();
        costs.iter().find(|c| c["what"] == what).unwrap()["used"].as_u64().unwrap()
    };
    // every answered rule gives something, each instruction stands for something done, and the least memory is a page
    let windows = thou_tests::judge(&thou_tests::sheet_of(sheet)).windows;
    let of_pack = windows.iter().filter(|w| w.rule.starts_with("clearances/")).count() as u64;
    assert!(used(&first, "items") >= of_pack && of_pack > 30, "{} {of_pack}", used(&first, "items"));
    assert!(used(&first, "instructions") > used(&first, "items"), "{first}");
    assert!(used(&first, "memory") >= 65_536 && used(&first, "memory") % 65_536 < 65_536, "{first}");

    let shop = Shop::new();
    shop.ours(|_| ());
    shop.write("cases/piston-to-wall.cases.toml", GOOD);
    let run = shop.thou(&["pack", "inspect", "SHOP/ours.wasm"]);
    assert!(run.out.contains("WHAT AN ANSWER TAKES, over the cases in "), "{}", run.out);
}

#[test]
fn a_refused_pack_says_so_to_its_user_and_its_author() {
    let shop = Shop::new();
    shop.write("core.wasm", core(""));
    let run = shop.thou(&["pack", "inspect", "SHOP/core.wasm"]);
    assert_eq!(run.exit, 3);
    assert_eq!(
        run.err,
        "pack SHOP/core.wasm: it is not a WebAssembly component but a core module Give the .wasm file that `thou pack \
         build` wrote; this one is something else. For its author: `thou pack build` makes a component out of a Rust \
         crate's folder, and out of the core module that another language's tools made."
    );
}

#[test]
fn every_file_of_cases_is_of_its_schema() {
    let schema: Value =
        serde_json::from_str(&std::fs::read_to_string(file("schemas/cases.schema.json")).unwrap()).unwrap();
    let validator = jsonschema::draft202012::new(&schema).unwrap();
    fn list(folder: &Path, found: &mut Vec<PathBuf>) {
        for entry in std::fs::read_dir(folder).unwrap().flatten() {
            if entry.path().is_dir() {
                list(&entry.path(), found);
            } else if entry.file_name().to_string_lossy().ends_with(".cases.toml") {
                found.push(entry.path());
            }
        }
    }
    let mut files = Vec::new();
    for folder in ["clearances/src", "usage-class/src", "freshen/src", "starter/src", "examples/cases", "tables/cases"]
    {
        list(&file(&format!("rulepacks/{folder}")), &mut files);
    }
    for path in &files {
        let value: Value = toml::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
        let faults: Vec<String> = validator.iter_errors(&value).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{}: {faults:?}", path.display());
    }
    assert!(files.len() > 200, "{}", files.len());
    let case = |row: Value| json!({ "case": [{ "name": "street", "window": row }] });
    assert!(validator.is_valid(&case(json!({ "low": "4 thou" }))));
    for wrong in [json!({ "lows": "4 thou" }), json!([]), json!({ "low": [4] }), json!({ "low": "4 thou", "place": 0 })]
    {
        assert!(!validator.is_valid(&case(wrong.clone())), "{wrong}");
    }
}

/// What DEVELOPERS.md calls a whole pack is the one that `pack new` writes, which is compiled and held to its cases.
#[test]
fn the_smallest_pack_in_the_guide_is_the_starter() {
    let guide = std::fs::read_to_string(file("DEVELOPERS.md")).unwrap();
    let mut lines = 0;
    for source in ["lib.rs", "end_play.rs"] {
        let source = std::fs::read_to_string(file(&format!("rulepacks/starter/src/{source}"))).unwrap();
        assert!(
            guide.contains(&format!("```rust\n{source}```\n")),
            "DEVELOPERS.md has another pack than rulepacks/starter"
        );
        lines += source.lines().count();
    }
    assert!(lines < 40, "the smallest pack is {lines} lines");
}

/// The whole way of a pack's author, which takes a compiler for WebAssembly; `.ci/run` has one and sets
/// `THOU_WASM_TOOLCHAIN`.
#[test]
fn a_new_pack_builds_and_holds() {
    if std::env::var_os("THOU_WASM_TOOLCHAIN").is_none() && !has_target() {
        println!("skipped: no wasm32-unknown-unknown here (rustup target add wasm32-unknown-unknown)");
        return;
    }
    let shop = Shop::new();
    assert_eq!(shop.thou(&["pack", "new", "nine-mile", "--dir", "SHOP/nine-mile"]).exit, 0);
    let built = shop.thou(&["pack", "build", "SHOP/nine-mile", "--out", "SHOP/nine-mile.wasm"]);
    assert_eq!((built.exit, built.err.as_str()), (0, ""));
    let run = shop.thou(&["pack", "test", "SHOP/nine-mile", "--pack", "SHOP/nine-mile.wasm"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(run.out, "nine-mile 0.1.0: 3 cases of 1 rule hold in the sandbox\n");
    // the folder is built and asked in one step, too, and gives the same
    let run = shop.thou(&["pack", "test", "SHOP/nine-mile"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    let pack = shop.path("nine-mile.wasm").display().to_string();
    let spec = thou(&["spec", "sample-builds/bracket.json", "--pack", &pack]);
    assert_eq!(spec.exit, 0);
    // a rule of each kind is started in it, and holds before a line of it is changed
    for rule in [
        &["bore-taper", "--judges", "bore.taper"][..],
        &["oil-hot", "--judges", "oil.temperature"],
        &["odd-fuel", "--kind", "finding"],
        &["wash-it", "--kind", "step", "--operation", "assembly"],
    ] {
        let run = shop.thou(&[&["pack", "new-rule", "--dir", "SHOP/nine-mile"], rule].concat());
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
    }
    let run = shop.thou(&["pack", "test", "SHOP/nine-mile", "--write-reads"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(run.out, "nine-mile 0.1.0: 7 cases of 5 rules hold in the sandbox, 4 texts written\n");
    // a limit that is moved fails a case
    let source = std::fs::read_to_string(shop.path("nine-mile/src/end_play.rs")).unwrap();
    shop.write("nine-mile/src/end_play.rs", source.replace("thou(8.0)", "thou(8.1)"));
    let run = shop.thou(&["pack", "test", "SHOP/nine-mile"]);
    assert_eq!(run.exit, 1);
    assert!(
        run.err.contains(
            "src/end_play.cases.toml:6: rule end-play, case \"street\": high is 8.1 thou; wanted 8.0 thou (\"8 thou\")"
        ),
        "{}",
        run.err
    );
}

fn has_target() -> bool {
    let rustc = std::env::var_os("RUSTC").unwrap_or_else(|| "rustc".into());
    let sysroot = std::process::Command::new(rustc).args(["--print", "sysroot"]).output().unwrap().stdout;
    let sysroot = PathBuf::from(String::from_utf8(sysroot).unwrap().trim());
    sysroot.join(Path::new("lib/rustlib/wasm32-unknown-unknown/lib")).is_dir()
}
