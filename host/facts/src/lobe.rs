//! A lobe's lift table on the sheet: cam degrees and lifts, in thou or in millimetres.

use super::value::Missing;
use serde_json::Value;
use std::sync::Arc;
use thou_mechanics::valve_motion::{Point, table};
use thou_sheet::Sheet;

/// The table at a path, smoothed; which field would bring it, or what is wrong with it.
pub(crate) fn read(sheet: &Sheet, path: &str) -> Result<Arc<[Point]>, Missing> {
    let Some((stated, _)) = sheet.stated(path) else { return Err(Missing::Field(path.to_owned())) };
    let list = |name: &str| -> Option<Vec<f64>> {
        stated.get(name).and_then(Value::as_array).map(|l| l.iter().filter_map(Value::as_f64).collect())
    };
    let degrees = list("degrees").ok_or_else(|| Missing::Field(format!("{path}.degrees")))?;
    let thou = list("thou").map(|l| (l, 2.54e-5));
    let (lifts, unit) =
        thou.or_else(|| list("mm").map(|l| (l, 1e-3))).ok_or_else(|| Missing::Field(format!("{path}.thou")))?;
    let angles: Vec<f64> = degrees.iter().map(|d| d.to_radians()).collect();
    let lifts: Vec<f64> = lifts.iter().map(|l| l * unit).collect();
    table(&angles, &lifts).map(Arc::from).map_err(|fault| Missing::Outside(format!("{path}: {fault}")))
}
