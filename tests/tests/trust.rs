//! The lock beside a sheet and signatures, as a shop meets them: the exact words, the exit status, and that every other
//! pack stands.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use sha2::{Digest, Sha256};
use std::collections::BTreeSet;
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use thou::packs::signature::{self, SignFault};
use thou_tests::{Run, made, thou};

/// A sheet's folder with two packs of invented shops beside it, both listed.
struct Shop(tempfile::TempDir);

impl Shop {
    fn new() -> Self {
        let shop = Self(tempfile::tempdir().unwrap());
        let sheet = std::fs::read_to_string(thou_tests::file("sample-builds/single.json")).unwrap();
        shop.write("sheet.json", sheet.as_bytes());
        shop.write("ours.wasm", &pack("ours", "1.0"));
        shop.write("theirs.wasm", &pack("theirs", "2.1"));
        shop.write("packs", b"ours.wasm\ntheirs.wasm   # from next door\n");
        shop
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn write(&self, name: &str, bytes: &[u8]) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    fn text(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// Runs `thou`; a file named with `./` is of this folder, and the folder is left out of what comes back.
    fn run(&self, args: &str) -> Run {
        let folder = format!("{}/", self.0.path().display());
        let args: Vec<String> = args.split(' ').map(|a| a.replace("./", &folder)).collect();
        let mut run = thou(&args.iter().map(String::as_str).collect::<Vec<_>>());
        run.out = run.out.replace(&folder, "");
        run.err = run.err.replace(&folder, "");
        run
    }

    fn lock(&self) {
        let run = self.run("pack lock --sheet ./sheet.json");
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{}", run.out);
    }

    /// The faults that a check tells, and the packs that `pack list` has besides the built-in ones.
    fn checked(&self) -> (u8, Vec<String>, Vec<String>) {
        let check = self.run("check ./sheet.json --format json");
        let report: Value = serde_json::from_str(&check.out).unwrap();
        let faults = report["faults"].as_array().unwrap().iter();
        let faults =
            faults.map(|f| f["message"].as_str().unwrap().replace(&format!("{}/", self.0.path().display()), ""));
        let list = self.run("pack list --sheet ./sheet.json").out;
        let packs = list.lines().filter(|l| l.ends_with(".wasm)")).map(|l| l.split(' ').next().unwrap().to_owned());
        (check.exit, faults.collect(), packs.collect())
    }
}

fn pack(id: &str, version: &str) -> Vec<u8> {
    let text = std::fs::read_to_string(thou_tests::file("tests/hostile/manifest.json")).unwrap();
    let mut manifest: Value = serde_json::from_str(&text.replace("\"?\"", &format!("\"{id}\""))).unwrap();
    manifest["version"] = version.into();
    made::good(&manifest)
}

fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect()
}

fn no_password() -> Result<String, SignFault> {
    panic!("this key has no password");
}

/// A pair of keys without a password, `NAME.key` and `NAME.pub`: the public one.
fn keys(folder: &Path, name: &str) -> String {
    signature::make_keys(&folder.join(name), None).unwrap().text()
}

#[test]
fn without_a_lock_nothing_that_is_listed_is_run() {
    let shop = Shop::new();
    let (exit, faults, packs) = shop.checked();
    let fault = |file: &str| {
        format!(
            "pack {file}: the file packs lists it, and nobody has looked at it: there is no packs.lock
  None of its rules is judged, and nothing of it was run. Look at it:
    thou pack inspect {file}
  Where its rules and numbers are what you want, have it count:
    thou pack lock
  For its author: nothing."
        )
    };
    assert_eq!((exit, flat(&faults)), (3, flat(&[fault("ours.wasm"), fault("theirs.wasm")])));
    assert_eq!(packs, Vec::<String>::new());
    // looked at and locked, both count
    assert_eq!(shop.run("pack inspect ./ours.wasm").exit, 0);
    shop.lock();
    let (_, faults, packs) = shop.checked();
    assert_eq!((faults, packs), (vec![], vec!["ours".to_owned(), "theirs".to_owned()]));
    std::fs::remove_file(shop.path("packs.lock")).unwrap();
    // a folder that happens to have the name is no list
    std::fs::remove_file(shop.path("packs")).unwrap();
    std::fs::create_dir(shop.path("packs")).unwrap();
    let (_, faults, packs) = shop.checked();
    assert_eq!((faults, packs), (vec![], vec![]));
    // a list that cannot be read is told
    std::fs::remove_dir(shop.path("packs")).unwrap();
    shop.write("packs", &[0xff, 0xfe]);
    let (exit, faults, _) = shop.checked();
    assert_eq!((exit, faults.len()), (3, 1));
    assert!(faults[0].starts_with("pack packs: it cannot be read: "), "{}", faults[0]);
}

#[test]
fn the_lock_is_written_to_be_read_and_compared() {
    let shop = Shop::new();
    let (ours, theirs) = (sha256(&pack("ours", "1.0")), sha256(&pack("theirs", "2.1")));
    let run = shop.run("pack lock --sheet ./sheet.json");
    let told = format!(
        "added    ours.wasm   ours 1.0\n  sha256 {ours}\nadded    theirs.wasm   theirs 2.1\n  sha256 {theirs}\n\
         packs.lock: 2 packs, written\n"
    );
    assert_eq!((run.exit, run.out, run.err), (0, told, String::new()));
    let text = format!(
        r#"{{
  "lock": 1,
  "packs": [
    {{
      "file": "ours.wasm",
      "pack": "ours",
      "version": "1.0",
      "sha256": "{ours}"
    }},
    {{
      "file": "theirs.wasm",
      "pack": "theirs",
      "version": "2.1",
      "sha256": "{theirs}"
    }}
  ]
}}
"#
    );
    assert_eq!(shop.text("packs.lock"), text);
    // the order of the lines in `packs` changes nothing
    shop.write("packs", b"theirs.wasm\nours.wasm\n");
    let run = shop.run("pack lock --dir ./");
    assert_eq!((run.exit, run.out.as_str()), (0, "packs.lock: 2 packs, as they stand; nothing to write\n"));
    assert_eq!(shop.text("packs.lock"), text);
    let run = shop.run("pack lock --check --dir ./");
    assert_eq!((run.exit, run.out.as_str()), (0, "packs.lock: 2 packs, as they stand\n"));
    let (_, faults, packs) = shop.checked();
    assert_eq!((faults, packs.len()), (vec![], 2));
}

