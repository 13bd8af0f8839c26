//! Does this combination suit the use that was asked for? If not, which use it suits, and what one change would bring
//! it in.
//!
//! The limits are common practice unless a rule names better; the part maker's card and the builder's own numbers come
//! before all of them.

mod common;
pub mod facts;

// In the order of the job.
thou_sdk::rules![
    compression_for_fuel,
    effective_compression,
    cranking_pressure,
    octane_asked,
    octane_margin,
    boosted_compression,
    nitrous_pistons,
    nitrous_top_land,
    nitrous_timing,
    nitrous_interlocks,
    fuel_supply,
    injector_margin,
    main_jets,
    alcohol_materials,
    mean_piston_speed,
    rod_bolt_load,
    rod_bolt_separation,
    rod_bolt_fatigue,
    rod_rating,
    rod_kind,
    powdered_rods,
    crank_material,
    crank_and_adder,
    block_and_caps,
    filled_block,
    half_fill_passes,
    head_clamp,
    head_clamp_scatter,
    gasket_kind,
    bearing_kind,
    piston_kind,
    ring_pack,
    street_ring_height,
    gas_ports,
    oil_ring_tension,
    finish_peaks,
    finish_valleys,
    crosshatch,
    crosshatch_setting,
    hone_overstroke,
    cam_and_use,
    idle_vacuum,
    flat_tappet_load,
    hydraulic_lifter_speed,
    street_roller_load,
    street_roller_oiling,
    spring_for_class,
    valve_float,
    spring_surge,
    spring_stress,
    lift_for_seat,
    street_seat_angle,
    seat_angle_area,
    valve_and_seat,
    rocker_and_stud,
    pushrod_stiffness,
    inlet_mach,
    valve_area,
    rod_bearing_load,
    main_bearing_load,
    film_over_roughness,
    oil_data_sheet,
    oil_grade,
    oil_temperature,
    oil_pressure,
    pan_volume,
    pickup,
    crankcase_vacuum,
    damper,
    damper_age,
    damper_certificate,
    bobweight,
    residual_balance,
    balance_grade,
    balance_force,
    single_balance_factor,
    secondary_shake,
    external_balance,
    limiter,
    shift_and_limiter,
    wanted_interval,
    dyno_standard,
    dyno_correction,
    dyno_scatter,
    dyno_gain,
    best_fit,
];

thou_sdk::pack!(thou_sdk::Pack {
    id: "usage-class",
    title: "Whether the combination suits the use",
    about: "Street, bracket, all-out: holds each choice against the use that was asked for, says which use it suits \
            instead and the one change that would bring it in, and ends with which use the whole would really suit.",
    facts: facts::FACTS,
    rules: RULES,
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests {
    #[test]
    fn every_case_holds() {
        thou_sdk::cases::check(super::PACK, env!("CARGO_MANIFEST_DIR"));
    }
}
