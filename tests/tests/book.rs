//! The shop's book and its log from the command line: what is confirmed, what is refused and in which words, and logs as
//! files.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use thou_tests::{Run, file, thou};

/// The last line of what a log confirms.
const FIRST: &str = "  Makers, sanctioning body, local codes and licensed practice come first.\n";

/// A book in a folder of its own, with the bracket engine in it.
struct Shop {
    folder: tempfile::TempDir,
}

impl Shop {
    fn new() -> Self {
        let shop = Self { folder: tempfile::tempdir().unwrap() };
        let run = shop.thou(&["book", "add", "sample-builds/bracket.json", "--day", "2026-06-26"]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        shop
    }

    fn path(&self, name: &str) -> String {
        self.folder.path().join(name).display().to_string()
    }

    /// Runs with this shop's book; ids are given by chance and shown as <1>, <2>, in the order of writing.
    fn thou(&self, args: &[&str]) -> Run {
        self.on("shop.book", args)
    }

    fn on(&self, book: &str, args: &[&str]) -> Run {
        let book = self.path(book);
        let mut args = args.to_vec();
        args.extend(["--book", &book, "--width", "80"]);
        let mut run = thou(&args);
        let written = thou(&["log", "export", "--all", "--book", &book]).out;
        for (index, line) in written.lines().enumerate() {
            let id = line.split("\"id\":\"").nth(1).and_then(|rest| rest.split('"').next()).unwrap();
            for text in [&mut run.out, &mut run.err] {
                *text = text.replace(id, &format!("<{}>", index + 1));
            }
        }
        for text in [&mut run.out, &mut run.err] {
            *text = text.replace(&format!("{}/", self.folder.path().display()), "");
        }
        run
    }

    fn log(&self, words: &[&str]) -> String {
        let mut args = vec!["log", "add", "0417", "--day", "2026-06-28"];
        args.extend(words);
        let run = self.thou(&args);
        assert_eq!((run.exit, run.err.as_str()), (0, ""), "{words:?}");
        // every confirmation ends with the line that says who comes first
        run.out.strip_suffix(FIRST).unwrap_or_else(|| panic!("{}", run.out)).to_owned()
    }

    /// The words of a refusal, on one line.
    fn refused(&self, words: &[&str]) -> String {
        let mut args = vec!["log", "add", "0417"];
        args.extend(words);
        if !words.contains(&"--day") {
            args.extend(["--day", "2026-06-28"]);
        }
        let before = self.written();
        let run = self.thou(&args);
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{words:?} {}", run.err);
        assert_eq!(self.written(), before, "{words:?}");
        flat(&run.err)
    }

    fn written(&self) -> String {
        self.thou(&["log", "export", "--all"]).out
    }
}

fn flat(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn a_thumb_at_the_track_writes_and_is_told_what_was_written() {
    let shop = Shop::new();
    assert_eq!(
        shop.log(&["3", "passes", "--event", "E7", "--by", "T.N."]),
        "0417 2026-06-28 E7: 3 passes [<1>]\n  now 3 passes, 1 event\n  E7 is on 2026-09-26 to 2026-09-27 by the sheet's \
         calendar, and this is written\n  for 2026-06-28.\n"
    );
    assert_eq!(
        shop.log(&["pass", "--peak", "7450 rpm", "--elapsed", "9.21 s", "--adder"]),
        "0417 2026-06-28 E7: 1 pass, peak 7450 rpm, in 9.21 s, adder on [<2>]\n  now 4 passes, 1 event\n"
    );
    // the sheet has 3 % of both after its run-in: 6 points ask for a look, one does not
    assert_eq!(
        flat(&shop.log(&["leak-down", "5=9 %", "6=4 %", "--gauge", "tester 2"])),
        "0417 2026-06-28 E7: leak-down at 5: 9 %, tester 2 [<3>] 0417 2026-06-28 E7: leak-down at 6: 4 %, tester 2 [<4>] \
         BEFORE THE NEXT PASS: leak-down cylinder 5 (tester 2): 9 %. +6 points since the sheet's after-run reading of \
         2026-06-24; read there with leak-down tester, compared all the same. Hear where it goes: at the intake or the exhaust \
         it is a valve (lash, plug, bore-scope), at the breather rings, in the water the gasket. Read it again hot, same \
         tester. (common practice, no source) Then: thou log add 0417 settled <3> \"what was found\" leak-down: held \
         against the sheet's after-run reading of 2026-06-24: read there with leak-down tester, compared all the same"
    );
    assert_eq!(
        shop.log(&["did", "oil", "oil-filter"]),
        "0417 2026-06-28 E7: did freshen/oil [<5>]\n0417 2026-06-28 E7: did freshen/oil-filter [<6>]\n"
    );
    assert_eq!(
        flat(&shop.log(&["fitted", "valve springs", "--serial", "set 11", "--brought", "passes=40"])),
        "0417 2026-06-28 E7: fitted valve springs, set 11, brought 40 on passes [<7>]"
    );
    assert_eq!(
        shop.log(&["fitted", "valve springs", "--serial", "set 14"]),
        "0417 2026-06-28 E7: fitted valve springs, set 14 [<8>]\n  set 11 is still down as fitted there: thou log add 0417 removed --serial \"set\n  11\" --disposition ...\n"
    );
    assert_eq!(
        flat(&shop.log(&[
            "removed",
            "--serial",
            "set 11",
            "--because",
            "one soft",
            "--failed",
            "--disposition",
            "scrap"
        ])),
        "0417 2026-06-28 E7: removed set 11, failed, scrap, one soft [<9>] The next is in. Before it runs: It let its \
         valve float: tip, locks and seat of that valve, lobe and lifter under it, leak-down of that cylinder, and the \
         load of every other of the set."
    );
    assert_eq!(
        shop.log(&["passes-on-meter", "118"]),
        "0417 2026-06-28 E7: passes meter at 118 [<10>]\n  now 118 passes, 1 event\n"
    );
    assert_eq!(shop.log(&["tightened", "--serial", "set 14"]), "0417 2026-06-28 E7: tightened set 14 [<11>]\n");
    assert_eq!(shop.log(&["note", "one step colder"]), "0417 2026-06-28 E7: \"one step colder\" [<12>]\n");
    assert_eq!(shop.log(&["torn-down", "pan"]), "0417 2026-06-28 E7: torn down: pan [<13>]\n");
    assert_eq!(
        shop.log(&["2 pulls", "0.5 h", "--no-event"]),
        "0417 2026-06-28: 2 pulls, 0.5 h [<14>]\n  now 118 passes, 2 pulls, 0.5 h, 1 event\n"
    );
    assert_eq!(
        shop.thou(&["log", "undo", "0417", "--by", "A.R."]).out,
        format!("0417 2026-06-28: 2 pulls, 0.5 h [<14>] counts no more\n  now 118 passes, 1 event\n{FIRST}")
    );
    assert_eq!(
        shop.thou(&["log", "list", "0417", "--what", "leak-down"]).out,
        "2026-06-28 E7  leak-down at 5: 9 %, tester 2 [<3>]\n2026-06-28 E7  leak-down at 6: 4 %, tester 2 [<4>]\n\
         1 undone, left out here; --undone shows them.\n"
    );
    assert_eq!(
        shop.thou(&["book", "show", "0417"]).out,
        "0417   NME-0417   bracket\nsheet    revision 1 of 2026-06-26, sha256 762b7ac2418b\nbuilt    2026-06-25\n\
         log      15 entries, the last 2026-06-28\nmeters   118 passes, 1 event\n\
         parts    valve springs, set 14, since 2026-06-28: 114 passes\n"
    );
    let whole = flat(&shop.thou(&["book", "check"]).out);
    let (told, link) = whole.split_once(" Its last entry is ").unwrap();
    assert_eq!(
        told,
        "shop.book: 1 engine, 15 entries. The file holds together, every entry and sheet is as it was written, and all that \
         is kept beside them follows from them."
    );
    assert!(link.len() == 13 && link.trim_end_matches('.').bytes().all(|b| b.is_ascii_hexdigit()), "{link}");
}

#[test]
fn what_an_event_asks_for_is_said_until_it_is_settled() {
    let shop = Shop::new();
    // 7,950 rpm on a limiter of 7,600 rpm
    let asked = "BEFORE THE NEXT PASS: over-rev to 7950 rpm, 4.6 % over on 2026-06-28. Lash of every valve, spring loads \
                 on the head, plugs; leak-down that evening. (common practice, no source) Then: thou log add 0417 settled \
                 <1> \"what was found\"";
    let open =
        "STILL OPEN: over-rev to 7950 rpm, 4.6 % over on 2026-06-28 [<1>] What to look at for each: thou plan 0417";
    assert_eq!(
        flat(&shop.log(&["over-rev", "7950 rpm"])),
        format!("0417 2026-06-28: over-rev, 7950 rpm [<1>] {asked}")
    );
    assert_eq!(shop.log(&["note", "a word"]), "0417 2026-06-28: \"a word\" [<2>]\n");
    assert_eq!(flat(&shop.log(&["pass"])), format!("0417 2026-06-28: 1 pass [<3>] now 1 pass, 1 event {open}"));
    let id = thou(&["log", "export", "0417", "--book", &shop.path("shop.book")]).out.get(7..15).unwrap().to_owned();
    assert_eq!(shop.log(&["settled", &id, "lash as it was"]), "0417 2026-06-28: settled <1>: lash as it was [<4>]\n");
    assert_eq!(
        flat(&shop.log(&["pass"])),
        "0417 2026-06-28: 1 pass [<5>] now 2 passes, 1 event The same words stand there as <3>: `thou log undo 0417` if this was one too many."
    );
}

#[test]
fn what_does_not_fit_is_refused_in_its_own_words() {
    let shop = Shop::new();
    shop.log(&["pass", "--elapsed", "9.21 s"]);
    shop.log(&["fitted", "valve springs", "--serial", "set 14"]);
    for (words, told) in [
        (
            vec!["pass", "--elapsed", "9.21 s"],
            "1 pass, in 9.21 s is there already, as <1> on 2026-06-28, with the same elapsed time: if it is another one, say --again. Nothing was written.",
        ),
        (
            vec!["pass", "--day", "2026-07-02"],
            "2026-07-02 is after today, 2026-07-01; if the day is right, say --day-is-right. Nothing was written.",
        ),
        (
            vec!["pass", "--day", "2026-06-24"],
            "2026-06-24 is before 0417 was built, 2026-06-25; if the day is right, say --day-is-right. Nothing was written.",
        ),
        (vec!["pass", "--day", "yesterday"], "--day yesterday: write year, month, day, like 2026-05-02"),
        (vec!["leak-down", "9=9 %"], "there is no cylinder \"9\": it has 1, 3, 5, 7, 2, 4, 6, 8. Nothing was written."),
        (
            vec!["lash", "5x=18 thou"],
            "there is no valve \"5x\": it has 1I, 1E, 3I, 3E, 5I, 5E, 7I, 7E, 2I, 2E, 4I, 4E, 6I, 6E, 8I, 8E. Nothing was written.",
        ),
        (
            vec!["leak-down", "9 %"],
            "leak-down is read at each cylinder: write it like leak-down 5=\"9 %\". Nothing was written.",
        ),
        (vec!["oil-iron", "5=12 ppm"], "oil-iron is read once an engine, not at \"5\". Nothing was written."),
        (
            vec!["leak-down", "5=9 psi"],
            "value: this is a share; 'psi' is for a pressure: write %. Nothing was written.",
        ),
        (
            // 90 can be either scale's: with one unit that can be meant it is taken
            vec!["water-temperature", "90"],
            "value: \"90\" has no unit: this is a temperature, write it like \"1 °F\". Nothing was written.",
        ),
        (
            vec!["pass", "--peak", "9.2 s"],
            "peak-speed: this is a speed of rotation; 's' is for a time: write rpm, rad/s. Nothing was written.",
        ),
        (vec!["over-rew", "7750 rpm"], "\"over-rew\" is nothing that a log knows; did you mean over-rev?"),
        (vec!["leakdown", "5=9 %"], "\"leakdown\" is nothing that a log knows; did you mean leak-down?"),
        (
            vec!["3", "laps"],
            "\"3 laps\": \"laps\" is nothing that runs. Write it like 3 passes, 2 pulls, 12 miles or 0.5 h",
        ),
        (vec!["0", "passes"], "0 passes: write how many, more than nothing"),
        (vec!["did", "oil-filtre"], "no loaded pack has a service \"oil-filtre\"; did you mean oil-filter?"),
        (
            vec!["fitted", "valve spring", "--serial", "set 15"],
            "there is no part \"valve spring\"; did you mean valve springs? If it is a part of its own, say --new-part. Nothing was written.",
        ),
        (
            vec!["fitted", "rod bolts", "--serial", "set 14"],
            "set 14 is already the number of valve springs in this shop: give rod bolts a number of their own",
        ),
        (
            vec!["fitted", "valve springs", "--serial", "set 14"],
            "set 14 is in 0417, since 2026-06-28: log it as removed there first",
        ),
        (vec!["fitted", "valve springs"], "fitted: say which with --serial, like --serial \"set 14\""),
        (
            vec!["removed", "--serial", "set 14"],
            "removed: say what was decided over it with --disposition run, recondition, watch or scrap",
        ),
        (
            vec!["removed", "--serial", "set 14", "--disposition", "bin"],
            "there is no disposition \"bin\"; there is run, recondition, watch, scrap. Nothing was written.",
        ),
        (
            vec!["removed", "--serial", "set 9", "--disposition", "scrap"],
            "set 9 is not in 0417 on 2026-06-28: log first when it was fitted, `thou log add 0417 fitted ...`",
        ),
        (
            vec!["passes-on-meter", "0"],
            "the meter passes would go down: it reads 0, and the book has 1. If it was put back to nothing, say --meter-was-reset; if an earlier entry counts too much, undo that first",
        ),
        (vec!["miles-on-meter", "12"], "miles: \"12\" has no unit: this is a distance, write it like \"1 miles\""),
        (vec!["note", "x", "--peak", "7000 rpm"], "--peak does not go with \"note\""),
        (vec!["settled", "nothing", "x"], "0417 has no entry nothing: `thou log list 0417` shows them with their ids"),
        (
            vec!["torn-down", "bonnet"],
            "there is no way to open an engine \"bonnet\"; there is engine-out, heads, intake, nothing, pan, plugs, valve-covers, valvetrain. Nothing was written.",
        ),
    ] {
        assert_eq!(shop.refused(&words), told, "{words:?}");
    }
    let run = shop.thou(&["log", "add", "0471", "pass"]);
    assert_eq!((run.exit, flat(&run.err).as_str()), (2, "no engine \"0471\" is in the book; did you mean 0417?"));
    let run = shop.thou(&["log", "undo", "0417", "zzz"]);
    assert_eq!(flat(&run.err), "0417 has no entry zzz that counts: `thou log list 0417` shows them with their ids");
    let run = shop.on("none.book", &["log", "list", "0417"]);
    assert_eq!(
        (run.exit, flat(&run.err).as_str()),
        (2, "there is no book at none.book: `thou book add SHEET.json` begins one")
    );
}

#[test]
fn an_older_entry_is_kept_and_told() {
    let shop = Shop::new();
    shop.log(&["pass"]);
    let run = shop.thou(&["log", "add", "0417", "2", "passes", "--day", "2026-06-27"]);
    assert_eq!(
        run.out,
        format!(
            "0417 2026-06-27: 2 passes [<2>]\n  now 3 passes, 2 events\n  Older than the last entry, 2026-06-28: counted \
             where its day puts it.\n{FIRST}"
        )
    );
}

#[test]
fn it_can_be_read_on_a_phone() {
    let shop = Shop::new();
    shop.log(&["pass", "--peak", "7450 rpm", "--elapsed", "9.21 s", "--event", "a long weekend at the lake strip"]);
    shop.log(&["over-rev", "8300 rpm", "--note", "missed the gear, short-shifted after it, came back on the trailer"]);
    let book = shop.path("shop.book");
    for args in [
        ["log", "list", "0417"].as_slice(),
        &["log", "add", "0417", "pass", "--day", "2026-06-28"],
        &["book", "show", "0417"],
        &["book", "list"],
        &["book", "check"],
        &["log", "add", "0417", "leak-down", "5=9 psi", "--day", "2026-06-28"],
    ] {
        let mut args = args.to_vec();
        args.extend(["--book", &book, "--width", "20"]);
        let run = thou(&args);
        let text = format!("{}{}", run.out, run.err);
        assert!(!text.is_empty());
        for line in text.lines() {
            assert!(line.chars().count() <= 40, "{args:?}: {line}");
        }
    }
}

fn write(path: &str, text: &str) {
    std::fs::write(Path::new(path), text).unwrap();
}

#[test]
fn a_bad_line_in_the_middle_is_named_and_the_rest_is_kept_or_not_as_was_said() {
    let shop = Shop::new();
    let csv = shop.path("log.csv");
    write(
        &csv,
        "engine,day,what,passes,reading,place,value\n0417,2026-06-27,ran,3,,,\n0417,2026-06-27,read,,leak-down,11,9 %\n\
         0417,2026-06-27,ran,three,,,\n0499,2026-06-27,ran,1,,,\n0417,2026-06-28,ran,2,,,\n",
    );
    let told = "log.csv:3:33: there is no cylinder \"11\": it has 1, 3, 5, 7, 2, 4, 6, 8 \
                log.csv:4:21: passes is \"three\": write a number \
                log.csv:5:1: no engine \"0499\" is in the book; it has 0417 (--new-engines begins it without a sheet)";
    let run = shop.thou(&["log", "import", &csv, "--all-or-nothing"]);
    assert_eq!((run.exit, flat(&run.err).as_str()), (2, told));
    assert_eq!(flat(&run.out), "log.csv: 0 entries written; 3 lines are bad, and so nothing was written");
    assert_eq!(shop.written(), "");
    let run = shop.thou(&["log", "import", &csv]);
    assert_eq!((run.exit, flat(&run.err).as_str()), (2, told));
    assert_eq!(flat(&run.out), format!("log.csv: 2 entries written; 3 lines are bad and left out {}", FIRST.trim()));
    // the same file once more, put right
    write(&csv, "engine,day,what,passes\n0417,2026-06-27,ran,3\n0417,2026-06-27,ran,1\n0417,2026-06-28,ran,2\n");
    let run = shop.thou(&["log", "import", &csv, "--all-or-nothing"]);
    assert_eq!((run.exit, run.err.as_str()), (0, ""));
    assert_eq!(
        flat(&run.out),
        format!(
            "log.csv: 1 entry written, 2 were there already, 1 older than what was there and counted where their days put \
             them {}",
            FIRST.trim()
        )
    );
    let list = shop.thou(&["book", "list"]).out;
    assert_eq!(
        list,
        "0417     bracket, NME-0417, sheet revision 1; 3 entries, the last 2026-06-28; 6\n         passes, 2 events\n"
    );
}

#[test]
fn a_phone_writes_the_first_letter_large_and_a_thumb_only_the_beginning_of_an_id() {
    let shop = Shop::new();
    assert!(shop.log(&["Pass"]).starts_with("0417 2026-06-28: 1 pass [<1>]"));
    assert!(shop.log(&["2P"]).starts_with("0417 2026-06-28: 2 passes [<2>]"));
    assert_eq!(shop.log(&["Did", "Oil"]), "0417 2026-06-28: did freshen/oil [<3>]\n");
    assert!(shop.log(&["Leak-down", "5=9 %"]).starts_with("0417 2026-06-28: leak-down at 5: 9 % [<4>]\n"));
    let fitted = shop.log(&["FITTED", "Valve Springs", "--serial", "set 14"]);
    assert_eq!(fitted, "0417 2026-06-28: fitted valve springs, set 14 [<5>]\n");
    let removed = shop.log(&["Removed", "--serial", "set 14", "--disposition", "Run"]);
    assert_eq!(
        flat(&removed),
        "0417 2026-06-28: removed set 14, sound, run [<6>] BEFORE THE NEXT PASS: valve springs set 14: came out on \
         2026-06-28, none in since. Log what is in as fitted, or write down as settled what is. (this shop's own log) \
         Then: thou log add 0417 settled <6> \"what was found\""
    );
    shop.log(&["Over-rev", "7950 rpm"]);
    let export = thou(&["log", "export", "0417", "--book", &shop.path("shop.book")]).out;
    let id = export.lines().last().unwrap().split("\"id\":\"").nth(1).unwrap().get(..8).unwrap().to_owned();
    let settled = shop.log(&["settled", &id[..6], "lash as it was"]);
    assert_eq!(settled, "0417 2026-06-28: settled <7>: lash as it was [<8>]\n");
}

#[test]
fn a_long_note_is_kept_whole_and_shown_short() {
    let shop = Shop::new();
    let note = "jets ".repeat(20_000);
    let told = shop.log(&["note", &note]);
    assert!(
        told.chars().count() < 700 && flat(&told).contains("a note of 99999 letters, whole in an export"),
        "{told}"
    );
    let list = shop.thou(&["log", "list", "0417"]).out;
    assert!(list.chars().count() < 700, "{}", list.len());
    assert!(shop.written().contains(note.trim()));
}

#[test]
fn all_or_nothing_lists_every_bad_line_those_that_only_the_book_refuses_too() {
    let shop = Shop::new();
    let csv = shop.path("log.csv");
    // line 3 is wrong in itself; 4 and 5 are parts that are in no engine; 6 is good
    write(
        &csv,
        "engine,day,what,passes,serial,disposition\n0417,2026-06-27,ran,3,,\n0417,2026-06-27,ran,three,,\n\
         0417,2026-06-27,removed,,set 8,run\n0417,2026-06-27,tightened,,set 9,\n0417,2026-06-28,ran,2,,\n",
    );
    let run = shop.thou(&["log", "import", &csv, "--all-or-nothing"]);
    let told = flat(&run.err);
    for place in ["log.csv:3:21: passes is", "log.csv:4:1: set 8 is not in 0417", "log.csv:5:1: set 9 is not in 0417"] {
        assert!(told.contains(place), "{told}");
    }
    assert_eq!(flat(&run.out), "log.csv: 0 entries written; 3 lines are bad, and so nothing was written");
    assert_eq!((run.exit, shop.written().as_str()), (2, ""));
    // every one of many: nobody puts a file right twenty lines at a time
    let many: String = (0..60).map(|n| format!("0417,2026-06-27,ran,x{n}\n")).collect();
    write(&csv, &format!("engine,day,what,passes\n{many}"));
    let run = shop.thou(&["log", "import", &csv, "--all-or-nothing"]);
    assert_eq!(run.err.matches("write a number").count(), 60);
}

#[test]
fn a_quote_that_nothing_closes_swallows_no_line() {
    let shop = Shop::new();
    let csv = shop.path("log.csv");
    write(
        &csv,
        "engine,day,what,passes,note\n0417,2026-06-26,ran,1,good\n0417,2026-06-27,ran,3,\"tyres\n0417,2026-06-28,ran,2,\n\
         0417,2026-06-28,ran,1,\n",
    );
    let run = shop.thou(&["log", "import", &csv]);
    assert_eq!(run.exit, 2);
    assert!(
        flat(&run.err).starts_with("log.csv:3:23: this double quote opens a cell and nothing closes it"),
        "{}",
        run.err
    );
    assert_eq!(
        flat(&run.out),
        "log.csv: 1 entry written; 1 line is bad and left out Makers, sanctioning body, local codes and licensed \
         practice come first."
    );
    assert_eq!(shop.thou(&["log", "import", &csv, "--all-or-nothing"]).exit, 2);
}

#[test]
fn a_log_goes_out_and_into_another_book_and_out_again_without_a_change() {
    let shop = Shop::new();
    shop.log(&["3", "passes", "--event", "E1, the first", "--note", "he said \"fast\"; it was"]);
    shop.log(&[
        "fitted",
        "rods",
        "--serial",
        "R-5",
        "--place",
        "5",
        "--brought",
        "passes=40",
        "--brought",
        "hours=2 h",
    ]);
    shop.log(&["hours-on-meter", "3 h"]);
    shop.log(&["hours-on-meter", "1 h", "--meter-was-reset"]);
    shop.log(&["leak-down", "5=9 %", "--state", "hot", "--baseline"]);
    shop.log(&["did", "oil", "--cost", "80.5", "--hours", "0.5"]);
    shop.log(&["pass", "--elapsed", "9.2 s"]);
    shop.log(&["pass", "--elapsed", "9.2 s", "--again"]);
    shop.thou(&["log", "add", "0417", "pass", "--day", "2026-06-27"]);
    shop.thou(&["log", "undo", "0417"]);
    let raw = |book: &str, form: &str| {
        let run = thou(&["log", "export", "--all", "--format", form, "--book", &shop.path(book)]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        run.out
    };
    for form in ["csv", "jsonl"] {
        let text = raw("shop.book", form);
        assert_eq!(text.lines().count(), if form == "csv" { 11 } else { 10 });
        let path = shop.path(&format!("out.{form}"));
        write(&path, &text);
        let empty = format!("{form}.book");
        assert_eq!(shop.on(&empty, &["book", "add", "sample-builds/street.json", "--day", "2026-06-26"]).exit, 0);
        let run = shop.on(&empty, &["log", "import", &path, "--new-engines", "--all-or-nothing"]);
        assert_eq!((run.exit, run.err.as_str()), (0, ""));
        for other in ["csv", "jsonl"] {
            assert_eq!(raw(&empty, other), raw("shop.book", other), "{form}");
        }
        assert_eq!(shop.on(&empty, &["book", "check"]).exit, 0);
    }
}

#[test]
fn a_sheet_is_kept_with_its_files_and_a_changed_one_is_a_new_revision() {
    let shop = Shop::new();
    let again = shop.thou(&["book", "add", "sample-builds/bracket.json", "--day", "2026-06-30"]);
    assert_eq!(flat(&again.out), "0417: the book has this sheet already, as revision 1; nothing was written");
    let sheet = shop.path("changed.json");
    let text = std::fs::read_to_string(file("sample-builds/bracket.json")).unwrap();
    let csv = std::fs::read_to_string(file("sample-builds/bracket-main-journals.csv")).unwrap();
    write(&sheet, &text.replace("\"revision\": \"C\"", "\"revision\": \"D\""));
    let run = shop.thou(&["book", "add", &sheet]);
    assert_eq!(run.exit, 2, "the file that it names is not beside it");
    write(&shop.path("bracket-main-journals.csv"), &csv);
    assert_eq!(shop.thou(&["book", "add", &sheet]).out, "0417: sheet taken in as revision 2, 2026-07-01\n");
    let book = thou_book::Book::open(Path::new(&shop.path("shop.book"))).unwrap();
    let kept = book.sheet("0417").unwrap();
    assert_eq!(kept.files["bracket-main-journals.csv"], csv);
    let sheet = thou::sheet::Sheet::parse_kept("0417", &kept.text, kept.files).unwrap();
    assert!(sheet.readings.contains_key("main-journal"));
}

#[test]
fn a_copy_is_whole_and_does_not_go_over_a_file() {
    let shop = Shop::new();
    shop.log(&["pass"]);
    let copy = shop.path("copy.book");
    assert_eq!(shop.thou(&["book", "backup", &copy]).out, "copy.book: 1 engine and 1 entry copied\n");
    assert_eq!(shop.on("copy.book", &["book", "check"]).exit, 0);
    let run = shop.thou(&["book", "backup", &copy]);
    assert_eq!(
        (run.exit, flat(&run.err).as_str()),
        (2, "copy.book is there already: a new book does not go over an old file")
    );
}

#[test]
fn a_damaged_book_is_not_written_to_and_what_can_be_read_is_saved() {
    let shop = Shop::new();
    for n in 1..=40 {
        let note = format!("{n} {}", "words ".repeat(60));
        shop.log(&["pass", "--sure", "--note", &note]);
    }
    let path = shop.path("shop.book");
    let mut bytes = std::fs::read(&path).unwrap();
    // a page from the middle of the log: overwritten as a failing card does
    let at = bytes.windows(8).position(|w| w == b"20 words").unwrap() / 4096 * 4096;
    bytes[at..at + 4096].fill(0xa5);
    std::fs::write(&path, &bytes).unwrap();
    let run = thou(&["book", "check", "--book", &path, "--width", "80"]);
    assert_eq!(run.exit, 2, "{}", run.out);
    assert!(
        flat(&run.err).contains("Take the last backup, or save what can be read: thou book check --recover NEW-FILE"),
        "{}",
        run.err
    );
    let run = thou(&["log", "list", "0417", "--book", &path]);
    assert_eq!(run.exit, 2);
    assert!(flat(&run.err).contains("is damaged"), "{}", run.err);
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "a damaged book was written to");
    let saved = shop.path("saved.book");
    let run = thou(&["book", "check", "--recover", &saved, "--book", &path, "--width", "80"]);
    assert_eq!(run.exit, 0);
    let book = thou_book::Book::open(Path::new(&saved)).unwrap();
    let kept = book.written(None).unwrap();
    let entries = kept.len();
    assert!((25..40).contains(&entries), "{entries}");
    assert!(flat(&run.out).contains(&format!("1 engine, 1 sheet and {entries} entries saved")), "{}", run.out);
    assert!(flat(&run.out).contains(&format!("{} that were written once are NOT in it", 40 - entries)), "{}", run.out);
    // exactly those: each note begins with its number
    let there: Vec<usize> =
        kept.iter().map(|(e, _)| e.note.as_ref().unwrap().split(' ').next().unwrap().parse().unwrap()).collect();
    let told = flat(&run.err);
    let mut missing = (1..=40).filter(|n| !there.contains(n));
    let (first, last) = (missing.next().unwrap(), missing.next_back().unwrap());
    assert!(
        told.contains(&format!("entries {first} to {last}: not to be read, after entry {} (", first - 1)),
        "{told}"
    );
    assert_eq!(book.check().unwrap(), Vec::<String>::new());
    assert_eq!(std::fs::read(&path).unwrap(), bytes);
}

#[test]
fn the_sample_seasons_come_in_whole_from_the_command_line() {
    let shop = Shop::new();
    for sheet in ["street", "all-out"] {
        let sheet = format!("sample-builds/{sheet}.json");
        assert_eq!(shop.thou(&["book", "add", &sheet, "--day", "2026-03-01"]).exit, 0);
    }
    let log = file("sample-builds/seasons/nine-mile.jsonl").display().to_string();
    let lines = std::fs::read_to_string(&log).unwrap().lines().count();
    // its second season is still to come on the day of the tests
    let run = shop.thou(&["log", "import", &log, "--day-is-right", "--all-or-nothing"]);
    assert_eq!(run.exit, 0, "{}{}", run.out, run.err);
    assert!(flat(&run.out).contains(&format!("{lines} entries written")), "{}", run.out);
    let hot = |state: &str| shop.thou(&["log", "add", "0417", "oil-pressure-hot", "61 psi", "--state", state]);
    assert_eq!(hot("hot, 7000 rpm").exit, 0);
    let run = hot("hot, 7000 miles");
    assert_eq!(run.exit, 2);
    assert!(flat(&run.err).contains("after the comma stands the speed it was read at"), "{}", run.err);
}