#[test]
fn a_changed_file_is_refused_with_both_digests_and_the_others_stand() {
    let shop = Shop::new();
    shop.lock();
    let locked = shop.text("packs.lock");
    shop.write("theirs.wasm", &pack("theirs", "2.2"));
    let (old, new) = (sha256(&pack("theirs", "2.1")), sha256(&pack("theirs", "2.2")));
    let (exit, faults, packs) = shop.checked();
    let fault = format!(
        "pack theirs.wasm: it is not the file that packs.lock has
  locked sha256 {old}
  found  sha256 {new}
  None of its rules is judged. Put the locked file back; or, if the change is
    meant, look at it with `thou pack list` and run `thou pack lock`.
  For its author: a build that differs gets another version."
    );
    assert_eq!((exit, faults, packs), (3, vec![fault], vec!["ours".to_owned()]));
    // by the command line it is the same file
    let run = shop.run("check ./sheet.json --pack ./theirs.wasm");
    assert_eq!((run.exit, run.out.matches("it is not the file that packs.lock has").count()), (3, 2), "{}", run.out);
    // what differs is said, and the lock is left alone until somebody asks for it
    let told = format!("changed  theirs.wasm   theirs 2.1, now theirs 2.2\n  sha256 {old}\n  now    {new}\n");
    let run = shop.run("pack lock --check --dir ./");
    assert_eq!((run.exit, run.out), (3, format!("{told}packs.lock: differs from the packs\n")));
    assert_eq!(shop.text("packs.lock"), locked);
    let run = shop.run("pack lock --dir ./");
    assert_eq!((run.exit, run.out), (0, format!("{told}packs.lock: 2 packs, written\n")));
    assert_eq!(shop.checked().1, Vec::<String>::new());
}

