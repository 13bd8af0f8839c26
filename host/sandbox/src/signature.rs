//! Signatures in minisign's open format: whose a file is, beside what it is.
//!
//! The format is Frank Denis, "Minisign" (<https://jedisct1.github.io/minisign/>): Ed25519 over the BLAKE2b-512 digest of
//! the file, and a second signature over the first one and a comment, which so can be trusted too. What the `minisign`
//! tool signs holds here, and the other way round.

use super::clean;
use super::regular;
use ct_codecs::{Base64, Decoder};
use minisign::{KeyPair, SecretKey, SecretKeyBox, SignatureBox};
use std::io::{Cursor, Write};
use std::path::{Path, PathBuf};

/// A signature stands beside its file, under the file's name with this after it.
pub const SUFFIX: &str = ".minisig";
/// A signature or a key is some hundred bytes long; what is longer than this many bytes is neither.
const MOST: u64 = 16 * 1024;

/// What can be wrong with a signature or a key.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum SignFault {
    /// A file that cannot be read.
    #[error("{file} cannot be read: {words}")]
    Unreadable {
        /** which */
        file: String,
        /** the system's words */
        words: String,
    },
    /// What was given as a public key is none.
    #[error("{0} is not a public key: wanted 56 characters that start with RW, or the .pub file that has them")]
    NotAPublicKey(String),
    /// What was given as a secret key is none, or is damaged.
    #[error("{0} is not a whole secret key: give the .key file that `thou pack keys` wrote, or minisign's")]
    NotASecretKey(String),
    /// The password does not open the key.
    #[error("the password does not open {0}, or the file is damaged")]
    WrongPassword(String),
    /// No password could be asked for.
    #[error("a password is asked for on a terminal, and there is none: {0}")]
    NoPassword(String),
    /// Two passwords that were to be the same.
    #[error("the two passwords are not the same; nothing was written")]
    PasswordsDiffer,
    /// A password that anybody has.
    #[error("an empty password keeps nobody out; if that is meant, say so with --no-password")]
    EmptyPassword,
    /// No signature beside the file.
    #[error("there is no {0}: ask whoever gave the file out for it")]
    NoSignature(String),
    /// A signature that is none.
    #[error("{file} is not a whole signature: {words}")]
    Damaged {
        /** which */
        file: String,
        /** what is wrong */
        words: String,
    },
    /// Signed by the legacy way, over the file itself.
    #[error("{0} is a signature of the old kind, over the file instead of its digest: sign it again without -l")]
    OldKind(String),
    /// Signed with another key.
    #[error("{file} was made with the key {made}, and not with {wanted}")]
    OtherKey {
        /** which */
        file: String,
        /** the key's number in the signature */
        made: String,
        /** the number of the key that it should be */
        wanted: String,
    },
    /// The signature is not one of these bytes.
    #[error("{0} does not hold: it or the file was changed after the signing")]
    DoesNotHold(String),
    /// A file that is there already.
    #[error("{0} is there already, and is not written over")]
    Exists(String),
    /// A file that cannot be written.
    #[error("{file} cannot be written: {words}")]
    NotWritten {
        /** which */
        file: String,
        /** the system's words */
        words: String,
    },
    /// No keys could be made, or nothing signed.
    #[error("nothing was signed: {0}")]
    Failed(String),
}

/// The key that tells whose a signature is.
#[derive(Debug, Clone)]
pub struct PublicKey(minisign::PublicKey);

impl PublicKey {
    /// A key as it is written: its 56 characters.
    ///
    /// # Errors
    /// When it is no key.
    pub fn parse(text: &str) -> Result<Self, SignFault> {
        let fault = || SignFault::NotAPublicKey(format!("\"{}\"", clean::clip(text, 60)));
        let key = minisign::PublicKey::from_base64(text).map_err(|_| fault())?;
        // the first two bytes name the algorithm, Ed25519
        if key.to_bytes().starts_with(b"Ed") { Ok(Self(key)) } else { Err(fault()) }
    }

