//! Valve springs as the bench sees them.

/// What is left before the coils touch at full lift, m: installed height less lift less bind height.
#[must_use]
pub fn bind_margin(installed: f64, lift: f64, bind: f64) -> f64 {
    installed - lift - bind
}

/// Load at full lift, N: load on the seat in N, rate in N/m, lift in m; a straight rate (Shigley, ch. 10).
#[must_use]
pub fn open_load(seat: f64, rate: f64, lift: f64) -> f64 {
    seat + rate * lift
}

/// Net lift at the valve, m: lobe lift times ratio less lash.
#[must_use]
pub fn net_lift(lobe: f64, ratio: f64, lash: f64) -> f64 {
    lobe * ratio - lash
}
