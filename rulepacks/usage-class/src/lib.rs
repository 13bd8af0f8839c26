//! Does this combination suit the use that was asked for? If not, which use it suits, and what one change would bring
//! it in.
//!
//! The limits are common practice unless a rule names better; the part maker's card and the builder's own numbers come
//! before all of them.

mod common;
pub mod facts;

mod alcohol_materials;
mod balance_force;
mod balance_grade;
mod bearing_kind;
mod best_fit;
mod block_and_caps;
mod bobweight;
mod boosted_compression;
mod cam_and_use;
mod compression_for_fuel;
mod crank_and_adder;
mod crank_material;
mod crankcase_vacuum;
mod cranking_pressure;
mod crosshatch;
mod crosshatch_setting;
mod damper;
mod damper_age;
mod damper_certificate;
mod dyno_correction;
mod dyno_gain;
mod dyno_scatter;
mod dyno_standard;
mod effective_compression;
mod external_balance;
mod filled_block;
mod film_over_roughness;
mod finish_peaks;
mod finish_valleys;
mod flat_tappet_load;
mod fuel_supply;
mod gas_ports;
mod gasket_kind;
mod half_fill_passes;
mod head_clamp;
mod head_clamp_scatter;
mod hone_overstroke;
mod hydraulic_lifter_speed;
mod idle_vacuum;
mod injector_margin;
mod inlet_mach;
mod lift_for_seat;
mod limiter;
mod main_bearing_load;
mod main_jets;
mod mean_piston_speed;
mod nitrous_interlocks;
mod nitrous_pistons;
mod nitrous_timing;
mod nitrous_top_land;
mod octane_asked;
mod octane_margin;
mod oil_data_sheet;
mod oil_grade;
mod oil_pressure;
mod oil_ring_tension;
mod oil_temperature;
mod pan_volume;
mod pickup;
mod piston_kind;
mod powdered_rods;
mod pushrod_stiffness;
mod residual_balance;
mod ring_pack;
mod rocker_and_stud;
mod rod_bearing_load;
mod rod_bolt_fatigue;
mod rod_bolt_load;
mod rod_bolt_separation;
mod rod_kind;
mod rod_rating;
mod seat_angle_area;
mod secondary_shake;
mod shift_and_limiter;
mod single_balance_factor;
mod spring_for_class;
mod spring_stress;
mod spring_surge;
mod street_ring_height;
mod street_roller_load;
mod street_roller_oiling;
mod street_seat_angle;
mod valve_and_seat;
mod valve_area;
mod valve_float;
mod wanted_interval;

thou_sdk::pack!(thou_sdk::Pack {
    id: "usage-class",
    title: "Whether the combination suits the use",
    about: "Street, bracket, all-out: holds each choice against the use that was asked for, says which use it suits \
            instead and the one change that would bring it in, and ends with which use the whole would really suit.",
    facts: facts::FACTS,
    rules: &[
        &compression_for_fuel::RULE,
        &effective_compression::RULE,
        &cranking_pressure::RULE,
        &octane_asked::RULE,
        &octane_margin::RULE,
        &boosted_compression::RULE,
        &nitrous_pistons::RULE,
        &nitrous_top_land::RULE,
        &nitrous_timing::RULE,
        &nitrous_interlocks::RULE,
        &fuel_supply::RULE,
        &injector_margin::RULE,
        &main_jets::RULE,
        &alcohol_materials::RULE,
        &mean_piston_speed::RULE,
        &rod_bolt_load::RULE,
        &rod_bolt_separation::RULE,
        &rod_bolt_fatigue::RULE,
        &rod_rating::RULE,
        &rod_kind::RULE,
        &powdered_rods::RULE,
        &crank_material::RULE,
        &crank_and_adder::RULE,
        &block_and_caps::RULE,
        &filled_block::RULE,
        &half_fill_passes::RULE,
        &head_clamp::RULE,
        &head_clamp_scatter::RULE,
        &gasket_kind::RULE,
        &bearing_kind::RULE,
        &piston_kind::RULE,
        &ring_pack::RULE,
        &street_ring_height::RULE,
        &gas_ports::RULE,
        &oil_ring_tension::RULE,
        &finish_peaks::RULE,
        &finish_valleys::RULE,
        &crosshatch::RULE,
        &crosshatch_setting::RULE,
        &hone_overstroke::RULE,
        &cam_and_use::RULE,
        &idle_vacuum::RULE,
        &flat_tappet_load::RULE,
        &hydraulic_lifter_speed::RULE,
        &street_roller_load::RULE,
        &street_roller_oiling::RULE,
        &spring_for_class::RULE,
        &valve_float::RULE,
        &spring_surge::RULE,
        &spring_stress::RULE,
        &lift_for_seat::RULE,
        &street_seat_angle::RULE,
        &seat_angle_area::RULE,
        &valve_and_seat::RULE,
        &rocker_and_stud::RULE,
        &pushrod_stiffness::RULE,
        &inlet_mach::RULE,
        &valve_area::RULE,
        &rod_bearing_load::RULE,
        &main_bearing_load::RULE,
        &film_over_roughness::RULE,
        &oil_data_sheet::RULE,
        &oil_grade::RULE,
        &oil_temperature::RULE,
        &oil_pressure::RULE,
        &pan_volume::RULE,
        &pickup::RULE,
        &crankcase_vacuum::RULE,
        &damper::RULE,
        &damper_age::RULE,
        &damper_certificate::RULE,
        &bobweight::RULE,
        &residual_balance::RULE,
        &balance_grade::RULE,
        &balance_force::RULE,
        &single_balance_factor::RULE,
        &secondary_shake::RULE,
        &external_balance::RULE,
        &limiter::RULE,
        &shift_and_limiter::RULE,
        &wanted_interval::RULE,
        &dyno_standard::RULE,
        &dyno_correction::RULE,
        &dyno_scatter::RULE,
        &dyno_gain::RULE,
        &best_fit::RULE,
    ],
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests {
    #[test]
    fn every_case_holds() {
        thou_sdk::cases::check(super::PACK, env!("CARGO_MANIFEST_DIR"));
    }
}
