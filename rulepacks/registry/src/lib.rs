//! Pulling and pushing rule packs from and to an OCI registry, the one part of `thou` that reaches the network.
//!
//! A pack is stored in the layout of the CNCF's TAG Runtime, working group Wasm, "Wasm OCI Artifact layout"
//! (<https://tag-runtime.cncf.io/wgs/wasm/deliverables/wasm-oci-artifact/>): one layer, the component's own bytes, and a
//! config that says what it imports and exports. So any registry keeps it and other tools of that layout read it.
//! The registry is spoken to over TLS, and over plain HTTP only on this computer itself.

mod fault;
mod layout;
mod library_fault;
mod place;

pub use fault::RegistryFault;
pub use layout::About;
pub use place::Place;

use layout::{CONFIG, LAYER};
use library_fault::fault_of;
use oci_client::Client;
use oci_client::client::{ClientConfig, ClientProtocol};
use oci_client::manifest::{OciImageManifest, OciManifest};
use oci_client::secrets::RegistryAuth;
use std::pin::Pin;
use std::task::{Context, Poll};
use std::time::Duration;

/// The largest layer that is fetched, in bytes: what a pack may be at the most.
pub const MAX_BYTES: u64 = 64 * 1024 * 1024;
/// How long a registry may take to be reached, and then to go on.
const PATIENCE: Duration = Duration::from_secs(30);

/// Who pulls or pushes, where the registry wants to know.
#[derive(Clone)]
pub struct Login {
    /// The user's name.
    pub user: String,
    /// The password or token.
    pub password: String,
}

/// A layer that was fetched: its bytes are those of its digest.
pub struct Pulled {
    /// The component.
    pub bytes: Vec<u8>,
    /// The manifest's digest: the place with `@` and this is this very pack for good.
    pub manifest: String,
}

/// Fetches the pack at a place. Its bytes have the digest that the manifest gives, and the manifest the one that the
/// place names, if it names one.
///
/// # Errors
/// When the registry cannot be reached, has no such pack, or what it has is no pack or is not what its digest says.
pub fn pull(place: &Place, login: Option<&Login>) -> Result<Pulled, RegistryFault> {
    run(async {
        let client = client(place)?;
        let told = |e| fault_of(e, place);
        let (manifest, digest) = client.pull_manifest(&place.reference, &auth(login)).await.map_err(told)?;
        let OciManifest::Image(manifest) = manifest else {
            return Err(RegistryFault::NotAPack { place: place.to_string(), found: "a list of several".to_owned() });
        };
        let layer = only_layer(&manifest, place)?;
        let mut sink = Capped { bytes: Vec::new(), full: false };
        // by its digest alone: a manifest's own links to other places are not followed
        let fetched = client.pull_blob(&place.reference, layer.0, &mut sink).await;
        if sink.full {
            return Err(RegistryFault::TooLarge { place: place.to_string(), size: None, limit: MAX_BYTES });
        }
        fetched.map_err(told)?;
        let got = u64::try_from(sink.bytes.len()).unwrap_or(u64::MAX);
        if got != layer.1 {
            return Err(RegistryFault::OtherSize { place: place.to_string(), stated: layer.1, got });
        }
        Ok(Pulled { bytes: sink.bytes, manifest: digest })
    })
}

/// Stores a pack at a place, and gives the digest of its manifest.
///
/// # Errors
/// When the registry cannot be reached or does not take it.
pub fn push(place: &Place, bytes: &[u8], about: &About, login: Option<&Login>) -> Result<String, RegistryFault> {
    run(async {
        let client = client(place)?;
        let told = |e| fault_of(e, place);
        let (layer, config, manifest) = layout::artifact(bytes, about);
        let auth = auth(login);
        client.push(&place.reference, &[layer], config, &auth, Some(manifest)).await.map_err(told)?;
        client.fetch_manifest_digest(&place.reference, &auth).await.map_err(told)
    })
}

/// The digest and size of the one layer, if the manifest is a pack's.
fn only_layer<'a>(manifest: &'a OciImageManifest, place: &Place) -> Result<(&'a str, u64), RegistryFault> {
    let other = |found: String| RegistryFault::NotAPack { place: place.to_string(), found };
    if manifest.config.media_type != CONFIG {
        return Err(other(format!("of the type {}", manifest.config.media_type)));
    }
    let [layer] = manifest.layers.as_slice() else {
        return Err(other(format!("made of {} layers", manifest.layers.len())));
    };
    if layer.media_type != LAYER {
        return Err(other(format!("with a layer of the type {}", layer.media_type)));
    }
    let size = u64::try_from(layer.size).map_err(|_| other(format!("with a layer of {} bytes", layer.size)))?;
    if size > MAX_BYTES {
        return Err(RegistryFault::TooLarge { place: place.to_string(), size: Some(size), limit: MAX_BYTES });
    }
    Ok((&layer.digest, size))
}

fn client(place: &Place) -> Result<Client, RegistryFault> {
    // a second call finds the first one's choice, which is the same
    let _ = rustls::crypto::ring::default_provider().install_default();
    let config = ClientConfig {
        protocol: if place.is_here() { ClientProtocol::Http } else { ClientProtocol::Https },
        platform_resolver: None,
        connect_timeout: Some(PATIENCE),
        read_timeout: Some(PATIENCE),
        user_agent: concat!("thou/", env!("CARGO_PKG_VERSION")),
        ..ClientConfig::default()
    };
    Client::try_from(config).map_err(|e| fault_of(e, place))
}

fn auth(login: Option<&Login>) -> RegistryAuth {
    login.map_or(RegistryAuth::Anonymous, |l| RegistryAuth::Basic(l.user.clone(), l.password.clone()))
}

fn run<T>(work: impl Future<Output = Result<T, RegistryFault>>) -> Result<T, RegistryFault> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    runtime.map_err(|e| RegistryFault::Other { words: e.to_string() })?.block_on(work)
}

/// Takes bytes until it has more than a pack's.
struct Capped {
    bytes: Vec<u8>,
    full: bool,
}

impl tokio::io::AsyncWrite for Capped {
    fn poll_write(mut self: Pin<&mut Self>, _: &mut Context<'_>, more: &[u8]) -> Poll<std::io::Result<usize>> {
        let after = u64::try_from(self.bytes.len().saturating_add(more.len())).unwrap_or(u64::MAX);
        if after > MAX_BYTES {
            self.full = true;
            return Poll::Ready(Err(std::io::Error::other("more than a pack may have")));
        }
        self.bytes.extend_from_slice(more);
        Poll::Ready(Ok(more.len()))
    }
    fn poll_flush(self: Pin<&mut Self>, _: &mut Context<'_>) -> Poll<std::io::Result<()>> {
        Poll::Ready(Ok(()))
    }
    fn poll_shutdown(self: Pin<&mut Self>, _: &mut Context<'_>) -> Poll<std::io::Result<()>> {
        Poll::Ready(Ok(()))
    }
}