#[test]
fn a_pack_that_is_listed_and_not_locked_is_refused() {
    let shop = Shop::new();
    shop.lock();
    shop.write("third.wasm", &pack("third", "1"));
    shop.write("packs", b"ours.wasm\ntheirs.wasm\nthird.wasm\n");
    let (exit, faults, packs) = shop.checked();
    let fault = "pack third.wasm: the file packs lists it, and packs.lock does not
  None of its rules is judged, and nothing of it was run. Look at it:
    thou pack inspect third.wasm
  Where its rules and numbers are what you want, have it count:
    thou pack lock
  For its author: nothing.";
    assert_eq!((exit, flat(&faults), packs.len()), (3, flat(&[fault]), 2));
    // by the command line alone, it was asked for
    shop.write("packs", b"ours.wasm\ntheirs.wasm\n");
    let run = shop.run("check ./sheet.json --pack ./third.wasm");
    assert!(!run.out.contains("packs.lock"), "{}", run.out);
    assert!(run.out.contains("third"), "{}", run.out);
}

#[test]
fn a_pack_that_is_locked_and_not_listed_is_missed() {
    let shop = Shop::new();
    shop.lock();
    shop.write("packs", b"ours.wasm\n");
    let (exit, faults, packs) = shop.checked();
    let fault = "pack theirs.wasm: packs.lock has it, and the file packs does not list it
  None of its rules is judged. Put its line back into the file packs, or run
    `thou pack lock` to let it go.
  For its author: nothing.";
    assert_eq!((exit, flat(&faults), packs.len()), (3, flat(&[fault]), 1));
    let run = shop.run("check ./sheet.json --pack ./theirs.wasm");
    assert!(!run.out.contains("packs.lock"), "{}", run.out);
    std::fs::remove_file(shop.path("packs")).unwrap();
    assert_eq!(shop.checked().1.len(), 2);
    shop.write("packs", b"ours.wasm\n");
    let run = shop.run("pack lock --dir ./");
    assert_eq!(run.out, "let go   theirs.wasm   theirs 2.1\npacks.lock: 1 pack, written\n");
    assert_eq!(shop.checked().1, Vec::<String>::new());
}

#[test]
fn one_pack_is_locked_anew_and_the_others_stay_as_they_were() {
    let shop = Shop::new();
    shop.lock();
    shop.write("ours.wasm", &pack("ours", "1.1"));
    shop.write("theirs.wasm", &pack("theirs", "2.2"));
    let run = shop.run("pack lock ours.wasm --dir ./");
    assert!(run.out.starts_with("changed  ours.wasm   ours 1.0, now ours 1.1\n"), "{}", run.out);
    let (exit, faults, packs) = shop.checked();
    assert_eq!((exit, faults.len(), packs), (3, 1, vec!["ours".to_owned()]));
    let run = shop.run("pack lock other.wasm --dir ./");
    assert_eq!(run.err, "The file packs does not list other.wasm. It lists: ours.wasm, theirs.wasm.\n");
    assert_eq!(run.exit, 2);
}

/// A house table is a pack: its own text is what is locked, also where it stands in for a rule of a pack before it.
#[test]
fn a_house_table_is_locked_by_its_text() {
    let shop = Shop::new();
    let text = |low: &str| {
        format!(
            r#"{{
  // a shop's own numbers
  "table": "house", "title": "Nine Mile's numbers",
  "rules": [{{
    "id": "wall", "supersedes": ["ours/piston-to-wall"], "window": {{ "low": "{low}" }}
  }}]
}}
"#
        )
    };
    shop.write("house.json", text("4.5 thou").as_bytes());
    shop.write("packs", b"ours.wasm\ntheirs.wasm\nhouse.json\n");
    shop.lock();
    let digest = sha256(text("4.5 thou").as_bytes());
    assert!(shop.text("packs.lock").contains("\"file\": \"house.json\",\n      \"pack\": \"house\","));
    assert!(shop.text("packs.lock").contains(&digest));
    assert_eq!(shop.checked().1, Vec::<String>::new());
    // one number changed is another table
    shop.write("house.json", text("4.0 thou").as_bytes());
    let (exit, faults, _) = shop.checked();
    let fault = format!(
        "pack house.json: it is not the file that packs.lock has\n  locked sha256 {digest}\n  found  sha256 {}\n",
        sha256(text("4.0 thou").as_bytes())
    );
    assert_eq!((exit, faults.len()), (3, 1));
    assert!(faults[0].starts_with(&fault), "{}", faults[0]);
}

