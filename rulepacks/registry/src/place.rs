//! Where a pack is in a registry.

use crate::fault::RegistryFault;
use oci_client::Reference;
use std::net::IpAddr;

/// A place in a registry: `HOST/NAME:TAG`, or `HOST/NAME@sha256:DIGEST`.
#[derive(Debug, Clone)]
pub struct Place {
    pub(crate) reference: Reference,
}

impl Place {
    /// Reads a place. The host and the tag are always written out: neither is guessed.
    ///
    /// # Errors
    /// When it is none, or names no host or no tag.
    pub fn parse(text: &str) -> Result<Self, RegistryFault> {
        let wrong = |words: &str| RegistryFault::NotAPlace { text: text.to_owned(), words: words.to_owned() };
        let (host, name) = text.split_once('/').ok_or_else(|| wrong("it names no registry"))?;
        if !(host.contains(['.', ':']) || host == "localhost") {
            return Err(wrong("it names no registry"));
        }
        if !name.contains([':', '@']) {
            return Err(wrong("it names no tag"));
        }
        let reference = text.parse::<Reference>().map_err(|e| wrong(&e.to_string()))?;
        Ok(Self { reference })
    }

    /// The registry's host, with its port if one is named.
    #[must_use]
    pub fn host(&self) -> &str {
        self.reference.registry()
    }

    /// The last part of the name, without the tag.
    #[must_use]
    pub fn name(&self) -> &str {
        self.reference.repository().rsplit('/').next().unwrap_or_default()
    }

    /// The place of one manifest for good, whatever becomes of the tag.
    #[must_use]
    pub fn at(&self, digest: &str) -> String {
        format!("{}/{}@{digest}", self.host(), self.reference.repository())
    }

    /// Whether a tag is named: what is pushed needs one.
    #[must_use]
    pub fn has_tag(&self) -> bool {
        self.reference.tag().is_some() && self.reference.digest().is_none()
    }

    /// Whether the registry is on this computer itself.
    pub(crate) fn is_here(&self) -> bool {
        let host = self.host();
        let host = host.rsplit_once(':').map_or(host, |(host, _)| host);
        host == "localhost" || host.parse::<IpAddr>().is_ok_and(|a| a.is_loopback())
    }
}

impl std::fmt::Display for Place {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.reference.fmt(f)
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn plain_http_is_for_this_computer_alone() {
        for here in ["localhost/x:1", "localhost:5000/x:1", "127.0.0.1:5000/a/x:1", "127.9.9.9/x:1"] {
            assert!(Place::parse(here).unwrap().is_here(), "{here}");
        }
        for there in ["10.0.0.1:5000/x:1", "192.168.1.2/x:1", "localhost.example.org/x:1", "127.0.0.1.example.org/x:1"]
        {
            assert!(!Place::parse(there).unwrap().is_here(), "{there}");
        }
    }

    #[test]
    fn host_and_tag_are_written_out() {
        let place = Place::parse("registry.example.org/shop/our-shop:1.0").unwrap();
        assert_eq!((place.host(), place.name(), place.has_tag()), ("registry.example.org", "our-shop", true));
        let digest = format!("sha256:{}", "0a".repeat(32));
        assert_eq!(place.at(&digest), format!("registry.example.org/shop/our-shop@{digest}"));
        assert!(!Place::parse(&place.at(&digest)).unwrap().has_tag());
        let says = |text: &str| Place::parse(text).unwrap_err().to_string();
        for text in ["our-shop:1.0", "shop/our-shop:1.0"] {
            assert!(says(text).contains("it names no registry"), "{}", says(text));
        }
        assert!(says("registry.example.org/our-shop").contains("it names no tag"));
        assert!(says("registry.example.org/Our-Shop:1").contains("is not a place in a registry"));
        assert!(says("https://registry.example.org/x:1").contains("is not a place in a registry"));
    }
}
