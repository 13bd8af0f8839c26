//! Every field, kind, level and state of rules-1.0 in one pack. It is no use to an engine: what it is given decides
//! what it hands back, so that a kept answer shows both ways over the border.

use thou_sdk::prelude::*;
use thou_sdk::{Fallback, Input, Use};

mod facts {
    thou_sdk::facts! {
        USE: choice one "use" ["street", "bracket", "all-out", "marine"];
        PLATE: flag one "bore.plate-honed";
        BORES: length cylinder "bore.diameter";
        MAINS: clearance main "main-bearing.clearance";
        RISE: "temperature-difference" one "bore.rise";
        FIELD: pressure one "extra.every-field.pressure";
        WORD: choice one "extra.every-field.state" ["answered", "clear", "not-applicable", "cannot-say"];
        YES: flag one "extra.every-field.yes";
    }
}
use facts::*;

const ARGS: &[Arg] = &[
    Arg::of("length", "length"),
    Arg { name: "use", kind: "choice", choices: &["street", "bracket", "all-out", "marine", "none of them"] },
    Arg::of("yes", "flag"),
    Arg::of("where", "place"),
];

/// All five limits, each side with each level, a place and every place, two facts, a used part's limits, arguments.
const WINDOWS: Rule = Rule {
    id: "windows",
    title: "Every limit",
    operation: "rings",
    why: "A kept answer shows every limit.",
    basis: Shop,
    source: "invented",
    hold_basis: Some(Physics),
    hold_source: Some("invented too"),
    judges: &["ring.top.gap", "ring.second.gap"],
    needs: &[USE],
    takes: &[PLATE, BORES, MAINS, RISE, FIELD, WORD, YES],
    reasons: &["there is nothing to say of it", "it cannot be said"],
    texts: &[
        Text {
            whose: Some("kept answer"),
            basis: Some(Maker),
            hold_basis: Some(Standard),
            low: Remedy::solve("File {place} to {solve}, {miss} to go.", "ring.top.gap", "up"),
            high: Remedy::say("Fit another at {place}: {low}, {aim}, {high}."),
            args: ARGS,
            ..Text::new("{arg:length}, {arg:use}, {arg:yes}, {arg:where}, {fact:bore.nominal}")
        },
        Text::new("no arguments"),
    ],
    supersedes: &["clearances/second-gap"],
    assess: |f, a| {
        let all = Window::between(3e-4, 5e-4).aim(4e-4).never_below(2e-4).never_above(6e-4);
        let usage = f.all(USE).first().copied().unwrap_or(9.0);
        let args = [0.1, if usage < 0.0 { 4.0 } else { usage }, f64::from(u8::from(f.flag(YES) == Some(true))), 7.0];
        a.window_with(all.levels(Hold, Hold), &args);
        a.window_with(all.levels(Warn, Note).at(3), &args);
        a.window(Window::at_least(3e-4).levels(Note, Warn).text(TextNumber(1)).judging(JudgedNumber(1)));
        a.window(Window::at_most(5e-4).levels(Note, Note).text(TextNumber(1)).judging(JudgedNumber(1)).at(0).reuse());
        for (place, bore) in f.each(BORES) {
            a.window(Window { never_above: Some(bore), ..Window::new() }.text(TextNumber(1)).at(place));
        }
        Answered
    },
    ..Rule::WINDOW
};

/// What it was given: of each fact how many places, how many not read, the sum of the others.
const GIVEN: Rule = Rule {
    id: "given",
    kind: RuleKind::Finding,
    title: "What it was given",
    operation: "combination",
    why: "A kept answer shows what came over the border.",
    takes: &[USE, PLATE, BORES, MAINS, RISE, FIELD, WORD, YES],
    texts: &[
        Text {
            args: &[Arg::of("places", "count"), Arg::of("not-read", "count"), Arg::of("sum", "ratio")],
            low: Remedy::say("Nothing."),
            points_at: &["bore.diameter"],
            ..Text::new("{arg:places} places, {arg:not-read} not read, {arg:sum} in all")
        },
        Text::new("a place of its own: {place}"),
    ],
    assess: |f, a| {
        for fact in FACTS {
            let all = f.all(*fact);
            let read = all.iter().filter(|v| !v.is_nan());
            a.finding(
                Note,
                TextNumber(0),
                &[all.len() as f64, all.iter().filter(|v| v.is_nan()).count() as f64, read.sum()],
            );
        }
        a.finding_at(Warn, Some(1), TextNumber(1), &[]);
        a.finding(Hold, TextNumber(1), &[]);
        Answered
    },
    ..Rule::FINDING
};

