//! From words at a keyboard to what an entry says.

use super::entry_check::example;
use super::known::Known;
use clap::Args;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_life::entry::{Amount, READINGS, What};
use thou_life::slip::Slip;
use thou_text::nearest;

/// What goes with some words and not with others.
#[derive(Debug, Clone, Default, Args)]
pub(super) struct AddOptions {
    /// A pass: the highest speed seen, like "7450 rpm"
    #[arg(long, value_name = "SPEED")]
    peak: Option<String>,
    /// A pass: its elapsed time, like "9.21 s"
    #[arg(long, value_name = "TIME")]
    elapsed: Option<String>,
    /// A pass: the adder was on
    #[arg(long)]
    adder: bool,
    /// A pass: the leanest lambda at full power, like 0.88
    #[arg(long)]
    lambda: Option<String>,
    /// A pass: the highest water temperature, like "195 °F"
    #[arg(long, value_name = "TEMPERATURE")]
    water: Option<String>,
    /// A pass: the lowest hot oil pressure at working speed, like "72 psi"
    #[arg(long, value_name = "PRESSURE")]
    oil: Option<String>,
    /// A pass: the highest oil temperature, like "210 °F"
    #[arg(long, value_name = "TEMPERATURE")]
    oil_temperature: Option<String>,
    /// A pass: the speed through the traps, like "148.2 mph"
    #[arg(long, value_name = "SPEED")]
    trap_speed: Option<String>,
    /// A pass: left or right
    #[arg(long)]
    lane: Option<String>,
    /// A pass: the air's pressure at the strip, like "29.60 inHg", as a gauge there reads it: not the weather report's, which
    /// is reduced to sea level
    #[arg(long, value_name = "PRESSURE")]
    air_pressure: Option<String>,
    /// A pass: the air's temperature, like "84 °F"
    #[arg(long, value_name = "TEMPERATURE")]
    air_temperature: Option<String>,
    /// A pass: the relative humidity, like "62 %"
    #[arg(long, value_name = "SHARE")]
    humidity: Option<String>,
    /// A pass: what the car weighed as it raced, with its driver, like "2450 lb"
    #[arg(long)]
    weight: Option<String>,
    /// A pass: the fuel, in words
    #[arg(long)]
    fuel: Option<String>,
    /// A pass: the tire, in words
    #[arg(long)]
    tire: Option<String>,
    /// A pass: the pressure in it, like "13 psi"
    #[arg(long, value_name = "PRESSURE")]
    tire_pressure: Option<String>,
    /// A pass: what was changed for it, in words, like "one jet leaner, 2° back in high gear"
    #[arg(long, value_name = "WORDS")]
    tune: Option<String>,
    /// A pass: how the plugs read after it, in words
    #[arg(long, value_name = "WORDS")]
    plugs: Option<String>,
    /// A meter: it was put back to nothing since it was read last
    #[arg(long)]
    meter_was_reset: bool,
    /// A happening: how long it lasted, like "0.4 s"
    #[arg(long, value_name = "TIME")]
    time: Option<String>,
    /// Where: a cylinder, a valve, a main
    #[arg(long)]
    place: Option<String>,
    /// A reading: the tester or gauge
    #[arg(long)]
    gauge: Option<String>,
    /// A reading: hot, cold, on-the-head or bench
    #[arg(long)]
    state: Option<String>,
    /// A reading: later ones are judged against this one
    #[arg(long)]
    baseline: bool,
    /// A part: its number
    #[arg(long)]
    serial: Option<String>,
    /// A part: what it had run before, like passes=40; may be given more than once
    #[arg(long, value_name = "METER=READING")]
    brought: Vec<String>,
    /// A part: the day on its own stamp
    #[arg(long, value_name = "DAY")]
    made: Option<String>,
    /// A part put in: who made it, always in the same words, so that `thou book lives` can set makers side by side
    #[arg(long)]
    maker: Option<String>,
    /// A part taken out: it had let go, or was at its end
    #[arg(long)]
    failed: bool,
    /// A part taken out: run, recondition, watch or scrap
    #[arg(long)]
    disposition: Option<String>,
    /// A part taken out: why
    #[arg(long)]
    because: Option<String>,
    /// A service: what it cost
    #[arg(long)]
    cost: Option<f64>,
    /// A service: hours of work
    #[arg(long)]
    hours: Option<f64>,
}

