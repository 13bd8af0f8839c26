//! Every field is read or says why it is not, every fact is read or says why it is shown, and the schema, the facts and
//! the entries have the same words.

#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use thou::facts::{Catalogue, FactInfo, ValueKind};
use thou_fields::{Field, FieldValue, Standing};

/// The source of the program without its tests and without the crates named.
fn source(without: &[&str]) -> String {
    fn read(folder: &Path, without: &[&str], out: &mut String) {
        let mut entries: Vec<_> = std::fs::read_dir(folder).unwrap().map(|e| e.unwrap().path()).collect();
        entries.sort();
        for path in entries {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                if !without.contains(&name.as_str()) && name != "tests" {
                    read(&path, without, out);
                }
            } else if name.ends_with(".rs") && !without.contains(&name.as_str()) && name != "tests.rs" {
                let text = std::fs::read_to_string(&path).unwrap();
                out.push_str(text.split("#[cfg(test)]").next().unwrap());
            }
        }
    }
    let mut out = String::new();
    read(&Path::new(env!("CARGO_MANIFEST_DIR")).join("../host"), without, &mut out);
    assert!(out.len() > 500_000, "{}", out.len());
    out
}

fn key(field: &Field) -> &'static str {
    field.path.rsplit('.').next().unwrap()
}

/// Fields that facts are made of, with the lists whose rows they read.
fn read_by_facts() -> BTreeSet<&'static str> {
    Catalogue::standard().all().flat_map(|i| i.fields.iter().copied()).collect()
}

/// Whether it is a side of what is stated and read of one thing.
fn set_against(path: &str) -> bool {
    let side = |r: &thou_fields::ReadingField| {
        let stated = r.agrees_with.iter().flat_map(|a| [a.field, a.less]);
        stated.chain((!r.agrees_with.is_empty()).then_some(r.field.path)).any(|p| p == path)
    };
    thou_fields::readings().iter().any(side)
}

