//! Chance, and what measurements say.

use crate::args::{Answer, Args, one};

pub fn uncertainty(what: &str, a: &Args) -> Answer {
    use thou_mechanics::uncertainty;
    match what {
        "normal-cdf" => one(uncertainty::normal_cdf(a.n(0))),
        "conformance-probability" => one(uncertainty::conformance_probability(a.n(0), a.n(1), a.n(2), a.n(3))),
        "combine" => one(uncertainty::combine(&a.list(0))),
        "guard-band" => one(uncertainty::guard_band(a.n(0))),
        _ => panic!("no uncertainty.{what}"),
    }
}
