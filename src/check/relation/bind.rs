//! A formula understood: every name an entry of the catalogue or a fact of the layout, every sum of one kind.
//!
//! What is not understood is a [`Problem`] with its bytes, never a guess.

use super::narrow::{Selector, selectors};
use super::parse::parse;
use super::sort::Sort;
use super::sorts::Sorts;
use super::token::Problem;
use super::tree::{Clause, Formula, Name};
use crate::diag::nearest;
use crate::model::{Domain, Entry, EntryId, FormName, Model};
use crate::quantity::Kind;

/// A formula with what its names stand for, in the same order.
#[derive(Debug)]
pub struct Bound {
    /// The formula.
    pub formula: Formula,
    /// What its names stand for.
    pub references: Vec<Reference>,
}

/// What a name stands for.
#[derive(Clone, Debug)]
pub enum Reference {
    /// A fact of the engine's layout.
    Fact(Fact),
    /// A value of an entry.
    Entry(Wanted),
}

/// A fact of the layout.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Fact {
    /// Cylinder bore.
    Bore,
    /// Piston stroke.
    Stroke,
    /// Swept volume.
    Displacement,
    /// Number of cylinders.
    Cylinders,
}

/// Which value of an entry is wanted.
#[derive(Clone, Debug, Eq, PartialEq)]
pub struct Wanted {
    /// The entry.
    pub of: EntryId,
    /// Its kind; a value of another is found by itself.
    pub kind: Option<Kind>,
    /// Which of its values.
    pub face: Face,
    /// Which part of the value.
    pub part: Part,
    /// What its place and condition must be.
    pub selectors: Vec<Selector>,
}

/// Which value of a statement.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Face {
    /// The window, the fit of new parts or the setting, whichever it has.
    Value,
    /// The end of use.
    WearLimit,
    /// Where the maker asks for less than the whole window.
    SetTo,
}

/// Which part of a value.
#[derive(Clone, Copy, Debug, Eq, PartialEq)]
pub enum Part {
    /// All of it.
    Whole,
    /// Its lower end.
    Least,
    /// Its upper end.
    Most,
    /// Its middle.
    Middle,
}

const FACTS: [(&str, Fact); 4] = [
    ("bore", Fact::Bore),
    ("stroke", Fact::Stroke),
    ("displacement", Fact::Displacement),
    ("cylinders", Fact::Cylinders),
];

const PARTS: [(&str, Part); 3] = [("min", Part::Least), ("max", Part::Most), ("middle", Part::Middle)];

impl Fact {
    /// Its sort.
    fn sort(self) -> Sort {
        self.kind().map_or(Sort::NUMBER, Sort::of)
    }

    /// Its kind; a number of cylinders has none.
    pub const fn kind(self) -> Option<Kind> {
        match self {
            Self::Bore | Self::Stroke => Some(Kind::Length),
            Self::Displacement => Some(Kind::Volume),
            Self::Cylinders => None,
        }
    }

    /// The key of the layout.
    pub fn key(self) -> &'static str {
        FACTS.iter().find(|(_, fact)| *fact == self).map_or("", |(key, _)| key)
    }
}

/// Understands a formula. A `lenient` one, carried for catalogues of any size, may narrow by words that an entry lacks.
///
/// # Errors
/// The first thing that is wrong in it.
pub fn bind(text: &str, model: &Model, lenient: bool) -> Result<Bound, Problem> {
    let formula = parse(text)?;
    let references = formula.names.iter().map(|name| reference(name, model, lenient));
    let references = references.collect::<Result<Vec<_>, _>>()?;
    let sorts =
        references.iter().zip(&formula.names).map(|(reference, name)| sort_of(reference, name, model));
    let sorts = Sorts { names: sorts.collect::<Result<_, _>>()? };
    for clause in &formula.clauses {
        sorts.clause(clause)?;
        for state in stated(clause).into_iter().filter(|_| !lenient) {
            knows_state(state, &formula, &references, model)?;
        }
    }
    Ok(Bound { formula, references })
}

