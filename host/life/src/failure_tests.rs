#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use crate::log::tests::line;
use crate::part::fittings;
use crate::services::tests::service;
use jiff::civil::date;

fn standing(entries: &[Entry]) -> Vec<LostPart> {
    let change = service("valve springs", "replace", &serde_json::json!({}));
    let look = service("valve springs", "measure", &serde_json::json!({}));
    let services = LogServices::new([("x/springs".into(), &change), ("x/load".into(), &look)], &[]);
    lost(entries, &fittings(entries), &services)
}

const FIRST: &str = r#""what":"fitted","part":"valve springs","serial":"set 11""#;
const BROKEN: &str =
    r#""what":"removed","serial":"set 11","failed":true,"disposition":"scrap","because":"inner broke, 5E""#;

fn log(days: &[(i8, &str)]) -> Vec<Entry> {
    days.iter().map(|(day, json)| line(date(2026, 5, *day), json)).collect()
}

#[test]
fn a_failed_set_stands_until_the_next_one_is_in() {
    let with = |more: &[(i8, &str)]| standing(&log(&[&[(1, FIRST), (9, BROKEN)], more].concat()));
    let open = with(&[(10, r#""what":"ran","passes":24"#)]);
    assert_eq!(open.len(), 1);
    assert_eq!(open[0].name(), "valve springs set 11");
    assert!(open[0].stops() && open[0].none_in && open[0].because.as_deref() == Some("inner broke, 5E"));
    for closing in [
        r#""what":"fitted","part":"valve springs","serial":"set 14""#,
        r#""what":"did","service":"x/springs""#,
        r#""what":"freshened""#,
    ] {
        assert!(with(&[(10, closing)]).is_empty(), "{closing}");
    }
    for other in [
        r#""what":"fitted","part":"rockers","serial":"set 14""#,
        r#""what":"fitted","part":"valve springs","serial":"one","place":"3E""#,
        r#""what":"did","service":"x/load""#,
        // what was thrown away does not come back
        FIRST,
    ] {
        assert_eq!(with(&[(10, other)]).len(), 1, "{other}");
    }
}

#[test]
fn written_down_as_settled_it_stands_no_more() {
    let mut entries = log(&[(1, FIRST), (9, BROKEN)]);
    let settled = format!(r#""what":"settled","entry":"{}","found":"no marks""#, entries[1].id);
    entries.push(line(date(2026, 5, 10), &settled));
    assert!(standing(&entries).is_empty());
}

#[test]
fn the_next_set_may_be_logged_first_on_the_day_and_not_a_week_before() {
    let second = r#""what":"fitted","part":"valve springs","serial":"set 14""#;
    assert!(standing(&log(&[(1, FIRST), (9, second), (9, BROKEN)])).is_empty());
    let open = standing(&log(&[(1, FIRST), (2, second), (9, BROKEN)]));
    assert_eq!((open.len(), open[0].none_in), (1, false));
}

#[test]
fn what_came_out_sound_is_told_where_nothing_went_in() {
    let out = r#""what":"removed","serial":"set 11","disposition":"recondition""#;
    let open = standing(&log(&[(1, FIRST), (9, out)]));
    assert!(open[0].none_in && !open[0].stops());
    // reconditioned, the same set goes back
    assert!(standing(&log(&[(1, FIRST), (9, out), (12, FIRST)])).is_empty());
    let scrapped = r#""what":"removed","serial":"set 11","disposition":"scrap""#;
    assert!(standing(&log(&[(1, FIRST), (9, scrapped)]))[0].stops());
}

#[test]
fn a_part_without_a_number_can_break_too() {
    let broke = r#""what":"happened","happening":"broke","part":"valve springs","place":"5E","note":"inner""#;
    let open = standing(&log(&[(9, broke)]));
    assert_eq!((open[0].name().as_str(), open[0].serial.as_ref()), ("valve springs at 5E", None));
    assert!(open[0].stops() && !open[0].none_in && open[0].because.as_deref() == Some("inner"));
    assert_eq!(standing(&log(&[(1, FIRST), (9, broke)]))[0].serial.as_deref(), Some("set 11"));
    // taken out, the entry that says so speaks, and once
    let both = standing(&log(&[(1, FIRST), (9, broke), (10, BROKEN)]));
    assert_eq!((both.len(), both[0].index), (1, 2));
}

#[test]
fn one_of_several_is_put_right_at_its_place() {
    let rod =
        |serial: &str, place: &str| format!(r#""what":"fitted","part":"rods","serial":"{serial}","place":"{place}""#);
    let (first, other, next) = (rod("R-21", "5"), rod("R-30", "6"), rod("R-31", "5"));
    let out = r#""what":"removed","serial":"R-21","failed":true,"disposition":"scrap""#;
    let with = |more: &str| standing(&log(&[(1, &first), (9, out), (10, more)]));
    assert_eq!(with(&other)[0].name(), "rods R-21 at 5");
    assert!(with(&next).is_empty());
}
