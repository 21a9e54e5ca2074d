//! `relations.json`: what must hold between values of one engine.

use crate::bundle as json;
use crate::model::{EntryId, Model, Relation};

/// The relations as JSON.
pub fn relations(model: &Model) -> json::Relations {
    json::Relations { relations: model.relations.iter().map(relation).collect() }
}

fn relation(relation: &Relation) -> json::Relation {
    let ids = |entries: &[EntryId]| entries.iter().map(ToString::to_string).collect();
    let fits = &relation.fits;
    json::Relation {
        id: relation.id.to_string(),
        title: relation.title.clone(),
        holds: relation.holds.text.clone(),
        fits: json::RelationFits {
            cycle: fits.cycle.clone(),
            fuel: fits.fuel.clone(),
            has: ids(&fits.has),
            lacks: ids(&fits.lacks),
            says: fits.says.iter().map(|(of, words)| (of.to_string(), words.clone())).collect(),
        },
        source: relation.source.clone(),
        look: relation.look.clone(),
        arithmetic: relation.arithmetic,
    }
}
