//! Sizes are those at 20 °C (ISO 1:2022): a part measured warmer or colder is brought there with its own coefficient.

use thou_mechanics::expansion::{Material, STANDARD_TEMPERATURE};
use thou_sheet::Sheet;

/// Differences from 20 °C below this are not corrected, K: 68 °F and 20 °C must give the same bits.
const NEGLIGIBLE: f64 = 0.05;

/// What a size that was read at `temperature`, K, is to be multiplied with; exactly 1 where there is nothing to correct
/// or the material is not known.
pub fn to_standard(sheet: &Sheet, key: &str, temperature: Option<f64>) -> f64 {
    let Some(rise) = temperature.map(|t| t - STANDARD_TEMPERATURE).filter(|rise| rise.abs() >= NEGLIGIBLE) else {
        return 1.0;
    };
    let Some(path) = thou_fields::reading(key).and_then(|r| r.grows_with) else { return 1.0 };
    let word = sheet.stated(path).and_then(|(v, _)| v.as_str());
    let path = if key == "bore" { "bore" } else { path };
    let of =
        if path == thou_fields::STEEL { Some(Material::Steel) } else { word.and_then(|word| material(path, word)) };
    match of {
        Some(m) => 1.0 / (1.0 + m.properties().expansion * rise),
        None => 1.0,
    }
}

/// The material that a word of the sheet means there; `bore` is the block's word, for the bore's own wall. A sleeve held
/// by an aluminium block grows by neither metal's figure alone, so there is none for it.
pub fn material(path: &str, word: &str) -> Option<Material> {
    Some(match (path, word) {
        ("block.material" | "bore", "grey-iron") | ("heads.material" | "heads.guide-material", "iron") => {
            Material::GreyIron
        }
        ("block.material" | "bore", "compacted-iron") => Material::CompactedIron,
        ("block.material", "aluminium-sleeved" | "aluminium-plated")
        | ("bore", "aluminium-plated")
        | ("heads.material", "aluminium") => Material::CastAluminium,
        ("heads.guide-material", "bronze") => Material::Bronze,
        ("pistons.alloy", "2618") => Material::Alloy2618,
        ("pistons.alloy", "4032") => Material::Alloy4032,
        ("pistons.alloy", "hypereutectic") => Material::Hypereutectic,
        ("pistons.alloy", "cast") => Material::EutecticCast,
        ("crank.material", "cast" | "nodular") => Material::NodularIron,
        ("crank.material", "forged" | "billet") | ("rods.material", "steel" | "powdered") => Material::Steel,
        ("rods.material", "titanium") => Material::Titanium,
        ("rods.material", "aluminium") => Material::WroughtAluminium,
        _ => return None,
    })
}
