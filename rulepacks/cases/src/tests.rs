#![allow(clippy::unwrap_used, clippy::panic)]

use super::*;
use thou_contract::answer::{Finding, OutcomeState, RuleOutcome, Said, Service, Step, Window};
use thou_contract::{Argument, CONTRACT, FactUse, Level, RuleKind, RuleText};

fn text(words: &str, args: &[(&str, &str)]) -> RuleText {
    let args = args.iter().map(|(name, kind)| Argument {
        name: (*name).to_owned(),
        kind: (*kind).to_owned(),
        choices: if *kind == "choice" { vec!["thrust".to_owned(), "cap".to_owned()] } else { Vec::new() },
    });
    RuleText {
        words: words.to_owned(),
        whose: None,
        basis: None,
        hold_basis: None,
        low: None,
        high: None,
        args: args.collect(),
        points_at: Vec::new(),
        wears: Vec::new(),
        duty: None,
    }
}

fn rule(id: &str, kind: RuleKind, judges: &[&str], texts: Vec<RuleText>) -> Rule {
    let rule: Rule = serde_json::from_value(serde_json::json!({
        "id": id, "kind": kind, "title": "Crank end play", "operation": "crank", "why": "it wipes the thrust",
        "basis": "shop", "source": "this shop's own", "judges": judges, "needs": ["use"], "texts": [],
        "reasons": ["rollers have no thrust face"]
    }))
    .unwrap();
    Rule { texts, ..rule }
}

fn manifest(rule: Rule) -> Manifest {
    let fact = |id: &str, kind: &str, axis: &str, choices: &[&str]| FactUse {
        id: id.to_owned(),
        kind: kind.to_owned(),
        axis: axis.to_owned(),
        choices: choices.iter().map(|c| (*c).to_owned()).collect(),
    };
    Manifest {
        contract: CONTRACT.to_owned(),
        id: "our-shop".to_owned(),
        version: "0.1.0".to_owned(),
        title: "Ours".to_owned(),
        about: "Ours".to_owned(),
        facts: vec![
            fact("use", "choice", "one", &["street", "bracket", "all-out"]),
            fact("bore.nominal", "length", "one", &[]),
            fact("bore.diameter", "length", "cylinder", &[]),
        ],
        meters: vec!["passes".to_owned(), "miles".to_owned()],
        inputs: Vec::new(),
        uses: Vec::new(),
        defaults: Vec::new(),
        rules: vec![rule],
    }
}

/// Gives what the test wants it to give.
struct Fake<F: Fn(&Case) -> CheckedAnswer>(F);

impl<F: Fn(&Case) -> CheckedAnswer> Asked for Fake<F> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        Ok((self.0)(case))
    }
    fn kind(&self, _: &str) -> Option<Kind> {
        Kind::by_id("clearance")
    }
}

fn answered() -> CheckedAnswer {
    CheckedAnswer { outcomes: vec![RuleOutcome { rule: 0, state: OutcomeState::Answered }], ..CheckedAnswer::default() }
}

fn say<T>(what: T, args: &[f64]) -> Vec<Said<T>> {
    vec![Said { rule: 0, what, args: args.to_vec() }]
}

const THOU: f64 = 2.54e-5;

/// Four thou for the street and five for the bracket, up to eight; all-out does not apply.
fn four(case: &Case) -> CheckedAnswer {
    let low = match case.word("use") {
        Some("street") => 4.0,
        Some("bracket") => 5.0,
        _ => {
            let outcomes = vec![RuleOutcome { rule: 0, state: OutcomeState::NotApplicable(0) }];
            return CheckedAnswer { outcomes, ..CheckedAnswer::default() };
        }
    };
    let window = Window::between(low * THOU, 8.0 * THOU).levels(Level::Warn, Level::Note);
    CheckedAnswer { windows: say(window, &[]), ..answered() }
}

fn end_play() -> Rule {
    rule("end-play", RuleKind::Window, &["crank.end-play"], vec![text("our band", &[])])
}

/// The same, where nobody knows the kind of what is judged.
struct Unknown<F: Fn(&Case) -> CheckedAnswer>(F);

