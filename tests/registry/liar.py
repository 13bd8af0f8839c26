"""A registry on the loopback interface that lies, each repository in its own way."""

import contextlib
import hashlib
import http.server
import json
import threading

MANIFEST = "application/vnd.oci.image.manifest.v1+json"
INDEX = "application/vnd.oci.image.index.v1+json"
CONFIG = "application/vnd.wasm.config.v0+json"
OTHER = b"other bytes"
TEXT = b"these are words, and no pack\n"


def digest(data):
    return "sha256:" + hashlib.sha256(data).hexdigest()


def manifest(layers, config=CONFIG):
    return json.dumps({"schemaVersion": 2, "mediaType": MANIFEST,
                       "config": {"mediaType": config, "digest": digest(b"{}"), "size": 2}, "layers": layers}).encode()


def layer(data, media="application/wasm", size=None):
    return {"mediaType": media, "digest": digest(data), "size": len(data) if size is None else size}


def honest(ours):
    return manifest([layer(ours)])


def manifests(ours):
    """By repository."""
    return {
        "honest": honest(ours),
        "other-config": manifest([layer(ours)], "application/vnd.oci.image.config.v1+json"),
        "other-layer": manifest([layer(ours, "application/octet-stream")]),
        "two-layers": manifest([layer(ours), layer(ours)]),
        "index": json.dumps({"schemaVersion": 2, "mediaType": INDEX, "manifests": []}).encode(),
        "large": manifest([layer(ours, size=65 * 1024 * 1024)]),
        "endless": manifest([layer(ours)]),
        "other-size": manifest([layer(ours, size=7)]),
        "other-bytes": manifest([layer(ours)]),
        "no-layer": manifest([layer(ours)]),
        "not-a-pack": manifest([layer(TEXT)]),
        "other-manifest": honest(ours),
    }


@contextlib.contextmanager
def serve(ours):
    """Serves until the block ends; its host and port."""
    told = manifests(ours)

    class Liar(http.server.BaseHTTPRequestHandler):
        protocol_version = "HTTP/1.1"

        def log_message(self, *_):
            pass

        def answer(self, status, body, media="application/json"):
            self.send_response(status)
            self.send_header("Content-Type", media)
            self.send_header("Content-Length", str(len(body)))
            self.end_headers()
            self.wfile.write(body)

        def do_GET(self):
            parts = self.path.strip("/").split("/")
            if parts == ["v2"]:
                return self.answer(200, b"{}")
            name, kind = parts[1], parts[3]
            if name == "no-entry":
                error = {"errors": [{"code": "DENIED", "message": "not you"}]}
                return self.answer(403, json.dumps(error).encode())
            if name == "trouble":
                return self.answer(500, b"\x1b[2Jout of order", "text/plain")
            if kind == "manifests":
                media = INDEX if name == "index" else MANIFEST
                return self.answer(200, told[name], media)
            if name == "no-layer":
                error = {"errors": [{"code": "BLOB_UNKNOWN", "message": "gone"}]}
                return self.answer(404, json.dumps(error).encode())
            if name == "endless":
                return self.endless()
            body = {"other-bytes": OTHER, "not-a-pack": TEXT}.get(name, ours)
            return self.answer(200, body, "application/octet-stream")

        def endless(self):
            self.send_response(200)
            self.send_header("Transfer-Encoding", "chunked")
            self.end_headers()
            piece = bytes(1024 * 1024)
            with contextlib.suppress(OSError):
                # a little past the limit, so that a client that reads on is seen by what it says
                for _ in range(70):
                    self.wfile.write(b"100000\r\n" + piece + b"\r\n")
                self.wfile.write(b"0\r\n\r\n")
            self.close_connection = True

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Liar)
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    try:
        yield f"127.0.0.1:{server.server_address[1]}"
    finally:
        server.shutdown()
        server.server_close()
