//! What readings and the shop's own parts say.

use crate::args::{Answer, Args};
use thou_contract::logged::USUAL_SHAPE;
use thou_life::learn::{Consequence, ShopLives, learn};
use thou_life::trend::theil_sen;

pub fn life(what: &str, a: &Args) -> Answer {
    match what {
        "theil-sen" => {
            let points: Vec<[f64; 2]> = a.list(0).into_iter().zip(a.list(1)).map(|(x, y)| [x, y]).collect();
            let trend = theil_sen(&points, a.n(2)).ok_or_else(|| "no line".to_owned())?;
            Ok(vec![trend.slope, trend.intercept, trend.low, trend.high])
        }
        "learned-range" => {
            let pack = a.list(0);
            let own = ShopLives { failed: a.list(1), sound: a.list(2) };
            // shape 3, and 20 % that may fail before nominal
            let learned = learn(USUAL_SHAPE, Consequence::Power, [pack[0], pack[1], pack[2]], &own);
            learned.map(|l| l.unheld.to_vec()).ok_or_else(|| "nothing learned".to_owned())
        }
        _ => panic!("no life.{what}"),
    }
}
