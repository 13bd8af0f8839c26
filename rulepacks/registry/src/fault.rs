//! What can go wrong with a registry, and what to do.

/// What went wrong. A registry's own words are among these: who shows them cleans them first.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum RegistryFault {
    /// Not written as a place is.
    #[error("\"{text}\" is not a place in a registry: {words}; write HOST/NAME:TAG or HOST/NAME@sha256:DIGEST")]
    NotAPlace {
        /** as given */
        text: String,
        /** what is wrong */
        words: String,
    },
    /// The registry does not answer.
    #[error("the registry {host} cannot be reached: {words}; check the name and the network, and try again")]
    Away {
        /** its host */
        host: String,
        /** the system's words */
        words: String,
    },
    /// Nothing of that name and tag.
    #[error("the registry has no {0}: check the name and the tag")]
    NotThere(String),
    /// The manifest is there and the layer is not.
    #[error("the registry has {0}, and not the layer that it is made of: have it pushed again")]
    LayerMissing(String),
    /// Who asks may not.
    #[error("the registry does not let you at {0}: give the user it knows with --user, or ask its keeper")]
    NotAllowed(String),
    /// Something else than a pack.
    #[error("{place} is not a rule pack: it is {found}; a pack is one layer of the type application/wasm")]
    NotAPack {
        /** the place */
        place: String,
        /** what is there */
        found: String,
    },
    /// Larger than a pack may be.
    #[error("{place} is {}, and a pack has at most {} MB; nothing was written", size_words(*.size), .limit / 1024 / 1024)]
    TooLarge {
        /** the place */
        place: String,
        /** what its manifest tells; none if it went on past the limit */
        size: Option<u64>,
        /** the limit in bytes */
        limit: u64,
    },
    /// Another size than the manifest has.
    #[error("{place} is {got} bytes, and its manifest says {stated}; nothing was written")]
    OtherSize {
        /** the place */
        place: String,
        /** what the manifest says */
        stated: u64,
        /** what came */
        got: u64,
    },
    /// The bytes are not those of the digest.
    #[error("{place} is not what its digest says; nothing was written\n  wanted  {wanted}\n  got     {got}")]
    OtherDigest {
        /** the place */
        place: String,
        /** the digest asked for */
        wanted: String,
        /** the digest of what came */
        got: String,
    },
    /// The registry's own no.
    #[error("the registry said no to {place}: {words}")]
    SaidNo {
        /** the place */
        place: String,
        /** its words */
        words: String,
    },
    /// Anything else.
    #[error("the registry and this program do not understand each other: {words}")]
    Other {
        /** what happened */
        words: String,
    },
}

fn size_words(size: Option<u64>) -> String {
    size.map_or_else(|| "more than it says".to_owned(), |s| format!("{} MB", s.div_ceil(1024 * 1024)))
}
