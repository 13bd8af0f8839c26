//! Parts that move, stretch and grow.

use crate::args::{Answer, Args, one, tried};
use thou_mechanics::geometry::{self, ClearanceVolume};
use thou_mechanics::kinematics;

pub fn geometry(what: &str, a: &Args) -> Answer {
    match what {
        "swept-volume" => one(geometry::swept_volume(a.n(0), a.n(1))),
        "crevice-volume" => one(geometry::crevice_volume(a.n(0), a.n(1), a.n(2))),
        "compression" => {
            let clearance = ClearanceVolume {
                chamber: a.n(1),
                gasket: a.n(2),
                deck: a.n(3),
                dish: a.n(4),
                dome: a.n(5),
                crevice: a.n(6),
            };
            one(geometry::compression(a.n(0), clearance.sum()))
        }
        "stroke-left" => tried(geometry::stroke_left(a.slider(), a.n(3))),
        "effective-compression" => tried(geometry::effective_compression(a.slider(), a.n(3), a.n(4))),
        _ => panic!("no geometry.{what}"),
    }
}

pub fn kinematics(what: &str, a: &Args) -> Answer {
    match what {
        "below-top" => one(a.slider().below_top(a.n(3))),
        "speed" => one(a.slider().speed(a.n(3), a.n(4))),
        "acceleration" => one(a.slider().acceleration(a.n(3), a.n(4))),
        "speed-two-term" => one(a.slider().speed_two_term(a.n(3), a.n(4))),
        "acceleration-two-term" => one(a.slider().acceleration_two_term(a.n(3), a.n(4))),
        "dead-centres" => Ok(vec![a.slider().top_dead_centre(), a.slider().bottom_dead_centre(), a.slider().stroke()]),
        "rod-slant" => one(a.slider().rod_slant()),
        "fastest" => tried(a.slider().fastest()),
        "greatest-speed" => tried(a.slider().greatest_speed(a.n(3))),
        "mean-speed" => one(kinematics::mean_speed(a.n(0), a.n(1))),
        _ => panic!("no kinematics.{what}"),
    }
}

pub fn inertia(what: &str, a: &Args) -> Answer {
    use thou_mechanics::inertia::{Beam, stretch_with_own_mass};
    match what {
        "stretch-with-own-mass" => {
            let beam = Beam { length: a.n(0), area: a.n(1), modulus: a.n(2), density: a.n(3) };
            one(stretch_with_own_mass(beam, a.n(4), a.n(5)))
        }
        _ => panic!("no inertia.{what}"),
    }
}

pub fn expansion(what: &str, a: &Args) -> Answer {
    use thou_mechanics::{expansion, rings};
    match what {
        "growth" => one(expansion::growth(a.n(0), a.n(1), a.n(2))),
        "closing" => one(expansion::closing(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        "closing-gap" => one(rings::closing_gap(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        _ => panic!("no expansion.{what}"),
    }
}

pub fn performance(what: &str, a: &Args) -> Answer {
    use thou_mechanics::performance;
    match what {
        "bmep" => one(performance::bmep(performance::torque(a.n(0), a.n(1)), a.n(2))),
        "speed-of-sound" => one(performance::speed_of_sound(a.n(0))),
        "mach-index" => one(performance::mach_index(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4), a.n(5))),
        "torque-between" => one(performance::torque_between(a.n(0), [a.n(1), a.n(2)], [a.n(3), a.n(4)])),
        _ => panic!("no performance.{what}"),
    }
}

pub fn fuel(what: &str, a: &Args) -> Answer {
    use thou_mechanics::fuel;
    match what {
        "need" => one(fuel::need(a.n(0), a.n(1))),
        _ => panic!("no fuel.{what}"),
    }
}
