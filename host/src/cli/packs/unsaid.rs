//! What a pack leaves unsaid.

use crate::cli::io::Io;
use crate::cli::paper::folded;
use thou_contract::Manifest;

/// Says what the services of a pack leave unsaid, which is no fault.
pub(super) fn unsaid(manifest: &Manifest, io: &mut Io<'_>) {
    for words in crate::packs::unsaid(manifest) {
        io.complain(&folded(&format!("{}: {words}", manifest.id)));
    }
}
