//! The signature of a bundle: Ed25519 in the open minisign format, over the list of hashes.
//!
//! Whoever trusts the list trusts every file, so one small signature is enough, and any tool that knows
//! the format checks it. A signature is another each time it is made; all else of a bundle is not.
//!
//! A bundle that `compile` signs names the public key in `bundle.json`. That proves to nobody who signed it,
//! and so is no reason to trust; but without any key at hand, a signature that was damaged or lost is noticed.

use std::io::Cursor;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use minisign::{PublicKey, PublicKeyBox, SecretKey, SecretKeyBox, SignatureBox};
use serde::Serialize;

/// The line that no signature covers; a bundle has this one and no other.
const UNTRUSTED: &str = "signature of SHA256SUMS";

/// Length of an Ed25519 signature (RFC 8032, section 5.1.6).
const SIGNATURE_BYTES: usize = 64;

/// Whether a bundle is signed by a key.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signature {
    /// It is not signed, and no key was given.
    None,
    /// It is signed, and no key was given to say by whom: by the key that `bundle.json` names, if it names one.
    NotChecked,
    /// It is signed by the key.
    Good,
    /// There is no signature, and a key was given or `bundle.json` names one.
    Missing,
    /// The signature is not of this key, or not of these files.
    Bad,
    /// What was given as a key is none.
    NoKey,
}

impl Signature {
    /// The word that JSON uses.
    pub const fn word(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::NotChecked => "not-checked",
            Self::Good => "good",
            Self::Missing => "missing",
            Self::Bad => "bad",
            Self::NoKey => "no-key",
        }
    }

    /// What is wrong with it, if anything is.
    pub const fn problem(self) -> Option<&'static str> {
        match self {
            Self::None | Self::NotChecked | Self::Good => None,
            Self::Missing => Some("it is missing"),
            Self::Bad => Some("it is not a signature of SHA256SUMS by this key"),
            Self::NoKey => Some("it was not checked: what was given is no public key"),
        }
    }
}

/// Checks a signature of the list of hashes by a public key, the text of its file or its base64 line; `named` is
/// the key that the bundle names itself.
pub fn check(
    sums: Option<&Vec<u8>>,
    signature: Option<&Vec<u8>>,
    key: Option<&str>,
    named: Option<&str>,
) -> Signature {
    let Some(by) = key.or(named) else {
        return if signature.is_some() { Signature::NotChecked } else { Signature::None };
    };
    let Some(by) = public_key(by) else {
        return if key.is_some() { Signature::NoKey } else { Signature::Bad };
    };
    let (Some(sums), Some(signature)) = (sums, signature) else { return Signature::Missing };
    match (is_of(sums, signature, &by, named.is_some()), key) {
        (false, _) => Signature::Bad,
        (true, Some(_)) => Signature::Good,
        (true, None) => Signature::NotChecked,
    }
}

/// True if a signature is of these hashes by this key; where `compile` made it, every byte is as it writes it.
fn is_of(sums: &[u8], signature: &[u8], key: &PublicKey, ours: bool) -> bool {
    let Ok(text) = std::str::from_utf8(signature) else { return false };
    // The crate takes for granted that the signature of the trusted comment is as long as it must be.
    let last = text.lines().nth(3).and_then(|line| STANDARD.decode(line.trim()).ok());
    if last.is_none_or(|bytes| bytes.len() != SIGNATURE_BYTES) {
        return false;
    }
    let Ok(boxed) = SignatureBox::from_string(text) else { return false };
    let as_written = || {
        boxed.untrusted_comment().is_ok_and(|comment| comment == UNTRUSTED)
            && boxed.clone().into_string() == text
    };
    minisign::verify(key, &boxed, Cursor::new(sums), true, false, false).is_ok() && (!ours || as_written())
}

fn public_key(text: &str) -> Option<PublicKey> {
    let whole = PublicKeyBox::from_string(text).ok().and_then(|boxed| boxed.into_public_key().ok());
    whole.or_else(|| PublicKey::from_base64(text.trim()).ok())
}

/// A secret key to sign with.
pub struct SigningKey {
    secret: SecretKey,
    /// Its public half, as its base64 line.
    public: String,
}

impl SigningKey {
    /// The key in the text of its file; one that is locked by a password asks for it on the terminal.
    ///
    /// # Errors
    ///
    /// When the text is no secret key, or its password is not given.
    pub fn read(text: &str) -> Result<Self, String> {
        let boxed = || SecretKeyBox::from_string(text).map_err(|error| error.to_string());
        let secret = match boxed()?.into_unencrypted_secret_key() {
            Ok(key) => key,
            Err(_) => boxed()?.into_secret_key(None).map_err(|error| error.to_string())?,
        };
        let public = PublicKey::from_secret_key(&secret).map_err(|error| error.to_string())?.to_base64();
        Ok(Self { secret, public })
    }

    /// Its public half, as its base64 line.
    pub fn public(&self) -> &str {
        &self.public
    }

    /// The signature of a list of hashes, as the text of its file.
    ///
    /// # Errors
    ///
    /// When the system gives no random numbers.
    pub fn sign(&self, sums: &[u8], release: &str) -> Result<String, String> {
        let trusted = format!("release {release}");
        let signature =
            minisign::sign(None, &self.secret, Cursor::new(sums), Some(&trusted), Some(UNTRUSTED));
        signature.map(SignatureBox::into_string).map_err(|error| error.to_string())
    }
}
