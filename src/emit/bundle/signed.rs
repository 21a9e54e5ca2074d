//! Signs a finished bundle: its head names the key, its list of hashes follows, and the signature of that stands
//! beside.

use super::{BundleFault, pretty};
use crate::bundle::Head;
use crate::bundle::hash::{HEAD, SIGNATURE, SUMS, sums};
use crate::bundle::sign::SigningKey;
use crate::emit::Tree;

/// Signs the bundle of a tree.
///
/// # Errors
///
/// When the tree has no bundle, or the system gives no random numbers.
pub fn sign(tree: &mut Tree, key: &SigningKey) -> Result<(), BundleFault> {
    let within = |name: &str| format!("bundle/{name}");
    let mut head: Head =
        serde_json::from_slice(tree.get(&within(HEAD)).map(Vec::as_slice).unwrap_or_default())?;
    head.signed_by = Some(key.public().to_owned());
    tree.insert(within(HEAD), pretty(&head)?);
    let files = tree.iter().filter_map(|(path, bytes)| Some((path.strip_prefix("bundle/")?, bytes)));
    let hashed = files.filter(|(path, _)| ![SUMS, SIGNATURE].contains(path));
    let list = sums(&hashed.map(|(path, bytes)| (path.to_owned(), bytes.clone())).collect());
    let signature = key.sign(list.as_bytes(), &head.release).map_err(BundleFault::Signature)?;
    tree.insert(within(SUMS), list.into_bytes());
    tree.insert(within(SIGNATURE), signature.into_bytes());
    Ok(())
}