#[test]
fn what_is_no_pack_is_not_locked() {
    let shop = Shop::new();
    shop.write("theirs.wasm", b"something else");
    let run = shop.run("pack lock --dir ./");
    assert_eq!((run.exit, run.out.as_str()), (3, ""));
    assert!(run.err.starts_with("pack theirs.wasm: it is not a WebAssembly component but "), "{}", run.err);
    assert!(run.err.ends_with("Nothing was written.\n"), "{}", run.err);
    assert!(!shop.path("packs.lock").exists());
    std::fs::remove_file(shop.path("packs")).unwrap();
    let run = shop.run("pack lock --dir ./");
    assert_eq!(run.err, "There is no file packs: it lists the packs that count, one a line.\n");
    shop.write("packs", b"ours.wasm");
    let run = shop.run("pack lock --check --dir ./");
    assert_eq!((run.exit, run.err.as_str()), (3, "There is no packs.lock: `thou pack lock` writes one.\n"));
}

/// Each way to damage a lock, with the place and the words for it; no pack from a file is run then.
#[test]
fn a_damaged_lock_is_refused_with_its_place() {
    let shop = Shop::new();
    shop.lock();
    let whole = shop.text("packs.lock");
    let digest = sha256(&pack("ours", "1.0"));
    let cases = [
        (whole[..80].to_owned(), "at line 6, column 19: EOF while parsing a string"),
        (whole.replace("\"lock\": 1,", "\"lock\": 1"), "at line 3, column 3: expected `,` or `}`"),
        (
            whole.replace("\"lock\": 1", "\"lock\": 0"),
            "at line 2, column 11: invalid value: integer `0`, expected 1, the kind of lock",
        ),
        (
            whole.replacen("sha256", "sha265", 1),
            "at line 8, column 14: unknown field `sha265`, expected one of `file`, `pack`, `version`, `sha256`, `key`",
        ),
        (
            whole.replace(&digest, "abc"),
            "at line 8, column 21: invalid value: string \"abc\", expected 64 hexadecimal digits, 0 to 9 and a to f",
        ),
        (
            whole.replace(&digest, &digest.to_uppercase()),
            &format!(
                "at line 8, column 82: invalid value: string \"{}\", expected 64 hexadecimal digits, 0 to 9 and a to f",
                digest.to_uppercase()
            ),
        ),
        (whole.replacen("      \"version\": \"1.0\",\n", "", 1), "at line 8, column 5: missing field `version`"),
        (
            whole.replacen("\"version\": \"1.0\"", "\"version\": \"1.0\",\n      \"key\": \"RWQabc\"", 1),
            "at line 8, column 21: invalid value: string \"RWQabc\", expected a public key, 56 characters that start with RW",
        ),
    ];
    for (text, words) in cases {
        shop.write("packs.lock", text.as_bytes());
        let (exit, faults, packs) = shop.checked();
        let fault = format!(
            "pack packs.lock: the lock is damaged {}
  No pack from a file is run until the lock is mended. Take the last good one
    from a backup, or delete it, look at the packs and run `thou pack lock`.
  For its author: nothing.",
            words.replacen(": ", "\n  ", 1)
        );
        // a long one is folded to the width of a page
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!((exit, faults.iter().map(|f| flat(f)).collect(), packs), (3, vec![flat(&fault)], vec![]));
        let run = shop.run("pack lock --dir ./");
        assert_eq!((run.exit, flat(&run.err)), (3, flat(&fault)));
        assert_eq!(shop.text("packs.lock"), text, "a damaged lock is never written over");
    }
    shop.write("packs.lock", whole.replace("theirs.wasm", "ours.wasm").as_bytes());
    assert!(shop.checked().1[0].starts_with("pack packs.lock: the lock has ours.wasm twice\n"));
    shop.write("packs.lock", &[0xff, 0xfe]);
    assert!(shop.checked().1[0].starts_with("pack packs.lock: the lock cannot be read: "));
    let newer = "{ \"lock\": 2, \"shelves\": [] }";
    shop.write("packs.lock", newer.as_bytes());
    let fault = "pack packs.lock: the lock is of kind 2, and this thou knows kind 1
  No pack from a file is run: get a newer thou, the one that wrote the lock.
  For its author: nothing.";
    assert_eq!(shop.checked().1, [fault]);
    assert_eq!(shop.run("pack lock --dir ./").err, format!("{fault}\n"));
    assert_eq!(shop.text("packs.lock"), newer);
}

