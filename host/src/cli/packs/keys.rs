//! Making a pair of keys.

use crate::cli::io::{Exit, Io};
use crate::cli::paper::folded;
use crate::packs::clean;
use crate::packs::signature::{self, SignFault};
use std::path::PathBuf;

#[derive(Debug, clap::Args)]
pub(in crate::cli) struct Keys {
    /// What to call them: NAME.key is the secret one, NAME.pub the public one
    #[arg(long, value_name = "NAME")]
    out: PathBuf,
    /// Leave the secret key without a password: who can read the file can sign as you
    #[arg(long)]
    no_password: bool,
}

pub(super) fn keys(args: &Keys, io: &mut Io<'_>) -> Exit {
    let password = if args.no_password { Ok(None) } else { new_password().map(Some) };
    match password.and_then(|password| signature::make_keys(&args.out, password)) {
        Ok(key) => {
            let name = clean::clean(&args.out.display().to_string());
            io.say(&format!(
                "{name}.key   the secret key: yours alone; keep a copy apart from this computer\n\
                 {name}.pub   the public key, for everybody:\n  {}\n",
                key.text()
            ));
            Exit::FINE
        }
        Err(fault) => {
            io.complain(&sentence(&fault));
            Exit::INVALID
        }
    }
}

/// The password of a key, asked for on the terminal.
pub(super) fn password() -> Result<String, SignFault> {
    ask("Password of the key: ")
}

fn new_password() -> Result<String, SignFault> {
    let first = ask("A password for the new key: ")?;
    let again = ask("The same again: ")?;
    if first == again { Ok(first) } else { Err(SignFault::PasswordsDiffer) }
}

pub(super) fn ask(words: &str) -> Result<String, SignFault> {
    rpassword::prompt_password(words).map_err(|e| SignFault::NoPassword(clean::clean(&e.to_string())))
}

/// A fault as a sentence of its own.
pub(super) fn sentence(fault: &SignFault) -> String {
    folded(&format!("{fault}."))
}
