//! The places of an engine in the shop's own numbering.

use super::fault::{Finder, clean};
use super::model::{Axis, Places};
use serde_json::Value;
use std::collections::BTreeMap;
use thou_text::nearest;

/// Works out the places; what cannot be is told, and the usual places stand in for it.
pub(super) fn places(root: &Value, find: &mut Finder<'_>) -> Places {
    let engine = root.get("engine").unwrap_or(&Value::Null);
    let count = engine.get("cylinders").and_then(Value::as_u64).unwrap_or(1).clamp(1, 16) as usize;
    let layout = engine.get("layout").and_then(Value::as_str).unwrap_or("inline");
    let two_banks = matches!(layout, "v" | "flat");
    if layout == "single" && count != 1 {
        let help = "a single has 1: is the layout inline, v or flat?".to_owned();
        find.at("/engine/cylinders", format!("engine.cylinders is {count}, and engine.layout is single"), Some(help));
        find.second("/engine/layout", "a single");
    }
    if two_banks && count < 2 {
        let help = Some("is the layout single?".to_owned());
        find.at("/engine/cylinders", format!("engine.cylinders is {count}, and engine.layout is {layout}"), help);
        find.second("/engine/layout", "has two banks");
    }
    let mut namer = Namer { engine, find };
    let cylinders = namer.names("cylinder-names", Some((count, "cylinders")), || numbers(count));

    let usual_pins = if two_banks { pairs(count) } else { (0..count).collect() };
    let pin_of_cylinder = namer.groups("crankpins", &cylinders, "crankpin").unwrap_or(usual_pins);
    let pins = pin_of_cylinder.iter().max().map_or(1, |m| m + 1);

    let usual_banks: Vec<usize> = (0..count).map(|i| if two_banks { i % 2 } else { 0 }).collect();
    let bank_of_cylinder = namer.groups("banks", &cylinders, "bank").unwrap_or(usual_banks);
    let banks = bank_of_cylinder.iter().max().map_or(1, |m| m + 1);
    let bank_names = namer.names("bank-names", Some((banks, "banks")), || match banks {
        1 => vec!["all".to_owned()],
        2 => vec!["left".to_owned(), "right".to_owned()],
        n => numbers(n),
    });

    let mains = namer.names("main-names", None, || numbers(pins + 1));
    let cam_journals =
        root.pointer("/cam/journals").and_then(Value::as_u64).map_or(mains.len(), |n| n.clamp(1, 40) as usize);

    let a_cylinder = root.pointer("/heads/valves-a-cylinder").and_then(Value::as_u64).unwrap_or(2).clamp(2, 5) as usize;
    let inlets = a_cylinder.div_ceil(2);
    let cylinder_of_valve: Vec<(usize, bool)> =
        (0..count).flat_map(|c| (0..a_cylinder).map(move |v| (c, v < inlets))).collect();
    let usual_valves = || cylinders.iter().flat_map(|c| valve_labels(c, inlets, a_cylinder - inlets)).collect();
    let valves = namer.names("valve-names", Some((count * a_cylinder, "valves")), usual_valves);
    namer.firing_order(&cylinders);

    let labels = BTreeMap::from([
        (Axis::One, vec![String::new()]),
        (Axis::Cylinder, cylinders.clone()),
        (Axis::Rod, cylinders),
        (Axis::Bank, bank_names),
        (Axis::Main, mains),
        (Axis::Crankpin, numbers(pins)),
        (Axis::Valve, valves),
        (Axis::CamJournal, numbers(cam_journals)),
    ]);
    Places { labels, pin_of_cylinder, bank_of_cylinder, cylinder_of_valve }
}

/// What an axis runs over, in words: one, and several.
pub(super) fn noun(axis: Axis) -> (&'static str, &'static str) {
    match axis {
        Axis::One => ("engine", "engines"),
        Axis::Cylinder => ("cylinder", "cylinders"),
        Axis::Bank => ("bank", "banks"),
        Axis::Main => ("main", "mains"),
        Axis::Rod => ("rod", "rods"),
        Axis::Crankpin => ("crankpin", "crankpins"),
        Axis::Valve => ("valve", "valves"),
        Axis::CamJournal => ("cam journal", "cam journals"),
    }
}

/// The places of an axis for a help: which there are, and the one that was perhaps meant.
pub(super) fn known(places: &Places, axis: Axis, written: &str) -> String {
    let labels = places.labels(axis);
    let list = labels.join(", ");
    let near = nearest(written, labels.iter().map(String::as_str)).filter(|n| n.len() > 1);
    match near {
        Some(near) => format!("did you mean \"{near}\"? The {} are {list}", noun(axis).1),
        None => format!("the {} are {list}", noun(axis).1),
    }
}