/// Each state, by a field of its own.
const STATE: Rule = Rule {
    id: "state",
    title: "Every state",
    operation: "hand-over",
    why: "A kept answer shows every state.",
    needs: &[WORD],
    reasons: &["it does not apply", "it cannot say", "nor can it say this"],
    texts: &[Text::new("it answered")],
    assess: |f, a| match f.choice(WORD) {
        Some("answered") => {
            a.finding(Note, TextNumber(0), &[]);
            Answered
        }
        Some("clear") => Clear,
        Some("not-applicable") => NotApplicable(ReasonNumber(0)),
        Some(_) => CannotSay(ReasonNumber(1)),
        None => CannotSay(ReasonNumber(2)),
    },
    ..Rule::FINDING
};

/// Each meter.
const SERVICES: Rule = Rule {
    id: "services",
    title: "Every meter",
    why: "A kept answer shows every meter.",
    needs: &[USE],
    takes: &[BORES],
    texts: &[Text { args: &[Arg::of("life", "count")], ..Text::new("{arg:life} at {place}") }],
    service: Some(ServiceInfo {
        part: "nothing of an engine",
        action: "inspect",
        since: "last-done",
        opens: "nothing",
        resets: &["services"],
        hours: 0.5,
        loses: "power",
        triggers: &["never"],
        caution: Some("It is no service."),
        held_in: &[],
        duty: Duty::Turns,
    }),
    log: LogInfo {
        read_afresh: &["power"],
        told_by: &["leak-down"],
        over_rev: &[OverRev::Halves, OverRev::Ends, OverRev::OpenedJointEnds],
        done_by: &["leak-down"],
        reaches: &[Reach { by: &["broke"], look: "All of it." }],
        shape: Some(2.5),
    },
    assess: |_, a| {
        for meter in 0..5 {
            let nominal = 1_000.0 * f64::from(meter + 1);
            let service = Service { place: None, meter, low: 0.0, nominal, high: nominal, text: 0 };
            a.service(service, &[nominal]);
            a.service(Service { place: Some(meter), low: nominal / 4.0, high: 2.0 * nominal, ..service }, &[nominal]);
        }
        Answered
    },
    ..Rule::SERVICE
};

/// Two steps in an order.
const FIRST: Rule = Rule {
    id: "first",
    title: "A first step",
    operation: "assembly",
    why: "A kept answer shows the steps.",
    needs: &[USE],
    takes: &[BORES],
    texts: &[Text { args: &[Arg::of("turn", "angle")], ..Text::new("Turn it {arg:turn}.") }],
    step: Some(StepInfo { after: &[], until: &["windows"], caution: Some("Gently.") }),
    assess: |_, a| {
        a.step(None, TextNumber::ONLY, &[1.5]);
        Answered
    },
    ..Rule::STEP
};
const THEN: Rule = Rule {
    id: "then",
    title: "A step after it",
    texts: &[Text::new("Turn {place} back.")],
    step: Some(StepInfo { after: &["first"], until: &[], caution: None }),
    assess: |_, a| {
        a.step(Some(2), TextNumber::ONLY, &[]);
        a.step(Some(5), TextNumber::ONLY, &[]);
        Answered
    },
    ..FIRST
};

thou_sdk::pack!(Pack {
    id: "every-field",
    version: "1.0.0",
    title: "Every field of rules-1.0",
    about: "A pack to hold the host to the contract. It is no use to an engine.",
    facts: FACTS,
    meters: &["passes", "miles", "hours", "months", "events"],
    inputs: &[
        Input { id: "extra.every-field.pressure", kind: "pressure", about: "A pressure.", ..Input::STATED },
        Input {
            id: "extra.every-field.state",
            kind: "choice",
            about: "The state that the rule `state` answers with.",
            ..Input::STATED
        },
        Input { id: "extra.every-field.yes", kind: "flag", about: "A flag.", ..Input::STATED },
    ],
    uses: &[Use { id: "marine", title: "A boat", about: "Full load for an hour.", like: "all-out" }],
    defaults: &[Fallback { fact: "extra.every-field.pressure", value: "100 psi", source: "invented" }],
    rules: &[&WINDOWS, &GIVEN, &STATE, &SERVICES, &FIRST, &THEN],
});
