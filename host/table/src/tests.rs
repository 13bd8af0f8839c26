//! Where a fault is pointed at, and what the bytes depend on.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::*;

fn facts() -> Vec<TableFact> {
    let fact = |id: &str, kind: &str, axis: &str, choices: &[&str]| TableFact {
        id: id.to_owned(),
        kind: kind.to_owned(),
        axis: axis.to_owned(),
        choices: choices.iter().map(|c| (*c).to_owned()).collect(),
    };
    vec![
        fact("use", "choice", "one", &["street", "bracket", "all-out"]),
        fact("bore.nominal", "length", "one", &[]),
        fact("oil.temperature", "temperature", "one", &[]),
        fact("leak-down", "percent", "cylinder", &[]),
        fact("piston-to-wall", "clearance", "cylinder", &[]),
    ]
}

fn with(low: &str) -> Result<Table, TableFaults> {
    let text = format!(
        "{{\"table\": \"t\", \"title\": \"T\", \"rules\": [\n  {{\"id\": \"a\", \"why\": \"w\", \"operation\": \"block\", \
         \"window\": {{\"judges\": \"piston-to-wall\",\n\"low\": {low}}}}}]}}"
    );
    translate("t.json", &text, &KnownFacts { facts: &facts(), packs: &[] })
}

/// The faults of a table whose low limit, at line 3 from column 8, is this.
fn told(low: &str) -> String {
    with(low).map_or_else(|faults| faults.to_string(), |_| "fine".to_owned())
}

