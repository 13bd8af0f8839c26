//! The forty windows in general-purpose rule engines: the same table, the same facts, the same windows.
//!
//! Standard input: `{"rounds", "rows": [...], "facts": [{...}, ...]}`. Standard output: for each peer its windows for
//! every set of facts, and its times in µs for the first.

#[path = "../../../src/timing.rs"]
mod timing;

use cel::{Context, Env, Program, Value as Cel};
use regorus::languages::rego::compiler::Compiler;
use regorus::rvm::vm::RegoVM;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::hint::black_box;
use std::sync::Arc;
use timing::{Subject, rounds};

type Failed = Box<dyn std::error::Error>;
type Facts = BTreeMap<String, Value>;
type Windows = Vec<[f64; 2]>;

#[derive(Deserialize)]
struct Job {
    rounds: usize,
    rows: Vec<Row>,
    facts: Vec<Facts>,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Row {
    scale: Option<String>,
    street: [f64; 2],
    bracket: [f64; 2],
    all_out: [f64; 2],
    added: [f64; 2],
}

const ASKED: &str = "data.forty.windows";

fn main() -> Result<(), Failed> {
    let job: Job = serde_json::from_reader(std::io::stdin())?;
    let timed = job.facts.first().ok_or("no facts")?;

    let mut engine = regorus::Engine::new();
    engine.add_policy("forty.rego".to_owned(), rego(&job.rows)?)?;
    let compiled = engine.compile_with_entrypoint(&regorus::Rc::from(ASKED))?;
    let mut machine = RegoVM::new();
    machine.load_program(Compiler::compile_from_policy(&compiled, &[ASKED])?);
    let cel = CelRules::new(&job.rows)?;

    let (mut interpreted, mut compiled, mut by_cel) = (Vec::new(), Vec::new(), Vec::new());
    for facts in &job.facts {
        let input = input(facts)?;
        engine.set_input(input.clone());
        interpreted.push(windows(&engine.eval_rule(ASKED.to_owned())?)?);
        machine.set_input(input);
        compiled.push(windows(&machine.execute()?)?);
        by_cel.push(cel.ask(facts)?.iter().map(pair).collect::<Option<Windows>>().ok_or("no numbers from CEL")?);
    }

    let given = input(timed)?;
    let mut subjects = [
        Subject {
            name: "regorus, interpreter",
            work: Box::new(|| {
                engine.set_input(given.clone());
                black_box(engine.eval_rule(ASKED.to_owned()).ok());
            }),
        },
        Subject {
            name: "regorus, compiled for its VM",
            work: Box::new(|| {
                machine.set_input(given.clone());
                black_box(machine.execute().ok());
            }),
        },
        Subject { name: "cel, compiled once", work: Box::new(|| drop(black_box(cel.ask(timed).ok()))) },
    ];
    let times = rounds(&mut subjects, job.rounds);
    let told: Vec<Value> = times
        .iter()
        .zip([interpreted, compiled, by_cel])
        .map(|((name, times), windows)| json!({ "name": name, "us": times.0, "windows": windows }))
        .collect();
    println!("{}", json!(told));
    Ok(())
}

fn input(facts: &Facts) -> Result<regorus::Value, Failed> {
    Ok(regorus::Value::from_json_str(&serde_json::to_string(facts)?)?)
}

fn windows(value: &regorus::Value) -> Result<Windows, Failed> {
    Ok(serde_json::from_str(&value.to_json_str()?)?)
}

/// One rule a row.
fn rego(rows: &[Row]) -> Result<String, Failed> {
    let mut text = "package forty\n\nimport rego.v1\n\ndefault adds := 0\n\n\
                    adds := 1 if input.adder in {\"nitrous\", \"turbo\", \"blower\"}\n"
        .to_owned();
    for (at, row) in rows.iter().enumerate() {
        let unit = match &row.scale {
            Some(fact) => format!("input[\"{fact}\"] * 0.001"),
            None => "0.0000254".to_owned(),
        };
        let [low, high] = row.added;
        let by_use = json!({ "street": row.street, "bracket": row.bracket, "all-out": row.all_out });
        write!(
            text,
            "\nwindow_{at} := [low, high] if {{\n\tfigures := {by_use}[input.use]\n\tunit := {unit}\n\t\
             low := (figures[0] + adds * {low}) * unit\n\thigh := (figures[1] + adds * {high}) * unit\n}}\n"
        )?;
    }
    let all: Vec<String> = (0..rows.len()).map(|at| format!("window_{at}")).collect();
    writeln!(text, "\nwindows := [{}]", all.join(", "))?;
    Ok(text)
}

/// One program a row, and one for what they share.
struct CelRules {
    env: Arc<Env>,
    adds: Program,
    rows: Vec<Program>,
}

impl CelRules {
    fn new(rows: &[Row]) -> Result<Self, Failed> {
        let env = Arc::new(Env::stdlib());
        let compile = |text: &str| env.compile(text).map_err(|e| format!("{text}: {e:?}"));
        let window = |row: &Row| {
            let unit = match &row.scale {
                Some(fact) => format!("{} * 0.001", variable(fact)),
                None => "0.0000254".to_owned(),
            };
            let sides = row.street.iter().zip(row.bracket).zip(row.all_out).zip(row.added);
            let sides: Vec<String> = sides
                .map(|(((street, bracket), all_out), added)| {
                    format!(
                        "((usage == \"street\" ? {street:?} : usage == \"bracket\" ? {bracket:?} : {all_out:?}) + \
                         adds * {added:?}) * ({unit})"
                    )
                })
                .collect();
            format!("[{}]", sides.join(", "))
        };
        let adds = compile("adder == \"nitrous\" || adder == \"turbo\" || adder == \"blower\" ? 1.0 : 0.0")?;
        let rows = rows.iter().map(|row| compile(&window(row))).collect::<Result<_, _>>()?;
        Ok(Self { env, adds, rows })
    }

    fn ask(&self, facts: &Facts) -> Result<Vec<Cel>, Failed> {
        let mut context = Context::with_env(Arc::clone(&self.env));
        for (name, value) in facts {
            let value = match value {
                Value::String(word) => Cel::from(word.as_str()),
                other => Cel::from(other.as_f64().unwrap_or(f64::NAN)),
            };
            context.add_variable_from_value(variable(name), value);
        }
        let adds = self.adds.execute(&context)?;
        context.add_variable_from_value("adds", adds);
        Ok(self.rows.iter().map(|row| row.execute(&context)).collect::<Result<_, _>>()?)
    }
}

fn variable(fact: &str) -> String {
    if fact == "use" { "usage".to_owned() } else { fact.replace(['.', '-'], "_") }
}

fn pair(window: &Cel) -> Option<[f64; 2]> {
    let Cel::List(both) = window else { return None };
    match both.as_slice() {
        [Cel::Float(low), Cel::Float(high)] => Some([*low, *high]),
        _ => None,
    }
}
