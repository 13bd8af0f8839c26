//! What a rule is started with: it compiles and holds to its fixtures, and says where the author's own goes.

use super::{Answers, Start};
use std::path::Path;
use thou_contract::{Kind, System};

/// The kit's functions by the unit that they take.
const FUNCTIONS: [(&str, &str); 15] = [
    ("%", "percent"),
    ("cc", "cc"),
    ("deg", "degrees"),
    ("ft/min", "feet_a_minute"),
    ("g", "grams"),
    ("hp", "hp"),
    ("in", "inches"),
    ("lbf", "pounds"),
    ("miles", "miles"),
    ("months", "months"),
    ("oz-in", "ounce_inches"),
    ("psi", "psi"),
    ("rpm", "rpm"),
    ("thou", "thou"),
    ("µin", "microinches"),
];

/// The invented limits of a window, in the trade's unit of what it judges.
const LOW: f64 = 10.0;
const HIGH: f64 = 20.0;

/// "Bore taper" of bore-taper.
fn title(id: &str) -> String {
    let words = id.replace('-', " ");
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A size in the trade's unit, as Rust has it: through the kit's function, or in SI where the kit has none for it.
fn in_rust(kind: Kind, size: f64) -> String {
    let unit = kind.print(System::Inch).unit;
    match FUNCTIONS.iter().find(|(name, _)| *name == unit) {
        Some((_, function)) => format!("{function}({size:?})"),
        None if unit.is_empty() => format!("{size:?}"),
        None => format!("{:?}", kind.parse(&format!("{size} {unit}")).unwrap_or(size)),
    }
}

/// The rule's file.
pub(super) fn rule(start: &Start<'_>) -> String {
    let template = match start.answers {
        Answers::Window => include_str!("window.rs.in"),
        Answers::Finding => include_str!("finding.rs.in"),
        Answers::Step => include_str!("step.rs.in"),
    };
    let text =
        template.replace("RULE-ID", start.id).replace("TITLE", &title(start.id)).replace("OPERATION", start.operation);
    match start.judges {
        Some((fact, kind)) => {
            text.replace("FACT", fact).replace("LEAST", &in_rust(kind, LOW)).replace("MOST", &in_rust(kind, HIGH))
        }
        None => text,
    }
}

/// Its first fixtures: every limit with a reading within 1 % to each side of it.
pub(super) fn fixtures(start: &Start<'_>) -> Vec<(String, String)> {
    let readings = |fact: &str, kind: Kind| {
        let unit = kind.print(System::Inch).unit;
        let read = |size: f64| if unit.is_empty() { format!("{size}") } else { format!("\"{size} {unit}\"") };
        [("go-low", LOW * 1.005), ("go-high", HIGH * 0.995), ("look-low", LOW * 0.995), ("look-high", HIGH * 1.005)]
            .map(|(name, size)| {
                let size = (size * 100.0).round() / 100.0;
                (name, format!("{{\n  \"facts\": {{}},\n  \"reading\": {{ \"{fact}\": {} }}\n}}\n", read(size)))
            })
            .to_vec()
    };
    let nothing = "{\n  \"facts\": {}\n}\n".to_owned();
    let all = match (start.answers, start.judges) {
        (Answers::Window, Some((fact, kind))) => readings(fact, kind),
        (Answers::Finding, _) => vec![("look-always", nothing)],
        _ => vec![("go-always", nothing)],
    };
    all.into_iter().map(|(name, text)| (format!("fixtures/{}/{name}.json", start.id), text)).collect()
}

/// What was written and what comes next.
pub(super) fn said(folder: &Path, start: &Start<'_>) -> String {
    let (folder, id, module) = (folder.display(), start.id, &start.module);
    format!(
        "{folder}/src/{module}.rs: a rule with invented words and figures; what it must come to is in \
         {folder}/fixtures/{id}\n{folder}/src/lib.rs: {module}, at the end of the list: move it to its place in the \
         order of the job\n  thou pack test {folder} --bless\n"
    )
}

/// Where the parts of a rule go in a pack of another language.
pub(super) fn by_hand(folder: &Path, start: &Start<'_>) -> String {
    let (folder, id) = (folder.display(), start.id);
    let kind = match start.answers {
        Answers::Window => "window",
        Answers::Finding => "finding",
        Answers::Step => "step",
    };
    let judges = start.judges.map(|(fact, _)| format!(", \"judges\": [\"{fact}\"]")).unwrap_or_default();
    let fixtures: Vec<String> = fixtures(start).into_iter().map(|(path, _)| format!("    {path}")).collect();
    format!(
        "{folder} is a pack in another language than Rust, and nothing was written. A rule is:\n  manifest.json: one more \
         entry at the end of \"rules\",\n    {{ \"id\": \"{id}\", \"kind\": \"{kind}\", \"title\": \"{}\", \"operation\": \
         \"{}\", \"why\": \"..\", \"basis\": \"shop\", \"source\": \"..\"{judges}, \"texts\": [{{ \"words\": \"..\" }}] }}\n  \
         the source: what it answers where `assess` is asked for the index of that entry\n  its fixtures:\n{}\n",
        title(id),
        start.operation,
        fixtures.join("\n"),
    )
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use thou_contract::KINDS;

    #[test]
    fn a_size_of_every_kind_can_be_written_in_rust_and_read() {
        for spec in KINDS {
            let kind = Kind::by_id(spec.id).unwrap();
            let start = Start {
                id: "bore-taper",
                module: "bore_taper".to_owned(),
                answers: Answers::Window,
                operation: "block",
                judges: Some(("bore.taper", kind)),
            };
            let rule = rule(&start);
            assert!(!rule.contains("LEAST") && !rule.contains("MOST") && !rule.contains("FACT"), "{rule}");
            for (path, text) in fixtures(&start) {
                let fixture: serde_json::Value = serde_json::from_str(&text).unwrap();
                let read = &fixture["reading"]["bore.taper"];
                assert!(read.is_number() || kind.parse(read.as_str().unwrap()).is_ok(), "{path}: {text}");
            }
        }
        assert_eq!(in_rust(Kind::by_id("clearance").unwrap(), 10.0), "thou(10.0)");
        // 10 lb-ft, NIST SP 811: 1.355 817 9 N m each
        assert!(in_rust(Kind::by_id("torque").unwrap(), 10.0).starts_with("13.558179"));
        assert_eq!(in_rust(Kind::by_id("ratio").unwrap(), 10.0), "10.0");
    }
}
