//! The rows of every table, from the data of a bundle.

use super::{Cell, Column, Holds, Reference, Table};
use crate::bundle::compare::Changes;
use crate::bundle::{Build, Bundle, Printed, Quantity, Spec};
use crate::quantity::{Exact, decimal_text, power_of_ten};

/// Declares a table: its columns in one line each, `!` for those that always hold something.
macro_rules! table {
    ($name:literal $title:literal key($($key:literal),*)
        refers[$(($column:literal $to:literal $other:literal))*]
        $($holds:ident $col:ident $need:literal $says:literal;)*) => {
        Table {
            name: $name,
            title: $title,
            columns: vec![$(Column {
                name: stringify!($col), holds: Holds::$holds, required: $need == '!', title: $says,
            }),*],
            key: vec![$($key),*],
            references: vec![$(Reference { column: $column, table: $to, to: $other }),*],
            rows: Vec::new(),
        }
    };
}

/// One row: cells of whatever can be one.
macro_rules! row {
    ($($cell:expr),* $(,)?) => { vec![$(Cell::from($cell)),*] };
}

/// Every table, each after those it refers to.
pub fn tables(bundle: &Bundle, changes: Option<&Changes>) -> Vec<Table> {
    let mut all = vec![about(bundle), units(bundle)];
    all.extend(catalogue(bundle));
    all.extend(references(bundle));
    all.extend(machines(bundle));
    all.extend(specs(bundle));
    all.push(retired(bundle));
    all.push(recalls(bundle));
    all.push(changed(changes));
    all
}

fn about(bundle: &Bundle) -> Table {
    let mut table = table! { "about" "What the bundle says of itself: one row" key("release") refers[]
    Text title '!' "Title"; Text release '!' "Release"; Day date '!' "Date of the release";
    Boolean invented '!' "True where the data fits no real engine"; Text licence '!' "Licence of the data";
    Text notice '!' "Notice that must stand wherever a value is shown";
    Integer stale_after_days '?' "After so many days a copy is stale"; };
    let head = &bundle.head;
    table.rows.push(row![
        &head.title,
        &head.release,
        &head.date,
        head.invented,
        &head.licence,
        &head.notice,
        head.stale_after_days,
    ]);
    table
}

fn units(bundle: &Bundle) -> Table {
    let mut table = table! { "kind" "Kinds of quantity and the unit of their exact numbers" key("kind") refers[]
    Text kind '!' "Kind"; Text si_unit '!' "Unit of every exact number of this kind"; };
    table.rows = bundle.head.si.iter().map(|(kind, unit)| row![kind, unit]).collect();
    table
}

fn catalogue(bundle: &Bundle) -> Vec<Table> {
    let mut groups = table! { "service_group" "Service groups in the order of a sheet" key("id") refers[]
    Text id '!' "Id"; Integer place '!' "Place in the order"; Text title '!' "Title"; };
    let mut entries = table! { "entry" "What can be specified" key("id") refers[("service_group" "service_group" "id") ("kind" "kind" "kind")]
    Text id '!' "Id"; Text service_group '!' "Service group"; Integer place '!' "Place in the group";
    Text title '!' "What the trade calls it"; Text kind '?' "Kind of its quantity";
    Text below '!' "Word for a reading below the window"; Text above '!' "Word for a reading above it";
    Boolean critical '!' "True where a wrong value can kill"; Text gauge '?' "Usual gauge";
    Text note '?' "Remark"; };
    let mut names = table! { "other_name" "Other names of entries" key("entry", "name") refers[("entry" "entry" "id")]
    Text entry '!' "Entry"; Text name '!' "Other name"; };
    for (place, group) in bundle.catalogue.groups.iter().enumerate() {
        groups.rows.push(row![&group.id, place, &group.title]);
        for (at, one) in group.entries.iter().enumerate() {
            entries.rows.push(row![
                &one.id,
                &group.id,
                at,
                &one.title,
                one.kind.as_ref(),
                &one.below,
                &one.above,
                one.critical,
                one.gauge.as_ref(),
                one.note.as_ref(),
            ]);
            let mut known: Vec<&String> = Vec::new();
            for name in &one.aka {
                if !known.contains(&name) {
                    names.rows.push(row![&one.id, name]);
                    known.push(name);
                }
            }
        }
    }
    vec![groups, entries, names]
}

