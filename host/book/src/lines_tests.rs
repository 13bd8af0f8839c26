#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;

const LOG: &str = r#"{"id":"a1","engine":"0417","day":"2026-05-02","event":"E1","by":"T.N.","note":"a \"quoted\", word\nand a second line","what":"ran","passes":3,"peak-speed":"7450 rpm","elapsed":"9.21 s","adder":true,"meter":{"hours":"2 h","passes":"118"}}
{"id":"a2","engine":"0417","day":"2026-05-02","what":"happened","happening":"over-rev","speed":"7750 rpm","time":"0.4 s"}
{"id":"a3","engine":"0417","day":"2026-05-02","what":"settled","entry":"a2","found":"nothing"}
{"id":"a4","engine":"0417","day":"2026-05-02","what":"read","reading":"leak-down","place":"5","value":"9 %","gauge":"tester 2","baseline":true}
{"id":"a5","engine":"0417","day":"2026-05-02","what":"did","service":"freshen/oil","cost":80.5,"hours":0.5}
{"id":"a6","engine":"0417","day":"2026-05-02","what":"fitted","part":"rods","serial":"R-5","place":"5","brought":{"passes":"10"},"made":"2025-11-01"}
{"id":"a7","engine":"0417","day":"2026-05-02","what":"removed","serial":"R-5","failed":true,"disposition":"scrap","because":"bent"}
{"id":"a8","engine":"0417","day":"2026-05-02","what":"tightened","serial":"R-5"}
{"id":"a9","engine":"0417","day":"2026-05-02","what":"torn-down","opens":"pan"}
{"id":"b1","engine":"0417","day":"2026-05-02","what":"freshened"}
{"id":"b2","engine":"0417","day":"2026-05-02","note":"words","what":"noted"}
{"id":"b3","engine":"0417","day":"2026-05-02","what":"undone","entry":"b2"}
{"id":"b4","engine":"*","day":"2026-05-02","event":"E9","what":"scheduled","on":"2026-10-10","last":"2026-10-11","kind":"race","time-trials":2,"rounds":7,"at":"the home strip"}
{"id":"b5","engine":"0417","day":"2026-05-02","event":"E9","what":"called-off"}
{"id":"b6","engine":"0417","day":"2026-05-02","what":"shelved","part":"rods","serial":"R-6","brought":{"passes":"12"}}
{"id":"b7","engine":"*","day":"2026-05-02","what":"off-the-shelf","part":"rods","serial":"R-6"}
{"id":"b8","engine":"*","day":"2026-05-02","what":"lead-time","part":"rods","days":21,"away":9,"from":"the rod house"}
{"id":"b9","engine":"0417","day":"2026-05-02","what":"priced","part":"rods","planned":900,"failure":12000.5,"hour":85,"money":"dollars"}
{"id":"c1","engine":"0417","day":"2026-05-02","note":"crack test","what":"charged","cost":60.5,"hours":1.5}
{"id":"c2","engine":"0417","day":"2026-05-02","what":"paid","amount":2000}
{"id":"c3","engine":"0417","day":"2026-05-02","what":"budgeted","season":2026,"amount":6000}
{"id":"c4","engine":"0417","day":"2026-05-02","what":"customer","name":"T. Nine"}
"#;

fn entries(text: &str) -> Vec<Entry> {
    read(text).into_iter().map(|line| line.entry.unwrap()).collect()
}

/// Each with whether it counts; the last one of the log above undoes the one before it.
fn counted(entries: &[Entry]) -> Vec<(Entry, bool)> {
    entries.iter().map(|entry| (entry.clone(), !["b2", "b3"].contains(&entry.id.as_str()))).collect()
}

fn faults(text: &str) -> Vec<String> {
    read(text).into_iter().filter_map(|line| line.entry.err()).map(|fault| fault.to_string()).collect()
}

#[test]
fn every_kind_of_entry_goes_through_both_forms_without_a_change() {
    let log = entries(LOG);
    assert_eq!(log.len(), WHATS.len(), "one of each kind");
    assert_eq!(write(&counted(&log), FileForm::JsonLines), LOG);
    let csv = write(&counted(&log), FileForm::Csv);
    assert_eq!(entries(&csv), log);
    assert_eq!(write(&counted(&entries(&csv)), FileForm::Csv), csv);
    let short: Vec<&str> = csv.lines().take(1).collect();
    assert_eq!(short, [COLUMNS.iter().map(|c| c.0).collect::<Vec<_>>().join(",") + ",counts"]);
    assert!(csv.contains("\na5,0417,2026-05-02,,,,,did,,,,0.5,"), "{csv}");
    let no: Vec<&str> = csv.lines().filter(|l| l.ends_with(",no")).filter_map(|l| l.split(',').next()).collect();
    assert_eq!(no, ["b2", "b3"]);
}

