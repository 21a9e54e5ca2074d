//! Sources, hazards and gauges.

use super::{Cell, Column, Holds, Reference, Table, places, printed_row, printed_table, row, table};
use crate::bundle::Bundle;

/// Sources, hazards and gauges.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut all = sources(bundle);
    all.push(hazards(bundle));
    all.extend(gauges(bundle));
    all
}

fn sources(bundle: &Bundle) -> Vec<Table> {
    let mut sources = table! { "source" "Manuals and bulletins" key("id") refers[]
    Text id '!' "Id"; Text title '!' "Title"; Text short '?' "What the shop calls it"; Text edition '?' "Edition"; Day date '?' "Date";
    Text class '!' "manual, bulletin or stop"; Text note '?' "Remark"; };
    let mut older = table! { "source_supersedes" "Sources that a source takes the place of" key("source", "place") refers[("source" "source" "id") ("supersedes" "source" "id")]
    Text source '!' "Source"; Integer place '!' "Place"; Text supersedes '!' "Source it takes the place of"; };
    for one in &bundle.sources.sources {
        sources.rows.push(row![
            &one.id,
            &one.title,
            one.short.as_ref(),
            one.edition.as_ref(),
            one.date.as_ref(),
            &one.class,
            one.note.as_ref(),
        ]);
        older.rows.extend(places(&one.supersedes).map(|(place, id)| row![&one.id, place, id]));
    }
    vec![sources, older]
}

fn hazards(bundle: &Bundle) -> Table {
    let mut table = table! { "hazard" "Cautions by ANSI Z535.6" key("id") refers[]
    Text id '!' "Id"; Text signal '!' "Signal word"; Text hazard '!' "What can hurt";
    Text consequence '!' "What happens"; Text avoid '!' "How to avoid it"; };
    let hazards = bundle.hazards.hazards.iter();
    table.rows =
        hazards.map(|one| row![&one.id, &one.signal, &one.hazard, &one.consequence, &one.avoid]).collect();
    table
}

fn gauges(bundle: &Bundle) -> Vec<Table> {
    let mut gauges = table! { "gauge" "Gauges" key("id") refers[("kind" "kind" "kind")]
    Text id '!' "Id"; Text title '!' "What the shop calls it"; Text kind '!' "Kind of the quantity it measures"; };
    let mut values = printed_table(
        table! { "gauge_value" "Span, resolution and limit of error (expanded, k = 2) of gauges" key("gauge", "part") refers[("gauge" "gauge" "id")]
        Text gauge '!' "Gauge"; Text part '!' "span, resolution or error"; },
    );
    let mut hazards = table! { "gauge_hazard" "Cautions of using a gauge" key("gauge", "place") refers[("gauge" "gauge" "id") ("hazard" "hazard" "id")]
    Text gauge '!' "Gauge"; Integer place '!' "Place"; Text hazard '!' "Hazard"; };
    for one in &bundle.gauges.gauges {
        gauges.rows.push(row![&one.id, &one.title, &one.kind]);
        let parts =
            [("span", Some(&one.span)), ("resolution", one.resolution.as_ref()), ("error", Some(&one.error))];
        values.rows.extend(parts.into_iter().filter_map(|(part, form)| printed_row(&one.id, part, form)));
        hazards.rows.extend(places(&one.hazards).map(|(place, hazard)| row![&one.id, place, hazard]));
    }
    vec![gauges, values, hazards]
}