fn references(bundle: &Bundle) -> Vec<Table> {
    let mut sources = table! { "source" "Manuals and bulletins" key("id") refers[]
    Text id '!' "Id"; Text title '!' "Title"; Text short '?' "What the shop calls it";
    Text edition '?' "Edition"; Day date '?' "Date";
    Text class '!' "manual, bulletin or stop"; Text note '?' "Remark"; };
    sources.rows = bundle
        .sources
        .sources
        .iter()
        .map(|one| {
            row![
                &one.id,
                &one.title,
                one.short.as_ref(),
                one.edition.as_ref(),
                one.date.as_ref(),
                &one.class,
                one.note.as_ref(),
            ]
        })
        .collect();
    let mut hazards = table! { "hazard" "Cautions by ANSI Z535.6" key("id") refers[]
    Text id '!' "Id"; Text signal '!' "Signal word"; Text hazard '!' "What can hurt";
    Text consequence '!' "What happens"; Text avoid '!' "How to avoid it"; };
    hazards.rows = bundle
        .hazards
        .hazards
        .iter()
        .map(|one| row![&one.id, &one.signal, &one.hazard, &one.consequence, &one.avoid])
        .collect();
    let mut of_entries = table! { "entry_hazard" "Cautions of measuring or setting an entry" key("entry", "hazard") refers[("entry" "entry" "id") ("hazard" "hazard" "id")]
    Text entry '!' "Entry"; Text hazard '!' "Hazard"; };
    let entries = bundle.catalogue.groups.iter().flat_map(|group| &group.entries);
    of_entries.rows =
        entries.flat_map(|one| one.hazards.iter().map(|hazard| row![&one.id, hazard])).collect();
    vec![sources, hazards, of_entries]
}

fn machines(bundle: &Bundle) -> Vec<Table> {
    let mut makers = table! { "maker" "Makers" key("id") refers[] Text id '!' "Id"; Text name '!' "Name"; };
    makers.rows = bundle.machines.makers.iter().map(|one| row![&one.id, &one.name]).collect();
    let mut machines = table! { "machine" "Machines" key("id") refers[("maker" "maker" "id")]
    Text id '!' "Id"; Text maker '!' "Maker"; Text name '!' "Name"; Text sort '?' "What sort of machine";
    Text serial_at '?' "Where its serial number is found"; };
    let mut engines = table! { "engine" "Engines" key("id") refers[("maker" "maker" "id")]
    Text id '!' "Id"; Text maker '!' "Maker"; Text title '!' "Title"; Text cycle '?' "four-stroke or two-stroke";
    Text fuel '?' "petrol or diesel"; Integer cylinders '?' "Number of cylinders"; };
    let mut builds = table! { "build" "Engines after their variants: what a technician looks up" key("id") refers[("engine" "engine" "id")]
    Text id '!' "Id"; Text engine '!' "Engine"; Text variants '!' "Variants in force, with spaces between"; };
    let mut fits = table! { "fit" "Which build a machine has, by year and serial number" key("id") refers[("machine" "machine" "id") ("build" "build" "id")]
    Integer id '!' "Number of the row"; Text machine '!' "Machine"; Integer from_year '!' "First model year";
    Integer to_year '!' "Last model year"; Text serial_prefix '?' "What the serial numbers start with";
    Integer serial_from '?' "First running number"; Integer serial_to '?' "Last running number";
    Boolean rest '!' "True for every serial number that no other span names"; Text build '!' "Build"; };
    for one in &bundle.machines.machines {
        machines.rows.push(row![&one.id, &one.maker, &one.name, one.sort.as_ref(), one.serial_at.as_ref()]);
        for fit in &one.fits {
            let serial = fit.serial.as_ref();
            fits.rows.push(row![
                fits.rows.len() + 1,
                &fit.machine,
                fit.from_year,
                fit.to_year,
                serial.map(|one| &one.prefix),
                serial.and_then(|one| one.from),
                serial.and_then(|one| one.to),
                fit.rest,
                &fit.build,
            ]);
        }
    }
    for one in &bundle.engines {
        let layout = one.layout.as_ref();
        engines.rows.push(row![
            &one.id,
            &one.maker,
            &one.title,
            layout.map(|one| &one.cycle),
            layout.map(|one| &one.fuel),
            layout.map(|one| one.cylinders),
        ]);
        builds.rows.extend(one.builds.iter().map(|build| row![&build.id, &one.id, build.variants.join(" ")]));
    }
    vec![makers, machines, engines, builds, fits]
}

