//! The rules, and the proof that a model passed them.

use crate::model::Model;

/// A model that passed every rule: what emitters accept.
#[derive(Debug)]
pub struct Checked(Model);

impl Checked {
    /// The model.
    pub const fn model(&self) -> &Model {
        &self.0
    }
}