#[test]
fn a_pack_is_signed_and_verified() {
    let shop = Shop::new();
    let run = shop.run("pack keys --out ./shop --no-password");
    let key = shop.text("shop.pub").lines().nth(1).unwrap().to_owned();
    let told = format!(
        "shop.key   the secret key: yours alone; keep a copy apart from this computer\n\
         shop.pub   the public key, for everybody:\n  {key}\n"
    );
    assert_eq!((run.exit, run.out), (0, told));
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = std::fs::metadata(shop.path("shop.key")).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600, "the secret key is its owner's alone");
    }
    let run = shop.run("pack sign ./ours.wasm --key ./shop.key");
    assert_eq!((run.exit, run.out), (0, format!("ours.wasm.minisig   ours 1.0\n  signed with {key}\n")));
    let holds = format!(
        "ours.wasm: the signature holds\n  key      {key}\n  comment  pack:ours version:1.0\n    sha256:{}\n",
        sha256(&pack("ours", "1.0"))
    );
    for given in ["./shop.pub", &key] {
        let run = shop.run(&format!("pack verify ./ours.wasm --key {given}"));
        assert_eq!((run.exit, run.out.as_str()), (0, holds.as_str()));
    }
    // no key is ever written over
    let run = shop.run("pack keys --out ./shop --no-password");
    assert_eq!((run.exit, run.err.as_str()), (2, "shop.key is there already, and is not written over.\n"));
}

#[test]
fn what_does_not_verify_says_why() {
    let shop = Shop::new();
    let (ours, other) = (keys(shop.0.path(), "shop"), keys(shop.0.path(), "other"));
    let number = |text: &str| signature::PublicKey::parse(text).unwrap().number();
    let says = |args: &str, exit: u8, words: &str| {
        let run = shop.run(args);
        // long paths fold elsewhere than short ones
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!((run.exit, flat(&run.err), run.out.as_str()), (exit, flat(words), ""), "{args}");
    };
    let verify = "pack verify ./ours.wasm --key ./shop.pub";
    let none = "there is no ours.wasm.minisig: ask whoever gave the file out for it.\n";
    says(verify, 3, none);
    shop.run("pack sign ./ours.wasm --key ./shop.key");
    let whole = shop.text("ours.wasm.minisig");
    let (made, wanted) = (number(&ours), number(&other));
    says(
        "pack verify ./ours.wasm --key ./other.pub",
        3,
        &format!("ours.wasm.minisig was made with the key {made}, and not with {wanted}.\n"),
    );
    let changed = "ours.wasm.minisig does not hold: it or the file was changed after the signing.\n";
    shop.write("ours.wasm.minisig", whole.replace("version:1.0", "version:9.0").as_bytes());
    says(verify, 3, changed);
    shop.write("ours.wasm.minisig", whole.as_bytes());
    shop.write("ours.wasm", &pack("ours", "1.1"));
    says(verify, 3, changed);
    for (text, words) in [
        ("", "its first line is to start with \"untrusted comment: \""),
        ("untrusted comment: x\nabc\n", "its second line is to be a signature, 100 characters"),
        (&whole.replace("\ntrusted", "\nrusted"), "its third line is to start with \"trusted comment: \""),
        (whole.trim_end().trim_end_matches('='), "its fourth line is to be a signature, 88 characters"),
    ] {
        shop.write("ours.wasm.minisig", text.as_bytes());
        says(verify, 3, &format!("ours.wasm.minisig is not a whole signature: {words}.\n"));
    }
    // keys that are none
    let wanted = "is not a public key: wanted 56 characters that start with RW, or the .pub file that has them.\n";
    says("pack verify ./ours.wasm --key RWQabc", 2, &format!("--key: \"RWQabc\" {wanted}"));
    shop.write("shop.pub", b"untrusted comment: cut\nRWQabc\n");
    says(verify, 2, &format!("--key: shop.pub {wanted}"));
    let text = shop.text("shop.key");
    let no_key = "shop.key is not a whole secret key: give the .key file that `thou pack keys` wrote, or minisign's.\n";
    let sign = "pack sign ./ours.wasm --key ./shop.key";
    let bent = text.chars().enumerate().map(|(i, c)| if i == 150 { if c == 'A' { 'B' } else { 'A' } } else { c });
    for damaged in [&text[..text.len() / 2], "", "untrusted comment: x\nRWQAAEIy\n", &bent.collect::<String>()] {
        shop.write("shop.key", damaged.as_bytes());
        says(sign, 2, no_key);
    }
    says(
        "pack sign ./ours.wasm --key ./none.key",
        2,
        "none.key cannot be read: No such file or directory (os error 2).\n",
    );
}

