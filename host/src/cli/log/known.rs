//! What a log can name of the rule packs: services, parts, and what comes apart for them.

use crate::cli::io::{Exit, Io};
use crate::cli::load;
use crate::cli::options::PackFiles;
use crate::packs::LoadedPack;
use std::collections::BTreeSet;
use thou_text::nearest;

/// Services, parts, and what comes apart for them.
#[derive(Debug, Default)]
pub(in crate::cli) struct Known {
    services: BTreeSet<String>,
    pub(in crate::cli) parts: BTreeSet<String>,
    pub(super) opens: BTreeSet<String>,
    pub(super) packs: Vec<LoadedPack>,
}

impl Known {
    pub(super) fn of(packs: Vec<LoadedPack>) -> Self {
        let mut known = Self::default();
        for pack in &packs {
            for rule in &pack.manifest.rules {
                if let Some(service) = &rule.service {
                    known.services.insert(format!("{}/{}", pack.manifest.id, rule.id));
                    known.parts.insert(service.part.clone());
                    known.opens.insert(service.opens.clone());
                }
            }
        }
        known.packs = packs;
        known
    }

    /// A part as the services name it, however its letters were written; another one as it is.
    pub(in crate::cli) fn part(&self, name: &str) -> String {
        let known = self.parts.iter().find(|part| part.to_lowercase() == name.to_lowercase());
        known.cloned().unwrap_or_else(|| name.to_owned())
    }

    /// A service by its rule's name, with or without its pack.
    pub(super) fn service(&self, name: &str) -> Result<String, String> {
        let tail = |service: &'_ String| service.split_once('/').map_or(String::new(), |(_, rule)| rule.to_owned());
        let written = name.to_lowercase();
        let found: Vec<&String> = self.services.iter().filter(|s| **s == written || tail(s) == written).collect();
        match found.as_slice() {
            [one] => Ok((*one).clone()),
            [] => {
                let tails: Vec<String> = self.services.iter().map(tail).collect();
                let hint =
                    nearest(name, tails.iter().map(String::as_str).chain(self.services.iter().map(String::as_str)));
                let hint = hint
                    .map_or_else(|| format!("the services are {}", tails.join(", ")), |n| format!("did you mean {n}?"));
                Err(format!("no loaded pack has a service \"{}\"; {hint}", crate::packs::clean::clip(name, 40)))
            }
            many => {
                let all: Vec<&str> = many.iter().map(|s| s.as_str()).collect();
                Err(format!("{} packs have a service \"{name}\": write {}", many.len(), all.join(" or ")))
            }
        }
    }
}

/// The services that the packs know.
pub(in crate::cli) fn load_known(packs: &PackFiles, io: &mut Io<'_>) -> Result<Known, Exit> {
    let (packs, faults) = load::packs(packs, None, io);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    if faults.is_empty() { Ok(Known::of(packs)) } else { Err(Exit::PACK) }
}
