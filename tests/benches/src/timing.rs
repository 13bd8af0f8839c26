//! Times of one run: many batches, taken in turn so that a busy moment of the machine falls on all alike.

use std::time::{Duration, Instant};

/// What a batch lasts at least, so that the clock itself does not count.
const BATCH: Duration = Duration::from_micros(500);

/// Something to be timed, by name.
pub(crate) struct Subject<'a> {
    pub(crate) name: &'static str,
    pub(crate) work: Box<dyn FnMut() + 'a>,
}

/// The times of one subject, in µs.
#[derive(Debug, Clone, Default)]
pub(crate) struct Times(pub(crate) Vec<f64>);

/// Runs every subject in turn, so many rounds, and gives each its times a call.
pub(crate) fn rounds(subjects: &mut [Subject<'_>], rounds: usize) -> Vec<(&'static str, Times)> {
    let sizes: Vec<u32> = subjects.iter_mut().map(|s| size(&mut s.work)).collect();
    let mut times: Vec<(&'static str, Times)> = subjects.iter().map(|s| (s.name, Times::default())).collect();
    for _ in 0..rounds {
        for ((subject, size), (_, times)) in subjects.iter_mut().zip(&sizes).zip(&mut times) {
            times.0.push(batch(&mut subject.work, *size));
        }
    }
    times
}

/// How many calls fill a batch; also what warms the subject up.
fn size(work: &mut dyn FnMut()) -> u32 {
    let mut size = 1_u32;
    loop {
        let took = Duration::from_secs_f64(batch(work, size) * 1e-6 * f64::from(size));
        if took >= BATCH || size > 1 << 20 {
            return size;
        }
        size *= 2;
    }
}

fn batch(work: &mut dyn FnMut(), size: u32) -> f64 {
    let start = Instant::now();
    for _ in 0..size {
        work();
    }
    start.elapsed().as_secs_f64() * 1e6 / f64::from(size)
}
