"""One file a subject; each registers its checks."""