#[test]
fn every_field_is_read_or_says_why_it_is_not() {
    let by_facts = read_by_facts();
    let lists: Vec<&str> = thou_fields::fields()
        .iter()
        .filter_map(|f| match f.value {
            FieldValue::List(rows) if by_facts.contains(f.path) => Some(rows),
            _ => None,
        })
        .collect();
    let program = source(&["fields"]);
    let mut wrong = Vec::new();
    // a joint's card is written out at every joint, and looked at there
    for field in thou_fields::all().filter(|f| !f.holds_others() && f.section() != "joint-card") {
        let by_fact = by_facts.contains(field.path) || lists.contains(&field.section());
        match field.standing {
            Standing::Fact if !by_fact && field.usual.is_empty() => {
                wrong.push(format!("{}: no fact reads it; say why it is recorded, or who reads it", field.path));
            }
            Standing::Recorded(_) if by_facts.contains(field.path) => {
                wrong.push(format!("{}: recorded only, and a fact reads it", field.path));
            }
            Standing::Recorded(why) if why.len() < 10 => wrong.push(format!("{}: that is no reason", field.path)),
            Standing::Program(_) if set_against(field.path) => {}
            Standing::Program(_) => {
                let key = key(field);
                let named = [format!("\"{key}\""), format!("/{key}\""), format!(".{key}\"")];
                // what is read under the name of a meter, or goes through the table of days
                let known = key == "extra" || named.iter().any(|n| program.contains(n.as_str()));
                if !known && !by_meter(field) && field.value != FieldValue::Day {
                    wrong.push(format!("{}: the program has no \"{key}\"", field.path));
                }
            }
            _ => {}
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

/// Whether a field is one of the meters, which are read by their names in the manifest.
fn by_meter(field: &Field) -> bool {
    thou_contract::METERS.contains(&key(field))
}

#[test]
fn what_is_usual_goes_by_a_fact_or_a_field_that_there_is() {
    let mut seen = 0;
    for field in thou_fields::all() {
        let kind = field.kind();
        for usual in field.usual {
            let kind = kind.unwrap_or_else(|| panic!("{}: usual, and no quantity", field.path));
            let of_fact = Catalogue::standard().info(usual.of).is_some_and(|i| i.value.kind().is_some());
            let of_field = thou_fields::field(usual.of).is_some_and(|f| f.kind().is_some());
            assert!(usual.of.is_empty() || of_fact || of_field, "{}: there is no {}", field.path, usual.of);
            let (least, most) = usual.si(kind, 1.0, Some(1.0)).unwrap_or_else(|| panic!("{}: {usual:?}", field.path));
            assert!(least < most, "{}", field.path);
            seen += 1;
        }
    }
    assert!(seen > 90, "{seen}");
}

#[test]
fn the_choices_of_a_field_are_those_of_its_fact() {
    let mut seen = 0;
    for info in Catalogue::standard().all() {
        let ValueKind::Choice(words) = info.value else { continue };
        // a pack may bring a use of its own
        let Some(path) = info.path.filter(|p| *p != "intent.use") else { continue };
        let field = thou_fields::field(path).unwrap_or_else(|| panic!("{}: no field {path}", info.id));
        let of_field: Vec<&str> = field.choices().iter().map(|c| c.word).collect();
        assert_eq!(of_field, words, "{}: {path}", info.id);
        seen += 1;
    }
    assert!(seen > 30, "{seen}");
}

#[test]
fn a_fact_is_of_the_kind_and_the_places_of_its_field() {
    for info in Catalogue::standard().all() {
        // what is worked out of a list has no field of its own
        let Some(path) = info.path.filter(|p| thou_fields::section(p).is_none()) else { continue };
        let field = thou_fields::field(path).unwrap_or_else(|| panic!("{}: no field {path}", info.id));
        if let Some(reading) = path.strip_prefix("readings.").and_then(thou_fields::reading) {
            assert!(reading.axis == info.axis || info.series.is_some(), "{}: {path}", info.id);
        }
        if let (ValueKind::Flag, FieldValue::Quantity(_)) = (info.value, field.value) {
            // whether the figure is there at all
            assert!(["gasket.wire", "dyno.room-air.stated"].contains(&info.id), "{}", info.id);
        }
    }
}

/// Facts that no rule, page or model reads: `thou facts` shows them, for this reason.
const SHOWN: &[(&str, &[&str])] = &[
    (
        "Of the model of a cylinder's cycle: beside what is judged of it, for who wants to see how it comes about.",
        &[
            "cylinder.closing-pressure",
            "cylinder.filling",
            "cylinder.friction-pressure",
            "cylinder.indicated-pressure",
            "cylinder.modelled-peak.after-shift",
            "cylinder.modelled-peak.at-lights",
            "cylinder.modelled-peak.at-shift",
            "cylinder.pumping-pressure",
            "end-gas.pressure",
            "end-gas.temperature",
            "knock.integral",
        ],
    ),
    (
        "Of the model of a bearing's film or its warmth, whose least film is what is judged.",
        &[
            "main-bearing.film.modelled.at-over-rev",
            "main-bearing.film.over-roughness",
            "main-bearing.load.peak.at-over-rev",
            "rod-bearing.film.angle",
            "rod-bearing.film.angle.at-over-rev",
            "rod-bearing.film.minimum.at-over-rev",
            "rod-bearing.load.peak.at-over-rev",
            "rod-bearing.load.unit.at-over-rev",
            "rod-bearing.oil-rise",
            "rod-bearing.power",
        ],
    ),
    (
        "Of the model of the valve's motion and its port, for comparing two combinations.",
        &[
            "inlet.demand-over-choked",
            "lobe.load.most",
            "spring.stress.seat",
            "valve.acceleration.peak",
            "valve.area.60-over-45.full",
            "valve.area.60-over-45.half",
            "valve.area.inlet.half",
            "valve.area.over-45.half",
            "valve.load.least",
            "valve.mean-curtain",
            "valve.surge-harmonic",
        ],
    ),
    (
        "A number that combinations are spoken of by, without a limit that a source gives.",
        &[
            "adder.power-a-cylinder",
            "air.filling",
            "bore-stroke-ratio",
            "cam.overlap",
            "cam.separation",
            "compression.with-crevice",
            "fuel.charge-cooling",
            "head-fastener.load-factor",
            "piston.acceleration.at-limiter",
            "piston.acceleration.bottom.at-over-rev",
            "piston.speed.max.angle",
            "piston.speed.max.at-shift",
            "piston.speed.mean.at-limiter",
            "piston.thrust.at-peak",
            "piston.top-angle",
            "power-a-cylinder",
            "power-per-litre",
            "power.after-shift",
            "power.at-lights",
            "power.at-shift",
            "rod-ratio",
            "rod.angle.max",
            "rod.growth",
            "rod.inertia-load.at-shift",
        ],
    ),
    (
        "What shakes the engine, for whoever mounts or balances it.",
        &[
            "balance.permissible-a-plane",
            "shake.counterweight-couple.share",
            "shake.primary.couple",
            "shake.primary.force",
            "shake.secondary.couple",
            "unbalance.share",
        ],
    ),
    (
        "Duty, to be compared with another engine's.",
        &["freshen.equivalent-revolutions", "pass.hard-share", "ring.travel-wanted"],
    ),
    ("Of the dyno's figures, for whoever reads the pulls.", &["dyno.corrected-torque", "dyno.power-over-target"]),
    (
        "The oil at work, and the finish of a profile, beside what is judged of them.",
        &[
            "bore.rk",
            "hone.strokes.for-angle",
            "oil.density.at-work",
            "oil.grade.high-shear",
            "oil.met.heaviest",
            "oil.met.lightest",
            "oil.viscosity.at-work",
            "profile.mr1",
            "profile.mr2",
            "profile.ra",
            "profile.rq",
            "profile.rz",
        ],
    ),
    (
        "Two ways to one size, set side by side; neither is a limit.",
        &[
            "piston-to-wall.hot-change",
            "rod-bolt.clamp.stretch-over-stated",
            "spring.solid-height",
            "valve.lift.difference",
        ],
    ),
    (
        "Stated or read, and open to a pack or a table of the shop: no rule of the house has a limit for it.",
        &[
            "chamber.nominal",
            "crank.surface",
            "duty.street.full-load",
            "duty.street.mean-speed",
            "engine.bank-angle",
            "freshen.wanted-distance",
            "launch-speed",
            "ring.top.material",
        ],
    ),
];

#[test]
fn every_fact_is_read_or_says_why_it_is_shown() {
    let catalogue = Catalogue::standard();
    let own =
        |id: &str| -> String { catalogue.info(id).and_then(|i| i.series).map_or_else(|| id.to_owned(), str::to_owned) };
    let needed: BTreeSet<String> =
        catalogue.all().filter(|i| i.series.is_none()).flat_map(|i| i.needs.iter().map(|n| own(n))).collect();
    let manifests: String =
        thou::packs::builtin().iter().map(|p| serde_json::to_string(&p.manifest).unwrap()).collect();
    // how a fact prints is no reading of it
    let program = source(&["catalogue", "fields", "figure.rs"]);
    let ends = ["", ".min", ".max", ".spread", ".mean"];
    let read = |info: &FactInfo| {
        needed.contains(info.id)
            || thou_fields::all().any(|f| f.usual.iter().any(|u| u.of == info.id))
            || info.measured && info.path.is_some_and(set_against)
            || ends.iter().any(|end| {
                let id = format!("{}{end}", info.id);
                let in_words = format!("fact:{id}}}");
                let quoted = format!("\"{id}\"");
                manifests.contains(&quoted) || manifests.contains(&in_words) || program.contains(&quoted)
            })
    };
    let unread: BTreeSet<&str> = catalogue.all().filter(|i| i.series.is_none() && !read(i)).map(|i| i.id).collect();
    let shown: BTreeSet<&str> = SHOWN.iter().flat_map(|(_, facts)| facts.iter().copied()).collect();
    assert!(SHOWN.iter().all(|(why, _)| why.len() > 20));
    let no_reason: Vec<&&str> = unread.difference(&shown).collect();
    assert!(no_reason.is_empty(), "nobody reads these, and nothing says why they are there: {no_reason:?}");
    let read_all_the_same: Vec<&&str> = shown.difference(&unread).collect();
    assert!(read_all_the_same.is_empty(), "these are read: {read_all_the_same:?}");
}

#[test]
fn a_starter_has_a_field_of_every_section_that_a_page_opens_with() {
    let of_starter: BTreeMap<&str, usize> =
        thou_fields::fields().iter().filter(|f| f.starter).fold(BTreeMap::new(), |mut out, field| {
            *out.entry(field.section()).or_default() += 1;
            out
        });
    for section in thou_fields::sections().iter().filter(|s| s.part) {
        assert!(of_starter.contains_key(section.name), "{}", section.name);
    }
    let sheet = thou::sheet::starter("bracket", 8, "v");
    assert!(sheet.contains("\"piston-to-valve\": {"), "{sheet}");
}

fn said(args: &[&str]) -> (u8, String, String) {
    let run = thou_tests::thou(&[&["fields"], args].concat());
    (run.exit, run.out, run.err)
}

/// A page without its line breaks, and without the line to whom it defers, which it has to have.
fn flat(page: &str) -> String {
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    page.strip_suffix(thou::report::DEFERS).map_or_else(|| page.clone(), |own| own.trim_end().to_owned())
}

#[test]
fn a_page_says_what_a_reading_is_and_who_reads_it() {
    let (exit, page, err) = said(&["readings.liner-protrusion"]);
    assert_eq!((exit, err.as_str()), (0, ""));
    assert_eq!(
        flat(&page),
        flat(
            "readings.liner-protrusion   clearance
             What     Liner standing above the deck.
             Written  with its unit: in, thou, tenths, mm, µm, um, cm, m, ft, \"
             Can be   -50 thou to 100 thou; outside is a slip of the pen
             Read     at each cylinder
             Gauge    bridge. Bridge over the deck with a dial indicator; one reading is good for 0.3 thou (k = 1), in
                      steps of 0.5 thou: common practice, no source.
             Warm     taken as read, whatever the temperature
             Stale    after decked, new block
             When     as the metal is cut and measured
             Matters  where block.sleeves is wet
             Facts    liner.protrusion
             Rules    clearances/liner-protrusion"
        )
    );
    let (_, page, _) = said(&["block.material"]);
    assert!(page.contains("One of   grey-iron: Gray iron, bored in the iron itself.\n"), "{page}");
    assert!(page.contains("When     when its parts are chosen; a starter sheet has it\n"), "{page}");
    let (_, page, _) = said(&["pull.barometer"]);
    assert!(page.contains("In       each row of dyno.pulls, dyno.before\n"), "{page}");
    let (_, page, _) = said(&["rods.section"]);
    assert!(flat(&page).contains("Recorded only: no page judges it. No source gives a limit"), "{page}");
    let (_, page, _) = said(&["rods"]);
    assert!(page.starts_with("rods   The connecting rods.\n\n"), "{page}");
    assert!(page.contains("\nlength          Centre to centre (a length)\n"), "{page}");
}

#[test]
fn a_page_fits_its_columns_for_every_field_and_tells_what_is_not_there() {
    for field in thou_fields::all() {
        let (exit, page, _) = said(&[field.path]);
        assert_eq!(exit, 0, "{}", field.path);
        assert!(page.lines().all(|l| l.chars().count() <= 80), "{page}");
        assert!(page.contains("What     "), "{page}");
    }
    let (exit, out, err) = said(&["rods.lenght"]);
    assert_eq!((exit, out.as_str()), (2, ""));
    assert_eq!(err, "No field is called \"rods.lenght\". Did you mean rods.length?\n");
    let (_, _, err) = said(&["compression-height"]);
    assert_eq!(err, "No field is called \"compression-height\". Did you mean pistons.compression-height?\n");
    let (_, _, err) = said(&["zzzzzzzzzz"]);
    assert_eq!(err, "No field is called \"zzzzzzzzzz\". `thou fields` lists them.\n");
}

#[test]
fn a_program_reads_the_same_as_json() {
    let (exit, text, _) = said(&["readings.bore", "--format", "json"]);
    assert_eq!(exit, 0);
    let entry: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!((entry["low"].as_str(), entry["high"].as_str()), (Some("0.5 in"), Some("20 in")));
    assert_eq!(entry["gauge"]["name"], "bore-gauge");
    assert_eq!(entry["stale-after"][0], serde_json::json!({ "work": "bored", "factor": 1.0 }));
    assert!(entry["facts"].as_array().unwrap().iter().any(|f| f == "bore.diameter"));
    let (_, text, _) = said(&["--format", "json"]);
    let all: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(all["fields"].as_array().unwrap().len(), thou_fields::all().count());
}