#[test]
fn a_cell_that_a_spreadsheet_would_run_goes_out_as_text_and_comes_back() {
    for note in ["=HYPERLINK(\"http://x\")", "-1 step on the jets", "+2", "@pits", "'=already marked"] {
        let entry = Entry { note: Some(note.to_owned()), ..entries(LOG)[10].clone() };
        let csv = write(&[(entry.clone(), true)], FileForm::Csv);
        let cell = csv::Reader::from_reader(csv.as_bytes()).records().next().unwrap().unwrap()[6].to_owned();
        assert!(cell.starts_with('\'') || cell == "+2", "{cell}");
        assert_eq!(entries(&csv), [entry]);
    }
}

#[test]
fn a_quote_that_nothing_closes_is_told_and_takes_no_row_with_it() {
    let head = "engine,day,what,passes,note\n";
    let open = format!("{head}0417,2026-05-02,ran,1,fine\n0417,2026-05-03,ran,1,\"short\n0417,2026-05-04,ran,2,\n");
    let lines = read(&open);
    let good: Vec<u64> = lines.iter().filter(|l| l.entry.is_ok()).map(|l| l.line).collect();
    assert_eq!(good, [2]);
    assert_eq!(
        faults(&open),
        [
            "3:23: this double quote opens a cell and nothing closes it: no line from here on was read. Close it, or write it \
          twice if it is meant"
        ]
    );
    // a second one closes the first, in the middle of a row
    let two = format!("{head}0417,2026-05-03,ran,1,\"a\n0417,2026-05-04,ran,2,\"b\n");
    assert!(faults(&two)[0].starts_with("3:23: behind a closing double quote stands more"), "{:?}", faults(&two));
    assert!(read(&two).iter().all(|l| l.entry.is_err()));
}

#[test]
fn a_row_that_says_that_it_does_not_count_must_be_undone_by_another() {
    let head = "id,engine,day,what,passes,entry,counts\n";
    let undone = "a,0417,2026-05-02,ran,1,,no\nb,0417,2026-05-02,undone,,a,no\n";
    assert_eq!(faults(&format!("{head}{undone}")), Vec::<String>::new());
    assert_eq!(
        faults(&format!("{head}a,0417,2026-05-02,ran,1,,no\nc,0417,2026-05-02,ran,1,,yes\n")),
        [
            "2:26: it says that it does not count, and no row of this file undoes it: leave the row out, or this cell empty"
        ]
    );
}

#[test]
fn every_field_of_every_kind_is_a_column() {
    for (what, _, own) in WHATS {
        for field in *own {
            assert!(COLUMNS.iter().any(|c| c.0 == *field), "{what} {field}");
        }
    }
}

#[test]
fn lines_without_an_id_get_the_same_one_each_time_and_the_same_words_twice_are_two() {
    let text = "engine,day,what,passes\n0417,2026-05-02,ran,1\n0417,2026-05-02,ran,1\n";
    let log = entries(text);
    assert_ne!(log[0].id, log[1].id);
    assert_eq!(entries(text), log);
}

#[test]
fn each_thing_that_is_wrong_is_told_at_its_place() {
    let start = r#"{"engine":"0417","day":"2026-05-02","what":"#;
    for (line, told) in [
        (r#""ran","passes":3"#, "1:59: not JSON: EOF while parsing an object"),
        (
            r#""rann","passes":3}"#,
            "1:37: what is \"rann\"; did you mean ran? It can be budgeted, called-off, charged, customer, did, fitted, freshened, happened, lead-time, noted, off-the-shelf, paid, priced, ran, read, removed, scheduled, settled, shelved, tightened, torn-down, undone",
        ),
        (r#""ran","pases":3}"#, "1:50: a log has no field \"pases\"; did you mean passes?"),
        (r#""ran","serial":"x"}"#, "1:50: \"serial\" does not go with what: ran"),
        (r#""ran","passes":"3"}"#, "1:50: passes is \"3\": write a number"),
        (r#""ran","miles":3}"#, "1:50: miles is 3: write text in quotes, a quantity with its unit"),
        (r#""did"}"#, "1:37: what: did goes with \"service\", and that is missing"),
    ] {
        assert_eq!(faults(&format!("{start}{line}\n")), [told]);
    }
    assert_eq!(
        faults("{\"engine\":\"0417\",\"day\":\"2 May\",\"what\":\"noted\"}\n"),
        ["1:18: day is \"2 May\": write year, month, day, like 2026-05-02"]
    );
    let head = "engine,day,what,passes,adder\n";
    assert_eq!(
        faults(&format!(
            "{head}0417,2026-05-02,ran,three,\n0417,2026-05-02,ran,1,maybe\n0417,2026-05-02,ran,1,yes,more\n"
        )),
        [
            "2:21: passes is \"three\": write a number",
            "3:23: adder is \"maybe\": write yes, or leave it empty",
            "4:27: 6 cells for 5 columns: text with a comma goes into double quotes"
        ]
    );
    assert_eq!(faults("engine,day,what,pases\n"), ["1:17: a log has no field \"pases\"; did you mean passes?"]);
    assert_eq!(
        faults("engine,what\n0417,ran\n"),
        ["1:1: the first line names the columns, and \"day\" is not among them"]
    );
}
