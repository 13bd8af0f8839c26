//! Arguments of what the services say.

use crate::class::NAMES;
use thou_sdk::prelude::*;

/// The argument that names the class.
pub(crate) const CLASS: Arg = Arg { name: "class", kind: "choice", choices: NAMES };
/// The argument that says what the life is multiplied by.
pub(crate) const FACTOR: Arg = Arg::of("factor", "ratio");
/// The argument that says whether that was held.
pub(crate) const HELD: Arg = Arg {
    name: "held",
    kind: "choice",
    choices: &[
        "",
        " (held at the shortest that is computed here)",
        " (held at the longest that is computed here)",
        " (not lengthened by a calculation)",
    ],
};
