//! How a pack lies in a registry.

use oci_client::client::{Config, ImageLayer};
use oci_client::manifest::{OCI_IMAGE_MEDIA_TYPE, OciImageManifest};
use serde_json::json;
use std::collections::BTreeMap;

/// The config's media type, which tells that it is a component.
pub(crate) const CONFIG: &str = "application/vnd.wasm.config.v0+json";
/// The layer's media type.
pub(crate) const LAYER: &str = "application/wasm";

/// What is said of a pack beside its bytes.
#[derive(Debug, Clone)]
pub struct About {
    /// The pack's name.
    pub id: String,
    /// Its version.
    pub version: String,
    /// The day that it is pushed, as `2026-07-01`.
    pub day: String,
    /// SHA-256 of its bytes, 64 hexadecimal digits.
    pub sha256: String,
}

/// The layer, the config and the manifest of a pack.
pub(crate) fn artifact(bytes: &[u8], about: &About) -> (ImageLayer, Config, OciImageManifest) {
    let layer = ImageLayer::new(bytes.to_vec(), LAYER.to_owned(), None);
    // the layout knows no system but WASI's; that a pack imports nothing, not even that, `imports` says
    let config = json!({
        "created": format!("{}T00:00:00Z", about.day),
        "architecture": "wasm",
        "os": "wasip2",
        "layerDigests": [format!("sha256:{}", about.sha256)],
        "component": { "exports": ["thou:rules/pack@1.0.0"], "imports": [], "target": "thou:rules/rule-pack@1.0.0" },
    });
    let config = Config::new(config.to_string(), CONFIG.to_owned(), None);
    let title = |key: &str| format!("org.opencontainers.image.{key}");
    let annotations = BTreeMap::from([(title("title"), about.id.clone()), (title("version"), about.version.clone())]);
    let layers = [layer];
    let mut manifest = OciImageManifest::build(&layers, &config, Some(annotations));
    manifest.media_type = Some(OCI_IMAGE_MEDIA_TYPE.to_owned());
    let [layer] = layers;
    (layer, config, manifest)
}