    /// A key as it is given on the command line: its characters, or the .pub file that has them in its last line.
    ///
    /// # Errors
    /// When it is neither.
    pub fn given(text: &str) -> Result<Self, SignFault> {
        if let Ok(key) = Self::parse(text) {
            return Ok(key);
        }
        let path = Path::new(text);
        if !path.exists() {
            return Err(SignFault::NotAPublicKey(format!("\"{}\"", clean::clip(text, 60))));
        }
        let name = shown(path);
        let whole = read(path)?;
        let last = whole.lines().map(str::trim).rfind(|l| !l.is_empty()).unwrap_or_default();
        Self::parse(last).map_err(|_| SignFault::NotAPublicKey(name))
    }

    /// Its number, 16 hexadecimal digits: a name for people, not a proof.
    #[must_use]
    pub fn number(&self) -> String {
        number(self.0.keynum())
    }

    /// Its 56 characters.
    #[must_use]
    pub fn text(&self) -> String {
        self.0.to_base64()
    }

    /// Holds a file's bytes to the signature beside it, and gives the comment that was signed along.
    ///
    /// # Errors
    /// When there is no signature, or it is of another key or of other bytes.
    pub fn holds(&self, file: &Path, bytes: &[u8]) -> Result<String, SignFault> {
        let beside = beside(file);
        if !beside.exists() {
            return Err(SignFault::NoSignature(shown(&beside)));
        }
        self.holds_text(&read(&beside)?, &shown(&beside), bytes)
    }

    /// The same with a signature's text; `name` is its file's.
    ///
    /// # Errors
    /// As [`Self::holds`].
    pub fn holds_text(&self, text: &str, name: &str, bytes: &[u8]) -> Result<String, SignFault> {
        let damaged = |words: &str| SignFault::Damaged { file: name.to_owned(), words: words.to_owned() };
        whole(text).map_err(damaged)?;
        let signature = SignatureBox::from_string(text).map_err(|e| damaged(&clean::clip(&e.to_string(), 200)))?;
        if signature.keynum() != self.0.keynum() {
            let made = number(signature.keynum());
            return Err(SignFault::OtherKey { file: name.to_owned(), made, wanted: self.number() });
        }
        if !signature.is_prehashed() {
            return Err(SignFault::OldKind(name.to_owned()));
        }
        minisign::verify(&self.0, &signature, Cursor::new(bytes), true, false, false)
            .map_err(|_| SignFault::DoesNotHold(name.to_owned()))?;
        Ok(clean::clean(&signature.trusted_comment().unwrap_or_default()))
    }
}

impl PartialEq for PublicKey {
    fn eq(&self, other: &Self) -> bool {
        self.0.to_bytes() == other.0.to_bytes()
    }
}

/// Where a file's signature stands.
#[must_use]
pub fn beside(file: &Path) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push(SUFFIX);
    PathBuf::from(name)
}

/// Signs these bytes with the key in a file: the text of the signature, and the public half of the key. `password` is
/// asked only where the key has one.
///
/// # Errors
/// When the key cannot be read or opened.
pub fn sign(
    bytes: &[u8],
    comment: &str,
    key: &Path,
    password: &mut dyn FnMut() -> Result<String, SignFault>,
) -> Result<(String, PublicKey), SignFault> {
    let secret = open(key, password)?;
    let public = minisign::PublicKey::from_secret_key(&secret).map_err(|e| SignFault::Failed(e.to_string()))?;
    let comments = (Some(comment), Some("signature from minisign secret key"));
    let made = minisign::sign(Some(&public), &secret, Cursor::new(bytes), comments.0, comments.1).map_err(|e| {
        match e.kind() {
            // the two halves of the key do not belong together
            minisign::ErrorKind::Verify => SignFault::NotASecretKey(shown(key)),
            _ => SignFault::Failed(clean::clean(&e.to_string())),
        }
    })?;
    Ok((made.into_string(), PublicKey(public)))
}