fn reference(name: &Name, model: &Model, lenient: bool) -> Result<Reference, Problem> {
    if let Some((_, fact)) = FACTS.iter().find(|(key, _)| *key == name.text) {
        return Ok(Reference::Fact(*fact));
    }
    let cuts = name.text.match_indices('.').map(|(at, _)| at).chain([name.text.len()]).collect::<Vec<_>>();
    let found = cuts.into_iter().rev().find_map(|end| {
        let head = name.text.get(..end)?;
        model.entries.get(head).map(|entry| (entry, end))
    });
    let Some((entry, end)) = found else { return Err(unknown(name, model)) };
    let mut wanted = Wanted {
        of: entry.id.clone(),
        kind: entry.kind,
        face: Face::Value,
        part: Part::Whole,
        selectors: Vec::new(),
    };
    for word in name.text.get(end..).unwrap_or_default().split('.').skip(1) {
        let part = PARTS.iter().find(|(known, _)| *known == word);
        match (word, part) {
            (_, Some((_, part))) => wanted.part = *part,
            ("wear_limit", _) => wanted.face = Face::WearLimit,
            ("set_to", _) => wanted.face = Face::SetTo,
            _ => return Err(unknown(name, model)),
        }
    }
    takes(entry, wanted.face).map_err(|(message, help)| Problem::new(name.range.clone(), message, help))?;
    if let Some((inner, range)) = &name.narrowed {
        wanted.selectors = selectors(inner, range, entry, lenient)?;
    }
    Ok(Reference::Entry(wanted))
}

fn unknown(name: &Name, model: &Model) -> Problem {
    let known = model.entries.keys().map(EntryId::as_str).chain(FACTS.iter().map(|(key, _)| *key));
    let help = nearest(&name.text, known).map_or_else(
        || "name an entry of the catalogue, with `.wear_limit`, `.set_to`, `.min`, `.max` or `.middle` behind it if need be".to_owned(),
        |near| format!("did you mean `{near}`?"),
    );
    Problem::new(name.range.clone(), format!("there is no entry `{}`", name.text), help)
}

/// Whether statements of an entry can have a face at all.
fn takes(entry: &Entry, face: Face) -> Result<(), (String, String)> {
    let takes = |forms: &[FormName]| entry.forms.iter().any(|form| forms.contains(form));
    let (fits, key) = match face {
        Face::Value => {
            (takes(&[FormName::Window, FormName::New, FormName::Setting]), "window`, `new` or `setting")
        }
        Face::WearLimit => (takes(&[FormName::WearLimit]), "wear_limit"),
        Face::SetTo => (takes(&[FormName::Window]), "window"),
    };
    let message = format!("`{}` is never stated with `{key}`", entry.id);
    if fits {
        Ok(())
    } else {
        Err((message, "name another value of it, or let the entry take that form".to_owned()))
    }
}

/// The name and the state of a clause that looks at a state.
fn stated(clause: &Clause) -> Option<(usize, &str)> {
    match clause {
        Clause::Trend(name, _, state) | Clause::Proportion(name, state, _) => Some((*name, state)),
        _ => None,
    }
}

fn knows_state(
    (name, state): (usize, &str),
    formula: &Formula,
    references: &[Reference],
    model: &Model,
) -> Result<(), Problem> {
    let (Some(name), Some(Reference::Entry(wanted))) = (formula.names.get(name), references.get(name)) else {
        let range = formula.names.get(name).map_or(0..0, |name| name.range.clone());
        return Err(Problem::new(range, "a fact of the layout has no states", "name an entry"));
    };
    let domain = model.entries.get(&wanted.of).and_then(|entry| entry.states.get(state));
    if matches!(domain, Some(Domain::Kind(_))) {
        return Ok(());
    }
    let message = format!("`{state}` is no quantity that `{}` depends on", wanted.of);
    Err(Problem::new(name.range.clone(), message, "name a state of the entry that is a quantity"))
}

fn sort_of(reference: &Reference, name: &Name, model: &Model) -> Result<Sort, Problem> {
    match reference {
        Reference::Fact(fact) => Ok(fact.sort()),
        Reference::Entry(wanted) => {
            let kind = model.entries.get(&wanted.of).and_then(|entry| entry.kind);
            kind.map(Sort::of).ok_or_else(|| {
                Problem::new(
                    name.range.clone(),
                    format!("`{}` has no kind", wanted.of),
                    "give the entry a kind in the catalogue",
                )
            })
        }
    }
}