/// Verbs that stand first.
const VERBS: &[&str] = &[
    "pass",
    "passes",
    "pull",
    "pulls",
    "did",
    "fitted",
    "removed",
    "tightened",
    "torn-down",
    "freshened",
    "note",
    "settled",
    "passes-on-meter",
    "pulls-on-meter",
    "miles-on-meter",
    "hours-on-meter",
];

/// Units of what ran: the unit as it is written, and what it counts.
const RUNS: &[(&str, &str)] = &[
    ("pass", "passes"),
    ("passes", "passes"),
    ("p", "passes"),
    ("pull", "pulls"),
    ("pulls", "pulls"),
    ("miles", "miles"),
    ("mi", "miles"),
    ("km", "miles"),
    ("h", "hours"),
    ("hours", "hours"),
    ("min", "hours"),
];

/// What the words say, one entry or several, and the words of a note.
pub(super) fn entries(
    words: &[String],
    options: &AddOptions,
    known: &Known,
) -> Result<(Vec<What>, Option<String>), String> {
    // a phone writes the first letter large
    let first = words.first().map_or(String::new(), |w| w.trim().to_lowercase());
    let first = first.as_str();
    let rest = words.get(1..).unwrap_or(&[]);
    let mut note = None;
    let takes: &[&str];
    let what = match first {
        "did" => {
            takes = &["cost", "hours"];
            did(rest, options, known)?
        }
        "fitted" => {
            takes = &["serial", "place", "brought", "made", "maker"];
            vec![What::Fitted {
                part: known.part(&one(rest, "the part", "fitted \"valve springs\" --serial \"set 14\"")?),
                serial: serial(options, "fitted")?,
                place: options.place.clone(),
                brought: brought(options)?,
                made: options.made.as_deref().map(|text| parse_day("--made", text)).transpose()?,
                maker: options.maker.as_deref().map(crate::packs::clean::clean).filter(|m| !m.is_empty()),
            }]
        }
        "removed" => {
            takes = &["serial", "failed", "disposition", "because"];
            if let (Some(part), None) = (rest.first(), &options.serial) {
                let part = crate::packs::clean::clip(part, 40);
                return Err(format!(
                    "removed: say which with --serial, like --serial \"set 11\". What has no number and broke is \
                     written as broke \"{part}\""
                ));
            }
            none(rest, "removed --serial \"set 11\"")?;
            let Some(disposition) = options.disposition.as_deref().map(str::to_lowercase) else {
                return Err(
                    "removed: say what was decided over it with --disposition run, recondition, watch or scrap"
                        .to_owned(),
                );
            };
            vec![What::Removed {
                serial: serial(options, "removed")?,
                failed: options.failed,
                disposition,
                because: options.because.clone(),
            }]
        }
        "tightened" => {
            takes = &["serial"];
            none(rest, "tightened --serial \"set 3\"")?;
            vec![What::Tightened { serial: serial(options, "tightened")? }]
        }
        "torn-down" => {
            takes = &[];
            vec![What::TornDown { opens: one(rest, "what came apart", "torn-down pan")?.to_lowercase() }]
        }
        "freshened" => {
            takes = &[];
            none(rest, "freshened")?;
            vec![What::Freshened]
        }
        "note" => {
            takes = &[];
            note = Some(one(rest, "the words", "note \"changed the plugs' heat range\"")?);
            vec![What::Noted]
        }
        "settled" => {
            takes = &[];
            let [entry, found] = rest else {
                return Err(
                    "settled: write the entry's id and what was found, like settled 7kq2m9xd \"lash as it was\""
                        .to_owned(),
                );
            };
            vec![What::Settled { entry: entry.clone(), found: found.clone() }]
        }
        _ if first.ends_with("-on-meter") && VERBS.contains(&first) => {
            takes = &["meter-was-reset"];
            let name = first.trim_end_matches("-on-meter");
            let reading = joined(rest);
            if reading.is_empty() {
                return Err(format!("{first}: write what the meter reads, like {first} 118"));
            }
            vec![ran(options, BTreeMap::from([(name.to_owned(), Amount(reading))]), [None, None], [None, None])]
        }
        _ if READINGS.iter().any(|r| r.name == first) => {
            takes = &["place", "gauge", "state", "baseline"];
            readings(first, rest, options)?
        }
        thou_life::events::BROKE => {
            takes = &["place"];
            vec![What::Happened {
                happening: first.to_owned(),
                part: Some(one(rest, "the part", "broke \"valve springs\" --place 5E")?),
                speed: None,
                time: None,
                place: options.place.clone(),
            }]
        }
        _ if thou_life::events::known().contains(&first) => {
            takes = &["place", "time"];
            vec![happened(first, rest, options)?]
        }
        _ if first.starts_with(|c: char| c.is_ascii_digit() || c == '.') || RUNS.iter().any(|r| r.0 == first) => {
            takes = &[
                "peak",
                "elapsed",
                "adder",
                "lambda",
                "water",
                "oil",
                "oil-temperature",
                "trap-speed",
                "lane",
                "air-pressure",
                "air-temperature",
                "humidity",
                "weight",
                "fuel",
                "tire",
                "tire-pressure",
                "tune",
                "plugs",
            ];
            std::iter::once(counted(words, options)?).chain(beside(options)).collect()
        }
        _ => return Err(unknown(first)),
    };
    match given(options).into_iter().find(|name| !takes.contains(name)) {
        Some(name) => Err(format!("--{name} does not go with \"{first}\"")),
        None => Ok((what, note)),
    }
}

