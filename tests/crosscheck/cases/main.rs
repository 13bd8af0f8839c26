//! Calls the mechanics on cases from a file, for the cross-check against other people's libraries.
//!
//! A line of the file is `{"function": "subject.what", "args": [numbers as texts, words, lists of numbers]}`; the answer is a
//! line with a list of numbers (NaN and Infinity by name), or a text where the function refuses its arguments.
#![allow(missing_docs, clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, clippy::print_stdout)]

mod args;
mod films;
mod gases;
mod life;
mod parts;
mod solids;
mod statistics;
mod units;

use args::{Answer, Args};

fn evaluate(function: &str, args: &Args) -> Answer {
    let (subject, what) = function.split_once('.').unwrap_or((function, ""));
    match subject {
        "geometry" => solids::geometry(what, args),
        "kinematics" => solids::kinematics(what, args),
        "inertia" => solids::inertia(what, args),
        "expansion" => solids::expansion(what, args),
        "performance" => solids::performance(what, args),
        "balance" => parts::balance(what, args),
        "bolt" => parts::bolt(what, args),
        "valve_spring" => parts::valve_spring(what, args),
        "valve_motion" => parts::valve_motion(what, args),
        "honing" => parts::honing(what, args),
        "roughness" => parts::roughness(what, args),
        "wear" => parts::wear(what, args),
        "gas" => gases::gas(what, args),
        "combustion_air" => gases::combustion_air(what, args),
        "dyno_air" => gases::dyno_air(what, args),
        "flow" => gases::flow(what, args),
        "oil" => films::oil(what, args),
        "journal_bearing" => films::journal_bearing(what, args),
        "mobility" => films::mobility(what, args),
        "knock" => films::knock(what, args),
        "charge" => films::charge(what, args),
        "cycle" => gases::cycle(what, args),
        "fuel" => solids::fuel(what, args),
        "uncertainty" => statistics::uncertainty(what, args),
        "dyno_statistics" => statistics::dyno_statistics(what, args),
        "weibull" => statistics::weibull(what, args),
        "survival" => statistics::survival(what, args),
        "replacement" => statistics::replacement(what, args),
        "fatigue" => statistics::fatigue(what, args),
        "life" => life::life(what, args),
        "units" => units::units(what, args),
        _ => panic!("no subject '{subject}'"),
    }
}

fn main() {
    let name = std::env::args().nth(1).unwrap_or_else(|| panic!("usage: mechanics-cases FILE"));
    let text = std::fs::read_to_string(&name).unwrap();
    let mut out = String::new();
    for line in text.lines() {
        let case: serde_json::Value = serde_json::from_str(line).unwrap();
        let function = case["function"].as_str().unwrap_or_else(|| panic!("{line}: no function"));
        args::write(&mut out, &evaluate(function, &Args(case["args"].as_array().unwrap())));
        out.push('\n');
    }
    print!("{out}");
}
