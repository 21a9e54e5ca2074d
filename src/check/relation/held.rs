//! Every relation held against every build, and what breaks.

use std::collections::{BTreeMap, BTreeSet};

use super::bind::{Bound, Reference, bind};
use super::extent::{End, Extent};
use super::judge::{Broken, broken};
use super::occasion::{Index, Occasion, occasion, together};
use super::tree::{Clause, Formula, Name};
use super::{trend, words, worth};
use crate::check::Subject;
use crate::model::{Build, Engine, EngineId, Form, Model, Relation, Statement};
use crate::source::Span;

/// A relation that does not hold.
#[derive(Debug)]
pub struct Breach<'a> {
    /// The relation.
    pub relation: &'a Relation,
    /// The arithmetic with the engine's numbers.
    pub arithmetic: String,
    /// What would make it agree; may be empty.
    pub remedy: String,
    /// The values it was held for that have a place in a file; the likeliest first.
    pub uses: Vec<Use<'a>>,
}

/// A value a relation was held for.
#[derive(Debug)]
pub struct Use<'a> {
    /// Its name in the formula, for a finding.
    pub name: String,
    /// Where it is printed.
    pub span: Span,
    /// The statement; none for a fact of the layout.
    pub statement: Option<&'a Statement>,
}

/// What breaks of the relations that `chosen` picks, each set of statements once.
pub fn breaches<'a>(subject: &Subject<'a>, chosen: impl Fn(&Relation) -> bool) -> Vec<Breach<'a>> {
    let model = subject.model;
    let relations: Vec<(&Relation, Bound)> = model
        .relations
        .iter()
        .filter(|relation| chosen(relation))
        .filter_map(|relation| {
            Some((relation, bind(&relation.holds.text, model, relation.holds.span.is_none()).ok()?))
        })
        .collect();
    let mut builds: BTreeMap<&EngineId, Vec<&Build>> = BTreeMap::new();
    for build in model.builds.values() {
        builds.entry(&build.engine).or_default().push(build);
    }
    let mut all = Vec::new();
    for engine in model.engines.values() {
        let mut seen = BTreeSet::new();
        for index in indexes(engine, builds.get(&engine.id)) {
            for (relation, bound) in relations.iter().filter(|(relation, _)| fits(relation, engine, &index)) {
                of_relation(relation, bound, engine, &index, &mut seen, &mut all);
            }
        }
    }
    all.retain(|breach| {
        !breach.uses.iter().any(|one| one.statement.is_some_and(|statement| is_implausible(model, statement)))
    });
    all
}

/// The statements of each build of an engine, or of the engine itself where no machine has it.
fn indexes<'a>(engine: &'a Engine, builds: Option<&Vec<&'a Build>>) -> Vec<Index<'a>> {
    match builds {
        Some(builds) => {
            builds.iter().map(|build| index(build.statements.iter().map(AsRef::as_ref))).collect()
        }
        None => vec![index(engine.statements.iter().map(AsRef::as_ref))],
    }
}

fn index<'a>(statements: impl Iterator<Item = &'a Statement>) -> Index<'a> {
    let mut all = BTreeMap::new();
    for statement in statements.filter(|one| one.has_value()) {
        all.entry(&statement.identity.of).or_insert_with(Vec::new).push(statement);
    }
    all
}

/// True if a relation holds for an engine.
fn fits(relation: &Relation, engine: &Engine, index: &Index<'_>) -> bool {
    let fits = &relation.fits;
    let layout = engine.layout.as_ref();
    let is = |wanted: &Option<String>, found: Option<&String>| wanted.is_none() || wanted.as_ref() == found;
    let says = |statement: &&Statement, words: &[String]| match &statement.form {
        Form::Text(text) => {
            let text = text.to_lowercase();
            words.iter().any(|word| text.contains(&word.to_lowercase()))
        }
        _ => false,
    };
    is(&fits.cycle, layout.map(|layout| &layout.cycle))
        && is(&fits.fuel, layout.map(|layout| &layout.fuel))
        && fits.has.iter().all(|of| index.contains_key(of))
        && !fits.lacks.iter().any(|of| index.contains_key(of))
        && fits.says.iter().all(|(of, words)| index.get(of).into_iter().flatten().any(|one| says(one, words)))
}

/// Relation and statements that were looked at, in a build of the same engine.
type Seen<'a> = BTreeSet<(&'a str, Vec<Option<Span>>)>;

