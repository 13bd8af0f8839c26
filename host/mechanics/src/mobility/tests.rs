use super::*;

fn places() -> impl Iterator<Item = (f64, f64)> {
    (0..40).flat_map(|ring| {
        let e = f64::from(ring) * 0.0255;
        (-18..=18).map(move |turn| {
            let (s, c) = (f64::from(turn) * 10.0).to_radians().sin_cos();
            (e * c, e * s)
        })
    })
}

fn maps(ratio: f64) -> [Box<dyn Mobility>; 3] {
    [Box::new(ShortFit { ratio }), Box::new(ShortExact { ratio }), Box::new(Finite::new(ratio))]
}

#[test]
fn a_film_always_gives_to_its_load_and_the_sides_are_alike() {
    for ratio in [0.125, 0.2, 0.375, 0.6, 1.0] {
        for map in maps(ratio) {
            for (x, y) in places() {
                let ((along, across), (mirror, other)) = (map.at(x, y), map.at(x, -y));
                assert!(along > 0.0, "{ratio} {x} {y}");
                assert!((along / mirror - 1.0).abs() < 1e-9 && (across + other).abs() < 1e-9 * along.max(across.abs()));
            }
        }
    }
}

#[test]
fn the_fit_of_the_short_bearing_is_within_9_per_cent_of_it() {
    let mut worst = 0.0_f64;
    for (x, y) in places().filter(|(x, y)| x.hypot(*y) < 0.96) {
        let (fit, exact) = (ShortFit { ratio: 0.5 }.at(x, y), ShortExact { ratio: 0.5 }.at(x, y));
        let size = exact.0.hypot(exact.1);
        worst = worst.max((fit.0 - exact.0).hypot(fit.1 - exact.1) / size);
    }
    assert!((0.08..0.09).contains(&worst), "{worst}");
}

#[test]
fn the_finite_map_goes_over_into_the_short_one_where_the_bearing_is_short() {
    for (x, y) in places().filter(|(x, y)| x.hypot(*y) < 0.8) {
        let (finite, short) = (Finite::new(0.125).at(x, y), ShortExact { ratio: 0.125 }.at(x, y));
        let size = short.0.hypot(short.1);
        assert!((finite.0 - short.0).hypot(finite.1 - short.1) < 0.07 * size, "{x} {y} {finite:?} {short:?}");
    }
}

#[test]
fn the_finite_film_gives_more_than_the_short_one_when_it_is_thin() {
    // along the line of the load, at an engine's length and eccentricity: what the short bearing's film is too thick by
    let over = |e: f64| Finite::new(0.375).at(e, 0.0).0 / ShortExact { ratio: 0.375 }.at(e, 0.0).0;
    assert!((1.6..2.0).contains(&over(0.9)), "{}", over(0.9));
    assert!((2.2..3.0).contains(&over(0.95)), "{}", over(0.95));
    assert!((1.0..1.2).contains(&over(0.0)), "{}", over(0.0));
}

#[test]
fn no_finite_number_makes_it_fail() {
    for map in maps(0.4) {
        for x in [-1e300, -1.0, 0.0, 0.999_999, 1.0, 1e300] {
            for y in [-1e300, -1.0, 0.0, 1.0, 1e300] {
                let _ = map.at(x, y);
            }
        }
    }
}
