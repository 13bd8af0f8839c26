//! What holds whatever comes in.

use jsonschema::Validator;
use serde_json::Value;
use std::sync::LazyLock;
use textwrap::core::display_width;

/// The most that all this may ever take, in MB.
pub const MOST_MB: u64 = 1_000;

/// The most memory that this process ever had, in MB; nothing where the system does not say.
pub fn peak() -> u64 {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|l| l.strip_prefix("VmHWM:"));
    line.and_then(|l| l.split_whitespace().next()?.parse::<u64>().ok()).map_or(0, |kb| kb / 1024)
}

/// No character that moves, colours, hides or turns around anything.
pub fn plain(text: &str) {
    for (number, line) in text.split('\n').enumerate() {
        let clean = thou::packs::clean::clean(line);
        assert!(clean == line, "line {} of the output is not plain: {line:?}\n{clean:?}", number + 1);
    }
}

/// The widest column that a table of a page has for words.
const COLUMN: usize = 17;

/// Lines of a page: wider than 80 columns only by what its words are wider than the column they stand in; numbers of more
/// than forty digits stand in narrow columns too.
pub fn page(text: &str) {
    plain(text);
    for line in text.split('\n').filter(|l| display_width(l) > 80) {
        let over: usize =
            line.split_whitespace().map(display_width).map(|w| if w > 40 { w } else { w.saturating_sub(COLUMN) }).sum();
        assert!(over + 80 >= display_width(line), "{} columns: {line}", display_width(line));
    }
}

/// A report for programs: plain, and of its schema.
pub fn report(value: &Value) {
    static SCHEMA: LazyLock<Validator> = LazyLock::new(|| {
        let schema = serde_json::from_str(thou::report::json::SCHEMA).unwrap();
        jsonschema::draft202012::new(&schema).unwrap()
    });
    plain(&serde_json::to_string_pretty(value).unwrap());
    let wrong: Vec<String> = SCHEMA.iter_errors(value).map(|e| format!("{}: {e}", e.instance_path())).take(3).collect();
    assert!(wrong.is_empty(), "not of the report's schema: {}", wrong.join("; "));
}
