//! A measured profile of a bore, in a file beside the sheet: its finish by the standard's parameters.
//!
//! `height` or `position,height` in the first line, each with its unit in brackets (`position [mm],height [µm]`), then one
//! height a line. Lines that begin with # are remarks. With positions it is filtered here; heights alone are taken as
//! filtered by the instrument.

use super::csv::load;
use super::fault::{Finder, clean};
use super::model::{Finish, Source};
use serde_json::Value;
use thou_contract::Kind;
use thou_mechanics::roughness::{self, MaterialRatioCurve};

const POINTER: &str = "/finish/profile";
/// The usual cut-off for bores, m. ISO 21920-3:2021, table 2: 0.8 mm for Ra of 0.1 to 2 µm.
const CUT_OFF: f64 = 8e-4;
/// How far a step may be off the mean step, as a share of it.
const UNEVEN: f64 = 0.2;
/// Most heights: a traverse of 12.5 mm at a step of half a micrometre is 25,000.
const MOST: usize = 60_000;
/// A height that no finish has, m: a stylus runs out of its range before.
const MOST_HEIGHT: f64 = 1e-3;
/// Most heights by points within the cut-off: half a second of filtering.
const MOST_WORK: f64 = 1e8;
const FORM: &str = "write height [µm], or position [mm],height [µm] in the first line, then one height a line";

/// The finish of the profile that the sheet names, if it names one.
pub(super) fn read(root: &Value, source: &Source, find: &mut Finder<'_>) -> Option<Finish> {
    let file = root.pointer(POINTER)?.as_str()?;
    let shown = clean(file, 80);
    let read = match load(source, file) {
        Ok(text) => finish(&text).map_err(|message| (format!("{shown}: {message}"), FORM.to_owned())),
        Err(fault) => Err(fault),
    };
    match read {
        Ok(finish) => Some(finish),
        Err((message, help)) => {
            find.at(POINTER, format!("finish.profile: {message}"), Some(help));
            None
        }
    }
}

/// The finish of a file's text, or what is wrong with it.
fn finish(text: &str) -> Result<Finish, String> {
    let says = |line: &&(usize, &str)| !line.1.trim().is_empty() && !line.1.trim_start().starts_with('#');
    let all: Vec<(usize, &str)> = text.lines().enumerate().map(|(n, line)| (n + 1, line)).collect();
    let mut lines = all.iter().filter(says);
    let (number, first) = lines.next().ok_or("there is nothing in the file")?;
    let columns: Vec<f64> = match first.split(',').map(str::trim).collect::<Vec<_>>().as_slice() {
        [height] => vec![unit(*number, height, "height")?],
        [position, height] => vec![unit(*number, position, "position")?, unit(*number, height, "height")?],
        _ => return Err(format!("line {number} is \"{}\"", clean(first, 40))),
    };
    let (mut positions, mut heights) = (Vec::new(), Vec::new());
    for (number, row) in lines {
        let cells: Vec<Option<f64>> = row.split(',').map(|cell| cell.trim().parse().ok()).collect();
        let wrong = || {
            let comma = if cells.len() > columns.len() { ", with points for decimals" } else { "" };
            format!("line {number} is \"{}\": {} wanted{comma}", clean(row, 40), numbers(columns.len()))
        };
        if cells.len() != columns.len() {
            return Err(wrong());
        }
        let mut values =
            cells.iter().zip(&columns).map(|(cell, unit)| cell.filter(|v| v.is_finite()).map(|v| v * unit));
        if columns.len() == 2 {
            positions.push((*number, values.next().flatten().ok_or_else(wrong)?));
        }
        let height = values.next().flatten().ok_or_else(wrong)?;
        if height.abs() > MOST_HEIGHT {
            return Err(format!(
                "line {number} is \"{}\": higher than any finish is, is the unit another?",
                clean(row, 40)
            ));
        }
        heights.push(height);
        if heights.len() > MOST {
            return Err(format!("more than {MOST} heights: leave out every other one"));
        }
    }
    if heights.len() < roughness::FEWEST {
        return Err(format!("{} heights, and a profile has {} at least", heights.len(), roughness::FEWEST));
    }
    let rough = match step(&positions)? {
        Some(step) if heights.len() as f64 * step < CUT_OFF => {
            return Err(format!(
                "{:.2} mm long, and a profile is {:.1} mm at least, the length that its filter reaches over",
                heights.len() as f64 * step * 1e3,
                CUT_OFF * 1e3
            ));
        }
        Some(step) if heights.len() as f64 * CUT_OFF / step > MOST_WORK => {
            return Err("its points are too fine for its length: leave out every other one".to_owned());
        }
        Some(step) => roughness::plateau_roughness(&heights, step, CUT_OFF).map_err(|e| e.to_string())?,
        None => heights,
    };
    let core = MaterialRatioCurve::of(&rough).map_err(|e| e.to_string())?.core();
    Ok(Finish { ra: roughness::ra(&rough), rq: roughness::rq(&rough), rz: roughness::rz(&rough), core })
}

fn numbers(count: usize) -> &'static str {
    if count == 1 { "one number" } else { "two numbers" }
}