fn unknown(first: &str) -> String {
    if first == "afr" {
        return "afr: write lambda, what the meter shows over the scale it is set to: 12.5 on the scale of gasoline, \
                14.7, is lambda 0.85"
            .to_owned();
    }
    let all = VERBS.iter().copied().chain(READINGS.iter().map(|r| r.name)).chain(thou_life::events::known());
    let first = crate::packs::clean::clip(first, 40);
    match nearest(&first, all) {
        Some(near) => format!("\"{first}\" is nothing that a log knows; did you mean {near}?"),
        None => format!(
            "\"{first}\" is nothing that a log knows. It knows what ran (3 passes, 12 miles), readings ({}), what \
             happened ({}), did, fitted, removed, tightened, torn-down, freshened, settled, note",
            READINGS.iter().map(|r| r.name).collect::<Vec<_>>().join(", "),
            thou_life::events::known().join(", ")
        ),
    }
}

fn given(options: &AddOptions) -> Vec<&'static str> {
    let all = [
        ("peak", options.peak.is_some()),
        ("elapsed", options.elapsed.is_some()),
        ("adder", options.adder),
        ("trap-speed", options.trap_speed.is_some()),
        ("lane", options.lane.is_some()),
        ("air-pressure", options.air_pressure.is_some()),
        ("air-temperature", options.air_temperature.is_some()),
        ("humidity", options.humidity.is_some()),
        ("weight", options.weight.is_some()),
        ("fuel", options.fuel.is_some()),
        ("tire", options.tire.is_some()),
        ("tire-pressure", options.tire_pressure.is_some()),
        ("tune", options.tune.is_some()),
        ("plugs", options.plugs.is_some()),
        ("lambda", options.lambda.is_some()),
        ("water", options.water.is_some()),
        ("oil", options.oil.is_some()),
        ("oil-temperature", options.oil_temperature.is_some()),
        ("meter-was-reset", options.meter_was_reset),
        ("time", options.time.is_some()),
        ("place", options.place.is_some()),
        ("gauge", options.gauge.is_some()),
        ("state", options.state.is_some()),
        ("baseline", options.baseline),
        ("serial", options.serial.is_some()),
        ("brought", !options.brought.is_empty()),
        ("made", options.made.is_some()),
        ("maker", options.maker.is_some()),
        ("failed", options.failed),
        ("disposition", options.disposition.is_some()),
        ("because", options.because.is_some()),
        ("cost", options.cost.is_some()),
        ("hours", options.hours.is_some()),
    ];
    all.into_iter().filter(|(_, given)| *given).map(|(name, _)| name).collect()
}

