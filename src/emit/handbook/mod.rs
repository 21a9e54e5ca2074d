//! The handbook: static sheets that open by double click, complete without scripts.
//!
//! Flow: the model is turned into plain view structs ([`view`]), a template writes each as a page,
//! and [`drawing`](crate::emit::drawing) supplies the figures. Invariants: templates decide nothing
//! about data; every text of a file is escaped where it lands; a link is relative and explicit; the
//! same model gives the same bytes.

mod assets;
mod find;
mod indexes;
mod offline;
mod press;
mod sheets;
mod single;
mod slim;
mod templates;
mod view;

use std::collections::BTreeMap;
use std::fmt;

pub use offline::WORKER;
use press::Press;
pub use single::{BEGINS as SINGLE_BEGINS, single};

use crate::bundle::compare::Changes;
use crate::check::Checked;
use crate::diag::Rule;
use crate::emit::Tree;
use crate::model::BuildId;

/// What the handbook is made from.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'a> {
    /// The proved base.
    pub checked: &'a Checked,
    /// Every rule, for the page of rules.
    pub rules: &'a [&'static Rule],
    /// Hash of the whole content.
    pub content_hash: &'a str,
    /// Hash of what each build states.
    pub build_hashes: &'a BTreeMap<BuildId, String>,
    /// What changed since an older release, where one was named.
    pub changes: Option<&'a Changes>,
}

/// A page could not be written: a defect of a template, or two sheets at one place; never one of the base.
#[derive(Debug)]
pub struct HandbookError {
    sheet: String,
    /// What the template engine said; none where another sheet stands there already.
    cause: Option<tera::Error>,
}

impl fmt::Display for HandbookError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.cause {
            Some(cause) => write!(f, "cannot write the sheet {}: {cause}", self.sheet),
            None => write!(f, "two sheets want one place: {}", self.sheet),
        }
    }
}

impl std::error::Error for HandbookError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        self.cause.as_ref().map(|cause| cause as _)
    }
}

/// Writes every sheet, index and asset of the handbook.
///
/// # Errors
/// [`HandbookError`] if a template is at fault.
pub fn handbook(facts: &Facts<'_>) -> Result<Tree, HandbookError> {
    let mut press = Press::new(facts)?;
    indexes::print(&mut press)?;
    sheets::print(&mut press)?;
    indexes::jobs(&mut press)?;
    // Last, for it says how much the handbook takes on a device.
    indexes::about(&mut press)?;
    Ok(press.into_tree())
}
