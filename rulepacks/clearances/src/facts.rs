//! The facts that this pack asks for, in one table: the order is the contract's.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
    /// How many cylinders.
    CYLINDERS: count one "engine.cylinders";
    /// What it burns.
    FUEL: choice one "fuel" ["petrol-pump", "petrol-race", "e85", "ethanol", "methanol"];
    /// What adds to its own breathing.
    ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
    /// The fastest that it is meant to turn.
    TOP_SPEED: "angular-speed" one "top-speed";
    /// What the block is made of.
    BLOCK: choice one "block.material" ["grey-iron", "compacted-iron", "aluminium-sleeved", "aluminium-plated"];
    /// How far up the water jacket is filled.
    FILL: choice one "block.fill" ["none", "half", "full"];
    /// Sleeves in the block.
    SLEEVES: choice one "block.liners" ["none", "dry", "wet"];
    /// The bore as the block's drawing has it.
    BORE: length one "bore.nominal";
    /// The bore's chamfer at the deck, across.
    CHAMFER: length cylinder "bore.chamfer";
    /// The stroke.
    STROKE: length one "stroke";
    /// What the pistons are made of.
    PISTON_ALLOY: choice one "piston.alloy" ["cast", "hypereutectic", "4032", "2618"];
    /// What the skirts are coated with.
    COATING: choice one "piston.coating" ["none", "dry-film", "thick"];
    /// The piston card's least fit.
    CARD_FIT_LOW: clearance one "piston.card.fit-low";
    /// The piston card's greatest fit.
    CARD_FIT_HIGH: clearance one "piston.card.fit-high";
    /// How the pin sits in the rod.
    PIN_FIT: choice one "pin.fit" ["floating", "pressed"];
    /// What a floating pin turns in at the rod.
    SMALL_END: choice one "pin.small-end" ["bush", "bare", "needle"];
    /// The pin as its drawing has it.
    PIN: length one "pin.nominal";
    /// What keeps a floating pin in.
    PIN_LOCK: choice one "pin.lock" ["round-wire", "spiral", "snap-ring", "button", "pressed"];
    /// The top ring's axial height.
    RING_HEIGHT: length one "ring.top.height";
    /// What shape the second ring has.
    SECOND_STYLE: choice one "ring.second.style" ["plain", "taper", "hook", "napier", "gapless"];
    /// Gas ports behind the top ring.
    GAS_PORTS: choice one "piston.gas-ports" ["none", "vertical", "lateral"];
    /// From the crown down to the top ring.
    TOP_LAND: length one "piston.top-land-height";
    /// The gap at which the top ring's ends meet however cool the engine runs them.
    CLOSING_LEAST: gap one "ring.closing-gap.least";
    /// The gap at which the top ring's ends meet when hot.
    CLOSING_GAP: gap one "ring.closing-gap";
    /// The ring card's top gap over the bore.
    CARD_TOP_GAP: ratio one "ring.card.top-gap-factor";
    /// The ring card's second gap over the bore.
    CARD_SECOND_GAP: ratio one "ring.card.second-gap-factor";
    /// What the rods are made of.
    ROD: choice one "rod.material" ["steel", "titanium", "aluminium", "powdered"];
    /// How many rods share a crankpin.
    RODS_A_PIN: count one "rods-a-pin";
    /// What the piston rises at the over-rev beyond where it stands cold.
    TAKEN_UP: gap one "piston-to-head.taken-up";
    /// The main journal as the crank's drawing has it.
    MAIN_JOURNAL: length one "main-journal.nominal";
    /// The crankpin as the crank's drawing has it.
    ROD_JOURNAL: length one "rod-journal.nominal";
    /// The thinnest at 100 °C that the oil's grade may be.
    OIL: "kinematic-viscosity" one "oil.grade.thinnest";
    /// The loosest main.
    MAIN_MAX: clearance one "main-bearing.clearance.max";
    /// The loosest rod bearing.
    ROD_MAX: clearance one "rod-bearing.clearance.max";
    /// The loosest piston.
    WALL_MAX: clearance one "piston-to-wall.max";
    /// Oil clearance of each main.
    MAIN_CLEARANCE: clearance main "main-bearing.clearance";
    /// How the bearings are made.
    BEARING: choice one "bearing.kind" ["tri-metal", "bi-metal", "coated", "roller"];
    /// The bearing card's least main clearance.
    CARD_MAIN_LOW: clearance one "bearing.card.main-low";
    /// The bearing card's greatest main clearance.
    CARD_MAIN_HIGH: clearance one "bearing.card.main-high";
    /// The bearing card's least rod clearance.
    CARD_ROD_LOW: clearance one "bearing.card.rod-low";
    /// The bearing card's greatest rod clearance.
    CARD_ROD_HIGH: clearance one "bearing.card.rod-high";
    /// The block card's smallest main housing.
    MAIN_HOUSING_LOW: length one "main-housing.low";
    /// The block card's largest main housing.
    MAIN_HOUSING_HIGH: length one "main-housing.high";
    /// The rod card's smallest housing.
    ROD_HOUSING_LOW: length one "rod-housing.low";
    /// The rod card's largest housing.
    ROD_HOUSING_HIGH: length one "rod-housing.high";
    /// The rod-bolt card's least stretch.
    CARD_STRETCH_LOW: clearance one "rod-bolt.card.stretch-low";
    /// The rod-bolt card's greatest stretch.
    CARD_STRETCH_HIGH: clearance one "rod-bolt.card.stretch-high";
    /// What kind of damper the snout carries.
    DAMPER: choice one "damper.kind" ["elastomer", "fluid", "friction", "none"];
    /// What holds its hub on the snout.
    HUB: choice one "damper.hub" ["pressed", "clamped"];
    /// What kind of head gasket.
    GASKET: choice one "gasket.kind" ["composite", "mls", "copper"];
    /// Its thickness when it is clamped.
    GASKET_THICKNESS: length one "gasket.thickness";
    /// Whether a wire ring stands proud under it.
    GASKET_WIRE: flag one "gasket.wire";
    /// What the heads are made of.
    HEAD: choice one "head.material" ["iron", "aluminium"];
    /// What the guides are made of.
    GUIDE: choice one "guide.material" ["iron", "bronze"];
    /// The stem as the valve's drawing has it.
    STEM: length one "valve.stem-nominal";
    /// Head of an inlet valve.
    INLET_HEAD: length one "valve.inlet.diameter";
    /// Clearance of each stem in its guide.
    STEM_CLEARANCE: clearance valve "stem-to-guide";
    /// Whether a valve is an inlet valve.
    IS_INLET: flag valve "valve.is-inlet";
    /// What the inlet valves are made of.
    INLET: choice one "valve.inlet.material" ["steel", "titanium", "stainless"];
    /// What the exhaust valves are made of.
    EXHAUST: choice one "valve.exhaust.material" ["steel", "stainless", "nickel-alloy", "sodium", "titanium"];
    /// How the cam works the valves.
    VALVETRAIN: choice one "valvetrain.kind" ["pushrod", "bucket", "finger"];
    /// What runs on the cam.
    LIFTER: choice one "lifter.type" ["flat-hydraulic", "flat-solid", "roller-hydraulic", "roller-solid", "none"];
    /// How far the plunger of a hydraulic lifter can be pushed in.
    TRAVEL: gap one "lifter.travel";
    /// What the cam runs in.
    CAM_IN: choice one "cam.bearing.kind" ["plain", "needle"];
    /// What keeps the cam from walking.
    RETENTION: choice one "cam.retention" ["plate", "button"];
    /// The engine's card's cold clearance, inlet.
    CARD_COLD_INLET: clearance one "lash.card.cold.inlet";
    /// The engine's card's cold clearance, exhaust.
    CARD_COLD_EXHAUST: clearance one "lash.card.cold.exhaust";
    /// What the lash gains from cold to hot.
    LASH_GROWTH: clearance one "lash.growth";
    /// The cam card's hot lash, inlet.
    CARD_LASH_INLET: clearance one "lash.card.inlet";
    /// The cam card's hot lash, exhaust.
    CARD_LASH_EXHAUST: clearance one "lash.card.exhaust";
    /// How the springs are built.
    SPRING_STYLE: choice one "spring.style" ["single", "dual", "triple", "beehive", "conical", "pneumatic"];
    /// The spring card's margin before the coils touch.
    CARD_BIND: clearance one "spring.card.bind-margin";
    /// The spring card's greatest lift.
    CARD_LIFT: length one "spring.card.lift-limit";
    /// The spring card's load on the seat.
    CARD_SEAT_LOAD: force one "spring.card.seat-load";
    /// The spring card's installed height.
    CARD_HEIGHT: length one "spring.card.installed-height";
    /// Wet or dry sump.
    SUMP: choice one "sump" ["wet", "dry"];
    /// Bore of the pickup's tube.
    PICKUP_BORE: length one "pan.pickup.bore";
    /// The guide at its widest.
    GUIDE_WIDEST: length valve "guide-bore.widest";
    /// The stem at its thinnest.
    STEM_THINNEST: length valve "stem.thinnest";
    /// Least side clearance by the rods' card.
    CARD_SIDE_LOW: gap one "rod.card.side-clearance-low";
    /// Greatest side clearance by the rods' card.
    CARD_SIDE_HIGH: gap one "rod.card.side-clearance-high";
    /// How the rod bolts are tightened.
    ROD_BOLT_METHOD: choice one "rod-bolt.method" ["torque", "angle", "stretch", "yield"];
}
