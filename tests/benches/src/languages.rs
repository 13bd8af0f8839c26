//! The same rules in every language that a pack can be written in: an answer, the first compile, a load from the cache.

use crate::given::given;
use crate::stages::places;
use crate::timing::{Subject, Times, rounds};
use crate::{Failed, print};
use std::collections::BTreeMap;
use std::hint::black_box;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Instant;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::{self, CheckedAnswer, Given, LoadedPack, Window, on_deep_stack};
use thou::sheet::Sheet;

const BASE: &str = "Rust";
const TABLE: &str = "house table";
const ROUNDS: usize = 101;
/// Compiles and loads of each, every one in a process of its own.
const LOADS: usize = 3;

/// Where each language's pack is. JavaScript and Python are built by rulepacks/examples/build.sh into THOU_EXAMPLES.
fn files() -> Vec<(&'static str, PathBuf)> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let kept = here.join("../compat/rules-1.0");
    let mut files = vec![(BASE, kept.join("ring-gaps-rust.wasm")), ("C", kept.join("ring-gaps-c.wasm"))];
    files.push((TABLE, kept.join("house-table.wasm")));
    match std::env::var_os("THOU_EXAMPLES").map(PathBuf::from) {
        Some(built) => files.extend(
            [("JavaScript", "javascript"), ("Python", "python")]
                .map(|(language, name)| (language, built.join(format!("ring-gaps-{name}.wasm")))),
        ),
        None => println!("\nJavaScript and Python are left out: THOU_EXAMPLES does not say where they are built."),
    }
    files
}

pub(crate) fn run(sheet: &Path) -> Result<(), Failed> {
    let sheet = Sheet::read(sheet).map_err(|f| f.render(false))?;
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    let load = |file: &Path| packs::load_file(file).map_err(|f| f.to_string());
    let files = files();
    let mut all: Vec<(&str, LoadedPack)> = Vec::new();
    for (language, file) in &files {
        all.push((language, load(file)?));
    }
    let first = all.first().map(|(_, p)| p.clone()).ok_or("no pack")?;
    let handed = given(&first.manifest, &facts);
    let places = places(&facts);
    let lent = Given { starts: &handed.starts, values: &handed.values, places: &places };
    let wanted = first.assess(&handed.ask, &lent).map_err(|f| f.to_string())?;
    // a table has its facts in an order of its own, and its own words: its limits are the same
    let of_table = all.iter().find(|(language, _)| *language == TABLE).map(|(_, p)| given(&p.manifest, &facts));
    let of_table = of_table.ok_or("no house table")?;
    for (language, pack) in &all {
        let own = if *language == TABLE { &of_table } else { &handed };
        let lent = Given { starts: &own.starts, values: &own.values, places: &places };
        let answer = pack.assess(&own.ask, &lent).map_err(|f| f.to_string())?;
        if *language == TABLE && limits(&answer) != limits(&wanted) || *language != TABLE && answer != wanted {
            return Err(format!("{language} answers otherwise than {BASE}: nothing is timed").into());
        }
    }
    let lengths: BTreeMap<String, u32> = all
        .iter()
        .flat_map(|(_, p)| &p.manifest.rules)
        .flat_map(|r| r.judges.iter().chain(&r.needs).chain(&r.takes))
        .filter_map(|id| Some((id.clone(), places(id)?)))
        .collect();
    let (starts, values, ask) = (handed.starts.as_slice(), handed.values.as_slice(), handed.ask.as_slice());
    let table = (of_table.starts.as_slice(), of_table.values.as_slice(), of_table.ask.as_slice());
    let times = on_deep_stack(move || {
        let places = |id: &str| lengths.get(id).copied();
        let mut subjects: Vec<Subject<'_>> = Vec::new();
        for (language, pack) in &all {
            let places = &places;
            let (starts, values, ask) = if *language == TABLE { table } else { (starts, values, ask) };
            let answer = move || {
                let given = Given { starts, values, places };
                drop(black_box(pack.assess(ask, &given)));
            };
            subjects.push(Subject { name: language, work: Box::new(answer) });
        }
        let native = || {
            let facts = thou_sdk::Facts::new(black_box(starts), black_box(values));
            black_box(ring_gaps::PACK.assess(ask, &facts));
        };
        subjects.push(Subject { name: "Rust, native", work: Box::new(native) });
        rounds(&mut subjects, ROUNDS)
    })?;
    let times: Vec<(String, Times)> = times.into_iter().map(|(name, t)| (name.to_owned(), t)).collect();
    print::table("One window for each of 8 cylinders and a finding, by language", "µs", 1.0, BASE, &times);
    loads(&files)
}

/// Place and limits of every window, to the last bit.
fn limits(answer: &CheckedAnswer) -> Vec<(Option<u32>, [Option<u64>; 5])> {
    let bits = |limit: Option<f64>| limit.map(f64::to_bits);
    let of = |w: &Window| (w.place, w.limits().map(bits));
    answer.windows.iter().map(|w| of(&w.what)).collect()
}

/// Prints the size of each, and how long its first compile and a load from the cache take.
fn loads(files: &[(&'static str, PathBuf)]) -> Result<(), Failed> {
    let (mut cold, mut warm) = (Vec::new(), Vec::new());
    println!();
    for (language, file) in files {
        println!("- {language}: {} KB", std::fs::metadata(file)?.len() / 1024);
        let (mut first, mut again) = (Times::default(), Times::default());
        for round in 0..LOADS {
            let folder = std::env::temp_dir().join(format!("thou-languages-{}-{round}", std::process::id()));
            std::fs::create_dir_all(&folder)?;
            first.0.push(child(file, &folder)?);
            again.0.push(child(file, &folder)?);
            std::fs::remove_dir_all(&folder)?;
        }
        cold.push(((*language).to_owned(), first));
        warm.push(((*language).to_owned(), again));
    }
    print::table("Load and compile, the first time", "ms", 1000.0, BASE, &cold);
    print::table("Load, from the cache (what is under 16 KB is compiled each time)", "ms", 1000.0, BASE, &warm);
    Ok(())
}

fn child(file: &Path, cache: &Path) -> Result<f64, Failed> {
    let run =
        Command::new(std::env::current_exe()?).arg("load").env("PACK", file).env("XDG_CACHE_HOME", cache).output()?;
    let told = String::from_utf8_lossy(&run.stdout).trim().parse();
    told.map_err(|_| String::from_utf8_lossy(&run.stderr).into_owned().into())
}

/// In a process of its own: reads, looks at and prepares the pack that PACK names, and prints the µs it took.
pub(crate) fn load() -> Result<(), Failed> {
    let file = PathBuf::from(std::env::var_os("PACK").ok_or("PACK names no file")?);
    let start = Instant::now();
    let pack = packs::load_file(&file).map_err(|f| f.to_string())?;
    pack.prepare().map_err(|f| f.to_string())?;
    println!("{}", start.elapsed().as_secs_f64() * 1e6);
    Ok(())
}