fn specs(bundle: &Bundle) -> Vec<Table> {
    let mut specs = table! { "spec" "Statements of every build" key("id") refers[("build" "build" "id") ("entry" "entry" "id") ("source" "source" "id")]
    Integer id '!' "Number of the row"; Text build '!' "Build"; Text entry '!' "Entry";
    Text place '!' "Place as axis=word, sorted, with ; between; empty is everywhere";
    Text state '!' "State as name=word, sorted, with ; between; empty is any";
    Text form '!' "Form of the value"; Text text '?' "Words, a direction, or whatever else is no number";
    Text absent '?' "Why there is no value"; Text withheld '?' "Why the value is left out";
    Text source '?' "Manual or bulletin"; Text page '?' "Page"; Text row_label '?' "Row";
    Text column_label '?' "Column"; Text footnote '?' "Footnote"; Text read_by '?' "Reader";
    Text confirmation '!' "confirmed, read-once, differs or not-needed"; Text confirmed_by '?' "Second reader";
    Day confirmed_on '?' "Day of the second reading"; Text variant '?' "Variant that makes it";
    Text note '?' "Remark"; };
    let mut values = table! { "value" "Printed values of statements, every form" key("spec", "part", "step", "form") refers[("spec" "spec" "id")]
    Integer spec '!' "Statement"; Text part '!' "window, set_to, new, wear_limit, setting, stage, at, reads, interval, first or severe";
    Integer step '!' "Stage, point or interval, from 1"; Integer form '!' "Printed form, the maker's own is 1";
    Text text '!' "The whole form, digits as printed"; Text unit '!' "Unit as written";
    Text ucum '?' "Unit in UCUM"; Text unece '?' "Unit in UNECE Recommendation 20";
    Text min '?' "Lower limit as text"; Text max '?' "Upper limit as text"; Text nominal '?' "Middle as printed";
    Boolean min_inclusive '!' "False where the lower limit is outside";
    Boolean max_inclusive '!' "False where the upper limit is outside";
    Text min_si '?' "Lower limit, exact, in the unit of its kind"; Text max_si '?' "Upper limit, exact";
    Rounded min_number '?' "Lower limit, rounded: for ranges only";
    Rounded max_number '?' "Upper limit, rounded: for ranges only"; };
    let builds = bundle.engines.iter().flat_map(|engine| &engine.builds);
    for (build, spec) in builds.flat_map(|build| build.specs.iter().map(move |spec| (build, spec))) {
        let id = specs.rows.len() + 1;
        specs.rows.push(spec_row(id, build, spec));
        values.rows.extend(value_rows(id, spec));
    }
    vec![specs, values]
}

fn spec_row(id: usize, build: &Build, spec: &Spec) -> Vec<Cell> {
    let source = &spec.source;
    row![
        id,
        &build.id,
        &spec.of,
        words(&spec.place),
        words(&spec.when),
        &spec.form,
        unmeasured(spec),
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
        spec.variant.as_ref(),
        spec.note.as_ref(),
    ]
}

fn words(words: &std::collections::BTreeMap<String, String>) -> String {
    words.iter().map(|(key, word)| format!("{key}={word}")).collect::<Vec<_>>().join(";")
}

