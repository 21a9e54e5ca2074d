//! The signature of a bundle: Ed25519 in the open minisign format, over the list of hashes.
//!
//! Whoever trusts the list trusts every file, so one small signature is enough, and any tool that knows
//! the format checks it. A signature is another each time it is made; all else of a bundle is not.

use std::io::Cursor;

use minisign::{PublicKey, PublicKeyBox, SecretKeyBox, SignatureBox};
use serde::Serialize;

/// Whether a bundle is signed by a key.
#[derive(Clone, Copy, Debug, Eq, PartialEq, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Signature {
    /// It is not signed, and no key was given.
    None,
    /// It is signed, and no key was given to check it by.
    NotChecked,
    /// It is signed by the key.
    Good,
    /// A key was given, and there is no signature.
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
            Self::Missing => Some("it is missing: the bundle is not signed"),
            Self::Bad => Some("it is not a signature of SHA256SUMS by this key"),
            Self::NoKey => Some("it was not checked: what was given is no public key"),
        }
    }
}

/// Checks a signature of the list of hashes by a public key: the text of its file, or its base64 line.
pub fn check(sums: Option<&Vec<u8>>, signature: Option<&Vec<u8>>, key: Option<&str>) -> Signature {
    let Some(key) = key else {
        return if signature.is_some() { Signature::NotChecked } else { Signature::None };
    };
    let Some(key) = public_key(key) else { return Signature::NoKey };
    let (Some(sums), Some(signature)) = (sums, signature) else { return Signature::Missing };
    let boxed = std::str::from_utf8(signature).ok().and_then(|text| SignatureBox::from_string(text).ok());
    let good = boxed.is_some_and(|boxed| {
        minisign::verify(&key, &boxed, Cursor::new(sums.as_slice()), true, false, false).is_ok()
    });
    if good { Signature::Good } else { Signature::Bad }
}

fn public_key(text: &str) -> Option<PublicKey> {
    let whole = PublicKeyBox::from_string(text).ok().and_then(|boxed| boxed.into_public_key().ok());
    whole.or_else(|| PublicKey::from_base64(text.trim()).ok())
}

/// The signature of a list of hashes by a secret key, as the text of its file.
///
/// A key that is locked by a password asks for it on the terminal.
///
/// # Errors
///
/// When the text is no secret key, or its password is not given.
pub fn sign(sums: &[u8], secret_key: &str, release: &str) -> Result<String, String> {
    let boxed = || SecretKeyBox::from_string(secret_key).map_err(|error| error.to_string());
    let key = match boxed()?.into_unencrypted_secret_key() {
        Ok(key) => key,
        Err(_) => boxed()?.into_secret_key(None).map_err(|error| error.to_string())?,
    };
    let trusted = format!("release {release}");
    let untrusted = "signature of SHA256SUMS";
    let signature = minisign::sign(None, &key, Cursor::new(sums), Some(&trusted), Some(untrusted));
    signature.map(SignatureBox::into_string).map_err(|error| error.to_string())
}