fn amount(text: &Option<String>) -> Option<Amount> {
    text.clone().map(Amount)
}

fn ran(
    options: &AddOptions,
    meter: BTreeMap<String, Amount>,
    [passes, pulls]: [Option<f64>; 2],
    [miles, hours]: [Option<Amount>; 2],
) -> What {
    What::Ran {
        passes,
        pulls,
        miles,
        hours,
        peak_speed: amount(&options.peak),
        elapsed: amount(&options.elapsed),
        adder: options.adder,
        meter,
        meter_was_reset: options.meter_was_reset,
        slip: Box::new(slip(options)),
    }
}

/// What a pass was run in and with.
fn slip(options: &AddOptions) -> Slip {
    let words = |text: &Option<String>| text.as_deref().map(crate::packs::clean::clean).filter(|t| !t.is_empty());
    Slip {
        trap_speed: amount(&options.trap_speed),
        lane: words(&options.lane).map(|lane| lane.to_lowercase()),
        air_pressure: amount(&options.air_pressure),
        air_temperature: amount(&options.air_temperature),
        humidity: amount(&options.humidity),
        weight: amount(&options.weight),
        fuel: words(&options.fuel),
        tire: words(&options.tire),
        tire_pressure: amount(&options.tire_pressure),
        tune: words(&options.tune),
        plugs: words(&options.plugs),
    }
}

/// What was read in a pass, each a reading of its own.
fn beside(options: &AddOptions) -> Vec<What> {
    let all = [
        ("lambda", &options.lambda, None),
        ("water-temperature", &options.water, None),
        ("oil-pressure-hot", &options.oil, Some("hot")),
        ("oil-temperature", &options.oil_temperature, None),
    ];
    let read = |(reading, value, state): (&str, &Option<String>, Option<&str>)| {
        Some(What::Read {
            reading: reading.to_owned(),
            place: None,
            value: Amount(value.as_ref()?.trim().to_owned()),
            gauge: None,
            state: state.map(str::to_owned),
            baseline: false,
        })
    };
    all.into_iter().filter_map(read).collect()
}

/// A number from the unit that a thumb wrote against it: `3p`, `12mi`.
fn apart(token: &str) -> Vec<&str> {
    let number = token.len() - token.trim_start_matches(|c: char| c.is_ascii_digit() || c == '.').len();
    match token.split_at_checked(number) {
        Some((number, unit)) if !number.is_empty() && RUNS.iter().any(|r| r.0 == unit.to_lowercase()) => {
            vec![number, unit]
        }
        _ => vec![token],
    }
}

/// `3 passes`, `pass`, `3 passes 2 pulls`, `"12 miles"`, `3p`.
fn counted(words: &[String], options: &AddOptions) -> Result<What, String> {
    let joined = joined(words);
    let tokens: Vec<&str> = joined.split_whitespace().flat_map(apart).collect();
    let (mut counts, mut amounts) = ([None, None], [None, None]);
    let mut at = 0;
    while let Some(token) = tokens.get(at) {
        let (number, unit) = match token.parse::<f64>() {
            Ok(_) => {
                at += 1;
                (*token, tokens.get(at).copied().unwrap_or(""))
            }
            Err(_) => ("1", *token),
        };
        at += 1;
        let Some((unit, run)) = RUNS.iter().find(|r| r.0 == unit.to_lowercase()) else {
            let hint = nearest(unit, RUNS.iter().map(|r| r.0))
                .map(|n| format!("; did you mean {n}?"))
                .unwrap_or(".".to_owned());
            let unit = crate::packs::clean::clip(unit, 40);
            return Err(format!(
                "\"{}\": \"{unit}\" is nothing that runs{hint} Write it like 3 passes, 2 pulls, 12 miles or 0.5 h",
                crate::packs::clean::clip(&joined, 60)
            ));
        };
        let text = Some(Amount(format!("{number} {unit}")));
        let value = number.parse::<f64>().ok().filter(|n| n.is_finite() && *n > 0.0);
        if value.is_none() {
            return Err(format!("{number} {unit}: write how many, more than nothing"));
        }
        match *run {
            "passes" => counts[0] = value,
            "pulls" => counts[1] = value,
            "miles" => amounts[0] = text,
            _ => amounts[1] = text,
        }
    }
    Ok(ran(options, BTreeMap::new(), counts, amounts))
}

