//! The known good engine that a sheet names in `engine.like`.

use super::io::{Exit, Io};
use crate::packs::clean::clean;
use crate::sheet::{Fault, Sheet, SheetFaults};
use std::path::{Component, Path, PathBuf};
use thou_text::nearest;

/// Sheets that are followed from one good engine to its own.
const MOST: usize = 20;

/// The sheet in the same folder, or below it, that this one names; none where it names none, or an engine without a file.
/// What is wrong is said on standard error.
pub(in crate::cli) fn like(sheet: &Sheet, io: &mut Io<'_>) -> Result<Option<Sheet>, Exit> {
    let Some(name) = named(sheet) else { return Ok(None) };
    let shown = clean(name);
    let Some(path) = beside(sheet, name) else {
        let inside = inside(name);
        let message = if inside {
            format!("engine.like names \"{shown}\", and there is no such sheet in this sheet's folder")
        } else {
            format!("engine.like names \"{shown}\", which is not in this sheet's folder")
        };
        let near = near(sheet, name).filter(|_| inside).map(|n| format!("did you mean \"{n}\"?"));
        let help = "name a sheet beside this one, or write the engine's name without .json and nothing is compared";
        return Err(refused(sheet, message, &near.unwrap_or_else(|| help.to_owned()), io));
    };
    if let Some(through) = circle(sheet, &path) {
        let (message, help) = if through.len() < 3 {
            ("engine.like names this very sheet".to_owned(), "name another engine, one that proved good")
        } else {
            let help = "one good engine has to stand by itself: take engine.like out of its sheet";
            (format!("engine.like goes round in a circle: {}", through.join(", then ")), help)
        };
        return Err(refused(sheet, message, help, io));
    }
    match Sheet::read(&path) {
        Ok(like) => Ok(Some(like)),
        Err(faults) => {
            let text = faults.render(io.err_colour);
            io.complain(&text);
            let message = format!("engine.like names \"{shown}\", and that sheet does not hold together");
            Err(refused(sheet, message, "mend it as told above, or name another good engine", io))
        }
    }
}

fn refused(sheet: &Sheet, message: String, help: &str, io: &mut Io<'_>) -> Exit {
    let pointer = "/engine/like".to_owned();
    let span = sheet.source.span(&pointer);
    let fault = Fault { message, help: Some(help.to_owned()), pointer, span, second: None };
    let text = SheetFaults::new(sheet.source.clone(), vec![fault]).render(io.err_colour);
    io.complain(&text);
    Exit::INVALID
}

/// The file that a sheet names, if it is a file and no name.
fn named(sheet: &Sheet) -> Option<&str> {
    sheet.stated("engine.like").and_then(|(value, _)| value.as_str()).filter(|name| name.ends_with(".json"))
}

fn inside(name: &str) -> bool {
    Path::new(name).components().all(|c| matches!(c, Component::Normal(_) | Component::CurDir))
}

fn beside(sheet: &Sheet, name: &str) -> Option<PathBuf> {
    let path = sheet.source.folder.join(name);
    (inside(name) && path.is_file()).then_some(path)
}

/// The sheet in this one's folder whose name is nearest.
fn near(sheet: &Sheet, name: &str) -> Option<String> {
    let folder = if sheet.source.folder.as_os_str().is_empty() { Path::new(".") } else { &sheet.source.folder };
    let files = std::fs::read_dir(folder).into_iter().flatten().flatten();
    let mut names: Vec<String> =
        files.map(|f| f.file_name().to_string_lossy().into_owned()).filter(|n| n.ends_with(".json")).collect();
    names.sort();
    let own = Path::new(&sheet.source.name).file_name().map(|n| n.to_string_lossy().into_owned());
    nearest(name, names.iter().map(String::as_str).filter(|n| Some(*n) != own.as_deref())).map(clean)
}

/// The names on the way from a sheet over its good engine and that one's own, where it comes round.
fn circle(sheet: &Sheet, path: &Path) -> Option<Vec<String>> {
    let name = |path: &Path| clean(&path.file_name().unwrap_or(path.as_os_str()).to_string_lossy());
    let mut seen = vec![Path::new(&sheet.source.name).canonicalize().ok()?];
    let mut through = vec![name(Path::new(&sheet.source.name))];
    let mut next = path.to_path_buf();
    while through.len() < MOST {
        through.push(name(&next));
        let real = next.canonicalize().ok()?;
        if seen.contains(&real) {
            return Some(through);
        }
        seen.push(real);
        // what is wrong with a sheet further on is told when its own page is asked for
        let further = Sheet::read(&next).ok()?;
        next = beside(&further, named(&further)?)?;
    }
    None
}