#[test]
fn a_fault_is_at_its_word_behind_escapes_and_letters_of_two_bytes() {
    // the quote is column 8; each escaped quote takes two columns
    assert_eq!(
        told(r#""{use} == \"street\" ? 2 µm : {bor}""#),
        "t.json:3:38: there is no fact \"bor\"\n    `thou facts` lists them\n"
    );
    assert_eq!(
        told(r#""\u007buse} == 1 ? 1 thou : 2 thou""#),
        "t.json:3:23: use is a word: compare it with one, in quotes\n"
    );
    assert_eq!(
        told(r#""2 µm + 1""#),
        "t.json:3:16: a length and a bare number cannot be added\n    write the number with its unit, such as thou\n"
    );
}

#[test]
fn each_slip_has_its_words() {
    let at = |column: usize, words: &str| format!("t.json:3:{column}: {words}\n");
    assert_eq!(
        told("\"\""),
        at(9, "there is nothing here")
            + "    an expression has {facts}, numbers with their unit, days like 2027-01-01, \"words\", + - * / < <= > >= == != && || ! ?: in [..], has({fact}), min(..), max(..), abs(..), sqrt(..), pow(.., 2), lookup(map, ..), and over places worst(..), least(..), sum(..), mean(..), count(..), any(..) and all(..)\n"
    );
    assert_eq!(told("null"), at(8, "\"low\" is an expression in double quotes, such as \"2.5 thou\""));
    assert_eq!(
        told("\"1 thou; 2\""),
        at(15, "';' has no meaning in a table")
            + "    an expression has {facts}, numbers with their unit, days like 2027-01-01, \"words\", + - * / < <= > >= == != && || ! ?: in [..], has({fact}), min(..), max(..), abs(..), sqrt(..), pow(.., 2), lookup(map, ..), and over places worst(..), least(..), sum(..), mean(..), count(..), any(..) and all(..)\n"
    );
    assert_eq!(told("\"true & true\""), at(14, "one & says nothing here") + "    write &&\n");
    assert_eq!(told("\"1 thou × 2\""), at(16, "× is written *"));
    assert_eq!(told("\"true ≤ 2\""), at(14, "≤ is written <="));
    assert_eq!(
        told("\"{Bore}\""),
        at(9, "{Bore} is no name of a fact") + "    a fact is written {bore.diameter}; `thou facts` lists them\n"
    );
    assert_eq!(
        told("\"[1 thou, 2 thou].map(x, x)\""),
        at(25, "'.' has no meaning in a table")
            + "    an expression has {facts}, numbers with their unit, days like 2027-01-01, \"words\", + - * / < <= > >= == != && || ! ?: in [..], has({fact}), min(..), max(..), abs(..), sqrt(..), pow(.., 2), lookup(map, ..), and over places worst(..), least(..), sum(..), mean(..), count(..), any(..) and all(..)\n"
    );
    assert_eq!(
        told("\"[1 thou, 2 thou]\""),
        at(9, "this is a list, and a number is wanted here")
            + "    a list stands after in: {use} in [\"street\", \"bracket\"]\n"
    );
    assert_eq!(told("\"{use} in [] ? 1 thou : 2 thou\""), at(18, "this list is empty, so nothing is in it"));
    assert_eq!(
        told("\"{use} in 'street' ? 1 thou : 2 thou\""),
        at(18, "after in stands a list: in [\"street\", \"bracket\"]")
    );
    assert_eq!(
        told("\"{bore.nominal} > 4.2\\\" ? 1 thou : 2 thou\""),
        at(29, "this \" is never closed") + "    inches are written in: 4.2 in\n"
    );
    assert_eq!(
        told("\"{low} * 2\""),
        at(9, "this window has no such limit to make this one of")
            + "    never-below, aim and never-above can be made of {low} and {high}, and high of {low}\n"
    );
    assert_eq!(told("\"{bore.nominal}\""), "fine");
}

#[test]
fn a_temperature_is_no_difference_and_a_share_no_number() {
    let when = |condition: &str| told(&format!("\"{condition} ? 1 thou : 2 thou\""));
    assert_eq!(when("{oil.temperature} > 212 °F"), "fine");
    // one less a difference is one
    assert_eq!(when("{oil.temperature} - 20 °F > 212 °F"), "fine");
    assert_eq!(when("{oil.temperature} - {oil.temperature} > 20 °F"), "fine");
    assert_eq!(
        when("{oil.temperature} + {oil.temperature} > 20 °F"),
        "t.json:3:29: a temperature and a temperature cannot be added\n"
    );
    assert_eq!(when("{leak-down} > 10 %"), "fine");
    assert_eq!(when("{leak-down} * 2 > 10 %"), "fine");
    assert_eq!(
        when("{leak-down} > 10"),
        "t.json:3:23: a share cannot be compared with a bare number\n    write the number with its unit, such as %\n"
    );
}

#[test]
fn the_same_text_gives_the_same_bytes() {
    let once = with("\"{bore.nominal} * 0.001\"").unwrap();
    assert_eq!(once, with("\"{bore.nominal} * 0.001\"").unwrap());
    assert_ne!(once.component, with("\"{bore.nominal} * 0.002\"").unwrap().component);
    // one rule, and all that a pack must have
    assert!(once.component.len() < 8_000, "{} bytes", once.component.len());
    assert_eq!(once.manifest.rules.first().map(|r| r.needs.clone()), Some(vec!["bore.nominal".to_owned()]));
}

#[test]
fn a_table_is_told_from_a_component() {
    assert!(is_table(b"{\"table\": 1}"));
    assert!(is_table(b"\xef\xbb\xbf \n// ours\n// more\n{"));
    assert!(is_table(b"/* ours */ {"));
    assert!(!is_table(b"\0asm\x0d\0\x01\0"));
    assert!(!is_table(b"// nothing else"));
    assert!(!is_table(b"[1]"));
    assert!(!is_table(b""));
}

#[test]
fn a_table_is_bounded_in_what_there_is_to_translate() {
    let rules = |count: usize| {
        let rule = |i: usize| {
            format!(
                "{{\"id\": \"r-{i}\", \"why\": \"w\", \"operation\": \"block\", \
                 \"window\": {{\"judges\": \"piston-to-wall\", \"low\": \"1 thou{}\"}}}}",
                " + 1 thou".repeat(199)
            )
        };
        let all: Vec<String> = (0..count).map(rule).collect();
        let text = format!("{{\"table\": \"t\", \"title\": \"T\", \"rules\": [{}]}}", all.join(","));
        translate("t.json", &text, &KnownFacts { facts: &facts(), packs: &[] }).map_err(|f| f.to_string())
    };
    // 399 words a rule
    assert!(rules(100).is_ok());
    let told = rules(101).unwrap_err();
    assert!(told.contains("this table has more than 40000 words, numbers and signs to translate"), "{told}");
    // what comes after is not even looked at
    let start = std::time::Instant::now();
    assert_eq!(rules(400).unwrap_err().lines().count(), 2);
    assert!(start.elapsed() < std::time::Duration::from_secs(30), "{:?}", start.elapsed());
}

/// The text of a whole table, and what is told of it.
#[test]
fn what_is_there_twice_or_not_at_all_is_told_where_it_stands() {
    let told = |rule: &str| {
        let text =
            format!("{{\"table\": \"t\", \"title\": \"T\", \"rules\": [\n{{\"id\": \"a\", \"why\": \"w\", {rule}}}]}}");
        translate("t.json", &text, &KnownFacts { facts: &facts(), packs: &[] })
            .map_or_else(|faults| faults.to_string(), |_| "fine".to_owned())
    };
    assert_eq!(
        told(r#""operation": "block", "windows": []"#),
        "t.json:2:1: this rule has no window\n    give it one, or take it out\n"
    );
    let finding = r#""operation": "block", "when": "{use} == 'street'", "finding": {"words": "no", "points-at": ["use", "bore.nominal", "use"]}"#;
    assert_eq!(told(finding), "t.json:2:140: \"points-at\" has \"use\" twice\n    keep one of them\n");
    assert_eq!(
        told(
            "\"operation\": \"block\", \"title\": \"\u{200b}\", \"when\": \"{use} == 'street'\", \"finding\": {\"words\": \"no\"}"
        ),
        "t.json:2:56: \"title\" is empty\n"
    );
}
