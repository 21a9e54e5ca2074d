//! The index: what can be found, made from the model.

use std::collections::{BTreeMap, BTreeSet};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::rows::{Gathered, Row};
use super::words::words;
use super::{line, machines, values};
use crate::model::{Build, Entry, Model, Piece, Procedure, Statement};

/// Everything that can be found.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema, Serialize)]
pub struct Index {
    /// What the catalogue and the guides offer.
    pub things: Things,
    /// What builds state of each thing, each value once: the commonest first.
    pub rows: Vec<Vec<Row>>,
    /// Every build with its lines.
    pub builds: Vec<Stated>,
    /// Which machine has which build.
    pub fitted: Vec<Fitted>,
    /// Codes and manuals: found by their own words alone.
    pub fixed: Vec<Fixed>,
    /// Printed numbers by kind and size: bucket → unit → number → who prints it.
    pub values: values::Buckets,
}

/// What the catalogue and the guides offer.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema, Serialize)]
pub struct Things {
    /// Names: each title and its other names, by `Thing::named`.
    pub named: Vec<Vec<Vec<String>>>,
    /// Each thing, in the order of a sheet.
    pub things: Vec<Thing>,
    /// Every unit that a thing's name prints, by `Thing::named`.
    pub units: Vec<Vec<String>>,
}

/// One thing that builds have.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema, Eq, Ord, PartialEq, PartialOrd, Serialize)]
pub struct Thing {
    /// `statement`, `procedure` or `complaint`.
    pub kind: String,
    /// Id of the entry, procedure or complaint.
    pub of: String,
    /// The place.
    #[serde(rename = "where")]
    pub place: BTreeMap<String, String>,
    /// The condition.
    pub when: BTreeMap<String, String>,
    /// Title.
    pub title: String,
    /// Which list of names is its.
    pub named: usize,
    /// Words of place, condition, id and sort.
    pub beside: Vec<String>,
    /// The entries whose values a procedure uses, by id: it is listed beside them.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub uses: Vec<String>,
}

/// One build and what it states.
#[derive(Clone, Debug, Deserialize, JsonSchema, Serialize)]
pub struct Stated {
    /// Id.
    pub id: String,
    /// Machine and years, for people.
    pub title: String,
    /// Its lines in the order of a sheet.
    pub lines: Vec<Line>,
}

/// One line of a build.
#[derive(Clone, Debug, Deserialize, JsonSchema, Serialize)]
pub struct Line {
    /// The thing.
    pub thing: usize,
    /// Which of its rows.
    pub row: usize,
}

/// A machine with one of its builds.
#[derive(Clone, Debug, Deserialize, JsonSchema, Serialize)]
pub struct Fitted {
    /// Id of the machine.
    pub machine: String,
    /// Its name.
    pub name: String,
    /// The build.
    pub build: usize,
    /// Words of its name, maker and engine.
    pub words: Vec<String>,
    /// Words of what sort it is.
    pub sort: Vec<String>,
    /// Years and serial numbers.
    pub spans: Vec<Span>,
}

/// Years and serial numbers of a build in a machine.
#[derive(Clone, Debug, Deserialize, JsonSchema, Serialize)]
pub struct Span {
    /// First and last year.
    pub years: (u16, u16),
    /// Prefix of the serial number, letters and digits only; empty if the years decide.
    pub prefix: String,
    /// First and last running number.
    pub serial: (u32, u32),
}

/// A record found by its own words.
#[derive(Clone, Debug, Deserialize, JsonSchema, Serialize)]
pub struct Fixed {
    /// `code`, `codes`, `source` or `sum`.
    pub kind: String,
    /// Id.
    pub of: String,
    /// Title.
    pub title: String,
    /// What it says.
    pub text: String,
    /// Id of the sheet it stands on.
    pub sheet: String,
    /// Its words.
    pub words: Vec<String>,
    /// Words that all of its sort have.
    pub sort: Vec<String>,
}

impl Fixed {
    /// A bench sum, by its title, what else it is called, and the name of its sheet.
    #[must_use]
    pub fn sum(id: &str, title: &str, aka: &[&str], sheet: &str) -> Self {
        Self {
            kind: "sum".to_owned(),
            of: id.to_owned(),
            title: title.to_owned(),
            text: "bench sum".to_owned(),
            sheet: sheet.to_owned(),
            words: words(&[&[title], aka].concat().join(" ")),
            sort: words("bench sum"),
        }
    }
}

impl Index {
    /// The index of a model, and of the bench sums: they lie beside it.
    #[must_use]
    pub fn of(model: &Model, sums: impl IntoIterator<Item = Fixed>) -> Self {
        let things = things(model);
        let number: BTreeMap<Key<'_>, usize> =
            things.things.iter().enumerate().map(|(at, one)| (key(one), at)).collect();
        let mut gathered = Gathered::default();
        for (at, build) in model.builds.values().enumerate() {
            lines(model, build, at, &number, &mut gathered);
        }
        drop(number);
        let (rows, mut lines, values) = gathered.into_rows(things.things.len(), model.builds.len());
        let builds = model.builds.values().enumerate().map(|(at, build)| Stated {
            id: build.id.to_string(),
            title: machines::title(model, build),
            lines: lines.get_mut(at).map(std::mem::take).unwrap_or_default(),
        });
        let builds = builds.collect();
        let (fitted, fixed) = (machines::fitted(model), machines::fixed(model, sums));
        Self { things, rows, builds, fitted, fixed, values }
    }
}

