//! What builds state of a thing, each value once: builds that agree share a row.
//!
//! Invariant: two builds share a row only where the line reads the same and every printed number behind
//! it is the same.

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::index::Line;
use super::values::{self, Buckets, PrintedNumber};

/// One value of a thing, and the builds that state it.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema, Serialize)]
pub struct Row {
    /// The value as printed and converted.
    pub text: String,
    /// True if no second reading confirms it.
    pub open: bool,
    /// The builds, ascending.
    pub builds: Vec<usize>,
}

/// Text, whether open, printed numbers.
type Key = (String, bool, Vec<PrintedNumber>);

/// The lines of builds while they are gathered: thing → row → builds, and the place of the line in each.
#[derive(Default)]
pub(super) struct Gathered {
    things: BTreeMap<usize, BTreeMap<Key, Vec<usize>>>,
}

impl Gathered {
    /// Takes in one line.
    pub(super) fn take(
        &mut self,
        build: usize,
        thing: usize,
        text: String,
        open: bool,
        numbers: Vec<PrintedNumber>,
    ) {
        let builds = self.things.entry(thing).or_default().entry((text, open, numbers)).or_default();
        if builds.last() != Some(&build) {
            builds.push(build);
        }
    }

    /// The rows of each thing, the lines of each build, and the numbers of all rows.
    pub(super) fn into_rows(self, things: usize, builds: usize) -> (Vec<Vec<Row>>, Vec<Vec<Line>>, Buckets) {
        let mut rows: Vec<Vec<Row>> = (0..things).map(|_| Vec::new()).collect();
        let mut lines: Vec<Vec<Line>> = (0..builds).map(|_| Vec::new()).collect();
        let mut found = Buckets::new();
        for (thing, of_thing) in self.things {
            let mut of_thing: Vec<(Key, Vec<usize>)> = of_thing.into_iter().collect();
            // What most builds agree on comes first; of others those that read alike stand together, for a number that is
            // typed is printed in several of them.
            of_thing
                .sort_by(|(one, builds), (other, others)| (others.len(), one).cmp(&(builds.len(), other)));
            for (row, ((text, open, numbers), builds)) in of_thing.into_iter().enumerate() {
                values::take(&numbers, (thing, row), &mut found);
                for build in &builds {
                    if let Some(lines) = lines.get_mut(*build) {
                        lines.push(Line { thing, row });
                    }
                }
                if let Some(rows) = rows.get_mut(thing) {
                    rows.push(Row { text, open, builds });
                }
            }
        }
        (rows, lines, found)
    }
}