/// `5="9 %" 6="4 %"`, or one value with `--place` where there are places.
fn readings(name: &str, rest: &[String], options: &AddOptions) -> Result<Vec<What>, String> {
    let read = |place: Option<String>, value: &str| What::Read {
        reading: name.to_owned(),
        place,
        value: Amount(value.trim().to_owned()),
        gauge: options.gauge.clone(),
        state: options.state.as_deref().map(str::to_lowercase),
        baseline: options.baseline,
    };
    if rest.is_empty() {
        return Err(format!("{name}: write what was read, like {name} {}", example(name)));
    }
    if rest.iter().all(|word| word.contains('=')) {
        if options.place.is_some() {
            return Err(format!("{name}: the places stand before the =; leave --place out"));
        }
        let pairs = rest.iter().filter_map(|word| word.split_once('='));
        return Ok(pairs.map(|(place, value)| read(Some(place.trim().to_owned()), value)).collect());
    }
    Ok(vec![read(options.place.clone(), &joined(rest))])
}

fn happened(name: &str, rest: &[String], options: &AddOptions) -> Result<What, String> {
    let joined = joined(rest);
    let speed = Some(joined).filter(|text| !text.is_empty()).map(Amount);
    let (time, place) = (amount(&options.time), options.place.clone());
    Ok(What::Happened { happening: name.to_owned(), part: None, speed, time, place })
}

fn did(rest: &[String], options: &AddOptions, known: &Known) -> Result<Vec<What>, String> {
    if rest.is_empty() {
        return Err("did: write which services, like did oil oil-filter".to_owned());
    }
    if rest.len() > 1 && (options.cost.is_some() || options.hours.is_some()) {
        return Err("did: with --cost or --hours write one service at a time".to_owned());
    }
    rest.iter()
        .map(|name| Ok(What::Did { service: known.service(name)?, cost: options.cost, hours: options.hours }))
        .collect()
}

fn brought(options: &AddOptions) -> Result<BTreeMap<String, Amount>, String> {
    options
        .brought
        .iter()
        .map(|pair| match pair.split_once('=') {
            Some((meter, reading)) => Ok((meter.trim().to_lowercase(), Amount(reading.trim().to_owned()))),
            None => Err(format!("--brought {pair}: write the meter and what it had run, like passes=40")),
        })
        .collect()
}

fn serial(options: &AddOptions, verb: &str) -> Result<String, String> {
    options
        .serial
        .clone()
        .filter(|s| !s.trim().is_empty())
        .ok_or_else(|| format!("{verb}: say which with --serial, like --serial \"set 14\""))
}

/// A day on the command line.
pub(in crate::cli) fn parse_day(option: &str, text: &str) -> Result<Date, String> {
    text.parse().map_err(|_| {
        format!("{option} {}: write year, month, day, like 2026-05-02", crate::packs::clean::clip(text, 40))
    })
}

fn joined(words: &[String]) -> String {
    words.iter().map(|w| w.trim()).filter(|w| !w.is_empty()).collect::<Vec<_>>().join(" ")
}

fn one(rest: &[String], which: &str, example: &str) -> Result<String, String> {
    let text = joined(rest);
    if text.is_empty() { Err(format!("write {which}, like {example}")) } else { Ok(text) }
}

fn none(rest: &[String], example: &str) -> Result<(), String> {
    match rest.first() {
        None => Ok(()),
        Some(word) => Err(format!("\"{}\" is too much: write it like {example}", crate::packs::clean::clip(word, 40))),
    }
}
