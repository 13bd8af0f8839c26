//! What a rule is started with: it compiles and holds to its cases, and says where the author's own goes.

use super::start::{Answers, Start};
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

/// The unit that its limits are started in. A difference of temperatures goes in kelvin, since °F in a case is a place on
/// the scale.
fn unit(kind: Kind) -> &'static str {
    if kind.id() == "temperature-difference" { "K" } else { kind.print(System::Inch).unit }
}

/// A size in the trade's unit, as Rust has it: through the kit's function, or in SI where the kit has none for it.
fn in_rust(kind: Kind, size: f64) -> String {
    let unit = unit(kind);
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

/// Its first case, for the rule's file of cases.
pub(super) fn cases(start: &Start<'_>) -> String {
    let row = match (start.answers, start.judges) {
        (Answers::Window, Some((_, kind))) => {
            let unit = unit(kind);
            let size = |size: f64| if unit.is_empty() { format!("{size}") } else { format!("\"{size} {unit}\"") };
            format!("window = {{ low = {}, high = {} }}", size(LOW), size(HIGH))
        }
        (Answers::Finding, _) => "finding = { level = \"look\" }".to_owned(),
        _ => "step = {}".to_owned(),
    };
    format!(
        "# What {} must come to. Work every number out from its source, not from what the rule gives.\n\n[[case]]\n\
         name = \"any engine\"\n{row}\n",
        start.id.replace('-', " ")
    )
}

/// What was written and what comes next.
pub(super) fn said(folder: &Path, start: &Start<'_>) -> String {
    let (folder, module) = (folder.display(), &start.module);
    format!(
        "{folder}/src/{module}.rs: a rule with invented words and figures; what it must come to is in \
         {module}.cases.toml beside it\n{folder}/src/lib.rs: {module}, at the end of the list: move it to its place in the \
         order of the job\n  thou pack test {folder} --write-reads\n"
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
    let cases: Vec<String> = cases(start).lines().map(|line| format!("    {line}")).collect();
    format!(
        "{folder} is a pack in another language than Rust, and nothing was written. A rule is:\n  manifest.json: one more \
         entry at the end of \"rules\",\n    {{ \"id\": \"{id}\", \"kind\": \"{kind}\", \"title\": \"{}\", \"operation\": \
         \"{}\", \"why\": \"..\", \"basis\": \"shop\", \"source\": \"..\"{judges}, \"texts\": [{{ \"words\": \"..\" }}] }}\n  \
         the source: what it answers where `assess` is asked for the index of that entry\n  cases/{id}.cases.toml:\n{}\n",
        title(id),
        start.operation,
        cases.join("\n"),
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
            let cases = cases(&start);
            for (limit, size) in [("low", 10), ("high", 20)] {
                let written = match unit(kind) {
                    "" => format!("{limit} = {size}"),
                    unit => format!("{limit} = \"{size} {unit}\""),
                };
                assert!(cases.contains(&written) && kind.parse(&format!("{size} {}", unit(kind))).is_ok(), "{cases}");
            }
        }
        assert_eq!(in_rust(Kind::by_id("clearance").unwrap(), 10.0), "thou(10.0)");
        // 10 lb-ft, NIST SP 811: 1.355 817 9 N m each
        assert!(in_rust(Kind::by_id("torque").unwrap(), 10.0).starts_with("13.558179"));
        assert_eq!(in_rust(Kind::by_id("ratio").unwrap(), 10.0), "10.0");
    }
}
