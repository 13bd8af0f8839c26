//! The facts that this pack asks for, in one table: the order is the contract's.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
    /// How the cylinders stand.
    LAYOUT: choice one "engine.layout" ["single", "inline", "v", "flat"];
    /// How many cylinders; the trade quotes power for a V8.
    CYLINDERS: count one "engine.cylinders";
    /// The highest speed it is meant to see.
    TOP_SPEED: "angular-speed" one "top-speed";
    /// A twentieth past the highest speed.
    OVER_REV: "angular-speed" one "over-rev";
    /// Where it is shifted.
    SHIFT_SPEED: "angular-speed" one "shift-speed";
    /// The power it is built for, with what adds to it.
    TARGET_POWER: power one "target.power";
    /// What it burns.
    FUEL: choice one "fuel" ["petrol-pump", "petrol-race", "e85", "ethanol", "methanol"];
    /// The fuel's octane number, (R+M)/2.
    OCTANE: octane one "fuel.octane";
    /// What the seals, hoses and diaphragms of the fuel system stand.
    FUEL_SEALS: choice one "fuel.seals" ["petrol", "alcohol-proof"];
    /// What adds to its own breathing.
    ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
    /// What the nitrous is jetted for.
    ADDER_POWER: power one "adder.power";
    /// The pressure above the atmosphere's.
    BOOST: pressure one "boost";
    /// Whether the charge is cooled.
    ADDER_COOLED: flag one "adder.cooled";
    /// Timing taken out on nitrous.
    TIMING_PULLED: angle one "nitrous.timing-pulled";
    /// A switch that arms it at full throttle alone.
    FULL_THROTTLE_SWITCH: flag one "nitrous.full-throttle-switch";
    /// A lowest and a highest speed for it.
    SPEED_WINDOW: flag one "nitrous.speed-window";
    /// A switch that stops it when fuel pressure falls.
    FUEL_PRESSURE_SWITCH: flag one "nitrous.fuel-pressure-switch";
    /// The bottle's relief disc blows outside.
    RELIEF_VENTED: flag one "nitrous.relief-vented";
    /// Whether a sanctioning body looks at it.
    SANCTIONED: flag one "sanctioned";
    /// What the block is made of.
    BLOCK_MATERIAL: choice one "block.material" ["grey-iron", "compacted-iron", "aluminium-sleeved", "aluminium-plated"];
    /// How far the water jacket is filled.
    BLOCK_FILL: choice one "block.fill" ["none", "half", "full"];
    /// What holds the crank up.
    BLOCK_CAPS: choice one "block.caps" ["two-bolt", "four-bolt", "splayed", "billet"];
    /// Where the block comes from.
    BLOCK_ORIGIN: choice one "block.origin" ["production", "aftermarket", "billet"];
    /// What the crank is made of.
    CRANK_MATERIAL: choice one "crank.material" ["cast", "nodular", "forged", "billet"];
    /// The rod journal's size.
    ROD_JOURNAL: length one "rod-journal.nominal";
    /// What the rods are made of.
    ROD_MATERIAL: choice one "rod.material" ["steel", "titanium", "aluminium", "powdered"];
    /// The rod maker's power rating.
    ROD_RATING: power one "rod.rating";
    /// The clamp of one rod bolt.
    ROD_BOLT_CLAMP: force one "rod-bolt.clamp";
    /// The bolts' clamp over the load at the over-rev.
    CLAMP_MARGIN: ratio one "rod-bolt.clamp-margin";
    /// What the pistons are made of.
    PISTON_ALLOY: choice one "piston.alloy" ["cast", "hypereutectic", "4032", "2618"];
    /// Holes that let gas behind the top ring.
    GAS_PORTS: choice one "piston.gas-ports" ["none", "vertical", "lateral"];
    /// How the pin is held.
    PIN_FIT: choice one "pin.fit" ["floating", "pressed"];
    /// How oil gets to the pin.
    PIN_OILING: choice one "pin.oiling" ["none", "splash", "fed"];
    /// The top ring's height.
    TOP_RING: length one "ring.top.height";
    /// What seals the head.
    GASKET: choice one "gasket.kind" ["composite", "mls", "copper"];
    /// What the heads are made of.
    HEAD: choice one "head.material" ["iron", "aluminium"];
    /// What the seats are made of.
    SEAT: choice one "seat.material" ["iron", "hardened", "powdered", "copper-alloy", "beryllium-copper"];
    /// The seat's angle.
    SEAT_ANGLE: angle one "seat.angle";
    /// What the inlet valves are made of.
    INLET_VALVE: choice one "valve.inlet.material" ["steel", "titanium", "stainless"];
    /// What the exhaust valves are made of.
    EXHAUST_VALVE: choice one "valve.exhaust.material" ["steel", "stainless", "nickel-alloy", "sodium", "titanium"];
    /// What opens the valves.
    VALVETRAIN: choice one "valvetrain.kind" ["pushrod", "bucket", "finger"];
    /// What runs on the cam.
    LIFTER: choice one "lifter.type" ["flat-hydraulic", "flat-solid", "roller-hydraulic", "roller-solid", "none"];
    /// How oil gets to the lifters' wheels.
    LIFTER_OILING: choice one "lifter.oiling" ["splash", "pressure-fed", "bushed"];
    /// What the rockers stand on.
    ROCKER: choice one "rocker.type" ["pressed-stud", "stud", "shaft", "none"];
    /// The pushrod's outside size.
    PUSHROD: length one "pushrod.diameter";
    /// What the shells are made of.
    BEARING: choice one "bearing.kind" ["tri-metal", "bi-metal", "coated", "roller"];
    /// The oil's grade.
    OIL: choice one "oil.grade" [
        "0W-20", "0W-30", "5W-20", "5W-30", "5W-40", "5W-50", "10W-30", "10W-40", "15W-40", "15W-50", "20W-50",
        "30", "40", "50", "60", "70",
    ];
    /// What the oil is made of.
    OIL_BASE: choice one "oil.base" ["mineral", "semi-synthetic", "synthetic"];
    /// Thinnest that the grade may be at 100 °C.
    GRADE_THINNEST: "kinematic-viscosity" one "oil.grade.thinnest";
    /// At 100 °C the grade is thinner than this.
    GRADE_BELOW: "kinematic-viscosity" one "oil.grade.below";
    /// Where the oil is kept.
    SUMP: choice one "sump" ["wet", "dry"];
    /// What is pulled in the crankcase.
    VACUUM: pressure one "crankcase.vacuum";
    /// The pickup in the pan.
    PICKUP: choice one "pan.pickup" ["fixed", "rear", "swinging"];
    /// What damps the crank.
    DAMPER: choice one "damper.kind" ["elastomer", "fluid", "friction", "none"];
    /// Whether weight hangs outside the crank.
    BALANCE: choice one "balance.kind" ["internal", "external"];
    /// The balance quality grade asked of the crank.
    GRADE: ratio one "balance.grade";
    /// Shafts that turn against the shake.
    BALANCE_SHAFTS: choice one "balance.shafts" ["none", "one", "two"];
    /// Secondary forces that add up, in those of one cylinder.
    SECONDARY_SHARE: ratio one "shake.secondary.share";
    /// One cylinder's swept volume.
    SWEPT: volume one "swept-volume";
    /// Octane of the fuel as this engine feels it.
    OCTANE_GIVEN: octane one "octane.given";
    /// The highest compression of the cylinders.
    COMPRESSION: ratio one "compression.max";
    /// Mean piston speed where it is shifted.
    PISTON_SPEED: speed one "piston.speed.mean.at-shift";
    /// The inlet's duration at 0.050 in of lift.
    DURATION: angle one "cam.duration-fifty.inlet";
    /// Passes wanted between freshens.
    WANTED: passes one "freshen.wanted";
    /// The heaviest spring on its seat.
    SEAT_LOAD: force one "spring.seat-load.max";
    /// How the springs are built.
    SPRING_STYLE: choice one "spring.style" ["single", "dual", "triple", "beehive", "conical", "pneumatic"];
    /// The greatest stress in the wire by the spring maker's card.
    SPRING_STRESS_LIMIT: pressure one "spring.card.stress-limit";
    /// How many injectors there are.
    INJECTORS: count one "injector.count";
    /// How many main jets there are.
    JETS: count one "jet.count";
    /// Pulls on the dyno.
    DYNO_PULLS: count one "dyno.pulls";
    /// Pulls before a change.
    DYNO_BEFORE: count one "dyno.before";
    /// What they are corrected by.
    DYNO_STANDARD: choice one "dyno.standard" ["sae-j1349", "iso-1585", "std-j607", "din-70020"];
    /// The gain that is claimed.
    GAIN_CLAIMED: power one "dyno.gain-claimed";
    /// The bore's size.
    BORE: length one "bore.nominal";
    /// The stroke.
    STROKE: length one "stroke";
    /// Valves a cylinder.
    VALVES: count one "head.valves-a-cylinder";
    /// The main journal's size.
    MAIN_JOURNAL: length one "main-journal.nominal";
    /// The speed it works up to.
    WORKING_SPEED: "angular-speed" one "working-speed";
    /// Octane that the modelled cycle needs at power.
    OCTANE_NEEDED: octane one "octane.needed";
    /// The same at torque.
    OCTANE_NEEDED_AT_TORQUE: octane one "octane.needed.at-torque";
    /// Greatest pressure in the cylinder, as stated.
    PEAK: pressure one "peak-pressure";
    /// How many of the two lobes have a table.
    LOBE_TABLES: count one "cam.lobe-tables";
    /// The rocker's ratio.
    ROCKER_RATIO: ratio one "rocker.ratio";
    /// The torque wanted.
    TARGET_TORQUE: torque one "target.torque";
    /// The vehicle with its driver.
    VEHICLE_MASS: mass one "vehicle.mass";
    /// Elapsed time expected.
    STRIP_TIME: time one "strip.time";
    /// Hot oil pressure at idle, as read.
    IDLE_PRESSURE: pressure one "oil.pressure.idle";
    /// Blow-by as read.
    BLOW_BY: "volume-flow" one "blow-by";
    /// Total advance as stated.
    ADVANCE: angle one "ignition.total";
    /// Advance checked with a light at the crank.
    ADVANCE_VERIFIED: flag one "ignition.verified";
    /// The mark checked at true top dead centre.
    MARK_VERIFIED: flag one "timing-mark.verified";
    /// Honed with the torque plate on.
    PLATE_HONED: flag one "bore.plate-honed";
    /// What the plate was tightened with.
    PLATE_TORQUE: torque one "block.plate-torque";
    /// Where the skirt was read.
    GAUGE_POINT: length one "piston.gauge-point";
    /// Where its maker reads it.
    CARD_GAUGE_POINT: length one "piston.card.gauge-point";
    /// Edges broken.
    DEBURRED: flag one "block.deburred";
    /// How often the block was cut.
    BLOCK_CUTS: count one "block.cuts";
    /// How often the engine was assembled.
    ASSEMBLIES: count one "assembly.count";
    /// How many certificates there are.
    CERTIFICATES: count one "certificates.count";
    /// Whether the crank is new.
    CRANK_STATE: choice one "crank.state" ["new", "reused", "reconditioned"];
    /// Primary pipes of the exhaust.
    PRIMARY: length one "exhaust.primary-diameter";
    /// How the main cap fasteners are tightened.
    MAIN_METHOD: choice one "main-fastener.method" ["torque", "angle", "stretch", "yield"];
    /// How the head fasteners are tightened.
    HEAD_METHOD: choice one "head-fastener.method" ["torque", "angle", "stretch", "yield"];
    /// How the rod bolts are tightened.
    ROD_BOLT_METHOD: choice one "rod-bolt.method" ["torque", "angle", "stretch", "yield"];
    /// Torque of the main cap fasteners.
    MAIN_TORQUE: torque one "main-fastener.torque";
    /// Torque of the head fasteners.
    HEAD_TORQUE: torque one "head-fastener.torque";
    /// Torque of the rod bolts.
    ROD_BOLT_TORQUE: torque one "rod-bolt.torque";
    /// A main cap fastener's thread.
    MAIN_THREAD: length one "main-fastener.pitch";
    /// A head fastener's thread.
    HEAD_THREAD: length one "head-fastener.pitch";
    /// A rod bolt's thread.
    ROD_BOLT_THREAD: length one "rod-bolt.pitch";
    /// Torque that the main caps' card asks for.
    MAIN_CARD_TORQUE: torque one "main-fastener.card.torque";
    /// Torque that the heads' card asks for.
    HEAD_CARD_TORQUE: torque one "head-fastener.card.torque";
    /// Torque that the rod bolts' card asks for.
    ROD_BOLT_CARD_TORQUE: torque one "rod-bolt.card.torque";
    /// How often the main cap fasteners were tightened.
    MAIN_USES: count one "main-fastener.uses";
    /// How often the head fasteners were tightened.
    HEAD_USES: count one "head-fastener.uses";
    /// How often the rod bolts were tightened.
    ROD_BOLT_USES: count one "rod-bolt.uses";
    /// How often the main caps' card allows.
    MAIN_CARD_USES: count one "main-fastener.card.uses";
    /// How often the heads' card allows.
    HEAD_CARD_USES: count one "head-fastener.card.uses";
    /// How often the rod bolts' card allows.
    ROD_BOLT_CARD_USES: count one "rod-bolt.card.uses";
    /// The inlet valve's head.
    INLET_DIAMETER: length one "valve.inlet.diameter";
    /// What goes up and down on one rod.
    RECIPROCATING_MASS: mass one "reciprocating.mass.mean";
    /// The chambers by the burette.
    CHAMBER: volume cylinder "chamber.volume";
    /// The domes by the burette.
    DOME: volume cylinder "piston.dome.read";
    /// The pistons on the balance.
    PISTON_MASS: mass cylinder "piston.mass";
    /// The big ends on the balance.
    BIG_END_MASS: mass rod "rod.big-end.mass";
    /// The speed the driver should not pass.
    REDLINE: "angular-speed" one "redline";
    /// Whether the block is new.
    BLOCK_STATE: choice one "block.state" ["new", "reused", "reconditioned"];
    /// What each small end weighs.
    SMALL_END_MASS: mass rod "rod.small-end.mass";
    /// What the fuel burns for a power and a time, as the sheet has it or as is usual.
    CONSUMPTION: "specific-consumption" one "fuel.bsfc";
    /// Mixture, where it is stated.
    LAMBDA: ratio one "fuel.lambda.stated";
    /// What the pump holds.
    PUMP_PRESSURE: pressure one "fuel.pump-pressure";
    /// The rail's over the manifold's.
    INJECTOR_PRESSURE: pressure one "injector.pressure";
    /// The throat under an inlet seat.
    THROAT: length one "throat.diameter";
    /// An exhaust valve's head.
    EXHAUST_DIAMETER: length one "valve.exhaust.diameter";
    /// What turns the cam.
    CAM_DRIVE: choice one "cam.drive" ["chain", "belt", "gear"];
    /// The clamp of one head fastener, as stated.
    HEAD_CLAMP: force one "head-fastener.clamp";
    /// A head fastener's thread.
    HEAD_DIAMETER: length one "head-fastener.diameter";
    /// Whether the gasket is new.
    GASKET_STATE: choice one "gasket.state" ["new", "reused", "reconditioned"];
    /// Whether the rods are new.
    ROD_STATE: choice one "rod.state" ["new", "reused", "reconditioned"];
    /// Whether the sheet says what they had run.
    ROD_LIFE: flag one "rod.life-stated";
    /// Loads on the seat just after the run-in.
    RUN_IN_LOAD: force valve "spring.seat-load-run-in";
    /// What the relief valve is set to.
    RELIEF: pressure one "oil.relief";
    /// Whether an additive is named.
    ADDITIVE: flag one "oil.additive";
    /// Whether the sheet says what was on the crank at the balancer.
    BALANCE_FITTED: flag one "balance.fitted";
    /// How long it idles for each pass.
    IDLE_TIME: time one "duty.idle.time";
    /// The straight-through speed at the lights.
    LIGHTS_SPEED: "angular-speed" one "lights-speed";
    /// The driven tyres.
    TYRE: length one "tyre.diameter";
    /// Turns of the drive shaft to one of the axle.
    AXLE: ratio one "final-drive";
    /// Whether the sheet says what air the dyno's room has.
    ROOM_AIR: flag one "dyno.room-air.stated";
    /// An inlet's centre line by the card.
    CENTRE_INLET: angle one "cam.centre-line.inlet";
    /// An exhaust's centre line by the card.
    CENTRE_EXHAUST: angle one "cam.centre-line.exhaust";
    /// Compression from where the inlet shuts.
    EFFECTIVE: ratio one "compression.effective";
    /// Rods on one pin.
    RODS_A_PIN: count one "rods-a-pin";
    /// The bobweight on the balance card.
    BOBWEIGHT: mass one "bobweight.card";
    /// Whether the sheet says in which order it fires.
    FIRING_ORDER: flag one "engine.firing-order.stated";
}