impl<F: Fn(&Case) -> CheckedAnswer> Asked for Unknown<F> {
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String> {
        Ok((self.0)(case))
    }
}

/// What a check of these files says, without the folder's own path.
fn told(name: &str, rule: Rule, files: &[(&str, &str)], answer: impl Fn(&Case) -> CheckedAnswer) -> Report {
    let folder = std::env::temp_dir().join(format!("thou-cases-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    for (file, text) in files {
        let file = folder.join(file);
        std::fs::create_dir_all(file.parent().unwrap()).unwrap();
        std::fs::write(file, text).unwrap();
    }
    let mut report = check(&manifest(rule), &folder, &mut Fake(answer));
    std::fs::remove_dir_all(&folder).unwrap();
    for fault in &mut report.faults {
        *fault = fault.replace(&format!("{}/", folder.display()), "");
    }
    report
}

const FILE: &str = "cases/end-play.cases.toml";

const GOOD: &str = r#"
[[case]]
name = "street"
given = { use = "street" }
window = { low = "4 thou", high = "2 * {low}", above = "note" }
"#;

#[test]
fn cases_that_hold_are_counted() {
    let more = r#"
[[case]]
name = "bracket"
given = { use = "bracket" }
window = { low = "4 thou + 1 thou", high = "8 thou", above = "note", says = "band" }

[[case]]
name = "rollers"
given = { use = "all-out" }
does-not-apply = "no thrust face"
"#;
    let file = format!("{GOOD}{more}");
    for at in [FILE, "src/end_play.cases.toml", "src/crank/end_play.cases.toml"] {
        let report = told("hold", end_play(), &[(at, &file)], four);
        assert_eq!(report, Report { faults: Vec::new(), cases: 3, rules: 1 });
    }
}

/// Each with what is wrong in place of a good row, and what is told of it.
#[test]
fn each_fault_says_file_line_case_got_and_wanted() {
    let window = "window = { low = \"4 thou\", high = \"2 * {low}\", above = \"note\" }";
    let faults = [
        // a number that the rule does not give
        (
            "window = { low = \"77 thou\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": low is 4.0 thou; wanted 77.0 thou (\"77 thou\"): correct the rule, or the case \
             by its source",
        ),
        // a limit that is not said, and one that the rule does not give
        (
            "window = { low = \"4 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": it gives high 8.0 thou, and the case does not say so: work it out from its \
             source and write high = \"..\", or take it out of the rule",
        ),
        (
            "window = { low = \"4 thou\", aim = \"6 thou\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": it gives no aim; wanted 6.0 thou (\"6 thou\"): correct the rule, or the case by \
             its source",
        ),
        // a side that speaks at another level
        (
            "window = { low = \"4 thou\", high = \"8 thou\" }",
            "5: rule end-play, case \"street\": crank.end-play at 8.040 thou, just outside its high, is note; wanted look \
             (above = \"look\"): correct the rule, or the case by its source",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", never = \"look\" }",
            "5: rule end-play, case \"street\": \"never\" is no column of a window; these are: judges, place, reuse, \
             never-below, low, aim, high, never-above, below, above, says, args",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"loud\" }",
            "5: rule end-play, case \"street\": above = \"loud\": it is one of no-go, look, note",
        ),
        // arithmetic
        (
            "window = { low = \"4\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": low = \"4\": 4 has no unit, and a length is wanted: write it like \"4 thou\"",
        ),
        (
            "window = { low = \"{low} / 2\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": low = \"{low} / 2\": {low} is made of itself",
        ),
        (
            "window = { low = \"{bore.nominal}\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": low = \"{bore.nominal}\": {bore.nominal} is not given in this case",
        ),
        (
            "window = { low = \"{stroke}\", high = \"8 thou\", above = \"note\" }",
            "5: rule end-play, case \"street\": low = \"{stroke}\": there is no {stroke}: the pack does not ask for that fact, \
             and nothing beside it is called so",
        ),
        // words, places, wear limits, arguments
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", says = \"the card\" }",
            "5: rule end-play, case \"street\": it says \"our band\"; wanted \"the card\" in it: correct the rule, or the case \
             by its source",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", place = 2 }",
            "5: rule end-play, case \"street\": it is at every place, or the engine; wanted place 2: correct the rule, or the \
             case by its source",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", reuse = true }",
            "5: rule end-play, case \"street\": its window is no wear limit; wanted a wear limit (reuse = true): correct the \
             rule, or the case by its source",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", judges = \"bore\" }",
            "5: rule end-play, case \"street\": its window is on crank.end-play; wanted bore: correct the rule, or the case by \
             its source",
        ),
        (
            "window = { low = \"4 thou\", high = \"8 thou\", above = \"note\", args = { end = \"3 thou\" } }",
            "5: rule end-play, case \"street\": args has end, and its text announces no such argument: take it out",
        ),
        (
            "window = [{ low = \"4 thou\" }, { high = \"8 thou\" }]",
            "2: rule end-play, case \"street\": it gives 1 window \"our band\"; wanted 2 windows, in the order in which it gives \
             them: correct the rule, or the case by its source",
        ),
        // what becomes of it
        (
            "go = true",
            "2: rule end-play, case \"street\": it comes to 1 window \"our band\"; wanted to have nothing to say (go = true): \
             correct the rule, or the case by its source",
        ),
        (
            "cannot-say = \"thrust face\"",
            "2: rule end-play, case \"street\": it comes to 1 window \"our band\"; wanted \"thrust face\", of which it cannot \
             say: correct the rule, or the case by its source",
        ),
        // the file itself
        ("cannot-say = \" \"", "2: rule end-play, case \"street\": it says nothing of what the rule must come to"),
        (
            "finding = { level = \"look\" }",
            "5: rule end-play, case \"street\": \"finding\" is no part of a case of a window; these are: name, given, go, \
             does-not-apply, cannot-say, window",
        ),
        (
            "window = { lo = \"4 thou\" }",
            "5: rule end-play, case \"street\": \"lo\" is no column of a window; these are: judges, place, reuse, never-below, \
             low, aim, high, never-above, below, above, says, args",
        ),
        ("window = {", "5: rule end-play, it is not TOML: unclosed inline table, expected `}`"),
        ("window = 2026-11-30", "5: rule end-play, a datetime says nothing here: write it in quotes"),
        ("window = 4", "5: rule end-play, window is 4, and a row in { } is wanted"),
    ];
    let (mut got, mut want) = (Vec::new(), Vec::new());
    for (row, wanted) in faults {
        let text = GOOD.replace(window, row);
        assert!(text != GOOD, "{row}");
        got.push((row, told("fault", end_play(), &[(FILE, &text)], four).faults));
        want.push((row, vec![format!("{FILE}:{wanted}")]));
    }
    assert_eq!(got, want);
    let without = GOOD.replace(&format!("{window}\n"), "");
    assert_eq!(
        told("none", end_play(), &[(FILE, &without)], four).faults,
        [format!(
            "{FILE}:2: rule end-play, case \"street\": it wants one of window = {{ .. }}, go = true (it looks and has nothing to \
             say), does-not-apply = \"words of its reason\" and cannot-say = \"words of its reason\""
        )]
    );
}

#[test]
fn what_is_given_has_to_be_what_the_pack_asks_for() {
    for (given, wanted) in [
        ("{ }", "the rule is not asked without use, and it is not given"),
        ("{ use = \"street\", bore = 1 }", "bore is given, and the pack does not ask for that fact"),
        ("{ use = 1 }", "use is given as 1: 1 is not a word in quotes"),
        (
            "{ use = \"street\", bore.nominal = 4 }",
            "bore.nominal is given as 4: \"4\" has no unit: this is a length, write it like \"1.0000 in\"",
        ),
        (
            "{ use = \"street\", \"bore.nominal\" = \"4 psi\" }",
            "bore.nominal is given as \"4 psi\": this is a length; 'psi' is for a pressure: write in, thou, tenths, mm, µm, um",
        ),
    ] {
        let text = GOOD.replace("{ use = \"street\" }", given);
        assert_eq!(
            told("given", end_play(), &[(FILE, &text)], four).faults,
            [format!("{FILE}:2: rule end-play, case \"street\": {wanted}")]
        );
    }
}

#[test]
fn what_is_not_tried_is_told() {
    assert_eq!(
        told("other", end_play(), &[("cases/bore.cases.toml", GOOD)], four).faults,
        [
            "cases/end-play.cases.toml: rule end-play has no cases: write them in this file",
            "cases/bore.cases.toml: the pack has no rule bore"
        ]
    );
    let two =
        rule("end-play", RuleKind::Window, &["crank.end-play"], vec![text("our band", &[]), text("the card's", &[])]);
    let good = GOOD.replace("above = \"note\"", "above = \"note\", says = \"our band\"");
    assert_eq!(
        told("text", two.clone(), &[(FILE, &good)], four).faults,
        [format!(
            "{FILE}:1: rule end-play, no case comes to its text 2 (\"the card's\"): add one, or take the text out"
        )]
    );
    assert_eq!(
        told("unnamed", two, &[(FILE, GOOD)], four).faults,
        [format!(
            "{FILE}:5: rule end-play, case \"street\": the rule has 2 texts: name the one that it says, with words of it: says = \
             \"..\" (it says \"our band\")"
        )]
    );
    let twice = format!("{GOOD}{}", GOOD.replace("\"street\"\ng", "\"the road\"\ng"));
    assert_eq!(
        told("twice", end_play(), &[(FILE, &twice)], four).faults,
        [format!(
            "{FILE}:7: rule end-play, case \"the road\" is given what \"street\" is given: one of them is enough"
        )]
    );
    let twins = told("twins", end_play(), &[(FILE, GOOD), ("src/end_play.cases.toml", GOOD)], four).faults;
    let wanted = "src/end_play.cases.toml: rule end-play has its cases in cases/end-play.cases.toml: a rule has one file of them";
    assert_eq!(twins, [wanted]);
}

#[test]
fn a_never_limit_is_a_no_go_whatever_its_basis() {
    let window = |basis: &str| {
        let mut rule = end_play();
        rule.hold_basis = serde_json::from_value(basis.into()).unwrap();
        rule
    };
    let text = r#"
[[case]]
name = "street"
given = { use = "street" }
window = { never-below = "0.6 * {low}", low = "4 thou", high = "8 thou" }
"#;
    let gives = |_: &Case| {
        let window = Window::between(4.0 * THOU, 8.0 * THOU).never_below(2.4 * THOU);
        CheckedAnswer { windows: say(window, &[]), ..answered() }
    };
    for basis in ["physics", "maker", "practice"] {
        assert_eq!(told(basis, window(basis), &[(FILE, text)], gives).faults, [""; 0]);
    }
    let milder = text.replace("high = \"8 thou\"", "high = \"8 thou\", never = \"look\"");
    let faults = told("milder", window("practice"), &[(FILE, &milder)], gives).faults;
    assert!(matches!(faults.as_slice(), [one] if one.contains("never")), "{faults:?}");
}

#[test]
fn units_alone_tell_what_a_limit_is_where_its_kind_is_not_known() {
    let folder = std::env::temp_dir().join(format!("thou-cases-unknown-{}", std::process::id()));
    std::fs::create_dir_all(folder.join("cases")).unwrap();
    let check = |text: &str| {
        std::fs::write(folder.join(FILE), text).unwrap();
        check(&manifest(end_play()), &folder, &mut Unknown(four)).faults
    };
    assert_eq!(check(&GOOD.replace("2 * {low}", "max(2 * {low}, {low} + 1 thou)")), [""; 0]);
    let faults = check(&GOOD.replace("2 * {low}", "2 * {low} + 1 psi"));
    std::fs::remove_dir_all(&folder).unwrap();
    let told = faults.first().map(|f| f.ends_with("a length and a pressure are not added or compared"));
    assert_eq!((faults.len(), told), (1, Some(true)), "{faults:?}");
}

#[test]
fn places_and_lists_are_told_apart() {
    let text = r#"
[given]
use = "street"
bore.diameter = ["4 in", "not read", "4.1 in"]

[[case]]
name = "each at its place"
window = [
  { place = 1, low = "1e-3 * {bore.diameter}" },
  { place = 3, low = "1e-3 * {bore.diameter}", high = "2e-3 * max({bore.diameter})" },
]
"#;
    let gives = |case: &Case| {
        let values = case.facts.of(2);
        assert_eq!(values.len(), 3);
        assert!(values.iter().any(|v| v.is_nan()));
        let first = Window::at_least(4.0 * THOU).at(0);
        let third = Window::between(4.1 * THOU, 8.2 * THOU).at(2);
        CheckedAnswer { windows: [say(first, &[]), say(third, &[])].concat(), ..answered() }
    };
    assert_eq!(told("places", end_play(), &[(FILE, text)], gives).faults, [""; 0]);
}

#[test]
fn a_finding_is_held_to_its_level_words_and_arguments() {
    let found = || {
        let texts = vec![text("{arg:by} short at the {arg:where}", &[("by", "clearance"), ("where", "choice")])];
        rule("end-play", RuleKind::Finding, &[], texts)
    };
    let gives = |_: &Case| {
        let finding = Finding { level: Level::Hold, place: None, text: 0 };
        CheckedAnswer { findings: say(finding, &[3.0 * THOU, 1.0]), ..answered() }
    };
    let good = r#"
[[case]]
name = "a worn thrust"
given = { use = "street", "bore.nominal" = "4 in" }
finding = { level = "no-go", says = "short at", args = { by = "0.75e-3 * {bore.nominal}", where = "cap" } }
"#;
    assert_eq!(told("finding", found(), &[(FILE, good)], gives).faults, [""; 0]);
    let row = "case \"a worn thrust\"";
    for (from, to, wanted) in [
        ("no-go", "look", "\"{arg:by} short at the {arg:where}\" is no-go; wanted look"),
        ("level = \"no-go\", ", "", "a finding has a level: level = \"no-go\", \"look\" or \"note\""),
        ("0.75e-3", "0.8e-3", "the argument by is 3.0 thou; wanted 3.2 thou (\"0.8e-3 * {bore.nominal}\")"),
        ("cap", "thrust", "the argument where is \"cap\"; wanted \"thrust\""),
        (
            ", where = \"cap\"",
            "",
            "its text has the argument where, \"cap\", and the case does not say so: work it out from its source and write \
             args = { where = \"..\" }",
        ),
    ] {
        let faults = told("finding", found(), &[(FILE, &good.replace(from, to))], gives).faults;
        let correct = ": correct the rule, or the case by its source";
        let end = if wanted.contains("; wanted") { correct } else { "" };
        assert_eq!(faults, [format!("{FILE}:5: rule end-play, {row}: {wanted}{end}")]);
    }
}

/// How long the work takes is in no life, so a file says it of every service.
#[test]
fn the_work_of_a_service_is_held_to_what_its_file_says() {
    let service = || {
        let mut rule = rule("end-play", RuleKind::Service, &[], vec![text("new bolts", &[])]);
        rule.service = serde_json::from_value(serde_json::json!({ "part": "bolts", "action": "replace",
            "since": "built", "opens": "pan", "hours": 3.5, "loses": "engine",
            "shape": 2.0 }))
        .unwrap();
        rule
    };
    let gives = |_: &Case| {
        let service = Service { place: None, meter: 0, low: 80.0, nominal: 120.0, high: 161.0, text: 0 };
        CheckedAnswer { services: say(service, &[]), ..answered() }
    };
    let good = r#"[work]
hours = 3.5
opens = "pan"
shape = 2

[[case]]
name = "bracket"
given = { use = "bracket" }
service = { passes = [80, 120, 161] }
"#;
    assert_eq!(told("work", service(), &[(FILE, good)], gives).faults, [""; 0]);
    let correct = "correct the rule, or the case by its source";
    for (from, to, line, wanted) in [
        ("3.5", "3", 2, format!("of the work, hours is 3.5; wanted 3: {correct}")),
        ("\"pan\"", "\"heads\"", 3, format!("of the work, opens is pan; wanted heads: {correct}")),
        ("shape = 2", "shape = 2.5", 4, format!("of the work, shape is 2; wanted 2.5: {correct}")),
        ("shape = 2\n", "", 1, "the work has no shape, as a number".to_owned()),
        ("hours = 3.5\n", "", 1, "the work has no hours, as a number".to_owned()),
        ("hours = 3.5", "hours = \"3.5\"", 1, "the work has no hours, as a number".to_owned()),
        (
            "opens",
            "opened",
            3,
            "\"opened\" is no part of the work; these are: hours, shape, opens, loses, action".to_owned(),
        ),
        (
            "[work]\nhours = 3.5\nopens = \"pan\"\nshape = 2\n",
            "",
            1,
            "nothing says how long the work takes: write [work] with its hours".to_owned(),
        ),
    ] {
        let faults = told("work", service(), &[(FILE, &good.replace(from, to))], gives).faults;
        assert_eq!(faults, [format!("{FILE}:{line}: rule end-play, {wanted}")], "{from}");
    }
    let window = rule("end-play", RuleKind::Window, &["bore.diameter"], vec![text("our band", &[])]);
    let faults = told("work", window, &[(FILE, good)], gives).faults;
    assert_eq!(faults, [format!("{FILE}:1: rule end-play, work is said of a service, and this rule is none")]);
}

#[test]
fn a_service_is_held_to_its_meter_and_lives() {
    let service = || {
        let texts = vec![text("new bolts, {arg:factor} of the figures", &[("factor", "ratio")])];
        rule("end-play", RuleKind::Service, &[], texts)
    };
    let gives = |_: &Case| {
        let service = Service { place: None, meter: 0, low: 80.0, nominal: 120.0, high: 161.0, text: 0 };
        CheckedAnswer { services: say(service, &[0.403]), ..answered() }
    };
    let good = r#"
[[case]]
name = "bracket"
given = { use = "bracket" }
service = { passes = [80, "floor(300 * {factor})", "floor(400 * {factor})"], args = { factor = 0.403 } }
"#;
    assert_eq!(told("service", service(), &[(FILE, good)], gives).faults, [""; 0]);
    for (from, to, wanted) in [
        (
            "80,",
            "81,",
            "its lives are 80, 120, 161; wanted low 81 passes (81): correct the rule, or the case by its source",
        ),
        ("passes", "miles", "its life is in passes; wanted it in miles: correct the rule, or the case by its source"),
        (
            "passes = [80, \"floor(300 * {factor})\", ",
            "passes = [80, ",
            "passes = [80, \"floor(400 * {factor})\"]: three lives are wanted, low, nominal and high: [200, 300, 400]",
        ),
        (
            "passes = [80, \"floor(300 * {factor})\", \"floor(400 * {factor})\"], ",
            "",
            "a service has one meter with its lives, low, nominal and high: passes = [..]; it gives passes 80, 120, 161",
        ),
    ] {
        let faults = told("service", service(), &[(FILE, &good.replace(from, to))], gives).faults;
        assert_eq!(faults, [format!("{FILE}:5: rule end-play, case \"bracket\": {wanted}")]);
    }
}

#[test]
fn steps_are_held_in_their_order() {
    let steps = || rule("end-play", RuleKind::Step, &[], vec![text("loosen", &[]), text("tighten", &[])]);
    let gives = |_: &Case| {
        let step = |text| say(Step { place: None, text }, &[]);
        CheckedAnswer { steps: [step(0), step(1)].concat(), ..answered() }
    };
    let good = r#"
[[case]]
name = "both"
given = { use = "bracket" }
step = [{ says = "loosen" }, { says = "tighten" }]
"#;
    assert_eq!(told("steps", steps(), &[(FILE, good)], gives).faults, [""; 0]);
    let turned = good
        .replace("[{ says = \"loosen\" }, { says = \"tighten\" }]", "[{ says = \"tighten\" }, { says = \"loosen\" }]");
    assert_eq!(
        told("steps", steps(), &[(FILE, &turned)], gives).faults,
        [("loosen", "tighten"), ("tighten", "loosen")].map(|(got, wanted)| format!(
            "{FILE}:5: rule end-play, case \"both\": it says \"{got}\"; wanted \"{wanted}\" in it: correct the rule, or the case \
             by its source"
        ))
    );
}
