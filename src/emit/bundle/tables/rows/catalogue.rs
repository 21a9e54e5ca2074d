//! What can be specified: service groups, entries, and what an entry allows.

use super::{Cell, Column, Holds, Reference, Table, places, printed_row, printed_table, row, table};
use crate::bundle::{Bundle, Entry};

/// Service groups and entries.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut groups = table! { "service_group" "Service groups in the order of a sheet" key("id") refers[]
    Text id '!' "Id"; Integer place '!' "Place in the order"; Text title '!' "Title"; };
    let mut entries = table! { "entry" "What can be specified" key("id") refers[("service_group" "service_group" "id") ("kind" "kind" "kind") ("input" "kind" "kind") ("gauge" "gauge" "id")]
    Text id '!' "Id"; Text service_group '!' "Service group"; Integer place '!' "Place in the group";
    Text title '!' "What the trade calls it"; Text kind '?' "Kind of its quantity";
    Text input '?' "Kind of the quantity a table of points is read at";
    Text below '!' "Word for a reading below the window"; Text above '!' "Word for a reading above it";
    Boolean critical '!' "True where a wrong value can kill";
    Text stop '?' "Side of its limits on which the machine must not be run"; Boolean card '!' "True for what stands on the bench card";
    Text gauge '?' "Usual gauge"; Text plausible_from '?' "Where its plausible span comes from"; Text note '?' "Remark"; };
    let mut parts = Parts::new();
    for (place, group) in places(&bundle.catalogue.groups) {
        groups.rows.push(row![&group.id, place, &group.title]);
        for (at, one) in places(&group.entries) {
            entries.rows.push(row![
                &one.id,
                &group.id,
                at,
                &one.title,
                one.kind.as_ref(),
                one.input.as_ref(),
                &one.below,
                &one.above,
                one.critical,
                one.stop.as_ref(),
                one.card,
                one.gauge.as_ref(),
                one.plausible_from.as_ref(),
                one.note.as_ref(),
            ]);
            parts.of(one);
        }
    }
    let mut all = vec![groups, entries];
    all.extend(parts.0);
    all
}

/// The tables of what an entry allows, in the order that [`Parts::of`] fills them.
struct Parts([Table; 8]);

impl Parts {
    fn new() -> Self {
        Self([
            table! { "other_name" "Other names of entries" key("entry", "place") refers[("entry" "entry" "id")]
            Text entry '!' "Entry"; Integer place '!' "Place"; Text name '!' "Other name"; },
            table! { "entry_form" "Forms a statement of an entry may take" key("entry", "place") refers[("entry" "entry" "id")]
            Text entry '!' "Entry"; Integer place '!' "Place"; Text form '!' "Form"; },
            table! { "entry_place" "Places an entry may be stated for" key("entry", "axis", "place") refers[("entry" "entry" "id")]
            Text entry '!' "Entry"; Text axis '!' "Axis"; Integer place '!' "Place of the word"; Text word '!' "Word"; },
            table! { "entry_state" "States an entry may be stated for" key("entry", "state") refers[("entry" "entry" "id") ("kind" "kind" "kind")]
            Text entry '!' "Entry"; Text state '!' "State"; Text kind '?' "Kind of its quantity; null where it is a word"; },
            table! { "entry_state_word" "Words a state can be" key("entry", "state", "place") refers[("entry" "entry" "id")]
            Text entry '!' "Entry"; Text state '!' "State"; Integer place '!' "Place of the word"; Text word '!' "Word"; },
            table! { "entry_need" "What must be so for any reading of an entry to say something" key("entry", "thing") refers[("entry" "entry" "id")]
            Text entry '!' "Entry"; Text thing '!' "Thing"; Text word '!' "How it must be"; },
            table! { "entry_hazard" "Cautions of measuring or setting an entry" key("entry", "place") refers[("entry" "entry" "id") ("hazard" "hazard" "id")]
            Text entry '!' "Entry"; Integer place '!' "Place"; Text hazard '!' "Hazard"; },
            printed_table(
                table! { "entry_value" "Plausible spans of entries" key("entry", "part") refers[("entry" "entry" "id")]
                Text entry '!' "Entry"; Text part '!' "plausible"; },
            ),
        ])
    }

    fn of(&mut self, one: &Entry) {
        let Self([names, forms, axes, states, state_words, needs, hazards, values]) = self;
        let listed = |list: &[String]| -> Vec<Vec<Cell>> {
            places(list).map(|(place, item)| row![&one.id, place, item]).collect()
        };
        names.rows.extend(listed(&one.aka));
        forms.rows.extend(listed(&one.forms));
        hazards.rows.extend(listed(&one.hazards));
        for (axis, words) in &one.axes {
            axes.rows.extend(places(words).map(|(place, word)| row![&one.id, axis, place, word]));
        }
        for (name, state) in &one.states {
            states.rows.push(row![&one.id, name, state.kind.as_ref()]);
            let words = state.words.as_deref().unwrap_or_default();
            state_words.rows.extend(places(words).map(|(place, word)| row![&one.id, name, place, word]));
        }
        needs.rows.extend(one.needs_state.iter().map(|(thing, word)| row![&one.id, thing, word]));
        values.rows.extend(printed_row(&one.id, "plausible", one.plausible.as_ref()));
    }
}
