//! How long the parts of an engine last: low, nominal and high, by use, scaled to how hard this one works.
//!
//! Every number is common practice, and low confidence, until a shop has logged its own. Where practice states one
//! figure, a quarter to either side of it makes it three. The law is in `severity`, the classes in `class`.

#[macro_use]
mod term;
mod class;
pub mod facts;
#[macro_use]
mod lives;
mod severity;

mod aluminium_rods;
mod bores;
mod cam_lobes;
mod certified_parts;
mod crank;
mod cranking_pressure;
mod damper;
mod exhaust_valves;
mod fuel_system;
mod guides;
mod head_gasket;
mod ignition_leads;
mod lash;
mod leak_down;
mod lifter_look;
mod lifters;
mod main_bearings;
mod nitrous_bottle;
mod nitrous_solenoids;
mod oil;
mod oil_analysis;
mod oil_filter;
mod over_rev_ladder;
mod pistons;
mod pushrods;
mod retainers;
mod rings;
mod rockers;
mod rod_bearings;
mod rod_bolts;
mod spark_plugs;
mod spring_load;
mod springs;
mod steel_rods;
mod timing_drive;
mod titanium_valves;
mod vacuum_pump;
mod valve_job;
mod water_pump;

thou_sdk::pack!(thou_sdk::Pack {
    id: "freshen",
    title: "Freshening by use",
    about: "When to look at, measure and replace what wears: street engines by miles and months, bracket and all-out \
            engines by passes, all-out in two classes. Each life is low (a careful shop has it apart by then), nominal \
            (plan for it) and high (not past it unmeasured), scaled by the stress or load of this engine against a \
            reference engine and held between 0.2 and 1.5 times. Planning figures: measurements and makers come first.",
    facts: facts::FACTS,
    meters: lives::METERS,
    inputs: &[thou_sdk::Input {
        id: "extra.freshen.spring-stress",
        kind: "ratio",
        about: "Open shear stress of these valve springs over that of a set whose life you know, by wire and coil \
                diameter with Wahl's factor.",
    }],
    rules: &[
        &spark_plugs::RULE,
        &lash::RULE,
        &spring_load::RULE,
        &springs::RULE,
        &retainers::RULE,
        &oil::RULE,
        &oil_filter::RULE,
        &oil_analysis::RULE,
        &leak_down::RULE,
        &cranking_pressure::RULE,
        &lifter_look::RULE,
        &lifters::RULE,
        &rockers::RULE,
        &pushrods::RULE,
        &timing_drive::RULE,
        &cam_lobes::RULE,
        &valve_job::RULE,
        &exhaust_valves::RULE,
        &titanium_valves::RULE,
        &guides::RULE,
        &rings::RULE,
        &bores::RULE,
        &rod_bearings::RULE,
        &main_bearings::RULE,
        &rod_bolts::RULE,
        &steel_rods::RULE,
        &aluminium_rods::RULE,
        &pistons::RULE,
        &crank::RULE,
        &head_gasket::RULE,
        &damper::RULE,
        &certified_parts::RULE,
        &fuel_system::RULE,
        &nitrous_solenoids::RULE,
        &nitrous_bottle::RULE,
        &vacuum_pump::RULE,
        &water_pump::RULE,
        &ignition_leads::RULE,
        &over_rev_ladder::RULE,
    ],
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests;