/// Makes a pair of keys, `NAME.key` for the signer alone and `NAME.pub` for everybody; no password: the secret key is
/// written as it is.
///
/// # Errors
/// When one of the files is there already or cannot be written.
pub fn make_keys(name: &Path, password: Option<String>) -> Result<PublicKey, SignFault> {
    let file = |ending: &str| PathBuf::from(format!("{}{ending}", name.display()));
    let (secret_file, public_file) = (file(".key"), file(".pub"));
    for file in [&secret_file, &public_file] {
        if file.exists() {
            return Err(SignFault::Exists(shown(file)));
        }
    }
    if password.as_deref() == Some("") {
        return Err(SignFault::EmptyPassword);
    }
    let failed = |e: minisign::PError| SignFault::Failed(clean::clean(&e.to_string()));
    let (pair, comment) = match password {
        Some(password) => (KeyPair::generate_encrypted_keypair(Some(password)), "minisign encrypted secret key"),
        None => (KeyPair::generate_unencrypted_keypair(), "minisign unencrypted secret key"),
    };
    let pair = pair.map_err(failed)?;
    write_new(&secret_file, &pair.sk.to_box(Some(comment)).map_err(failed)?.into_string(), true)?;
    write_new(&public_file, &pair.pk.to_box().map_err(failed)?.into_string(), false)?;
    Ok(PublicKey(pair.pk))
}

fn open(key: &Path, password: &mut dyn FnMut() -> Result<String, SignFault>) -> Result<SecretKey, SignFault> {
    let text = read(key)?;
    let name = shown(key);
    let not_whole = || SignFault::NotASecretKey(name.clone());
    // six bytes name the algorithms: Ed25519, none or scrypt, BLAKE2b
    let start = text.lines().nth(1).and_then(|l| l.get(..8)).unwrap_or_default();
    let secret = SecretKeyBox::from(text.clone());
    match start {
        "RWQAAEIy" => unencrypted(&text, secret).ok_or_else(not_whole),
        "RWRTY0Iy" => secret.into_secret_key(Some(password()?)).map_err(|e| match e.kind() {
            minisign::ErrorKind::Verify => SignFault::WrongPassword(name.clone()),
            _ => not_whole(),
        }),
        _ => Err(not_whole()),
    }
}

/// A key without a password. The `minisign` tool leaves its checksum out, all zeros: such a key is held to its own public
/// half when it signs.
fn unencrypted(text: &str, secret: SecretKeyBox) -> Option<SecretKey> {
    let bytes = Base64::decode_to_vec(text.lines().nth(1)?, None).ok()?;
    let (_, checksum) = bytes.split_last_chunk::<32>()?;
    if checksum == &[0; 32] { SecretKey::from_bytes(&bytes).ok() } else { secret.into_unencrypted_secret_key().ok() }
}

/// Holds a signature's text to its shape, before its parts are taken at their lengths.
fn whole(text: &str) -> Result<(), &'static str> {
    let mut lines = text.lines();
    let mut line = || lines.next().unwrap_or_default();
    // 74 and 64 bytes in base64, and neither has another length
    let of_length = |line: &str, length: usize, end: &str| line.trim().len() == length && line.trim().ends_with(end);
    if !line().starts_with("untrusted comment: ") {
        return Err("its first line is to start with \"untrusted comment: \"");
    }
    if !of_length(line(), 100, "=") {
        return Err("its second line is to be a signature, 100 characters");
    }
    if !line().starts_with("trusted comment: ") {
        return Err("its third line is to start with \"trusted comment: \"");
    }
    if !of_length(line(), 88, "==") {
        return Err("its fourth line is to be a signature, 88 characters");
    }
    Ok(())
}

fn read(file: &Path) -> Result<String, SignFault> {
    regular::text(file, MOST)
        .map_err(|e| SignFault::Unreadable { file: shown(file), words: clean::clean(&e.to_string()) })
}

/// Writes a file that was not there; a secret one for its owner alone.
fn write_new(file: &Path, text: &str, secret: bool) -> Result<(), SignFault> {
    let mut options = std::fs::OpenOptions::new();
    options.write(true).create_new(true);
    #[cfg(unix)]
    if secret {
        std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    }
    #[cfg(not(unix))]
    let _ = secret;
    let written = options.open(file).and_then(|mut f| f.write_all(text.as_bytes()));
    written.map_err(|e| match e.kind() {
        std::io::ErrorKind::AlreadyExists => SignFault::Exists(shown(file)),
        _ => SignFault::NotWritten { file: shown(file), words: clean::clean(&e.to_string()) },
    })
}

