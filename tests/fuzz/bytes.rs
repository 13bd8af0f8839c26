//! Bytes without sense, and bytes with most of their sense.

use fastrand::Rng;

/// What a file of bytes can begin with to be taken for something.
const STARTS: [&[u8]; 6] = [b"\0asm\x0d\0\x01\0", b"\0asm\x01\0\0\0", b"\0asm", b"\x7fELF", b"(component", b""];

/// Any bytes, most of them behind the first bytes of a component, some of them in sections.
pub fn any(rng: &mut Rng) -> Vec<u8> {
    let mut out = STARTS[if rng.bool() { 0 } else { rng.usize(..STARTS.len()) }].to_vec();
    for _ in 0..rng.usize(..8) {
        let long = rng.usize(..200);
        let noise: Vec<u8> = (0..long).map(|_| rng.u8(..)).collect();
        if rng.bool() {
            out.push(rng.u8(..14));
            leb(noise.len(), &mut out);
        }
        if rng.u8(..4) == 0 {
            // a custom section with the manifest's name, whatever is in it
            out.push(0);
            leb(14 + noise.len(), &mut out);
            out.extend(b"\x0dthou-manifest");
        }
        out.extend(noise);
    }
    out
}

fn leb(mut n: usize, out: &mut Vec<u8>) {
    loop {
        let low = (n & 0x7f) as u8;
        n >>= 7;
        if n == 0 {
            out.push(low);
            return;
        }
        out.push(low | 0x80);
    }
}

/// The same bytes, but for a few.
pub fn bent(rng: &mut Rng, bytes: &[u8]) -> Vec<u8> {
    let mut out = bytes.to_vec();
    for _ in 0..=rng.usize(..4) {
        if out.is_empty() {
            break;
        }
        let at = rng.usize(..out.len());
        let long = rng.usize(..32).min(out.len() - at);
        match rng.u8(..6) {
            0 => out[at] ^= 1 << rng.u8(..8),
            1 => out[at] = [0, 1, 0x7f, 0x80, 0xff, b'"', b'{', b'}'][rng.usize(..8)],
            2 => drop(out.drain(at..at + long)),
            3 => {
                let piece = out[at..at + long].to_vec();
                let to = rng.usize(..=out.len());
                out.splice(to..to, piece);
            }
            4 => out.truncate(at),
            _ => {
                let noise: Vec<u8> = (0..long).map(|_| rng.u8(..)).collect();
                out.splice(at..at, noise);
            }
        }
    }
    out
}
