//! `dual-units-disagree`: whichever is wrong, a wrench will be set to it.

use crate::check::{Subject, witnesses};
use crate::diag::{Finding, Rule, Sink};
use crate::model::Printed;
use crate::quantity::{Grade, Part, PartName, Side, Slip, Value, Witness, disagreement, grade, likely_slips};

/// See the page beside this file.
pub static RULE: Rule = crate::rule!(
    "dual_units_disagree",
    "dual-units-disagree",
    Error,
    Units,
    "two printed forms of one value contradict each other"
);

/// Every further printed form is held against the first, the maker's own.
pub fn check(subject: &Subject<'_>, sink: &mut Sink) {
    for statement in subject.statements() {
        for (place, forms) in statement.form.alternatives().into_iter().enumerate() {
            let Some((first, others)) = forms.split_first() else { continue };
            let conflicting: Vec<_> = others.iter().filter(|other| contradicts(first, other)).collect();
            if conflicting.is_empty() {
                continue;
            }
            let known = witnesses::of(subject, statement, place);
            let findings = findings(subject, first, others, &conflicting, &known);
            findings.into_iter().for_each(|finding| sink.push(finding.about(statement.span)));
        }
    }
}

/// Whether any printed form of a list contradicts the first: then this rule says what there is to say.
pub fn contradict(forms: &[Printed]) -> bool {
    let mut forms = forms.iter();
    forms.next().is_some_and(|first| forms.any(|other| contradicts(first, other)))
}

fn contradicts(first: &Printed, other: &Printed) -> bool {
    grade(&first.value, &other.value) == Some(Grade::Conflict)
}

/// One finding for each form that contradicts the first, but one for all where it is the first that is wrong.
fn findings(
    subject: &Subject<'_>,
    first: &Printed,
    others: &[Printed],
    conflicting: &[&Printed],
    known: &[Witness<'_>],
) -> Vec<Finding> {
    let mut found = Vec::new();
    for other in conflicting {
        let further = others.iter().filter(|one| !std::ptr::eq(*one, *other));
        let further = further.map(|one| Witness::Again(&one.value, "a further printed form"));
        let known: Vec<_> = known.iter().cloned().chain(further).collect();
        let slips = likely_slips(&first.value, &other.value, &known);
        let mut finding = finding(subject, first, other, &slips);
        let first_is_wrong = slips.first().filter(|one| one.side == Side::Primary);
        if conflicting.len() > 1 && first_is_wrong.is_some_and(|slip| agrees_with_all(slip, others)) {
            for another in conflicting.iter().filter(|one| !std::ptr::eq(**one, *other)) {
                finding = finding.with(another.span, "this form contradicts it too");
            }
            return vec![finding];
        }
        found.push(finding);
    }
    found
}

fn agrees_with_all(slip: &Slip, others: &[Printed]) -> bool {
    let offer = Value::parse(&slip.offer);
    offer.is_ok_and(|offer| others.iter().all(|other| grade(&offer, &other.value) != Some(Grade::Conflict)))
}

fn finding(subject: &Subject<'_>, first: &Printed, other: &Printed, slips: &[Slip]) -> Finding {
    let part = disagreement(&first.value, &other.value);
    let message = message(&first.value, &other.value, part.as_ref());
    let help = format!("{}; if the page itself is wrong, say so with `misprint`", help(slips));
    let within = |reading: &Printed, part: Option<&Part>| {
        let inner = part.map_or(0..reading.typed.len(), |one| one.range.clone());
        subject.sources.inside(reading.span, &reading.typed, inner)
    };
    // Where a witness speaks against the first form, that is where to look.
    if slips.first().is_some_and(|one| one.side == Side::Primary && one.because.is_some()) {
        let span = within(first, disagreement(&other.value, &first.value).as_ref());
        return Finding::new(&RULE, span, message, help).with(other.span, "the other form is here");
    }
    Finding::new(&RULE, within(other, part.as_ref()), message, help)
        .with(first.span, "the maker's own unit is here")
}

/// What was probably meant, each offer as "write `VALUE`", the likelier first.
fn help(slips: &[Slip]) -> String {
    let because =
        |slip: &Slip| slip.because.as_ref().map(|because| format!(" ({because})")).unwrap_or_default();
    match slips {
        [] => "read both again from the page, and correct the one that is wrong".to_owned(),
        [only] => format!("probably {}; write `{}` if the page says so", only.what, only.offer),
        [first, second, ..] => format!(
            "probably {}{}; write `{}` if the page says so; or else {}; then write `{}`",
            first.what,
            because(first),
            first.offer,
            second.what,
            second.offer
        ),
    }
}

/// What the part that contradicts should be, to more digits than it prints.
fn message(primary: &Value, secondary: &Value, part: Option<&Part>) -> String {
    let (whole, other) = (primary.text(), secondary.text());
    let unit = secondary.unit();
    match part {
        Some(Part { name: PartName::Value, expected: Some(expected), .. }) => {
            format!("`{whole}` is {}, not `{other}`", unit.after(expected))
        }
        Some(Part { name, expected: Some(expected), printed: Some(printed), .. }) => {
            let name = word(*name);
            format!("the {name} of `{whole}` is {}, not {printed} as in `{other}`", unit.after(expected))
        }
        Some(Part { name, expected: Some(_), .. }) => {
            format!("`{whole}` has a {}, and `{other}` has none", word(*name))
        }
        Some(Part { name, .. }) => format!("`{other}` has a {}, and `{whole}` has none", word(*name)),
        None => format!("`{whole}` and `{other}` do not agree"),
    }
}

const fn word(part: PartName) -> &'static str {
    match part {
        PartName::Value => "value",
        PartName::Nominal => "middle",
        PartName::Plus | PartName::Minus => "tolerance",
        PartName::Percent => "tolerance in percent",
        PartName::Minimum => "minimum",
        PartName::Maximum => "maximum",
    }
}