fn numbers(count: usize) -> Vec<String> {
    (1..=count).map(|n| n.to_string()).collect()
}

fn pairs(count: usize) -> Vec<usize> {
    (0..count).map(|i| i / 2).collect()
}

fn valve_labels(cylinder: &str, inlets: usize, exhausts: usize) -> Vec<String> {
    let side = |letter: char, count: usize| {
        (1..=count)
            .map(move |n| if count == 1 { format!("{cylinder}{letter}") } else { format!("{cylinder}{letter}{n}") })
            .collect::<Vec<_>>()
    };
    [side('I', inlets), side('E', exhausts)].concat()
}

struct Namer<'v, 'f, 's> {
    engine: &'v Value,
    find: &'f mut Finder<'s>,
}

impl<'v> Namer<'v, '_, '_> {
    /// The names in a field if they are good, else the usual ones.
    fn names(&mut self, key: &str, count: Option<(usize, &str)>, usual: impl FnOnce() -> Vec<String>) -> Vec<String> {
        let Some(list) = self.engine.get(key).and_then(Value::as_array) else {
            return usual();
        };
        let names: Vec<String> = list.iter().filter_map(Value::as_str).map(str::to_owned).collect();
        let pointer = format!("/engine/{key}");
        if let Some((wanted, what)) = count
            && names.len() != wanted
        {
            let message = format!("engine.{key} has {} names for {wanted} {what}", names.len());
            self.find.at(&pointer, message, Some(format!("write {wanted} names, or leave it out")));
            return usual();
        }
        let mut good = !names.is_empty();
        for (index, name) in names.iter().enumerate() {
            if let Some(first) = names.iter().take(index).position(|n| n == name) {
                let message = format!("engine.{key} has \"{}\" twice", clean(name, 40));
                self.find.at(&format!("{pointer}/{index}"), message, Some("each name stands for one place".to_owned()));
                self.find.second(&format!("{pointer}/{first}"), "first here");
                good = false;
            }
        }
        if good { names } else { usual() }
    }

    /// For each cylinder the group it stands in: every cylinder in one group.
    fn groups(&mut self, key: &str, cylinders: &[String], what: &str) -> Option<Vec<usize>> {
        let groups = self.engine.get(key)?.as_array()?;
        let mut of: Vec<Option<usize>> = vec![None; cylinders.len()];
        let mut good = true;
        for (g, group) in groups.iter().enumerate() {
            for (m, name) in group.as_array().into_iter().flatten().filter_map(Value::as_str).enumerate() {
                let pointer = format!("/engine/{key}/{g}/{m}");
                let slot = cylinders.iter().position(|c| c == name).and_then(|at| of.get_mut(at));
                match slot {
                    None => {
                        let message =
                            format!("engine.{key} names cylinder \"{}\", which there is not", clean(name, 40));
                        let help = format!("the cylinders are {}", cylinders.join(", "));
                        self.find.at(&pointer, message, Some(help));
                        good = false;
                    }
                    Some(Some(_)) => {
                        let message = format!("engine.{key} has cylinder \"{}\" twice", clean(name, 40));
                        self.find.at(&pointer, message, Some(format!("each cylinder stands on one {what}")));
                        good = false;
                    }
                    Some(slot) => *slot = Some(g),
                }
            }
        }
        let left: Vec<&str> = cylinders.iter().zip(&of).filter(|(_, g)| g.is_none()).map(|(c, _)| c.as_str()).collect();
        if good && !left.is_empty() {
            let message = format!("engine.{key} leaves out cylinder {}", clean(&left.join(", "), 60));
            self.find.at(&format!("/engine/{key}"), message, Some(format!("each cylinder stands on one {what}")));
            good = false;
        }
        if good { of.into_iter().collect() } else { None }
    }

    fn firing_order(&mut self, cylinders: &[String]) {
        let Some(list) = self.engine.get("firing-order").and_then(Value::as_array) else {
            return;
        };
        let order: Vec<&str> = list.iter().filter_map(Value::as_str).collect();
        let mut sorted = order.clone();
        sorted.sort_unstable();
        let mut wanted: Vec<&str> = cylinders.iter().map(String::as_str).collect();
        wanted.sort_unstable();
        if sorted != wanted {
            let help = format!("write each of {} once", cylinders.join(", "));
            self.find.at("/engine/firing-order", "engine.firing-order is not each cylinder once", Some(help));
        }
    }
}