/// What a statement says without numbers of its own; of tables of parts and pins, their JSON.
fn unmeasured(spec: &Spec) -> Option<String> {
    let json = |value: serde_json::Result<String>| value.ok();
    let turns = spec.direction.as_ref().map(|turns| match &spec.seen_from {
        Some(from) => format!("{turns}, seen from the {from}"),
        None => turns.clone(),
    });
    let selection = spec.selection.as_ref().and_then(|one| json(serde_json::to_string(one)));
    let pins = spec.pins.as_ref().and_then(|one| json(serde_json::to_string(one)));
    spec.text.clone().or(turns).or(selection).or(pins)
}

/// A row for every printed form of a statement.
fn value_rows(id: usize, spec: &Spec) -> Vec<Vec<Cell>> {
    let mut rows = Vec::new();
    let mut put = |part: &str, step: usize, forms: &[Printed]| {
        rows.extend(forms.iter().enumerate().map(|(at, form)| value_row(id, part, step, at + 1, form)));
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
    for (at, stage) in spec.stages.iter().flatten().enumerate() {
        put("stage", at + 1, &stage.printed);
    }
    for (at, point) in spec.points.iter().flatten().enumerate() {
        put("at", at + 1, std::slice::from_ref(&point.at));
        put("reads", at + 1, std::slice::from_ref(&point.reads));
    }
    for (part, forms) in [("interval", &spec.interval), ("first", &spec.first), ("severe", &spec.severe)] {
        for (at, form) in forms.iter().flatten().enumerate() {
            put(part, at + 1, std::slice::from_ref(form));
        }
    }
    rows
}

fn value_row(id: usize, part: &str, step: usize, at: usize, form: &Printed) -> Vec<Cell> {
    let (min, max) = (form.min.as_ref(), form.max.as_ref());
    let either = min.or(max);
    let text = |end: Option<&Quantity>| end.map(|one| one.text.clone());
    let si = |end: Option<&Quantity>| end.map(|one| one.si.as_str().to_owned());
    let number = |end: Option<&Quantity>| end.map(|one| rounded(one.si.exact()));
    row![
        id,
        part,
        step,
        at,
        &form.text,
        either.map(|one| &one.unit).map_or("", String::as_str),
        either.and_then(|one| one.ucum.as_ref()),
        either.and_then(|one| one.unece.as_ref()),
        text(min),
        text(max),
        text(form.nominal.as_ref()),
        form.min_inclusive,
        form.max_inclusive,
        si(min),
        si(max),
        number(min),
        number(max),
    ]
}

/// A number with seventeen significant digits or all it has: what a range may be asked by.
fn rounded(exact: &Exact) -> String {
    let mut decimals = 17;
    let mut reach = power_of_ten(0);
    while decimals > 0 && num_traits::Signed::abs(exact) >= reach {
        reach *= power_of_ten(1);
        decimals -= 1;
    }
    let text = decimal_text(exact, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

fn retired(bundle: &Bundle) -> Table {
    let mut table = table! { "retired_id" "Public ids that no longer live" key("id") refers[]
    Text id '!' "Id"; Text fate '!' "moved, split or withdrawn"; Text moved_to '!' "Ids now, with spaces between";
    Text because '!' "Why"; Text release '!' "Release in which it went"; };
    table.rows = bundle
        .ids
        .retired
        .iter()
        .map(|one| row![&one.id, &one.fate, one.to.join(" "), &one.because, &one.release])
        .collect();
    table
}

fn recalls(bundle: &Bundle) -> Table {
    let mut table = table! { "recall" "Values of earlier releases that are known to be wrong" key("id") refers[]
    Integer id '!' "Number of the row"; Text engine '!' "Engine"; Text entry '!' "Entry"; Text place '!' "Place";
    Text state '!' "State"; Text value '!' "The wrong value"; Text releases '!' "Releases, with spaces between";
    Text because '!' "Why it is wrong"; };
    let row = |(at, one): (usize, &crate::bundle::Recall)| {
        row![
            at + 1,
            &one.engine,
            &one.of,
            words(&one.place),
            words(&one.when),
            &one.value,
            one.releases.join(" "),
            &one.because,
        ]
    };
    table.rows = bundle.ids.recall.iter().enumerate().map(row).collect();
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
            at + 1,
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
    table.rows = all.iter().enumerate().map(row).collect();
    table
}
