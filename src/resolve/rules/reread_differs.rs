//! `reread-differs`: one of the two readers misread the page; nobody else can tell which.

use crate::diag::{Finding, Rule};
use crate::model::{Form, Printed, Statement};
use crate::quantity::{Difference, Value, Witness, readings_differ};
use crate::source::Span;

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "reread_differs",
    "reread-differs",
    Error,
    Provenance,
    "the second reading of a value differs from the first"
);

/// A second reading whose value is another; `plausible` is the span of its entry.
pub fn finding(
    (here, there): (Span, Span),
    first: &Statement,
    second: &Form,
    plausible: Option<&Value>,
    (key, mine, theirs): (&str, &str, &str),
) -> Finding {
    let message = match (mine, theirs) {
        ("", _) => format!("`{key}` of {} was read as `{theirs}` here, and not at all first", first.identity),
        (_, "") => format!("`{key}` of {} was not read here, and first as `{mine}`", first.identity),
        _ => format!("`{key}` of {} was read as `{theirs}` here, and first as `{mine}`", first.identity),
    };
    let help = difference((here, there), &first.form, second, plausible, mine, theirs)
        .map_or_else(|| reconcile(mine, theirs).to_owned(), |found| help(&found, mine, theirs));
    Finding::new(&RULE, here, message, help).with(there, "first read here").about(first.span)
}

/// How the two differ, where both are values: the forms beside them that both readers read alike tell more.
fn difference(
    (here, there): (Span, Span),
    first: &Form,
    second: &Form,
    plausible: Option<&Value>,
    mine: &str,
    theirs: &str,
) -> Option<Difference> {
    let (mine, theirs) = (Value::parse(mine).ok()?, Value::parse(theirs).ok()?);
    let lists = first.alternatives().into_iter().zip(second.alternatives());
    let list = lists.into_iter().find(|(mine, theirs)| {
        mine.iter().any(|one| one.on_page().span == there) && theirs.iter().any(|one| one.span == here)
    });
    let mut before = true;
    let mut beside = Vec::new();
    for (one, other) in
        list.into_iter().flat_map(|(mine, theirs)| mine.iter().map(Printed::on_page).zip(theirs))
    {
        if one.span == there {
            before = false;
        } else if one.value == other.value {
            beside.push((&one.value, before));
        }
    }
    let witnesses: Vec<_> = plausible.map(Witness::Plausible).into_iter().collect();
    Some(readings_differ(&mine, &theirs, &beside, &witnesses))
}

/// The likelier reading first; nobody is said to be wrong who only may be.
fn help(found: &Difference, mine: &str, theirs: &str) -> String {
    let (right, at_right, wrong, at_wrong) = if found.second_is_likelier {
        (theirs, "first", mine, "second")
    } else {
        (mine, "second", theirs, "first")
    };
    let what = found.what.as_ref().map(|what| format!("{what} in one of them: ")).unwrap_or_default();
    let because = found.because.as_ref().map(|because| format!(" ({because})")).unwrap_or_default();
    format!(
        "{what}look at the page together; in the {at_right} reading write `{right}`{because}, or else in the {at_wrong} write `{wrong}`"
    )
}

/// What two people do about texts that are no values to compare.
fn reconcile(mine: &str, theirs: &str) -> &'static str {
    let forms = |all: &str| all.split(", ").map(str::to_owned).collect::<std::collections::BTreeSet<_>>();
    if mine != theirs && forms(mine) == forms(theirs) {
        "the same forms stand in another order: write them as the page does, the maker's own unit first"
    } else {
        "look at the page together, and correct the reading that is wrong"
    }
}
