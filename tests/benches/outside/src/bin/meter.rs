//! Runs processes in turn and prints what CPU time and what time by the clock each took, in µs.
//!
//! Standard input: `{"rounds": 30, "jobs": [{"args": ["thou", "check", "x.json"], "fresh-cache": true}, ...]}`.
//! Standard output: `[[[cpu, clock], ...], ...]`, one list a job.

use nix::sys::resource::{UsageWho, getrusage};
use nix::sys::time::TimeValLike;
use serde::Deserialize;
use std::process::{Command, Stdio};
use std::time::Instant;

type Failed = Box<dyn std::error::Error>;

#[derive(Deserialize)]
struct Wanted {
    rounds: usize,
    jobs: Vec<Job>,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
struct Job {
    args: Vec<String>,
    #[serde(default)]
    fresh_cache: bool,
}

fn main() -> Result<(), Failed> {
    let wanted: Wanted = serde_json::from_reader(std::io::stdin())?;
    let mut times = vec![Vec::new(); wanted.jobs.len()];
    for _ in 0..wanted.rounds {
        for (job, times) in wanted.jobs.iter().zip(&mut times) {
            times.push(run(job)?);
        }
    }
    println!("{}", serde_json::to_string(&times)?);
    Ok(())
}

fn run(job: &Job) -> Result<[f64; 2], Failed> {
    let (program, args) = job.args.split_first().ok_or("a job without args")?;
    let mut command = Command::new(program);
    command.args(args).stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
    let cache = std::env::temp_dir().join(format!("thou-benches-{}", std::process::id()));
    if job.fresh_cache {
        std::fs::create_dir_all(&cache)?;
        command.env("XDG_CACHE_HOME", &cache);
    }
    let (before, start) = (cpu()?, Instant::now());
    let status = command.status()?;
    let (clock, cpu) = (start.elapsed().as_secs_f64() * 1e6, cpu()? - before);
    if job.fresh_cache {
        std::fs::remove_dir_all(&cache)?;
    }
    // 2 and 3 are a sheet that is not valid and a pack that failed: not what was to be timed
    if !matches!(status.code(), Some(0 | 1 | 4)) {
        return Err(format!("{} ended with {status}", job.args.join(" ")).into());
    }
    Ok([cpu, clock])
}

/// CPU time of all children that have ended, user and system, in µs.
fn cpu() -> Result<f64, Failed> {
    let used = getrusage(UsageWho::RUSAGE_CHILDREN)?;
    Ok((used.user_time().num_microseconds() + used.system_time().num_microseconds()) as f64)
}
