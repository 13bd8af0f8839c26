//! What a shop leaves between the parts: windows for every reading from the bore to the oil pump.

mod bearings;
mod common;
pub mod facts;

// In the order of the job: block, crank, rods and pistons, rings, heads, mock-up, assembly.
thou_sdk::rules![
    wall_thickness,
    piston_to_wall,
    piston_to_wall_spread,
    bore_out_of_round,
    bore_taper,
    bore_chamfer,
    gasket_overhang,
    deck_clearance_spread,
    deck_flatness,
    deck_finish,
    squareness,
    gasket_wire,
    liner_protrusion,
    main_housing_size,
    main_housing_roundness,
    main_alignment,
    cap_register,
    lifter_to_bore,
    cam_bearing,
    crank_straightness,
    throw_index,
    flange_runout,
    journal_roundness,
    journal_finish,
    crush,
    main_clearance,
    rod_clearance,
    clearance_spread,
    shell_to_fillet,
    end_play,
    damper_fit,
    rod_housing_size,
    rod_housing_roundness,
    rod_straightness,
    rod_bolt_growth,
    rod_bolt_stretch,
    rod_side_clearance,
    pin_to_piston,
    pin_to_bush,
    pin_press,
    pin_end_play,
    skirt_collapse,
    crown_thickness,
    ring_card,
    top_gap,
    second_gap,
    oil_rail_gap,
    ring_axial_clearance,
    ring_back_clearance,
    stem_to_guide,
    seat_runout,
    seat_recession,
    seat_contact_width,
    valve_margin,
    valve_straightness,
    seat_vacuum,
    spring_set,
    coil_bind,
    retainer_to_seal,
    piston_to_head,
    piston_to_head_spread,
    moving_parts,
    piston_to_valve,
    valve_radial,
    valve_to_valve,
    pushrod_to_head,
    cam_straightness,
    cam_end_play,
    lash,
    valve_clearance,
    preload,
    oil_pump,
    pickup_to_pan,
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
