//! Sizes are those at 20 °C (ISO 1:2022): a part measured warmer or colder is brought there with its own coefficient, and
//! so is the gauge, which is as warm as the shop and reads less the more it has grown itself.

use thou_contract::Kind;
use thou_mechanics::expansion::{Material, STANDARD_TEMPERATURE};
use thou_sheet::Sheet;

/// Differences from 20 °C below this are not corrected, K: 68 °F and 20 °C must give the same bits.
const NEGLIGIBLE: f64 = 0.05;

/// How a gauge and the standard that it was set on grow, 1/K: steel gauge blocks, ISO 3650:1998, 6.3, (11.5 ± 1)e-6.
const GAUGE_EXPANSION: f64 = 11.5e-6;

/// What a size that was read on a part at `temperature`, K, is to be multiplied with; exactly 1 where there is nothing to
/// correct or the material is not known. The gauge is as warm as the shop; where the sheet does not say how warm that
/// is, as its part.
pub fn to_standard(sheet: &Sheet, key: &str, temperature: Option<f64>) -> f64 {
    let Some(part) = temperature else { return 1.0 };
    let over = |t: f64| Some(t - STANDARD_TEMPERATURE).filter(|rise| rise.abs() >= NEGLIGIBLE).unwrap_or(0.0);
    let shop = Kind::by_id("temperature").and_then(|kind| sheet.figure("shop.temperature", kind));
    let (part, gauge) = (over(part), over(shop.unwrap_or(part)));
    let Some(path) = thou_fields::reading(key).and_then(|r| r.grows_with) else { return 1.0 };
    let word = sheet.stated(path).and_then(|(v, _)| v.as_str());
    let path = if key == "bore" { "bore" } else { path };
    let of =
        if path == thou_fields::STEEL { Some(Material::Steel) } else { word.and_then(|word| material(path, word)) };
    match of {
        // a product and a division that would change nothing are left out: 68 °F and 20 °C give the same bits
        Some(_) if part == 0.0 && gauge == 0.0 => 1.0,
        Some(m) => (1.0 + GAUGE_EXPANSION * gauge) / (1.0 + m.properties().expansion * part),
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
