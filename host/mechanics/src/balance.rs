//! Balance of a crank: what hangs on its pins in the balancer, and what a mass in the wrong place pulls.

/// Mass on one throw, kg: every rod's rotating mass and `factor` of every rod's reciprocating mass, kg each;
/// `rods` on the pin. Half of the reciprocating mass of a 90 degree pair turns with the crank exactly (Bevan, Theory of
/// Machines, ch. 14); 0.51 to 0.52 is used by some and debated.
#[must_use]
pub fn bobweight(rods: f64, rotating: f64, reciprocating: f64, factor: f64) -> f64 {
    rods * (rotating + factor * reciprocating)
}

/// Pull of a mass that turns out of balance, N: m r w², kg, m, rad/s.
#[must_use]
pub fn unbalance_force(mass: f64, radius: f64, omega: f64) -> f64 {
    mass * radius * omega * omega
}
