//! First readings that are there under a name that is not understood: that is said where they stand, and no second
//! reading is said to lack them.

use super::super::rules::unknown_reference;
use super::super::values::Reader;
use super::list;
use crate::model::{Domain, Engine, Entry, Identity, Statement, VariantId};
use crate::quantity::Value;

/// Whether the first reading may be there under a name that is not understood, which is said where it stands: an
/// entry that is not defined, a place or a state that the entry does not have.
pub(super) fn is_misnamed(
    engine: &mut Engine,
    variant: Option<&VariantId>,
    second: &Statement,
    entry: Option<&Entry>,
    reader: &Reader<'_>,
) -> bool {
    let file = engine.span.file;
    let of_entry: Vec<_> = list(engine, variant)
        .into_iter()
        .flatten()
        .filter(|one| one.identity.of == second.identity.of)
        .collect();
    let unnamed = reader.sink.found(&[&unknown_reference::RULE], |at| at.file == file);
    let strange = |entry: &Entry| of_entry.iter().any(|one| is_strange(&one.identity, entry));
    (of_entry.is_empty() && unnamed) || entry.is_some_and(strange)
}

/// Whether a place or a state of a statement is none that its entry has.
fn is_strange(identity: &Identity, entry: &Entry) -> bool {
    let place =
        |(axis, word): (&String, &String)| entry.axes.get(axis).is_none_or(|places| !places.contains(word));
    let state = |(state, word): (&String, &String)| match entry.states.get(state) {
        None => true,
        Some(Domain::Words(words)) => !words.contains(word),
        Some(Domain::Kind(kind)) => !Value::parse(word).is_ok_and(|value| value.unit().kind() == *kind),
    };
    identity.place.iter().any(place) || identity.when.iter().any(state)
}