fn of_relation<'a>(
    relation: &'a Relation,
    bound: &Bound,
    engine: &'a Engine,
    index: &Index<'a>,
    seen: &mut Seen<'a>,
    all: &mut Vec<Breach<'a>>,
) {
    let mut first = |statements: &[Option<&Statement>]| {
        seen.insert((relation.id.as_str(), statements.iter().map(|one| one.map(|one| one.span)).collect()))
    };
    let clauses = &bound.formula.clauses;
    for (occasion, pair) in
        clauses.iter().flat_map(|clause| trend::breaches(clause, &bound.references, index))
    {
        if first(&occasion.statements) {
            all.extend(of_pair(relation, bound, &occasion, &pair));
        }
    }
    if clauses.iter().any(|clause| matches!(clause, Clause::Trend(..) | Clause::Proportion(..))) {
        return;
    }
    for statements in together(&bound.references, index) {
        if !first(&statements) {
            continue;
        }
        let Some(occasion) = occasion(&bound.references, engine.layout.as_ref(), statements) else {
            continue;
        };
        if clauses.iter().all(|clause| broken(clause, &occasion.worths).is_some()) {
            all.extend(
                clauses.first().and_then(|clause| breach(relation, &bound.formula, clause, &occasion)),
            );
        }
    }
}

fn breach<'a>(
    relation: &'a Relation,
    formula: &Formula,
    clause: &Clause,
    occasion: &Occasion<'a>,
) -> Option<Breach<'a>> {
    let found = broken(clause, &occasion.worths)?;
    Some(Breach {
        relation,
        arithmetic: words::arithmetic(clause, found, &occasion.worths),
        remedy: words::remedy(formula, clause, found, &occasion.worths),
        uses: uses(formula, found, occasion),
    })
}

/// A breach of two statements of one name, at two values of a state.
fn of_pair<'a>(
    relation: &'a Relation,
    bound: &Bound,
    occasion: &Occasion<'a>,
    pair: &Clause,
) -> Option<Breach<'a>> {
    let found = broken(pair, &occasion.worths)?;
    let of = bound.references.iter().find_map(|reference| match reference {
        Reference::Entry(wanted) => Some(wanted.of.to_string()),
        Reference::Fact(_) => None,
    })?;
    let at: Vec<&str> = occasion.worths.iter().skip(2).map(|worth| worth.shown.as_str()).collect();
    let name = |state: &&str| Name { text: format!("{of} at {state}"), range: 0..0, narrowed: None };
    let formula = Formula { names: at.iter().map(name).collect(), clauses: Vec::new() };
    let arithmetic = words::arithmetic(pair, found, &occasion.worths);
    let at = at.join(" and ");
    Some(Breach {
        relation,
        arithmetic: format!("{arithmetic}, at {at}"),
        remedy: String::new(),
        uses: uses(&formula, found, occasion),
    })
}

/// The values with a place in a file; one that stands alone on its side first, since it was read as it is.
fn uses<'a>(formula: &Formula, found: Broken<'_>, occasion: &Occasion<'a>) -> Vec<Use<'a>> {
    let alone = match found {
        Broken::Link(left, link) => [left, &link.right].into_iter().find_map(super::tree::Expr::as_name),
        Broken::Whole => None,
    };
    let values = occasion.worths.iter().zip(&occasion.statements).zip(&formula.names).enumerate();
    let mut all: Vec<_> = values
        .filter_map(|(place, ((worth, statement), name))| {
            Some((alone != Some(place), Use { name: name.shown(), span: worth.span?, statement: *statement }))
        })
        .collect();
    all.sort_by_key(|(later, one)| (*later, one.statement.is_none()));
    let mut seen = BTreeSet::new();
    all.into_iter().map(|(_, one)| one).filter(|one| seen.insert(one.span)).collect()
}

/// True if a value lies outside what its entry finds plausible: that is found by itself, and all else follows from it.
fn is_implausible(model: &Model, statement: &Statement) -> bool {
    let plausible = model.entries.get(&statement.identity.of).and_then(|entry| entry.plausible.as_ref());
    let Some(plausible) = plausible.and_then(|plausible| worth::extent(&plausible.value)) else {
        return false;
    };
    let beyond = |end: &End| {
        let below = plausible.low.as_ref().is_some_and(|low| end.nominal < low.nominal);
        below || plausible.high.as_ref().is_some_and(|high| end.nominal > high.nominal)
    };
    statement.form.alternatives().into_iter().filter_map(|forms| forms.first()).any(|printed| {
        worth::extent(&printed.value).is_some_and(|Extent { low, high }| low.iter().chain(&high).any(beyond))
    })
}
