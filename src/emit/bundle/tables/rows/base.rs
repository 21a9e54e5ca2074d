//! What the bundle says of itself, its kinds and units; what became of ids and values of earlier releases.

use super::{Cell, Column, Holds, Reference, Table, places, row, table, words};
use crate::bundle::Bundle;
use crate::bundle::compare::Changes;

/// The base itself, kinds of quantity, units.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    vec![about(bundle), kinds(bundle), units(bundle)]
}

/// Retired ids, recalled values, changes.
pub fn identity(bundle: &Bundle) -> Vec<Table> {
    let mut all = retired(bundle);
    all.extend(recalls(bundle));
    all.push(since(bundle.changes.as_ref()));
    all.push(changed(bundle.changes.as_ref()));
    all
}

fn about(bundle: &Bundle) -> Table {
    let mut table = table! { "about" "What the bundle says of itself: one row" key("release") refers[]
    Text title '!' "Title"; Text release '!' "Release"; Day date '!' "Date of the release";
    Boolean invented '!' "True where the data fits no real engine"; Text licence '!' "Licence of the data";
    Text notice '!' "Notice that must stand wherever a value is shown";
    Integer stale_after_days '?' "After so many days a copy is stale";
    Text base_url '?' "Address at which the handbook is served";
    Boolean unconfirmed '!' "True if values read only once are let out";
    Boolean labels '!' "True if row labels, column headings and footnotes are let out"; };
    let head = &bundle.head;
    table.rows.push(row![
        &head.title,
        &head.release,
        &head.date,
        head.invented,
        &head.licence,
        &head.notice,
        head.stale_after_days,
        head.base_url.as_ref(),
        head.publish.unconfirmed,
        head.publish.labels,
    ]);
    table
}

fn kinds(bundle: &Bundle) -> Table {
    let mut table = table! { "kind" "Kinds of quantity and the unit of their exact numbers" key("kind") refers[]
    Text kind '!' "Kind"; Text si_unit '!' "Unit of every exact number of this kind";
    Text shown_in '?' "Unit shown beside the maker's own, where the base asks for another than the usual"; };
    let row = |(kind, unit)| row![kind, unit, bundle.head.units.get(kind)];
    table.rows = bundle.head.si.iter().map(row).collect();
    table
}

fn units(bundle: &Bundle) -> Table {
    let mut table = table! { "unit" "Every unit, its codes and its exact size" key("symbol") refers[("kind" "kind" "kind")]
    Text symbol '!' "As written"; Text spoken '!' "Name in full, in the plural"; Text kind '!' "Kind";
    Text ucum '?' "In UCUM"; Text unece '?' "In UNECE Recommendation 20";
    Text factor '!' "Exact: a number of it in the unit of its kind is number × factor + offset";
    Text offset_by '!' "Exact: the offset, for temperatures"; };
    let units = bundle.units.units.iter().map(|one| {
        row![
            &one.symbol,
            &one.spoken,
            &one.kind,
            one.ucum.as_ref(),
            one.unece.as_ref(),
            one.factor.as_str(),
            one.offset.as_str(),
        ]
    });
    table.rows = units.collect();
    table
}

fn retired(bundle: &Bundle) -> Vec<Table> {
    let mut table = table! { "retired_id" "Public ids that no longer live" key("id") refers[]
    Text id '!' "Id"; Text fate '!' "moved, split or withdrawn"; Text moved_to '!' "Ids now, with spaces between";
    Text because '!' "Why"; Text release '!' "Release in which it went"; };
    let mut to = table! { "retired_id_now" "What a retired id is now" key("id", "place") refers[("id" "retired_id" "id")]
    Text id '!' "Retired id"; Integer place '!' "Place"; Text now '!' "Id that took its place"; };
    for one in &bundle.ids.retired {
        table.rows.push(row![&one.id, &one.fate, one.to.join(" "), &one.because, &one.release]);
        to.rows.extend(places(&one.to).map(|(place, now)| row![&one.id, place, now]));
    }
    vec![table, to]
}

fn recalls(bundle: &Bundle) -> Vec<Table> {
    let mut table = table! { "recall" "Values of earlier releases that are known to be wrong" key("id") refers[]
    Integer id '!' "Number of the row"; Text engine '!' "Engine"; Text entry '!' "Entry"; Text place '!' "Place";
    Text state '!' "State"; Text value '!' "The wrong value"; Text releases '!' "Releases, with spaces between";
    Text because '!' "Why it is wrong"; };
    let mut releases = table! { "recall_release" "Releases that stated a recalled value" key("recall", "place") refers[("recall" "recall" "id")]
    Integer recall '!' "Recalled value"; Integer place '!' "Place"; Text release '!' "Release"; };
    for (id, one) in places(&bundle.ids.recall) {
        table.rows.push(row![
            id,
            &one.engine,
            &one.of,
            words(&one.place),
            words(&one.when),
            &one.value,
            one.releases.join(" "),
            &one.because,
        ]);
        releases.rows.extend(places(&one.releases).map(|(place, release)| row![id, place, release]));
    }
    vec![table, releases]
}

fn since(changes: Option<&Changes>) -> Table {
    let mut table = table! { "since" "The release that changes are counted from: one row, or none if it was compared with none" key("release") refers[]
    Text release '!' "Its release"; Day date '!' "Its date"; Text content_hash '?' "Its content hash; null if it was compared as a spec base";
    Text step '!' "Highest step of any change: major, minor or patch"; };
    table.rows.extend(changes.map(|Changes { since, step, .. }| {
        row![&since.release, &since.date, since.content_hash.as_ref(), step.word()]
    }));
    table
}

fn changed(changes: Option<&Changes>) -> Table {
    let mut table = table! { "change" "What changed since the release it was compared with; empty if with none" key("id") refers[]
    Integer id '!' "Number of the row, the worst first"; Text kind '!' "What sort of change";
    Text step '!' "major, minor or patch"; Text engine '?' "Engine"; Text build '?' "Build; null in every build";
    Text of '?' "Entry, or the id of what changed"; Text place '!' "Place"; Text state '!' "State";
    Text before_text '?' "What stood there"; Text after_text '?' "What stands there now"; };
    let all = changes.map(|changes| changes.changes.as_slice()).unwrap_or_default();
    let row = |(at, one): (usize, &crate::bundle::compare::Change)| {
        row![
            at,
            one.kind.word(),
            one.kind.step().word(),
            one.engine.as_ref(),
            one.build.as_ref(),
            one.of.as_ref(),
            words(&one.place),
            words(&one.when),
            one.before.as_ref(),
            one.after.as_ref(),
        ]
    };
    table.rows = places(all).map(row).collect();
    table
}
