#![allow(clippy::unwrap_used)]
use super::*;

#[test]
fn every_reading_fact_and_field_that_is_named_is_there() {
    let catalogue = thou_facts::Catalogue::standard();
    for on in &ON_SHEET {
        assert!(READINGS.iter().any(|r| r.name == on.reading), "{}", on.reading);
        assert!(catalogue.info(on.fact).is_some(), "{}", on.fact);
        if let Some((key, _)) = on.sheet {
            assert!(thou_sheet::band_of(&format!("readings.{key}")).is_some(), "{key}");
        }
    }
    assert_eq!(ON_SHEET.map(|on| on.fact), FACTS);
}
