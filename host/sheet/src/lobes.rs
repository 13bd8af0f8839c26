//! The lift tables of the lobes: a table that is no lobe's is told at its line, before anything is worked out from it.

use super::fault::Finder;
use serde_json::Value;
use thou_mechanics::valve_motion::table;

/// A lobe rises once and falls once; an indicator's hand goes back by less than this share of the lift on the way.
const BACK: f64 = 0.02;
/// Where one starts and ends: under this share of its lift, or the table is cut off. Ramps are a few thou.
const FOOT: f64 = 0.2;

/// Tells what is wrong with the tables that the sheet has.
pub(super) fn check(root: &Value, find: &mut Finder<'_>) {
    for side in ["inlet", "exhaust"] {
        let pointer = format!("/cam/{side}/lift-table");
        if let Some(stated) = root.pointer(&pointer).filter(|v| v.is_object())
            && let Err((at, message, help)) = lobe(stated)
        {
            find.at(&format!("{pointer}{at}"), format!("cam.{side}.lift-table: {message}"), Some(help.to_owned()));
        }
    }
}

/// Where inside the table, what, and what to write.
type Wrong = (String, String, &'static str);

fn lobe(stated: &Value) -> Result<(), Wrong> {
    let list = |name: &str| -> Option<Vec<f64>> {
        stated.get(name)?.as_array().map(|all| all.iter().filter_map(Value::as_f64).collect())
    };
    let wrong = |at: String, message: String, help: &'static str| Err((at, message, help));
    let Some(degrees) = list("degrees") else { return Ok(()) };
    let (name, lifts) = match (list("thou"), list("mm")) {
        (Some(thou), None) => ("thou", thou),
        (None, Some(mm)) => ("mm", mm),
        (None, None) => {
            return wrong(String::new(), "it has no lifts".to_owned(), "write them as thou or as mm, one a degree");
        }
        (Some(_), Some(_)) => {
            return wrong("/mm".to_owned(), "it has its lifts twice".to_owned(), "keep one of thou and mm");
        }
    };
    if degrees.len() != lifts.len() {
        let message = format!("{} degrees and {} lifts", degrees.len(), lifts.len());
        return wrong(format!("/{name}"), message, "write one lift for each degree");
    }
    if let Some(at) = degrees.windows(2).position(|pair| matches!(pair, [a, b] if a >= b)) {
        let value = degrees.get(at + 1).copied().unwrap_or(0.0);
        return wrong(
            format!("/degrees/{}", at + 1),
            format!("{value} does not come after the degree before it"),
            "cam degrees rise from row to row; after 360 go on with 361",
        );
    }
    let peak = lifts.iter().copied().fold(0.0, f64::max);
    let nose = lifts.iter().position(|l| *l >= peak).unwrap_or(0);
    if peak <= 0.0 {
        return wrong(format!("/{name}"), "nothing is lifted".to_owned(), "write the lift above the base circle");
    }
    if let Some(at) = lifts.iter().position(|l| *l < -BACK * peak) {
        let value = lifts.get(at).copied().unwrap_or(0.0);
        let message = format!("{value} is under the base circle");
        return wrong(format!("/{name}/{at}"), message, "set the indicator to 0 on the base circle");
    }
    if let Some(at) = turns_back(&lifts, nose, BACK * peak) {
        let value = lifts.get(at).copied().unwrap_or(0.0);
        let message = format!("{value} goes back on the way {}", if at < nose { "up" } else { "down" });
        return wrong(format!("/{name}/{at}"), message, "read it again: a lobe rises once and falls once");
    }
    for (at, end) in [(0, lifts.first()), (lifts.len().saturating_sub(1), lifts.last())] {
        if let Some(value) = end.filter(|l| **l > FOOT * peak) {
            let message = format!("{value} is far up the flank");
            return wrong(format!("/{name}/{at}"), message, "begin before it lifts and end after it is shut");
        }
    }
    let angles: Vec<f64> = degrees.iter().map(|d| d.to_radians()).collect();
    table(&angles, &lifts)
        .map(|_| ())
        .map_err(|fault| ("/degrees".to_owned(), fault.to_string(), "read it every 2 cam degrees, or every one"))
}

/// The first row that goes back by more than this on the way to the nose, or comes up again behind it.
fn turns_back(lifts: &[f64], nose: usize, by: f64) -> Option<usize> {
    let mut most = f64::NEG_INFINITY;
    for (at, lift) in lifts.iter().enumerate().take(nose) {
        most = most.max(*lift);
        if *lift < most - by {
            return Some(at);
        }
    }
    let mut least = f64::INFINITY;
    for (at, lift) in lifts.iter().enumerate().skip(nose) {
        least = least.min(*lift);
        if *lift > least + by {
            return Some(at);
        }
    }
    None
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::lobe;
    use serde_json::{Value, json};

    fn good() -> (Vec<f64>, Vec<f64>) {
        let degrees: Vec<f64> = (-40..=40).map(|i| 2.0 * f64::from(i)).collect();
        let thou = degrees.iter().map(|d| 400.0 * (1.0 - (d / 80.0).powi(2)).powi(2)).collect();
        (degrees, thou)
    }

    fn said(stated: &Value) -> String {
        let (at, message, help) = lobe(stated).unwrap_err();
        format!("{at}: {message}; {help}")
    }

    #[test]
    fn a_lobe_is_taken_and_what_is_none_is_told_where() {
        let (degrees, thou) = good();
        assert!(lobe(&json!({ "degrees": degrees, "thou": thou })).is_ok());
        let with = |edit: &dyn Fn(&mut Vec<f64>, &mut Vec<f64>)| {
            let (mut degrees, mut thou) = good();
            edit(&mut degrees, &mut thou);
            said(&json!({ "degrees": degrees, "thou": thou }))
        };
        assert_eq!(
            said(&json!({ "degrees": degrees })),
            ": it has no lifts; write them as thou or as mm, one a degree"
        );
        let twice = json!({ "degrees": degrees, "thou": thou, "mm": thou });
        assert_eq!(said(&twice), "/mm: it has its lifts twice; keep one of thou and mm");
        assert_eq!(
            with(&|_, thou| thou.truncate(80)),
            "/thou: 81 degrees and 80 lifts; write one lift for each degree"
        );
        assert_eq!(
            with(&|degrees, _| degrees[7] = -68.0),
            "/degrees/7: -68 does not come after the degree before it; cam degrees rise from row to row; after 360 go on \
             with 361"
        );
        assert_eq!(with(&|_, thou| thou.fill(0.0)), "/thou: nothing is lifted; write the lift above the base circle");
        assert_eq!(
            with(&|_, thou| thou[0] = -12.0),
            "/thou/0: -12 is under the base circle; set the indicator to 0 on the base circle"
        );
        assert_eq!(
            with(&|_, thou| thou[25] = 31.0),
            "/thou/25: 31 goes back on the way up; read it again: a lobe rises once and falls once"
        );
        assert_eq!(
            with(&|_, thou| thou[60] = 300.0),
            "/thou/60: 300 goes back on the way down; read it again: a lobe rises once and falls once"
        );
        let cut = |degrees: &mut Vec<f64>, thou: &mut Vec<f64>| {
            degrees.drain(..25);
            thou.drain(..25);
        };
        assert!(with(&cut).ends_with("is far up the flank; begin before it lifts and end after it is shut"));
        let far: Vec<f64> = degrees.iter().map(|d| 3.0 * d).collect();
        assert_eq!(
            said(&json!({ "degrees": far, "mm": thou })),
            "/degrees: a lobe's rows must stand close enough that seven fall within 16 cam degrees; read it every 2 cam \
             degrees, or every one"
        );
    }
}