/// The SI value of a column's unit.
fn unit(line: usize, header: &str, name: &str) -> Result<f64, String> {
    let unit = header.strip_prefix(name).map(str::trim).and_then(|u| u.strip_prefix('[')?.strip_suffix(']'));
    let units = Kind::by_id(if name == "height" { "roughness" } else { "length" }).map(|k| k.spec().units);
    let units = units.unwrap_or_default();
    let found = unit.and_then(|unit| units.iter().find(|u| u.name == unit.trim()));
    found.map(|u| u.factor).ok_or_else(|| {
        let known: Vec<&str> = units.iter().map(|u| u.name).collect();
        let what = if unit.is_some() { format!("; its units are {}", known.join(", ")) } else { String::new() };
        format!("line {line} has \"{}\" for the {name}{what}", clean(header, 40))
    })
}

/// The even step of the positions, m, each with its line; none without positions.
fn step(positions: &[(usize, f64)]) -> Result<Option<f64>, String> {
    let (Some((_, first)), Some((_, last))) = (positions.first(), positions.last()) else { return Ok(None) };
    let step = (last - first) / (positions.len() - 1).max(1) as f64;
    let apart = |pair: &[(usize, f64)]| match pair {
        [(_, a), (line, b)] if step <= 0.0 || (b - a - step).abs() > UNEVEN * step => Some(*line),
        _ => None,
    };
    match positions.windows(2).find_map(apart) {
        Some(line) => Err(format!("line {line}: the positions do not rise by even steps there")),
        None => Ok(Some(step)),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use std::fmt::Write as _;

    /// A plateau with a valley every 0.2 mm, on a slope that the filter takes out.
    fn traverse() -> String {
        let mut text = "position [mm],height [µm]\n".to_owned();
        for i in 0..5_600 {
            let valley = if i % 200 < 16 { -1.5 } else { 0.05 * (f64::from(i) * 0.7).sin() };
            writeln!(text, "{:.4},{:.4}", f64::from(i) * 0.001, valley + f64::from(i) * 0.001).unwrap();
        }
        text
    }

    #[test]
    fn a_traverse_on_a_slope_comes_out_as_a_plateau() {
        let finish = finish(&traverse()).unwrap();
        assert!(finish.core.rvk > 4.0 * finish.core.rpk, "{finish:?}");
        assert!(finish.core.rk > 0.05e-6 && finish.core.rk < 0.4e-6, "{finish:?}");
        assert!(finish.core.mr2 > 0.85 && finish.core.mr2 < 0.95, "{finish:?}");
        assert!(finish.ra < finish.rq && finish.rq < finish.rz, "{finish:?}");
    }

    #[test]
    fn heights_alone_are_taken_as_filtered() {
        let mut text = "height [µin]\n".to_owned();
        for i in 0..500 {
            writeln!(text, "{i}").unwrap();
        }
        let finish = finish(&text).unwrap();
        assert!((finish.core.rk / (500.0 * 0.0254e-6) - 1.0).abs() < 0.01, "{finish:?}");
    }

    #[test]
    fn what_is_wrong_is_named_with_its_line() {
        for (text, said) in [
            ("", "nothing in the file"),
            ("# a remark\n\n", "nothing in the file"),
            ("depth [µm]\n1\n", "\"depth [µm]\""),
            ("height [furlong]\n1\n", "\"height [furlong]\""),
            ("height\n1\n", "\"height\""),
            ("# a remark\ndepth [µm]\n1\n", "line 2 has \"depth [µm]\""),
            ("height [mm]\n1\n", "line 1 has \"height [mm]\" for the height; its units are µin, uin, µm, um"),
            ("height [µm]\n0,25\n", "line 2 is \"0,25\": one number wanted, with points for decimals"),
            ("height [µm]\n2500\n", "line 2 is \"2500\": higher than any finish"),
            ("height [µm]\n1\ntwo\n", "line 3"),
            ("height [µm]\n1\nNaN\n", "line 3"),
            ("position [mm],height [µm]\n1\n", "two numbers"),
            ("height [µm]\n1\n2\n", "2 heights"),
        ] {
            let got = finish(text).unwrap_err();
            assert!(got.contains(said), "{text:?}: {got}");
        }
    }

    #[test]
    fn positions_that_jump_or_end_too_soon_are_told() {
        let rows = |step: &dyn Fn(usize) -> f64, count: usize| {
            let mut text = "position [mm],height [µm]\n".to_owned();
            for n in 0..count {
                writeln!(text, "{:.4},0.1", step(n)).unwrap();
            }
            finish(&text).unwrap_err()
        };
        let even = |n: usize| n as f64 * 0.002;
        assert_eq!(
            rows(&even, 200),
            "0.40 mm long, and a profile is 0.8 mm at least, the length that its filter reaches over"
        );
        // the 1,000th point stands in line 1,001
        let jumps = |n: usize| if n < 999 { even(n) } else { even(n + 5) };
        assert_eq!(rows(&jumps, 2_800), "line 1001: the positions do not rise by even steps there");
        assert!(rows(&|n| -even(n), 500).starts_with("line 3: the positions do not rise"));
    }

    #[test]
    fn remarks_stand_anywhere() {
        let remarks = format!("# by whom\n{}# the end\n", traverse().replacen('\n', "\n# on which day\n", 1));
        assert_eq!(finish(&remarks).unwrap(), finish(&traverse()).unwrap());
    }
}