#[test]
fn a_key_with_a_password_opens_with_it_alone() {
    let folder = tempfile::tempdir().unwrap();
    let name = folder.path().join("shop");
    let key = signature::make_keys(&name, Some("a long one".to_owned())).unwrap();
    let secret = folder.path().join("shop.key");
    let sign = |password: &str| signature::sign(b"bytes", "what", &secret, &mut || Ok(password.to_owned()));
    let (text, public) = sign("a long one").unwrap();
    assert_eq!(public, key);
    assert_eq!(key.holds_text(&text, "x.minisig", b"bytes").unwrap(), "what");
    assert!(matches!(sign("another"), Err(SignFault::WrongPassword(_))));
    let empty = signature::make_keys(&folder.path().join("empty"), Some(String::new())).unwrap_err().to_string();
    assert_eq!(empty, "an empty password keeps nobody out; if that is meant, say so with --no-password");
    assert!(!folder.path().join("empty.key").exists());
    let asked = signature::sign(b"", "", &secret, &mut || Err(SignFault::NoPassword("none".to_owned())));
    assert_eq!(asked.err().unwrap().to_string(), "a password is asked for on a terminal, and there is none: none");
}

#[test]
fn a_lock_that_names_a_key_wants_its_signature() {
    let shop = Shop::new();
    let (key, _) = (keys(shop.0.path(), "shop"), keys(shop.0.path(), "other"));
    let lock = "pack lock theirs.wasm --key ./shop.pub --dir ./";
    // it is not locked with a key that it is not signed with
    let run = shop.run(lock);
    let fault = |pack: &str, words: &str| {
        format!(
            "pack {pack}: packs.lock wants it signed
  {words}
  None of its rules is judged until a signature of the key in packs.lock holds.
  For its author: sign every build anew, and give both files out."
        )
    };
    let none = "there is no theirs.wasm.minisig: ask whoever gave the file out for it";
    assert_eq!((run.exit, flat(&[run.err])), (3, flat(&[fault("theirs", none) + "\nNothing was written.\n"])));
    let secret = |name: &str| shop.path(name);
    let sign = |secret: PathBuf| {
        let bytes = std::fs::read(shop.path("theirs.wasm")).unwrap();
        let (text, _) = signature::sign(&bytes, "x", &secret, &mut no_password).unwrap();
        shop.write("theirs.wasm.minisig", text.as_bytes());
    };
    sign(secret("shop.key"));
    shop.lock();
    let run = shop.run(lock);
    let told = format!("changed  theirs.wasm   theirs 2.1\n  signed with {key}\npacks.lock: 2 packs, written\n");
    assert_eq!((run.exit, run.out), (0, told));
    assert!(shop.text("packs.lock").contains(&format!("      \"key\": \"{key}\"\n")));
    let (_, faults, packs) = shop.checked();
    assert_eq!((faults, packs.len()), (vec![], 2));
    // the same bytes signed by somebody else
    sign(secret("other.key"));
    let (exit, faults, packs) = shop.checked();
    let numbers: Vec<String> = ["other", "shop"]
        .iter()
        .map(|n| signature::PublicKey::given(&shop.path(&format!("{n}.pub")).display().to_string()).unwrap().number())
        .collect();
    let words = format!("theirs.wasm.minisig was made with the key {}, and not with {}", numbers[0], numbers[1]);
    assert_eq!((exit, flat(&faults), packs), (3, flat(&[fault("theirs.wasm", &words)]), vec!["ours".to_owned()]));
    // a new build is locked only with the key's signature, and the key stays until it is let go
    sign(secret("shop.key"));
    shop.write("theirs.wasm", &pack("theirs", "3.0"));
    let changed = "theirs.wasm.minisig does not hold: it or the file was changed after the signing";
    let run = shop.run("pack lock --dir ./");
    assert_eq!((run.exit, flat(&[run.err])), (3, flat(&[fault("theirs", changed) + "\nNothing was written.\n"])));
    let run = shop.run("pack lock theirs.wasm --no-key --dir ./");
    assert!(run.out.contains("\n  no signature asked for any more\n"), "{}{}", run.out, run.err);
    assert_eq!(shop.checked().1, Vec::<String>::new());
}

