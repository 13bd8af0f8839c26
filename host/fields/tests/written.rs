//! What is made of the entries is what they say: a stale table, schema or reference fails here.
#![allow(clippy::unwrap_used, unreachable_pub, clippy::panic)]

#[path = "../examples/generate/make/mod.rs"]
mod make;

#[test]
fn what_is_written_is_what_the_entries_say() {
    let made = make::all().unwrap_or_else(|faults| panic!("{}", faults.join("\n")));
    for file in made {
        let there = std::fs::read_to_string(&file.path).unwrap_or_default();
        assert!(there == file.text, "{}: run cargo run -p thou-fields --example generate", file.path);
    }
}
