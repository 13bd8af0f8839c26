//! Pulling and pushing rule packs from and to an OCI registry. (in the making)