/// Runs minisign's own tool in a folder with this on its standard input: its exit status, and whether it said so.
fn tool(folder: &Path, args: &[&str], input: &str) -> std::io::Result<(bool, String)> {
    let mut child = Command::new("minisign")
        .args(args)
        .current_dir(folder)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()?;
    child.stdin.take().unwrap().write_all(input.as_bytes())?;
    let out = child.wait_with_output()?;
    let text = [out.stdout, out.stderr].concat();
    Ok((out.status.success(), String::from_utf8_lossy(&text).into_owned()))
}

/// The format's own tool takes what is signed here, with keys made here and there, and the other way round; with and
/// without a password. Run where the tool is (Debian's package `minisign`), and always by `.ci/run`.
#[test]
fn the_tool_of_the_format_and_this_program_take_each_others_signatures() {
    let shop = Shop::new();
    let folder = shop.0.path();
    if tool(folder, &["-v"], "").is_err() {
        assert!(std::env::var_os("THOU_TOOLS").is_none(), "minisign is to be installed here");
        println!("skipped: minisign is not installed");
        return;
    }
    let minisign = |args: &[&str], input: &str| tool(folder, args, input).unwrap();
    let made = [
        minisign(&["-G", "-p", "tool.pub", "-s", "tool.key"], "pw\npw\n").0,
        minisign(&["-G", "-W", "-p", "bare.pub", "-s", "bare.key"], "").0,
    ];
    assert_eq!(made, [true, true]);
    signature::make_keys(&folder.join("ours"), Some("pw".to_owned())).unwrap();
    signature::make_keys(&folder.join("open"), None).unwrap();
    let bytes = std::fs::read(shop.path("ours.wasm")).unwrap();
    for (name, password) in [("tool", "pw\n"), ("bare", ""), ("ours", "pw\n"), ("open", "")] {
        let (secret, public) = (format!("{name}.key"), format!("{name}.pub"));
        // signed here, verified there
        let mut asked = 0;
        let mut password_of = || {
            asked += 1;
            Ok(password.trim().to_owned())
        };
        let (text, key) = signature::sign(&bytes, "here", &shop.path(&secret), &mut password_of).unwrap();
        assert_eq!(asked, usize::from(!password.is_empty()), "{name}");
        shop.write("ours.wasm.minisig", text.as_bytes());
        let verify = ["-V", "-p", &public, "-m", "ours.wasm"];
        let (holds, words) = minisign(&verify, "");
        assert!(holds && words.contains("Trusted comment: here"), "{name}: {words}");
        shop.write("ours.wasm", &[&bytes, &b"x"[..]].concat());
        assert!(!minisign(&verify, "").0, "{name}: the tool holds what was changed");
        shop.write("ours.wasm", &bytes);
        // signed there, verified here
        let mut sign = vec!["-S", "-s", &secret, "-m", "ours.wasm", "-t", "there"];
        sign.extend(password.is_empty().then_some("-W"));
        let (signed, words) = minisign(&sign, password);
        assert!(signed, "{name}: {words}");
        let run = shop.run(&format!("pack verify ./ours.wasm --key ./{public}"));
        let told = format!("ours.wasm: the signature holds\n  key      {}\n  comment  there\n", key.text());
        assert_eq!((run.exit, run.out, run.err), (0, told, String::new()), "{name}");
        if name == "bare" {
            // no checksum finds this: the signature that it makes does not hold, and is not written
            let whole = shop.text(&secret);
            let bent =
                whole.chars().enumerate().map(|(i, c)| if i == 150 { if c == 'A' { 'B' } else { 'A' } } else { c });
            shop.write("bent.key", bent.collect::<String>().as_bytes());
            let run = shop.run("pack sign ./ours.wasm --key ./bent.key");
            assert!(run.exit == 2 && run.err.starts_with("bent.key is not a whole secret key"), "{}", run.err);
        }
        // the tool's old kind of signature says less, and is not taken
        sign.push("-l");
        assert!(minisign(&sign, password).0);
        let run = shop.run(&format!("pack verify ./ours.wasm --key {}", key.text()));
        assert!(run.exit == 3 && run.err.contains("is a signature of the old kind"), "{name}: {}", run.err);
    }
}