/// A key's number as minisign prints it: eight bytes, the last one first.
fn number(bytes: &[u8]) -> String {
    bytes.iter().rev().map(|b| format!("{b:02X}")).collect()
}

fn shown(path: &Path) -> String {
    clean::clean(&path.display().to_string())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    // Published with the format's reference implementation in Rust (crates `minisign` and `minisign-verify`, their
    // documentation and tests): a key, and its signatures of the four bytes "test", hashed first and of the old kind.
    const KEY: &str = "RWQf6LRCGA9i53mlYecO4IzT51TGPpvWucNSCh1CBM0QTaLn73Y7GFO3";
    const HASHED: &str = "untrusted comment: signature from minisign secret key
RUQf6LRCGA9i559r3g7V1qNyJDApGip8MfqcadIgT9CuhV3EMhHoN1mGTkUidF/z7SrlQgXdy8ofjb7bNJJylDOocrCo8KLzZwo=
trusted comment: timestamp:1633700835\tfile:test\tprehashed
wLMDjy9FLAuxZ3q4NlEvkgtyhrr0gtTu6KC4KBJdITbbOeAi1zBIYo0v4iTgt8jJpIidRJnp94ABQkJAgAooBQ==";
    const OLD: &str = "untrusted comment: signature from minisign secret key
RWQf6LRCGA9i59SLOFxz6NxvASXDJeRtuZykwQepbDEGt87ig1BNpWaVWuNrm73YiIiJbq71Wi+dP9eKL8OC351vwIasSSbXxwA=
trusted comment: timestamp:1555779966\tfile:test
QtKMXWyYcwdpZAlPF7tE2ENJkRd1ujvKjlj1m9RtHTBnZPa5WKU5uWRs5GoP5M/VqE81QFuMKI5k/SfNQUaOAA==";

    fn holds(text: &str, bytes: &[u8]) -> Result<String, SignFault> {
        PublicKey::parse(KEY).unwrap().holds_text(text, "test.minisig", bytes)
    }

    #[test]
    fn the_published_signature_holds_and_no_other_bytes_do() {
        assert_eq!(PublicKey::parse(KEY).unwrap().number(), "E7620F1842B4E81F");
        assert_eq!(holds(HASHED, b"test").unwrap(), "timestamp:1633700835 file:test prehashed");
        let does_not = Err(SignFault::DoesNotHold("test.minisig".to_owned()));
        assert_eq!(holds(HASHED, b"tesT"), does_not);
        assert_eq!(holds(&HASHED.replace("file:test", "file:best"), b"test"), does_not);
        assert_eq!(holds(OLD, b"test"), Err(SignFault::OldKind("test.minisig".to_owned())));
    }

    /// Whatever is cut off or bent, it is refused and nothing falls over.
    #[test]
    fn a_damaged_signature_is_refused() {
        for end in 0..HASHED.len() {
            assert!(holds(&HASHED[..end], b"test").is_err(), "cut at {end}");
        }
        for at in 0..HASHED.len() {
            let mut bent = HASHED.as_bytes().to_vec();
            bent[at] = if bent[at] == b'A' { b'B' } else { b'A' };
            let bent = String::from_utf8(bent).unwrap();
            let untrusted = HASHED.find('\n').unwrap();
            // the first line is free after its label: nothing vouches for it
            if holds(&bent, b"test").is_ok() {
                assert!(("untrusted comment: ".len()..untrusted).contains(&at), "bent at {at}");
            }
        }
    }

    #[test]
    fn what_is_no_key_is_told() {
        for text in ["", "RW", &KEY[..55], &format!("{KEY}A"), &KEY.replace("RWQ", "RUQ"), &KEY.replace('Q', "!")] {
            assert!(matches!(PublicKey::parse(text), Err(SignFault::NotAPublicKey(_))), "{text}");
        }
    }
}
