//! How long the parts of an engine last: low, nominal and high, by use, scaled to how hard this one works.
//!
//! Every number is common practice, and low confidence, until a shop has logged its own. Where practice states one
//! figure, a quarter to either side of it makes it three. The law is in `severity`, the classes in `class`.

#[macro_use]
mod term;
mod args;
mod class;
pub mod facts;
#[macro_use]
mod lives;
mod severity;

// In the order of the job.
thou_sdk::rules![
    spark_plugs,
    lash,
    spring_load,
    springs,
    retainers,
    oil,
    oil_filter,
    oil_analysis,
    leak_down,
    cranking_pressure,
    lifter_look,
    lifters,
    rockers,
    pushrods,
    timing_drive,
    cam_lobes,
    valve_job,
    exhaust_valves,
    titanium_valves,
    guides,
    rings,
    bores,
    rod_bearings,
    main_bearings,
    rod_bolts,
    steel_rods,
    aluminium_rods,
    pistons,
    crank,
    head_gasket,
    damper,
    certified_parts,
    fuel_system,
    nitrous_solenoids,
    nitrous_bottle,
    vacuum_pump,
    water_pump,
    ignition_leads,
    over_rev_ladder,
];

thou_sdk::pack!(thou_sdk::Pack {
    id: "freshen",
    title: "Freshening by use",
    about: "When to look at, measure and replace what wears: street engines by miles and months, bracket and all-out \
            engines by passes, all-out in two classes, road-course, endurance and motocross engines by hours. Each life is low (a careful shop has it apart by then), nominal \
            (plan for it) and high (not past it unmeasured), scaled by the stress or load of this engine against a \
            reference engine and held between 0.2 and 1.5 times. Planning figures: measurements and makers come first.",
    facts: facts::FACTS,
    meters: lives::METERS,
    inputs: &[thou_sdk::Input {
        id: "extra.freshen.spring-stress",
        kind: "ratio",
        about: "Open shear stress of these valve springs over that of a set whose life you know, by wire and coil \
                diameter with Wahl's factor.",
        band: Some(["0.2", "5"]),
        ..thou_sdk::Input::STATED
    }],
    uses: &[
        thou_sdk::Use {
            id: "circuit",
            title: "Road course",
            about: "Sprint races on a road course, counted by the hour.",
            like: "all-out",
        },
        thou_sdk::Use {
            id: "endurance",
            title: "Endurance",
            about: "Races of half a day and more, counted by the hour.",
            like: "all-out",
        },
        thou_sdk::Use {
            id: "circle-track",
            title: "Circle track",
            about: "Ovals; practice has no hours of its parts.",
            like: "all-out",
        },
        thou_sdk::Use {
            id: "motocross",
            title: "Motocross",
            about: "Singles off the road, counted by the hour.",
            like: "all-out",
        },
        thou_sdk::Use {
            id: "boat",
            title: "Boat",
            about: "Boats; practice has no hours of their parts.",
            like: "street",
        },
    ],
    rules: RULES,
    ..thou_sdk::Pack::EMPTY
});

#[cfg(test)]
mod tests;