/// A pack's own words do not reach a terminal as more than words.
#[test]
fn names_with_escape_codes_are_told_clean() {
    let shop = Shop::new();
    shop.write("packs", "ours.wasm\n\u{1b}[2Jtheirs.wasm\n".as_bytes());
    let run = shop.run("pack lock --dir ./");
    assert!(!run.err.contains('\u{1b}') && !run.out.contains('\u{1b}'), "{:?}", run.err);
    let run = shop.run("pack lock nothing.wasm --dir ./");
    assert!(!run.err.contains('\u{1b}') && run.err.contains("[2Jtheirs.wasm"), "{:?}", run.err);
}

/// The commands are there in every build, and say how to get what they need.
#[test]
fn without_the_network_pull_and_push_say_where_it_is() {
    for args in ["pack pull registry.example.org/ours:1", "pack push ./ours.wasm registry.example.org/ours:1"] {
        let run = Shop::new().run(args);
        let words = "This thou was built without the network, and so without pull and push.
  cargo install --path host --features registry
builds it with them. Or bring the pack's file here some other way: its digest
and its signature tell what it is, whichever way it came.
";
        assert_eq!((run.exit, run.out.as_str(), run.err.as_str()), (2, "", words));
    }
}

/// The plain program has no network stack at all; it comes with the feature `registry` alone.
#[test]
fn the_network_is_left_out_unless_it_is_asked_for() {
    let cargo = std::env::var_os("CARGO").unwrap_or_else(|| "cargo".into());
    let mut command = Command::new(cargo);
    command.args(["tree", "-p", "thou", "--locked", "--offline", "-e", "normal", "--prefix", "none", "-f", "{p}"]);
    let out = command.current_dir(thou_tests::root()).output().unwrap();
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    let text = String::from_utf8(out.stdout).unwrap();
    let plain: BTreeSet<&str> = text.lines().filter_map(|l| l.split(' ').next()).collect();
    assert!(plain.contains("wasmtime"), "this is the program's tree");
    // tests/registry holds the same list to the tree with the feature, where each of them is found
    let network = include_str!("../registry/network.txt");
    assert!(network.lines().count() > 4);
    assert_eq!(network.lines().filter(|n| plain.contains(n)).collect::<Vec<_>>(), Vec::<&str>::new());
}

/// Words without the lines that they are folded to: a folder of this run is longer than what stands for it here.
fn flat(texts: &[impl AsRef<str>]) -> Vec<String> {
    texts.iter().map(|t| t.as_ref().split_whitespace().collect::<Vec<_>>().join(" ")).collect()
}
