//! What every page starts with: the sheet, and the packs that count for it.

use super::{Exit, Io, With};
use crate::packs::{self, Fault, Pack, PackFault};
use crate::sheet::Sheet;
use jiff::civil::Date;
use std::path::{Path, PathBuf};

/// Reads a sheet, or says on standard error what is wrong with it.
pub(super) fn sheet(path: &Path, io: &mut Io<'_>) -> Result<Sheet, Exit> {
    Sheet::read(path).map_err(|faults| {
        let text = faults.render(io.err_colour);
        io.complain(&text);
        Exit::INVALID
    })
}

/// The known good engine that a sheet names in `engine.like`: a sheet in the same folder or below it.
pub(super) fn like(sheet: &Sheet, io: &mut Io<'_>) -> Result<Option<Sheet>, Exit> {
    let Some((value, pointer)) = sheet.stated("engine.like") else { return Ok(None) };
    let Some(name) = value.as_str().filter(|n| n.ends_with(".json")) else { return Ok(None) };
    let inside = Path::new(name).components().all(|c| matches!(c, std::path::Component::Normal(_)));
    let path = sheet.source.folder.join(name);
    if inside && path.is_file() {
        return self::sheet(&path, io).map(Some);
    }
    let (line, column) = sheet.source.position(sheet.source.span(&pointer).start);
    let name = packs::clean::clean(name);
    io.complain(&format!(
        "{}:{line}:{column}: engine.like names \"{name}\", and there is no such sheet in this sheet's folder",
        sheet.source.name
    ));
    Err(Exit::INVALID)
}

/// The packs that count: the built-in ones, those of the `packs` file beside the sheet, those of the command line.
/// A pack that cannot be loaded is told with the rest of the report, and costs the others nothing.
pub(super) fn packs(with: &With, sheet: Option<&Path>) -> (Vec<Pack>, Vec<PackFault>) {
    let mut all = packs::builtin();
    let mut faults = Vec::new();
    let beside = sheet.map(listed).unwrap_or_default();
    for path in beside.iter().chain(&with.packs) {
        match packs::load_file(path) {
            Ok(pack) => all.push(pack),
            Err(fault) => faults.push(fault),
        }
    }
    let together = packs::together(&all);
    if !together.is_empty() {
        // the built-in packs stand by themselves; what was loaded beside them does not get along
        all.truncate(packs::builtin().len());
        let pack = "the packs together".to_owned();
        faults.push(PackFault { origin: pack.clone(), pack, fault: Fault::BadManifest(together) });
    }
    (all, faults)
}

/// The files that the `packs` file beside a sheet names, one a line; `#` starts a remark.
fn listed(sheet: &Path) -> Vec<PathBuf> {
    let folder = sheet.parent().unwrap_or(Path::new(""));
    let text = std::fs::read_to_string(folder.join("packs")).unwrap_or_default();
    let lines = text.lines().map(|l| l.split('#').next().unwrap_or("").trim());
    lines.filter(|l| !l.is_empty()).map(|l| folder.join(l)).collect()
}

/// Name and version of each pack.
pub(super) fn names(packs: &[Pack]) -> Vec<(String, String)> {
    packs.iter().map(|p| (p.manifest.id.clone(), p.manifest.version.clone())).collect()
}

/// The day that the computer says it is; the library itself has no clock.
pub(super) fn today() -> Option<Date> {
    let since = std::time::SystemTime::now().duration_since(std::time::UNIX_EPOCH).ok()?;
    let second = i64::try_from(since.as_secs()).ok()?;
    Some(jiff::tz::Offset::UTC.to_datetime(jiff::Timestamp::from_second(second).ok()?).date())
}
