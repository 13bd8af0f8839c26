#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;

fn stop(uid: &str, services: &[&str], first: Date) -> Drawn {
    let mut event = Event::new();
    event.summary(&services.join(" "));
    event.append_property(day("DTSTART", first));
    Drawn {
        kind: "stop",
        uid: uid.to_owned(),
        keys: services.iter().map(|s| (*s).to_owned()).collect(),
        summary: services.join(" "),
        days: Some([first, first]),
        form: Form::Event(event),
    }
}

fn todo(entry: &str) -> Drawn {
    let mut todo = Todo::new();
    todo.summary(entry);
    let keys = BTreeSet::from([entry.to_owned()]);
    Drawn {
        kind: "finding",
        uid: format!("f.{entry}"),
        keys,
        summary: entry.to_owned(),
        days: None,
        form: Form::Todo(todo),
    }
}

/// UID, SEQUENCE and STATUS of each entry.
fn told(forms: &[Form]) -> Vec<(String, u32, String)> {
    let of = |property: &dyn Fn(&str) -> Option<String>| {
        let text = |key: &str| property(key).unwrap();
        (text("UID"), text("SEQUENCE").parse().unwrap(), property("STATUS").unwrap_or_default())
    };
    let each = |form: &Form| match form {
        Form::Event(e) => of(&|key| e.property_value(key).map(str::to_owned)),
        Form::Todo(t) => of(&|key| t.property_value(key).map(str::to_owned)),
    };
    forms.iter().map(each).collect()
}

const JULY: fn(i8) -> Date = |day| date(2026, 7, day);

fn row(uid: &str, sequence: u32, status: &str) -> (String, u32, String) {
    (uid.to_owned(), sequence, status.to_owned())
}

// days from 1 January 2000 to 1 July 2026: 26 years with 7 leap days, and 181 days of 2026
const FIRST: u32 = 26 * 365 + 7 + 181;

#[test]
fn what_went_away_is_cancelled_until_its_day_is_past_and_what_is_past_stays() {
    let none = BTreeSet::new();
    let all =
        vec![stop("oil", &["oil"], JULY(10)), stop("plugs", &["plugs"], JULY(4)), stop("cam", &["cam"], JULY(20))];
    let (forms, said) = Said::default().next(all, JULY(1), &none);
    assert_eq!(told(&forms)[0], row("oil", FIRST, "CONFIRMED"));
    let left = || vec![stop("cam", &["cam"], JULY(20))];
    let (forms, said) = said.next(left(), JULY(5), &none);
    // what has not changed keeps its number; the plugs of the fourth were done, or not: they are history
    let gone = [row("cam", FIRST, "CONFIRMED"), row("oil", FIRST + 4, "CANCELLED")];
    assert_eq!(told(&forms), gone);
    // a file that nobody took in is made good by the next one
    let (forms, said) = said.next(left(), JULY(10), &none);
    assert_eq!(told(&forms), gone);
    let (forms, said) = said.next(left(), JULY(11), &none);
    assert_eq!(told(&forms), gone[..1]);
    // it comes back, on the same day as before
    let (forms, _) = said.next(vec![stop("oil", &["oil"], JULY(30))], JULY(11), &none);
    assert_eq!(told(&forms), [row("oil", FIRST + 10, "CONFIRMED"), row("cam", FIRST + 10, "CANCELLED")]);
}

#[test]
fn a_stop_that_others_went_into_keeps_the_uid_of_the_one_it_shares_most_with() {
    let none = BTreeSet::new();
    let two = vec![stop("oil", &["oil"], JULY(10)), stop("springs", &["springs", "lash", "lifters"], JULY(12))];
    let (_, said) = Said::default().next(two, JULY(1), &none);
    let one = vec![stop("rings", &["lash", "lifters", "oil", "rings", "springs"], JULY(9))];
    let (forms, said) = said.next(one, JULY(2), &none);
    assert_eq!(told(&forms), [row("springs", FIRST + 1, "CONFIRMED"), row("oil", FIRST + 1, "CANCELLED")]);
    // it comes apart again: each has one, and no two the same
    let two = vec![stop("rings", &["rings"], JULY(9)), stop("lash", &["lash", "lifters", "springs"], JULY(20))];
    let (forms, _) = said.next(two, JULY(3), &none);
    let uids: Vec<String> = told(&forms).into_iter().filter(|t| t.2 == "CONFIRMED").map(|t| t.0).collect();
    assert_eq!(uids, ["rings", "springs"]);
}

/// Of two turns of one service the nearer one moves.
#[test]
fn the_next_turn_takes_the_place_that_was_drawn_for_it() {
    let none = BTreeSet::new();
    let turns = vec![stop("oil.build", &["oil"], JULY(10)), stop("oil.build.2", &["oil"], JULY(30))];
    let (_, said) = Said::default().next(turns, JULY(1), &none);
    let (forms, _) = said.next(vec![stop("oil.passes-40", &["oil"], JULY(29))], JULY(8), &none);
    assert_eq!(told(&forms), [row("oil.build.2", FIRST + 7, "CONFIRMED"), row("oil.build", FIRST + 7, "CANCELLED")]);
}

#[test]
fn two_files_of_one_day_are_told_apart_and_the_same_one_is_the_same() {
    let none = BTreeSet::new();
    let at = |day| vec![stop("oil", &["oil"], JULY(day)), todo("x1")];
    let (forms, said) = Said::default().next(at(10), JULY(1), &none);
    let (again, said) = said.next(at(10), JULY(1), &none);
    assert_eq!(told(&forms), told(&again));
    let (moved, said) = said.next(at(11), JULY(1), &none);
    assert_eq!(told(&moved)[0], row("oil", FIRST + 1, "CONFIRMED"));
    // a plan as of an earlier day is still the later file
    let (earlier, _) = said.next(at(12), date(2026, 6, 20), &none);
    assert_eq!(told(&earlier)[0], row("oil", FIRST + 2, "CONFIRMED"));
}

#[test]
fn a_to_do_that_was_settled_is_done_and_one_that_was_undone_is_cancelled() {
    let (_, said) = Said::default().next(vec![todo("x1"), todo("x2")], JULY(1), &BTreeSet::new());
    let (forms, said) = said.next(vec![], JULY(2), &BTreeSet::from(["x1"]));
    let gone = [row("f.x1", FIRST + 1, "COMPLETED"), row("f.x2", FIRST + 1, "CANCELLED")];
    assert_eq!(told(&forms), gone);
    // 3 July of the year after is 366 days later
    let (forms, said) = said.next(vec![], date(2027, 7, 3), &BTreeSet::new());
    assert_eq!(told(&forms), gone);
    assert!(said.next(vec![], date(2027, 7, 4), &BTreeSet::new()).0.is_empty());
}

#[test]
fn what_is_kept_reads_back_the_same_and_what_is_none_is_told() {
    let (_, said) =
        Said::default().next(vec![stop("ö \"1\"", &["a", "b"], JULY(4)), todo("x1")], JULY(1), &BTreeSet::new());
    let (_, said) = said.next(vec![stop("s", &["c"], JULY(4))], JULY(2), &BTreeSet::from(["x1"]));
    assert_eq!(Said::read(&said.text()), Some(said.clone()));
    for text in ["", "[]", "{\"a\":1}", &said.text().replace("sequence", "sequenze")] {
        assert_eq!(Said::read(text), None, "{text}");
    }
}
