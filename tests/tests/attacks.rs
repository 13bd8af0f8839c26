//! Tables and packs that try to loosen a hold, to pass for somebody else, to stand in another's place, to get in by
//! themselves, or to bring back an older build: each with the exact words that the user reads (`snapshots/attacks__*`).
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use sha2::{Digest, Sha256};
use std::path::{Path, PathBuf};
use thou::packs::signature;
use thou_tests::{Run, changed, made, thou};

/// A sheet's folder, with what somebody put into it.
struct Folder(tempfile::TempDir);

impl Folder {
    /// A copy of a sample, changed.
    fn new(sample: &str, change: impl FnOnce(&mut Value)) -> Self {
        Self(changed(sample, change).0)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> &Self {
        std::fs::write(self.path(name), bytes).unwrap();
        self
    }

    /// A table with these rules.
    fn table(&self, id: &str, title: &str, rules: &Value) -> &Self {
        self.write(&format!("{id}.json"), json!({ "table": id, "title": title, "rules": rules }).to_string())
    }

    /// Runs `thou`; a file named with `./` is of this folder, which is left out of what comes back.
    fn run(&self, args: &str) -> Run {
        let folder = format!("{}/", self.0.path().display());
        let args: Vec<String> = args.split(' ').map(|a| a.replace("./", &folder)).collect();
        let mut run = thou(&args.iter().map(String::as_str).collect::<Vec<_>>());
        run.out = run.out.replace(&folder, "");
        run.err = run.err.replace(&folder, "");
        run
    }

    /// The check with these packs: its status, what stands at the top, and what it says of replaced rules.
    fn check(&self, packs: &[&str]) -> (u8, String) {
        let named: String = packs.iter().map(|p| format!(" --pack ./{p}")).collect();
        let run = self.run(&format!("check ./sheet.json{named}"));
        (
            run.exit,
            format!(
                "exit status {}\n{}",
                run.exit,
                top(&run.out) + &idle(&run.out) + &replaced(&run.out) + &faults(&run)
            ),
        )
    }
}

/// What stands above the first empty line, without the head.
fn top(page: &str) -> String {
    page.split("\n\n").next().unwrap().lines().skip(1).map(|l| format!("{l}\n")).collect()
}

/// What is said of an entry that nothing needs.
fn idle(page: &str) -> String {
    let parts = page.split("\n\n").filter(|part| part.contains("host/looser"));
    parts.map(|part| format!("\n{}\n", part.trim())).collect()
}

fn replaced(page: &str) -> String {
    let section = page.split("\nREPLACED:").nth(1).and_then(|rest| rest.split("\n\n").next());
    section.map(|s| format!("\nREPLACED:{s}\n")).unwrap_or_default()
}

/// The faults of packs, up to the next part of the page.
fn faults(run: &Run) -> String {
    let packs = run.out.split("\n\n").filter(|part| part.trim_start().starts_with("pack "));
    let table = run.out.split("\ntable ").nth(1).and_then(|rest| rest.split("\nNothing of this table").next());
    let table = table.map(|page| format!("\ntable {}\n", page.trim_end())).unwrap_or_default();
    packs.map(|part| format!("\n{}\n", part.trim())).collect::<String>() + &table + &run.err
}

/// A rule that stands in for another with these windows.
fn rule(id: &str, other: &str, windows: Value) -> Value {
    json!({ "id": id, "supersedes": [other], "windows": windows })
}

/// A finding that never comes, in another rule's stead.
fn never(id: &str, other: &str) -> Value {
    json!({ "id": id, "supersedes": [other], "when": "false", "finding": { "words": "-" } })
}

fn entry(rule: &str, instead: &str) -> Value {
    json!({ "rule": rule, "instead": instead, "reason": "two seasons without a mark", "by": "R. L." })
}

fn signed(rule: &str, instead: &str) -> impl FnOnce(&mut Value) {
    let list = json!([entry(rule, instead)]);
    move |v| v["looser"] = list
}

const HEAD: &str = "clearances/piston-to-head";
const NITROUS: &str = "planted/03-nitrous";
const RODS: &str = "planted/01-aluminium-rods";

fn unchanged(_: &mut Value) {}

/// What a table tries on a sheet: the name of the attack, the status, and the words.
#[test]
fn what_loosens_a_hold_is_told_and_the_hold_stays_until_somebody_signs() {
    let low = json!([{ "low": "20 thou", "never-below": "15 thou" }]);
    let one = |rule: Value| json!([rule]);
    type Change = Box<dyn FnOnce(&mut Value)>;
    let plain = || -> Change { Box::new(unchanged) };
    let sign = |rule: &'static str, by: &'static str| -> Change { Box::new(signed(rule, by)) };
    let rod = "clearances/rod-clearance";
    let attacks: Vec<(&str, &str, Change, Value, u8)> = vec![
        ("a no-go loosened", RODS, plain(), one(rule("head", HEAD, low.clone())), 1),
        (
            "a no-go loosened and signed for",
            RODS,
            sign(HEAD, "nine-mile/head"),
            one(rule("head", HEAD, low.clone())),
            0,
        ),
        ("signed for with another rule", RODS, sign(HEAD, "other/head"), one(rule("head", HEAD, low.clone())), 1),
        ("signed for another rule", RODS, sign(rod, "nine-mile/head"), one(rule("head", HEAD, low)), 1),
        ("a hold made a warning", RODS, plain(), one(rule("head", HEAD, json!([{ "low": "45 thou" }]))), 1),
        ("the window on one side left out", RODS, plain(), one(rule("head", HEAD, json!([{ "high": "90 thou" }]))), 1),
        (
            "a limit that the sheet passes anyway",
            "bracket",
            plain(),
            one(rule("rods", rod, json!([{ "low": "1 thou", "high": "9 thou" }]))),
            0,
        ),
        (
            "a window for new parts in the stead of the worn limits",
            "used-at-freshen",
            plain(),
            one(rule("wall", "clearances/piston-to-wall", json!([{ "low": "1 thou", "reuse": true }]))),
            0,
        ),
        (
            "a no-go of nitrous behind a finding that never comes",
            NITROUS,
            plain(),
            json!([
                never("a", "clearances/top-gap"),
                never("b", "usage-class/nitrous-interlocks"),
                never("c", "usage-class/nitrous-timing")
            ]),
            1,
        ),
        (
            "physics, signed for",
            "planted/07-small-gasket",
            sign("clearances/gasket-overhang", "nine-mile/gasket"),
            one(rule("gasket", "clearances/gasket-overhang", json!([{ "low": "-1 in" }]))),
            1,
        ),
        (
            "an open hold answered with a go",
            "bracket",
            Box::new(|v: &mut Value| {
                v["pistons"].as_object_mut().unwrap().shift_remove("alloy").unwrap();
            }),
            one(rule("wall", "clearances/piston-to-wall", json!([{ "low": "1 thou" }]))),
            4,
        ),
        ("a rule of the program itself", "bracket", plain(), json!([never("a", "host/odd-one-out")]), 3),
    ];
    for (name, sample, change, rules, exit) in attacks {
        let folder = Folder::new(sample, change);
        let (got, words) = folder.table("nine-mile", "Nine Mile's numbers", &rules).check(&["nine-mile.json"]);
        insta::assert_snapshot!(name.replace([' ', ','], "-"), words);
        assert_eq!(got, exit, "{name}: {words}");
    }
}

/// A second table loosens what the first one left as it was.
#[test]
fn a_chain_of_tables_loosens_no_more_than_one() {
    let folder = Folder::new(RODS, unchanged);
    let same = rule("head", HEAD, json!([{ "never-below": "60 thou" }]));
    folder.table("first", "Nine Mile's numbers", &json!([same]));
    folder.table("second", "Ten Mile's numbers", &json!([rule("head", "first/head", json!([{ "low": "1 thou" }]))]));
    let (exit, words) = folder.check(&["first.json", "second.json"]);
    insta::assert_snapshot!("a-chain-of-tables", words);
    assert_eq!(exit, 1);
}

/// What stands at the top of the check stands at the top of every page.
#[test]
fn a_hold_that_is_let_go_stands_on_every_page() {
    let low = json!([{ "low": "20 thou", "never-below": "15 thou" }]);
    for (name, folder) in
        [("signed", Folder::new(RODS, signed(HEAD, "nine-mile/head"))), ("not-signed", Folder::new(RODS, unchanged))]
    {
        folder.table("nine-mile", "Nine Mile's numbers", &json!([rule("head", HEAD, low.clone())]));
        let pack = "--pack ./nine-mile.json";
        let mut words = String::new();
        for page in ["spec", "plan", "plan --card"] {
            let run = folder.run(&format!("{} ./sheet.json{} {pack}", &page[..4], &page[4..]));
            words.push_str(&format!("== {page}, exit status {}\n{}", run.exit, top(&run.out)));
        }
        for rule in [HEAD, "nine-mile/head"] {
            let run = folder.run(&format!("explain {rule} --sheet ./sheet.json {pack}"));
            let lines =
                run.out.split('\n').skip_while(|l| !l.starts_with("Replaced") && !l.starts_with("On the sheet"));
            let lines: Vec<&str> = lines.take_while(|l| !l.is_empty()).collect();
            words.push_str(&format!("== explain {rule}\n{}\n", lines.join("\n")));
        }
        insta::assert_snapshot!(format!("every-page-{name}"), words);
        let run = folder.run(&format!("check ./sheet.json {pack} --format json"));
        let report: Value = serde_json::from_str(&run.out).unwrap();
        let replaced = report["replaced"].as_array().unwrap();
        assert_eq!(replaced.len(), 1, "{replaced:?}");
        let r = &replaced[0];
        assert_eq!((&r["rule"], &r["by"][0]["rule"]), (&json!(HEAD), &json!("nine-mile/head")));
        assert_eq!((&r["hold"], &r["counts-beside"]), (&json!("loosened"), &json!(name == "not-signed")));
        assert_eq!(r["signed"]["by"], if name == "signed" { json!("R. L.") } else { Value::Null });
        assert!(r["would-say"].as_array().unwrap().iter().all(|s| s["verdict"] == "no-go"), "{r}");
        let schema: Value =
            serde_json::from_str(&std::fs::read_to_string(thou_tests::file("schemas/report.schema.json")).unwrap())
                .unwrap();
        let validator = jsonschema::draft202012::new(&schema).unwrap();
        let faults: Vec<String> =
            validator.iter_errors(&report).map(|e| format!("{}: {e}", e.instance_path())).collect();
        assert_eq!(faults, Vec::<String>::new());
    }
}

/// A life that a table makes longer is told on the plan.
#[test]
fn a_longer_life_is_told_beside_the_old_one() {
    let folder = Folder::new("bracket", unchanged);
    let rules = json!([{ "id": "springs", "supersedes": ["freshen/springs"],
        "service": { "meter": "passes", "low": "800", "nominal": "1000", "high": "1600" } }]);
    folder.table("nine-mile", "Nine Mile's numbers", &rules);
    let run = folder.run("plan ./sheet.json --pack ./nine-mile.json");
    insta::assert_snapshot!("a-longer-life", replaced(&run.out));
    assert_eq!(run.exit, 0);
}

/// A title stands behind every number of its pack.
#[test]
fn a_title_is_nobody_elses() {
    let mut words = String::new();
    for title in [
        "physics",
        "Standard",
        "published",
        "practice",
        "Common practice, no source",
        "piston card",
        "this shop",
        // Cyrillic from end to end, Cyrillic in one letter, full width, a one for an l
        "рһуѕісѕ",
        "Nine Mіle",
        "ｐｈｙｓｉｃｓ",
        "pub1ished",
    ] {
        let folder = Folder::new("bracket", unchanged);
        folder.table(
            "nine-mile",
            title,
            &json!([rule("rods", "clearances/rod-clearance", json!([{ "low": "1 thou" }]))]),
        );
        let (exit, told) = folder.check(&["nine-mile.json"]);
        assert_eq!(exit, 3, "{title}");
        words.push_str(&format!("== {title}\n{}\n", told.split("error: ").nth(1).unwrap_or(&told)));
    }
    insta::assert_snapshot!("titles-of-tables", words);
    // a pack in WebAssembly, and packs beside each other
    let mut words = String::new();
    for (name, id, title, more) in [
        ("a pack called standard", "ours", "Standard", None),
        ("a pack with the title of the house's", "ours", "Cleаrances", None),
        ("a pack with a built-in pack's name as its title", "ours", "CLEARANCES", None),
        ("a pack of a built-in pack's name", "clearances", "Ours", None),
        ("a pack called as the program", "host", "Ours", None),
        ("two packs of one title", "ours", "Nine Mile's numbers", Some("Nine Mi1e's numbers")),
    ] {
        let folder = Folder::new("bracket", unchanged);
        folder.write("ours.wasm", pack(id, "1.0.0", |m| m["title"] = json!(title)));
        let mut packs = vec!["ours.wasm"];
        if let Some(other) = more {
            folder.write("theirs.wasm", pack("theirs", "1.0.0", |m| m["title"] = json!(other)));
            packs.push("theirs.wasm");
        }
        let (exit, told) = folder.check(&packs);
        assert_eq!(exit, 3, "{name}");
        words.push_str(&format!("== {name}\n{}\n", told));
    }
    insta::assert_snapshot!("titles-of-packs", words);
}

fn pack(id: &str, version: &str, change: impl FnOnce(&mut Value)) -> Vec<u8> {
    let text = std::fs::read_to_string(thou_tests::file("tests/hostile/manifest.json")).unwrap();
    let mut manifest: Value = serde_json::from_str(&text.replace("\"?\"", &format!("\"{id}\""))).unwrap();
    manifest["version"] = version.into();
    manifest["title"] = "A shop next door".into();
    change(&mut manifest);
    made::good(&manifest)
}

/// What a pack from elsewhere gives out for physics, a standard or published bears its name.
#[test]
fn what_a_pack_vouches_for_bears_its_name() {
    let mut words = String::new();
    for (basis, whose) in [
        ("physics", None),
        ("standard", Some("ISO 1234:2020")),
        ("published", None),
        ("published", Some("published")),
        ("shop", Some("our engines")),
        ("shop", None),
        ("shop", Some("physics")),
        ("maker", Some("Standard")),
    ] {
        let folder = Folder::new("bracket", unchanged);
        let ours = pack("ours", "1.0.0", |m| {
            m["rules"][0]["basis"] = json!(basis);
            m["rules"][0]["source"] = json!("a book");
            if let Some(whose) = whose {
                m["rules"][0]["texts"][0]["whose"] = json!(whose);
            }
        });
        folder.write("ours.wasm", ours);
        let run = folder.run("check ./sheet.json --pack ./ours.wasm --format json");
        let report: Value = serde_json::from_str(&run.out).unwrap();
        let item = report["items"].as_array().unwrap().iter().find(|i| i["rule"] == "ours/piston-to-wall");
        let told = item.map_or_else(|| report["faults"][0]["message"].clone(), |i| i["whose"].clone());
        let explained = folder.run("explain ours/piston-to-wall --pack ./ours.wasm").out;
        let explained = explained.lines().find(|l| l.starts_with("Whose")).unwrap_or("").to_owned();
        words.push_str(&format!("== {basis}, {whose:?}\n{}\n{explained}\n", told.as_str().unwrap()));
    }
    insta::assert_snapshot!("vouched-for", words);
}

/// What a stranger's folder brings along is not run by itself.
#[cfg(unix)]
#[test]
fn a_strangers_folder_runs_nothing_by_itself() {
    let other = tempfile::tempdir().unwrap();
    let far = other.path().join("far.wasm");
    std::fs::write(&far, pack("far", "1.0.0", |_| ())).unwrap();
    let mut words = String::new();
    type Attack<'a> = (&'a str, &'a dyn Fn(&Folder));
    let attacks: [Attack<'_>; 9] = [
        ("listed, and nobody locked anything", &|f| {
            f.write("ours.wasm", pack("ours", "1.0.0", |_| ())).write("packs", "ours.wasm\n");
        }),
        ("listed, and locked by whoever made the folder", &|f| {
            f.write("ours.wasm", pack("ours", "1.0.0", |_| ())).write("packs", "ours.wasm\n");
            lock_by_others(f);
        }),
        ("behind a mark that editors leave out", &|f| {
            f.write("ours.wasm", pack("ours", "1.0.0", |_| ())).write("packs", "\u{feff}ours.wasm\n");
        }),
        ("an absolute path", &|f| {
            f.write("packs", format!("{}\n", far.display()));
        }),
        ("a path up and over", &|f| {
            let up = format!("../{}/far.wasm\n", other.path().file_name().unwrap().to_str().unwrap());
            f.write("packs", up);
        }),
        ("a link out of the folder", &|f| {
            std::os::unix::fs::symlink(&far, f.path("near.wasm")).unwrap();
            f.write("packs", "near.wasm\n");
        }),
        ("a pipe where the pack should be", &|f| {
            pipe(&f.path("ours.wasm"));
            f.write("packs", "ours.wasm\n");
            lock_by_hand(f, "ours.wasm");
        }),
        ("a pipe where the list should be", &|f| pipe(&f.path("packs"))),
        ("a pipe where the lock should be", &|f| {
            f.write("packs", "ours.wasm\n");
            pipe(&f.path("packs.lock"));
        }),
    ];
    for (name, attack) in attacks {
        let folder = Folder::new("single", unchanged);
        attack(&folder);
        let (exit, told) = folder.check(&[]);
        assert_eq!(exit, 3, "{name}: {told}");
        let told = told.replace(other.path().to_str().unwrap(), "/elsewhere");
        let told = told.replace(other.path().file_name().unwrap().to_str().unwrap(), "elsewhere");
        words.push_str(&format!("== {name}\n{}\n", told.split("\n\n").skip(1).collect::<Vec<_>>().join("\n\n")));
        // the pack that counts is none of these
        let list = folder.run("pack list --sheet ./sheet.json").out;
        assert!(!list.contains(".wasm)"), "{name}: {list}");
    }
    insta::assert_snapshot!("a-strangers-folder", flat(&words));
}

/// A lock that came along is the word of whoever made it: the user's own takes it over, once, and is remembered.
#[test]
fn a_lock_counts_for_the_user_who_locked() {
    let folder = Folder::new("single", unchanged);
    let sheet = folder.path("sheet.json").display().to_string();
    // the marks of an editor are no part of a name
    folder.write("ours.wasm", pack("ours", "1.0.0", |_| ())).write("packs", "\u{feff}ours.wasm\n");
    lock_by_others(&folder);
    let lock = std::fs::read_to_string(folder.path("packs.lock")).unwrap();
    let counts = |settings: Option<&Path>| {
        let run = thou_tests::thou_as(settings, &["pack", "list", "--sheet", &sheet]);
        run.out.lines().any(|l| l.starts_with("ours "))
    };
    let (mine, other) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    let as_me = |args: &[&str]| thou_tests::thou_as(Some(mine.path()), args);
    assert!(!counts(Some(mine.path())) && !counts(Some(other.path())) && !counts(None));
    let sha256 = digest(&pack("ours", "1.0.0", |_| ()));
    // looking is not taking over
    assert_eq!(as_me(&["pack", "lock", "--check", "--sheet", &sheet]).exit, 0);
    assert!(!counts(Some(mine.path())));
    let run = as_me(&["pack", "lock", "--sheet", &sheet]);
    let told = format!(
        "yours now  ours.wasm   ours 1.0.0\n  sha256 {sha256}\npacks.lock: 1 pack, as they stand; nothing to write\n"
    );
    assert_eq!((run.exit, run.out, run.err), (0, told, String::new()));
    assert!(counts(Some(mine.path())) && !counts(Some(other.path())) && !counts(None));
    let own = std::fs::read_to_string(mine.path().join("known-packs")).unwrap();
    assert_eq!(own, format!("{sha256} ours 1.0.0\n"));
    // once is enough, and the lock that came along was not written
    let run = as_me(&["pack", "lock", "--sheet", &sheet]);
    assert_eq!((run.exit, run.out.as_str()), (0, "packs.lock: 1 pack, as they stand; nothing to write\n"));
    assert_eq!(std::fs::read_to_string(folder.path("packs.lock")).unwrap(), lock);
    // a pack beside it that only its maker locked is not taken over along with the one that is named
    folder
        .write("more.wasm", pack("more", "1.0.0", |m| m["title"] = json!("More")))
        .write("packs", "ours.wasm\nmore.wasm\n");
    lock_by_others(&folder);
    assert_eq!(as_me(&["pack", "lock", "ours.wasm", "--sheet", &sheet]).exit, 0);
    assert_eq!(std::fs::read_to_string(mine.path().join("known-packs")).unwrap(), own);
    // whoever has no place of his own cannot take over anything
    let run = thou_tests::thou_as(None, &["pack", "lock", "--sheet", &sheet]);
    let told = "known-packs cannot be written: there is no folder for your own settings: set HOME or XDG_CONFIG_HOME\n";
    assert_eq!((run.exit, run.err.as_str()), (2, told));
}

fn digest(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect()
}

/// Locks what a folder lists, as somebody else.
fn lock_by_others(folder: &Folder) {
    let other = tempfile::tempdir().unwrap();
    let sheet = folder.path("sheet.json").display().to_string();
    let run = thou_tests::thou_as(Some(other.path()), &["pack", "lock", "--sheet", &sheet]);
    assert_eq!(run.exit, 0, "{}", run.err);
}

/// Words without the lines that they are folded to: a folder of this run is longer than what stands for it here.
fn flat(text: &str) -> String {
    let parts = text.split("\n== ").map(|part| {
        let (head, rest) = part.split_once('\n').unwrap_or((part, ""));
        format!("{head}\n{}\n", rest.split_whitespace().collect::<Vec<_>>().join(" "))
    });
    parts.collect::<Vec<_>>().join("\n== ")
}

#[cfg(unix)]
fn pipe(path: &Path) {
    assert!(std::process::Command::new("mkfifo").arg(path).status().unwrap().success());
}

fn lock_by_hand(folder: &Folder, file: &str) {
    let entry = json!({ "file": file, "pack": "ours", "version": "1", "sha256": "0".repeat(64) });
    folder.write("packs.lock", json!({ "lock": 1, "packs": [entry] }).to_string());
}

/// A folder of the user's own choice, and no other, has packs that count for sheets elsewhere.
#[test]
fn only_the_users_own_list_lets_a_pack_come_from_elsewhere() {
    use thou::packs::PackFaultKind;
    use thou::packs::lock::{allowed, reach};
    let (here, other, own) = (tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap(), tempfile::tempdir().unwrap());
    std::fs::create_dir(here.path().join("below")).unwrap();
    for file in [here.path().join("a.wasm"), here.path().join("below/b.wasm"), other.path().join("c.wasm")] {
        std::fs::write(file, "x").unwrap();
    }
    let list = own.path().join("pack-folders");
    let far = other.path().join("c.wasm").display().to_string();
    let reaches = |name: &str| reach(here.path(), name, &allowed(&list), &list).is_ok();
    assert!(reaches("a.wasm") && reaches("below/b.wasm") && reaches("below/../a.wasm"));
    assert!(reaches("none.wasm"), "what is not there is told as such");
    for name in [far.as_str(), "../none.wasm", "/none.wasm", "below/../../none.wasm"] {
        assert!(!reaches(name), "{name}");
    }
    // relative folders are nobody's choice, a remark is none
    std::fs::write(&list, format!("..\n# {}\n", other.path().display())).unwrap();
    assert!(!reaches(&far));
    std::fs::write(&list, format!("{}   # the shop's own\n", other.path().display())).unwrap();
    assert!(reaches(&far) && reaches("a.wasm") && !reaches("/none.wasm"));
    let fault = reach(here.path(), "/none.wasm", &[], Path::new("/home/x/.config/thou/pack-folders")).unwrap_err();
    assert_eq!(fault, PackFaultKind::Elsewhere("/home/x/.config/thou/pack-folders".to_owned()));
    // nor is a list that hangs on where the program was started
    assert_eq!(allowed(Path::new("pack-folders")), Vec::<PathBuf>::new());
}

/// An older build, signed by the right key, is a step back.
#[test]
fn an_older_build_is_locked_only_where_that_is_meant() {
    let folder = Folder::new("single", unchanged);
    signature::make_keys(&folder.path("shop"), None).unwrap();
    let give = |file: &str, version: &str| {
        let bytes = pack("ours", version, |_| ());
        let secret = folder.path("shop.key");
        let (text, _) = signature::sign(&bytes, "x", &secret, &mut || panic!("no password")).unwrap();
        folder.write(file, &bytes).write(&format!("{file}.minisig"), text);
    };
    let lock = |args: &str| {
        let run = folder.run(&format!("pack lock --dir ./{args}"));
        let digests = |l: &&str| !l.trim_start().starts_with("sha256") && !l.trim_start().starts_with("now ");
        let keys = |l: &&str| !l.trim_start().starts_with("signed with");
        let out: Vec<&str> = run.out.lines().filter(digests).filter(keys).collect();
        format!("exit status {}\n{}\n{}", run.exit, out.join("\n"), run.err)
    };
    let mut words = String::new();
    let mut told = |what: &str, said: String| words.push_str(&format!("== {what}\n{said}\n"));
    give("ours.wasm", "2.1.0");
    folder.write("packs", "ours.wasm\n");
    told("2.1.0, the first", lock(""));
    let key = folder.run("pack lock ours.wasm --key ./shop.pub --dir ./");
    assert_eq!(key.exit, 0, "{}", key.err);
    give("ours.wasm", "2.0.9");
    told("2.0.9, signed by the same key", lock(""));
    give("older.wasm", "2.0.9");
    folder.write("packs", "older.wasm\n");
    told("2.0.9 under another file's name", lock(""));
    folder.write("packs", "ours.wasm\n");
    give("ours.wasm", "spring");
    told("a version that is none", lock(""));
    give("ours.wasm", "2.1.0-rc.1");
    told("what came before 2.1.0", lock(""));
    give("ours.wasm", "2.10.0");
    told("2.10.0", lock(""));
    give("ours.wasm", "2.9.0");
    told("2.9.0, meant", lock(" --allow-older"));
    insta::assert_snapshot!("steps-back", words);
    // what stands is the last that was locked
    let report: Value = serde_json::from_str(&folder.run("check ./sheet.json --format json").out).unwrap();
    let ours = report["packs"].as_array().unwrap().iter().find(|p| p["id"] == "ours").unwrap();
    assert_eq!((&ours["version"], &ours["built-in"]), (&json!("2.9.0"), &json!(false)));
    let public = std::fs::read_to_string(folder.path("shop.pub")).unwrap();
    assert_eq!(ours["key"], json!(public.lines().nth(1).unwrap()));
    assert_eq!(ours["sha256"].as_str().unwrap().len(), 64);
    let page = folder.run("check ./sheet.json").out;
    assert!(page.contains(ours["sha256"].as_str().unwrap()) && page.contains(ours["key"].as_str().unwrap()), "{page}");
}
