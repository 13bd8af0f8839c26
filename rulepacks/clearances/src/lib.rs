//! What a shop leaves between the parts: windows for every reading from the bore to the oil pump.

mod bearings;
mod bore_out_of_round;
mod bore_taper;
mod cam_bearing;
mod cam_end_play;
mod clearance_spread;
mod coil_bind;
mod common;
mod crank_straightness;
mod crush;
mod damper_fit;
mod deck_clearance_spread;
mod deck_finish;
mod deck_flatness;
mod end_play;
pub mod facts;
mod gasket_overhang;
mod gasket_wire;
mod journal_finish;
mod journal_roundness;
mod lash;
mod lifter_to_bore;
mod liner_protrusion;
mod main_alignment;
mod main_clearance;
mod main_housing_roundness;
mod main_housing_size;
mod moving_parts;
mod oil_pump;
mod oil_rail_gap;
mod pickup_to_pan;
mod pin_end_play;
mod pin_press;
mod pin_to_bush;
mod pin_to_piston;
mod piston_to_head;
mod piston_to_head_spread;
mod piston_to_valve;
mod piston_to_wall;
mod piston_to_wall_spread;
mod preload;
mod pushrod_to_head;
mod retainer_to_seal;
mod ring_axial_clearance;
mod ring_back_clearance;
mod rod_bolt_growth;
mod rod_bolt_stretch;
mod rod_clearance;
mod rod_housing_roundness;
mod rod_housing_size;
mod rod_side_clearance;
mod seat_contact_width;
mod seat_runout;
mod seat_vacuum;
mod second_gap;
mod shell_to_fillet;
mod spring_set;
mod stem_to_guide;
mod top_gap;
mod valve_clearance;
mod valve_margin;
mod valve_radial;
mod valve_to_valve;
mod wall_thickness;

/// In the order of the job: block, crank, rods and pistons, rings, heads, mock-up, assembly.
static RULES: &[&thou_sdk::Rule] = &[
    &wall_thickness::RULE,
    &piston_to_wall::RULE,
    &piston_to_wall_spread::RULE,
    &bore_out_of_round::RULE,
    &bore_taper::RULE,
    &gasket_overhang::RULE,
    &deck_clearance_spread::RULE,
    &deck_flatness::RULE,
    &deck_finish::RULE,
    &gasket_wire::RULE,
    &liner_protrusion::RULE,
    &main_housing_size::RULE,
    &main_housing_roundness::RULE,
    &main_alignment::RULE,
    &lifter_to_bore::RULE,
    &cam_bearing::RULE,
    &crank_straightness::RULE,
    &journal_roundness::RULE,
    &journal_finish::RULE,
    &crush::RULE,
    &main_clearance::RULE,
    &rod_clearance::RULE,
    &clearance_spread::RULE,
    &shell_to_fillet::RULE,
    &end_play::RULE,
    &damper_fit::RULE,
    &rod_housing_size::RULE,
    &rod_housing_roundness::RULE,
    &rod_bolt_growth::RULE,
    &rod_bolt_stretch::RULE,
    &rod_side_clearance::RULE,
    &pin_to_piston::RULE,
    &pin_to_bush::RULE,
    &pin_press::RULE,
    &pin_end_play::RULE,
    &top_gap::RULE,
    &second_gap::RULE,
    &oil_rail_gap::RULE,
    &ring_axial_clearance::RULE,
    &ring_back_clearance::RULE,
    &stem_to_guide::RULE,
    &seat_runout::RULE,
    &seat_contact_width::RULE,
    &valve_margin::RULE,
    &seat_vacuum::RULE,
    &spring_set::RULE,
    &coil_bind::RULE,
    &retainer_to_seal::RULE,
    &piston_to_head::RULE,
    &piston_to_head_spread::RULE,
    &moving_parts::RULE,
    &piston_to_valve::RULE,
    &valve_radial::RULE,
    &valve_to_valve::RULE,
    &pushrod_to_head::RULE,
    &cam_end_play::RULE,
    &lash::RULE,
    &valve_clearance::RULE,
    &preload::RULE,
    &oil_pump::RULE,
    &pickup_to_pan::RULE,
];

thou_sdk::pack!(thou_sdk::Pack {
    id: "clearances",
    title: "Clearances to build to",
    about: "What a shop leaves between the parts, by use: bores, pistons, rings, bearings, rods, heads and \
            valvetrain. A part's own card comes first wherever the sheet has it.",
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
