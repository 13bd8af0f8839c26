//! What pulling and pushing have in common.

use crate::cli::io::{Exit, Io};

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Registry {
    /// Where in the registry: HOST/NAME:TAG, or HOST/NAME@sha256:DIGEST for one version for good
    #[arg(value_name = "PLACE")]
    place: String,
    /// The user that the registry knows; its password is asked for
    #[arg(long, value_name = "NAME")]
    user: Option<String>,
}

#[cfg(not(feature = "registry"))]
impl Registry {
    /// Says how to get what was left out.
    pub(super) fn left_out(&self, io: &mut Io<'_>) -> Exit {
        let _ = (&self.place, &self.user);
        io.complain(
            "This thou was built without the network, and so without pull and push.\n  \
             cargo install --path host --features registry\n\
             builds it with them. Or bring the pack's file here some other way: its digest\n\
             and its signature tell what it is, whichever way it came.",
        );
        Exit::INVALID
    }
}

#[cfg(feature = "registry")]
impl Registry {
    /// The place, and who asks.
    pub(super) fn open(&self) -> Result<(thou_registry::Place, Option<thou_registry::Login>), String> {
        let place = thou_registry::Place::parse(&self.place).map_err(|fault| format!("{fault}."))?;
        let Some(user) = self.user.clone() else { return Ok((place, None)) };
        let asked = super::keys::ask(&format!("Password of {user} at {}: ", place.host()));
        let password = asked.map_err(|fault| super::keys::sentence(&fault))?;
        Ok((place, Some(thou_registry::Login { user, password })))
    }
}

/// Says what stopped it. Among the words are a registry's own: none of them moves the cursor.
#[cfg(feature = "registry")]
pub(super) fn refuse(words: &str, exit: Exit, io: &mut Io<'_>) -> Exit {
    let lines: Vec<String> = words.lines().map(|line| crate::packs::clean::clip(line, 500)).collect();
    io.complain(&crate::cli::paper::folded(&lines.join("\n")));
    exit
}
