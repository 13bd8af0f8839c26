//! The facts that this pack asks for, in one table: the order is the contract's.

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out", "circuit", "endurance", "circle-track", "motocross", "boat"];
    /// What adds to its own breathing.
    ADDER: choice one "adder" ["none", "nitrous", "turbo", "blower"];
    /// Boost over the air outside.
    BOOST: pressure one "boost";
    /// What the adder is to bring.
    ADDER_POWER: power one "adder.power";
    /// What the engine is to make, with the adder.
    TARGET_POWER: power one "target.power";
    /// What it burns.
    FUEL: choice one "fuel" ["petrol-pump", "petrol-race", "e85", "ethanol", "methanol"];
    /// Mean piston speed at the shift, or at the redline where no shift is stated.
    PISTON_SPEED: speed one "piston.speed.mean.at-shift";
    /// Mean effective pressure at the power speed.
    BMEP: pressure one "bmep.at-power";
    /// Spring load at full lift, valve by valve.
    OPEN_LOAD: force valve "spring.open-load";
    /// The greatest open load that the spring's card allows.
    CARD_OPEN_LOAD: force one "spring.card.open-load";
    /// The spring's open shear stress over that of a spring whose life the shop knows.
    SPRING_STRESS: ratio one "extra.freshen.spring-stress";
    /// Revolutions of one pass, from the segments stated.
    REVOLUTIONS: count one "duty.revolutions";
    /// Stroke.
    STROKE: length one "stroke";
    /// Seconds of burn-out a pass.
    BURNOUT_TIME: time one "duty.burnout.time";
    /// Seconds of idle a pass.
    IDLE_TIME: time one "duty.idle.time";
    /// Seconds of the run itself.
    RUN_TIME: time one "duty.run.time";
    /// Oil in the engine.
    OIL_VOLUME: volume one "oil.volume";
    /// Oil temperature at work.
    OIL_TEMPERATURE: temperature one "oil.temperature";
    /// Passes the owner makes in a season.
    PASSES_A_SEASON: passes one "passes-a-season";
    /// What the rods are made of.
    ROD_MATERIAL: choice one "rod.material" ["steel", "titanium", "aluminium", "powdered"];
    /// Whether the rods are new.
    ROD_STATE: choice one "rod.state" ["new", "reused", "reconditioned"];
    /// Whether the pistons are new.
    PISTON_STATE: choice one "piston.state" ["new", "reused", "reconditioned"];
    /// Whether the crank is new.
    CRANK_STATE: choice one "crank.state" ["new", "reused", "reconditioned"];
    /// How the valves are driven.
    VALVETRAIN: choice one "valvetrain.kind" ["pushrod", "bucket", "finger"];
    /// What follows the lobe.
    LIFTER: choice one "lifter.type" ["flat-hydraulic", "flat-solid", "roller-hydraulic", "roller-solid", "none"];
    /// How oil gets to the lifters' wheels.
    LIFTER_OILING: choice one "lifter.oiling" ["splash", "pressure-fed", "bushed"];
    /// What the oil is made of.
    OIL_BASE: choice one "oil.base" ["mineral", "semi-synthetic", "synthetic"];
    /// How the head fasteners are tightened.
    HEAD_METHOD: choice one "head-fastener.method" ["torque", "angle", "stretch", "yield"];
    /// How the rockers are held.
    ROCKER: choice one "rocker.type" ["pressed-stud", "stud", "shaft", "none"];
    /// What the rockers are made of.
    ROCKER_MATERIAL: choice one "rocker.material" ["steel", "aluminium"];
    /// What drives the cam.
    CAM_DRIVE: choice one "cam.drive" ["chain", "belt", "gear"];
    /// What the inlet valves are made of.
    INLET_VALVE: choice one "valve.inlet.material" ["steel", "titanium", "stainless"];
    /// Height of the top ring.
    TOP_RING: length one "ring.top.height";
    /// What the crank runs in.
    BEARING_KIND: choice one "bearing.kind" ["tri-metal", "bi-metal", "coated", "roller"];
    /// What seals the heads.
    GASKET: choice one "gasket.kind" ["composite", "mls", "copper"];
    /// What damps the crank.
    DAMPER: choice one "damper.kind" ["elastomer", "fluid", "friction", "none"];
    /// Whether a body inspects the car.
    SANCTIONED: flag one "sanctioned";
    /// Vacuum that a pump holds in the crankcase.
    CRANKCASE_VACUUM: pressure one "crankcase.vacuum";
    /// The highest speed that the engine is meant to see: limiter, else redline.
    TOP_SPEED: "angular-speed" one "top-speed";
}