impl Index {
    /// Whether the entry of a thing prints a unit, in any statement.
    pub(super) fn prints(&self, thing: usize, symbol: &str) -> bool {
        let name = self.things.things.get(thing).map(|one| one.named);
        name.and_then(|name| self.things.units.get(name))
            .is_some_and(|units| units.iter().any(|one| one == symbol))
    }

    /// How many things each name has: its places and conditions.
    pub(super) fn scopes(&self) -> BTreeMap<usize, usize> {
        let mut all = BTreeMap::new();
        self.things.things.iter().for_each(|thing| *all.entry(thing.named).or_default() += 1);
        all
    }
}

type Key<'a> = (&'a str, &'a str, &'a BTreeMap<String, String>, &'a BTreeMap<String, String>);

fn key(thing: &Thing) -> Key<'_> {
    (&thing.kind, &thing.of, &thing.place, &thing.when)
}

fn lines(
    model: &Model,
    build: &Build,
    at: usize,
    number: &BTreeMap<Key<'_>, usize>,
    gathered: &mut Gathered,
) {
    let none = BTreeMap::new();
    for statement in build.statements.iter().filter(|one| one.has_value()) {
        let identity = &statement.identity;
        let Some(&thing) = number.get(&("statement", identity.of.as_str(), &identity.place, &identity.when))
        else {
            continue;
        };
        let withheld = model.withholds(statement);
        let text = if withheld { line::WITHHELD.to_owned() } else { line::text(statement) };
        let numbers = if withheld { Vec::new() } else { values::printed(statement) };
        gathered.take(at, thing, text, line::is_open(statement), numbers);
    }
    let mut guide = |kind: &str, of: &str, text: String| {
        if let Some(&thing) = number.get(&(kind, of, &none, &none)) {
            gathered.take(at, thing, text, false, Vec::new());
        }
    };
    for one in model.procedures.values().filter(|one| model.fits_build(&one.fits, build)) {
        let text = one.minutes.map(|minutes| format!("{minutes} min")).unwrap_or_default();
        guide("procedure", one.id.as_str(), text);
    }
    for one in model.complaints.values().filter(|one| model.fits_build(&one.fits, build)) {
        guide("complaint", one.id.as_str(), format!("{} checks", one.checks.len()));
    }
}

fn things(model: &Model) -> Things {
    let mut all = Things::default();
    let mut stated: BTreeMap<&str, Vec<&Statement>> = BTreeMap::new();
    for one in model.builds.values().flat_map(|build| &build.statements).filter(|one| one.has_value()) {
        stated.entry(one.identity.of.as_str()).or_default().push(one);
    }
    for group in &model.groups {
        for entry in group.entries.iter().filter_map(|id| model.entries.get(id)) {
            let of_entry = stated.get(entry.id.as_str()).map(Vec::as_slice).unwrap_or_default();
            statements(entry, of_entry, &mut all);
        }
    }
    for one in model.procedures.values() {
        guide("procedure", one.id.as_str(), &one.title, &[], "procedure how do", &mut all);
        if let Some(thing) = all.things.last_mut() {
            thing.uses = used(one);
        }
    }
    for one in model.complaints.values() {
        guide("complaint", one.id.as_str(), &one.title, &one.aka, "complaint", &mut all);
    }
    all
}

/// The things of one entry: each place and condition that some build states.
fn statements(entry: &Entry, stated: &[&Statement], all: &mut Things) {
    let mut each: Vec<_> = stated.iter().map(|one| &one.identity).collect();
    each.sort();
    each.dedup();
    let named = all.named.len();
    for identity in each {
        let spelt = identity.place.iter().chain(&identity.when).map(|(name, word)| format!("{name} {word} "));
        let beside: String = spelt.chain([identity.of.to_string()]).collect();
        all.things.push(Thing {
            kind: "statement".to_owned(),
            of: identity.of.to_string(),
            place: identity.place.clone(),
            when: identity.when.clone(),
            title: entry.title.clone(),
            named,
            beside: distinct(words(&beside)),
            uses: Vec::new(),
        });
    }
    let printed = stated.iter().flat_map(|one| one.form.printed());
    let mut units: Vec<String> = printed.map(|one| one.value.unit().symbol().to_owned()).collect();
    units.sort();
    units.dedup();
    name(&entry.title, &entry.aka, units, all);
}

fn guide(kind: &str, of: &str, title: &str, aka: &[String], beside: &str, all: &mut Things) {
    let thing = Thing {
        kind: kind.to_owned(),
        of: of.to_owned(),
        title: title.to_owned(),
        named: all.named.len(),
        beside: words(beside),
        ..Thing::default()
    };
    all.things.push(thing);
    name(title, aka, Vec::new(), all);
}

/// The entries whose values a procedure shows or reads.
fn used(procedure: &Procedure) -> Vec<String> {
    let of = |piece: &Piece| match piece {
        Piece::Link { link, .. } => link.entry().map(|(of, _)| of.to_string()),
        Piece::Markup { .. } => None,
    };
    procedure.body.iter().filter_map(of).collect::<BTreeSet<_>>().into_iter().collect()
}

fn name(title: &str, aka: &[String], units: Vec<String>, all: &mut Things) {
    let names = std::iter::once(title).chain(aka.iter().map(String::as_str));
    all.named.push(names.map(words).collect());
    all.units.push(units);
}

/// Each word once, in order.
pub(super) fn distinct(mut all: Vec<String>) -> Vec<String> {
    let mut seen = BTreeSet::new();
    all.retain(|one| seen.insert(one.clone()));
    all
}
