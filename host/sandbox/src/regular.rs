//! Reading a file that somebody else may have put there: opened once, an ordinary file, and no larger than is taken.

use std::fs::File;
use std::io::{Error, ErrorKind, Read};
use std::path::Path;

/// What came of reading a file.
pub(crate) enum Whole {
    /// All of it.
    Bytes(Vec<u8>),
    /// It has so many bytes, which are more than are taken; none was read.
    TooBig(u64),
}

/// The bytes of a file, if it is an ordinary one of at most this many. What only looks like a file (a pipe, a device, a
/// folder) is never opened: a pipe would wait for its other end for ever.
pub(crate) fn read(path: &Path, most: u64) -> std::io::Result<Whole> {
    ordinary(&std::fs::metadata(path)?)?;
    let file = File::open(path)?;
    // what was opened may be another than what was looked at
    let about = file.metadata()?;
    ordinary(&about)?;
    if about.len() > most {
        return Ok(Whole::TooBig(about.len()));
    }
    let mut bytes = Vec::with_capacity(usize::try_from(about.len()).unwrap_or(0));
    // it may still grow while it is read
    file.take(most + 1).read_to_end(&mut bytes)?;
    let size = u64::try_from(bytes.len()).unwrap_or(u64::MAX);
    Ok(if size > most { Whole::TooBig(size) } else { Whole::Bytes(bytes) })
}

/// The same as text, without the mark that some editors put before it.
pub(crate) fn text(path: &Path, most: u64) -> std::io::Result<String> {
    match read(path, most)? {
        Whole::Bytes(bytes) => {
            let text = String::from_utf8(bytes).map_err(|e| Error::new(ErrorKind::InvalidData, e.utf8_error()))?;
            Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
        }
        Whole::TooBig(bytes) => Err(Error::other(format!("it has {bytes} bytes, and {most} is the most"))),
    }
}

fn ordinary(about: &std::fs::Metadata) -> std::io::Result<()> {
    let what = match about.file_type() {
        kind if kind.is_file() => return Ok(()),
        kind if kind.is_dir() => "it is a folder",
        _ => "it is no ordinary file but a pipe, a socket or a device",
    };
    Err(Error::other(what))
}
