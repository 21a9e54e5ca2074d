//! Statements of every build: what each is, its values, and the parts of forms that are no numbers.

use std::collections::BTreeMap;

use super::{Cell, Column, Holds, Reference, Table, places, printed_cells, printed_table, row, table, words};
use crate::bundle::{Build, Bundle, Pin, Printed, Selection, Spec};

/// Statements and all that belongs to them.
pub fn tables(bundle: &Bundle) -> Vec<Table> {
    let mut filled = Filled::new();
    let builds = bundle.engines.iter().flat_map(|engine| &engine.builds);
    for (build, spec) in builds.flat_map(|build| build.specs.iter().map(move |spec| (build, spec))) {
        filled.statement(build, spec);
    }
    filled.tables()
}

/// The tables as they fill.
struct Filled {
    specs: Table,
    values: Table,
    words: Table,
    waivers: Table,
    misprints: Table,
    fasteners: Table,
    bolts: Table,
    inputs: Table,
    choices: Table,
    choice_inputs: Table,
    pins: Table,
    pin_reads: Table,
}

impl Filled {
    fn new() -> Self {
        Self {
            specs: table! { "spec" "Statements of every build" key("id") refers[("build" "build" "id") ("entry" "entry" "id") ("source" "source" "id") ("found_source" "source" "id")]
            Integer id '!' "Number of the row"; Text build '!' "Build"; Text entry '!' "Entry";
            Text place '!' "Place as axis=word, sorted, with ; between; empty is everywhere";
            Text state '!' "State as name=word, sorted, with ; between; empty is any";
            Text form '!' "Form of the value"; Text text '?' "Words, a direction, or whatever else is no number, to be read";
            Text direction '?' "clockwise or counter-clockwise"; Text seen_from '?' "Where one stands to see it turn that way";
            Text absent '?' "Why there is no value"; Text withheld '?' "Why the value is left out";
            Text source '?' "Manual or bulletin"; Text page '?' "Page"; Text row_label '?' "Row";
            Text column_label '?' "Column"; Text footnote '?' "Footnote"; Text read_by '?' "Reader";
            Text confirmation '!' "confirmed, read-once, differs or not-needed"; Text confirmed_by '?' "Second reader, whether or not it is confirmed";
            Day confirmed_on '?' "Day of the second reading"; Text found_source '?' "Manual or bulletin of a second reading that found it elsewhere";
            Text found_page '?' "Its page"; Text found_row '?' "Its row"; Text found_column '?' "Its column"; Text found_footnote '?' "Its footnote";
            Text variant '?' "Variant that makes it";
            Text note '?' "Remark"; },
            values: printed_table(
                table! { "value" "Printed values of statements, every form" key("spec", "part", "step", "form") refers[("spec" "spec" "id")]
                Integer spec '!' "Statement"; Text part '!' "window, set_to, new, wear_limit, setting, stage, at, reads, interval, first, severe; when, input and expect belong to spec_word, choice_input and pin_read";
                Integer step '!' "Stage, point or interval, from 1"; Integer form '!' "Printed form, the maker's own is 1"; },
            ),
            words: table! { "spec_word" "Words of place and state of statements" key("spec", "sort", "name") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Text sort '!' "place or state"; Text name '!' "Axis or state"; Text word '!' "Word";
            Integer value_step '?' "Step of its row in value, part when, where it is a quantity"; },
            waivers: table! { "waiver" "Warnings that the lead accepts" key("spec", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer place '!' "Place"; Text rule '!' "Rule"; Text value '!' "What it is waived for, as the statement says it";
            Text because '!' "Why"; Day until '!' "Last day it holds"; },
            misprints: table! { "misprint" "What manuals print wrongly" key("spec") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Text printed '!' "As printed"; Text meant '!' "As meant"; Text because '!' "Why";
            Text decided_by '!' "Who decided"; },
            fasteners: table! { "fastener" "Fasteners that torques are for" key("spec") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Text thread '?' "Thread designation"; Text class '?' "Property class";
            Text threads '?' "State of the threads"; Text hand '?' "right or left"; Integer pieces '?' "How many";
            Text reuse '?' "never, if-good or yes"; Text goes_into '?' "What it goes into"; },
            bolts: table! { "bolt" "Bolt centres in tightening order" key("spec", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer place '!' "Place in the order"; Text across '!' "Millimetres across, exact";
            Text up '!' "Millimetres up, exact"; },
            inputs: table! { "selection_input" "Inputs by which a part is chosen" key("spec", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer place '!' "Place"; Text name '!' "Name"; },
            choices: table! { "choice" "Rows of tables by which a part is chosen" key("spec", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer place '!' "Place of the row"; Text part '!' "Part it chooses"; },
            choice_inputs: table! { "choice_input" "Inputs of a row by which a part is chosen" key("spec", "choice", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer choice '!' "Place of the row"; Integer place '!' "Place of the input";
            Text input '!' "Input"; Integer value_step '?' "Step of its row in value, part input, where it is a quantity"; },
            pins: table! { "pin" "Cavities of connectors" key("spec", "place") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer place '!' "Place"; Text cavity '!' "Cavity"; Text wire '?' "Colour of its wire";
            Text carries '!' "What it carries"; },
            pin_reads: table! { "pin_read" "What is measured at cavities" key("spec", "pin", "state") refers[("spec" "spec" "id")]
            Integer spec '!' "Statement"; Integer pin '!' "Place of the cavity"; Text state '!' "State"; Text expect '!' "What is measured";
            Integer value_step '?' "Step of its row in value, part expect, where it is a quantity"; },
        }
    }

    fn tables(self) -> Vec<Table> {
        vec![
            self.specs,
            self.values,
            self.words,
            self.waivers,
            self.misprints,
            self.fasteners,
            self.bolts,
            self.inputs,
            self.choices,
            self.choice_inputs,
            self.pins,
            self.pin_reads,
        ]
    }

    fn statement(&mut self, build: &Build, spec: &Spec) {
        let id = self.specs.rows.len().saturating_add(1);
        self.specs.rows.push(spec_row(id, build, spec));
        self.values.rows.extend(value_rows(id, spec));
        self.words(id, spec);
        let waivers = places(&spec.waivers);
        self.waivers.rows.extend(
            waivers.map(|(place, one)| row![id, place, &one.rule, &one.value, &one.because, &one.until]),
        );
        self.misprints.rows.extend(
            spec.misprint
                .as_ref()
                .map(|one| row![id, &one.printed, &one.meant, &one.because, &one.decided_by]),
        );
        self.fasteners.rows.extend(spec.fastener.as_ref().map(|one| {
            row![
                id,
                one.thread.as_ref(),
                one.class.as_ref(),
                one.threads.as_ref(),
                one.hand.as_ref(),
                one.count,
                one.reuse.as_ref(),
                one.into.as_ref(),
            ]
        }));
        let bolts = places(spec.pattern.as_deref().unwrap_or_default());
        self.bolts
            .rows
            .extend(bolts.map(|(place, [across, up])| row![id, place, across.as_str(), up.as_str()]));
        if let Some(selection) = &spec.selection {
            self.selection(id, selection);
        }
        for (place, pin) in places(spec.pins.as_deref().unwrap_or_default()) {
            self.pin(id, place, pin);
        }
    }

    /// Words of place and state; those that are quantities are values too.
    fn words(&mut self, id: usize, spec: &Spec) {
        for (name, word) in &spec.place {
            self.words.rows.push(row![id, "place", name, word, Cell::Null]);
        }
        let mut steps = Steps::new(id, "when");
        for (name, word) in &spec.when {
            let step = steps.value(&mut self.values, spec.conditions.get(name));
            self.words.rows.push(row![id, "state", name, word, step]);
        }
    }

    fn selection(&mut self, id: usize, selection: &Selection) {
        self.inputs.rows.extend(places(&selection.by).map(|(place, name)| row![id, place, name]));
        let mut steps = Steps::new(id, "input");
        for (choice, one) in places(&selection.rows) {
            self.choices.rows.push(row![id, choice, &one.part]);
            for ((place, input), exact) in places(&one.inputs).zip(&one.exact) {
                let step = steps.value(&mut self.values, exact.as_ref());
                self.choice_inputs.rows.push(row![id, choice, place, input, step]);
            }
        }
    }

    fn pin(&mut self, id: usize, place: usize, pin: &Pin) {
        self.pins.rows.push(row![id, place, &pin.cavity, pin.wire.as_ref(), &pin.function]);
        let mut steps = Steps::after(id, "expect", &self.values);
        for (state, expect) in &pin.expect {
            let step = steps.value(&mut self.values, pin.measured.get(state));
            self.pin_reads.rows.push(row![id, place, state, expect, step]);
        }
    }
}

/// Counts the values of one part of a statement.
struct Steps {
    spec: usize,
    part: &'static str,
    last: usize,
}

impl Steps {
    const fn new(spec: usize, part: &'static str) -> Self {
        Self { spec, part, last: 0 }
    }

    /// Goes on behind the values of the part that are there.
    fn after(spec: usize, part: &'static str, values: &Table) -> Self {
        let head = row![spec, part];
        let last = values.rows.iter().rev().take_while(|row| row.starts_with(&head)).count();
        Self { last, ..Self::new(spec, part) }
    }

    /// A row for a value, and its step; none where there is no value.
    fn value(&mut self, values: &mut Table, form: Option<&Printed>) -> Option<usize> {
        let form = form?;
        self.last = self.last.saturating_add(1);
        values.rows.push(value_row(self.spec, self.part, self.last, 1, form));
        Some(self.last)
    }
}

fn spec_row(id: usize, build: &Build, spec: &Spec) -> Vec<Cell> {
    let source = &spec.source;
    let found = spec.confirmation.found.as_ref();
    row![
        id,
        &build.id,
        &spec.of,
        words(&spec.place),
        words(&spec.when),
        &spec.form,
        unmeasured(spec),
        spec.direction.as_ref(),
        spec.seen_from.as_ref(),
        spec.absent.as_ref(),
        spec.withheld.as_ref(),
        source.id.as_ref(),
        source.page.as_ref(),
        source.row.as_ref(),
        source.column.as_ref(),
        source.footnote.as_ref(),
        source.read_by.as_ref(),
        &spec.confirmation.state,
        spec.confirmation.by.as_ref(),
        spec.confirmation.on.as_ref(),
        found.and_then(|found| found.id.as_ref()),
        found.and_then(|found| found.page.as_ref()),
        found.and_then(|found| found.row.as_ref()),
        found.and_then(|found| found.column.as_ref()),
        found.and_then(|found| found.footnote.as_ref()),
        spec.variant.as_ref(),
        spec.note.as_ref(),
    ]
}

/// What a statement says without numbers of its own, to be read by a person.
fn unmeasured(spec: &Spec) -> Option<String> {
    let turns = spec.direction.as_ref().map(|turns| match &spec.seen_from {
        Some(from) => format!("{turns}, seen from the {from}"),
        None => turns.clone(),
    });
    let selection = spec.selection.as_ref().map(|one| {
        let rows = one.rows.iter().map(|row| format!("{}: {}", row.inputs.join(", "), row.part));
        format!("by {}: {}", one.by.join(", "), rows.collect::<Vec<_>>().join("; "))
    });
    let pins = spec.pins.as_ref().map(|pins| pins.iter().map(pin_text).collect::<Vec<_>>().join("; "));
    spec.text.clone().or(turns).or(selection).or(pins)
}

fn pin_text(pin: &Pin) -> String {
    let wire = pin.wire.as_ref().map(|wire| format!(" ({wire})")).unwrap_or_default();
    let expect = |words: &BTreeMap<String, String>| {
        words.iter().map(|(state, reads)| format!(", {state}: {reads}")).collect::<String>()
    };
    format!("{}{wire}: {}{}", pin.cavity, pin.function, expect(&pin.expect))
}

/// A row for every printed form of a statement.
fn value_rows(id: usize, spec: &Spec) -> Vec<Vec<Cell>> {
    let mut rows = Vec::new();
    let mut put = |part: &str, step: usize, forms: &[Printed]| {
        rows.extend(places(forms).map(|(at, form)| value_row(id, part, step, at, form)));
    };
    let ranges = [
        ("window", &spec.window),
        ("set_to", &spec.set_to),
        ("new", &spec.new),
        ("wear_limit", &spec.wear_limit),
        ("setting", &spec.setting),
    ];
    for (part, range) in ranges {
        put(part, 1, range.as_ref().map(|range| range.printed.as_slice()).unwrap_or_default());
    }
    for (at, stage) in places(spec.stages.as_deref().unwrap_or_default()) {
        put("stage", at, &stage.printed);
    }
    for (at, point) in places(spec.points.as_deref().unwrap_or_default()) {
        put("at", at, std::slice::from_ref(&point.at));
        put("reads", at, std::slice::from_ref(&point.reads));
    }
    for (part, forms) in [("interval", &spec.interval), ("first", &spec.first), ("severe", &spec.severe)] {
        for (at, form) in places(forms.as_deref().unwrap_or_default()) {
            put(part, at, std::slice::from_ref(form));
        }
    }
    rows
}

fn value_row(id: usize, part: &str, step: usize, at: usize, form: &Printed) -> Vec<Cell> {
    let mut row = row![id, part, step, at];
    row.extend(printed_cells(form));
    row
}
