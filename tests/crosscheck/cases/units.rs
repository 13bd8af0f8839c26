//! Quantities as they are written.

use crate::args::{Answer, Args, tried};
use thou_contract::{KINDS, Kind};

pub fn units(what: &str, a: &Args) -> Answer {
    match what {
        "parse" => tried(Kind::by_id(a.text(0)).unwrap().parse(a.text(1))),
        // whether the kind has no more spellings than those given, so that a new one is not left out
        "spellings" => {
            let kind = KINDS.iter().find(|k| k.id == a.text(0)).ok_or("no such kind".to_owned())?;
            let known: Vec<&str> = a.0[1].as_array().unwrap().iter().filter_map(|v| v.as_str()).collect();
            match kind.units.iter().find(|u| !known.contains(&u.name)) {
                Some(unit) => Err(format!("'{}' is not among them", unit.name)),
                None => Ok(vec![f64::from(u32::try_from(kind.units.len()).unwrap())]),
            }
        }
        "kinds" => Ok(vec![f64::from(u32::try_from(KINDS.len()).unwrap())]),
        _ => panic!("no units.{what}"),
    }
}
