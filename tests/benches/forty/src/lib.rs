//! A rule pack of forty windows from one table, so that peers can be given the very same rules.

mod table;

pub use table::{Row, Scale, TABLE};

use thou_sdk::prelude::*;

mod facts {
    thou_sdk::facts! {
        /// What the engine is for.
        USE: choice one "use" ["street", "bracket", "all-out"];
        /// What adds to its own breathing.
        ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
        /// The bore as the block's drawing has it.
        BORE: length one "bore.nominal";
        /// The main journal as the crank's drawing has it.
        MAIN: length one "main-journal.nominal";
        /// The crankpin as the crank's drawing has it.
        ROD: length one "rod-journal.nominal";
    }
}
use facts::{ADDER, BORE, MAIN, ROD, USE};

/// The window of row `I`: `(figure + added) * unit` on each side, in this order everywhere.
fn assess<const I: usize>(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(row) = TABLE.get(I) else { return Clear };
    let (low, high) = match f.choice(USE) {
        Some("street") => row.street,
        Some("bracket") => row.bracket,
        _ => row.all_out,
    };
    let adds = if f.is(ADDER, &["nitrous", "turbo", "blower"]) { 1.0 } else { 0.0 };
    let unit = match row.scale {
        Scale::Fixed => 25.4e-6,
        Scale::Bore => f.of(BORE) * 1e-3,
        Scale::Main => f.of(MAIN) * 1e-3,
        Scale::Rod => f.of(ROD) * 1e-3,
    };
    a.window(Window::between((low + adds * row.added.0) * unit, (high + adds * row.added.1) * unit));
    Answered
}

const WORDS: &[Text] = &[Text::new("from the table")];

const fn rule<const I: usize>() -> Rule {
    Rule {
        id: TABLE[I].id,
        title: "A window of the table",
        operation: "assembly",
        why: "It is timed.",
        source: "invented",
        judges: TABLE[I].judges,
        needs: match TABLE[I].scale {
            Scale::Fixed => &[USE],
            Scale::Bore => &[USE, BORE],
            Scale::Main => &[USE, MAIN],
            Scale::Rod => &[USE, ROD],
        },
        takes: &[ADDER],
        texts: WORDS,
        assess: assess::<I>,
        ..Rule::WINDOW
    }
}

macro_rules! rules {
    ($($i:literal)*) => { &[$({ const RULE: Rule = rule::<$i>(); &RULE }),*] };
}

thou_sdk::pack!(Pack {
    id: "forty",
    title: "Forty windows from a table",
    about: "For the benchmark alone: the figures are invented.",
    facts: facts::FACTS,
    rules: rules!(0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20 21 22 23 24 25 26 27 28 29 30 31 32 33 34 35
                  36 37 38 39),
    ..Pack::EMPTY
});
