//! From the faults of the library that speaks to registries to ours.

use crate::fault::RegistryFault;
use crate::place::Place;
use oci_client::errors::{DigestError, OciDistributionError, OciErrorCode};
use std::error::Error;

/// What an error of the library comes to at this place.
pub(crate) fn fault_of(error: OciDistributionError, place: &Place) -> RegistryFault {
    let shown = place.to_string();
    match error {
        OciDistributionError::RequestError(e) if e.is_connect() || e.is_timeout() => {
            RegistryFault::Away { host: place.host().to_owned(), words: innermost(&e) }
        }
        OciDistributionError::IoError(e) => RegistryFault::Away { host: place.host().to_owned(), words: innermost(&e) },
        OciDistributionError::ImageManifestNotFoundError(_) | OciDistributionError::ServerError { code: 404, .. } => {
            RegistryFault::NotThere(shown)
        }
        OciDistributionError::UnauthorizedError { .. }
        | OciDistributionError::AuthenticationFailure(_)
        | OciDistributionError::ServerError { code: 401 | 403, .. } => RegistryFault::NotAllowed(shown),
        OciDistributionError::DigestError(DigestError::VerificationError { expected, actual }) => {
            RegistryFault::OtherDigest { place: shown, wanted: expected, got: actual }
        }
        OciDistributionError::UnsupportedMediaTypeError(found) => {
            RegistryFault::NotAPack { place: shown, found: format!("of the type {found}") }
        }
        OciDistributionError::RegistryError { envelope, .. } => {
            let has = |codes: &[OciErrorCode]| envelope.errors.iter().any(|e| codes.contains(&e.code));
            if has(&[OciErrorCode::ManifestUnknown, OciErrorCode::NameUnknown, OciErrorCode::NotFound]) {
                RegistryFault::NotThere(shown)
            } else if has(&[OciErrorCode::BlobUnknown]) {
                RegistryFault::LayerMissing(shown)
            } else if has(&[OciErrorCode::Unauthorized, OciErrorCode::Denied]) {
                RegistryFault::NotAllowed(shown)
            } else {
                let words: Vec<&str> = envelope.errors.iter().map(|e| e.message.as_str()).collect();
                RegistryFault::SaidNo { place: shown, words: words.join("; ") }
            }
        }
        OciDistributionError::ServerError { code, message, .. } => {
            let words = if message.trim().is_empty() { String::new() } else { format!(", {}", message.trim()) };
            RegistryFault::SaidNo { place: shown, words: format!("status {code}{words}") }
        }
        other => RegistryFault::Other { words: innermost(&other) },
    }
}

/// The words at the bottom of an error: what is above them only says that something failed.
fn innermost(error: &dyn Error) -> String {
    let mut deepest = error;
    while let Some(below) = deepest.source() {
        deepest = below;
    }
    deepest.to_string()
}
