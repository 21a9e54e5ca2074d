//! What the find of a base has: what is in the base, and the bench sums.

use crate::compute::sums::all;
use crate::find::{Fixed, Index};
use crate::model::Model;

/// The index of a base, as handbook, bundle and `lookup` search it.
#[must_use]
pub fn index(model: &Model) -> Index {
    Index::of(model, all().map(|sum| Fixed::sum(sum.id, sum.title, sum.aka, "sums")))
}
