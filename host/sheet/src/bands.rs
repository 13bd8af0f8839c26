//! Sizes that an engine can have at all. A value outside is a slip: a wrong unit, a decimal place, a swapped line.

use super::fault::Finder;
use serde_json::Value;
use thou_contract::Kind;

/// From smallest to largest, with the words it was written in.
pub(super) struct Band {
    kind: Kind,
    low: f64,
    high: f64,
    words: String,
}

impl Band {
    /// None if one of the limits is not a quantity of the kind.
    pub(super) fn new(kind: Kind, low: &str, high: &str) -> Option<Self> {
        let words = format!("it can be from {low} to {high}");
        Some(Self { kind, low: kind.parse(low).ok()?, high: kind.parse(high).ok()?, words })
    }
    fn holds(&self, si: f64) -> bool {
        // 1e-9 relative: the same limit in inches and in millimetres differs in the last digit
        let slack = 1e-9 * self.low.abs().max(self.high.abs());
        si >= self.low - slack && si <= self.high + slack
    }
}

/// What to say of a value that cannot be, with the unit it was perhaps meant in.
pub(super) fn outside(band: &Band, name: &str, si: f64, text: Option<&str>) -> Option<(String, Option<String>)> {
    if band.holds(si) {
        return None;
    }
    let shown =
        text.map_or_else(|| band.kind.text(si, thou_contract::System::Inch), |t| super::fault::clean(t.trim(), 40));
    let words = &band.words;
    let decimal = band.holds(si * 10.0) || band.holds(si / 10.0);
    let help = match (text.and_then(|t| other_unit(band, t)), decimal) {
        (Some(meant), false) => format!("did you mean \"{meant}\"? {}", capital(words)),
        (Some(meant), true) => format!("did you mean \"{meant}\", or is a decimal place off? {}", capital(words)),
        (None, true) => format!("is a decimal place off? {}", capital(words)),
        (None, false) => words.clone(),
    };
    Some((format!("{name} cannot be {shown}"), Some(help)))
}

