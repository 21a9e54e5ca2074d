//! Relations: what must hold between values of one engine.

use super::{Cell, Column, Holds, Reference, Table, places, row, table};
use crate::bundle::{Bundle, Relation};

/// Relations, and the engines they hold for.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut relations = table! { "relation" "What must hold between values of one engine that has them" key("id") refers[]
    Text id '!' "Id"; Integer place '!' "Place"; Text title '!' "What holds, in words";
    Text holds '!' "What holds, as a formula"; Text fits_cycle '?' "four-stroke or two-stroke engines only";
    Text fits_fuel '?' "petrol or diesel engines only"; Text source '!' "Where it comes from";
    Text look '?' "Where to look when it does not hold";
    Boolean arithmetic '!' "True where nothing but a wrong number can break it"; };
    // A relation that Baybook carries may name entries that this catalogue has not: no reference.
    let mut fits = table! { "relation_fits" "What an engine must have, lack or say for a relation to hold" key("relation", "sort", "entry", "place") refers[("relation" "relation" "id")]
    Text relation '!' "Relation"; Text sort '!' "has, lacks or says"; Text entry '!' "Entry"; Integer place '!' "Place";
    Text word '?' "Of says: a word of which one must be in its text"; };
    for (place, one) in places(&bundle.relations.relations) {
        relations.rows.push(row![
            &one.id,
            place,
            &one.title,
            &one.holds,
            one.fits.cycle.as_ref(),
            one.fits.fuel.as_ref(),
            &one.source,
            one.look.as_ref(),
            one.arithmetic,
        ]);
        fits.rows.extend(fits_rows(one));
    }
    vec![relations, fits]
}

fn fits_rows(one: &Relation) -> Vec<Vec<Cell>> {
    let has = places(&one.fits.has).map(|(place, of)| row![&one.id, "has", of, place, Cell::Null]);
    let lacks = places(&one.fits.lacks).map(|(place, of)| row![&one.id, "lacks", of, place, Cell::Null]);
    let says = one.fits.says.iter().flat_map(|(of, words)| {
        places(words).map(move |(place, word)| row![&one.id, "says", of, place, word])
    });
    has.chain(lacks).chain(says).collect()
}