/// The same number in another unit, where that could be.
fn other_unit(band: &Band, text: &str) -> Option<String> {
    let number = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.').trim_end();
    let candidates = band.kind.spec().units.iter().map(|u| format!("{number} {}", u.name));
    candidates.into_iter().find(|c| band.kind.parse(c).is_ok_and(|si| band.holds(si)))
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// Stated fields with what they can be: path, kind, smallest, largest.
pub(super) const STATED: &[(&str, &str, &str, &str)] = &[
    ("engine.bank-angle", "angle", "10 deg", "180 deg"),
    ("intent.power", "power", "1 hp", "20000 hp"),
    ("intent.power-speed", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.torque", "torque", "1 lb-ft", "15000 lb-ft"),
    ("intent.torque-speed", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.redline", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.limiter", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.shift-speed", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.lights-speed", "angular-speed", "500 rpm", "25000 rpm"),
    ("intent.launch-speed", "angular-speed", "300 rpm", "25000 rpm"),
    ("intent.stall-speed", "angular-speed", "300 rpm", "15000 rpm"),
    ("intent.adder-power", "power", "0 hp", "15000 hp"),
    ("intent.boost", "pressure", "0 psi", "150 psi"),
    ("intent.peak-pressure", "pressure", "200 psi", "6000 psi"),
    ("intent.vehicle-mass", "mass", "50 lb", "30000 lb"),
    ("intent.passes-a-season", "passes", "0 passes", "5000 passes"),
    ("intent.freshen-wanted", "passes", "1 passes", "5000 passes"),
    ("shop.temperature", "temperature", "-40 °F", "150 °F"),
    ("block.deck-height", "length", "1 in", "40 in"),
    ("block.bore", "length", "0.5 in", "20 in"),
    ("block.card.main-housing-low", "length", "0.3 in", "12 in"),
    ("block.card.main-housing-high", "length", "0.3 in", "12 in"),
    ("crank.stroke", "length", "0.5 in", "20 in"),
    ("crank.main-journal", "length", "0.3 in", "12 in"),
    ("crank.rod-journal", "length", "0.3 in", "12 in"),
    ("rods.length", "length", "1 in", "30 in"),
    ("rods.beam-area", "area", "0.01 in²", "10 in²"),
    ("rods.card.housing-low", "length", "0.3 in", "12 in"),
    ("rods.card.housing-high", "length", "0.3 in", "12 in"),
    ("rods.small-end-mass", "mass", "1 g", "20 kg"),
    ("rods.big-end-mass", "mass", "1 g", "50 kg"),
    ("pistons.compression-height", "length", "0.2 in", "8 in"),
    ("pistons.dome-volume", "volume", "0 cc", "500 cc"),
    ("pistons.dish-volume", "volume", "0 cc", "500 cc"),
    ("pistons.top-land-height", "length", "0.02 in", "2 in"),
    ("pistons.top-land-diameter", "length", "0.5 in", "20 in"),
    ("pistons.mass", "mass", "5 g", "20 kg"),
    ("pistons.card.fit-low", "clearance", "-20 thou", "100 thou"),
    ("pistons.card.fit-high", "clearance", "-20 thou", "100 thou"),
    ("pins.diameter", "length", "0.2 in", "4 in"),
    ("pins.mass", "mass", "1 g", "5 kg"),
    ("rings.top-height", "length", "0.01 in", "0.5 in"),
    ("rings.oil-tension", "force", "0.2 lb", "100 lb"),
    ("rings.card.top-gap-factor", "ratio", "0.001", "0.02"),
    ("rings.card.second-gap-factor", "ratio", "0.001", "0.02"),
    ("gasket.bore", "length", "0.5 in", "20 in"),
    ("gasket.compressed-thickness", "length", "0 in", "0.5 in"),
    ("heads.chamber-volume", "volume", "1 cc", "2000 cc"),
    ("heads.seat-angle", "angle", "10 deg", "80 deg"),
    ("valves.inlet-diameter", "length", "0.3 in", "6 in"),
    ("valves.exhaust-diameter", "length", "0.3 in", "6 in"),
    ("valves.stem-diameter", "length", "0.1 in", "1 in"),
    ("springs.rate", "spring-rate", "5 lb/in", "5000 lb/in"),
    ("springs.wire-diameter", "length", "0.02 in", "0.6 in"),
    ("springs.mean-diameter", "length", "0.2 in", "5 in"),
    ("springs.active-coils", "ratio", "1", "30"),
    ("springs.total-coils", "ratio", "1", "35"),
    ("springs.coil-mass", "mass", "2 g", "3000 g"),
    ("valves.inlet-mass", "mass", "5 g", "2000 g"),
    ("valves.exhaust-mass", "mass", "5 g", "2000 g"),
    ("valves.retainer-mass", "mass", "1 g", "500 g"),
    ("valvetrain.rocker-mass", "mass", "1 g", "2000 g"),
    ("valvetrain.pushrod-mass", "mass", "5 g", "2000 g"),
    ("valvetrain.lifter-mass", "mass", "5 g", "2000 g"),
    ("springs.bind-height", "length", "0.2 in", "4 in"),
    ("springs.card.bind-margin", "clearance", "0 thou", "300 thou"),
    ("springs.card.lift-limit", "length", "0.05 in", "3 in"),
    ("springs.card.seat-load", "force", "5 lb", "5000 lb"),
    ("springs.card.installed-height", "length", "0.5 in", "5 in"),
    ("valvetrain.rocker-ratio", "ratio", "0.5", "4"),
    ("valvetrain.pushrod-diameter", "length", "0.1 in", "2 in"),
    ("valvetrain.card.lash-hot-inlet", "clearance", "0 thou", "100 thou"),
    ("valvetrain.card.lash-hot-exhaust", "clearance", "0 thou", "100 thou"),
    ("cam.inlet.lobe-lift", "length", "0.02 in", "2 in"),
    ("cam.exhaust.lobe-lift", "length", "0.02 in", "2 in"),
    ("cam.inlet.valve-lift", "length", "0.02 in", "3 in"),
    ("cam.exhaust.valve-lift", "length", "0.02 in", "3 in"),
    ("cam.inlet.duration", "angle", "100 deg", "450 deg"),
    ("cam.exhaust.duration", "angle", "100 deg", "450 deg"),
    ("cam.inlet.duration-at-50", "angle", "80 deg", "400 deg"),
    ("cam.exhaust.duration-at-50", "angle", "80 deg", "400 deg"),
    ("cam.inlet.centre-line", "angle", "60 deg", "160 deg"),
    ("cam.exhaust.centre-line", "angle", "60 deg", "160 deg"),
    ("bearings.card.main-clearance-low", "clearance", "-20 thou", "100 thou"),
    ("bearings.card.main-clearance-high", "clearance", "-20 thou", "100 thou"),
    ("bearings.card.rod-clearance-low", "clearance", "-20 thou", "100 thou"),
    ("bearings.card.rod-clearance-high", "clearance", "-20 thou", "100 thou"),
    ("fasteners.rod-bolts.card.stretch-low", "clearance", "0 thou", "100 thou"),
    ("fasteners.rod-bolts.card.stretch-high", "clearance", "0 thou", "100 thou"),
    ("fasteners.rod-bolts.clamp", "force", "100 lb", "200000 lb"),
    ("fasteners.rod-bolts.grip", "length", "0.2 in", "8 in"),
    ("fasteners.rod-bolts.strength", "pressure", "300 MPa", "3000 MPa"),
    ("fasteners.heads.grip", "length", "0.3 in", "30 in"),
    ("fasteners.heads.friction-low", "ratio", "0.02", "0.5"),
    ("fasteners.heads.friction-high", "ratio", "0.02", "0.5"),
    ("fasteners.rod-bolts.torque", "torque", "1 lb-ft", "1000 lb-ft"),
    ("fasteners.heads.clamp", "force", "100 lb", "200000 lb"),
    ("oil.volume", "volume", "0.1 qt", "200 qt"),
    ("oil.temperature", "temperature", "0 °F", "400 °F"),
    ("oil.viscosity-40", "kinematic-viscosity", "5 cSt", "1500 cSt"),
    ("oil.viscosity-100", "kinematic-viscosity", "2 cSt", "100 cSt"),
    ("oil.high-shear", "dynamic-viscosity", "1 cP", "20 cP"),
    ("oil.density", "density", "700 kg/m³", "1100 kg/m³"),
    ("bearings.rod-width", "length", "0.1 in", "10 in"),
    ("bearings.main-width", "length", "0.1 in", "10 in"),
    ("bearings.roughness", "roughness", "0 µin", "200 µin"),
    ("bearings.film-rise", "temperature-difference", "0 °F", "300 °F"),
    ("oil.pressure-plan", "pressure", "0 psi", "300 psi"),
    ("oil.crankcase-vacuum", "pressure", "0 inHg", "31 inHg"),
    ("fuel.octane", "octane", "40", "150"),
    ("fuel.ethanol", "percent", "0 %", "100 %"),
    ("fuel.pump-flow", "volume-flow", "0.5 gal/h", "5000 gal/h"),
    ("fuel.lambda", "ratio", "0.3", "2"),
    ("fuel.density", "density", "600 kg/m³", "1300 kg/m³"),
    ("fuel.jets.discharge", "ratio", "0.2", "1.1"),
    ("fuel.jets.bore", "length", "0.004 in", "0.5 in"),
    ("fuel.jets.pressure", "pressure", "0.02 psi", "5000 psi"),
    ("fuel.injectors.flow", "volume-flow", "0.1 gal/h", "300 gal/h"),
    ("fuel.injectors.pressure", "pressure", "1 psi", "50000 psi"),
    ("fuel.injectors.rated-pressure", "pressure", "1 psi", "50000 psi"),
    ("heads.throat-diameter", "length", "0.2 in", "10 in"),
    ("heads.seat-cut-width", "gap", "5 thou", "1000 thou"),
    ("heads.inlet-discharge", "ratio", "0.1", "1"),
    ("dyno.gain-claimed", "power", "-2000 hp", "5000 hp"),
    ("fuel.bsfc", "specific-consumption", "0.1 lb/hp-h", "5 lb/hp-h"),
    ("ignition.total-advance", "angle", "-30 deg", "80 deg"),
    ("ignition.nitrous-retard", "angle", "-5 deg", "60 deg"),
    ("balance.factor", "percent", "0 %", "100 %"),
    ("balance.bobweight", "mass", "50 g", "50 kg"),
    ("balance.radius", "length", "0.2 in", "20 in"),
    ("balance.grade", "ratio", "0.1", "4000"),
    ("crank.mass", "mass", "0.5 kg", "300 kg"),
    ("crank.pin-spacing", "length", "0.5 in", "20 in"),
    ("finish.honing.strokes", "count", "5", "1000"),
    ("finish.honing.stroke", "length", "0.2 in", "60 in"),
    ("finish.honing.spindle", "angular-speed", "5 rpm", "5000 rpm"),
    ("finish.honing.stone", "length", "0.2 in", "40 in"),
    ("finish.honing.bore-length", "length", "0.5 in", "60 in"),
    ("finish.honing.overstroke", "length", "-10 in", "20 in"),
    ("finish.honing.angle", "angle", "1 deg", "179 deg"),
];

/// Low and high of one thing on a maker's card: the low one first.
const PAIRS: &[(&str, &str, &str)] = &[
    ("block.card.main-housing-low", "block.card.main-housing-high", "length"),
    ("rods.card.housing-low", "rods.card.housing-high", "length"),
    ("rods.card.side-clearance-low", "rods.card.side-clearance-high", "clearance"),
    ("pistons.card.fit-low", "pistons.card.fit-high", "clearance"),
    ("bearings.card.main-clearance-low", "bearings.card.main-clearance-high", "clearance"),
    ("bearings.card.rod-clearance-low", "bearings.card.rod-clearance-high", "clearance"),
    ("fasteners.rod-bolts.card.stretch-low", "fasteners.rod-bolts.card.stretch-high", "clearance"),
    ("fasteners.heads.friction-low", "fasteners.heads.friction-high", "ratio"),
];

/// The SI value of a stated quantity.
fn stated(root: &Value, path: &str, kind: &str) -> Option<f64> {
    match root.pointer(&pointer(path))? {
        Value::String(text) => Kind::by_id(kind)?.parse(text).ok(),
        Value::Number(number) if matches!(kind, "ratio" | "octane" | "count") => number.as_f64(),
        _ => None,
    }
}

fn pointer(path: &str) -> String {
    format!("/{}", path.replace('.', "/"))
}

/// Tells every stated value that cannot be, and values that cannot be together.
pub(super) fn possible(root: &Value, find: &mut Finder<'_>) {
    for (path, kind, low, high) in STATED {
        let Some(si) = stated(root, path, kind) else { continue };
        let text = root.pointer(&pointer(path)).and_then(Value::as_str);
        let band = Kind::by_id(kind).and_then(|k| Band::new(k, low, high));
        if let Some((message, help)) = band.and_then(|band| outside(&band, path, si, text)) {
            find.at(&pointer(path), message, help);
        }
    }
    for (low, high, kind) in PAIRS {
        if let (Some(a), Some(b)) = (stated(root, low, kind), stated(root, high, kind))
            && a > b
        {
            find.at(&pointer(low), format!("{low} is more than {high}"), Some("are the two swapped?".to_owned()));
            find.second(&pointer(high), "the lesser");
        }
    }
    together(root, find);
}

fn together(root: &Value, find: &mut Finder<'_>) {
    let length = |path: &str| stated(root, path, "length");
    let speed = |path: &str| stated(root, path, "angular-speed");
    if let (Some(deck), Some(stroke), Some(rod), Some(height)) = (
        length("block.deck-height"),
        length("crank.stroke"),
        length("rods.length"),
        length("pistons.compression-height"),
    ) {
        let below = (deck - stroke / 2.0 - rod - height) / 0.0254;
        if !(-1.0..=3.0).contains(&below) {
            let side = if below < 0.0 { "above" } else { "below" };
            let message = format!("the piston would stop {:.3} in {side} the deck", below.abs());
            let help = "block.deck-height less half of crank.stroke, rods.length and pistons.compression-height is what is left: one of the four is wrong";
            find.at("/block/deck-height", message, Some(help.to_owned()));
        }
    }
    if let (Some(gasket), Some(bore)) = (length("gasket.bore"), length("block.bore"))
        && gasket < bore / 2.0
    {
        let help = Some("is one of them in another unit?".to_owned());
        find.at("/gasket/bore", "gasket.bore is less than half of block.bore", help);
        find.second("/block/bore", "the bore");
    }
    if let (Some(limiter), Some(shift)) = (speed("intent.limiter"), speed("intent.shift-speed"))
        && limiter < shift
    {
        let help = Some("the engine would never reach its shift: are the two swapped?".to_owned());
        find.at("/intent/limiter", "intent.limiter is below intent.shift-speed", help);
        find.second("/intent/shift-speed", "the shift");
    }
    if let (Some(stroke), Some(rod)) = (length("crank.stroke"), length("rods.length"))
        && rod < stroke * 0.75
    {
        let help = Some("the rod would not clear the crank: are the two swapped?".to_owned());
        find.at("/rods/length", "rods.length is less than three quarters of crank.stroke", help);
        find.second("/crank/stroke", "the stroke");
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::PAIRS;
    use serde_json::Value;

    /// Paths of everything that the schema has under an object.
    fn paths(schema: &Value, node: &Value, at: &str, out: &mut Vec<String>) {
        let node = match node["$ref"].as_str() {
            Some(name) => schema.pointer(name.trim_start_matches('#')).unwrap(),
            None => node,
        };
        for (name, inner) in node["properties"].as_object().into_iter().flatten() {
            let path = if at.is_empty() { name.clone() } else { format!("{at}.{name}") };
            paths(schema, inner, &path, out);
            out.push(path);
        }
    }

    #[test]
    fn every_low_of_the_schema_with_a_high_is_held_below_it() {
        let text =
            std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../schemas/build.schema.json")).unwrap();
        let schema: Value = serde_json::from_str(&text).unwrap();
        let mut all = Vec::new();
        paths(&schema, &schema, "", &mut all);
        let pairs: Vec<(String, String)> = all
            .iter()
            .filter_map(|low| Some((low.clone(), format!("{}-high", low.strip_suffix("-low")?))))
            .filter(|(_, high)| all.contains(high))
            .collect();
        assert!(pairs.len() > 5, "{pairs:?}");
        // friction and a card's stretch are one definition for all fasteners; those of rod bolts and heads are used
        let used = |low: &str| !low.starts_with("fasteners.") || PAIRS.iter().any(|p| p.0 == low);
        let missing: Vec<_> =
            pairs.iter().filter(|(low, high)| used(low) && !PAIRS.iter().any(|p| p.0 == low && p.1 == high)).collect();
        assert!(missing.is_empty(), "{missing:?}");
        for (low, high, _) in PAIRS {
            assert!(all.iter().any(|p| p == low) && all.iter().any(|p| p == high), "{low}");
        }
    }
}
